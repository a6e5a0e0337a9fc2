"""On which days a sample can be drawn so that the lab starts its bacteria test in time.

The caller says which days are closed; nothing here knows a country's holidays.
"""

from dataclasses import dataclass
from datetime import date, timedelta

_LAST_SHIP_DAY = 2  # Wednesday: shipped overnight it is tested on Thursday and read on Friday


@dataclass(frozen=True, slots=True)
class Calendar:
    """Days on which lab or courier rest, beside weekends.

    Attributes:
        closed: Holidays and closed days of the lab, the courier, or both.
        lead_days: Days it takes to get bottles from the lab (common practice, no source).
    """

    closed: frozenset[date] = frozenset()
    lead_days: int = 7

    def suits(self, day: date) -> bool:
        """Whether a sample drawn and shipped that day reaches an open lab.

        Monday to Wednesday (common practice, no source), and neither that day, the day it
        arrives, nor the day the test is read is closed.
        """
        three_days = {day + timedelta(days=step) for step in range(3)}
        return day.weekday() <= _LAST_SHIP_DAY and not three_days & self.closed

    def first_day(self, start: date, end: date) -> date | None:
        """The first day that suits, from one day to another (both included)."""
        days = (start + timedelta(days=step) for step in range((end - start).days + 1))
        return next(filter(self.suits, days), None)
