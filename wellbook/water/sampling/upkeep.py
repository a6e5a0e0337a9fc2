"""When a treatment unit, the pump or the wellhead is due for what it needs at intervals."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

from wellbook.support.csv_rows import Stored, read_rows
from wellbook.water.sampling.inspection import Item, read_checklist
from wellbook.water.sampling.intervals import add_months
from wellbook.water.values.partial_date import read_partial_date

WELL = "well"  # tasks of the well itself, not of a unit


@dataclass(frozen=True, slots=True)
class Task:
    """What is done at intervals.

    Attributes:
        key: Stable key; a household's own interval is kept under it.
        of: Kind of treatment unit it belongs to, or `well`.
        done_as: Kind of service, or of event for a well, that counts as doing it.
        part: What it is done to. Of two tasks for one part of a unit only one holds.
        task: One sentence that says what to do, to be said.
        months: Usual interval in calendar months.
        latest: The longest interval; it is overdue after that.
        behind: `any` where whatever the unit is meant to take out makes it due as soon as it is
            found right behind the unit; or empty.
        sign: What asks for it sooner, to be said; or empty.
        who: `owner`, `treatment dealer` or `licensed well contractor`.
        caution: What can hurt someone, to be said; or empty.
        source: Who says so.
        checked: Whether the interval was read in a text.

    Raises:
        ValueError: The longest interval is shorter than the usual one, or one is not positive.
    """

    key: str
    of: str
    done_as: str
    part: str
    task: str
    months: int
    latest: int
    behind: Literal["", "any"]
    sign: str
    who: str
    caution: str
    source: str
    checked: Stored

    def __post_init__(self) -> None:
        if not 0 < self.months <= self.latest:
            raise ValueError(f"{self.months} to {self.latest} months is no interval")


@dataclass(frozen=True, slots=True)
class Upkeep:
    """What Wellbook knows of upkeep: the tasks, and the checklist of the yearly inspection."""

    tasks: tuple[Task, ...] = ()
    checklist: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class Done:
    """Something done to a unit or a well: its kind, and an ISO date, month or year."""

    kind: str
    day: str


@dataclass(frozen=True, slots=True)
class UpkeepDue:
    """When a task is due.

    Attributes:
        task: The task.
        last: The last day it may have been done, or the unit was installed; None if not known.
        was_done: Whether `last` is a day it was done, not the day the unit came.
        due: The day it falls due; None where nobody wrote down when it was last done.
        overdue_days: Days past the longest interval; 0 while not overdue.
    """

    task: Task
    last: date | None
    was_done: bool
    due: date | None
    overdue_days: int


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
    own_months: Mapping[str, int] | None = None,
) -> tuple[UpkeepDue, ...]:
    """What a unit of some kind, or a well, needs, and when.

    Args:
        tasks: All tasks that are known.
        of: The unit's kind, or `well`.
        since: When the unit was installed, as an ISO date, month or year; empty if not known.
        done: What was done to it.
        today: Nothing that was done later counts.
        own_months: The household's own intervals by key of the task; 0 for never.

    Returns:
        The tasks that apply, in the order of the file.
    """
    acts = [act for act in done if (day := _first(act.day)) and day <= today]
    own = own_months or {}
    return tuple(
        _due(task, since, acts, today, own.get(task.key))
        for task in _that_hold(of_kind(tasks, of), acts)
        if own.get(task.key) != 0
    )


def of_kind(tasks: Iterable[Task], of: str) -> tuple[Task, ...]:
    """The tasks of a kind of unit, however its letters are written, or of a well."""
    kind = " ".join(of.casefold().split())
    return tuple(task for task in tasks if task.of == kind)


def _that_hold(tasks: Sequence[Task], acts: Sequence[Done]) -> Iterator[Task]:
    """Of the tasks for one part the one that was ever done, else the first of the file."""
    for part in dict.fromkeys(task.part for task in tasks):
        same = [task for task in tasks if task.part == part]
        kinds = {act.kind for act in acts}
        yield next((task for task in same if task.done_as in kinds), same[0])


def _due(task: Task, since: str, acts: Sequence[Done], today: date, own: int | None) -> UpkeepDue:
    days = [_first(act.day) for act in acts if act.kind == task.done_as]
    # A date known to the month or year counts from its first day: sooner, never later.
    last = max(filter(None, days), default=None)
    was_done = last is not None
    start = last or _first(since)
    if start is None:
        return UpkeepDue(task, None, was_done=False, due=None, overdue_days=0)
    due = add_months(start, own or task.months)
    end = add_months(start, own or task.latest)
    return UpkeepDue(task, start, was_done, due, max((today - end).days, 0))


def _first(text: str) -> date | None:
    known = read_partial_date(text)
    return known.first if known else None
