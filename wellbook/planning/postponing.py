"""Putting a test off, with the reason."""

from datetime import date

from wellbook.book.book import Book
from wellbook.book.rows import Point
from wellbook.planning.due import days_tested, planned
from wellbook.planning.overview import due, point_record
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.due import PanelDue
from wellbook.water.values.catalogue import Catalogue


def find_due(
    book: Book, catalogue: Catalogue, today: date, panel: str, *, point: str = ""
) -> tuple[Point, PanelDue]:
    """What is planned under a name, at a point or at the first that has it.

    Raises:
        Fault: Nothing is planned under that name; the sentence lists what is.
    """
    known: list[str] = []
    for _unused, place, panels in due(book, catalogue, today):
        for one in panels:
            if point in {"", place.name}:
                if panel.casefold() in {one.panel.name.casefold(), one.panel.key}:
                    return place, one
                known.append(one.panel.name)
    names = ", ".join(dict.fromkeys(known)) or "nothing"
    raise Fault(
        _("Nothing is planned under the name {panel!r}. What is planned: {names}.").format(
            panel=panel, names=names
        )
    )


def postpone(
    book: Book,
    catalogue: Catalogue,
    today: date,
    point: Point,
    one: PanelDue,
    *,
    until: date,
    why: str,
) -> None:
    """Put a test off to a day, with the reason.

    At a point without plans of its own the usual ones are written down first, so that nothing
    else goes unplanned.

    Raises:
        Fault: The day lies in the past, or no reason is given.
    """
    if until <= today:
        raise Fault(
            _("{until} is no day to come: choose a later one.").format(until=until.isoformat())
        )
    if not why.strip():
        raise Fault(_("A test is put off with a reason: say why it has to wait."))
    off = {"postponed": until.isoformat(), "postponed_why": why.strip()}
    plans = {}
    if one.panel.key in catalogue.panels:
        days = days_tested(point_record(book, point.id, today), catalogue)
        plans = {plan.panel: plan for plan in planned(book, catalogue, point, days)}
    months = plans[one.panel.key].months if one.panel.key in plans else 0
    book.set_plan(point.id, one.panel.key, months, **off)
