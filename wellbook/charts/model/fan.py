"""From the line of a trend to what is drawn of it ahead of the last test."""

from datetime import date

from wellbook.charts.model.parts import Fan
from wellbook.water.statistics.forecast import day_of
from wellbook.water.statistics.outcomes import Course
from wellbook.water.statistics.series import BELOW_ZERO, DAYS_A_YEAR
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.status import Standing

_PIECES = 24
_AFTER = 1.0  # years drawn beyond a crossing
_WITHOUT = 2.0  # years drawn where no limit is reached


def fan_of(where: Standing | None) -> Fan | None:
    """The line ahead: a little beyond where it reaches a limit, or two years."""
    line = where.trend.course if where else None
    if where is None or line is None:
        return None
    end = _end(line, where)
    times = [line.last + (end - line.last) * piece / _PIECES for piece in range(_PIECES + 1)]
    floor = _floor(where.parameter)
    return Fan(
        tuple(day_of(time) for time in times),
        tuple(max(floor, line.low(time)) for time in times),
        tuple(max(floor, line.at(time)) for time in times),
        tuple(max(floor, line.high(time)) for time in times),
        is_wide=line.is_wide,
    )


def _end(line: Course, where: Standing) -> float:
    if not where.forecasts:
        return min(line.until, line.last + _WITHOUT)
    reached = where.forecasts[0].crossing
    last = reached.latest or reached.day
    return min(line.until, line.last + (last - day_of(line.last)).days / DAYS_A_YEAR + _AFTER)


def _floor(parameter: Parameter) -> float:
    return float("-inf") if parameter.unit in BELOW_ZERO else 0.0


def end_of(fan: Fan | None, today: date) -> date:
    """The last day that a chart must reach."""
    return max(fan.days[-1], today) if fan else today
