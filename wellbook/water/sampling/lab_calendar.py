"""On which days a sample can be drawn so that its test starts in time.

The caller says which days are closed; nothing here knows a country's holidays.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache

from wellbook.water.sampling.shipping import Drive, Found, Hours, LabHours, Parcel, find, journey
from wellbook.water.verdicts.hold_time import LIMIT


@dataclass(frozen=True, slots=True)
class Calendar:
    """A household's way to its lab.

    Attributes:
        hours: When somebody can draw a sample.
        route: By parcel or by car.
        lab_hours: When the lab takes samples and starts the test.
        limit: Greatest age of a sample at the start of its test.
        lead_days: Days it takes to get bottles from the lab (common practice, no source).
    """

    hours: Hours
    route: Parcel | Drive
    lab_hours: LabHours
    limit: timedelta = LIMIT
    lead_days: int = 7

    def within(self, limit: timedelta) -> "Calendar":
        """The same way for a sample that may grow so old, and no older."""
        return replace(self, limit=limit)

    def suits(self, day: date) -> bool:
        """Whether a sample drawn that day can be tested in time."""
        return _suits(self, day)

    def first_day(self, start: date, end: date) -> date | None:
        """The first day that suits, from one day to another (both included)."""
        days = (start + timedelta(days=step) for step in range((end - start).days + 1))
        return next(filter(self.suits, days), None)

    def find(self, first: date, last: date) -> Found:
        """The first day and hour that suit, or how far the nearest comes."""
        return find(first, last, self.hours, self.route, self.lab_hours, self.limit)


@lru_cache(maxsize=4096)
def _suits(calendar: Calendar, day: date) -> bool:
    # Late draws first: by parcel they are the youngest at the lab.
    draws = reversed(list(calendar.hours.draws(day)))
    ways = (journey(draw, calendar.hours, calendar.route, calendar.lab_hours) for draw in draws)
    return any(way and way.is_straight and way.age <= calendar.limit for way in ways)
