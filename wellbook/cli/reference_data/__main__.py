"""The check as a command."""

import sys
from pathlib import Path

from wellbook.cli.reference_data import counts, faults, table, warnings
from wellbook.support import paths


def main() -> None:
    """Check the folder that is named, or the data that come with Wellbook."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else paths.resources()
    found = faults(folder)
    sys.stdout.writelines(f"{fault}\n" for fault in found)
    if not found:
        counted = counts(folder)
        sys.stdout.writelines(f"{warning}\n" for warning in warnings(counted))
        sys.stdout.write(f"{table(counted)}\n")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
