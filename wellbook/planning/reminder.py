"""What a reminder on the desktop says, and that it says it once a day at most."""

import hashlib
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from wellbook.book.rows import Point, Well
from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.planning.upkeep.words import place
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.support.watched_books import watched
from wellbook.support.whole_file import read_whole, write_whole
from wellbook.water.sampling.due import PanelDue
from wellbook.wording.dates import written

_NAMED = 3
_DAY_SIZE = 10  # bytes of a day in ISO 8601

Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]


def sentence(dues: Dues, today: date, upkeep: Sequence[UpkeepItem] = ()) -> str:
    """What is due, in a line or two; empty if nothing is. Nothing about people stands in it."""
    return " ".join(filter(None, (_of_tests(dues, today), _of_upkeep(upkeep))))


def _of_upkeep(due: Sequence[UpkeepItem]) -> str:
    """What units, pump and wellhead need by now, as far as a day is known."""
    names = list(dict.fromkeys(place(item) for item in due if item.is_dated))
    said, more = ", ".join(names[:_NAMED]), len(names[_NAMED:])
    if more:
        said = _("{said} and {more} more").format(said=said, more=more)
    return _("To be cared for: {names}.").format(names=said) if said else ""


def _of_tests(dues: Dues, today: date) -> str:
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


def note(book: Path, dues: Dues, today: date, upkeep: Sequence[UpkeepItem] = ()) -> tuple[str, str]:
    """Title and text of a reminder, both empty if nothing is due.

    The title names the book where several are looked at.
    """
    text = sentence(dues, today, upkeep)
    if not text:
        return "", ""
    is_test = bool(_of_tests(dues, today))
    head = _("A water test is due") if is_test else _("The water system needs care")
    several = len(watched()) > 1
    return (_("{what}: {book}").format(what=head, book=book.stem) if several else head), text


def lost_sentence(book: Path) -> str:
    """That a book is no longer looked at because it is gone, and what helps."""
    return _(
        "{book} is no longer in {folder}: nobody is reminded of its tests. Open it where it is "
        "now, or end this with: wellbook signin --off"
    ).format(book=book.name, folder=book.parent)


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
