"""What a treatment takes out, in sentences."""

from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.removal import Outcome, Pair, Removal
from wellbook.water.values.figures import plain
from wellbook.wording.dates import month_of


def pair(found: Pair) -> str:
    """What raw and treated water of one day say."""
    share = "" if found.share is None else _percent(found.share)
    if found.share is not None and found.share < 0:
        return _("After treatment {times} times as much as before.").format(
            times=_times(found.share)
        )
    return {
        Outcome.BREAKTHROUGH: _("More after treatment than before."),
        Outcome.NOTHING_BEFORE: _(
            "Nothing was detected before treatment, so removal is undefined."
        ),
        Outcome.REMOVED: _("{share} removed."),
        Outcome.AT_LEAST: _("At least {share} removed."),
        Outcome.AT_MOST: _("At most {share} removed."),
        Outcome.OVERLAP: _(
            "The bounds before and after treatment overlap, so removal is undefined."
        ),
    }[found.outcome].format(share=share)


def removal(found: Removal) -> str:
    """What all pairs say of a treatment unit."""
    if not found.pairs:
        return _("No raw and treated samples of the same day yet, so removal can’t be told.")
    parts = [_middle(found)]
    if found.breakthroughs:
        parts.append(
            ngettext(
                "{n} of them with more after treatment than before",
                "{n} of them with more after treatment than before",
                found.breakthroughs,
            ).format(n=found.breakthroughs)
        )
    last = found.pairs[-1]
    latest = _("Latest, {month}: {pair}").format(month=month_of(last.day), pair=pair(last))
    return f"{'; '.join(parts)}. {latest}"


def _middle(found: Removal) -> str:
    n = len(found.pairs)
    if found.share is None:
        return ngettext(
            "In {n} pair of raw and treated water of the same day, removal can’t be told",
            "In {n} pairs of raw and treated water of the same day, removal can’t be told",
            n,
        ).format(n=n)
    basis = [
        ngettext(
            "middle of {n} pair of the same day", "middle of {n} pairs of the same day", n
        ).format(n=n)
    ]
    basis.append(_removal_interval(found))
    if found.share < 0:
        return _("After treatment {times} times as much as before ({basis})").format(
            times=_times(found.share), basis=", ".join(basis)
        )
    said = _("At least {share} removed ({basis})")
    if not found.at_least:
        said = _("{share} removed ({basis})")
    return said.format(share=_percent(found.share), basis=", ".join(basis))


def _removal_interval(found: Removal) -> str:
    """The 90 % interval of the middle pair, in the words of what it is an interval of."""
    if found.low is None:
        return _("too few pairs for an interval")
    if found.high is None:
        return _("90 % interval {low} or more").format(low=_share(found.low))
    if (found.share or 0.0) < 0:
        low, high = _times(found.high), _times(found.low)
        return _("90 % interval {low} to {high} times").format(low=low, high=high)
    low, high = _share(found.low), _share(found.high)
    return _("90 % interval {low} to {high}").format(low=low, high=high)


def _share(share: float) -> str:
    """A share removed, or, where more came out than went in, how many times as much."""
    if share >= 0:
        return _percent(share)
    return _("{times} times as much after").format(times=_times(share))


def _times(share: float) -> str:
    """How many times as much there is after treatment as before, from a share removed."""
    return plain(1 - share)


def _percent(share: float) -> str:
    """Per cent, with decimals only where they tell: 85 %, 99.7 %."""
    return f"{plain(100 * share, 2 if share < 0.99 else 3)} %"  # noqa: PLR2004  as said above
