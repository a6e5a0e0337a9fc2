"""Successive tests that resemble each other: how much less they tell than as many apart.

The correlation of one test with the next is estimated from the ranks of what is left when trend
and season are taken off, and is raised by what an estimate from so few tests falls short on
average: by 2/n for the slope taken off and by 4 r/n (after Kendall, Biometrika 41, 1954). The
variance of the trend test grows by the factor that a first-order autoregression gives (as in
Hamed and Rao, Journal of Hydrology 204, 1998, which sums over significant lags instead), with the
correlation half a standard error higher: an estimate that is right on average still lets too many
trends pass where it happens to be low. With fewer than twenty tests it is a whole one, and no test
is changed by it: there it only tells which trends dependence may explain, and half a standard error
widens what is foretold. All shares were chosen by simulation (see the tables in DEVELOPERS.md).
"""

from collections.abc import Sequence
from math import sqrt

from wellbook.water.statistics.mann_kendall import certain_order
from wellbook.water.statistics.outcomes import LEAST_FOR_DEPENDENCE
from wellbook.water.statistics.season.time_of_year import dot
from wellbook.water.statistics.series import CensoredValue

# With so many, likeness that may explain a trend is said and nothing is foretold from it.
LEAST_FOR_A_WORD = 8
_MOST = 0.9
_RAISED, _RAISED_OF_FEW = 0.5, 1.0  # standard errors
_LOST = 2.0**-56  # of a sum; half of its last bit is 2**-54


def next_test_correlation(left: Sequence[CensoredValue]) -> float:
    """Correlation of each test with the next, -0.9 to 0.9, from what trend and season leave.

    Args:
        left: Spans in order of time, less their trend and season.
    """
    n = len(left)
    scores = certain_order([span.low for span in left], [span.high for span in left])
    whole = dot(scores, scores)
    if n < 5 or not whole:  # noqa: PLR2004  the correction below needs more than four
        return 0.0
    plain = dot(scores[1:], scores[:-1]) / whole
    return min(max((n * plain + 2) / (n - 4), -_MOST), _MOST)


def raised(correlation: float, n: int) -> float:
    """The correlation to allow for in a test, 0 to 0.9, where so many tests gave this estimate."""
    return _raised(correlation, n, _RAISED if n >= LEAST_FOR_DEPENDENCE else _RAISED_OF_FEW)


def variance_growth_of_few(weights: Sequence[float], correlation: float) -> float:
    """By how much to take a variance larger where a forecast rests on fewer than twenty tests.

    The correlation is half a standard error higher than its estimate. From twenty tests on the
    interval of the slope allows for it already, and this is 1.
    """
    n = len(weights)
    if n >= LEAST_FOR_DEPENDENCE:
        return 1.0
    return variance_factor(weights, _raised(correlation, n, _RAISED))


def _raised(correlation: float, n: int, errors: float) -> float:
    return min(max(correlation + errors * sqrt((1 - correlation**2) / n), 0.0), _MOST)


def variance_factor(weights: Sequence[float], correlation: float) -> float:
    """By how much the variance of a weighted sum grows under this correlation; at least 1.

    Args:
        weights: Weight of each test in order of time, summing up to zero.
        correlation: Of one test with the next.
    """
    whole = dot(weights, weights)
    if not correlation or not whole:
        return 1.0
    shared = 0.0
    for lag in range(1, len(weights)):
        times = correlation**lag
        # No later product is larger than the whole: once that is lost in rounding, so are they.
        if times * whole < _LOST * abs(shared):
            break
        shared += times * dot(weights[lag:], weights[:-lag])
    return max(1.0, 1 + 2 * shared / whole)
