"""Whether the water was different after an event than before it (rank-sum test).

With non-detects the ranks become certain comparisons, as for a trend (Gehan, Biometrika 52,
1965); without them this is the Wilcoxon-Mann-Whitney test. The shift is the median of all
differences between a test after and a test before (Hodges and Lehmann, 1963).
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

from wellbook.water.statistics.mann_kendall import (
    LEVEL,
    below,
    critical_deviate,
    deviate,
    kendall_score,
    kendall_variance,
    normal_p,
)
from wellbook.water.statistics.outcomes import (
    LEAST_A_SIDE,
    Change,
    Slope,
    StepChange,
)
from wellbook.water.statistics.pair_slopes import PairSlopes
from wellbook.water.statistics.season.circumstances import Circumstance
from wellbook.water.statistics.season.switches import parted
from wellbook.water.statistics.series import CensoredValue, Series, label, quarter, series
from wellbook.water.statistics.theil_sen import slope_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

_EXACT_UP_TO = 20


@dataclass(frozen=True, slots=True)
class RankSum:
    """Outcome of a rank-sum test.

    Attributes:
        score: Pairs where a figure after certainly lies above one before, less the opposite.
        variance: Variance of `score` if the event did not matter.
        p: Two-sided probability of so large a score if the event did not matter.
        exact: Whether `p` comes from counting every split.
        shift: Median difference, after less before, and its 90 % interval (in `rate`).
    """

    score: int
    variance: float
    p: float
    exact: bool
    shift: Slope


def step_change(history: Sequence[Result], parameter: Parameter, event: date) -> StepChange:
    """Compare the tests before an event with those after it; its own day counts for neither."""
    unit = label(parameter)
    if parameter.scale == "presence":
        return _untested(Change.NOT_FOR_THIS, (0, 0, 0), unit)
    found = series(history, parameter)
    before, after = _split(found, event)
    counts = (len(before), len(after), found.censored)
    if min(len(before), len(after)) < LEAST_A_SIDE:
        return _untested(Change.FEW, counts, unit)
    outcome = rank_sum(before, after)
    says = Change.NO_CLEAR_CHANGE
    if outcome.p <= LEVEL:
        says = Change.HIGHER if outcome.score > 0 else Change.LOWER
    return StepChange(
        says,
        *counts,
        outcome.score,
        outcome.p,
        outcome.shift.rate,
        outcome.shift.low,
        outcome.shift.high,
        unit,
        _seasons_differ(found, event),
        tuple(_also(found, event)),
    )


def rank_sum(
    before: Sequence[CensoredValue], after: Sequence[CensoredValue], level: float = 1 - LEVEL
) -> RankSum:
    """Test whether figures after tend to lie above or below those before."""
    spans = [CensoredValue(0.0, span.low, span.high) for span in before]
    spans += [CensoredValue(1.0, span.low, span.high) for span in after]
    score, variance = kendall_score(spans), kendall_variance(spans)
    exact = len(spans) <= _EXACT_UP_TO
    ways = _distribution(spans, len(after)) if exact else {}
    p = _exact_p(ways, score) if exact else normal_p(deviate(score, variance))
    critical = 1 + critical_deviate(level) * sqrt(variance)
    if exact:
        kept = [abs(s) for s in ways if _exact_p(ways, s) > 1 - level + 1e-12]
        critical = max(kept, default=0)
    return RankSum(score, variance, p, exact, slope_of(PairSlopes([spans]), critical, level))


def _distribution(spans: Sequence[CensoredValue], size: int) -> dict[int, int]:
    """How many of the ways to pick so many spans as `after` give each score."""
    # A span's score against all others adds up: those picked too cancel out in pairs.
    scores = [sum(below(b, a) - below(a, b) for b in spans) for a in spans]
    ways: list[Counter[int]] = [Counter({0: 1})] + [Counter() for _unused in range(size)]
    for score in scores:
        for picked in range(size, 0, -1):
            for total, number in ways[picked - 1].items():
                ways[picked][total + score] += number
    return dict(ways[size])


def _exact_p(ways: dict[int, int], score: int) -> float:
    """Two-sided: scores at least as far from zero."""
    total = sum(ways.values())
    return sum(number for s, number in ways.items() if abs(s) >= abs(score)) / total


def _split(found: Series, event: date) -> tuple[list[CensoredValue], list[CensoredValue]]:
    pairs = list(zip(found.days, found.spans, strict=True))
    before = [span for day, span in pairs if day < event]
    return before, [span for day, span in pairs if day > event]


def _untested(says: Change, counts: tuple[int, int, int], unit: str) -> StepChange:
    return StepChange(says, *counts, None, None, None, None, None, unit)


def _also(found: Series, event: date) -> Iterator[Circumstance]:
    """What else was another one before the event than after it."""
    for of, printed in ((Circumstance.LAB, found.labs), (Circumstance.METHOD, found.methods)):
        pairs = list(zip(found.days, printed, strict=True))
        before = frozenset[str]().union(*(names for day, names in pairs if day < event))
        after = frozenset[str]().union(*(names for day, names in pairs if day > event))
        if parted(before, after):
            yield of


def _seasons_differ(found: Series, event: date) -> bool:
    before = {quarter(day) for day in found.days if day < event}
    after = {quarter(day) for day in found.days if day > event}
    return not before & after
