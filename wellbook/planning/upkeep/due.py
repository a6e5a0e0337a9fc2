"""What is due at units, pump and wellheads, and what inspections found that is not mended yet."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import TreatmentUnit, Well
from wellbook.planning.upkeep import mending
from wellbook.support.translation import _
from wellbook.water.sampling.inspection import ToMend, to_mend
from wellbook.water.sampling.upkeep import (
    WELL,
    Behind,
    Done,
    Only,
    Own,
    Task,
    Upkeep,
    UpkeepDue,
    of_kind,
    upkeep_due,
)
from wellbook.water.sampling.use import Amount, Used
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag
from wellbook.water.values.results import Result
from wellbook.wording import dates, facts

MEND = "mend"  # what an inspection found is not kept under the key of a task


@dataclass(frozen=True, slots=True)
class UpkeepItem:
    """Something to be done that no lab does.

    Attributes:
        well: The well it belongs to.
        unit: The unit it is done to; None for the well itself.
        key: Key of the task, or of the line of the checklist that was found bad.
        done_as: Kind of service or event that says it was done; `mend` for what was found bad.
        part: What it is done to.
        what: One sentence that says what to do.
        who: Who does it.
        caution: What can hurt someone; or empty.
        sign: What asks for it sooner; or empty.
        source: Who says so.
        last: The last day it may have been done, the unit came, or the fault was found; or None.
        was_done: Whether `last` is a day it was done.
        due: The day it falls due, or since when it has been asked for where no day is known.
        is_dated: Whether `due` follows from a day that was entered.
        overdue_days: Days past its longest interval, or since it was used up; for a fault, since it
            was found.
        used: How much of what it lasts for is used; None where that is not known.
        is_at_once: Whether no interval asks for it: something was found, or did not work.
        faults: Numbers of the answers that found it bad.
        text: What was seen, in the household's words; or empty.
    """

    well: Well
    unit: TreatmentUnit | None
    key: str
    done_as: str
    part: str
    what: str
    who: str
    caution: str
    sign: str
    source: str
    last: date | None
    was_done: bool
    due: date
    is_dated: bool
    overdue_days: int
    used: Used | None = None
    is_at_once: bool = False
    faults: tuple[int, ...] = ()
    text: str = ""

    @property
    def is_used_up_first(self) -> bool:
        """Whether it falls due by use, before its time."""
        return self.used is not None and self.used.day <= self.due

    @property
    def is_fault(self) -> bool:
        """Whether an inspection found it bad."""
        return bool(self.faults)


def upkeep_items(record: Record, upkeep: Upkeep, today: date) -> tuple[UpkeepItem, ...]:
    """What units in use and wells need, well by well: faults, what is wanted at once, what is due.

    What nobody wrote down a day of is asked for since the book was begun. A well that another one
    replaces needs no care of its own; its units do until they are removed.
    """
    replaced = {well.replaces for well in record.wells}
    return tuple(
        item
        for well in record.wells
        for item in sorted(
            _of_well(record, upkeep, well, today, is_used=well.id not in replaced),
            key=lambda item: (
                not item.is_fault,
                not item.is_at_once,
                item.due > today,
                not item.is_dated,
                item.due,
            ),
        )
    )


def due_now(items: Iterable[UpkeepItem], today: date) -> tuple[UpkeepItem, ...]:
    """What is due by a day."""
    return tuple(item for item in items if item.due <= today)


def _of_well(
    record: Record, upkeep: Upkeep, well: Well, today: date, *, is_used: bool
) -> Iterator[UpkeepItem]:
    since = min(record.begun or today, today)
    events = record.events_of(well.id)
    if is_used:
        for fault in to_mend(mending.seen(record, well), today):
            yield _fault(upkeep, well, fault, since, today)
        acts = [Done(event.kind, event.day) for event in events]
        own = _own(record, well, None)
        tasks = tasks_of(record, upkeep, well, None)
        for found in upkeep_due(tasks, WELL, "", acts, today, own):
            yield _task(well, None, found, since)
    for unit in record.units_of(well.id):
        removed = read_partial_date(unit.removed)
        if removed and removed.first <= today:
            continue
        acts = [
            Done(one.kind, one.day, Amount.read(one.meter)) for one in record.services_of(unit.id)
        ]
        own = _own(record, well, unit)
        tasks = tasks_of(record, upkeep, well, unit)
        for found in upkeep_due(tasks, unit.kind, unit.installed, acts, today, own):
            item = _task(well, unit, found, since)
            let_through = _let_through(record, unit, found, today)
            yield _at_once(record, item, let_through, today) if let_through else item


def tasks_of(
    record: Record, upkeep: Upkeep, well: Well, unit: TreatmentUnit | None
) -> tuple[Task, ...]:
    """The tasks of a unit, or of the well itself, for which the book has what they are for."""
    return tuple(
        task
        for task in of_kind(upkeep.tasks, unit.kind if unit else WELL)
        if task.only is None or _has(record, well, unit, task.only)
    )


def _has(record: Record, well: Well, unit: TreatmentUnit | None, only: Only) -> bool:
    match only.kind:
        case "log":
            return bool({item.casefold() for item in well.construction} & set(only.names))
        case "for":
            return unit is not None and bool(set(unit.target.split()) & set(only.names))
        case "raw":
            return only.over is not None and _is_in_raw_water(record, well, only.over)
        case "after":
            return True


def _is_in_raw_water(record: Record, well: Well, over: Behind) -> bool:
    """Whether the latest result at a tap before any treatment lies over a figure."""
    for point in record.points_of(well.id):
        if point.treated:
            continue
        results = record.tests.results(point.id, over.parameter)
        counted = (one for one in results if Flag.REJECTED not in one.reading.flags)
        latest = max(counted, key=lambda one: one.collected.day, default=None)
        if latest is not None and over.is_over(latest.reading):
            return True
    return False


def _let_through(
    record: Record, unit: TreatmentUnit, found: UpkeepDue, today: date
) -> Result | None:
    """The first result right behind a unit that has what it is meant to take out.

    What was found before the unit came, or was last seen to, tells nothing of what is in it now.
    """
    behind = [one for one in record.points_of(unit.well) if one.treated and one.place > unit.place]
    if not (found.task.behind and behind):
        return None
    limit, since = found.task.behind, found.last or date.min
    watched = [limit.parameter] if limit.parameter else unit.target.split()
    results = record.results(min(behind, key=lambda one: one.place).id)
    let = (
        one
        for one in results
        if one.parameter in watched
        and limit.is_over(one.reading)
        and Flag.REJECTED not in one.reading.flags
        and since < one.collected.day <= today
    )
    return min(let, key=lambda one: one.collected.day, default=None)


def _at_once(record: Record, item: UpkeepItem, let: Result, today: date) -> UpkeepItem:
    """What is due since something was found behind the unit, if not before."""
    day = let.collected.day
    names = {point.id: point.name for point in record.points}
    figure = facts.with_unit(let.reading.text, let.reading.unit, "")
    said = _("{name} was found right behind it, at {point}, on {day}: {figure}. {task}").format(
        name=let.name, point=names[let.point], day=dates.written(day), figure=figure, task=item.what
    )
    since = min(item.due, day) if item.is_dated else day
    overdue = max(item.overdue_days, (today - since).days)
    return replace(item, what=said, due=since, is_dated=True, overdue_days=overdue, is_at_once=True)


def _own(record: Record, well: Well, unit: TreatmentUnit | None) -> dict[str, Own]:
    number = unit.id if unit else None
    return {
        one.task: Own(one.months, Amount.read(one.use), Amount.read(one.a_day))
        for one in record.intervals
        if one.well == well.id and one.unit == number
    }


def _task(well: Well, unit: TreatmentUnit | None, found: UpkeepDue, since: date) -> UpkeepItem:
    task = found.task
    return UpkeepItem(
        well=well,
        unit=unit,
        key=task.key,
        done_as=task.done_as,
        part=task.part,
        what=task.task,
        who=task.who,
        caution=task.caution,
        sign=task.sign,
        source=task.source,
        last=found.last,
        was_done=found.was_done,
        due=found.due or since,
        is_dated=found.due is not None,
        overdue_days=found.overdue_days,
        used=found.used,
        is_at_once=bool(task.asked_after),
    )


def _fault(upkeep: Upkeep, well: Well, fault: ToMend, since: date, today: date) -> UpkeepItem:
    item = next((item for item in upkeep.checklist if item.key == fault.item), None)
    found = fault.since or since
    return UpkeepItem(
        well=well,
        unit=None,
        key=fault.item,
        done_as=MEND,
        part=item.name if item else fault.item,
        what=item.do if item else "",
        who=item.who if item else "",
        caution=item.caution if item else "",
        sign="",
        source=item.source if item else "",
        last=fault.since,
        was_done=False,
        due=found,
        is_dated=fault.since is not None,
        overdue_days=max((today - found).days, 0),
        faults=tuple(seen.number for seen in fault.seen),
        text=next((seen.text for seen in reversed(fault.seen) if seen.text), ""),
    )
