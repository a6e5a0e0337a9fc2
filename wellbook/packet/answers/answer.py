"""What a reader asks first, answered from the record: where it stands, what happened, what is open.

Health comes before taste. Each sentence names its figure, its limit, its day and its point.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.packet.answers import gaps
from wellbook.packet.answers.bacteria_runs import OPEN, bacteria_runs, tests_at
from wellbook.packet.gather import History, Judged, SampleFacts, WellFacts
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.statistics.outcomes import Direction
from wellbook.water.units.conversion import as_shown
from wellbook.water.verdicts.bacteria import TOLD_BY
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.wording import facts, paper, verdicts, vocabulary

# What every reader asks after, common practice, no source: each with the keys that answer it.
_ASKED: tuple[tuple[str, tuple[str, ...]], ...] = (
    (N_("Bacteria"), ("e_coli", "total_coliform")),
    (N_("Nitrate"), ("nitrate", "nitrate_nitrite")),
    (N_("Lead"), ("lead",)),
    (N_("Arsenic"), ("arsenic",)),
)
_NOT_OVER = frozenset({Verdict.WITHIN, Verdict.NEAR, Verdict.UNDETECTED})
_MOST = 8  # findings that are told one by one on page 1


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that every reader asks after, at one point.

    Attributes:
        judgement: How its latest result stands; None if it was never tested.
        day: When it was drawn; None likewise.
    """

    name: str
    point: str
    judgement: Judgement | None
    reading: str
    limit: str
    day: date | None


def points(history: History) -> Iterator[tuple[str, PointOverview]]:
    """Every point with the name it goes by."""
    several = len(history.wells) > 1
    for well in history.wells:
        for one in well.overview.points:
            yield f"{well.well.name}: {one.point.name}" if several else one.point.name, one


def standings(history: History) -> list[tuple[Verdict, bool, str]]:
    """What needs attention, a sentence each, what can harm people first: verdict, harm, words."""
    found = [
        (one.now.urgency, one.now.verdict, one.now.can_harm, _stands(name, one))
        for name, point in points(history)
        for one in point.by_urgency
        if one.now.needs_attention
    ]
    found.sort(key=lambda one: (not one[2], one[0]))
    return [(verdict, health, said) for _unused, verdict, health, said in found]


def _stands(name: str, one: Standing | SumStanding) -> str:
    if isinstance(one, SumStanding):
        point, day, reading = name, one.day, facts.added(one.sum)
        bound = (
            paper.bound_shown(paper.bound(limit), limit, one.parameter)
            if (limit := one.now.limit)
            else ""
        )
    else:
        latest = one.latest
        point, day = drawn_at(name, latest.draw), latest.collected.day
        reading, bound = paper.shown(latest.reading, one.parameter), bound_words(one)
    parts = [
        _("{parameter}, {point}: {reading} on {day}. {verdict}").format(
            parameter=one.parameter.name,
            point=point,
            reading=reading,
            day=paper.day(day),
            verdict=verdicts.sentence(one.now),
        )
    ]
    if one.now.limit is not None:
        kind = verdicts.kind(one.now.limit.kind)
        parts.append(_("Limit: {bound} ({kind}).").format(bound=bound, kind=kind))
    if one.now.verdict is Verdict.ADOPTED and one.now.limit is not None:
        starts = paper.loose_day(one.now.limit.start)
        parts.append(_("It starts on {day}.").format(day=starts))
    if isinstance(one, SumStanding):
        parts.append(_("Added up here, no lab reported it."))
    elif one.trend.says is Direction.RISING:
        parts.append(_("It is rising over the years."))
    elif one.trend.says is Direction.HIGHER_SINCE:
        parts.append(_("It is higher since lab, method or treatment changed."))
    return " ".join(parts)


def sum_words(one: SumStanding) -> str:
    """What a sum can be: one figure, or from its least to its most."""
    return facts.added(one.sum)


def bound_words(one: Standing, *, is_short: bool = False) -> str:
    """What the limit of a result allows, in the unit of the result."""
    limit = one.now.limit
    if limit is None:
        return "–"
    return paper.bound_beside(one.latest.reading, limit, one.parameter, is_short=is_short)


def drawn_at(point: str, draw: str) -> str:
    """A point, and how the sample was drawn there where it is known."""
    return f"{point}, {vocabulary.draw(draw)}" if draw else point


