"""`python -m wellbook` is the same as `wellbook`."""

from wellbook.cli.main import main

if __name__ == "__main__":
    main()
