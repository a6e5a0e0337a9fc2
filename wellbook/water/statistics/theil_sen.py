"""Theil-Sen: the median rate of change, with an interval; with non-detects Akritas-Theil-Sen.

The slope is the one that leaves no trend in what remains when it is taken off (Sen 1968; Akritas,
Murphy and LaValley, JASA 90, 1995). For numbers that is the median of the slopes of all pairs. A
pair with a bound gives only a bound for the slope, and is used as such.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, sqrt

from wellbook.water.statistics.mann_kendall import (
    EXACT_UP_TO,
    LEVEL,
    critical_deviate,
    kendall_variance,
    score_distribution,
)
from wellbook.water.statistics.series import Span


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
class PairSlopes:
    """Bounds of the slopes of pairs, each sorted.

    Attributes:
        lows: A pair certainly rises as long as less than this is taken off a year.
        highs: A pair certainly falls once more than this is taken off a year.
    """

    lows: tuple[float, ...]
    highs: tuple[float, ...]

    def just_before(self, slope: float) -> int:
        """Score left when a little less than the slope is taken off."""
        return len(self.lows) - bisect_left(self.lows, slope) - bisect_left(self.highs, slope)

    def just_after(self, slope: float) -> int:
        """Score left when a little more than the slope is taken off."""
        return len(self.lows) - bisect_right(self.lows, slope) - bisect_right(self.highs, slope)


def theil_sen(spans: Sequence[Span], level: float = 1 - LEVEL, factor: float = 1.0) -> Slope:
    """Slope of spans over the years, with an interval that agrees with the Mann-Kendall test.

    The interval holds every slope that the test would not refuse at the same level: by counting
    for few tests, else by the normal curve. There the variance of the score may be larger by a
    factor, where successive tests resemble each other.
    """
    return slope_of(pair_slopes(spans), critical_score(spans, level, factor), level)


def pair_slopes(spans: Sequence[Span]) -> PairSlopes:
    """Bounds of the slopes of all pairs of different times."""
    ordered = sorted((span.at, span.low, span.high) for span in spans)
    lows: list[float] = []
    highs: list[float] = []
    exact = all(low == high for _, low, high in ordered)
    for i, (at, low, high) in enumerate(ordered):
        later = [b for b in ordered[i + 1 :] if b[0] > at]
        lows += [(b_low - high) / (when - at) for when, b_low, _ in later]
        if not exact:
            highs += [(b_high - low) / (when - at) for when, _, b_high in later]
    below = tuple(sorted(filter(isfinite, lows)))
    return PairSlopes(below, below if exact else tuple(sorted(filter(isfinite, highs))))


def critical_score(spans: Sequence[Span], level: float, factor: float = 1.0) -> float:
    """Largest score that a two-sided test at this confidence does not refuse."""
    if len(spans) > EXACT_UP_TO:
        return 1 + critical_deviate(level) * sqrt(kendall_variance(spans) * factor)
    ways = score_distribution(spans)
    refused, left = 0, (1 - level + 1e-9) * sum(ways.values())
    for score in sorted({abs(score) for score in ways}, reverse=True):
        refused += ways[score] + (ways[-score] if score else 0)
        if refused > left:
            return score
    return 0


def slope_of(pairs: PairSlopes, critical: float, level: float) -> Slope:
    """Slope and interval from the slopes of pairs; scores beyond `critical` are refused.

    The score only falls as more is taken off, so every crossing is found by halving.
    """
    steps = pairs.lows if pairs.lows is pairs.highs else sorted(pairs.lows + pairs.highs)
    rising = bisect_left(steps, 0, key=lambda slope: -pairs.just_before(slope))
    falling = bisect_right(steps, 0, key=lambda slope: -pairs.just_after(slope))
    found = rising > 0 and falling < len(steps)
    rate = (steps[rising - 1] + steps[falling]) / 2 if found else None
    first = bisect_left(steps, -critical, key=lambda slope: -pairs.just_after(slope))
    last = bisect_right(steps, critical, key=lambda slope: -pairs.just_before(slope))
    low = steps[first] if len(pairs.lows) > critical else None
    high = steps[last - 1] if len(pairs.highs) > critical else None
    return Slope(rate, low, high, level)
