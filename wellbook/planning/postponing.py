"""Putting a test off, with the reason."""

from dataclasses import replace
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import Plan, Point
from wellbook.planning.due import days_tested, planned
from wellbook.planning.overview import due, point_record
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.due import PanelDue
from wellbook.water.values.catalogue import Catalogue


def find_due(
    record: Record, catalogue: Catalogue, today: date, panel: str, *, point: str = ""
) -> tuple[Point, PanelDue]:
    """What is planned under a name, at a point or at the first that has it.

    Raises:
        Fault: Nothing is planned under that name; the sentence lists what is.
    """
    known: list[str] = []
    for _unused, place, panels in due(record, catalogue, today):
        for one in panels:
            if point in {"", place.name}:
                if panel.casefold() in {one.panel.name.casefold(), one.panel.key}:
                    return place, one
                known.append(one.panel.name)
    said = _("Nothing is planned under the name {panel!r}. What is planned: {names}.")
    if not known:
        said = _("Nothing is planned under the name {panel!r}, nor under any other.")
    raise Fault(said.format(panel=panel, names=", ".join(dict.fromkeys(known))))


def postponed(
    record: Record,
    catalogue: Catalogue,
    today: date,
    point: Point,
    due: PanelDue,
    *,
    until: date,
    why: str,
) -> tuple[Plan, ...]:
    """The plans to write down so that a test is put off to a day, with the reason.

    Raises:
        Fault: The day lies in the past, or no reason is given.
    """
    if until <= today:
        raise Fault(
            _("{until} is no day to come: choose a later one.").format(until=until.isoformat())
        )
    if not why.strip():
        raise Fault(_("A test is put off with a reason: say why it has to wait."))
    key, plans = due.panel.key, record.plans_of(point.id)
    if key in catalogue.panels:
        days = days_tested(point_record(record, point.id, today), catalogue)
        plans = planned(record, catalogue, point, days)
    kept = next((plan for plan in plans if plan.panel == key), Plan(0, point.id, key, 0))
    return (replace(kept, postponed=until.isoformat(), postponed_why=why.strip()),)
