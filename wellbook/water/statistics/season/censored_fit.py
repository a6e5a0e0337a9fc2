"""Figures in the place of bounds, only for taking a yearly cycle off.

Each bound is replaced by the mean of what lies within it under a normal curve about the fitted
line and cycle, and the fit is made anew, until it stands still (Wolynetz, Applied Statistics 28,
1979, algorithm AS 139). The figures serve nothing else: comparisons stay those of the bounds.
"""

from collections.abc import Sequence
from math import inf, isfinite, sqrt
from statistics import NormalDist

from wellbook.water.statistics.season.time_of_year import YearlyCycle, dot
from wellbook.water.statistics.series import CensoredValue

_NORMAL = NormalDist()
_ROUNDS = 60
_STILL = 1e-6
_UNLIKELY = 1e-8


def completed(spans: Sequence[CensoredValue], cycle: YearlyCycle) -> list[float]:
    """A figure for every span: its own where it is exact."""
    figures = [span.low if isfinite(span.low) else span.high for span in spans]
    if all(span.exact for span in spans):
        return figures
    for _ in range(_ROUNDS):
        line = _line(figures, cycle)
        spread = _spread(spans, figures, line)
        if not spread:
            return figures
        after = [
            span.low if span.exact else _mean_within(span, middle, spread)
            for span, middle in zip(spans, line, strict=True)
        ]
        moved = max(abs(a - b) for a, b in zip(figures, after, strict=True))
        figures = after
        if moved < _STILL * spread:
            break
    return figures


def _line(figures: Sequence[float], cycle: YearlyCycle) -> list[float]:
    """Mean, cycle and slope by least squares."""
    left = cycle.without(figures)
    length = dot(cycle.rest, cycle.rest)
    slope = dot(cycle.rest, left) / length if length else 0.0
    return [
        figure - rest + slope * at
        for figure, rest, at in zip(figures, left, cycle.rest, strict=True)
    ]


def _spread(
    spans: Sequence[CensoredValue], figures: Sequence[float], line: Sequence[float]
) -> float:
    """Standard deviation about the line, of the exact figures only."""
    exact = [
        (figure - middle) ** 2
        for span, figure, middle in zip(spans, figures, line, strict=True)
        if span.exact
    ]
    return sqrt(sum(exact) / len(exact)) if exact else 0.0


def _mean_within(span: CensoredValue, middle: float, spread: float) -> float:
    low, high = (span.low - middle) / spread, (span.high - middle) / spread
    inside = _NORMAL.cdf(high) - _NORMAL.cdf(low)
    if inside < _UNLIKELY:
        return span.high if low == -inf else span.low
    density = (_NORMAL.pdf(low) if isfinite(low) else 0) - (
        _NORMAL.pdf(high) if isfinite(high) else 0
    )
    return middle + spread * density / inside
