"""How a household draws and sends its samples, and when its lab takes them; kept as settings.

Hours, weekdays and days of transit are common practice, no source; the lab's own sheet comes
first, and the household writes it down here.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from wellbook.planning.place.zones import zone_of
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import (
    MONDAY_TO_FRIDAY,
    MONDAY_TO_THURSDAY,
    ROAD_RESERVE,
    Drive,
    Hours,
    LabHours,
    Parcel,
)

ZONE = "America/New_York"
PARCEL, CAR = "parcel", "car"
_HOLIDAYS_AHEAD = 22  # years: no plan looks further ahead than 240 months and its grace

_WEEK = frozenset(range(7))

# Interval of ours: beyond them a figure is a slip of the pen.
_LONGEST_CLOSURE = 400  # days
_LONGEST_HOLD = 48  # hours
_LONGEST_TRANSIT = 10  # days
_LONGEST_DRIVE = 24 * 60  # minutes
_LONGEST_LEAD = 60  # days


@dataclass(frozen=True, slots=True)
class RoundHabits:
    """What decides on which day and hour a sample can be drawn.

    Attributes:
        lab: Name of the lab that the next samples go to.
        lab_zone: Time zone of the lab, by its name in the IANA list.
        lab_takes_on: Weekdays (Monday is 0) on which it takes bacteria.
        lab_open_on: Weekdays on which it takes in what is brought by car.
        lab_opens: When it opens its door.
        lab_cut_off: Latest arrival for a test on the same day.
        lab_starts: When that day's tests have been started.
        lab_closures: Days on which it is closed besides holidays, `2026-12-24` or
            `2026-12-24..2027-01-01`, with blanks between.
        hold_hours: Hours a bacteria sample may be old at the start of the test.
        home_zone: Time zone of the well.
        way: `parcel` or `car`.
        pickup: Hour by which a parcel must be ready.
        delivered: Hour by which it is at the lab, on the lab's clock.
        transit_days: Days of service on the way, 1 for overnight.
        drive_minutes: How long the drive to the lab takes.
        earliest: When a sample can be drawn at the earliest.
        latest: When it can be drawn at the latest.
        rises: When somebody can be at the tap before any water has run.
        lead_days: Days it takes to get bottles.
        country: Whose public holidays count: an ISO 3166 code, empty for none.
        subdivision: State or province in it, empty for the country's own holidays alone.
        sampler: Who draws the samples (private).
    """

    lab: str = ""
    lab_zone: str = ZONE
    lab_takes_on: frozenset[int] = MONDAY_TO_THURSDAY
    lab_open_on: frozenset[int] = MONDAY_TO_FRIDAY
    lab_opens: time = time(8)
    lab_cut_off: time = time(13)
    lab_starts: time = time(15)
    lab_closures: str = ""
    hold_hours: int = 30
    home_zone: str = ZONE
    way: str = PARCEL
    pickup: time = time(17)
    delivered: time = time(10, 30)
    transit_days: int = 1
    drive_minutes: int = 60
    earliest: time = time(6)
    latest: time = time(20)
    rises: time = time(6, 30)
    lead_days: int = 7
    country: str = "US"
    subdivision: str = ""
    sampler: str = ""


def read_habits(settings: Mapping[str, str]) -> RoundHabits:
    """The household's habits, the usual ones of its place where it has written down none."""
    zone = zone_of(settings.get("country", ""), settings.get("subdivision", "")) or ZONE
    usual = RoundHabits(lab_zone=zone, home_zone=zone)
    given = {
        field.name: _read(settings.get(_key(field.name), written(value)), value)
        for field in fields(RoundHabits)
        for value in [getattr(usual, field.name)]
    }
    return RoundHabits(**given)


def to_keep(kept: RoundHabits, habits: RoundHabits) -> dict[str, str]:
    """The settings to write down, by key: what differs from what is kept.

    Raises:
        Fault: Two of the habits don't go together.
    """
    return {
        _key(field.name): written(value)
        for field in fields(checked(habits))
        for value in [getattr(habits, field.name)]
        if value != getattr(kept, field.name)
    }


def changed(habits: RoundHabits, changes: Mapping[str, str]) -> RoundHabits:
    """The habits with some of them changed by name, from text as `written` makes it.

    Raises:
        Fault: There is no such habit, or its text can't be read; the sentence says which.
    """
    known = [field.name for field in fields(habits)]
    values: dict[str, Any] = {}
    for name, text in changes.items():
        if name not in known:
            raise Fault(
                _("There is no habit {name!r}. There are: {known}.").format(
                    name=name, known=", ".join(known)
                )
            )
        try:
            values[name] = _parsed(text, getattr(habits, name))
        except ValueError as error:
            example = written(getattr(RoundHabits(), name))
            raise Fault(
                _("Can’t read {name} {text!r}: write it like {example!r}.").format(
                    name=name, text=text, example=example
                )
            ) from error
    return replace(habits, **values)


def checked(habits: RoundHabits) -> RoundHabits:
    """The same habits, if they go together.

    Raises:
        Fault: They don't; the sentence says what to change.
    """
    for is_right, said in (
        (habits.lab_opens <= habits.lab_cut_off, _("The lab’s cut-off lies before it opens.")),
        (
            habits.lab_cut_off <= habits.lab_starts,
            _("The lab can’t have started a day’s tests before its cut-off."),
        ),
        (
            habits.earliest <= habits.latest,
            _("The latest hour of a draw lies before the earliest."),
        ),
        (
            habits.way in {PARCEL, CAR},
            _("The way to the lab is {parcel} or {car}.").format(parcel=PARCEL, car=CAR),
        ),
        (1 <= habits.hold_hours <= _LONGEST_HOLD, _("A bacteria sample keeps for 1 to 48 hours.")),
        (0 <= habits.transit_days <= _LONGEST_TRANSIT, _("A parcel takes 0 to 10 days.")),
        (0 <= habits.drive_minutes <= _LONGEST_DRIVE, _("A drive takes up to 24 hours.")),
        (0 <= habits.lead_days <= _LONGEST_LEAD, _("Bottles are there within 60 days.")),
    ):
        if not is_right:
            raise Fault(
                _("{said} Look at the settings of the lab and the way to it.").format(said=said)
            )
    if habits.way == PARCEL and not _is_delivered_after_pickup(habits):
        raise Fault(
            _(
                "A parcel can’t be at the lab before it is picked up: it takes a day, or is "
                "delivered later."
            )
        )
    list(_closures(habits.lab_closures))
    _country(habits)
    return habits


