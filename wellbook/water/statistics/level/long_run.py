"""The long-run level of a history, how sure it is, and how it stands to a limit."""

from collections.abc import Sequence
from math import inf, isfinite
from statistics import fmean

from wellbook.water.statistics.kaplan_meier import Mass, quantile
from wellbook.water.statistics.kaplan_meier import mean as middle_of
from wellbook.water.statistics.level.lognormal import lognormal
from wellbook.water.statistics.level.robust_ros import ros_figures
from wellbook.water.statistics.outcomes import CONFIDENCE, Level, Method
from wellbook.water.statistics.series import CensoredValue, in_one_season
from wellbook.water.statistics.turnbull import shares_of

_HALF, _MOST = 0.5, 0.8
_MANY = 50


def long_run(spans: Sequence[CensoredValue], shares: Sequence[Mass] | None = None) -> Level:
    """Summarise a history as if it had no trend; a moving level has no long run.

    The limits of the median take the tests as independent of each other.

    Args:
        spans: The history.
        shares: What `shares_of` makes of it, where that is known.
    """
    shares = shares_of(spans) if shares is None else shares
    rank = _rank(len(spans))
    lows, highs = sorted(span.low for span in spans), sorted(span.high for span in spans)
    method, mean = _mean(spans, shares)
    return Level(
        n=len(spans),
        censored=sum(not span.exact for span in spans),
        median=quantile(shares, 0.5),
        lower=_known(lows[rank - 1]) if rank else None,
        upper=_known(highs[-rank]) if rank else None,
        mean=mean,
        method=method,
        one_season=in_one_season(spans),
    )


def _rank(n: int) -> int:
    """Rank from either end that bounds a median on one side at 90 %; 0 with too few tests."""
    tail, rank = 0.0, 0
    ways, every = 1, 1 << n  # ways to choose k of n, each from the one before
    for k in range(n):
        tail += ways / every
        if tail > 1 - CONFIDENCE:
            break
        rank = k + 1
        ways = ways * (n - k) // (k + 1)
    return rank


def _known(bound: float) -> float | None:
    return bound if isfinite(bound) else None


def _mean(spans: Sequence[CensoredValue], shares: Sequence[Mass]) -> tuple[Method, float | None]:
    undetected = sum(span.undetected for span in spans)
    if not spans or any(span.high == inf for span in spans):
        return Method.NONE, None
    share = undetected / len(spans)
    if not undetected:
        return Method.MEAN, fmean((span.low + span.high) / 2 for span in spans)
    if share <= _HALF:
        lowest = min(span.high for span in spans if span.undetected)
        return Method.KAPLAN_MEIER, middle_of(shares, lowest)
    if share > _MOST:
        return Method.NONE, None
    if len(spans) < _MANY:
        figures = ros_figures(spans)
        return (Method.ROS, fmean(figures)) if figures else (Method.NONE, None)
    found = lognormal(spans)
    return (Method.LIKELIHOOD, found.mean) if found else (Method.NONE, None)
