"""Which charts a packet shows, as descriptions; drawing them comes later."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wellbook.charts.model.describe import chart
from wellbook.charts.model.parts import Chart, EventMark
from wellbook.charts.model.year_wheel import Wheel, wheel
from wellbook.packet.gather import History
from wellbook.planning.overview import PointOverview, WellOverview
from wellbook.sharing.event_marks import event_marks
from wellbook.support.translation import _
from wellbook.water.statistics.outcomes import UNSTEADY
from wellbook.water.values.seasons import Scheme
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing
from wellbook.wording.consulting import levels

if TYPE_CHECKING:
    from wellbook.water.values.judgement import Urgency
    from wellbook.water.values.results import Result

_ALWAYS = {"total_coliform", "e_coli", "nitrate", "arsenic", "lead"}
_LEAST = 2  # one test alone is a line in the table, not a chart

_UNREMARKABLE = 5  # rank of what only a consultant wants to see drawn

Place = tuple[int, str]  # point, parameter
Records = dict[int, PointRecord]  # by point
Group = list[tuple[PointOverview, Standing]]


@dataclass(frozen=True, slots=True)
class Figure:
    """One chart with its title and the places in the record that it shows.

    Attributes:
        summary: The middle of each history, and how sure its long-run level is.
    """

    key: str
    title: str
    chart: Chart
    shows: tuple[Place, ...]
    summary: tuple[str, ...]


def figures(history: History, scheme: Scheme, *, technical: bool) -> tuple[Figure, ...]:
    """Charts in the order of attention for a buyer, every parameter for a consultant."""
    known = records(history)
    found: list[tuple[tuple[int, int, Urgency], Figure]] = []
    for facts in history.wells:
        marks = event_marks(facts.events, facts.units)
        for group in _groups(facts.overview, known):
            rank = min(_rank(standing) for _unused, standing in group)
            if technical or rank < _UNREMARKABLE:
                place = (rank, *min(standing.urgency for _unused, standing in group))
                found.append((place, _figure(group, known, marks, history, scheme)))
    found.sort(key=lambda one: one[0])
    return tuple(figure for _unused, figure in found if figure.chart.marks)


def _groups(well: WellOverview, known: Records) -> list[Group]:
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
            if max(len(known[point.point.id].history(key)) for point, _unused in pair) >= _LEAST:
                groups.append(pair)
    return groups


def _rank(standing: Standing) -> int:
    if standing.needs_attention:
        return 0 if standing.now.can_harm else 1
    if standing.parameter.key in _ALWAYS:
        return 2
    moving = standing.trend.says in UNSTEADY and standing.now.limit is not None
    return 3 if moving else _UNREMARKABLE


def _figure(
    group: Group, known: Records, marks: Sequence[EventMark], history: History, scheme: Scheme
) -> Figure:
    (point, standing), *others = group
    parameter = standing.parameter
    names = [one.point.name for one, _unused in group]
    shown = _("{point} and {other}").format(point=names[0], other=names[-1]) if others else names[0]
    drawn = chart(
        known[point.point.id],
        parameter,
        history.catalogue,
        history.sets,
        marks,
        scheme,
        history.today,
        other=known[others[0][0].point.id] if others else None,
        names=(names[0], names[-1]) if others else ("", ""),
        known=[standing for _unused, standing in group],
    )
    return Figure(
        key=f"chart-{point.point.id}-{parameter.key}",
        title=f"{parameter.name}: {shown}",
        chart=replace(drawn, title=""),  # the heading above it says so
        shows=tuple((one.point.id, parameter.key) for one, _unused in group),
        summary=tuple(_summaries(group)),
    )


def _summaries(group: Group) -> list[str]:
    """The middle of each history, after the name of its point where two are drawn."""
    told = [(point.point.name, levels.summary(standing)) for point, standing in group]
    return [
        _("{point}: {sentences}").format(point=name, sentences=said) if len(group) > 1 else said
        for name, said in told
        if said
    ]


def records(history: History) -> Records:
    """Results that count, by point, each in order of time."""
    results: dict[int, list[Result]] = {}
    for test in history.tests:
        for judged in test.results:
            results.setdefault(judged.result.point, []).append(judged.result)
    return {point: PointRecord.of(rows) for point, rows in results.items()}


def wheels(history: History, scheme: Scheme) -> tuple[Wheel, ...]:
    """A year wheel for each point that was ever tested, with the window of its next test."""
    several = len(history.wells) > 1
    made: list[Wheel] = []
    for facts in history.wells:
        for one in facts.overview.points:
            days = [
                test.sample.collected.day
                for test in history.tests
                if test.sample.point == one.point.id and not test.sample.collected.known
            ]
            if days:
                name = f"{facts.well.name}: {one.point.name}" if several else one.point.name
                # Part of a record can't tell what is due, and what people need stays with them.
                told = () if history.is_part else (each for each in one.due if not each.private)
                window = next((each.window for each in told), None)
                made.append(wheel(days, scheme, history.today, title=name, window=window))
    return tuple(made)
