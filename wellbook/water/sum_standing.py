"""Where the sums of a point's parameters stand, by the latest samples that hold their parts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.water.catalogue import Catalogue
from wellbook.water.judgement import Judgement
from wellbook.water.parameters import Parameter
from wellbook.water.results import Result
from wellbook.water.sums import RULES, Sum, judge_sums
from wellbook.water.verdicts import headline


@dataclass(frozen=True, slots=True)
class SumStanding:
    """A sum that a limit is on.

    Attributes:
        parameter: The sum, e.g. nitrate + nitrite.
        day: The latest day on which a part of it was tested.
        sum: Its parts and bounds; it was added up here, no lab reported it.
        then: How it stood to the limits of that day.
        now: How it stands to the limits of today.
    """

    parameter: Parameter
    day: date
    sum: Sum
    then: Judgement
    now: Judgement


def stand_sums(
    grouped: Mapping[str, Sequence[Result]],
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> tuple[SumStanding, ...]:
    """Each sum by the results of the latest day on which one of its parts was tested.

    Args:
        grouped: All results at a point by parameter key.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
    """
    found = []
    for rule in RULES:
        parts = [result for term in rule.terms for result in grouped.get(term.parameter, ())]
        if not parts:
            continue
        day = max(result.collected.day for result in parts)
        sample = [result for result in parts if result.collected.day == day]
        sample += [r for r in grouped.get(rule.key, ()) if r.collected.day == day]
        now = _judged(rule.key, sample, catalogue, sets, today)
        then = _judged(rule.key, sample, catalogue, sets, day)
        if now or then:
            one = (now or then)[0][0]
            verdicts = (headline([judged for _, judged in pairs]) for pairs in (then, now))
            found.append(SumStanding(catalogue.parameters[rule.key], day, one, *verdicts))
    return tuple(found)


def _judged(
    key: str, sample: Sequence[Result], catalogue: Catalogue, sets: Sequence[str], on: date
) -> list[tuple[Sum, Judgement]]:
    return [pair for pair in judge_sums(sample, catalogue, sets, on) if pair[0].rule.key == key]
