"""When something that lasts for so many gallons, litres or hours is used up."""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

# Each measure in the base of its kind; a gallon is the US one of 3.785411784 L, by definition.
_IN_BASE = {
    "gal": ("volume", Decimal("3.785411784")),
    "L": ("volume", Decimal(1)),
    "m³": ("volume", Decimal(1000)),
    "h": ("hours", Decimal(1)),
}
MEASURES = tuple(_IN_BASE)
_SPELLINGS = {
    "gal": "gal",
    "gallon": "gal",
    "gallons": "gal",
    "l": "L",
    "liter": "L",
    "liters": "L",
    "litre": "L",
    "litres": "L",
    "m3": "m³",
    "m³": "m³",
    "h": "h",
    "hr": "h",
    "hrs": "h",
    "hour": "h",
    "hours": "h",
}
_TYPED = re.compile(r"([0-9]{1,12}(?:\.[0-9]{1,4})?) *([A-Za-z3³]+)")
_FARTHEST = 36_500  # days; what lasts longer never comes due by use


@dataclass(frozen=True, slots=True)
class Amount:
    """So many gallons, litres, cubic metres or hours.

    Attributes:
        number: The figure.
        measure: One of `MEASURES`.
    """

    number: Decimal
    measure: str

    @classmethod
    def parse(cls, text: str) -> "Amount":
        """Read a plain figure and its measure, e.g. `1000 gal` or `9000 hours`.

        Raises:
            ValueError: It is none.
        """
        found = _TYPED.fullmatch(text.strip())
        measure = _SPELLINGS.get(found[2].casefold()) if found else None
        if found is None or measure is None:
            raise ValueError(text)
        return cls(Decimal(found[1]), measure)

    @classmethod
    def read(cls, text: str) -> "Amount | None":
        """The same of what a book keeps; None of what is none."""
        try:
            return cls.parse(text)
        except ValueError:
            return None

    @property
    def kind(self) -> str:
        """`volume` or `hours`."""
        return _IN_BASE[self.measure][0]

    @property
    def in_base(self) -> Decimal:
        """The figure in litres or hours."""
        return self.number * _IN_BASE[self.measure][1]

    def __str__(self) -> str:
        """As it is typed and kept."""
        return f"{self.number:f} {self.measure}"


@dataclass(frozen=True, slots=True)
class Used:
    """How much of what something lasts for is used.

    Attributes:
        of: What it lasts for.
        day: The day by which it is used up.
        measured: How much the meter told since it was new, in the measure of `of`; None where the
            day rests on the use a day alone.
        told: The day on which the meter was read last; None likewise.
    """

    of: Amount
    day: date
    measured: Decimal | None = None
    told: date | None = None


def used_up(
    of: Amount, new: date, read: Iterable[tuple[date, Amount]], a_day: Amount | None
) -> Used | None:
    """When an amount is used up.

    The meter goes before the use a day that the household wrote down. A figure lower than the one
    before it is a new meter's, which began at nought.

    Args:
        of: What it lasts for.
        new: The day on which it was new.
        read: Readings of the meter; those of another kind of measure don't count.
        a_day: How much is used in a day, by the household's reckoning.

    Returns:
        None where nothing tells how fast it is used.
    """
    counts = _running(of, read)
    at_new = _at(counts, new)
    if at_new is not None and counts[-1][0] > new:
        return _metered(of, new, at_new, counts)
    rate = _rate(counts)
    if rate is None and a_day and a_day.kind == of.kind:
        rate = a_day.in_base
    return _in_days(of, new, of.in_base, rate)


def _running(of: Amount, read: Iterable[tuple[date, Amount]]) -> list[tuple[date, Decimal]]:
    """What went through up to each day, in the base; the higher of two of one day."""
    counts: list[tuple[date, Decimal]] = []
    total, before = Decimal(0), None
    same = [(day, one.in_base) for day, one in read if one.kind == of.kind]
    for day, figure in sorted(same):
        if before is not None:
            total += figure - before if figure >= before else figure
        before = figure
        if counts and counts[-1][0] == day:
            counts.pop()
        counts.append((day, total))
    return counts


def _at(counts: Sequence[tuple[date, Decimal]], day: date) -> Decimal | None:
    """What had gone through by a day between two readings, on a straight line."""
    for (start, low), (end, high) in pairwise(counts):
        if start <= day <= end:
            return low + (high - low) * (day - start).days / (end - start).days
    return counts[-1][1] if counts and counts[-1][0] == day else None


def _metered(
    of: Amount, new: date, at_new: Decimal, counts: Sequence[tuple[date, Decimal]]
) -> Used | None:
    last, total = counts[-1]
    measured = (total - at_new) * of.number / of.in_base
    left = of.in_base - (total - at_new)
    if left > 0:
        found = _in_days(of, last, left, (total - at_new) / (last - new).days)
        return Used(of, found.day, measured, last) if found else None
    since = [(new, at_new), *((day, count) for day, count in counts if day > new)]
    day = next(
        start + timedelta(_days(at_new + of.in_base - low, (high - low) / (end - start).days))
        for (start, low), (end, high) in pairwise(since)
        if high - at_new >= of.in_base
    )
    return Used(of, day, measured, last)


def _rate(counts: Sequence[tuple[date, Decimal]]) -> Decimal | None:
    """How much went through a day between the last two readings."""
    if len(counts) < 2:  # noqa: PLR2004  two readings make a rate
        return None
    (start, low), (end, high) = counts[-2:]
    return (high - low) / (end - start).days


def _in_days(of: Amount, start: date, left: Decimal, rate: Decimal | None) -> Used | None:
    if not rate or left / rate > _FARTHEST:
        return None
    return Used(of, start + timedelta(_days(left, rate)))


def _days(left: Decimal, rate: Decimal) -> int:
    """Whole days until so much is used: sooner, never later."""
    return math.floor(left / rate)
