"""What a reminder on the desktop says, and that it says it once a day at most."""

import hashlib
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from wellbook.book.rows import Point, Well
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.support.whole_file import read_whole, write_whole
from wellbook.water.sampling.due import PanelDue
from wellbook.wording.dates import written

_NAMED = 3
_DAY_SIZE = 10  # bytes of a day in ISO 8601

Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]


def sentence(dues: Dues, today: date) -> str:
    """What is due, in a line or two; empty if nothing is. Nothing about people stands in it."""
    now = [(point, one) for _unused, point, panels in dues for one in panels if one.due <= today]
    if not now:
        return ""
    names = list(dict.fromkeys(one.panel.name for _unused, one in now if not one.private))
    more = len({one.panel.name for _unused, one in now}) - len(names[:_NAMED])
    said = ", ".join(names[:_NAMED])
    if more:
        said = (
            _("{said} and {more} more").format(said=said, more=more)
            if said
            else ngettext("{n} test", "{n} tests", more).format(n=more)
        )
    day = next((one.day for _unused, one in now if one.day), None)
    good = (" " + _("A good day: {day}.").format(day=written(day))) if day else ""
    return _("Due at {now}: {said}.{good}").format(now=now[0][0].name, said=said, good=good)


def was_told(book: Path, today: date) -> bool:
    """Whether the reminder of a book was shown on that day."""
    try:
        return read_whole(_note(book), _DAY_SIZE) == str(today).encode()
    except (OSError, Fault):
        return False


def note_told(book: Path, today: date) -> None:
    """Remember that the reminder of a book was shown; without room for that it comes again."""
    try:
        write_whole(_note(book), str(today).encode())
    except (OSError, Fault):
        return


def _note(book: Path) -> Path:
    name = hashlib.sha256(str(book.absolute()).encode("utf-8", "surrogateescape")).hexdigest()
    return paths.cache() / f"told-{name[:16]}"
