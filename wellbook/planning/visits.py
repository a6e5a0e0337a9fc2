"""Visits to a well: what is due in the same weeks is drawn together, on one day.

This is the one place where it is decided what is drawn on which day.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.rows import Point, Well
from wellbook.water.sampling.due import Outlook, PanelDue
from wellbook.water.sampling.lab_calendar import Calendar

Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]
Task = tuple[int, PanelDue]  # number of the point, what is drawn there


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
    found: dict[tuple[int, int], list[tuple[Point, PanelDue]]] = {}
    wells = {well.id: well for well, _point, _panels in dues}
    for well, point, panels in dues:
        for one in panels:
            if one.drawn is None:
                found.setdefault((well.id, one.visit), []).append((point, one))
    places = {number: place for place, number in enumerate(wells)}
    return tuple(
        _visit(wells[well], number, tasks)
        for (well, number), tasks in sorted(
            found.items(), key=lambda item: (places[item[0][0]], item[0][1])
        )
    )


def _visit(well: Well, number: int, tasks: Sequence[tuple[Point, PanelDue]]) -> Visit:
    first, *others = sorted(tasks, key=lambda task: _rank(task[1]))
    return Visit(well, number, _day(first[1]), (first, *others))


def on_visits(
    dues: Mapping[int, Sequence[PanelDue]], ahead: Outlook
) -> dict[int, tuple[PanelDue, ...]]:
    """What is due at each point of a well, each on the day of the visit that draws it.

    What is urgent comes first and is drawn no later than on its own day, what else is due no later
    than in its own stretch; nothing is drawn before the day from which on it may be drawn along.

    Args:
        dues: What is due at each point, each on a day of its own.
        ahead: The day, the way to the lab and the reference data.
    """
    left = [(point, one) for point, panels in dues.items() for one in panels if one.drawn is None]
    made: list[list[Task]] = []
    while left:
        first = min(left, key=lambda task: _rank(task[1]))
        drawn, day = _drawn_with(first, left, ahead)
        way = _way((one for _point, one in drawn), ahead)
        made.append([(point, one.on(day, way)) for point, one in drawn])
        left = [task for task in left if task not in drawn]
    made.sort(key=lambda tasks: (_day(tasks[0][1]), _rank(tasks[0][1])))
    placed: dict[int, list[PanelDue]] = {point: [] for point in dues}
    for number, tasks in enumerate(made, start=1):
        for point, one in tasks:
            placed[point].append(replace(one, visit=number))
    drawn_already = {point: [one for one in panels if one.drawn] for point, panels in dues.items()}
    return {point: (*placed[point], *drawn_already[point]) for point in dues}


def _drawn_with(
    first: Task, left: Sequence[Task], ahead: Outlook
) -> tuple[list[Task], date | None]:
    """What is drawn on the visit that something asks for, and on which day."""
    reason = first[1]
    if reason.day is None:
        last = reason.window[1]
        others = [t for t in left if t[1].day is None and t[1].along_from(reason) <= last]
        return [first, *(task for task in others if task is not first)], None
    day = reason.day
    along = [
        task
        for task in left
        if task is not first and task[1].along_from(reason) <= day and task[1].may_wait_until(day)
    ]
    together = [first, *along]
    panels = [one for _point, one in together]
    found = _way(panels, ahead).first_day(day, reason.window[1])
    if found is not None and all(one.may_wait_until(found) for one in panels):
        return together, found
    # What has to be at the lab sooner is left for another visit.
    keeps = ahead.limit(reason.panel.core)
    return [task for task in together if ahead.limit(task[1].panel.core) >= keeps], day


def _way(panels: Iterable[PanelDue], ahead: Outlook) -> Calendar:
    """The way to the lab of what perishes first."""
    keys = [key for one in panels for key in one.panel.core]
    return ahead.calendar.within(ahead.limit(keys))


def _rank(one: PanelDue) -> tuple[bool, bool, date, date, str]:
    return not one.urgent, one.day is None, _day(one), one.due, one.panel.key


def _day(due: PanelDue) -> date:
    return due.day or due.window[0]
