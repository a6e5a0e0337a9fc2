"""Whether a parameter at a point rises or falls, with the evidence."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date, timedelta

from wellbook.water.statistics.forecast import course
from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import LEVEL, mann_kendall
from wellbook.water.statistics.outcomes import (
    LEAST,
    MOVING,
    Course,
    Direction,
    Trend,
    TrendTest,
)
from wellbook.water.statistics.season.circumstances import Switch
from wellbook.water.statistics.season.guarded_test import Guarded, guarded_test
from wellbook.water.statistics.season.switches import switches
from wellbook.water.statistics.series import (
    BELOW_ZERO,
    DAYS_A_YEAR,
    CensoredValue,
    Series,
    counted_series,
    label,
)
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result


def trend(
    history: Sequence[Result], parameter: Parameter, treatment: Collection[date] = ()
) -> Trend:
    """Judge the history of one parameter at one point (raw and treated water never mixed)."""
    return trend_of(counted_series(history, parameter), parameter, treatment)


def trend_of(found: Series, parameter: Parameter, treatment: Collection[date] = ()) -> Trend:
    """Judge a series as `counted_series` gives it.

    Args:
        found: The series.
        parameter: The parameter.
        treatment: Days on which the treatment before the point changed.
    """
    unit, spans = label(parameter), found.spans
    if parameter.scale == "presence":
        return _untested(Direction.NOT_FOR_THIS, found, unit)
    if spans and all(span.undetected for span in spans):
        return _untested(Direction.UNSEEN, found, unit)
    if len(spans) < LEAST:
        return _untested(Direction.FEW, found, unit)
    outcome = guarded_test(found)
    if outcome.p > LEVEL and not can_tell(spans):
        return _untested(Direction.FEW, found, unit)
    told = _tested(found, outcome, unit, parameter)
    made = switches(found, outcome, treatment) if told.says in MOVING else ()
    return _since(told, made) if made else told


def _since(told: Trend, made: tuple[Switch, ...]) -> Trend:
    """The same as a step: no rate, no line, nothing foretold, where changes may be the reason."""
    rises = told.says is Direction.RISING
    return replace(
        told,
        says=Direction.HIGHER_SINCE if rises else Direction.LOWER_SINCE,
        slope_per_year=None,
        low=None,
        high=None,
        line=None,
        maybe_dependence=False,
        course=None,
        switches=made,
    )


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
    return course(
        outcome.flat,
        outcome.slope,
        within_quarters=outcome.test is TrendTest.SEASONAL,
        variance_growth=outcome.variance_growth,
    )


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
