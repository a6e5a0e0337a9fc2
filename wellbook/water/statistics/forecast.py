"""When a line that rises or falls reaches a limit, with an interval.

The line is that of the trend test. Its interval a while ahead joins the interval of the slope,
which grows with the distance from the middle of the tests, and that of the level there (the
median of what slope and yearly cycle leave, by order statistics, non-detects counted in). A day
belongs to the interval of a crossing as long as the limit lies within that of the line (inverse
prediction after Fieller, Journal of the Royal Statistical Society B 16, 1954).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import hypot, inf, sqrt

from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import LEVEL, critical_deviate
from wellbook.water.statistics.series import DAYS_A_YEAR, CensoredValue, in_one_season
from wellbook.water.statistics.theil_sen import Slope
from wellbook.water.statistics.turnbull import shares_of

# Below eight tests the interval of a slope is nearly always open on a side. Looking ahead for
# longer than the tests look back, or for longer than 15 years, is guessing; our own convention.
LEAST_FOR_FORECAST = 8
_FURTHEST = 15.0
_HALVINGS = 40
# Lines that are past a limit already foretell nothing, so those that do lie rather too low where
# they rise: the interval is drawn in only behind the line, not towards where it moves. What
# non-detects leave open reaches further than what they hide. So an interval holds the true day
# about as often as it says; measured on made-up histories, see the table in DEVELOPERS.md.
_BEHIND = 0.75
_OPENED, _OPENED_UP_TO = 20.0, 0.35  # by the third power of their share
# Of so few tests the interval reaches further than it must where some are non-detects or a yearly
# cycle scatters them, and so it does of tests compared within quarters: it is told as `at least`.
_WIDE_UP_TO = 9


class Way(StrEnum):
    """What the line does at a limit."""

    RISES_ABOVE = "rises above"
    FALLS_BELOW = "falls below"


@dataclass(frozen=True, slots=True)
class Course:
    """A line over time with its 90 % interval, as far ahead as it may be drawn.

    Attributes:
        middle: Time of the middle of the tests, in years; level and slope are told from there.
        level: Height of the line there.
        lowest: Lower end of its interval.
        highest: Upper end of it.
        slope: Change a year and its interval, closed on the side that it moves to.
        first: Time of the first test.
        last: Time of the last test.
        until: How far ahead it is drawn.
        undetected: Share of the tests that are non-detects, 0 to 1.
        is_wide: Its interval holds more than 90 %, by how much can't be told.
        one_season: All tests fall into the same quarter of the year, so it is the level there.
    """

    middle: float
    level: float
    lowest: float
    highest: float
    slope: Slope
    first: float
    last: float
    until: float
    undetected: float = 0.0
    is_wide: bool = False
    one_season: bool = False

    def at(self, time: float) -> float:
        """Height of the line."""
        return self.level + (self.slope.rate or 0.0) * (time - self.middle)

    def low(self, time: float) -> float:
        """Lower end of its interval, after the middle of the tests."""
        return self.at(time) - self._reach(time, self.level - self.lowest, self.slope.low)

    def high(self, time: float) -> float:
        """Upper end of its interval, after the middle of the tests."""
        return self.at(time) + self._reach(time, self.highest - self.level, self.slope.high)

    def _reach(self, time: float, level: float, slope: float | None) -> float:
        rate = self.slope.rate or 0.0
        end = 0.0 if slope is None else slope
        whole = hypot(level, (end - rate) * (time - self.middle))
        is_ahead = (end > rate) is (rate > 0)
        drawn = 1.0 if is_ahead else _BEHIND
        return drawn * whole / (1 + _OPENED * min(self.undetected, _OPENED_UP_TO) ** 3)


@dataclass(frozen=True, slots=True)
class Crossing:
    """When a line reaches a limit.

    Attributes:
        says: What it does there.
        limit: The limit's figure in the unit of the trend.
        day: The most likely day.
        earliest: Start of the 90 % interval; not before the last test.
        latest: End of it; None where it lies further ahead than can be told.
        is_wide: The interval holds more than 90 %.
        is_rough: It holds 84 to 96 %, by how many tests are non-detects and where they lie.
        one_season: All tests fall into the same quarter of the year.
    """

    says: Way
    limit: float
    day: date
    earliest: date
    latest: date | None
    is_wide: bool = False
    is_rough: bool = False
    one_season: bool = False


def course(
    flat: Sequence[CensoredValue], slope: Slope, *, within_quarters: bool = False
) -> Course | None:
    """The line through spans, and how far ahead it goes; None where it can't be told.

    Args:
        flat: Spans in order of time, less slope and yearly cycle about the middle of their times.
        slope: Change a year and its interval.
        within_quarters: The slope is that of tests compared within the quarters of the year.
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
        is_rough=line.undetected > 0 and not line.is_wide,
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
