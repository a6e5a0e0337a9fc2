"""When a sample was drawn: a day, perhaps a local time, perhaps its offset from UTC."""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Self


@dataclass(frozen=True, slots=True)
class LocalTime:
    """A local day and, if it was written down, the local time. A day alone stays a day alone.

    Attributes:
        day: Local calendar day.
        at: Local wall time to the minute, or None when only the day is known.
        offset: Minutes east of UTC, or None when not known.
    """

    day: date
    at: time | None = None
    offset: int | None = None

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read ISO 8601: `2024-05-03`, `2024-05-03T07:15`, `2024-05-03T07:15-04:00`.

        Raises:
            ValueError: The text is not such a date.
        """
        text = text.strip()
        if len(text) == len("2024-05-03"):
            return cls(date.fromisoformat(text))
        when = datetime.fromisoformat(text)
        gap = when.utcoffset()
        minutes = None if gap is None else int(gap.total_seconds() // 60)
        return cls(when.date(), when.time().replace(second=0, microsecond=0, tzinfo=None), minutes)

    def iso(self) -> str:
        """ISO 8601 text that `parse` reads back to the same moment."""
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
