"""A figure far from what this well has always shown, and the slip that would explain it."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import log10

from wellbook.support.translation import N_, _
from wellbook.water.plausibility.usual_range import History, Odd, odd_figure
from wellbook.water.statistics.series import label
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.figures import plain
from wellbook.water.values.findings import Finding
from wellbook.water.values.results import Result

_TOGETHER = 3  # so many that moved the same way are one question
_NEAR = 0.08  # how near a slip's factor must come, in powers of ten: a fifth
_SLIPS = (
    (10.0, N_("a decimal point out of place")),
    (100.0, N_("a decimal point out of place by two")),
    (1000.0, N_("µg/L taken for mg/L, or the other way round")),
)
_ANY_SLIP = N_("a mistake in copying, or another sample")
_OWN_SLIPS = {
    "nitrate": ((4.4266, N_("nitrate as NO3 taken for nitrate as N, or the other way round")),),
    "nitrite": ((3.2844, N_("nitrite as NO2 taken for nitrite as N, or the other way round")),),
    "hardness": ((17.118, N_("grains per gallon taken for mg/L, or the other way round")),),
}
_HIGHER = N_(
    "{parameter} ({printed}) is {factor} times higher than {usual}, the middle of {n} other tests "
    "here. Could it be {slip}?"
)
_LOWER = N_(
    "{parameter} ({printed}) is {factor} times lower than {usual}, the middle of {n} other tests "
    "here. Could it be {slip}?"
)
_ALL_HIGHER = N_("{n} figures ({names}) are {low} to {high} times higher than in other tests here.")
_SOFTER = N_(
    "{parameter} is far lower and sodium far higher than in the other tests: this looks like water "
    "from the other side of a softener. Is it the right tap?"
)
_HARDER = N_(
    "{parameter} is far higher and sodium far lower than in the other tests: this looks like water "
    "from the other side of a softener. Is it the right tap?"
)
_ALL_LOWER = N_("{n} figures ({names}) are {low} to {high} times lower than in other tests here.")


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
    if odd.parameter.key == "ph":
        text = _(
            "pH {figure} is far from {usual}, the middle of {n} other tests here. Is it copied "
            "right, and the right sample?"
        ).format(
            figure=plain(odd.figure, 3),
            usual=plain(odd.usual, 2),
            n=odd.n,
        )
        return Finding("far_from_history", text, results=(odd.result.id,))
    text = _(_HIGHER if odd.off > 0 else _LOWER).format(
        parameter=odd.parameter.name,
        printed=f"{odd.result.reading.text} {odd.result.reading.unit}".strip(),
        factor=plain(10 ** abs(odd.off), 2),
        usual=f"{plain(10**odd.usual, 3)} {label(odd.parameter)}",
        n=odd.n,
        slip=_(_slip(odd) or _ANY_SLIP),
    )
    return Finding("far_from_history", text, results=(odd.result.id,))


def _together(odd: Sequence[Odd]) -> Finding:
    """Many figures gone the same way: another water, or one slip in all of them."""
    factors = sorted(10 ** abs(one.off) for one in odd)
    told = _(_ALL_HIGHER if odd[0].off > 0 else _ALL_LOWER).format(
        n=len(odd),
        names=", ".join(one.parameter.name for one in odd),
        low=plain(factors[0], 2),
        high=plain(factors[-1], 2),
    )
    slips = {_slip(one) for one in odd}
    slip = slips.pop() if len(slips) == 1 else ""
    question = (
        _("Could it be {slip}?").format(slip=_(slip))
        if slip
        else _("Is it the right tap, or was a treatment unit bypassed, new or spent?")
    )
    return Finding(
        "many_far_from_history",
        f"{told} {question}",
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
    return Finding(
        "rows_swapped",
        _(
            "{one} ({figure}) and {other} ({other_figure}) are both far from the other tests "
            "here, and would fit if they changed places. Were rows swapped?"
        ).format(
            one=one.parameter.name,
            figure=one.result.reading.text,
            other=other.parameter.name,
            other_figure=other.result.reading.text,
        ),
        results=(one.result.id, other.result.id),
    )


def _softener(odd: Sequence[Odd]) -> Finding | None:
    """Hardness gone one way and sodium the other is water from the other side of a softener."""
    hard = next((o for o in odd if o.parameter.key in {"hardness", "calcium"}), None)
    sodium = next((o for o in odd if o.parameter.key == "sodium"), None)
    if hard is None or sodium is None or hard.off * sodium.off > 0:
        return None
    text = _SOFTER if hard.off < 0 else _HARDER
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
        _(text).format(parameter=hard.parameter.name),
        results=tuple(o.result.id for o in odd if o.parameter.key in others),
    )
