"""A draft's account in words, for the window and the commands."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from wellbook.intake.files.sheets import Place
from wellbook.support.translation import _, ngettext

if TYPE_CHECKING:
    from wellbook.intake.draft import Draft
    from wellbook.intake.tables.tables import NotTaken


def said_taken(draft: "Draft") -> str:
    """How many figures of the file became results, as `Taken: 8 of 9 figures.`."""
    n = draft.figures
    return ngettext("Taken: {taken} of {n} figure.", "Taken: {taken} of {n} figures.", n).format(
        taken=draft.taken, n=n
    )


def outside_words(n: int) -> str:
    """How many results of a file are outside a limit; nothing is said where none is known to be."""
    said = ngettext("{n} result outside a limit", "{n} results outside a limit", n)
    return said.format(n=n) if n else ""


def where_words(place: Place) -> str:
    """Where something stands, as a person looks for it."""
    if place.page:
        said = _("page {page}, line {line}") if place.row else _("page {page}")
        return said.format(page=place.page, line=place.row)
    if not place.row:
        return place.sheet
    cell = f"{letters(place.column)}{place.row}"
    return _("{sheet}, cell {cell}").format(sheet=place.sheet, cell=cell) if place.sheet else cell


def short_where(kept: str) -> str:
    """Where a kept reading stands in its report, as short as a narrow column needs it."""
    place = Place.parse(kept)
    if place is None or not place.page:
        return where_words(place._replace(sheet="")) if place else ""
    return _("p. {page}, l. {line}").format(page=place.page, line=place.row)


def letters(column: int) -> str:
    """The letters of a column as spreadsheets count them."""
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def left_words(*left: "NotTaken", most: int = 0) -> str:
    """What was not taken for one reason, where it stands and why.

    Args:
        left: All of one sort, left aside or not taken, and for one reason.
        most: How many are named; the others are counted. 0 for all.
    """
    word = _("Left aside") if left[0].is_aside else _("Not taken")
    named = [_with_place(one) for one in (left[:most] if most else left)]
    n = len(left) - len(named)
    more = _("and {n} more").format(n=n) if n else ""
    return f"{word}: {' '.join(filter(None, ('; '.join(named), more)))}: {left[0].why}"


def _with_place(left: "NotTaken") -> str:
    where = where_words(left.place)
    return f"{left.what} ({where})" if where else left.what


def by_reason(left: Iterable["NotTaken"]) -> "tuple[tuple[NotTaken, ...], ...]":
    """What was not taken, of one sort and for one reason together."""
    reasons: dict[tuple[str, bool], list[NotTaken]] = {}
    for one in left:
        reasons.setdefault((one.why, one.is_aside), []).append(one)
    return tuple(map(tuple, reasons.values()))


def completed_words(added: int, corrected: int) -> str:
    """What was added to tests of the book, and what was corrected in them."""
    n = corrected
    said = (
        ngettext("{n} reading is corrected.", "{n} readings are corrected.", n).format(n=n)
        if n
        else "",
        ngettext("{n} reading is added.", "{n} readings are added.", added).format(n=added)
        if added or not n
        else "",
    )
    return " ".join(filter(None, said))


def untaken_words(names: Sequence[str], faults: Iterable[str]) -> str:
    """What can be done with reports of which no table can be read; the faults say why."""
    from wellbook.intake.pages.words import EXTRA

    said = _(
        "No table can be read from {names}. Ask the lab for the results as CSV or XLSX, or "
        "type them in: the file is kept beside the test."
    ).format(names=", ".join(names))
    if not any(EXTRA in fault for fault in faults):
        return said
    needed = _("To read scans and photos the extra {extra} is needed; it is not installed.")
    return f"{said} {needed.format(extra=EXTRA)}"
