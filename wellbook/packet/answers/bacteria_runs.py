"""Findings of bacteria in sentences: each unbroken run, what went before, and how it ended."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta

from wellbook.book.rows import Event
from wellbook.packet.gather import History, SampleFacts, WellFacts
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.verdicts.bacteria import BacteriaTest, Sign, bacteria_tests
from wellbook.water.verdicts.judge import Verdict
from wellbook.wording import paper, vocabulary

BACTERIA = ("e_coli", "total_coliform", "fecal_coliform", "enterococci")
OPEN = N_("No test since has shown that it ended.")
_BEFORE = timedelta(days=120)  # in which an event may have led to a finding; our own bound
_CURES = frozenset({"repair", "pump", "disinfection", "treatment"})
_FEW = 5  # findings of one run that are told one by one; of more the first, the worst, the last


def tests_at(history: History, point: PointOverview) -> list[SampleFacts]:
    """The tests drawn at a point."""
    return [test for test in history.tests if test.sample.point == point.point.id]


def bacteria_runs(history: History, well: WellFacts, point: PointOverview) -> Iterator[str]:
    """Each run of findings at a point with what went before, what was done, and what came after."""
    tests = tests_at(history, point)
    results = [one.result for test in tests for one in test.results]
    drawn = bacteria_tests(results, history.catalogue)
    place = 0
    while place < len(drawn):
        if drawn[place].sign is not Sign.FOUND:
            place += 1
            continue
        end, names = place, set(drawn[place].names)
        while end + 1 < len(drawn) and not drawn[end + 1].is_clean_of(names):
            end += 1
            names |= set(drawn[end].names)
        found = [one for one in drawn[place : end + 1] if one.sign is Sign.FOUND]
        yield _run(point, tests, well.events, found, drawn[end + 1 :])
        place = end + 1


def _run(
    point: PointOverview,
    tests: Sequence[SampleFacts],
    events: Sequence[Event],
    found: Sequence[BacteriaTest],
    after: Sequence[BacteriaTest],
) -> str:
    first = found[0].day
    what = _("{point}: {findings}.").format(
        point=point.point.name, findings="; ".join(_findings(tests, found))
    )
    until = after[0].day if after else None
    before = _events(events, first - _BEFORE, first, cures=False)
    cure = _events(events, first, until or date.max, cures=True)
    parts = [what]
    if before:
        parts.append(_("Before it: {events}.").format(events=before))
    if cure:
        parts.append(_("After it: {events}.").format(events=cure))
    # Whether the case is closed by its rule is to be said here, too.
    parts.append(_ended(after, {name for one in found for name in one.names}))
    return " ".join(parts)


def _findings(tests: Sequence[SampleFacts], found: Sequence[BacteriaTest]) -> list[str]:
    """The findings of an unbroken run; of a long one the first and the last, and their number."""
    if len(found) <= _FEW:
        return [_finding(tests, one) for one in found]
    worst = _worst_of(tests, found)
    shown = sorted({0, worst, len(found) - 1})
    count = ngettext(
        "bacteria were found in {n} test without a clean one between",
        "bacteria were found in {n} tests without a clean one between",
        len(found),
    ).format(n=len(found))
    return [count, *(_finding(tests, found[place]) for place in shown)]


def _worst_of(tests: Sequence[SampleFacts], found: Sequence[BacteriaTest]) -> int:
    """The place of the finding whose first kind of bacteria in `BACTERIA` has the most."""

    def weight(place: int) -> tuple[int, float]:
        results = [
            one.result
            for test in tests
            if test.sample.collected.day == found[place].day
            for one in test.results
            if one.result.parameter in BACTERIA and one.then.verdict is Verdict.OUTSIDE
        ]
        rank = min((BACTERIA.index(one.parameter) for one in results), default=len(BACTERIA))
        most = max(
            (
                float(one.reading.number or 0)
                for one in results
                if one.parameter == BACTERIA[min(rank, len(BACTERIA) - 1)]
            ),
            default=0.0,
        )
        return -rank, most

    return max(range(len(found)), key=weight)


def _finding(tests: Sequence[SampleFacts], found: BacteriaTest) -> str:
    """What was found on a day, with the figures."""
    readings = dict.fromkeys(
        f"{one.parameter.name} {paper.shown(one.result.reading, one.parameter)}"
        for test in tests
        if test.sample.collected.day == found.day
        for one in test.results
        if one.parameter is not None
        and one.result.parameter in BACTERIA
        and one.then.verdict is Verdict.OUTSIDE
    )
    named = ", ".join(readings) or ", ".join(found.names)
    return _("{what} found on {day}").format(what=named, day=paper.day(found.day))


def _ended(after: Sequence[BacteriaTest], names: Collection[str]) -> str:
    clean = [one for one in after if one.is_clean_of(names)]
    again = [one for one in after if one.sign is Sign.FOUND]
    if not clean:
        return _(OPEN)
    if again:
        return _("Next clean test: {day}; bacteria were found again on {again}.").format(
            day=paper.day(clean[0].day), again=paper.day(again[0].day)
        )
    silent = len(after) - len(clean)
    said = ngettext(
        "Since then none were found in {n} test there, on {last}.",
        "Since then none were found in {n} tests there, the last on {last}.",
        len(clean),
    ).format(n=len(clean), last=paper.day(clean[-1].day))
    if not silent:
        return said
    more = ngettext(
        "{n} more test says nothing either way.", "{n} more tests say nothing either way.", silent
    ).format(n=silent)
    return f"{said} {more}"


def _events(events: Sequence[Event], since: date, until: date, *, cures: bool) -> str:
    told = []
    for event in events:
        known = read_partial_date(event.day)
        is_cure = event.kind in _CURES
        if known is None or is_cure is not cures or not since <= known.middle <= until:
            continue
        words = vocabulary.event(event.kind)
        said = f"{words}, {event.text.rstrip('.')}" if event.text else words
        told.append(f"{said} ({paper.loose_day(event.day)})")
    return "; ".join(told)
