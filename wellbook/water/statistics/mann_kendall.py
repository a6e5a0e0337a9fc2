"""Mann-Kendall: do later figures tend to lie above earlier ones?

A pair counts only where its direction is certain: two numbers by size, a non-detect against a
number at or above its reporting limit, and never two non-detects (Helsel, Statistics for
Censored Environmental Data, 2nd ed. 2012, ch. 12). So a reporting limit that fell over the years
makes no trend by itself.
"""

from bisect import bisect_left, bisect_right, insort
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import sqrt
from statistics import NormalDist

from wellbook.water.statistics.series import CensoredValue

# A change is said where chance alone would show so much in at most one of ten steady histories.
LEVEL = 0.10
# Up to here every order of the tests is counted out; beyond, the normal curve is close enough.
EXACT_UP_TO = 10
_WIDTH = 24  # bits of one count in a packed distribution: 10! < 2**24


@dataclass(frozen=True, slots=True)
class Kendall:
    """Outcome of a Mann-Kendall test.

    Attributes:
        n: Number of spans.
        censored: How many of them are bounds.
        s: Pairs that certainly rise, less pairs that certainly fall.
        variance: Variance of `s` if time did not matter, corrected for ties and censoring.
        z: Standard normal deviate with continuity correction.
        p: Two-sided probability of so large an `s` if time did not matter.
        tau: `s` over the number of pairs (Kendall's tau-a).
        exact: Whether `p` comes from counting every order and not from the normal curve.
    """

    n: int
    censored: int
    s: int
    variance: float
    z: float
    p: float
    tau: float
    exact: bool


def mann_kendall(spans: Sequence[CensoredValue]) -> Kendall:
    """Test spans for a trend; two at the same time are not compared with each other."""
    n = len(spans)
    s, variance = kendall_score(spans), kendall_variance(spans)
    z = deviate(s, variance)
    exact = n <= EXACT_UP_TO and len({span.at for span in spans}) == n
    p = exact_p(spans, s) if exact else normal_p(z)
    censored = sum(not span.exact for span in spans)
    return Kendall(n, censored, s, variance, z, p, s / max(1, n * (n - 1) // 2), exact)


def below(a: CensoredValue, b: CensoredValue) -> bool:
    """Whether `a` certainly lies below `b`. A bound itself is never reached."""
    return a.high <= b.low and a.low < b.high


def kendall_score(spans: Sequence[CensoredValue]) -> int:
    """Pairs that certainly rise with time less pairs that certainly fall."""
    ordered = sorted((span.at, span.low, span.high) for span in spans)
    lows: list[float] = []
    highs: list[float] = []
    total = place = 0
    for at, low, high in ordered:
        while ordered[place][0] < at:
            insort(lows, ordered[place][1])
            insort(highs, ordered[place][2])
            place += 1
        # Two equal numbers count on either side, so they leave the difference as it is.
        total += bisect_right(highs, low) - (place - bisect_left(lows, high))
    return total


def kendall_variance(spans: Sequence[CensoredValue]) -> float:
    """Variance of the score over all orders in time, ties and uncertain pairs allowed for.

    Daniels' formula (Biometrika 33, 1944; Kendall, Rank Correlation Methods, ch. 5). Without
    censoring it gives the usual correction for ties.
    """
    n = len(spans)
    if n < 2:  # noqa: PLR2004  one test makes no pair
        return 0.0
    time_sums, time_pairs = _row_sums([CensoredValue(span.at, span.at, span.at) for span in spans])
    value_sums, value_pairs = _row_sums(spans)
    pairs = time_pairs * value_pairs / (2 * n * (n - 1))
    if n == 2:  # noqa: PLR2004  no triples yet
        return pairs
    triples = (time_sums - time_pairs) * (value_sums - value_pairs)
    return triples / (n * (n - 1) * (n - 2)) + pairs


def deviate(s: float, variance: float) -> float:
    """Standard normal deviate of a score, one step nearer to zero (continuity correction)."""
    if not variance or not s:
        return 0.0
    return (s - 1 if s > 0 else s + 1) / sqrt(variance)


def normal_p(z: float) -> float:
    """Two-sided probability of a standard normal deviate."""
    return min(1.0, 2 * NormalDist().cdf(-abs(z)))


def critical_deviate(level: float) -> float:
    """Standard normal deviate beyond which a two-sided test at this confidence refuses."""
    return NormalDist().inv_cdf((1 + level) / 2)


def exact_p(spans: Sequence[CensoredValue], s: int) -> float:
    """Two-sided probability of a score at least as far from zero, over all orders in time."""
    ways = score_distribution(spans)
    return sum(count for score, count in ways.items() if abs(score) >= abs(s)) / sum(ways.values())


def score_distribution(spans: Sequence[CensoredValue]) -> dict[int, int]:
    """How many of the n! orders in time give each score; for n up to `EXACT_UP_TO`."""
    ranked = sorted(spans, key=lambda span: (span.low, span.high))
    lower = tuple(sum(below(b, a) << k for k, b in enumerate(ranked)) for a in ranked)
    higher = tuple(sum(below(a, b) << k for k, b in enumerate(ranked)) for a in ranked)
    return _distribution(lower, higher)


@lru_cache(maxsize=256)
def _distribution(lower: tuple[int, ...], higher: tuple[int, ...]) -> dict[int, int]:
    """Count the orders, one more test at a time, over the sets of tests already placed.

    `ways[placed]` packs the counts for all scores of that set into one integer, `_WIDTH` bits
    each. A score is stored with the number of pairs added, so that it is never negative.
    """
    n = len(lower)
    ways = [0] * (1 << n)
    ways[0] = 1
    for placed, packed in enumerate(ways):
        count = placed.bit_count()
        for k in range(n):
            if not placed >> k & 1:
                gain = (placed & lower[k]).bit_count() - (placed & higher[k]).bit_count()
                ways[placed | 1 << k] += packed << _WIDTH * (gain + count)
    pairs, mask, packed = n * (n - 1) // 2, (1 << _WIDTH) - 1, ways[-1]
    counts = {step - pairs: packed >> _WIDTH * step & mask for step in range(2 * pairs + 1)}
    return {score: count for score, count in counts.items() if count}


def certain_counts(spans: Sequence[CensoredValue]) -> list[tuple[int, int]]:
    """For each span, how many others certainly lie below it and how many above it."""
    lows, highs = sorted(span.low for span in spans), sorted(span.high for span in spans)
    equal = Counter(span.low for span in spans if span.exact)
    counts = []
    for span in spans:
        # A number does not lie below its equals, though its bounds would have it so.
        same = equal[span.low] if span.exact else 0
        lower = bisect_right(highs, span.low) - same
        counts.append((lower, len(lows) - bisect_left(lows, span.high) - same))
    return counts


def certain_order(lows: Sequence[float], highs: Sequence[float]) -> list[int]:
    """For each pair of bounds, how many others certainly lie below it less those above it."""
    ranked_lows, ranked_highs, n = sorted(lows), sorted(highs), len(lows)
    # Equal numbers count on either side, so they leave the difference as it is.
    return [
        bisect_right(ranked_highs, low) + bisect_left(ranked_lows, high) - n
        for low, high in zip(lows, highs, strict=True)
    ]


def _row_sums(spans: Sequence[CensoredValue]) -> tuple[int, int]:
    """Sum of squared row sums, and number of certain ordered pairs, of the comparison matrix."""
    counts = certain_counts(spans)
    squares = sum((lower - higher) ** 2 for lower, higher in counts)
    return squares, sum(lower + higher for lower, higher in counts)
