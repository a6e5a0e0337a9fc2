"""How far the time of year walked along with the years in one history of tests.

Tests that fall some weeks later each year meet the seasons one after another, so a yearly cycle
looks like a rise or a fall. How far that goes depends on the days of the tests alone.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import cos, inf, sin, sqrt, tau
from random import Random

from wellbook.water.statistics.mann_kendall import LEVEL
from wellbook.water.statistics.series import DAYS_A_YEAR, CensoredValue
from wellbook.water.statistics.theil_sen import critical_score

# The largest yearly cycle that is guarded against, in standard deviations of what else scatters
# (from its middle to its top). Nitrate and bacteria of shallow wells come near it; our choice.
LARGEST_CYCLE = 4.0
_CYCLES = (1.0, 2.0, 4.0)
_RUNS = 300
_NOTHING = 1e-9

Vector = list[float]


@dataclass(frozen=True, slots=True)
class YearlyCycle:
    """The days of a history, taken apart into the yearly cycle and what is left of time.

    Attributes:
        waves: Directions of one same cycle a year, each of length one, at right angles to each
            other and to a constant; none where all tests fall on one day of the year.
        rest: Time in years, centred, with all that a yearly cycle could stand for taken off.
        share: Share of time that a yearly cycle could stand for, 0 to 1.
        pull: How far the largest cycle guarded against can move a trend test that knows of no
            seasons, in standard deviations of the test.
    """

    waves: tuple[tuple[float, ...], ...]
    rest: tuple[float, ...]
    share: float
    pull: float

    def without(self, figures: Sequence[float]) -> Vector:
        """Figures less their mean and their yearly cycle (least squares)."""
        left = _centred(figures)
        for wave in self.waves:
            size = dot(left, wave)
            left = [a - size * b for a, b in zip(left, wave, strict=True)]
        return left


def dot(a: Sequence[float], b: Sequence[float]) -> float:
    """Sum of products."""
    return sum(x * y for x, y in zip(a, b, strict=True))


@lru_cache(maxsize=256)
def yearly_cycle(times: tuple[float, ...]) -> YearlyCycle:
    """Take the times of a history apart; they are in years of 365.25 days."""
    waves: list[tuple[float, ...]] = []
    turns = [_centred([turn(tau * at) for at in times]) for turn in (cos, sin)]
    for turn in turns:
        left = list(turn)
        for wave in waves:
            size = dot(left, wave)
            left = [a - size * b for a, b in zip(left, wave, strict=True)]
        length = sqrt(dot(left, left))
        if length > _NOTHING:
            waves.append(tuple(a / length for a in left))
    years = _centred(times)
    rest = list(years)
    for wave in waves:
        size = dot(rest, wave)
        rest = [a - size * b for a, b in zip(rest, wave, strict=True)]
    whole = dot(years, years)
    if not whole:
        return YearlyCycle(tuple(waves), tuple(rest), 0.0, 0.0)
    push = sqrt(sum(dot(years, turn) ** 2 for turn in turns) / whole)
    spread = sum(dot(turn, turn) for turn in turns) / (2 * len(times))
    pull = LARGEST_CYCLE * push / sqrt(1 + LARGEST_CYCLE**2 * spread)
    return YearlyCycle(tuple(waves), tuple(rest), 1 - dot(rest, rest) / whole, pull)


def false_alarms(times: tuple[float, ...], undetected: int) -> tuple[float, ...]:
    """How often steady water with a yearly cycle would look like a trend on these very days.

    Made-up histories with a cycle of one, two and four standard deviations and a top at any time
    of year go through the plain Mann-Kendall test, with as many non-detects as there are, below
    one limit. The draws are the same each time, so the same days always give the same answer.

    Returns:
        The share of false alarms for each of the three cycles, 0 to 1.
    """
    after = tuple(round((at - times[0]) * DAYS_A_YEAR) for at in times)
    before = tuple(after[-1] - day for day in reversed(after))
    return _false_alarms(min(after, before), undetected)


@lru_cache(maxsize=256)
def _false_alarms(days: tuple[int, ...], undetected: int) -> tuple[float, ...]:
    times = [day / DAYS_A_YEAR for day in days]
    chance = Random(1)  # noqa: S311  repeatable draws for a simulation
    steps = [float(max(k, undetected)) for k in range(len(days))]
    lows = [-inf] * undetected + steps[undetected:]
    spans = [CensoredValue(*bounds) for bounds in zip(times, lows, steps, strict=True)]
    critical = critical_score(spans, 1 - LEVEL)
    return tuple(_alarms(times, cycle, undetected, critical, chance) for cycle in _CYCLES)


def _alarms(
    times: Sequence[float], cycle: float, undetected: int, critical: float, chance: Random
) -> float:
    alarms = 0
    for _ in range(_RUNS):
        top = chance.random()
        figures = [cycle * sin(tau * (at + top)) + chance.gauss(0, 1) for at in times]
        if undetected:
            lowest = sorted(figures)[undetected - 1]
            figures = [max(figure, lowest) for figure in figures]
        alarms += abs(_score(figures)) > critical
    return alarms / _RUNS


def _score(figures: Sequence[float]) -> int:
    """Kendall's S of figures in order of time; `kendall_score` without bounds and equal times."""
    earlier: list[float] = []
    total = 0
    for figure in figures:
        place = bisect_left(earlier, figure)
        total += place + bisect_right(earlier, figure, place) - len(earlier)
        earlier.insert(place, figure)
    return total


def times_of(spans: Sequence[CensoredValue]) -> tuple[float, ...]:
    """The times of spans."""
    return tuple(span.at for span in spans)


def _centred(figures: Sequence[float]) -> Vector:
    mean = sum(figures) / len(figures)
    return [figure - mean for figure in figures]
