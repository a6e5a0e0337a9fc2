"""How much a treatment unit takes out, from raw and treated water of the same day.

A non-detect after treatment gives a least removal, one before treatment leaves it undefined, and
more after than before is a breakthrough (common practice, no source).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from math import comb, inf, isinf, log10
from statistics import median

from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.mann_kendall import below
from wellbook.water.statistics.series import Span, series
from wellbook.water.values.figures import plain
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import month_of

_LEVEL = 0.9


class Outcome(StrEnum):
    """What a pair of samples says about a treatment unit."""

    REMOVED = "removed"
    AT_LEAST = "at least"  # treated water is a non-detect, or raw water off scale
    AT_MOST = "at most"  # treated water is off scale
    UNDEFINED = "undefined"  # raw water is a non-detect, or the bounds overlap
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
        sentence: It in plain words.
    """

    day: date
    outcome: Outcome
    share: float | None
    logs: float | None
    sentence: str


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
        sentence: All of it in plain words.
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
    sentence: str


def removal(raw: Sequence[Result], treated: Sequence[Result], parameter: Parameter) -> Removal:
    """Compare the raw and the treated history of one parameter, day by day."""
    before, after = series(raw, parameter), series(treated, parameter)
    raw_on = dict(zip(before.days, before.spans, strict=True))
    treated_on = dict(zip(after.days, after.spans, strict=True))
    days = sorted(raw_on.keys() & treated_on.keys())
    return _sum_up(tuple(compare(day, raw_on[day], treated_on[day]) for day in days))


def compare(day: date, raw: Span, treated: Span) -> Pair:
    """Judge raw and treated water of one day."""
    if below(raw, treated):
        share = 1 - treated.low / raw.high if raw.exact and treated.exact and raw.low else None
        text = _("More after treatment than before.")
        return Pair(day, Outcome.BREAKTHROUGH, share, None, text)
    if raw.low <= 0:
        text = _("Nothing was detected before treatment, so removal is undefined.")
        return Pair(day, Outcome.UNDEFINED, None, None, text)
    most = 1 - max(treated.low, 0) / raw.high
    least = 1 - treated.high / raw.low
    if raw.exact and treated.exact:
        text = _("{share} removed.").format(share=_percent(least))
        return _measured(day, Outcome.REMOVED, least, text)
    if least > 0:
        text = _("At least {share} removed.").format(share=_percent(least))
        return _measured(day, Outcome.AT_LEAST, least, text)
    if raw.exact and treated.high == inf:
        text = _("At most {share} removed.").format(share=_percent(most))
        return _measured(day, Outcome.AT_MOST, most, text)
    text = _("The bounds before and after treatment overlap, so removal is undefined.")
    return Pair(day, Outcome.UNDEFINED, None, None, text)


def _measured(day: date, outcome: Outcome, share: float, sentence: str) -> Pair:
    logs = -log10(1 - share) if 0 <= share < 1 else None
    return Pair(day, outcome, share, logs, sentence)


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
    found = Removal(
        pairs=pairs,
        n=len(told),
        censored=sum(pair.outcome in {Outcome.AT_LEAST, Outcome.AT_MOST} for pair in told),
        statistic=fewer,
        p=_sign_p(fewer, more) if fewer + more else None,
        share=None if share is None or isinf(share) else share,
        at_least=open_end,
        low=None if isinf(low) else low,
        high=None if isinf(high) else high,
        sentence="",
    )
    return replace(found, sentence=_sentence(found, more))


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


def _sentence(found: Removal, breakthroughs: int) -> str:
    if not found.pairs:
        return _("No raw and treated samples of the same day yet, so removal can't be told.")
    parts = [_middle(found)]
    if breakthroughs:
        parts.append(
            ngettext(
                "{n} of them with more after treatment than before",
                "{n} of them with more after treatment than before",
                breakthroughs,
            ).format(n=breakthroughs)
        )
    last = found.pairs[-1]
    latest = _("Latest, {month}: {pair}").format(month=month_of(last.day), pair=last.sentence)
    return f"{'; '.join(parts)}. {latest}"


def _middle(found: Removal) -> str:
    n = len(found.pairs)
    if found.share is None:
        return ngettext(
            "In {n} pair of raw and treated water of the same day, removal can't be told",
            "In {n} pairs of raw and treated water of the same day, removal can't be told",
            n,
        ).format(n=n)
    basis = [
        ngettext(
            "middle of {n} pair of the same day", "middle of {n} pairs of the same day", n
        ).format(n=n)
    ]
    if found.low is not None and found.high is not None:
        low, high = _percent(found.low), _percent(found.high)
        basis.append(_("90 % interval {low} to {high}").format(low=low, high=high))
    of = {"share": _percent(found.share), "basis": ", ".join(basis)}
    if found.at_least:
        return _("At least {share} removed ({basis})").format(**of)
    return _("{share} removed ({basis})").format(**of)


def _percent(share: float) -> str:
    """Per cent, with decimals only where they tell: 85 %, 99.7 %."""
    return f"{plain(100 * share, 2 if share < 0.99 else 3)} %"  # noqa: PLR2004  as said above
