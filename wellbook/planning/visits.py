"""Visits to a well: what is due in the same weeks is drawn together, on one day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.book.rows import Point, Well
from wellbook.water.sampling.due import PanelDue

Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]


@dataclass(frozen=True, slots=True)
class Visit:
    """One day at a well.

    Attributes:
        well: The well.
        number: Which visit from now on it is, from 1.
        day: The day: one that suits the lab where there is one.
        tasks: What is drawn at which point, the reason for the visit first.
    """

    well: Well
    number: int
    day: date
    tasks: tuple[tuple[Point, PanelDue], ...]

    @property
    def reason(self) -> PanelDue:
        """What comes first."""
        return self.tasks[0][1]

    @property
    def is_urgent(self) -> bool:
        """Whether something of it comes before everything else."""
        return any(due.urgent for _point, due in self.tasks)


def visits(dues: Dues) -> tuple[Visit, ...]:
    """Every visit that what is due and what comes next asks for, by well and in order of time."""
    wells = {well.id: well for well, _point, _panels in dues}.values()
    found: list[Visit] = []
    for well in wells:
        left = [
            (point, due) for other, point, panels in dues if other.id == well.id for due in panels
        ]
        number = 0
        while left:
            number += 1
            first = min(left, key=lambda task: (_day(task[1]), not task[1].urgent, task[1].due))
            day = _day(first[1])
            along = [task for task in left if task is first or task[1].along_from(first[1]) <= day]
            along.sort(key=lambda task: task is not first)
            found.append(Visit(well, number, day, tuple(along)))
            left = [task for task in left if task not in along]
    return tuple(found)


def _day(due: PanelDue) -> date:
    return due.day or due.window[0]
