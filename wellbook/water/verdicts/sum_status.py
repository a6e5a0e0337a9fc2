"""Where the sums of a point's parameters stand, by the latest samples that hold their parts."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Urgency, Verdict
from wellbook.water.values.limits import SumRule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline
from wellbook.water.verdicts.point_record import PointRecord, TwoVerdicts
from wellbook.water.verdicts.sums import Sum, judge_sums

if TYPE_CHECKING:
    from wellbook.water.verdicts.status import Standing


@dataclass(frozen=True, slots=True)
class SumStanding(TwoVerdicts):
    """A sum that a limit is on.

    Attributes:
        parameter: The sum, e.g. nitrate + nitrite.
        day: The day of its sample.
        sum: Its parts and bounds; it was added up here, no lab reported it.
        then: How it stood to the limits of that day.
        now: How it stands to the limits of today.
        all_now: How it stands to each limit of today.
        before: How it stood to these on the day before, where it was over and no part alone was.
    """

    parameter: Parameter
    day: date
    sum: Sum
    then: Judgement
    now: Judgement
    all_now: tuple[Judgement, ...] = ()
    before: tuple[Judgement, ...] = ()


def by_urgency(standing: "Standing | SumStanding") -> tuple[int, Urgency, str]:
    """The key that sorts every list of standings: the most urgent first, alike ones by name."""
    return (*standing.urgency, standing.parameter.name.casefold())


def stand_sums(
    record: PointRecord,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> tuple[SumStanding, ...]:
    """Each sum by the results of the latest day on which one of its parts was tested.

    Where these don't tell of it, and the day before it was over though no part alone was, that day
    counts: a part that was not tested again ends nothing.

    Args:
        record: All results at a point.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
    """
    found = []
    by = (catalogue, sets)
    for rule in catalogue.sums:
        days = _latest_days(rule, record)
        if not days:
            continue
        latest, *earlier = days
        before = _over_together(rule, record, earlier, by, today)
        standing = _on(rule, record, latest, by, today)
        if standing is not None:
            found.append(replace(standing, before=before.all_now if before else ()))
        elif before is not None:
            found.append(before)
    return tuple(found)


_By = tuple[Catalogue, Sequence[str]]
_OVER = frozenset({Verdict.OUTSIDE, Verdict.ADOPTED})
_DAYS = 2  # the latest one of each part, and the one before


def _latest_days(rule: SumRule, record: PointRecord) -> list[date]:
    """The latest days on which its parts were analysed, the last one first."""
    days: set[date] = set()
    for term in rule.members:
        history = record.history(term.parameter)
        tested = {one.collected.day for one in history if one.reading.kind is not Kind.NONE}
        days |= set(sorted(tested)[-_DAYS:])
    return sorted(days, reverse=True)


def _on(rule: SumRule, record: PointRecord, day: date, by: _By, today: date) -> SumStanding | None:
    """A sum by the results of a day; None where these tell nothing of it."""
    keys = (rule.key, *(term.parameter for term in rule.members))
    sample = [r for key in keys for r in record.history(key) if r.collected.day == day]
    now, then = (_judged(rule.key, sample, *by, on) for on in (today, day))
    if not (now or then):
        return None
    one = (now or then)[0][0]
    all_then, all_now = (tuple(judged for _, judged in pairs) for pairs in (then, now))
    verdicts = (headline(all_then), headline(all_now), all_now)
    return SumStanding(by[0].parameters[rule.key], day, one, *verdicts)


def _over_together(
    rule: SumRule, record: PointRecord, days: Sequence[date], by: _By, today: date
) -> SumStanding | None:
    """The sum of the first of some days that tells of it, if it was over and no part alone was."""
    for day in days:
        standing = _on(rule, record, day, by, today)
        if standing is not None:
            over = [one for one in standing.all_now if one.verdict in _OVER]
            return standing if any(_is_together(standing.sum, one) for one in over) else None
    return None


def _is_together(added: Sum, over: Judgement) -> bool:
    most, low = max(part.low for part in added.parts), added.low
    if over.limit is None or over.limit.high is None or over.value is None or not low:
        return False
    return over.value * most / low <= over.limit.high


def _judged(
    key: str, sample: Sequence[Result], catalogue: Catalogue, sets: Sequence[str], on: date
) -> list[tuple[Sum, Judgement]]:
    return list(judge_sums(sample, catalogue, sets, on, {key}))
