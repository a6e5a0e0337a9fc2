"""Which day and hour to sample so that the bacteria test starts before the sample is too old.

The age of a sample is the time that really passes between the draw and the start of the test,
wherever clocks change in between; the delivery does not end it. Thirty hours is the drinking
water rule of the United States (EPA's answer on 40 CFR 141.21(f)(3)); many labs ask for less.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from typing import Protocol
from zoneinfo import ZoneInfo

from wellbook.water.verdicts.hold_time import LIMIT

_STEP = timedelta(minutes=15)
_WEEK = 5  # days of service
_AHEAD = 30  # days after which a parcel or a lab_hours counts as never

# Beside what a drive takes, so that a queue on the road doesn't cost the sample.
ROAD_RESERVE = timedelta(minutes=30)
MONDAY_TO_THURSDAY = frozenset(range(4))
MONDAY_TO_FRIDAY = frozenset(range(5))


@dataclass(frozen=True, slots=True)
class LabHours:
    """When a lab takes bacteria samples, and when it starts the test.

    Attributes:
        zone: The lab's time zone.
        cut_off: Latest hour of arrival for a test on the same day.
        starts: Hour by which that day's tests have been started; not before the cut-off.
        opens: Hour from which on it takes in what is brought by car.
        takes_on: Weekdays (Monday is 0) on which it takes bacteria; not the same as open days,
            for the test is read a day later.
        open_on: Weekdays on which somebody takes in what is brought by car.
        closed: Days on which it rests.
    """

    zone: ZoneInfo
    cut_off: time
    starts: time
    opens: time = time(8)
    takes_on: frozenset[int] = MONDAY_TO_THURSDAY
    open_on: frozenset[int] = MONDAY_TO_FRIDAY
    closed: frozenset[date] = frozenset()

    def takes(self, day: date) -> bool:
        """Whether a test can be started that day and read the day after."""
        open_both = not {day, day + timedelta(days=1)} & self.closed
        return day.weekday() in self.takes_on and open_both

    def is_open(self, day: date) -> bool:
        """Whether somebody takes in what is brought by car."""
        return day.weekday() in self.open_on | self.takes_on and day not in self.closed

    def start_of(self, arrival: datetime) -> datetime | None:
        """When the test of a sample that arrives then has been started at the latest."""
        local = arrival.astimezone(self.zone)
        late = local.time() > self.cut_off
        for step in range(late, _AHEAD):
            day = local.date() + timedelta(days=step)
            if self.takes(day):
                return datetime.combine(day, self.starts, self.zone)
        return None


class Route(Protocol):
    """A way to the lab."""

    def arrival(self, ready: datetime, lab_hours: LabHours) -> datetime | None:
        """When a sample packed at `ready` is at the lab; None for never."""
        ...

    def hand_in(self, ready: datetime, lab_hours: LabHours) -> datetime | None:
        """When a sample packed at `ready` leaves the household's hands; None for never."""
        ...

    def travels(self, hand_in: datetime, arrival: datetime, lab_hours: LabHours) -> bool:
        """Whether it goes straight to an open lab."""
        ...


@dataclass(frozen=True, slots=True)
class Parcel:
    """A courier.

    Attributes:
        zone: Time zone of the place of pickup.
        pickup: Hour by which a parcel must be ready.
        delivered: Hour by which it is at the lab, on the lab's clock.
        days: Days of service on the way: 1 for overnight.
        serves_on: Weekdays of service (Monday is 0).
        closed: Days without service.
    """

    zone: ZoneInfo
    pickup: time
    delivered: time
    days: int = 1
    serves_on: frozenset[int] = MONDAY_TO_FRIDAY
    closed: frozenset[date] = frozenset()

    def arrival(self, ready: datetime, lab_hours: LabHours) -> datetime | None:
        """When a parcel packed at `ready` is at the lab; None where that lies before its pickup."""
        day = next(islice(self._service(ready), self.days, None), None)
        hand_in = self.hand_in(ready, lab_hours)
        if day is None or hand_in is None:
            return None
        arrival = datetime.combine(day, self.delivered, lab_hours.zone)
        return arrival if arrival.astimezone(UTC) > hand_in.astimezone(UTC) else None

    def travels(self, hand_in: datetime, arrival: datetime, lab_hours: LabHours) -> bool:
        """Whether a parcel goes straight to an open lab and lies nowhere over a day of rest.

        However long a sample keeps: its ice does not, and nobody takes it in at a closed lab
        (common practice, no source). A service of a week or more can't do without such days.
        """
        on_the_way = (arrival.date() - hand_in.astimezone(self.zone).date()).days
        lies = self.days < _WEEK and on_the_way > self.days
        return not lies and lab_hours.is_open(arrival.date())

    def hand_in(self, ready: datetime, _lab_hours: LabHours) -> datetime | None:
        """When a parcel packed at `ready` is picked up."""
        day = next(self._service(ready), None)
        return datetime.combine(day, self.pickup, self.zone) if day else None

    def _service(self, ready: datetime) -> Iterator[date]:
        """Days of service, from the one on which it is picked up."""
        local = ready.astimezone(self.zone)
        first = local.date() + timedelta(days=local.time() > self.pickup)
        days = (first + timedelta(days=step) for step in range(_AHEAD))
        return (day for day in days if day.weekday() in self.serves_on and day not in self.closed)


