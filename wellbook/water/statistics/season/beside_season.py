"""A trend test that allows for a yearly cycle, for histories of any length from six tests on.

A sine and a cosine of one turn a year are taken off, and what is left is tested against what they
leave of time (a harmonic covariate: Helsel and others, Statistical Methods in Water Resources,
USGS Techniques and Methods 4-A3, 2020, ch. 12). The test is made twice and the less certain
answer counts: with the normal scores of the figures, which need no scale, and with the ranks of
what is left of the figures, which don't bend a large cycle. Student's t serves for both. Ranks of
non-detects come from certain comparisons only.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf, sqrt
from operator import sub
from statistics import NormalDist

from wellbook.water.statistics.mann_kendall import LEVEL, certain_counts, certain_order
from wellbook.water.statistics.outcomes import Slope
from wellbook.water.statistics.pair_slopes import ALL_UP_TO, PairSlopes
from wellbook.water.statistics.season.censored_fit import completed
from wellbook.water.statistics.season.serial_dependence import (
    LEAST_FOR_DEPENDENCE,
    next_test_correlation,
    raised,
    variance_factor,
)
from wellbook.water.statistics.season.student_t import student_p
from wellbook.water.statistics.season.time_of_year import (
    YearlyCycle,
    dot,
    times_of,
    yearly_cycle,
)
from wellbook.water.statistics.series import CensoredValue

_NORMAL = NormalDist()
_HARDLY = 1e-9


@dataclass(frozen=True, slots=True)
class BesideSeason:
    """Outcome of a trend test beside a yearly cycle.

    Attributes:
        statistic: Student's t of the test that counts; its sign is that of the trend.
        freedom: Its degrees of freedom.
        p: Two-sided probability of so much by chance alone.
        slope: Change a year with the yearly cycle taken off, and an interval that agrees with p.
        correlation: Of one test with the next.
        left: The spans less their yearly cycle, in order of time.
        p_dependent: The probability if successive tests depend on each other so much; with enough
            tests that is `p`.
    """

    statistic: float
    freedom: int
    p: float
    p_dependent: float
    slope: Slope
    correlation: float
    left: tuple[CensoredValue, ...]


def beside_season(spans: Sequence[CensoredValue], level: float = 1 - LEVEL) -> BesideSeason:
    """Test spans, in order of time, for a trend beside a yearly cycle.

    Raises:
        ValueError: There are too few spans for a yearly cycle and a slope.
    """
    cycle = yearly_cycle(times_of(spans))
    freedom = len(spans) - 2 - len(cycle.waves)
    left = less_cycle(spans, cycle)
    rate, correlation = _correlation(left, cycle)
    dependent = variance_factor(cycle.rest, raised(correlation, len(spans)))
    factor = dependent if len(spans) >= LEAST_FOR_DEPENDENCE else 1.0

    def deviate_at(slope: float) -> float:
        own = _deviate(normal_scores(_less_slope(spans, times_of(spans), slope)), cycle, freedom)
        other = _deviate(_ranks(_less_slope(left, cycle.rest, slope)), cycle, freedom)
        # The less certain of the two; where they disagree about the way, there is none.
        return 0.0 if own * other <= 0 else min(own, other, key=abs) / sqrt(factor)

    found = deviate_at(0.0)
    p = student_p(found, freedom)

    def keeps(slope: float) -> bool:
        return student_p(deviate_at(slope), freedom) > 1 - level

    return BesideSeason(
        statistic=found,
        freedom=freedom,
        p=p,
        p_dependent=student_p(found * sqrt(factor / dependent), freedom),
        slope=_slope(left, cycle, rate, keeps, level),
        correlation=correlation,
        left=left,
    )


def correlation_beside_season(spans: Sequence[CensoredValue], cycle: YearlyCycle) -> float:
    """Correlation of each test with the next, beside a trend and a yearly cycle."""
    return _correlation(less_cycle(spans, cycle), cycle)[1]


def _correlation(left: Sequence[CensoredValue], cycle: YearlyCycle) -> tuple[float | None, float]:
    """The slope that leaves no trend, and the correlation."""
    rate = _middle_rate(left, cycle)
    return rate, next_test_correlation(_less_slope(left, cycle.rest, rate or 0.0))


def normal_scores(spans: Sequence[CensoredValue]) -> list[float]:
    """Normal scores (Blom, 1958) of the middle rank that each span can have."""
    n = len(spans)
    middles = [(lower - higher + n + 1) / 2 for lower, higher in certain_counts(spans)]
    return [_NORMAL.inv_cdf((middle - 0.375) / (n + 0.25)) for middle in middles]


def _ranks(spans: Sequence[CensoredValue]) -> list[int]:
    return certain_order([span.low for span in spans], [span.high for span in spans])


def _deviate(scores: Sequence[float], cycle: YearlyCycle, freedom: int) -> float:
    """Student's t of scores on what the cycle leaves of time."""
    left = cycle.without(scores)
    length, whole = dot(cycle.rest, cycle.rest), dot(left, left)
    if whole < _HARDLY * (1 + dot(scores, scores)) or length < _HARDLY:
        return 0.0
    slope = dot(cycle.rest, left) / length
    unexplained = max(whole - slope * slope * length, _HARDLY * whole)
    return slope * sqrt(length * freedom / unexplained)


