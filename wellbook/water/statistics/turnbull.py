"""How figures are spread when bounds come from both sides: non-detects and off scale.

Turnbull's self-consistent estimate (Journal of the Royal Statistical Society B 38, 1976): shares
are put on the smallest intervals that the figures allow, and passed round until every figure
agrees with them. Where there are only non-detects it is the same as Kaplan-Meier.
"""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise
from math import inf

from wellbook.water.statistics.kaplan_meier import Mass, kaplan_meier
from wellbook.water.statistics.series import CensoredValue

_ROUNDS, _STILL = 2000, 1e-10
# An end and on which side of it: a bound itself is not reached, so `<5` ends just before 5.
_End = tuple[float, int]


def shares_of(spans: Sequence[CensoredValue]) -> tuple[Mass, ...]:
    """Shares in rising order, by Kaplan-Meier where it is enough."""
    return turnbull(spans) if any(span.high == inf for span in spans) else kaplan_meier(spans)


def turnbull(spans: Sequence[CensoredValue]) -> tuple[Mass, ...]:
    """Shares in rising order, an open end with an infinite bound."""
    ends = [_ends(span) for span in spans]
    places = _smallest(ends)
    lowest, highest = [place[0] for place in places], [place[1] for place in places]
    # The places that a span allows stand side by side.
    allowed = Counter((bisect_left(lowest, a), bisect_right(highest, b)) for a, b in ends)
    shares = [1 / len(places)] * len(places) if places else []
    for _ in range(_ROUNDS):
        after = _pass_round(shares, allowed)
        still = max((abs(a - b) for a, b in zip(shares, after, strict=True)), default=0) < _STILL
        shares = after
        if still:
            break
    return tuple(
        Mass(low[0], high[0], share)
        for (low, high), share in zip(places, shares, strict=True)
        if share > _STILL
    )


def _pass_round(shares: Sequence[float], allowed: Mapping[tuple[int, int], int]) -> list[float]:
    """Each span gives its own part to the places it allows, by their shares."""
    sums = [0.0, *accumulate(shares)]
    steps = [0.0] * (len(shares) + 1)
    for (first, past), number in allowed.items():
        part = number / (sums[past] - sums[first])
        steps[first] += part
        steps[past] -= part
    n = sum(allowed.values())
    return [share * parts / n for share, parts in zip(shares, accumulate(steps), strict=False)]


def _ends(span: CensoredValue) -> tuple[_End, _End]:
    if span.exact:
        return (span.low, 0), (span.high, 0)
    return (span.low, 1), (span.high, -1)


def _smallest(ends: Sequence[tuple[_End, _End]]) -> list[tuple[_End, _End]]:
    """Intervals from a lower end to the next upper end with no other end between."""
    marks = sorted({(a, 0) for a, _ in ends} | {(b, 1) for _, b in ends})
    return [(a, b) for (a, is_upper), (b, upper) in pairwise(marks) if upper > is_upper]