@dataclass(frozen=True, slots=True)
class Drive:
    """By car, straight from the tap."""

    takes: timedelta

    def arrival(self, ready: datetime, lab_hours: LabHours) -> datetime | None:
        """When the car is at the lab, or the lab opens if that is later that day.

        None after the cut-off: when a lab shuts its door is not known here.
        """
        there = (ready.astimezone(UTC) + self.takes).astimezone(lab_hours.zone)
        if not lab_hours.is_open(there.date()) or there.time() > lab_hours.cut_off:
            return None
        return max(there, datetime.combine(there.date(), lab_hours.opens, lab_hours.zone))

    def hand_in(self, ready: datetime, lab_hours: LabHours) -> datetime | None:
        """When the bottles are handed in."""
        return self.arrival(ready, lab_hours)

    def travels(self, _hand_in: datetime, _arrival: datetime, _lab_hours: LabHours) -> bool:
        """It does: it arrives only while the lab is open."""
        return True


@dataclass(frozen=True, slots=True)
class Hours:
    """Between which hours the household can draw a sample, and how long packing takes."""

    zone: ZoneInfo
    earliest: time = time(6)
    latest: time = time(20)
    packing: timedelta = timedelta(minutes=30)

    def draws(self, day: date) -> Iterator[datetime]:
        """Moments at which a sample may be drawn that day, a quarter of an hour apart."""
        at = datetime.combine(day, self.earliest)
        while at.date() == day and at.time() <= self.latest:
            yield at.replace(tzinfo=self.zone)
            at += _STEP


@dataclass(frozen=True, slots=True)
class Journey:
    """One sample's way from the tap to the start of its test.

    Attributes:
        is_straight: Whether it goes to an open lab without lying anywhere over a day of rest.
    """

    draw: datetime
    hand_in: datetime
    arrival: datetime
    start: datetime
    is_straight: bool = field(default=True, compare=False)

    @property
    def age(self) -> timedelta:
        """Time that really passes between draw and start."""
        return self.start.astimezone(UTC) - self.draw.astimezone(UTC)


@dataclass(frozen=True, slots=True)
class Found:
    """What the search came to.

    Attributes:
        best: The first day that works, at its hour with the most slack; None if none works.
        nearest: The youngest sample that can be had at all.
        slack: What is left of the allowed age with `best`; with `nearest`, what is missing (< 0).
    """

    best: Journey | None
    nearest: Journey | None
    slack: timedelta | None


def journey(draw: datetime, hours: Hours, route: Route, lab_hours: LabHours) -> Journey | None:
    """What becomes of a sample drawn then; None if it can't leave the house on its day."""
    ready = (draw.astimezone(UTC) + hours.packing).astimezone(hours.zone)
    hand_in, arrival = route.hand_in(ready, lab_hours), route.arrival(ready, lab_hours)
    start = lab_hours.start_of(arrival) if arrival else None
    if not (hand_in and arrival and start):
        return None
    same_day = hand_in.astimezone(hours.zone).date() == draw.date()
    straight = route.travels(hand_in, arrival, lab_hours)
    return Journey(draw, hand_in, arrival, start, straight) if same_day else None


def by_car(
    first: date, last: date, hours: Hours, lab_hours: LabHours, limit: timedelta = LIMIT
) -> tuple[datetime, timedelta] | None:
    """The first draw that could be handed in by car in time, and how long the drive may take.

    `ROAD_RESERVE` is kept beside it.
    """
    for step in range((last - first).days + 1):
        day = first + timedelta(days=step)
        if not lab_hours.takes(day):
            continue
        shut = datetime.combine(day, lab_hours.cut_off, lab_hours.zone)
        start = datetime.combine(day, lab_hours.starts, lab_hours.zone)
        fit = [at for at in hours.draws(day) if start - at.astimezone(UTC) <= limit]
        spare = max((shut - at.astimezone(UTC) - hours.packing for at in fit), default=None)
        if spare is not None and spare > ROAD_RESERVE:
            return fit[0], spare - ROAD_RESERVE
    return None


def find(  # noqa: D417  the rest is told by the types
    first: date,
    last: date,
    hours: Hours,
    route: Route,
    lab_hours: LabHours,
    limit: timedelta = LIMIT,
) -> Found:
    """The first day on which a sample can be drawn and tested in time.

    Args:
        limit: Greatest age at the start of the test.
    """
    nearest: Journey | None = None
    for step in range((last - first).days + 1):
        day = first + timedelta(days=step)
        ways = (journey(draw, hours, route, lab_hours) for draw in hours.draws(day))
        youngest = min(filter(None, ways), key=lambda way: way.age, default=None)
        if youngest and youngest.age <= limit and youngest.is_straight:
            return Found(youngest, youngest, limit - youngest.age)
        is_late = youngest is not None and youngest.age > limit
        if youngest and is_late and (nearest is None or youngest.age < nearest.age):
            nearest = youngest
    return Found(None, nearest, limit - nearest.age if nearest else None)
