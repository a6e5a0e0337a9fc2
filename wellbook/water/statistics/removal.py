"""How much a treatment unit takes out, from raw and treated water of the same day.

A non-detect after treatment gives a least removal, one before treatment leaves it undefined, and
more after than before is a breakthrough (common practice, no source).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import comb, inf, isinf, log10
from statistics import median

from wellbook.water.statistics.mann_kendall import below
from wellbook.water.statistics.series import CensoredValue, series
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

_LEVEL = 0.9


class Outcome(StrEnum):
    """What a pair of samples says about a treatment unit."""

    REMOVED = "removed"
    AT_LEAST = "at least"  # treated water is a non-detect, or raw water off scale
    AT_MOST = "at most"  # treated water is off scale
    NOTHING_BEFORE = "nothing before"  # raw water is a non-detect: removal is undefined
    OVERLAP = "overlap"  # the bounds overlap: removal is undefined
    BREAKTHROUGH = "breakthrough"  # certainly more after than before


@dataclass(frozen=True, slots=True)
class Pair:
    """Raw and treated water of one day.

    Attributes:
        day: Their day.
        outcome: What they say.
        share: Share removed, 0 to 1 (the bound for AT_LEAST and AT_MOST); negative at a
            breakthrough; None where undefined.
        logs: The same in powers of ten, for germs; None where it has none.
    """

    day: date
    outcome: Outcome
    share: float | None
    logs: float | None


@dataclass(frozen=True, slots=True)
class Removal:
    """What all pairs say of a treatment unit and a parameter.

    Attributes:
        pairs: Every pair, in order of time.
        n: Pairs that say how much was removed, bounds included.
        censored: How many of them are bounds.
        statistic: Pairs in which treated water certainly held less than raw water.
        p: Two-sided probability of so one-sided a count if treatment did nothing (sign test).
        share: Median share removed; a least share where `at_least`.
        at_least: Whether the median is a least share only.
        low: Lower end of the median's 90 % interval; None with too few pairs.
        high: Upper end of it; None with too few pairs, or where it is open.
        breakthroughs: Pairs with more after treatment than before.
    """

    pairs: tuple[Pair, ...]
    n: int
    censored: int
    statistic: int
    p: float | None
    share: float | None
    at_least: bool
    low: float | None
    high: float | None
    breakthroughs: int


def removal(raw: Sequence[Result], treated: Sequence[Result], parameter: Parameter) -> Removal:
    """Compare the raw and the treated history of one parameter, day by day."""
    before, after = series(raw, parameter), series(treated, parameter)
    raw_on = dict(zip(before.days, before.spans, strict=True))
    treated_on = dict(zip(after.days, after.spans, strict=True))
    if parameter.scale == "presence":  # of germs none in 100 mL is fewer than one
        raw_on, treated_on = (
            {day: _none_is_below_one(span) for day, span in found.items()}
            for found in (raw_on, treated_on)
        )
    days = sorted(raw_on.keys() & treated_on.keys())
    return _sum_up(tuple(compare(day, raw_on[day], treated_on[day]) for day in days))


def compare(day: date, raw: CensoredValue, treated: CensoredValue) -> Pair:
    """Judge raw and treated water of one day."""
    if below(raw, treated):
        share = 1 - treated.low / raw.high if raw.exact and treated.exact and raw.low else None
        return Pair(day, Outcome.BREAKTHROUGH, share, None)
    if raw.low <= 0:
        return Pair(day, Outcome.NOTHING_BEFORE, None, None)
    most = 1 - max(treated.low, 0) / raw.high
    least = 1 - treated.high / raw.low
    if raw.exact and treated.exact:
        return _measured(day, Outcome.REMOVED, least)
    if least > 0:
        return _measured(day, Outcome.AT_LEAST, least)
    if raw.exact and treated.high == inf:
        return _measured(day, Outcome.AT_MOST, most)
    return Pair(day, Outcome.OVERLAP, None, None)


def _none_is_below_one(span: CensoredValue) -> CensoredValue:
    return CensoredValue(span.at, -inf, 1.0) if span.low == span.high == 0 else span


def _measured(day: date, outcome: Outcome, share: float) -> Pair:
    logs = -log10(1 - share) if 0 <= share < 1 else None
    return Pair(day, outcome, share, logs)


def _sum_up(pairs: tuple[Pair, ...]) -> Removal:
    told = [pair for pair in pairs if pair.share is not None]
    lows, highs = _bounds(told, -inf, Outcome.AT_MOST), _bounds(told, inf, Outcome.AT_LEAST)
    share = median(lows) if told else None
    open_end = bool(told) and share != median(highs)
    k = _rank(len(told))
    low, high = (lows[k - 1], highs[-k]) if k else (-inf, inf)
    fewer = sum(
        pair.outcome in {Outcome.REMOVED, Outcome.AT_LEAST} and bool(pair.share) for pair in told
    )
    more = sum(pair.outcome is Outcome.BREAKTHROUGH for pair in pairs)
    return Removal(
        pairs=pairs,
        n=len(told),
        censored=sum(pair.outcome in {Outcome.AT_LEAST, Outcome.AT_MOST} for pair in told),
        statistic=fewer,
        p=_sign_p(fewer, more) if fewer + more else None,
        share=None if share is None or isinf(share) else share,
        at_least=open_end,
        low=None if isinf(low) else low,
        high=None if isinf(high) else high,
        breakthroughs=more,
    )


def _bounds(told: Sequence[Pair], bound: float, open_outcome: Outcome) -> list[float]:
    return sorted(
        bound if pair.outcome is open_outcome or pair.share is None else pair.share for pair in told
    )


def _rank(n: int) -> int:
    """Rank from either end that bounds the median of n pairs at 90 %; 0 with too few pairs."""
    tail, rank = 0.0, 0
    for k in range(n // 2):
        tail += comb(n, k) / (1 << n)
        if tail > (1 - _LEVEL) / 2:
            break
        rank = k + 1
    return rank


def _sign_p(fewer: int, more: int) -> float:
    n, k = fewer + more, min(fewer, more)
    return min(1.0, 2 * sum(comb(n, j) for j in range(k + 1)) / (1 << n))
