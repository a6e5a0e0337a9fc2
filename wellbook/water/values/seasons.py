"""Seasons of the year: meteorological, or a household's own wet and dry months.

Charts shade them, rounds walk through them. Meteorological seasons are whole calendar months;
a season that runs over New Year is named for the year it ends in, so that December 2025 belongs
to winter 2026 (as water years are named).
"""

import calendar
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

# In English; `wording.dates` says them.
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
WEEKDAYS = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
YEAR = 12


def add_months(day: date, n: int) -> date:
    """The same day of the month `n` months later, or that month's last day if it is shorter."""
    year, month = divmod(day.year * YEAR + day.month - 1 + n, YEAR)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


@dataclass(frozen=True, slots=True)
class Season:
    """One season: `key` is stable (`winter`, `wet`), `name` is what people read, in English."""

    key: str
    name: str


@dataclass(frozen=True, slots=True)
class Scheme:
    """How the year is divided.

    Attributes:
        key: `north`, `south`, or `wet` and the numbers of the wet months, e.g. `wet 11 12 1`.
        of_month: The season of each month, January first; always twelve.
    """

    key: str
    of_month: tuple[Season, ...]

    @property
    def wet_months(self) -> frozenset[int]:
        """The wet ones of the months (1 to 12); none where the year has four seasons."""
        return frozenset(month for month, one in enumerate(self.of_month, 1) if one == _WET)

    @property
    def seasons(self) -> tuple[Season, ...]:
        """Every season once, in the order in which the year first meets them."""
        return tuple(dict.fromkeys(self.of_month))


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of one season; `end` is its last day, included. Cut to the days asked for."""

    start: date
    end: date
    season: Season


@dataclass(frozen=True, slots=True)
class Coverage:
    """Which parts of the year were ever sampled.

    Attributes:
        months: Number of sampling days per month, January first.
        seasons: Each season of the scheme with its number of sampling days.
    """

    months: tuple[int, ...]
    seasons: tuple[tuple[Season, int], ...]

    @property
    def n(self) -> int:
        """Number of sampling days."""
        return sum(self.months)

    @property
    def missing(self) -> tuple[Season, ...]:
        """Seasons never sampled."""
        return tuple(season for season, count in self.seasons if not count)

    @property
    def gap(self) -> tuple[int, ...]:
        """Months (1 to 12) of the longest run never sampled, over New Year if need be.

        The first such run of the year where two are equally long; all twelve without any test.
        """
        runs = [_run_from(self.months, month) for month in range(YEAR)]
        return max(runs, key=len)

    def of_season(self, season: Season) -> int:
        """Number of sampling days in a season."""
        return dict(self.seasons)[season]

    def months_away(self, month: int) -> int:
        """Months from a month (1 to 12) to the nearest one sampled; 12 without any test."""
        return min(
            (_apart(month, other) for other, count in enumerate(self.months, 1) if count),
            default=YEAR,
        )


_WINTER = Season("winter", "winter")
_SPRING = Season("spring", "spring")
_SUMMER = Season("summer", "summer")
_AUTUMN = Season("autumn", "autumn")
_WET = Season("wet", "wet season")
_DRY = Season("dry", "dry season")

NORTHERN = Scheme(
    "north",
    (_WINTER, _WINTER, *[_SPRING] * 3, *[_SUMMER] * 3, *[_AUTUMN] * 3, _WINTER),
)
SOUTHERN = Scheme(
    "south",
    (_SUMMER, _SUMMER, *[_AUTUMN] * 3, *[_WINTER] * 3, *[_SPRING] * 3, _SUMMER),
)


def wet_and_dry(wet_months: Iterable[int]) -> Scheme:
    """A household's own wet months (1 to 12); the rest of the year is dry.

    Raises:
        ValueError: No month is wet, none is dry, or a number is not a month.
    """
    wet = sorted(set(wet_months))
    if not wet or len(wet) == YEAR or wet[0] < 1 or wet[-1] > YEAR:
        raise ValueError("Wet months are numbers from 1 to 12, at least one and at most eleven.")
    of_month = tuple(_WET if month in wet else _DRY for month in range(1, YEAR + 1))
    return Scheme(f"wet {' '.join(map(str, wet))}", of_month)


def read_scheme(text: str) -> Scheme:
    """The scheme with that key; the northern one for an empty text.

    Raises:
        ValueError: The text is no such key.
    """
    word, *numbers = text.split() or ["north"]
    if word == "wet" and all(number.isdecimal() for number in numbers):
        return wet_and_dry(map(int, numbers))
    if word in {"north", "south"} and not numbers:
        return NORTHERN if word == "north" else SOUTHERN
    raise ValueError(
        f"Can't read the seasons {text!r}: write north, south, or wet and the wet months, "
        "e.g. wet 11 12 1 2."
    )


def season_of(day: date, scheme: Scheme) -> Season:
    """The season a day falls into."""
    return scheme.of_month[day.month - 1]


def year_of(day: date, scheme: Scheme) -> int:
    """The year that the season of a day ends in, for which it is named."""
    return _last_of_season(day, scheme).year


def bands(first: date, last: date, scheme: Scheme) -> tuple[Band, ...]:
    """The seasons from one day to another (both included), without a gap, in order of time."""
    found = []
    start = first
    while start <= last:
        end = _last_of_season(start, scheme)
        found.append(Band(start, min(end, last), season_of(start, scheme)))
        start = end + timedelta(days=1)
    return tuple(found)


def coverage(days: Iterable[date], scheme: Scheme) -> Coverage:
    """How often each month and season was sampled; a day counts once, however many its tests."""
    months = [0] * YEAR
    for day in set(days):
        months[day.month - 1] += 1
    counts = dict.fromkeys(scheme.seasons, 0)
    for season, count in zip(scheme.of_month, months, strict=True):
        counts[season] += count
    return Coverage(tuple(months), tuple(counts.items()))


def _last_of_season(day: date, scheme: Scheme) -> date:
    season, year, month = season_of(day, scheme), day.year, day.month
    while scheme.of_month[month % YEAR] == season:
        year, month = (year, month + 1) if month < YEAR else (year + 1, 1)
    return _first_of_next(year, month) - timedelta(days=1)


def _first_of_next(year: int, month: int) -> date:
    return date(year, month + 1, 1) if month < YEAR else date(year + 1, 1, 1)


def _run_from(months: tuple[int, ...], start: int) -> tuple[int, ...]:
    run = []
    for step in range(YEAR):
        month = (start + step) % YEAR
        if months[month]:
            break
        run.append(month + 1)
    return tuple(run)


def _apart(one: int, other: int) -> int:
    ahead = (one - other) % YEAR
    return min(ahead, YEAR - ahead)
