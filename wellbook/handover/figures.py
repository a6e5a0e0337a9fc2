"""Which charts a packet shows, as descriptions; drawing them comes later."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from wellbook.book.overview import PointOverview, WellOverview
from wellbook.charts.describe import chart
from wellbook.charts.parts import Chart, EventMark
from wellbook.charts.wheel import Wheel, wheel
from wellbook.handover.event_marks import event_marks
from wellbook.handover.history import History
from wellbook.tongue import say
from wellbook.water.results import Result
from wellbook.water.seasons import Scheme
from wellbook.water.standing import Standing
from wellbook.water.verdicts import Verdict

_ATTENTION = {Verdict.OUTSIDE, Verdict.UNDECIDABLE, Verdict.NEAR}
_MOVING = {"rising", "falling"}
_ALWAYS = {"total_coliform", "e_coli", "nitrate", "arsenic", "lead"}
_LEAST = 2  # one test alone is a line in the table, not a chart

_UNREMARKABLE = 4  # rank of what only a consultant wants to see drawn

Place = tuple[int, str]  # point, parameter
Histories = dict[Place, list[Result]]
Group = list[tuple[PointOverview, Standing]]


@dataclass(frozen=True, slots=True)
class Figure:
    """One chart with its title and the places in the record that it shows."""

    key: str
    title: str
    chart: Chart
    shows: tuple[Place, ...]


def figures(history: History, scheme: Scheme, *, technical: bool) -> tuple[Figure, ...]:
    """Charts in the order of attention for a buyer, every parameter for a consultant."""
    known = histories(history)
    found: list[tuple[int, Figure]] = []
    for facts in history.wells:
        marks = event_marks(facts.events, facts.units)
        for group in _groups(facts.overview, known):
            rank = min(_rank(standing) for _, standing in group)
            if technical or rank < _UNREMARKABLE:
                found.append((rank, _figure(group, known, marks, history, scheme)))
    found.sort(key=lambda one: one[0])
    return tuple(figure for _, figure in found if figure.chart.marks)


def _groups(well: WellOverview, known: Histories) -> list[Group]:
    """Points that share a chart: one before treatment with one after it, others alone."""
    places: dict[str, Group] = {}
    for point in well.points:
        for standing in point.standings:
            places.setdefault(standing.parameter.key, []).append((point, standing))
    groups: list[Group] = []
    for key, row in places.items():
        raw = [one for one in row if not one[0].point.treated]
        treated = [one for one in row if one[0].point.treated]
        while raw or treated:
            pair = [*raw[:1], *treated[-1:]]
            raw, treated = raw[1:], treated[:-1]
            if max(len(known[point.point.id, key]) for point, _ in pair) >= _LEAST:
                groups.append(pair)
    return groups


def _rank(standing: Standing) -> int:
    if {standing.then.verdict, standing.now.verdict} & _ATTENTION:
        return 0
    if standing.parameter.key in _ALWAYS:
        return 1
    moving = standing.trend.says in _MOVING and standing.now.limit is not None
    return 2 if moving else _UNREMARKABLE


def _figure(
    group: Group, known: Histories, marks: Sequence[EventMark], history: History, scheme: Scheme
) -> Figure:
    (point, standing), *others = group
    parameter = standing.parameter
    names = [one.point.name for one, _ in group]
    shown = say("{point} and {other}", point=names[0], other=names[-1]) if others else names[0]
    other = known[others[0][0].point.id, parameter.key] if others else ()
    drawn = chart(
        known[point.point.id, parameter.key],
        parameter,
        history.catalogue,
        history.sets,
        marks,
        scheme,
        history.today,
        beside={test.sample.id: [one.result for one in test.results] for test in history.tests},
        other_history=other,
        names=(names[0], names[-1]) if others else ("", ""),
    )
    return Figure(
        key=f"chart-{point.point.id}-{parameter.key}",
        title=f"{parameter.name}: {shown}",
        chart=replace(drawn, title=""),  # the heading above it says so
        shows=tuple((one.point.id, parameter.key) for one, _ in group),
    )


def histories(history: History) -> Histories:
    """Results that count, by point and parameter, each in order of time."""
    found: Histories = {}
    for test in history.tests:
        for one in test.results:
            result = one.result
            if result.parameter:
                found.setdefault((result.point, result.parameter), []).append(result)
    return found


def wheels(history: History, scheme: Scheme) -> tuple[Wheel, ...]:
    """A year wheel for each point that was ever tested, with the window of its next test."""
    several = len(history.wells) > 1
    made: list[Wheel] = []
    for facts in history.wells:
        for one in facts.overview.points:
            days = [
                test.sample.collected.day
                for test in history.tests
                if test.sample.point == one.point.id
            ]
            if days:
                name = f"{facts.well.name}: {one.point.name}" if several else one.point.name
                # Part of a record can't tell what is due, and what people need stays with them.
                told = () if history.is_part else (each for each in one.due if not each.private)
                window = next((each.window for each in told), None)
                made.append(wheel(days, scheme, history.today, title=name, window=window))
    return tuple(made)
