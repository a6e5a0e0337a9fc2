"""Whether a parameter at a point rises or falls, with the evidence."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from wellbook.water.statistics.forecast import Course, course
from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import LEVEL, mann_kendall
from wellbook.water.statistics.season.guarded_test import Guarded, TrendTest, guarded_test
from wellbook.water.statistics.series import (
    BELOW_ZERO,
    DAYS_A_YEAR,
    CensoredValue,
    Series,
    label,
    series,
)
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

# With four tests only a perfect rise could show, with five one single pair may go the other way.
# From six on, one odd test neither makes nor hides a trend.
LEAST = 6


class Direction(StrEnum):
    """What a trend says."""

    RISING = "rising"
    FALLING = "falling"
    NO_CLEAR_TREND = "no clear trend"
    MAYBE_SEASON = "may be the season"  # on these days a yearly cycle can't be told from a trend
    FEW = "too few tests"  # fewer than `LEAST`, or too few figures that differ
    UNSEEN = "only non-detects"
    NOT_FOR_THIS = "not for this parameter"
    PENDING = "not worked out yet"


MOVING = frozenset({Direction.RISING, Direction.FALLING})


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


# In place of the trend of a history that was not gone through yet.
PENDING = Trend(Direction.PENDING, TrendTest.NONE, 0, 0, None, None, None, None, None, "")


def trend(history: Sequence[Result], parameter: Parameter) -> Trend:
    """Judge the history of one parameter at one point (raw and treated water never mixed)."""
    unit = label(parameter)
    if parameter.scale == "presence":
        return _untested(Direction.NOT_FOR_THIS, Series((), ()), unit)
    found = series(history, parameter)
    spans = found.spans
    if spans and all(span.undetected for span in spans):
        return _untested(Direction.UNSEEN, found, unit)
    if len(spans) < LEAST:
        return _untested(Direction.FEW, found, unit)
    outcome = guarded_test(found)
    if outcome.p > LEVEL and not can_tell(spans):
        return _untested(Direction.FEW, found, unit)
    return _tested(found, outcome, unit, parameter)


def can_tell(spans: Sequence[CensoredValue]) -> bool:
    """Whether these figures, put into the most telling order, would show as a trend."""
    if len({span.low for span in spans if span.exact}) >= LEAST:
        return True
    ranked = sorted(spans, key=lambda span: (span.low, span.high))
    steps = [CensoredValue(float(k), span.low, span.high) for k, span in enumerate(ranked)]
    return mann_kendall(steps).p <= LEVEL


def _tested(found: Series, outcome: Guarded, unit: str, parameter: Parameter) -> Trend:
    says, slope = Direction.NO_CLEAR_TREND, outcome.slope
    if outcome.p <= LEVEL:
        says = Direction.RISING if outcome.statistic > 0 else Direction.FALLING
    elif outcome.maybe_season:
        says = Direction.MAYBE_SEASON
    dependent = says in MOVING and outcome.maybe_dependence
    return Trend(
        says=says,
        test=outcome.test,
        n=len(found.spans),
        censored=found.censored,
        statistic=outcome.statistic,
        p=outcome.p,
        slope_per_year=slope.rate,
        low=slope.low,
        high=slope.high,
        unit=unit,
        line=_line(found, outcome, parameter) if says in MOVING else None,
        span=_days(found),
        undetected=_undetected(found),
        left_out=found.left_out,
        seasons_differ=outcome.seasons_differ,
        correlation=outcome.correlation,
        maybe_dependence=dependent,
        course=_course(outcome) if says in MOVING and not dependent else None,
    )


def _course(outcome: Guarded) -> Course | None:
    within = outcome.test is TrendTest.SEASONAL
    return course(outcome.flat, outcome.slope, within_quarters=within)


def _untested(says: Direction, found: Series, unit: str) -> Trend:
    return Trend(
        says=says,
        test=TrendTest.NONE,
        n=len(found.spans),
        censored=found.censored,
        statistic=None,
        p=None,
        slope_per_year=None,
        low=None,
        high=None,
        unit=unit,
        span=_days(found),
        undetected=_undetected(found),
        left_out=found.left_out,
    )


def _days(found: Series) -> tuple[date, date] | None:
    return (found.days[0], found.days[-1]) if found.days else None


def _undetected(found: Series) -> int:
    return sum(span.undetected for span in found.spans)


def _line(
    found: Series, outcome: Guarded, parameter: Parameter
) -> tuple[tuple[date, float], tuple[date, float]] | None:
    """Through the median of what is left when the slope is taken off; never below zero."""
    rate = outcome.slope.rate
    middle = quantile(shares_of(outcome.flat), 0.5)
    if not rate or middle is None:
        return None
    first, last = found.days[0], found.days[-1]
    centre = sum(span.at for span in found.spans) / len(found.spans)
    level = middle + rate * (found.spans[0].at - centre)
    end = middle + rate * (found.spans[-1].at - centre)
    if min(level, end) >= 0 or parameter.unit in BELOW_ZERO:
        return (first, level), (last, end)
    if max(level, end) <= 0:
        return None
    crossing = first + timedelta(days=round(-level / rate * DAYS_A_YEAR))
    return ((crossing, 0.0), (last, end)) if level < 0 else ((first, level), (crossing, 0.0))
