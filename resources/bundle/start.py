"""What a bundle runs: Wellbook, or one of its modules that reads for another process."""  # noqa: INP001

import sys

from wellbook.support.program import READ

if __name__ == "__main__":
    if sys.argv[1:2] == [READ]:
        from importlib import import_module

        name = sys.argv[2]
        if not name.startswith("wellbook."):
            sys.exit(2)
        import_module(name).main()
    else:
        from wellbook.cli.main import main

        main()
