"""When a treatment unit, the pump or the wellhead is due for what it needs at intervals."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Literal

from wellbook.support.csv_rows import Stored, read_rows
from wellbook.water.sampling.inspection import Item, read_checklist
from wellbook.water.sampling.use import Amount, Used, used_up
from wellbook.water.units import spellings
from wellbook.water.units.factors import BASE, to_base
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Reading
from wellbook.water.values.seasons import add_months

WELL = "well"  # tasks of the well itself, not of a unit
METER = "meter"  # a service of that kind only says what the meter showed


@dataclass(frozen=True, slots=True)
class Behind:
    """What must not come through right behind a unit.

    Attributes:
        parameter: Key of the parameter; empty for whatever the unit is meant to take out.
        over: From which figure on it asks for something; None for any that is found.
        unit: Label of the unit of that figure, of mass in water; empty without one.
    """

    parameter: str = ""
    over: Decimal | None = None
    unit: str = ""

    @classmethod
    def parse(cls, cell: str) -> "Behind":
        """Read `any`, or a parameter, a figure and its unit.

        Raises:
            ValueError: It is neither.
        """
        if cell == "any":
            return cls()
        parameter, figure, unit = cell.split()
        known = spellings.understand(unit)
        if known is None or known.quantity != spellings.MASS:
            raise ValueError(cell)
        return cls(parameter, Decimal(figure), known.label)

    def is_over(self, reading: Reading) -> bool:
        """Whether a reading says that too much came through; an unknown figure counts as much."""
        if not reading.is_detect or reading.number == 0:
            return False
        unit = spellings.understand(reading.unit)
        if self.over is None or reading.number is None or unit is None:
            return True
        if unit.quantity not in {spellings.MASS, spellings.FRACTION}:
            return True
        figure = to_base(unit.label, BASE[unit.quantity]).of(reading.number)
        return figure > to_base(self.unit, BASE[spellings.MASS]).of(self.over)


@dataclass(frozen=True, slots=True)
class Only:
    """What has to be in a book for a task to be asked for.

    Attributes:
        kind: `log` for an item of the well's log, `for` for what the unit is meant to take out,
            `raw` for what is in the water before any treatment, `after` for what was noted of the
            unit; a task of that last kind is due at once, and once.
        names: Items of the log, keys of parameters, or the kind of service.
        over: For `raw`, how much of a parameter it takes.
    """

    kind: Literal["log", "for", "raw", "after"]
    names: tuple[str, ...] = ()
    over: Behind | None = None

    @classmethod
    def parse(cls, cell: str) -> "Only":
        """Read `log` and an item, `for` and keys, `raw` and a figure, or `after` and a service.

        Raises:
            ValueError: It is none of them.
        """
        match cell.split(maxsplit=1):
            case ["log", item]:
                return cls("log", (item,))
            case ["after", service]:
                return cls("after", (service,))
            case ["for", keys]:
                return cls("for", tuple(keys.split()))
            case ["raw", figure]:
                over = Behind.parse(figure)
                return cls("raw", (over.parameter,), over)
        raise ValueError(cell)


@dataclass(frozen=True, slots=True)
class Task:
    """What is done at intervals.

    Attributes:
        key: Stable key; a household's own interval is kept under it.
        of: Kind of treatment unit it belongs to, or `well`.
        done_as: Kind of service, or of event for a well, that counts as doing it.
        only: What has to be in the book for it; None where nothing else has.
        part: What it is done to. Of two tasks for one part of a unit only one holds.
        task: One sentence that says what to do, to be said.
        months: Usual interval in calendar months; 0 for what something noted asks for, once.
        latest: The longest interval; it is overdue after that.
        behind: What makes it due as soon as it is found right behind the unit; or None.
        measured: `volume` or `hours` where it lasts for so many gallons or hours, too; or empty.
        use: How long it lasts by use, to be said; or empty.
        sign: What asks for it sooner, to be said; or empty.
        who: `owner`, `treatment dealer` or `licensed well contractor`.
        caution: What can hurt someone, to be said; or empty.
        source: Who says so.
        checked: Whether the interval was read in a text.

    Raises:
        ValueError: The longest interval is shorter than the usual one, or one is not positive for
            what comes again.
    """

    key: str
    of: str
    done_as: str
    only: Only | None
    part: str
    task: str
    months: int
    latest: int
    behind: Behind | None
    measured: Literal["", "volume", "hours"]
    use: str
    sign: str
    who: str
    caution: str
    source: str
    checked: Stored

    def __post_init__(self) -> None:
        least = 0 if self.asked_after else 1
        if not least <= self.months <= self.latest or (self.asked_after and self.latest):
            raise ValueError(f"{self.months} to {self.latest} months is no interval")

    @property
    def asked_after(self) -> str:
        """The kind of service that asks for it at once; empty where an interval does."""
        return self.only.names[0] if self.only and self.only.kind == "after" else ""


@dataclass(frozen=True, slots=True)
class Upkeep:
    """What Wellbook knows of upkeep: the tasks, and the checklist of the yearly inspection."""

    tasks: tuple[Task, ...] = ()
    checklist: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class Done:
    """Something done to a unit or a well.

    Attributes:
        kind: Kind of service or event.
        day: ISO date, month or year.
        meter: What the unit's meter showed; or None.
    """

    kind: str
    day: str
    meter: Amount | None = None


@dataclass(frozen=True, slots=True)
class Own:
    """A household's own interval.

    Attributes:
        months: In calendar months; 0 for never.
        use: What it lasts for, whichever comes first; or None.
        a_day: How much of that is used in a day, by the household's reckoning; or None.
    """

    months: int
    use: Amount | None = None
    a_day: Amount | None = None


@dataclass(frozen=True, slots=True)
class UpkeepDue:
    """When a task is due.

    Attributes:
        task: The task.
        last: The last day it may have been done, or the unit was installed; None if not known.
        was_done: Whether `last` is a day it was done, not the day the unit came.
        due: The day it falls due, by time or use, whichever comes first; None where nobody wrote
            down when it was last done.
        overdue_days: Days past the longest interval, or since it was used up; 0 while neither.
        used: How much of what it lasts for is used; None where that is not known.
    """

    task: Task
    last: date | None
    was_done: bool
    due: date | None
    overdue_days: int
    used: Used | None = None


def read_tasks(folder: Path) -> tuple[Task, ...]:
    """The tasks of `upkeep.csv`, in the order of the file.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    return tuple(read_rows(folder / "upkeep.csv", Task))


