"""How far a chart reaches: the days along the foot, the figures up the side."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from statistics import median

from wellbook.charts.model.limit_lines import DayRange
from wellbook.charts.model.parts import EventMark, LimitLine, Mark, Scale, Shape
from wellbook.water.values.parameters import Parameter

_LEAST_DAYS = 300
_PAD = 0.018
_HEADROOM = 1.1
_LOG_RATIO = 50  # the largest figure over the middle one, from which zero-based bars say nothing
_LOG_LEAST = 5
_FAR = 25  # a limit this many times above the data is still in view
_FURTHER = 3  # a second limit only up to this many times above what is in view already
_MOST_LINES = 4
_EARLIER = timedelta(days=366)


@dataclass(frozen=True, slots=True)
class Rise:
    """The figures up the side, and the limits with their place in or out of view."""

    scale: Scale
    low: float
    high: float
    limits: tuple[LimitLine, ...]


def days_shown(marks: Sequence[Mark], events: Sequence[EventMark], today: date) -> DayRange:
    """From the first test (or an event up to a year before it) to today, with a margin."""
    days = [mark.day for mark in marks] or [today]
    first, last = min(days), max(*days, today)
    first = min((e.day for e in events if first - _EARLIER <= e.day < first), default=first)
    lacking = max(0, _LEAST_DAYS - (last - first).days)
    margin = timedelta(days=round(max((last - first).days * _PAD, 20)) + lacking // 2)
    return DayRange(_moved(first, -margin), _moved(last, margin))


def figures_shown(
    marks: Sequence[Mark],
    limits: Sequence[LimitLine],
    parameter: Parameter,
    ahead: Sequence[float] = (),
) -> Rise:
    """Scale and range of the figures, those of a line that is drawn ahead among them.

    From zero wherever a limit is a maximum, so that heights compare; free for ranges such as pH
    and for figures below zero; logarithmic only where one figure would flatten all others.
    """
    if parameter.scale == "presence":
        return Rise(Scale.STRIP, 0.0, 1.0, tuple(limits))
    values = [*(mark.value for mark in marks), *ahead]
    if any(line.lower for line in limits) or min(values, default=0) < 0:
        return _free(values, limits)
    if parameter.unit == "pH units" and values:
        return _free(values, limits)
    return _from_zero(marks, limits, max(ahead, default=0.0))


def _free(values: Sequence[float], limits: Sequence[LimitLine]) -> Rise:
    reach = [*values, *(step.value for line in limits for step in line.steps)] or [0.0, 1.0]
    low, high = min(reach), max(reach)
    margin = max((high - low) * 0.12, abs(high) * 0.02, 0.1)
    return Rise(Scale.FREE, low - margin, high + margin, tuple(limits))


def _from_zero(marks: Sequence[Mark], limits: Sequence[LimitLine], ahead: float) -> Rise:
    values = [mark.value for mark in marks]
    top = max([*values, ahead])
    shown: list[LimitLine] = []
    for line in limits:
        highest = max((step.value for step in line.steps), default=0.0)
        factor = _FURTHER if any(other.steps and other.in_view for other in shown) else _FAR
        in_view = not top or highest <= top * factor
        in_view = in_view and sum(other.in_view for other in shown) < _MOST_LINES
        top = max(top, highest) if in_view else top
        shown.append(replace(line, in_view=in_view))
    top = top or 1.0
    if _flattens(marks):
        lowest = min([*values, *(s.value for ln in shown if ln.in_view for s in ln.steps)])
        return Rise(Scale.LOG, lowest / 2, top * 2, tuple(shown))
    return Rise(Scale.FROM_ZERO, 0.0, top * _HEADROOM, tuple(shown))


def _flattens(marks: Sequence[Mark]) -> bool:
    values = [mark.value for mark in marks]
    figures = [mark.value for mark in marks if mark.shape is not Shape.BELOW]
    if len(figures) < _LOG_LEAST or min(values) <= 0:
        return False
    return max(figures) / median(values) >= _LOG_RATIO


def _moved(day: date, by: timedelta) -> date:
    try:
        return day + by
    except OverflowError:
        return day
