"""A figure far from what this well has always shown, and the slip that would explain it."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import log10

from wellbook.water.catalogue import Catalogue
from wellbook.water.figures import plain
from wellbook.water.findings import Finding
from wellbook.water.habits import History, Odd, odd_figure
from wellbook.water.results import Result
from wellbook.water.spans import label

_TOGETHER = 3  # so many that moved the same way are one question
_NEAR = 0.08  # how near a slip's factor must come, in powers of ten: a fifth
_SLIPS = (
    (10.0, "a decimal point out of place"),
    (100.0, "a decimal point out of place by two"),
    (1000.0, "µg/L taken for mg/L, or the other way round"),
)
_OWN_SLIPS = {
    "nitrate": ((4.4266, "nitrate as NO3 taken for nitrate as N, or the other way round"),),
    "nitrite": ((3.2844, "nitrite as NO2 taken for nitrite as N, or the other way round"),),
    "hardness": ((17.118, "grains per gallon taken for mg/L, or the other way round"),),
}


def off_habit(
    results: Sequence[Result], catalogue: Catalogue, history: History
) -> Iterator[Finding]:
    """Figures of one sample that are far from the others at the same point."""
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


def _far(odd: Odd) -> Finding:
    others = f"the middle of {odd.n} other tests here"
    if odd.parameter.key == "ph":
        text = (
            f"pH {plain(odd.figure, 3)} is far from {plain(odd.usual, 2)}, {others}. "
            "Is it copied right, and the right sample?"
        )
        return Finding("far_from_history", text, results=(odd.result.id,))
    printed = f"{odd.result.reading.text} {odd.result.reading.unit}".strip()
    much, side = plain(10 ** abs(odd.off), 2), "higher" if odd.off > 0 else "lower"
    usual = f"{plain(10**odd.usual, 3)} {label(odd.parameter)}"
    slip = _slip(odd) or "a mistake in copying, or another sample"
    return Finding(
        "far_from_history",
        f"{odd.parameter.name} ({printed}) is {much} times {side} than {usual}, {others}. "
        f"Could it be {slip}?",
        results=(odd.result.id,),
    )


def _together(odd: Sequence[Odd]) -> Finding:
    """Many figures gone the same way: another water, or one slip in all of them."""
    factors = sorted(10 ** abs(one.off) for one in odd)
    low, high = plain(factors[0], 2), plain(factors[-1], 2)
    names = ", ".join(one.parameter.name for one in odd)
    slips = {_slip(one) for one in odd}
    slip = slips.pop() if len(slips) == 1 else ""
    return Finding(
        "many_far_from_history",
        f"{len(odd)} figures ({names}) are {low} to {high} times "
        f"{'higher' if odd[0].off > 0 else 'lower'} than in other tests here. "
        + (
            f"Could it be {slip}?"
            if slip
            else "Is it the right tap, or was a treatment unit bypassed, new or spent?"
        ),
        results=tuple(one.result.id for one in odd),
    )


def _slip(odd: Odd) -> str:
    slips = (*_OWN_SLIPS.get(odd.parameter.key, ()), *_SLIPS)
    near = [
        (abs(abs(odd.off) - log10(factor)), words)
        for factor, words in slips
        if abs(abs(odd.off) - log10(factor)) <= max(_NEAR, odd.scatter)
    ]
    return min(near)[1] if near else ""


def _swapped(one: Odd, other: Odd) -> bool:
    if "ph" in {one.parameter.key, other.parameter.key} or one.parameter is other.parameter:
        return False
    near = _NEAR + max(one.scatter, other.scatter)
    return abs(one.figure - other.usual) <= near and abs(other.figure - one.usual) <= near


def _swap(one: Odd, other: Odd) -> Finding:
    first, second = one.parameter.name, other.parameter.name
    return Finding(
        "rows_swapped",
        f"{first} ({one.result.reading.text}) and {second} ({other.result.reading.text}) are both "
        "far from the other tests here, and would fit if they changed places. Were rows swapped?",
        results=(one.result.id, other.result.id),
    )


def _softener(odd: Sequence[Odd]) -> Finding | None:
    """Hardness gone one way and sodium the other is water from the other side of a softener."""
    hard = next((o for o in odd if o.parameter.key in {"hardness", "calcium"}), None)
    sodium = next((o for o in odd if o.parameter.key == "sodium"), None)
    if hard is None or sodium is None or hard.off * sodium.off > 0:
        return None
    ways = ("lower", "higher") if hard.off < 0 else ("higher", "lower")
    others = {
        "hardness",
        "calcium",
        "magnesium",
        "hardness_calcium",
        "hardness_magnesium",
        "sodium",
    }
    return Finding(
        "other_side_of_softener",
        f"{hard.parameter.name} is far {ways[0]} and sodium far {ways[1]} than in the other tests: "
        "this looks like water from the other side of a softener. Is it the right tap?",
        results=tuple(o.result.id for o in odd if o.parameter.key in others),
    )
