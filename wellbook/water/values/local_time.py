"""When a sample was drawn: a day, perhaps a local time, perhaps its offset from UTC."""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Self

from wellbook.water.values.partial_date import PartialDate

_DAY = len("2024-05-03")


class VagueDay(date):
    """A day that stands for a month or a year of which no more is known, and is written as that.

    What counts days takes it for its first day, so that nothing seems younger than it may be; days
    that are counted from it are ordinary ones.

    Attributes:
        known: The month or the year; None of a day that was counted from it.
    """

    known: PartialDate | None = None

    @classmethod
    def of(cls, known: PartialDate, at: date | None = None) -> Self:
        """The day that stands for a month or a year: its first, or another one `at` its place."""
        place = at or known.first
        day = cls(place.year, place.month, place.day)
        day.known = known
        return day

    def __str__(self) -> str:
        return str(self.known or self.isoformat())


def known_of(day: date) -> PartialDate | None:
    """The month or the year that is known of a day; None where the day itself is."""
    return day.known if isinstance(day, VagueDay) else None


@dataclass(frozen=True, slots=True)
class LocalTime:
    """A local day and, if it was written down, the local time. A day alone stays a day alone.

    Attributes:
        day: Local calendar day.
        at: Local wall time to the minute, or None when only the day is known.
        offset: Minutes east of UTC, or None when not known.
        known: The month or year in which it was, where the day is not known; `day` is its first.
    """

    day: date
    at: time | None = None
    offset: int | None = None
    known: PartialDate | None = None

    @classmethod
    def within(cls, known: PartialDate) -> Self:
        """Some day of a month or a year."""
        return cls(VagueDay.of(known), known=known) if known.is_vague else cls(known.first)

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read ISO 8601: `2024-05-03`, `2024-05-03T07:15-04:00`, `2024-05` or `2024`.

        Raises:
            ValueError: The text is not such a date.
        """
        text = text.strip()
        if len(text) < _DAY:
            return cls.within(PartialDate.parse(text))
        if len(text) == _DAY:
            return cls(date.fromisoformat(text))
        when = datetime.fromisoformat(text)
        gap = when.utcoffset()
        minutes = None if gap is None else int(gap.total_seconds() // 60)
        return cls(when.date(), when.time().replace(second=0, microsecond=0, tzinfo=None), minutes)

    def iso(self) -> str:
        """ISO 8601 text that `parse` reads back to the same moment."""
        if self.known is not None:
            return str(self.known)
        if self.at is None:
            return self.day.isoformat()
        text = f"{self.day.isoformat()}T{self.at:%H:%M}"
        if self.offset is None:
            return text
        sign, minutes = ("-" if self.offset < 0 else "+"), abs(self.offset)
        return f"{text}{sign}{minutes // 60:02d}:{minutes % 60:02d}"

    def order(self) -> tuple[date, time]:
        """Key to sort by; a day without a time comes first on its day."""
        return (self.day, self.at or time.min)
