"""The invented households: which there are, and copying one to where a person wants it."""

from pathlib import Path

from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import require_free, write_whole


def known() -> dict[str, str]:
    """Name and one sentence on each household, in the language of now."""
    import tomllib

    found = {}
    for file in sorted(paths.sample_wells().glob("*/household.toml")):
        found[file.parent.name] = _(tomllib.loads(file.read_text(encoding="utf-8"))["about"])
    return found


def copy(name: str, book: Path) -> None:
    """Copy a household's book.

    Raises:
        Fault: There is no such household, a file is there already, or it can't be written.
    """
    source = paths.sample_wells() / f"{name}.wellbook"
    if name not in known() or not source.is_file():
        raise Fault(
            _("There is no invented household {name}: choose {known}.").format(
                name=name, known=", ".join(known())
            )
        )
    require_free(book)
    write_whole(book, source.read_bytes())
