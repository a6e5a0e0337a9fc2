"""Seasonal Kendall: each season is compared with itself only, then all seasons are summed up.

So a habit of sampling in spring first and in autumn later makes no trend. After Hirsch, Slack
and Smith, Water Resources Research 18 (1982); the check that the seasons agree with each other
after van Belle and Hughes, Water Resources Research 20 (1984).
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from math import erfc, exp, pi, sqrt

from wellbook.water.statistics.mann_kendall import (
    LEVEL,
    critical_deviate,
    deviate,
    kendall_score,
    kendall_variance,
    normal_p,
)
from wellbook.water.statistics.outcomes import Slope
from wellbook.water.statistics.pair_slopes import PairSlopes
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.statistics.theil_sen import slope_of


@dataclass(frozen=True, slots=True)
class SeasonalKendall:
    """Outcome of a seasonal Kendall test.

    Attributes:
        n: Number of spans.
        censored: How many of them are bounds.
        s: Sum of the seasons' scores.
        variance: Sum of the seasons' variances.
        z: Standard normal deviate with continuity correction.
        p: Two-sided probability of so large an `s` by chance alone.
        tau: `s` over the number of pairs within the seasons.
        heterogeneity: Chi-square of the seasons' disagreement.
        freedom: Its degrees of freedom, the number of seasons less one.
        p_agree: Probability of so much disagreement where all seasons go the same way.
    """

    n: int
    censored: int
    s: int
    variance: float
    z: float
    p: float
    tau: float
    heterogeneity: float
    freedom: int
    p_agree: float


def seasonal_kendall(
    spans: Sequence[CensoredValue], seasons: Sequence[Hashable]
) -> SeasonalKendall:
    """Test spans for a trend within their seasons; `seasons` names the season of each span."""
    groups = _groups(spans, seasons)
    scores = [kendall_score(group) for group in groups]
    variances = [kendall_variance(group) for group in groups]
    s, variance = sum(scores), sum(variances)
    z = deviate(s, variance)
    pairs = sum(len(group) * (len(group) - 1) // 2 for group in groups)
    deviates = [
        score / sqrt(spread) for score, spread in zip(scores, variances, strict=True) if spread
    ]
    freedom = max(0, len(deviates) - 1)
    differ = sum(d * d for d in deviates) - sum(deviates) ** 2 / max(1, len(deviates))
    return SeasonalKendall(
        n=len(spans),
        censored=sum(not span.exact for span in spans),
        s=s,
        variance=variance,
        z=z,
        p=normal_p(z),
        tau=s / max(1, pairs),
        heterogeneity=differ,
        freedom=freedom,
        p_agree=chi_square_p(differ, freedom),
    )


def seasonal_slope(
    spans: Sequence[CensoredValue],
    seasons: Sequence[Hashable],
    level: float = 1 - LEVEL,
    factor: float = 1.0,
) -> Slope:
    """Median change a year within the seasons, with an interval that agrees with the test.

    The variance of the score may be larger by a factor, where successive tests resemble each other.
    """
    groups = _groups(spans, seasons)
    variance = sum(kendall_variance(group) for group in groups)
    critical = 1 + critical_deviate(level) * sqrt(variance * factor)
    return slope_of(PairSlopes(groups), critical, level)


def chi_square_p(value: float, freedom: int) -> float:
    """Probability of a chi-square at least so large; closed form for whole degrees of freedom."""
    if value <= 0 or not freedom:
        return 1.0
    odd = freedom % 2
    total = erfc(sqrt(value / 2)) if odd else 0.0
    term = sqrt(2 * value / pi) * exp(-value / 2) if odd else exp(-value / 2)
    for k in range(2 + odd, freedom + 1, 2):
        total += term
        term *= value / k
    return min(1.0, total)


def _groups(
    spans: Sequence[CensoredValue], seasons: Sequence[Hashable]
) -> list[list[CensoredValue]]:
    groups: dict[Hashable, list[CensoredValue]] = {}
    for span, season in zip(spans, seasons, strict=True):
        groups.setdefault(season, []).append(span)
    return list(groups.values())
