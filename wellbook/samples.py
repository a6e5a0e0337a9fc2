"""The invented households: which there are, and copying one to where a person wants it."""

from pathlib import Path

from wellbook import places
from wellbook.faults import Fault


def known() -> dict[str, str]:
    """Name and one sentence on each household."""
    import tomllib

    found = {}
    for file in sorted(places.sample_wells().glob("*/household.toml")):
        found[file.parent.name] = tomllib.loads(file.read_text(encoding="utf-8"))["about"]
    return found


def copy(name: str, book: Path) -> None:
    """Copy a household's book.

    Raises:
        Fault: There is no such household, a file is there already, or it can't be written.
    """
    import shutil

    source = places.sample_wells() / f"{name}.wellbook"
    if name not in known() or not source.is_file():
        raise Fault(f"There is no invented household {name}: choose {', '.join(known())}.")
    if book.exists():
        raise Fault(f"{book} exists already: choose another name, nothing was changed.")
    if not book.parent.is_dir():
        raise Fault(f"The folder {book.parent} does not exist: make it first.")
    try:
        shutil.copyfile(source, book)
    except OSError as error:
        book.unlink(missing_ok=True)
        raise Fault(f"{book} can't be written: {error.strerror}.") from error
