"""The next round: which panels are drawn together at a point, on which day and hour, and how."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from wellbook.book.record import Record
from wellbook.book.rows import Point, Well
from wellbook.planning.due import outlook
from wellbook.planning.lab.lab_route import RoundHabits, read_habits
from wellbook.planning.overview import due
from wellbook.water.sampling.due import PanelDue, day_reason
from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import Journey
from wellbook.water.sampling.timetable import Step, Task, timetable
from wellbook.water.values.bottles import Bottles, bottles_for, with_partners
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording import sampling_day
from wellbook.wording.dues import reason

_SOFTENER = "ion exchange softener"  # a kind of unit
_SOON = timedelta(days=7)  # what keeps for longer is no question of hours
_TASKS = {
    "first_draw": Task.FIRST_DRAW,
    "vials": Task.VIALS,
    "bacteria": Task.BACTERIA,
    "large": Task.LARGE_BOTTLE,
}


@dataclass(frozen=True, slots=True)
class Search:
    """What the search for a day came to.

    Attributes:
        window: The days that were searched, both included.
        limit: Greatest age of the most perishable sample at the start of its test.
        journey: From the tap to the start of the test; None if no day works.
        told: Which day and hour and why, or what would have to change.
    """

    window: tuple[date, date]
    limit: timedelta
    journey: Journey | None
    told: str

    @property
    def day(self) -> date | None:
        """The day of the draw."""
        return self.journey.draw.date() if self.journey else None

    @property
    def slack(self) -> timedelta | None:
        """What is left of the allowed age at the start of the test."""
        return self.limit - self.journey.age if self.journey else None


@dataclass(frozen=True, slots=True)
class Round:
    """One sampling at one point.

    Attributes:
        well: The well.
        point: The point.
        panels: What is tested, the reason for the round first.
        bottles: In the order of filling, each with the parameters tested from it.
        search: The day and hour, and how they were found.
        fills: Which kinds of bottles are filled.
        steps: The timetable; empty if no day works.
        habits: What the search went by.
        softens: Whether a softener of the well is in use, which must not regenerate meanwhile.
    """

    well: Well
    point: Point
    panels: tuple[PanelDue, ...]
    bottles: Bottles
    search: Search
    fills: frozenset[Task]
    steps: tuple[Step, ...]
    habits: RoundHabits
    softens: bool = False


def rounds(record: Record, catalogue: Catalogue, today: date) -> tuple[Round, ...]:
    """The next round at each point, the one to be made first in front.

    Points of one well are drawn on one day where that is near enough for both: only so do raw
    and treated water make a pair.
    """
    ahead, habits = outlook(record, catalogue, today), read_habits(record.settings)
    planned = (
        (well, point, tuple(one for one in dues if one.drawn is None))
        for well, point, dues in due(record, catalogue, today)
    )
    left = [row for row in planned if row[2]]
    last_taps = {well.id: point.id for well, point, _ in left}
    made: list[Round] = []
    while left:
        well, _, dues = min(left, key=lambda row: _rank(row[2][0]))
        visit = _visit(dues[0], [row for row in left if row[0] == well])
        limit = ahead.limit(_keys(one for panels in visit.values() for one in panels))
        search = _search(dues[0], visit.values(), ahead.calendar.within(limit))
        for point, panels in visit.items():
            bottles = bottles_for(
                _keys(panels),
                catalogue.bottles,
                first_draw=point.id == last_taps[well.id],
            )
            bottles = with_partners(bottles, catalogue.bottles)
            made.append(_round((well, point), panels, bottles, search, habits))
        left = [row for row in left if row[1] not in visit]
    return tuple(replace(one, softens=_softens(record, one.well)) for one in made)


def _softens(record: Record, well: Well) -> bool:
    return any(unit.kind == _SOFTENER and not unit.removed for unit in record.units_of(well.id))


def visit_of(found: Sequence[Round], one: Round) -> tuple[Round, ...]:
    """The rounds that are drawn on the same visit as one, in the order of the flow."""
    at = (one.well.id, one.search.window)
    same = [each for each in found if (each.well.id, each.search.window) == at]
    return tuple(sorted(same, key=lambda each: each.point.place))


def hours_of(visit: Sequence[Round]) -> tuple[frozenset[Task], tuple[Step, ...]]:
    """Which kinds of bottles are filled on a visit, and its timetable."""
    fills = frozenset().union(*(one.fills for one in visit))
    journey, rises = visit[0].search.journey, visit[0].habits.rises
    if journey is None:
        return fills, ()
    return fills, timetable(journey.draw, journey.hand_in, fills=fills, rises=rises)


def wanted(found: Sequence[Round], point: Point | None = None) -> list[tuple[Point, list[str]]]:
    """What is drawn on the first visit, or at one point: each point with keys of parameters."""
    meant = [one for one in found if point is None or one.point.id == point.id]
    visit = visit_of(meant, meant[0]) if meant else ()
    return [(one.point, _keys(one.panels)) for one in visit]


def _rank(one: PanelDue) -> tuple[bool, date]:
    return not one.urgent, one.due


def _keys(panels: Iterable[PanelDue]) -> list[str]:
    return list(dict.fromkeys(key for one in panels for key in one.panel.core))


def _visit(
    first: PanelDue, rows: Sequence[tuple[Well, Point, tuple[PanelDue, ...]]]
) -> dict[Point, tuple[PanelDue, ...]]:
    """What may be drawn at each point of a well on the day of the panel that comes first."""
    day = first.day or first.window[1]
    ready = {
        point: tuple(one for one in dues if one is first or one.along_from(first) <= day)
        for _, point, dues in rows
    }
    return {
        point: tuple(sorted(panels, key=lambda one: one is not first))
        for point, panels in ready.items()
        if panels
    }


def _search(first: PanelDue, visit: Iterable[Sequence[PanelDue]], way: Calendar) -> Search:
    """The first day that works for everything that is drawn on it."""
    start = max(first.window[0], *(one.along_from(first) for panels in visit for one in panels))
    window = (start, max(first.window[1], start))
    found = way.find(*window)
    told = sampling_day.say(found, *window, way.hours, way.lab_hours, way.limit)
    if found.best and way.limit > _SOON:
        told = reason(day_reason(found.best.draw.date(), way))
    return Search(window, way.limit, found.best, told)


def _round(
    place: tuple[Well, Point],
    panels: tuple[PanelDue, ...],
    bottles: Bottles,
    search: Search,
    habits: RoundHabits,
) -> Round:
    journey = search.journey
    fills = frozenset(_TASKS.get(bottle.key, Task.OTHERS) for bottle, _ in bottles)
    steps = (
        timetable(journey.draw, journey.hand_in, fills=fills, rises=habits.rises) if journey else ()
    )
    return Round(*place, panels, bottles, search, fills, steps, habits)
