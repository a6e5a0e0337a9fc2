"""Mean and spread of logarithms where the likelihood is highest, non-detects counted in.

Left-censored lognormal maximum likelihood (Cohen, Technometrics 1, 1959; Helsel, Statistics for
Censored Environmental Data, 2nd ed. 2012, ch. 6), found by filling in the means of what each bound
allows and fitting anew (Dempster, Laird and Rubin, JRSS B 39, 1977).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, isfinite, log, sqrt
from statistics import NormalDist, fmean

from wellbook.water.statistics.series import CensoredValue

_NORMAL = NormalDist()
_ROUNDS, _STILL = 2000, 1e-10
_UNLIKELY = 1e-12


@dataclass(frozen=True, slots=True)
class Lognormal:
    """A lognormal spread.

    Attributes:
        log_mean: Mean of the natural logarithms.
        log_spread: Their standard deviation (maximum likelihood, divided by n).
    """

    log_mean: float
    log_spread: float

    @property
    def median(self) -> float:
        """Half of the water lies below."""
        return exp(self.log_mean)

    @property
    def mean(self) -> float:
        """Mean of the water."""
        return exp(self.log_mean + self.log_spread**2 / 2)


def lognormal(spans: Sequence[CensoredValue]) -> Lognormal | None:
    """The likeliest lognormal spread; None with fewer than two figures or one not above zero."""
    if len({span.low for span in spans if span.exact}) < 2:  # noqa: PLR2004  a spread needs two
        return None
    if any(min(span.high, span.low if span.exact else span.high) <= 0 for span in spans):
        return None
    bounds = [(_log(span.low), _log(span.high)) for span in spans]
    exact = [low for low, high in bounds if low == high]
    mean = fmean(exact)
    spread = sqrt(fmean((figure - mean) ** 2 for figure in exact))
    for _ in range(_ROUNDS):
        moments = [_moments(low, high, mean, spread) for low, high in bounds]
        after = fmean(first for first, _second in moments)
        wider = sqrt(max(fmean(second for _first, second in moments) - after**2, 0.0))
        still = abs(after - mean) + abs(wider - spread) < _STILL
        mean, spread = after, wider
        if still:
            break
    return Lognormal(mean, spread)


def _log(bound: float) -> float:
    if bound <= 0:
        return float("-inf")
    return log(bound) if isfinite(bound) else bound


def _moments(low: float, high: float, mean: float, spread: float) -> tuple[float, float]:
    """First and second moment of a normal spread within bounds."""
    if low == high:
        return low, low * low
    a, b = (low - mean) / spread, (high - mean) / spread
    inside = max(_NORMAL.cdf(b) - _NORMAL.cdf(a), _UNLIKELY)
    at_low, at_high = (_NORMAL.pdf(end) if isfinite(end) else 0.0 for end in (a, b))
    first = (at_low - at_high) / inside
    second = 1 + ((a * at_low if at_low else 0.0) - (b * at_high if at_high else 0.0)) / inside
    return mean + spread * first, mean**2 + 2 * mean * spread * first + spread**2 * second
