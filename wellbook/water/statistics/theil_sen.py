"""Theil-Sen: the median rate of change, with an interval; with non-detects Akritas-Theil-Sen.

The slope is the one that leaves no trend in what remains when it is taken off (Sen 1968; Akritas,
Murphy and LaValley, JASA 90, 1995). For numbers that is the median of the slopes of all pairs. A
pair with a bound gives only a bound for the slope, and is used as such.
"""

from collections.abc import Sequence
from math import floor, sqrt

from wellbook.water.statistics.mann_kendall import (
    EXACT_UP_TO,
    LEVEL,
    critical_deviate,
    kendall_variance,
    score_distribution,
)
from wellbook.water.statistics.outcomes import Slope
from wellbook.water.statistics.pair_slopes import PairSlopes
from wellbook.water.statistics.series import CensoredValue


def theil_sen(
    spans: Sequence[CensoredValue], level: float = 1 - LEVEL, factor: float = 1.0
) -> Slope:
    """Slope of spans over the years, with an interval that agrees with the Mann-Kendall test.

    The interval holds every slope that the test would not refuse at the same level: by counting
    for few tests, else by the normal curve. There the variance of the score may be larger by a
    factor, where successive tests resemble each other.
    """
    return slope_of(PairSlopes([spans]), critical_score(spans, level, factor), level)


def critical_score(spans: Sequence[CensoredValue], level: float, factor: float = 1.0) -> float:
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

    As more is taken off, the score falls by one at each bound, from the number of lower bounds to
    that of the upper ones below zero. So each crossing is the slope at a place in rising order.
    """
    rate, kept = None, floor(critical)
    if pairs.lows and pairs.highs:
        rate = (pairs[pairs.lows - 1] + pairs[pairs.lows]) / 2
    low = pairs[pairs.lows - kept - 1] if pairs.lows > critical else None
    high = pairs[pairs.lows + kept] if pairs.highs > critical else None
    return Slope(rate, low, high, level)
