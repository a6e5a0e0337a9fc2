"""The slopes of all pairs of tests in rising order, picked out without making them all.

Below so many pairs all slopes are made and sorted. Beyond, a slope is taken off and the pairs that
still rise or fall are counted, until few are left about the wanted one; those are made and sorted
(randomised selection: Dillencourt, Mount and Netanyahu, International Journal of Computational
Geometry & Applications 2, 1992). Pairs that rounding might misplace are always among those made,
so what is picked is the very figure that sorting all slopes would give.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import isfinite, sqrt
from random import Random

from wellbook.water.statistics.series import CensoredValue

ALL_UP_TO = 5_000  # pairs; more are selected from
_DRAWN = 600  # slopes from which is told where to look
_A_TEST = 8  # so many slopes a test are made in the end
_WIDE = 2.5  # standard errors of a drawn share
_OFTEN = 8  # one slope in so many serves if drawn from all
_ALIKE = 1e-9
_LEAST = 5e-324  # nothing is rounded at a slope of zero, but it is asked for itself
_ROUNDING = 2.0**-48  # thirty times what rounding can do to a difference, its slope among it

Points = list[tuple[float, float]]  # time and figure, by time
# Time and figure of an end, and the starts that serve from a place in their list on.
_Found = tuple[float, float, Points, int]


@dataclass(frozen=True, slots=True)
class _Side:
    """Pairs of a start and a later end; each of their slopes counts so many times."""

    starts: Points
    ends: Points
    weight: int
    before: list[int]  # for each end and those before it, the starts that are earlier

    @classmethod
    def of(cls, starts: Points, ends: Points, weight: int) -> "_Side":
        times = [at for at, _figure in starts]
        return cls(starts, ends, weight, list(accumulate(bisect_left(times, e[0]) for e in ends)))

    @property
    def pairs(self) -> int:
        return self.before[-1] if self.before else 0

    def slopes(self) -> Iterator[float]:
        """All of them."""
        for k, (at, figure) in enumerate(self.ends):
            earlier = self.before[k] - (self.before[k - 1] if k else 0)
            for before, start in self.starts[:earlier]:
                yield (figure - start) / (at - before)

    def slope(self, rank: int) -> float:
        """One of them, by its place in the order of ends and starts."""
        k = bisect_right(self.before, rank)
        at, figure = self.ends[k]
        before, start = self.starts[rank - (self.before[k - 1] if k else 0)]
        return (figure - start) / (at - before)

    def falling(self, cut: "_Cut") -> tuple[int, int]:
        """Pairs that certainly fall when the cut is taken off, and those that may not rise."""
        slope, off = cut.slope, cut.off
        heights: list[float] = []
        certain = possible = place = 0
        starts = self.starts
        for at, figure in self.ends:
            while place < len(starts) and starts[place][0] < at:
                height = starts[place][1] - slope * starts[place][0]
                heights.insert(bisect_left(heights, height), height)
                place += 1
            height = figure - slope * at
            certain += place - bisect_right(heights, height + off)
            possible += place - bisect_left(heights, height - off)
        return certain, possible

    def between(self, low: "_Cut", high: "_Cut") -> "Iterator[_Found]":
        """Each end with the starts from which its slope may lie between two cuts."""
        slope, further = low.slope, high.slope
        starts = sorted((figure - slope * at, at, figure) for at, figure in self.starts)
        ends = sorted((figure - slope * at + low.off, at, figure) for at, figure in self.ends)
        reach = bisect_right if high.is_zero else bisect_left
        heights: list[float] = []
        held: Points = []
        place = 0
        for height, at, figure in ends:
            while place < len(starts) and (
                starts[place][0] < height or (starts[place][0] == height and not low.is_zero)
            ):
                _height, before, start = starts[place]
                above = start - further * before
                where = bisect_left(heights, above)
                heights.insert(where, above)
                held.insert(where, (before, start))
                place += 1
            yield at, figure, held, reach(heights, figure - further * at - high.off)

    def slopes_between(self, low: "_Cut", high: "_Cut") -> Iterator[float]:
        """Slopes that may lie between two cuts."""
        for at, figure, held, first in self.between(low, high):
            for before, start in held[first:]:
                if before < at:
                    yield (figure - start) / (at - before)


@dataclass(frozen=True, slots=True)
class _Cut:
    """A slope, how much rounding can do there, and how many pairs lie below it.

    Attributes:
        slope: The slope.
        off: By how much two figures may seem apart that are not.
        certain: Slopes that are certainly less.
        possible: Slopes that may be no more.
    """

    slope: float
    off: float
    certain: int = 0
    possible: int = 0

    @property
    def is_zero(self) -> bool:
        """Whether figures are compared as they are, so that nothing is rounded."""
        return not self.off

    @property
    def below(self) -> int:
        """Slopes that are not among those made when it is the lower cut."""
        return self.possible if self.is_zero else self.certain

    @property
    def reached(self) -> int:
        """Slopes up to the last of those made when it is the upper cut."""
        return self.certain if self.is_zero else self.possible


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Slopes that were made, and the places of those that are certainly in order."""

    first: int
    last: int
    below: int
    slopes: list[float]


