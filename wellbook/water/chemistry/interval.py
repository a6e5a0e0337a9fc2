"""What one sample holds, every figure as bounds, so that sums and indices carry non-detects on.

A non-detect lies between nothing and its reporting limit. An index of such figures is computed at
both ends and given as a range; nothing is put in the place of what is not known.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import product
from math import inf, isfinite
from statistics import median

from wellbook.water.units import conversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Fraction, Kind, Reading
from wellbook.water.values.results import Result

# Measured at the well, these are nearer to the water in the ground than what the lab finds later.
_FIELD_FIRST = frozenset({"ph", "temperature", "conductivity", "alkalinity"})


@dataclass(frozen=True, slots=True)
class Interval:
    """A figure in a parameter's usual unit, known to lie between two ends (equal if exact)."""

    low: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether the figure is known and not only bounded."""
        return self.low == self.high

    def __add__(self, other: "Interval") -> "Interval":
        return Interval(self.low + other.low, self.high + other.high)

    def __mul__(self, factor: float) -> "Interval":
        return Interval(self.low * factor, self.high * factor)


Contents = Mapping[str, Interval]


class Bounds:
    """Intervals of readings, each worked out once: the samples of a file share theirs."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._parameters = catalogue.parameters
        # By identity; the reading is held, so that it stays the same.
        self._known: dict[tuple[int, str], tuple[Reading, Interval | None]] = {}

    def of(self, result: Result) -> Interval | None:
        """The interval of a result in its usual unit; None if it holds no usable figure."""
        key = id(result.reading), result.parameter
        found = self._known.get(key)
        if found is None:
            parameter = self._parameters.get(result.parameter)
            bounds = bounds_of(result, parameter) if parameter else None
            found = self._known[key] = result.reading, bounds
        return found[1]


def contents(
    results: Iterable[Result], catalogue: Catalogue, bounds: Bounds | None = None
) -> dict[str, Interval]:
    """Interval of every parameter of one sample that has a usable figure.

    Where a parameter was measured more than once, dissolved goes before total (that is what ions
    and indices mean) and the field before the lab for pH, temperature, conductivity and
    alkalinity; of equals the median is taken.
    """
    bounds = bounds or Bounds(catalogue)
    found: dict[str, list[tuple[Result, Interval]]] = {}
    for result in results:
        known = bounds.of(result)
        if known:
            found.setdefault(result.parameter, []).append((result, known))
    return {key: some[0][1] if len(some) == 1 else _first(some) for key, some in found.items()}


def bounds_of(result: Result, parameter: Parameter) -> Interval | None:
    """Interval of one reading in the usual unit; None if it holds no usable figure."""
    reading = result.reading
    usual = conversion.in_usual(reading, parameter)
    if usual is None or Flag.REJECTED in reading.flags:
        return None
    figure = float(usual)
    if reading.kind is Kind.NUMBER:
        return Interval(figure, figure)
    if reading.kind is Kind.BELOW:
        return Interval(0.0, figure)
    return Interval(figure, inf) if reading.kind is Kind.ABOVE else None


def between(function: Callable[..., float], *given: Interval) -> Interval | None:
    """Interval of a function that only rises or only falls in each of its figures.

    None where it has no value at one of the ends (a division by nothing, a logarithm of zero).
    """
    ends = []
    for bounds in given:
        if not isfinite(bounds.high):
            return None
        ends.append((bounds.low,) if bounds.low == bounds.high else (bounds.low, bounds.high))
    try:
        values = [function(*corner) for corner in product(*ends)]
    except (ValueError, ZeroDivisionError):
        return None
    return Interval(min(values), max(values))


def _rank(result: Result) -> int:
    field = result.parameter in _FIELD_FIRST and "field" in result.name.casefold()
    return 0 if field or result.reading.fraction == Fraction.DISSOLVED else 1


def _first(found: list[tuple[Result, Interval]]) -> Interval:
    """The middle of those of the lowest rank."""
    lowest = min(_rank(result) for result, _bounds in found)
    several = [bounds for result, bounds in found if _rank(result) == lowest]
    return Interval(median(b.low for b in several), median(b.high for b in several))
