"""A history as statistics see it: on each day, bounds between which the figure lies.

A number has both bounds the same. A non-detect lies below its reporting limit, an off-scale
reading above its bound. Nothing is put in the place of what is not known.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import median

from wellbook.water.units import conversion
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Fraction, Kind, Reading
from wellbook.water.values.results import Result

DAYS_A_YEAR = 365.25
BELOW_ZERO = frozenset({"°C", "mV"})  # units in which a figure may be negative
_UNBOUND = float("inf")
_ONE_SEASON = 0.25  # of a year
# Metals that come from the pipes: a first draw and a flushed sample are two different waters.
FROM_PIPES = frozenset({"lead", "copper", "zinc", "iron", "nickel", "cadmium"})


@dataclass(frozen=True, slots=True)
class CensoredValue:
    """Interval of one figure at one time.

    Attributes:
        at: Time in years (of 365.25 days).
        low: Lower bound; minus infinity for a non-detect.
        high: Upper bound; infinity for an off-scale reading. Equal to `low` for a number.
    """

    at: float
    low: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether the figure is known and not only bounded."""
        return self.low == self.high

    @property
    def undetected(self) -> bool:
        """Whether nothing but an upper bound is known."""
        return self.low == -_UNBOUND


@dataclass(frozen=True, slots=True)
class Series:
    """One span a day, in order of time, and what had to be left out.

    Attributes:
        spans: The spans.
        days: The day of each span.
        left_out: Results without a usable figure, or of another fraction or draw.
    """

    spans: tuple[CensoredValue, ...]
    days: tuple[date, ...]
    left_out: int = 0

    @property
    def censored(self) -> int:
        """How many spans are bounds and not numbers."""
        return sum(not span.exact for span in self.spans)


def series(history: Iterable[Result], parameter: Parameter) -> Series:
    """The history of one parameter at one point as one span a day.

    Several results of one day (duplicates, split samples, two times of day) count once, at
    their median: they say more about that day, not about the years. Where total and dissolved,
    or first draws and flushed samples of a metal from the pipes, stand side by side, only the
    more frequent sort is taken (with those that don't say): a change of sort is not a change of
    the water.
    """
    key, none, total = parameter.key, Kind.NONE, Fraction.TOTAL
    results = [
        result for result in history if result.parameter == key and result.reading.kind is not none
    ]
    kept = _one_sort(results, lambda result: result.reading.fraction or total)
    if parameter.key in FROM_PIPES:
        kept = _one_sort(kept, lambda result: result.draw)
    by_day: dict[date, list[tuple[float, float]]] = {}
    used = 0
    known: dict[int, tuple[float, float] | None] = {}  # by identity: results may share a reading
    for result in kept:
        reading = result.reading
        if id(reading) not in known:
            known[id(reading)] = _bounds(reading, parameter)
        bounds = known[id(reading)]
        if bounds:
            used += 1
            by_day.setdefault(result.collected.day, []).append(bounds)
    days = tuple(sorted(by_day))
    return Series(tuple(_day(day, by_day[day]) for day in days), days, len(results) - used)


def counted_series(history: Iterable[Result], parameter: Parameter) -> Series:
    """The history of a parameter as statistics go through it: empty where only presence matters."""
    return Series((), ()) if parameter.scale == "presence" else series(history, parameter)


def in_one_season(spans: Iterable[CensoredValue]) -> bool:
    """Whether a quarter of the year, wherever it begins, holds all these tests."""
    parts = sorted(span.at % 1 for span in spans)
    gaps = [later - earlier for earlier, later in pairwise([*parts, *(p + 1 for p in parts[:1])])]
    return 1 - max(gaps, default=0.0) <= _ONE_SEASON


def quarter(day: date) -> int:
    """Quarter of the year that a day falls into: 0 for December to February, and so on."""
    return day.month % 12 // 3


def label(parameter: Parameter) -> str:
    """The unit in which figures are shown, with its basis, e.g. `mg/L as N`."""
    return " ".join(parameter.shown_in).strip()


def span_on(day: date, low: float, high: float) -> CensoredValue:
    """A span on a calendar day."""
    return CensoredValue(day.toordinal() / DAYS_A_YEAR, low, high)


def _day(day: date, bounds: Sequence[tuple[float, float]]) -> CensoredValue:
    if len(bounds) == 1:
        return span_on(day, *bounds[0])
    # The median keeps order, so the medians of the bounds bound the median.
    return span_on(day, median(low for low, _ in bounds), median(high for _, high in bounds))


def _bounds(reading: Reading, parameter: Parameter) -> tuple[float, float] | None:
    if Flag.REJECTED in reading.flags or reading.number is None:
        return None
    shown = conversion.as_shown(reading, parameter)
    if shown is None:
        return None
    figure = float(shown)
    if reading.kind is Kind.NUMBER:
        return (figure, figure)
    if reading.kind is Kind.BELOW:
        return (-_UNBOUND, figure)
    return (figure, _UNBOUND) if reading.kind is Kind.ABOVE else None


def _one_sort(results: list[Result], sort_of: Callable[[Result], str]) -> list[Result]:
    """The results of the most frequent sort (the first in the alphabet if equal) or of none."""
    counts = Counter(filter(None, map(sort_of, results)))
    if len(counts) < 2:  # noqa: PLR2004  most histories are of one sort
        return results
    chosen = min(counts, key=lambda sort: (-counts[sort], sort))
    return [result for result in results if sort_of(result) in {chosen, ""}]