def calendar_of(habits: RoundHabits, today: date) -> Calendar:
    """The way to the lab in the years from `today` on."""
    closed = holidays_of(habits, today)
    home, lab = _zone(habits.home_zone), _zone(habits.lab_zone)
    lab_hours = LabHours(
        lab,
        cut_off=habits.lab_cut_off,
        starts=habits.lab_starts,
        opens=habits.lab_opens,
        takes_on=habits.lab_takes_on,
        open_on=habits.lab_open_on,
        closed=closed | frozenset(_closures(habits.lab_closures)),
    )
    route = (
        Drive(timedelta(minutes=habits.drive_minutes) + ROAD_RESERVE)
        if habits.way == CAR
        else Parcel(home, habits.pickup, habits.delivered, habits.transit_days, closed=closed)
    )
    return Calendar(
        Hours(home, habits.earliest, habits.latest),
        route,
        lab_hours,
        timedelta(hours=habits.hold_hours),
        habits.lead_days,
    )


def holidays_of(habits: RoundHabits, today: date) -> frozenset[date]:
    """Public holidays from last year on; none for a country that nobody knows.

    Their rules change from year to year: of a day far ahead they are what is known today.
    """
    years = range(today.year - 1, today.year + _HOLIDAYS_AHEAD)
    try:
        return _public_holidays(habits.country, habits.subdivision, years)
    except NotImplementedError:
        return frozenset()


@lru_cache(maxsize=8)
def _public_holidays(country: str, subdivision: str, years: range) -> frozenset[date]:
    import holidays

    if not country:
        return frozenset()
    return frozenset(holidays.country_holidays(country, subdiv=subdivision or None, years=years))


def states_of(country: str) -> dict[str, str] | None:
    """The parts of a country that have holidays of their own, by their codes, with their names.

    A name is empty where nobody knows it; None for a country nobody knows.
    """
    import holidays

    try:
        known = holidays.country_holidays(country)
    except NotImplementedError:
        return None
    names: dict[str, str] = {}
    for name, code in known.subdivisions_aliases.items():
        if len(name) > len("NSW"):  # the others are codes
            names.setdefault(code, name)
    codes = (code for code in known.subdivisions if re.fullmatch("[A-Z0-9]{1,3}", code))
    return {code: names.get(code, "") for code in codes}


def _is_delivered_after_pickup(habits: RoundHabits) -> bool:
    """Whether it is so on both clocks, in winter as in summer."""
    home, lab = _zone(habits.home_zone), _zone(habits.lab_zone)
    days = (date(2026, month, 15) for month in (1, 7))
    on_the_way = timedelta(days=habits.transit_days)
    return all(
        datetime.combine(day, habits.pickup, home).astimezone(UTC)
        < datetime.combine(day + on_the_way, habits.delivered, lab).astimezone(UTC)
        for day in days
    )


def _country(habits: RoundHabits) -> None:
    try:
        _public_holidays(habits.country, habits.subdivision, range(2024, 2025))
    except NotImplementedError as error:
        known = f"{habits.country} {habits.subdivision}".strip()
        raise Fault(
            _(
                "No holidays are known for {known}: use a code such as US and MA, or leave it "
                "empty."
            ).format(known=known)
        ) from error


def _key(name: str) -> str:
    return name if name in {"country", "subdivision"} else f"round_{name}"


def written(value: object) -> str:
    """A habit as text."""
    if isinstance(value, time):
        return value.isoformat("minutes")
    if isinstance(value, frozenset):
        return " ".join(map(str, sorted(value)))
    return str(value)


def _read(text: str, usual: object) -> Any:
    """A kept setting; one that another program spoiled must not close the whole book."""
    try:
        return _parsed(text, usual)
    except ValueError:
        return usual


def _parsed(text: str, usual: object) -> Any:
    if isinstance(usual, time):
        return time.fromisoformat(text)
    if isinstance(usual, frozenset):
        days = frozenset(map(int, text.split()))
        if not days <= _WEEK:
            raise ValueError(f"no weekday in {text!r}")
        return days
    return int(text) if isinstance(usual, int) else text


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise Fault(
            _("No time zone is called {name!r}: use a name such as America/Denver.").format(
                name=name
            )
        ) from error


def _closures(text: str) -> Iterator[date]:
    """The days that a list such as `2026-07-03 2026-12-24..2027-01-01` names."""
    for word in text.split():
        first, _unused, last = word.partition("..")
        try:
            start, end = date.fromisoformat(first), date.fromisoformat(last or first)
        except ValueError as error:
            raise Fault(
                _(
                    "Can’t read the closure {word!r}: write 2026-12-24 or 2026-12-24..2027-01-01."
                ).format(word=word)
            ) from error
        length = (end - start).days
        if not 0 <= length <= _LONGEST_CLOSURE:
            raise Fault(
                _("The closure {word} ends before it starts, or lasts longer than a year.").format(
                    word=word
                )
            )
        yield from (start + timedelta(days=step) for step in range(length + 1))
