"""Dates that may be known to the month or the year only, and the stretches between two of them."""

import calendar
import re
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import NamedTuple, Self

_TEXT = re.compile(r"([0-9]{4})(?:-([0-9]{2})(?:-([0-9]{2}))?)?")
_DECEMBER = 12
YEARS = range(1000, 3000)  # as a book holds them


@dataclass(frozen=True, slots=True)
class PartialDate:
    """A day, a month or a year, as somebody wrote it down (ISO 8601, reduced precision).

    `earlier < later` is true only where every day that the one may mean lies before every day
    that the other may mean, so neither of `2024` and `2024-05` is before the other.

    Attributes:
        year: 1 to 9999.
        month: 1 to 12, or None where only the year is known.
        day: Day of the month, or None where only the month or the year is known.

    Raises:
        ValueError: There is no such day, or it has a day and no month.
    """

    year: int
    month: int | None = None
    day: int | None = None

    def __post_init__(self) -> None:
        if self.day is not None and self.month is None:
            raise ValueError("A day needs its month.")
        date(*(1 if part is None else part for part in (self.year, self.month, self.day)))

    def __lt__(self, other: Self) -> bool:
        return self.last < other.first

    def __str__(self) -> str:
        parts = (self.month, self.day)
        return "-".join((f"{self.year:04}", *(f"{part:02}" for part in parts if part)))

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read `2024`, `2024-05` or `2024-05-03`; `str` writes the same text again.

        Raises:
            ValueError: The text is something else, or there is no such day.
        """
        found = _TEXT.fullmatch(text)
        if found is None:
            raise ValueError(f"{text!r} is no ISO day, month or year.")
        year, month, day = found.groups()
        return cls(int(year), int(month) if month else None, int(day) if day else None)

    @property
    def first(self) -> date:
        """The first day that it may mean."""
        return date(self.year, self.month or 1, self.day or 1)

    @property
    def last(self) -> date:
        """The last day that it may mean."""
        month = self.month or _DECEMBER
        return date(self.year, month, self.day or calendar.monthrange(self.year, month)[1])

    @property
    def middle(self) -> date:
        """The day itself, the 15th of a month, or the first of July of a year."""
        if self.month is None:
            return date(self.year, 7, 1)
        return date(self.year, self.month, self.day or 15)

    @property
    def is_vague(self) -> bool:
        """Whether its day is not known."""
        return self.day is None

    def may_be(self, day: date) -> bool:
        """Whether the day is one that it may mean."""
        return self.first <= day <= self.last


class Period(NamedTuple):
    """From one partial date to another, both included; None leaves that side open."""

    start: PartialDate | None
    end: PartialDate | None

    @classmethod
    def parse(cls, start: str, end: str) -> "Period":
        """Read both ends as `PartialDate.parse` does; an empty text leaves its side open.

        Raises:
            ValueError: An end can't be read.
        """
        return _period(start, end)

    @property
    def turns(self) -> tuple[int, ...]:
        """Days, as ordinals, from which on `covers` may answer otherwise than before."""
        start, end = self.start, self.end
        of_start = () if start is None else (start.first.toordinal(), start.last.toordinal())
        of_end = () if end is None else (end.first.toordinal() + 1, end.last.toordinal() + 1)
        return (*of_start, *of_end)

    def covers(self, day: date) -> bool | None:
        """Whether the day lies in it; None where that hangs on what a vague end means."""
        if (self.start and day < self.start.first) or (self.end and day > self.end.last):
            return False
        has_begun = self.start is None or day >= self.start.last
        goes_on = self.end is None or day <= self.end.first
        return True if has_begun and goes_on else None


def read_partial_date(text: str) -> PartialDate | None:
    """The partial date that a stored text means; None if it is empty or can't be read."""
    try:
        return PartialDate.parse(text)
    except ValueError:
        return None


@lru_cache(maxsize=4096)  # limits are asked for each result of a book
def _period(start: str, end: str) -> Period:
    return Period(
        PartialDate.parse(start) if start else None, PartialDate.parse(end) if end else None
    )