def read_upkeep(folder: Path) -> Upkeep:
    """Tasks and checklist.

    Raises:
        OSError: A file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    return Upkeep(read_tasks(folder), read_checklist(folder))


def upkeep_due(
    tasks: Sequence[Task],
    of: str,
    since: str,
    done: Iterable[Done],
    today: date,
    own: Mapping[str, Own] | None = None,
) -> tuple[UpkeepDue, ...]:
    """What a unit of some kind, or a well, needs, and when.

    Args:
        tasks: The tasks for which the book has what they need.
        of: The unit's kind, or `well`.
        since: When the unit was installed, as an ISO date, month or year; empty if not known.
        done: What was done to it.
        today: Nothing that was done later counts.
        own: The household's own intervals by key of the task.

    Returns:
        The tasks that apply, in the order of the file.
    """
    acts = [act for act in done if (day := _first(act.day)) and day <= today]
    found = [(task, (own or {}).get(task.key)) for task in _that_hold(of_kind(tasks, of), acts)]
    return tuple(
        _due(task, since, acts, today, chosen)
        for task, chosen in found
        if (chosen is None or chosen.months) and _is_asked(task, acts)
    )


def of_kind(tasks: Iterable[Task], of: str) -> tuple[Task, ...]:
    """The tasks of a kind of unit, however its letters are written, or of a well."""
    kind = " ".join(of.casefold().split())
    return tuple(task for task in tasks if task.of == kind)


def _that_hold(tasks: Sequence[Task], acts: Sequence[Done]) -> Iterator[Task]:
    """Of the tasks for one part the one that was ever done, else the first of the file."""
    kinds = {act.kind for act in acts}
    for part in dict.fromkeys(task.part for task in tasks):
        same = [task for task in tasks if task.part == part]
        yield next((task for task in same if task.done_as in kinds), same[0])


def _is_asked(task: Task, acts: Sequence[Done]) -> bool:
    """Whether what asks for a task was noted, and not surely done since."""
    days = (read_partial_date(act.day) for act in acts if act.kind == task.asked_after)
    asked = max((day.last for day in days if day), default=None)
    done = _last(acts, task.done_as)
    return not task.asked_after or (asked is not None and (done is None or done < asked))


def _last(acts: Iterable[Done], kind: str) -> date | None:
    # A date known to the month or year counts from its first day: sooner, never later.
    return max(filter(None, (_first(act.day) for act in acts if act.kind == kind)), default=None)


def _due(task: Task, since: str, acts: Sequence[Done], today: date, own: Own | None) -> UpkeepDue:
    if task.asked_after:
        asked = _last(acts, task.asked_after) or today
        late = (today - asked).days
        return UpkeepDue(task, asked, was_done=False, due=asked, overdue_days=late)
    last = _last(acts, task.done_as)
    was_done = last is not None
    start = last or _first(since)
    if start is None:
        return UpkeepDue(task, None, was_done=False, due=None, overdue_days=0)
    due = add_months(start, own.months if own else task.months)
    late = (today - add_months(start, own.months if own else task.latest)).days
    used = _used(start, acts, own)
    if used and used.day <= today:
        late = max(late, (today - used.day).days)
    due = min(due, used.day) if used else due
    return UpkeepDue(task, start, was_done, due, max(late, 0), used)


def _used(new: date, acts: Iterable[Done], own: Own | None) -> Used | None:
    if own is None or own.use is None:
        return None
    read = [(day, act.meter) for act in acts if act.meter and (day := _first(act.day))]
    return used_up(own.use, new, read, own.a_day)


def _first(text: str) -> date | None:
    known = read_partial_date(text)
    return known.first if known else None
