"""When a line that rises or falls reaches a limit, with an interval.

The line is that of the trend test. Its interval a while ahead joins the interval of the slope,
which grows with the distance from the middle of the tests, and that of the level there (the
median of what slope and yearly cycle leave, by order statistics, non-detects counted in). A day
belongs to the interval of a crossing as long as the limit lies within that of the line (inverse
prediction after Fieller, Journal of the Royal Statistical Society B 16, 1954).
"""

from collections.abc import Callable, Sequence
from datetime import date
from math import inf, sqrt

from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import LEVEL, critical_deviate
from wellbook.water.statistics.outcomes import Course, Crossing, Slope, Way
from wellbook.water.statistics.series import DAYS_A_YEAR, CensoredValue, in_one_season
from wellbook.water.statistics.turnbull import shares_of

# Below eight tests the interval of a slope is nearly always open on a side. Looking ahead for
# longer than the tests look back, or for longer than 15 years, is guessing; our own convention.
LEAST_FOR_FORECAST = 8
_FURTHEST = 15.0
_HALVINGS = 40
# Of so few tests the interval reaches further than it must where some are non-detects or a yearly
# cycle scatters them, and so it does of tests compared within quarters: it is told as `at least`.
_WIDE_UP_TO = 9


def course(
    flat: Sequence[CensoredValue],
    slope: Slope,
    *,
    within_quarters: bool = False,
    variance_growth: float = 1.0,
) -> Course | None:
    """The line through spans, and how far ahead it goes; None where it can't be told.

    Args:
        flat: Spans in order of time, less slope and yearly cycle about the middle of their times.
        slope: Change a year and its interval.
        within_quarters: The slope is that of tests compared within the quarters of the year.
        variance_growth: By how much the variance of the slope grows with the likeness of
            successive tests, as far as that is not in the slope's interval.
    """
    if len(flat) < LEAST_FOR_FORECAST or not slope.rate or slope.low is None or slope.high is None:
        return None
    shares = shares_of(flat)
    reach = critical_deviate(1 - LEVEL) / (2 * sqrt(len(flat)))
    level, low, high = (quantile(shares, share) for share in (0.5, 0.5 - reach, 0.5 + reach))
    if level is None or high is None:
        return None
    lowest = 2 * level - high if low is None else low
    first, last = flat[0].at, flat[-1].at
    middle = sum(span.at for span in flat) / len(flat)
    until = last + min(last - first, _FURTHEST)
    undetected = sum(span.low == -inf for span in flat) / len(flat)
    one_season = in_one_season(flat)
    scatters = len(flat) <= _WIDE_UP_TO and (undetected > 0 or not one_season)
    return Course(
        middle,
        level,
        lowest,
        high,
        slope,
        first,
        last,
        until,
        undetected,
        is_wide=scatters or within_quarters,
        one_season=one_season,
        widened=sqrt(variance_growth),
    )


def crossing(line: Course, limit: float) -> Crossing | None:
    """When the line reaches the limit; None if it is past it already or it can't be told."""
    rate = line.slope.rate or 0.0
    rises = rate > 0
    if (line.at(line.last) >= limit) if rises else (line.at(line.last) <= limit):
        return None
    best = line.middle + (limit - line.level) / rate
    if best > line.until:
        return None
    ahead, behind = (line.high, line.low) if rises else (line.low, line.high)

    def past(height: float) -> bool:
        return height >= limit if rises else height <= limit

    earliest = line.last if past(ahead(line.last)) else _when(ahead, past, line.last, best)
    latest = _when(behind, past, best, line.until) if past(behind(line.until)) else None
    return Crossing(
        Way.RISES_ABOVE if rises else Way.FALLS_BELOW,
        limit,
        day_of(best),
        day_of(earliest),
        None if latest is None else day_of(latest),
        is_wide=line.is_wide,
        is_rough=line.is_rough,
        one_season=line.one_season,
    )


def day_of(time: float) -> date:
    """The day of a time in years."""
    return date.fromordinal(round(time * DAYS_A_YEAR))


def _when(
    height: Callable[[float], float], past: Callable[[float], bool], a: float, b: float
) -> float:
    """The first time between a, where the height is not past the limit, and b, where it is."""
    for _ in range(_HALVINGS):
        middle = (a + b) / 2
        a, b = (a, middle) if past(height(middle)) else (middle, b)
    return b
