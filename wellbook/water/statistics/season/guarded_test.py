"""Which trend test a history gets, so that neither season nor dependence makes its trend."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from wellbook.water.statistics.mann_kendall import LEVEL, Kendall, deviate, mann_kendall, normal_p
from wellbook.water.statistics.outcomes import LEAST_FOR_DEPENDENCE, Slope, TrendTest
from wellbook.water.statistics.season.beside_season import (
    beside_season,
    correlation_beside_season,
    less_cycle,
)
from wellbook.water.statistics.season.serial_dependence import (
    LEAST_FOR_A_WORD,
    next_test_correlation,
    raised,
    variance_factor,
    variance_growth_of_few,
)
from wellbook.water.statistics.season.time_of_year import (
    YearlyCycle,
    false_alarms,
    times_of,
    yearly_cycle,
)
from wellbook.water.statistics.seasonal_kendall import seasonal_kendall, seasonal_slope
from wellbook.water.statistics.series import CensoredValue, Series, quarter
from wellbook.water.statistics.theil_sen import theil_sen

# With so many tests in every quarter of the year, each quarter is compared with itself only.
LEAST_A_QUARTER = 5
# A yearly cycle that can move the plain test by less than this many of its standard deviations
# is left alone: even the largest one guarded against then adds under three points to its level.
_LITTLE_PULL = 0.4
# With so few tests, or where a yearly cycle could stand for half of time or more, taking the cycle
# off leaves too little to test. There the plain test serves, if made-up cycles on the very days of
# the tests show that it keeps its level: for few tests under each cycle, for many, which then all
# lie within weeks of one date, on the mean of them.
_FEW = 8
_HALF = 0.5
_LEAST_FIGURES = 5  # a mean, a cycle and a slope take four
_NEAR_LEVEL = LEVEL + 0.025  # what 300 made-up histories can show


@dataclass(frozen=True, slots=True)
class Guarded:
    """Outcome of the trend test that a history gets.

    Attributes:
        test: Its name.
        statistic: Kendall's S, or Student's t of the test beside a yearly cycle.
        p: Two-sided probability of so much by chance alone.
        slope: Change a year and its interval.
        maybe_season: A test that knows of no seasons would find a trend, but on these days a
            yearly cycle can't be told apart from it.
        season_share: Share of time that a yearly cycle could stand for, 0 to 1.
        correlation: Of each test with the next; None where there are too few tests to allow for.
        maybe_dependence: Too few tests to allow for their likeness, which may explain the trend.
        seasons_differ: The quarters of the year don't go the same way.
        flat: The spans less slope and, where it was taken off, yearly cycle, about the middle of
            their times.
        variance_growth: By how much the variance of the slope grows if successive tests resemble
            each other as much as they seem to; 1 where that is allowed for already.
    """

    test: TrendTest
    statistic: float
    p: float
    slope: Slope
    maybe_season: bool = False
    season_share: float = 0.0
    correlation: float | None = None
    maybe_dependence: bool = False
    seasons_differ: bool = False
    flat: tuple[CensoredValue, ...] = ()
    variance_growth: float = 1.0


def guarded_test(found: Series) -> Guarded:
    """Test a series, in order of time, for a trend."""
    spans = found.spans
    cycle = yearly_cycle(times_of(spans))
    if _fills_quarters(found):
        return _within_quarters(found, cycle)
    plain = mann_kendall(spans)
    if not _needs_season(spans, cycle):
        return _plain(spans, plain, cycle)
    beside = beside_season(spans)
    p = _of_few(spans, plain, beside.p) if len(spans) <= _FEW else beside.p
    return Guarded(
        test=TrendTest.BESIDE_SEASON,
        statistic=beside.statistic,
        p=p,
        slope=beside.slope,
        maybe_season=plain.p <= LEVEL < p,
        season_share=cycle.share,
        correlation=_told(spans, beside.correlation),
        maybe_dependence=_maybe(len(spans), p, beside.p_dependent),
        flat=_flat(beside.left, cycle.rest, beside.slope),
        variance_growth=variance_growth_of_few(cycle.rest, beside.correlation),
    )


def _of_few(spans: Sequence[CensoredValue], plain: Kendall, beside: float) -> float:
    """With few tests both must show it, and enough figures that a cycle and a slope don't fit."""
    if sum(span.exact for span in spans) < _LEAST_FIGURES:
        return 1.0
    return max(plain.p, beside)


