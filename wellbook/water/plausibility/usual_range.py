"""What a sampling point usually shows, and the figures of a sample that are far from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from heapq import nsmallest
from math import log10, sqrt
from statistics import median

from wellbook.water.chemistry.interval import bounds_of
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Fraction, Kind
from wellbook.water.values.results import Result

History = Mapping[str, Sequence[Result]]  # results of other samples, by parameter

LEAST_OTHERS = 4  # figures from which a habit can be seen
_NEAREST = 12  # and the most, nearest in time, so that a slow change stays unnoticed here
_FAR = 4.2  # so many times the usual scatter
# Iron and manganese scatter so much that a slip of ten upwards would hide within it.
_FAR_UPWARDS = {"iron": 2.8, "manganese": 2.8}
_LEAST_FACTOR = 4.0  # and at least so many times the usual figure,
_LEAST_FACTOR_NEAR_LIMIT = 10.0  # or so many where others are non-detects: there figures scatter
_LEAST_PH = 1.5
# A factor that is a slip of its own is far from here on: nitrate as NO3 is 4.43 times as N.
_LEAST_FACTORS = {"nitrate": 3.0, "nitrite": 2.6, "nitrate_nitrite": 3.0}
# Four to twelve figures tell little of how far others scatter, so what is usual for such a
# parameter counts as much as four figures; in powers of ten, common practice, no source.
_USUAL_SCATTERS = {"iron": 0.24, "manganese": 0.24, "nitrate": 0.11, "nitrite": 0.15, "lead": 0.2}
_USUAL_SCATTER, _COUNTS_AS = 0.08, 4
_SCATTER = 1.4826  # of the median deviation, to be that of a normal curve
_FLOOR = 0.05  # least scatter, in powers of ten: an eighth
# Not habits of a well: they follow the weather, the minute or the day's pumping.
_FITFUL = frozenset({"temperature", "turbidity", "odor", "color", "chlorine_residual"})


@dataclass(frozen=True, slots=True)
class Odd:
    """A figure far from a point's habit, all in powers of ten (pH as it is).

    Attributes:
        result: The result that holds it.
        parameter: Its parameter.
        figure: The figure, or the reporting limit of a non-detect.
        usual: Middle of the other figures.
        scatter: Their usual distance from it.
        n: How many there are.
    """

    result: Result
    parameter: Parameter
    figure: float
    usual: float
    scatter: float
    n: int

    @property
    def off(self) -> float:
        """How far off it is, above zero if higher than usual."""
        return self.figure - self.usual


def odd_figure(result: Result, catalogue: Catalogue, history: History) -> Odd | None:
    """A result's figure if it is far from the others at the point; None if not, or too few."""
    parameter = catalogue.parameters.get(result.parameter)
    if parameter is None or not history.get(result.parameter) or not _has_habits(parameter):
        return None
    figure = _figure(result, parameter, (Kind.NUMBER, Kind.BELOW))
    others = _others(result, history)
    habit = [
        known for one in others if (known := _figure(one, parameter, (Kind.NUMBER,))) is not None
    ]
    if figure is None or len(habit) < LEAST_OTHERS:
        return None
    usual = median(habit)
    scatter = _scatter(parameter.key, habit, usual)
    all_detected = len(habit) == len(others)
    own = _LEAST_FACTORS.get(parameter.key, _LEAST_FACTOR)
    least = log10(own if all_detected else _LEAST_FACTOR_NEAR_LIMIT)
    least = _LEAST_PH if parameter.key == "ph" else least
    far = _FAR_UPWARDS.get(parameter.key, _FAR) if figure > usual else _FAR
    near = abs(figure - usual) <= max(least, far * scatter)
    undetected = result.reading.kind is Kind.BELOW
    if near or (undetected and (figure > usual or not all_detected)):
        return None
    return Odd(result, parameter, figure, usual, scatter, len(habit))


def _scatter(key: str, habit: Sequence[float], usual: float) -> float:
    """How far figures lie from the usual one, theirs and those of other wells taken together."""
    own = _SCATTER * median(abs(one - usual) for one in habit)
    expected = _USUAL_SCATTERS.get(key, _USUAL_SCATTER)
    n = len(habit)
    both = (n * own**2 + _COUNTS_AS * expected**2) / (n + _COUNTS_AS)
    return max(_FLOOR, sqrt(both))


def _has_habits(parameter: Parameter) -> bool:
    return (
        parameter.scale != "presence"
        and parameter.family != "bacteria"
        and parameter.key not in _FITFUL
    )


def _others(result: Result, history: History) -> list[Result]:
    """The results of the same parameter and fraction that are nearest in time."""
    fraction = result.reading.fraction or Fraction.TOTAL
    alike = [
        one
        for one in history.get(result.parameter, ())
        if (one.reading.fraction or Fraction.TOTAL) == fraction
    ]
    return nsmallest(_NEAREST, alike, key=lambda one: abs(one.collected.day - result.collected.day))


def _figure(result: Result, parameter: Parameter, kinds: Sequence[Kind]) -> float | None:
    """The figure or reporting limit in powers of ten (pH as it is); None if there is none."""
    bounds = bounds_of(result, parameter) if result.reading.kind in kinds else None
    if bounds is None or bounds.high <= 0:
        return None
    return bounds.high if parameter.key == "ph" else log10(bounds.high)