def rows(history: History) -> list[Row]:
    """The latest of what every reader asks after, at each point where it was tested."""
    found: list[Row] = []
    for title, keys in _ASKED:
        there = [
            (name, worst)
            for name, point in points(history)
            if (worst := _worst([one for one in point.standings if one.parameter.key in keys]))
        ]
        found += [_row(_(title), name, one) for name, one in there]
        if not there:
            found.append(Row(_(title), "", None, _absent(history), "", None))
    return found


def _worst(found: Sequence[Standing]) -> Standing | None:
    return min(found, key=lambda one: one.now.urgency, default=None)


def _row(title: str, name: str, one: Standing) -> Row:
    latest = one.latest
    shown = paper.shown(latest.reading, one.parameter)
    return Row(
        name=title if one.parameter.name.startswith(title) else f"{title}: {one.parameter.name}",
        point=drawn_at(name, latest.draw),
        judgement=one.now,
        reading=shown,
        limit=bound_words(one, is_short=True),
        day=latest.collected.day,
    )


def _absent(history: History) -> str:
    if history.is_part or gaps.is_cut(history):
        return _("not in what is here")
    return _("never tested")


def happened(history: History) -> list[str]:
    """Findings of bacteria and results once over a limit for health, and how they ended."""
    said = [
        sentence
        for well in history.wells
        for point in well.overview.points
        for sentence in (*bacteria_runs(history, well, point), *_over(history, point))
    ]
    if len(said) <= _MOST:
        return said
    more = len(said) - _MOST
    rest = ngettext(
        "And {n} more such finding: see “All tests in order”.",
        "And {n} more such findings: see “All tests in order”.",
        more,
    ).format(n=more)
    return [*said[:_MOST], rest]


def _over(history: History, point: PointOverview) -> Iterator[str]:
    """Parameters that were over a limit for health, and are over none that can harm now."""
    tests = tests_at(history, point)
    for standing in point.standings:
        key, now = standing.parameter.key, standing.now
        if key in TOLD_BY or (now.verdict is Verdict.OUTSIDE and now.can_harm):
            continue
        past = [
            (test, one)
            for test in tests
            for one in test.results
            if one.result.parameter == key and _is_over(one)
        ]
        if past:
            yield _once_over(point, standing, past, tests)


def _is_over(one: Judged) -> bool:
    verdicts = (one.then, one.now)
    return any(it.verdict is Verdict.OUTSIDE and it.is_health for it in verdicts)


def _is_not_over(now: Judgement) -> bool:
    """Whether no limit for health is passed; one that is or may be comes before one for taste."""
    return now.verdict in _NOT_OVER or (now.verdict is Verdict.OUTSIDE and not now.can_harm)


def _once_over(
    point: PointOverview,
    standing: Standing,
    past: Sequence[tuple[SampleFacts, Judged]],
    tests: Sequence[SampleFacts],
) -> str:
    parameter = standing.parameter
    # Not the figure of a verdict: of a limit that was taken back there is none.
    test, one = max(
        past,
        key=lambda pair: (as_shown(pair[1].result.reading, parameter) or 0, pair[0].number),
    )
    last = past[-1][0].sample.collected.day
    later = {
        other.sample.id
        for other in tests
        for found in other.results
        if found.result.parameter == parameter.key
        and other.sample.collected.day > last
        and _is_not_over(found.now)
    }
    n = len({each.number for each, _unused in past})
    said = ngettext(
        "{parameter}, {point}: over a limit for health in {n} test, {reading} on {day}.",
        "{parameter}, {point}: over a limit for health in {n} tests, at most {reading} on {day}.",
        n,
    ).format(
        n=n,
        parameter=parameter.name,
        point=drawn_at(point.point.name, one.result.draw),
        reading=paper.shown(one.result.reading, one.parameter),
        day=paper.day(test.sample.collected.day),
    )
    if not later:
        return f"{said} {_(OPEN)}"
    after = ngettext(
        "It was not over in {n} test since.", "It was not over in {n} tests since.", len(later)
    ).format(n=len(later))
    return f"{said} {after}"


def well_words(well: WellFacts) -> str:
    """A well and what treats its water, in a few words."""
    log = [f"{vocabulary.log_item(item)}: {text}" for item, text in well.well.construction.items()]
    units = [
        _("{unit} since {day}").format(unit=unit.name, day=paper.loose_day(unit.installed))
        if unit.installed
        else unit.name
        for unit in well.units
        if not unit.removed
    ]
    treated = (
        _("Treatment: {units}.").format(units="; ".join(units))
        if units
        else _("No treatment is written down.")
    )
    built = _("{items}.").format(items="; ".join(log)) if log else _("Nothing of how it was built.")
    return f"{built} {treated}"