def less_cycle(spans: Sequence[CensoredValue], cycle: YearlyCycle) -> tuple[CensoredValue, ...]:
    """Spans with their yearly cycle taken off, both bounds alike."""
    figures = completed(spans, cycle)
    mean = sum(figures) / len(figures)
    taken = [
        figure - mean - rest for figure, rest in zip(figures, cycle.without(figures), strict=True)
    ]
    return tuple(
        CensoredValue(span.at, span.low - off, span.high - off)
        for span, off in zip(spans, taken, strict=True)
    )


def _less_slope(
    spans: Sequence[CensoredValue], times: Sequence[float], slope: float
) -> list[CensoredValue]:
    start = times[0]
    return [
        CensoredValue(span.at, span.low - slope * (at - start), span.high - slope * (at - start))
        for span, at in zip(spans, times, strict=True)
    ]


def _steps(left: Sequence[CensoredValue], cycle: YearlyCycle) -> Sequence[float] | PairSlopes:
    """Every slope at which a comparison of two tests changes."""
    spans = [
        CensoredValue(at, span.low, span.high) for at, span in zip(cycle.rest, left, strict=True)
    ]
    pairs = PairSlopes([spans], numbers=1)
    return sorted(set(pairs)) if len(pairs) <= ALL_UP_TO else pairs


def _middle_rate(left: Sequence[CensoredValue], cycle: YearlyCycle) -> float | None:
    """The slope that leaves no trend (Sievers, JASA 73, 1978: pairs weigh by their distance)."""
    lows, highs = [span.low for span in left], [span.high for span in left]
    passed = [at - cycle.rest[0] for at in cycle.rest]

    def score(slope: float) -> float:
        taken = [slope * time for time in passed]
        return dot(cycle.rest, certain_order([*map(sub, lows, taken)], [*map(sub, highs, taken)]))

    tiny = _HARDLY * (1 + max(map(abs, cycle.rest), default=0.0)) * len(left) ** 2
    steps = _steps(left, cycle)
    if isinstance(steps, PairSlopes):
        steps = _near_crossing(steps, score, tiny)
    first, last = _crossing(lambda k: score(_between(steps, k)), len(steps) + 1, tiny)
    if first == 0 or last > len(steps):
        return None
    return (steps[first - 1] + steps[last - 1]) / 2


def _near_crossing(
    pairs: PairSlopes, score: Callable[[float], float], tiny: float
) -> Sequence[float] | PairSlopes:
    """The slopes among which a falling score passes zero; all of them where that can't be told."""
    drawn = pairs.sample()
    first, last = _crossing(lambda k: score(drawn[k]), len(drawn), tiny)
    if first == 0 or last == len(drawn):
        return pairs
    return pairs.between(drawn[first - 1], drawn[last])


def _crossing(score: Callable[[int], float], count: int, tiny: float) -> tuple[int, int]:
    """The first places where a falling score is zero, and where it is below; `count` if none is."""
    first = bisect_left(range(count), -tiny, key=lambda k: -score(k))
    past, step = first, 1  # they lie close to each other, mostly
    while past < count and score(past) >= -tiny:
        past, step = past + step, step * 2
    known = max(first, past - step // 2 + 1) if past > first else first
    last = bisect_right(range(min(past, count)), tiny, known, key=lambda k: -score(k))
    return first, last


def _between(steps: Sequence[float] | PairSlopes, k: int) -> float:
    """A slope after k steps and before the next."""
    if not steps:
        return 0.0
    if k == 0:
        return steps[0] - 1 - abs(steps[0])
    if k == len(steps):
        return steps[-1] + 1 + abs(steps[-1])
    return (steps[k - 1] + steps[k]) / 2


def _slope(
    left: Sequence[CensoredValue],
    cycle: YearlyCycle,
    rate: float | None,
    keeps: Callable[[float], bool],
    level: float,
) -> Slope:
    """The interval of slopes that are not refused, from the middle outward."""
    steps = _steps(left, cycle)
    if not steps:
        return Slope(None, None, None, level)
    middle = bisect_left(steps, rate) if rate is not None else len(steps) // 2
    first = bisect_left(range(middle + 1), 1, key=lambda k: keeps(_between(steps, k)))
    last = bisect_left(
        range(middle + 1, len(steps) + 1), 1, key=lambda k: not keeps(_between(steps, k))
    )
    low = -inf if first == 0 else steps[min(first, middle) - 1]
    last += middle + 1
    high = inf if last > len(steps) else steps[last - 1]
    if keeps(0.0):
        low, high = min(low, 0.0), max(high, 0.0)
    elif low < 0 < high:
        low, high = (0.0, high) if (rate or 0.0) > 0 else (low, 0.0)
    return Slope(rate, None if low == -inf else low, None if high == inf else high, level)
