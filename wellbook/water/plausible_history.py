"""A figure far from what this well has always shown, and the slip that would explain it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from heapq import nsmallest
from itertools import combinations
from math import log10
from statistics import median

from wellbook.water.catalogue import Catalogue
from wellbook.water.contents import bounds_of
from wellbook.water.figures import plain
from wellbook.water.findings import Finding
from wellbook.water.parameters import Parameter
from wellbook.water.readings import Kind
from wellbook.water.results import Result
from wellbook.water.spans import label

History = Mapping[str, Sequence[Result]]  # results of other samples, by parameter

_LEAST = 4  # other figures from which a habit can be seen
_NEAREST = 12  # and the most, nearest in time, so that a slow change stays unnoticed here
_FAR = 4.0  # so many times the usual scatter
_LEAST_FACTOR = 4.0  # and at least so many times the usual figure,
_LEAST_FACTOR_NEAR_LIMIT = 10.0  # or so many where others are non-detects: there figures scatter
_LEAST_PH = 1.5
_SCATTER = 1.4826  # of the median deviation, to be that of a normal curve
_FLOOR = 0.05  # least scatter, in powers of ten: an eighth
_NEAR = 0.08  # how near a slip's factor must come, in powers of ten: a fifth
# Not habits of a well: they follow the weather, the minute or the day's pumping.
_FITFUL = frozenset({"temperature", "turbidity", "odor", "color", "chlorine_residual"})
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


@dataclass(frozen=True, slots=True)
class _Odd:
    """A figure beside the point's habit, all in powers of ten (pH as it is)."""

    result: Result
    parameter: Parameter
    figure: float
    usual: float
    scatter: float
    n: int

    @property
    def off(self) -> float:
        return self.figure - self.usual


def habits(results: Sequence[Result], catalogue: Catalogue, history: History) -> Iterator[Finding]:
    """Figures of one sample that are far from the others at the same point."""
    odd = [one for one in (_odd(r, catalogue, history) for r in results) if one]
    softener = _softener(odd)
    if softener:
        yield softener
        odd = [one for one in odd if one.result.id not in softener.results]
    swapped: set[int] = set()
    for one, other in combinations(odd, 2):
        if _swapped(one, other):
            swapped |= {one.result.id, other.result.id}
            yield _swap(one, other)
    yield from (_far(one) for one in odd if one.result.id not in swapped)


def _odd(result: Result, catalogue: Catalogue, history: History) -> _Odd | None:
    parameter = catalogue.parameters.get(result.parameter)
    if parameter is None or not _has_habits(parameter):
        return None
    figure = _figure(result, parameter, (Kind.NUMBER, Kind.BELOW))
    others = _others(result, history)
    habit = [
        known for one in others if (known := _figure(one, parameter, (Kind.NUMBER,))) is not None
    ]
    if figure is None or len(habit) < _LEAST:
        return None
    usual = median(habit)
    scatter = max(_FLOOR, _SCATTER * median(abs(one - usual) for one in habit))
    all_detected = len(habit) == len(others)
    least = log10(_LEAST_FACTOR if all_detected else _LEAST_FACTOR_NEAR_LIMIT)
    least = _LEAST_PH if parameter.key == "ph" else least
    near = abs(figure - usual) <= max(least, _FAR * scatter)
    undetected = result.reading.kind is Kind.BELOW
    if near or (undetected and (figure > usual or not all_detected)):
        return None
    return _Odd(result, parameter, figure, usual, scatter, len(habit))


def _has_habits(parameter: Parameter) -> bool:
    return (
        parameter.scale != "presence"
        and parameter.family != "bacteria"
        and parameter.key not in _FITFUL
    )


def _others(result: Result, history: History) -> list[Result]:
    """The results of the same parameter and fraction that are nearest in time."""
    fraction = result.reading.fraction or "total"
    alike = [
        one
        for one in history.get(result.parameter, ())
        if (one.reading.fraction or "total") == fraction
    ]
    return nsmallest(_NEAREST, alike, key=lambda one: abs(one.collected.day - result.collected.day))


def _figure(result: Result, parameter: Parameter, kinds: Sequence[Kind]) -> float | None:
    """The figure or reporting limit in powers of ten (pH as it is); None if there is none."""
    bounds = bounds_of(result, parameter) if result.reading.kind in kinds else None
    if bounds is None or bounds.high <= 0:
        return None
    return bounds.high if parameter.key == "ph" else log10(bounds.high)


def _far(odd: _Odd) -> Finding:
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


def _slip(odd: _Odd) -> str:
    slips = (*_OWN_SLIPS.get(odd.parameter.key, ()), *_SLIPS)
    near = [
        (abs(abs(odd.off) - log10(factor)), words)
        for factor, words in slips
        if abs(abs(odd.off) - log10(factor)) <= max(_NEAR, odd.scatter)
    ]
    return min(near)[1] if near else ""


def _swapped(one: _Odd, other: _Odd) -> bool:
    if "ph" in {one.parameter.key, other.parameter.key} or one.parameter is other.parameter:
        return False
    near = _NEAR + max(one.scatter, other.scatter)
    return abs(one.figure - other.usual) <= near and abs(other.figure - one.usual) <= near


def _swap(one: _Odd, other: _Odd) -> Finding:
    first, second = one.parameter.name, other.parameter.name
    return Finding(
        "rows_swapped",
        f"{first} ({one.result.reading.text}) and {second} ({other.result.reading.text}) are both "
        "far from the other tests here, and would fit if they changed places. Were rows swapped?",
        results=(one.result.id, other.result.id),
    )


def _softener(odd: Sequence[_Odd]) -> Finding | None:
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