class PairSlopes:
    """Interval of the slopes of pairs in rising order.

    A pair of numbers has one slope, which counts as often as is asked for. A pair with a bound has
    up to two: it certainly rises as long as less than the lower one is taken off a year, and
    certainly falls once more than the upper one is.

    Attributes:
        lows: How many lower bounds there are, numbers among them.
        highs: How many upper bounds.
    """

    def __init__(self, groups: Iterable[Sequence[CensoredValue]], numbers: int = 2) -> None:
        """Order the slopes of pairs of different times within each group.

        Args:
            groups: Spans; those of different groups are not compared.
            numbers: How often the slope of two numbers counts: 2 as a lower and an upper bound.
        """
        self._sides: list[_Side] = []
        self.lows = self.highs = 0
        self._largest = self._latest = 0.0
        for group in groups:
            self._add(group, numbers)
        self._length = sum(side.pairs * side.weight for side in self._sides)
        self._cuts: list[_Cut] = []
        self._stretches: list[_Stretch] = []
        self._chance = Random(1)  # noqa: S311  any draws serve, the answer is the same
        if self._length <= ALL_UP_TO:
            slopes = self._made(side.slopes() for side in self._sides)
            self._stretches.append(_Stretch(0, self._length, 0, slopes))

    def _add(self, group: Sequence[CensoredValue], numbers: int) -> None:
        ordered = sorted((span.at, span.low, span.high) for span in group)
        both = [(at, low) for at, low, high in ordered if low == high]
        low_only = [(at, low) for at, low, high in ordered if low != high and isfinite(low)]
        high_only = [(at, high) for at, low, high in ordered if low != high and isfinite(high)]
        numbered = _Side.of(both, both, numbers)
        lows = (_Side.of(high_only, sorted(both + low_only), 1), _Side.of(both, low_only, 1))
        highs = (_Side.of(low_only, sorted(both + high_only), 1), _Side.of(both, high_only, 1))
        self.lows += sum(side.pairs for side in (numbered, *lows))
        self.highs += sum(side.pairs for side in (numbered, *highs))
        self._sides += [side for side in (numbered, *lows, *highs) if side.pairs]
        for at, figure in (*both, *low_only, *high_only):
            self._largest = max(self._largest, abs(figure))
            self._latest = max(self._latest, abs(at))

    def __len__(self) -> int:
        """How many slopes there are, each as often as it counts."""
        return self._length

    def __iter__(self) -> Iterator[float]:
        """Every slope, in rising order."""
        return map(self.__getitem__, range(self._length))

    def __getitem__(self, place: int) -> float:
        """The slope at a place in rising order, from the end if it is negative."""
        place += self._length if place < 0 else 0
        if not 0 <= place < self._length:
            raise IndexError(place)
        stretch = next((s for s in self._stretches if s.first <= place < s.last), None)
        while stretch is None:
            found = self._zero_at(place)
            if found is not None:
                return found
            low, high = self._about(place)
            stretch = self._narrowed(place, low, high)
        return stretch.slopes[place - stretch.below]

    def sample(self) -> list[float]:
        """Some slopes by chance, in rising order; the same each time, if there are any."""
        sums = list(accumulate(side.pairs * side.weight for side in self._sides))
        chance = Random(1)  # noqa: S311  any draws serve
        return sorted(self._slope(chance.randrange(sums[-1]), sums) for _ in range(_DRAWN))

    def between(self, low: float, high: float) -> list[float]:
        """Every slope from one to another, both included, each once, in rising order."""
        ends = (_Cut(low, self._off(low) or _LEAST), _Cut(high, self._off(high) or _LEAST))
        found = {slope for side in self._sides for slope in side.slopes_between(*ends)}
        return sorted(slope for slope in found if low <= slope <= high)

    def _zero_at(self, place: int) -> float | None:
        """Zero is asked about first: many figures are printed alike."""
        if not self._cuts:
            steepest = self._steepest()
            self._cuts = [
                _Cut(-steepest, self._off(steepest)),
                self._cut(0.0),
                _Cut(steepest, self._off(steepest), self._length, self._length),
            ]
        zero = next(cut for cut in self._cuts if cut.is_zero)
        return 0.0 if zero.certain <= place < zero.possible else None

    def _steepest(self) -> float:
        """A slope beyond all of them."""
        steps = [after - before for side in self._sides for before, after in _neighbours(side)]
        return 4 * self._largest / min(steps) + 1

    def _off(self, slope: float) -> float:
        return _ROUNDING * (self._largest + abs(slope) * self._latest) if slope else 0.0

    def _cut(self, slope: float) -> _Cut:
        off = self._off(slope)
        certain = possible = 0
        for side in self._sides:
            fewer, more = side.falling(_Cut(slope, off))
            certain += fewer * side.weight
            possible += more * side.weight
        return _Cut(slope, off, certain, possible)

    def _about(self, place: int) -> tuple[_Cut, _Cut]:
        """The nearest cuts between which the slope at a place certainly lies."""
        low = max((c for c in self._cuts if c.possible <= place), key=lambda cut: cut.slope)
        high = min((c for c in self._cuts if c.certain > place), key=lambda cut: cut.slope)
        return low, high

    def _narrowed(self, place: int, low: _Cut, high: _Cut) -> _Stretch | None:
        """Make the slopes between two cuts, or cut once more if there are too many."""
        many = high.reached - low.below
        if many > ALL_UP_TO + _A_TEST * sum(len(side.ends) for side in self._sides):
            drawn = sorted(self._drawn(low, high, many))
            self._cuts += [
                self._cut(slope)
                for slope in _about(drawn, (place - low.below) / many)
                if low.slope < slope < high.slope
            ]
            if (low, high) != self._about(place):
                return None
        slopes = self._made(side.slopes_between(low, high) for side in self._sides)
        stretch = _Stretch(low.possible, high.certain, low.below, slopes)
        self._stretches.append(stretch)
        return stretch

    def _made(self, each: Iterable[Iterable[float]]) -> list[float]:
        slopes: list[float] = []
        for side, found in zip(self._sides, each, strict=True):
            made = list(found)
            for _time in range(side.weight):
                slopes += made
        slopes.sort()
        return slopes

    def _drawn(self, low: _Cut, high: _Cut, many: int) -> list[float]:
        """Some slopes between two cuts, by chance."""
        if many > self._length // _OFTEN:
            sums = list(accumulate(side.pairs * side.weight for side in self._sides))
            drawn = [self._slope(self._chance.randrange(sums[-1]), sums) for _ in range(_DRAWN)]
            return [slope for slope in drawn if low.slope < slope < high.slope]
        return list(self._picked(low, high, many))

    def _slope(self, rank: int, sums: Sequence[int]) -> float:
        k = bisect_right(sums, rank)
        side = self._sides[k]
        return side.slope((rank - (sums[k - 1] if k else 0)) // side.weight)

    def _picked(self, low: _Cut, high: _Cut, many: int) -> Iterator[float]:
        ranks = sorted(self._chance.randrange(many) for _ in range(_DRAWN))
        passed = place = 0
        for side in self._sides:
            for at, figure, held, first in side.between(low, high):
                before = passed
                passed += (len(held) - first) * side.weight
                while place < len(ranks) and ranks[place] < passed:
                    time, start = held[first + (ranks[place] - before) // side.weight]
                    place += 1
                    if time < at:
                        yield (figure - start) / (at - time)


def _about(drawn: Sequence[float], share: float) -> set[float]:
    """Two slopes among those drawn that most likely lie on either side of a share of all."""
    if not drawn:
        return set()
    middle = min(max(share, 0.0), 1.0) * (len(drawn) - 1)
    reach = _WIDE * sqrt(len(drawn)) / 2 + 1
    # Slopes that are the same but for rounding can't be cut apart.
    likely = drawn[round(middle)]
    off = abs(likely) * _ALIKE
    below = min(round(middle - reach), bisect_left(drawn, likely - off) - 1)
    above = max(round(middle + reach), bisect_right(drawn, likely + off))
    return {drawn[at] for at in (below, above) if 0 <= at < len(drawn)}


def _neighbours(side: _Side) -> Iterator[tuple[float, float]]:
    """Each end's time after that of the nearest start before it."""
    times = [at for at, _figure in side.starts]
    for at, _figure in side.ends:
        k = bisect_left(times, at)
        if k:
            yield times[k - 1], at
