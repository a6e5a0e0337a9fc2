"""The check as a command."""

import sys
from pathlib import Path

from wellbook.cli.reference_data import counts, faults, table
from wellbook.support import paths


def main() -> None:
    """Check the folder that is named, or the data that come with Wellbook."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else paths.resources()
    found = faults(folder)
    sys.stdout.writelines(f"{fault}\n" for fault in found)
    if not found:
        sys.stdout.write(f"{table(counts(folder))}\n")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
