"""`python -m wellbook` is the same as `wellbook`."""

from wellbook.cli import main

if __name__ == "__main__":
    main()
