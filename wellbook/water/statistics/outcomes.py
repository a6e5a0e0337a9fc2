"""What the statistics tell of a history, as values; how they come to it stands beside.

Whoever only words, draws or keeps what was found needs nothing but this.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import hypot

from wellbook.water.statistics.season.circumstances import Circumstance, Switch

# With four tests only a perfect rise could show, with five one single pair may go the other way.
# From six on, one odd test neither makes nor hides a trend.
LEAST = 6
# Three against three: the least with which a clean split shows at the 10 % level (1 in 10).
LEAST_A_SIDE = 3
# From so many tests on likeness of successive ones is corrected for: with fewer, the estimate
# scatters so much that real trends are lost and false ones stay.
LEAST_FOR_DEPENDENCE = 20
FURTHEST = 40  # tests to come
LEAST_TOLD = 4  # tests from which the middle of a history is told, and its median bounded
CONFIDENCE = 0.9  # of the limits of a long-run median, one-sided
# Four of five is the usual aim when a number of tests is planned; common practice, no source.
AIM = 0.8
# Lines that are past a limit already foretell nothing, so those that do lie rather too low where
# they rise: the interval is drawn in only behind the line, not towards where it moves. What
# non-detects leave open reaches further than what they hide. So an interval holds the true day
# about as often as it says; measured on made-up histories, see the table in DEVELOPERS.md.
_BEHIND = 0.75
_OPENED, _OPENED_UP_TO = 20.0, 0.35  # by the third power of their share


class Direction(StrEnum):
    """What a trend says."""

    RISING = "rising"
    FALLING = "falling"
    HIGHER_SINCE = "higher since a change"  # of lab, method or treatment; no trend beside it
    LOWER_SINCE = "lower since a change"
    NO_CLEAR_TREND = "no clear trend"
    MAYBE_SEASON = "may be the season"  # on these days a yearly cycle can't be told from a trend
    FEW = "too few tests"  # fewer than `LEAST`, or too few figures that differ
    UNSEEN = "only non-detects"
    NOT_FOR_THIS = "not for this parameter"
    PENDING = "not worked out yet"


MOVING = frozenset({Direction.RISING, Direction.FALLING})
SHIFTED = frozenset({Direction.HIGHER_SINCE, Direction.LOWER_SINCE})
UNSTEADY = MOVING | SHIFTED


class TrendTest(StrEnum):
    """By which test a trend was judged."""

    EXACT = "exact Mann-Kendall test"
    NORMAL = "Mann-Kendall test"
    SEASONAL = "seasonal Kendall test"
    BESIDE_SEASON = "season-adjusted rank test"
    NONE = ""


@dataclass(frozen=True, slots=True)
class Slope:
    """A rate of change and its interval.

    Attributes:
        rate: Change of the figure a year; None where the bounds leave it open on a side.
        low: Lower end of the interval; None if open.
        high: Upper end of the interval; None if open.
        level: Confidence of the interval, e.g. 0.9.
    """

    rate: float | None
    low: float | None
    high: float | None
    level: float


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
        widened: By how much its interval is wider, as successive tests resemble each other.
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
    widened: float = 1.0

    @property
    def is_rough(self) -> bool:
        """Whether its interval holds only roughly 90 %, as some tests are non-detects."""
        return self.undetected > 0 and not self.is_wide

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
        drawn = self.widened if is_ahead else self.widened * _BEHIND
        return drawn * whole / (1 + _OPENED * min(self.undetected, _OPENED_UP_TO) ** 3)


class Way(StrEnum):
    """What the line does at a limit."""

    RISES_ABOVE = "rises above"
    FALLS_BELOW = "falls below"


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
        is_rough: It holds 82 to 97 %, by how many tests are non-detects and where they lie.
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


@dataclass(frozen=True, slots=True)
class Trend:
    """What can be said of the trend of one parameter at one point.

    Attributes:
        says: Which way it goes.
        test: The test; NONE where none was made.
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        statistic: Kendall's S, within the quarters of the year for the seasonal test; Student's t
            of the season-adjusted test.
        p: Two-sided probability of so much under chance alone.
        slope_per_year: Theil-Sen slope in `unit` a year; None where bounds leave it open.
        low: Lower end of the slope's 90 % interval.
        high: Upper end of the slope's 90 % interval.
        unit: Unit and basis of the slope, e.g. `mg/L as N`.
        line: Both ends of the line that was tested, only where it rises or falls; it is cut where
            it would fall below zero.
        span: The first and the last day with a usable figure; None without any.
        undetected: How many of the censored are non-detects.
        left_out: Results without a usable figure, or of another sort of sample.
        seasons_differ: Whether the seasons don't go the same way, by the seasonal test.
        correlation: Of each test with the next, which was allowed for; None with too few tests.
        maybe_dependence: Whether the trend may only be that successive tests resemble each other,
            with too few of them to allow for it.
        course: The line with its interval and how far ahead it may be drawn; only where it rises
            or falls, rests on enough tests and is not explained by their likeness.
        switches: Changes without which no trend shows, where it is only higher or lower since.
    """

    says: Direction
    test: TrendTest
    n: int
    censored: int
    statistic: float | None
    p: float | None
    slope_per_year: float | None
    low: float | None
    high: float | None
    unit: str
    line: tuple[tuple[date, float], tuple[date, float]] | None = None
    span: tuple[date, date] | None = None
    undetected: int = 0
    left_out: int = 0
    seasons_differ: bool = False
    correlation: float | None = None
    maybe_dependence: bool = False
    course: Course | None = None
    switches: tuple[Switch, ...] = ()


# In place of the trend of a history that was not gone through yet.
PENDING = Trend(Direction.PENDING, TrendTest.NONE, 0, 0, None, None, None, None, None, "")


class Change(StrEnum):
    """How the water was after an event."""

    HIGHER = "higher"
    LOWER = "lower"
    NO_CLEAR_CHANGE = "no clear change"
    FEW = "too few tests"
    NOT_FOR_THIS = "not for this parameter"


@dataclass(frozen=True, slots=True)
class StepChange:
    """What can be said of a change at an event.

    Attributes:
        says: How it was afterwards.
        before: Days with a usable figure before the event.
        after: Days with a usable figure after it.
        censored: How many of both are bounds.
        statistic: Score of the rank-sum test.
        p: Two-sided probability of so much under chance alone.
        shift: Median difference in `unit`, after less before.
        low: Lower end of the shift's 90 % interval.
        high: Upper end of the shift's 90 % interval.
        unit: Unit and basis of the shift.
        seasons_differ: Whether no season was tested on both sides.
        also: What else was another one on either side: lab, method.
    """

    says: Change
    before: int
    after: int
    censored: int
    statistic: float | None
    p: float | None
    shift: float | None
    low: float | None
    high: float | None
    unit: str
    seasons_differ: bool = False
    also: tuple[Circumstance, ...] = ()


@dataclass(frozen=True, slots=True)
class Spread:
    """Middle and spread of one parameter at one point.

    Attributes:
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        lower_quartile: A quarter of the tests lie at or below this; None if it is not known
            because it lies below every detected figure or above the scale.
        median: Half of them; None likewise.
        upper_quartile: Three quarters of them; None likewise.
        mean: Mean, with the share below every detected figure put at the lowest reporting limit,
            so rather too high than too low. None with off-scale readings.
        unit: Unit and basis of the figures.
        undetected: How many of the tests are non-detects.
        off_scale: How many are off the lab's scale.
        least: The least figure that was detected; None if nothing ever was.
    """

    n: int
    censored: int
    lower_quartile: float | None
    median: float | None
    upper_quartile: float | None
    mean: float | None
    unit: str
    undetected: int
    off_scale: int
    least: float | None


class Method(StrEnum):
    """How a mean is worked out beside non-detects.

    By share of non-detects and number of tests after Helsel, Statistics for Censored Environmental
    Data, 2nd ed. 2012, table 6.11 (from memory): Kaplan-Meier up to half, then robust regression
    on order statistics, or maximum likelihood from 50 tests on; above four fifths none.
    """

    MEAN = "mean"
    KAPLAN_MEIER = "Kaplan-Meier"
    ROS = "robust ROS"
    LIKELIHOOD = "lognormal MLE"
    NONE = ""


class Stands(StrEnum):
    """How a long-run median stands to a limit, with 90 % confidence."""

    BELOW = "below"
    ABOVE = "above"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class Level:
    """The long-run level of one parameter at one point.

    Attributes:
        n: Days with a usable figure.
        censored: How many of them are bounds.
        median: Half of the water lies at or below; None if it lies below every detected figure.
        lower: One-sided 90 % lower limit of the median; None with fewer than four tests, or where
            it lies below every detected figure.
        upper: One-sided 90 % upper limit of it, each non-detect at its reporting limit, so rather
            too high than too low; None with fewer than four tests, or where it is off scale.
        mean: Mean by `method`; None where none is told.
        method: How the mean was worked out.
        one_season: All tests fall into the same quarter of the year, so it is the level there.
    """

    n: int
    censored: int
    median: float | None
    lower: float | None
    upper: float | None
    mean: float | None
    method: Method
    one_season: bool = False

    @property
    def is_bounded(self) -> bool:
        """Whether its median is bounded on a side."""
        return self.lower is not None or self.upper is not None

    def stands(self, limit: float) -> Stands:
        """How the median stands to a maximum."""
        if self.upper is not None and self.upper <= limit:
            return Stands.BELOW
        return Stands.ABOVE if self.lower is not None and self.lower > limit else Stands.OPEN


@dataclass(frozen=True, slots=True)
class Summary:
    """A whole history of at least four tests in a few figures.

    Attributes:
        spread: Its middle and how widely it is spread.
        level: Its long-run level as if it had no trend.
    """

    spread: Spread
    level: Level


@dataclass(frozen=True, slots=True)
class Outlook:
    """How many further tests would tell.

    Attributes:
        further: Number of further tests with which the trend would show in four cases of five;
            0 if it shows already, None if no number up to `FURTHEST` does or none can be given.
        slope_per_year: The present slope that is taken to go on, in `unit` a year.
        years: How long that takes at the present pace of testing.
        unit: Unit and basis of the slope.
        pace: Years from one test to the next so far; None where nothing could be foretold.
    """

    further: int | None
    slope_per_year: float | None
    years: float | None
    unit: str
    pace: float | None = None
