"""Where the sums of a point's parameters stand, by the latest samples that hold their parts."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Urgency
from wellbook.water.values.parameters import Parameter
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
        day: The latest day on which a part of it was tested.
        sum: Its parts and bounds; it was added up here, no lab reported it.
        then: How it stood to the limits of that day.
        now: How it stands to the limits of today.
        all_now: How it stands to each limit of today.
    """

    parameter: Parameter
    day: date
    sum: Sum
    then: Judgement
    now: Judgement
    all_now: tuple[Judgement, ...] = ()


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

    Args:
        record: All results at a point.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
    """
    found = []
    for rule in catalogue.sums:
        parts = [result for term in rule.members for result in record.history(term.parameter)]
        if not parts:
            continue
        day = max(result.collected.day for result in parts)
        sample = [result for result in parts if result.collected.day == day]
        sample += [r for r in record.history(rule.key) if r.collected.day == day]
        now = _judged(rule.key, sample, catalogue, sets, today)
        then = _judged(rule.key, sample, catalogue, sets, day)
        if now or then:
            one = (now or then)[0][0]
            all_then, all_now = (tuple(judged for _, judged in pairs) for pairs in (then, now))
            verdicts = (headline(all_then), headline(all_now), all_now)
            found.append(SumStanding(catalogue.parameters[rule.key], day, one, *verdicts))
    return tuple(found)


def _judged(
    key: str, sample: Sequence[Result], catalogue: Catalogue, sets: Sequence[str], on: date
) -> list[tuple[Sum, Judgement]]:
    return list(judge_sums(sample, catalogue, sets, on, {key}))
