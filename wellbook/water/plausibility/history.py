"""A figure far from what this well has always shown, and the slip that would explain it."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import log10

from wellbook.water.plausibility.slips import Slip
from wellbook.water.plausibility.usual_range import History, Odd, odd_figure
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Check, Oddity
from wellbook.water.values.results import Result

_TOGETHER = 3  # so many that moved the same way are one question
_NEAR = 0.08  # how near a slip's factor must come, in powers of ten: a fifth
_SLIPS = (
    (10.0, Slip.POINT),
    (100.0, Slip.POINT_BY_TWO),
    (1000.0, Slip.MICRO_FOR_MILLI),
)
_OWN_SLIPS = {
    "nitrate": ((4.4266, Slip.NITRATE_FORMS),),
    "nitrite": ((3.2844, Slip.NITRITE_FORMS),),
    "hardness": ((17.118, Slip.GRAINS),),
}


def off_habit(
    results: Sequence[Result], catalogue: Catalogue, history: History
) -> Iterator[Oddity]:
    """Figures of one sample that are far from the others at the same point."""
    if not history:
        return
    odd = [one for one in (odd_figure(r, catalogue, history) for r in results) if one]
    softener = _softener(odd)
    if softener:
        yield softener
        odd = [one for one in odd if one.result.id not in softener.results]
    swapped: set[int] = set()
    for one, other in combinations(odd, 2):
        if _swapped(one, other):
            swapped |= {one.result.id, other.result.id}
            yield _swap(one, other)
    odd = [one for one in odd if one.result.id not in swapped]
    for way in (-1, 1):
        alike = [one for one in odd if one.off * way > 0 and one.parameter.key != "ph"]
        if len(alike) >= _TOGETHER:
            yield _together(alike)
            odd = [one for one in odd if one not in alike]
    yield from map(_far, odd)


def _far(odd: Odd) -> Oddity:
    facts = {"odd": odd, "slip": _slip(odd) or Slip.ANY}
    return Oddity(Check.FAR_FROM_HISTORY, facts, results=(odd.result.id,))


def _together(odd: Sequence[Odd]) -> Oddity:
    """Many figures gone the same way: another water, or one slip in all of them."""
    slips = {_slip(one) for one in odd}
    return Oddity(
        Check.MANY_FAR_FROM_HISTORY,
        {"all": tuple(odd), "slip": slips.pop() if len(slips) == 1 else None},
        results=tuple(one.result.id for one in odd),
    )


def _slip(odd: Odd) -> Slip | None:
    slips = (*_OWN_SLIPS.get(odd.parameter.key, ()), *_SLIPS)
    near = [
        (abs(abs(odd.off) - log10(factor)), slip)
        for factor, slip in slips
        if abs(abs(odd.off) - log10(factor)) <= max(_NEAR, odd.scatter)
    ]
    return min(near)[1] if near else None


def _swapped(one: Odd, other: Odd) -> bool:
    if "ph" in {one.parameter.key, other.parameter.key} or one.parameter is other.parameter:
        return False
    near = _NEAR + max(one.scatter, other.scatter)
    return abs(one.figure - other.usual) <= near and abs(other.figure - one.usual) <= near


def _swap(one: Odd, other: Odd) -> Oddity:
    return Oddity(
        Check.ROWS_SWAPPED,
        {"one": one, "other": other},
        results=(one.result.id, other.result.id),
    )


def _softener(odd: Sequence[Odd]) -> Oddity | None:
    """Hardness gone one way and sodium the other is water from the other side of a softener."""
    hard = next((o for o in odd if o.parameter.key in {"hardness", "calcium"}), None)
    sodium = next((o for o in odd if o.parameter.key == "sodium"), None)
    if hard is None or sodium is None or hard.off * sodium.off > 0:
        return None
    others = {
        "hardness",
        "calcium",
        "magnesium",
        "hardness_calcium",
        "hardness_magnesium",
        "sodium",
    }
    return Oddity(
        Check.OTHER_SIDE_OF_SOFTENER,
        {"hard": hard},
        results=tuple(o.result.id for o in odd if o.parameter.key in others),
    )
