"""How figures are spread when some are only known to be below a reporting limit.

Kaplan-Meier, read from the top down: a detected figure takes its share of all that lies at or
below it, and a non-detect counts among these for every figure at or above its limit (Helsel,
Statistics for Censored Environmental Data, 2nd ed. 2012, ch. 6). Off-scale readings are bounds
from the other side; for them there is `turnbull`.
"""

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import inf, isfinite

from wellbook.water.statistics.series import CensoredValue

_CLOSE = 1e-9  # a share this close to the one asked for is the one asked for


@dataclass(frozen=True, slots=True)
class Mass:
    """A share of the water, and between which bounds its figure lies (equal for a number)."""

    low: float
    high: float
    share: float


def kaplan_meier(spans: Sequence[CensoredValue]) -> tuple[Mass, ...]:
    """Shares in rising order; what lies below every detected figure comes first, unplaced.

    Raises:
        ValueError: A span is off scale.
    """
    if any(span.high == inf for span in spans):
        raise ValueError("Off-scale figures need turnbull")
    left = 1.0
    masses: list[Mass] = []
    lows, highs = Counter(span.low for span in spans), sorted(span.high for span in spans)
    for figure in sorted({span.low for span in spans if span.exact}, reverse=True):
        share = left * lows[figure] / bisect_right(highs, figure)
        masses.append(Mass(figure, figure, share))
        left -= share
    if left > _CLOSE:
        lowest = masses[-1].low if masses else min((span.high for span in spans), default=inf)
        masses.append(Mass(-inf, lowest, left))
    return tuple(reversed(masses))


def quantile(masses: Sequence[Mass], share: float) -> float | None:
    """The figure at or below which so large a share lies; None if it falls into an open end.

    Where the share ends exactly between two figures, halfway between them, as a median does.
    """
    sums = accumulate(mass.share for mass in masses)
    for k, (mass, total) in enumerate(zip(masses, sums, strict=True)):
        if total > share + _CLOSE:
            return _middle(mass)
        if total > share - _CLOSE and k + 1 < len(masses):
            here, after = _middle(mass), _middle(masses[k + 1])
            return None if here is None or after is None else (here + after) / 2
    return _middle(masses[-1]) if masses else None


def mean(masses: Sequence[Mass], lowest_limit: float) -> float | None:
    """Mean, with the unplaced share at the bottom put at the lowest reporting limit.

    That is the convention of EPA's Unified Guidance (530/R-09-007, 2009, section 15.3). None
    where a share has no upper bound.
    """
    if not masses or masses[-1].high == inf:
        return None
    return sum(
        mass.share * (lowest_limit if mass.low == -inf else (mass.low + mass.high) / 2)
        for mass in masses
    )


def _middle(mass: Mass) -> float | None:
    return (mass.low + mass.high) / 2 if isfinite(mass.low) and isfinite(mass.high) else None