def _needs_season(spans: Sequence[CensoredValue], cycle: YearlyCycle) -> bool:
    if cycle.pull <= _LITTLE_PULL:
        return False
    little_left = len(spans) <= _FEW or cycle.share >= _HALF
    undetected = sum(span.undetected for span in spans)
    if not little_left:
        return True
    shares = false_alarms(times_of(spans), undetected)
    return (max(shares) if len(spans) <= _FEW else fmean(shares)) > _NEAR_LEVEL


def _fills_quarters(found: Series) -> bool:
    counts = Counter(map(quarter, found.days))
    return len(counts) == 4 and min(counts.values()) >= LEAST_A_QUARTER  # noqa: PLR2004  quarters


def _plain(spans: Sequence[CensoredValue], kendall: Kendall, cycle: YearlyCycle) -> Guarded:
    slope, p = theil_sen(spans), kendall.p
    times = _centred_times(spans)
    correlation = next_test_correlation(_flat(spans, times, slope))
    factor = variance_factor(times, raised(correlation, len(spans)))
    dependent = normal_p(deviate(kendall.s, kendall.variance * factor)) if factor > 1 else p
    if len(spans) >= LEAST_FOR_DEPENDENCE:
        p, slope = dependent, theil_sen(spans, factor=factor)
    return Guarded(
        test=TrendTest.EXACT if kendall.exact else TrendTest.NORMAL,
        statistic=kendall.s,
        p=p,
        slope=slope,
        season_share=cycle.share,
        correlation=_told(spans, correlation),
        maybe_dependence=_maybe(len(spans), p, dependent),
        flat=_flat(spans, times, slope),
        variance_growth=variance_growth_of_few(times, correlation),
    )


def _within_quarters(found: Series, cycle: YearlyCycle) -> Guarded:
    quarters = [quarter(day) for day in found.days]
    kendall = seasonal_kendall(found.spans, quarters)
    correlation = correlation_beside_season(found.spans, cycle)
    times = _centred_times(found.spans)
    factor = variance_factor(times, raised(correlation, len(times)))
    slope = seasonal_slope(found.spans, quarters, factor=factor)
    left = less_cycle(found.spans, cycle)
    return Guarded(
        test=TrendTest.SEASONAL,
        statistic=kendall.s,
        p=normal_p(deviate(kendall.s, kendall.variance * factor)),
        slope=slope,
        season_share=cycle.share,
        correlation=_told(found.spans, correlation),
        seasons_differ=kendall.p_agree <= LEVEL,
        flat=_flat(left, cycle.rest, slope),
    )


def _flat(
    spans: Sequence[CensoredValue], times: Sequence[float], slope: Slope
) -> tuple[CensoredValue, ...]:
    rate = slope.rate or 0.0
    return tuple(
        CensoredValue(span.at, span.low - rate * at, span.high - rate * at)
        for span, at in zip(spans, times, strict=True)
    )


def _centred_times(spans: Sequence[CensoredValue]) -> list[float]:
    mean = sum(span.at for span in spans) / len(spans)
    return [span.at - mean for span in spans]


def _maybe(n: int, p: float, dependent: float) -> bool:
    return n >= LEAST_FOR_A_WORD and p <= LEVEL < dependent


def _told(spans: Sequence[CensoredValue], correlation: float) -> float | None:
    return correlation if len(spans) >= LEAST_FOR_DEPENDENCE else None
