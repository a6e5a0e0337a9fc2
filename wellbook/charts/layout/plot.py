"""The plot area as plain geometry: where a day and a figure lie, in inches; and its ticks."""

import math
from dataclasses import dataclass
from datetime import date

from wellbook.charts.layout.paper import Box
from wellbook.charts.model.parts import ROWS as WORDS
from wellbook.charts.model.parts import Chart, Scale, Shape
from wellbook.support.translation import _
from wellbook.wording import facts
from wellbook.wording.dates import month_of

ROWS = {Shape.PRESENT: 0.82, Shape.UNCLEAR: 0.5, Shape.ABSENT: 0.18}
_STEPS = (1, 2, 5, 10, 20, 50)
_MONTH_STEPS = (1, 2, 3, 6, 24, 36)
_FEW_DAYS = 1000
_LOG_DECADES = 3


@dataclass(frozen=True, slots=True)
class Plot:
    """The plot area of a chart on its figure."""

    box: Box
    chart: Chart

    @property
    def width(self) -> float:
        """Inches from left to right."""
        return self.box.right - self.box.left

    @property
    def height(self) -> float:
        """Inches from foot to top."""
        return self.box.top - self.box.bottom

    def x(self, day: date) -> float:
        """Inches from the left edge of the figure."""
        days = (self.chart.last - self.chart.first).days
        return self.box.left + self.width * (day - self.chart.first).days / days

    def y(self, value: float) -> float:
        """Inches from the foot of the figure."""
        low, high = self.chart.low, self.chart.high
        if self.chart.scale is Scale.LOG:
            value, low, high = math.log(max(value, low / 10)), math.log(low), math.log(high)
        return self.box.bottom + self.height * (value - low) / (high - low)


def height_of(chart: Chart, value: float, shape: Shape) -> float:
    """Where a mark stands on the axis: its figure, or on a strip its row."""
    return ROWS[shape] if chart.scale is Scale.STRIP else value


def rows(chart: Chart) -> list[tuple[float, str]]:
    """The rows of a strip, with their words."""
    used = {mark.shape for mark in chart.marks}
    shown = [s for s in ROWS if s is not Shape.UNCLEAR or s in used]
    return [(ROWS[shape], _(WORDS[shape])) for shape in shown]


def figure_ticks(chart: Chart, most: int) -> list[tuple[float, str]]:
    """Round figures up the side, not more than asked for."""
    if chart.scale is Scale.STRIP:
        return rows(chart)
    if chart.scale is Scale.LOG:
        values = _log_ticks(chart.low, chart.high)
    else:
        values = _round_ticks(chart.low, chart.high, most)
    return [(value, facts.figure(value)) for value in values]


def _round_ticks(low: float, high: float, most: int) -> list[float]:
    rough = (high - low) / max(most, 2)
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(m * power for m in (1, 2, 5, 10) if m * power >= rough * (1 - 1e-9))
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    if first == last:
        return _round_ticks(low, high, most * 2)  # one figure alone gives no scale
    return [round(n * step, 12) for n in range(first, last + 1)]


def _log_ticks(low: float, high: float) -> list[float]:
    powers = range(math.floor(math.log10(low)), math.ceil(math.log10(high)) + 1)
    factors = (1,) if math.log10(high / low) > _LOG_DECADES else (1, 2, 5)
    return [f * 10.0**p for p in powers for f in factors if low <= f * 10.0**p <= high]


def day_ticks(chart: Chart, most: int) -> list[tuple[date, str]]:
    """Years along the foot, or months where the chart is short; not more than asked for."""
    if (chart.last - chart.first).days < _FEW_DAYS:
        return _month_ticks(chart, most)
    years = range(chart.first.year + 1, chart.last.year + 1)
    step = next((s for s in _STEPS if len(years) / s <= most), _STEPS[-1])
    return [(date(year, 1, 1), str(year)) for year in years if year % step == 0]


def _month_ticks(chart: Chart, most: int) -> list[tuple[date, str]]:
    months = range(
        chart.first.year * 12 + chart.first.month, chart.last.year * 12 + chart.last.month
    )
    step = next((s for s in _MONTH_STEPS if len(months) / s <= most), _MONTH_STEPS[-1])
    days = [date(n // 12, n % 12 + 1, 1) for n in months if n % step == 0]
    return [(day, month_of(day)) for day in days]
