"""Robust regression on order statistics: a mean where up to four fifths are non-detects.

The logarithms of detected figures are laid against normal quantiles of their plotting positions;
the line through them gives figures in the place of the non-detects, and the mean is taken of both
(Helsel and Cohn, Water Resources Research 24, 1988; positions after Hirsch and Stedinger, Water
Resources Research 23, 1987). It is what EPA's Unified Guidance (530/R-09-007, 2009, section 15.4)
does. Single figures of non-detects mean nothing; only what they sum up to does.
"""

from collections.abc import Sequence
from math import exp, log
from statistics import NormalDist, linear_regression

from wellbook.water.statistics.series import CensoredValue

_NORMAL = NormalDist()
LEAST_DETECTED = 3  # figures that a line is laid through


def ros_figures(spans: Sequence[CensoredValue]) -> list[float] | None:
    """A figure for every span; None with too few different detected figures or one not above zero.

    Raises:
        ValueError: A span is off scale.
    """
    if any(not span.exact and not span.undetected for span in spans):
        raise ValueError("Regression on order statistics takes no off-scale figures")
    detected = sorted(span.low for span in spans if span.exact)
    if len(set(detected)) < LEAST_DETECTED or detected[0] <= 0:
        return None
    seen, unseen = plotting_positions(spans)
    line = linear_regression(list(map(_NORMAL.inv_cdf, seen)), list(map(log, detected)))
    filled = [exp(line.intercept + line.slope * _NORMAL.inv_cdf(place)) for place in unseen]
    return filled + detected


def plotting_positions(spans: Sequence[CensoredValue]) -> tuple[list[float], list[float]]:
    """Shares of the water below each detected figure and each non-detect, in rising order."""
    limits = sorted({span.high for span in spans if span.undetected})
    detected = sorted(span.low for span in spans if span.exact)
    beyond = [_share_at_or_above(spans, limits, k) for k in range(len(limits))] + [0.0]
    seen: list[float] = []
    unseen: list[float] = []
    for k in range(-1, len(limits)):
        low = limits[k] if k >= 0 else float("-inf")
        high = limits[k + 1] if k + 1 < len(limits) else float("inf")
        above = 1.0 if k < 0 else beyond[k]
        inside = [figure for figure in detected if low <= figure < high]
        next_above = beyond[k + 1]
        step = (above - next_above) / (len(inside) + 1)
        seen += [1 - above + step * rank for rank in range(1, len(inside) + 1)]
        count = sum(span.undetected and span.high == low for span in spans)
        unseen += [(1 - above) * rank / (count + 1) for rank in range(1, count + 1)]
    return seen, sorted(unseen)


def _share_at_or_above(spans: Sequence[CensoredValue], limits: Sequence[float], k: int) -> float:
    """Share of the water at or above a limit, worked down from the highest one."""
    above = 0.0
    for j in range(len(limits) - 1, k - 1, -1):
        high = limits[j + 1] if j + 1 < len(limits) else float("inf")
        inside = sum(span.exact and limits[j] <= span.low < high for span in spans)
        below = sum(
            span.high <= limits[j] if span.undetected else span.low < limits[j] for span in spans
        )
        above += inside / (inside + below) * (1 - above) if inside + below else 0.0
    return above
