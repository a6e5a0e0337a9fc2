"""The next round: which panels are drawn together at a point, on which day and hour, and how."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from wellbook.book.record import Record
from wellbook.book.rows import Point, Well
from wellbook.planning.due import outlook
from wellbook.planning.lab.lab_route import RoundHabits, read_habits
from wellbook.planning.overview import due
from wellbook.planning.visits import Visit, visits
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
        number: Which visit to the well from now on it belongs to, from 1.
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
    number: int
    softens: bool = False


def rounds(record: Record, catalogue: Catalogue, today: date) -> tuple[Round, ...]:
    """The next round at each point, the one to be made first in front.

    Points of one well are drawn on one day where that is near enough for both: only so do raw
    and treated water make a pair.
    """
    ahead, habits = outlook(record, catalogue, today), read_habits(record.settings)
    planned = due(record, catalogue, today)
    last_taps = {well.id: point.id for well, point, dues in planned if _to_draw(dues)}
    made: list[Round] = []
    seen: set[int] = set()  # points whose next round is made
    for visit in sorted(visits(planned), key=lambda one: (not one.is_urgent, one.day)):
        panels_at: dict[Point, list[PanelDue]] = {}
        for point, one in visit.tasks:
            if point.id not in seen:
                panels_at.setdefault(point, []).append(one)
        seen |= {point.id for point in panels_at}
        limit = ahead.limit(_keys(one for _point, one in visit.tasks))
        search = _search(visit, ahead.calendar.within(limit))
        for point, panels in panels_at.items():
            bottles = bottles_for(
                _keys(panels),
                catalogue.bottles,
                first_draw=point.id == last_taps[visit.well.id],
            )
            bottles = with_partners(bottles, catalogue.bottles)
            made.append(_round(visit, point, bottles, search, habits))
    return tuple(replace(one, softens=_softens(record, one.well)) for one in made)


def _softens(record: Record, well: Well) -> bool:
    return any(unit.kind == _SOFTENER and not unit.removed for unit in record.units_of(well.id))


def visit_of(found: Sequence[Round], one: Round) -> tuple[Round, ...]:
    """The rounds that are drawn on the same visit as one, in the order of the flow."""
    at = (one.well.id, one.number)
    same = [each for each in found if (each.well.id, each.number) == at]
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


def _to_draw(dues: Iterable[PanelDue]) -> bool:
    return any(one.drawn is None for one in dues)


def _keys(panels: Iterable[PanelDue]) -> list[str]:
    return list(dict.fromkeys(key for one in panels for key in one.panel.core))


def _search(visit: Visit, way: Calendar) -> Search:
    """The hour of a visit's day, or what would have to change where no day suits."""
    first = visit.reason
    others = (one.along_from(first) for _point, one in visit.tasks if one is not first)
    window = (max((first.window[0], *others)), first.window[1])
    found = way.find(*window)
    told = sampling_day.say(found, *window, way.hours, way.lab_hours, way.limit)
    if found.best and way.limit > _SOON:
        told = reason(day_reason(found.best.draw.date(), way))
    return Search(window, way.limit, found.best, told)


def _round(
    visit: Visit, point: Point, bottles: Bottles, search: Search, habits: RoundHabits
) -> Round:
    panels = tuple(one for at, one in visit.tasks if at == point)
    journey = search.journey
    fills = frozenset(_TASKS.get(bottle.key, Task.OTHERS) for bottle, _ in bottles)
    steps = (
        timetable(journey.draw, journey.hand_in, fills=fills, rises=habits.rises) if journey else ()
    )
    well, number = visit.well, visit.number
    return Round(well, point, panels, bottles, search, fills, steps, habits, number)
