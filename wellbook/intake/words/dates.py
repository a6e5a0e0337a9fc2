"""Dates and times as labs print them. The order of day and month is never guessed silently."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from enum import StrEnum
from functools import lru_cache

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.partial_date import PartialDate
from wellbook.water.values.signs import folded


class Order(StrEnum):
    """Which comes first in 03/05/2025."""

    MONTH_FIRST = "month first"
    DAY_FIRST = "day first"
    UNKNOWN = ""


_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january ene enero janv janvier januar janner",
            "feb february febrero fev fevr fevrier februar",
            "mar march marzo mars marz mrz",
            "apr april abr abril avr avril",
            "may mayo mai",
            "jun june junio juin juni",
            "jul july julio juil juillet juli",
            "aug august ago agosto aout",
            "sep sept september septiembre set septembre",
            "oct october octubre octobre okt oktober",
            "nov november noviembre novembre",
            "dec december dic diciembre decembre dez dezember",
        ),
        start=1,
    )
    for name in names.split()
}
# Offsets of the zone letters that WQX allows for the United States, minutes east of UTC.
_ZONES = {
    "UTC": 0,
    "GMT": 0,
    "Z": 0,
    "AST": -240,
    "ADT": -180,
    "EST": -300,
    "EDT": -240,
    "CST": -360,
    "CDT": -300,
    "MST": -420,
    "MDT": -360,
    "PST": -480,
    "PDT": -420,
    "AKST": -540,
    "AKDT": -480,
    "HST": -600,
}
_REST = r"(?:(?:[T,@]|\s)\s*(?P<rest>\S.*))?$"
_WEEKDAY = re.compile(
    r"^(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?[.,]?\s+", re.IGNORECASE
)
# The same in other languages, and an article: `le lundi 13 mai 2024`, `Mo, 13.05.2024`;
# `Mar 13, 2024` is of March.
_BEFORE_A_DAY = re.compile(
    r"^(?:(?:le|el|am|on|the|vom|du|del)\s+)?(?:(?:lunes|martes|mi[eé]rcoles|jueves|viernes"
    r"|s[aá]bado"
    r"|domingo|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche|montag|dienstag|mittwoch"
    r"|donnerstag"
    r"|freitag|samstag|sonnabend|sonntag|lun|mar|mi[eé]|mer|jue|jeu|vie|ven|s[aá]b|sam|dom|dim"
    r"|mo|di|mi"
    r"|do|fr|sa|so)[.,]{0,2}\s+)?(?=\d{1,2}(?:[./-]\s?\d|(?:[.º]|er|th|st|nd"
    r"|rd)?[\s-](?:de )?[^\W\d_]))",
    re.IGNORECASE,
)
_ISO = re.compile(r"^(?P<y>\d{4})([-/.])(?P<m>\d{1,2})\2(?P<d>\d{1,2})" + _REST)
_COMPACT = re.compile(r"^(?P<y>(?:19|20)\d\d)(?P<m>\d\d)(?P<d>\d\d)" + _REST)
_NUMERIC = re.compile(
    # A number such as 10-24-0619 is of a sample, and no day of the year 619.
    r"^(?P<a>\d{1,2})\s?([-/.])\s?(?P<b>\d{1,2})\s?\2\s?(?P<y>[1-9]\d{3}|\d\d)" + _REST
)
_DAY_NAME = re.compile(
    r"^(?P<d>\d{1,2})(?:st|nd|rd|th|er|º)?[-/ .,]*(?:de )?(?P<m>[^\W\d_]{3,10})[-/ .,]*(?:del? )?"
    r"(?P<y>\d{4}|\d\d)" + _REST
)
_NAME_DAY = re.compile(
    r"^(?P<m>[^\W\d_]{3,10})[-/ .,]*(?P<d>\d{1,2})(?:st|nd|rd|th)?[-/ .,]+(?:del? )?"
    r"(?P<y>\d{4}|\d\d)" + _REST
)
_YEAR_NAME = re.compile(
    r"^(?P<y>(?:19|20)\d\d)[-/ .,]+(?P<m>[^\W\d_]{3,10})[-/ .,]+(?P<d>\d{1,2})(?:st|nd|rd|th)?"
    + _REST
)
_CLOCK = re.compile(
    r"^\(?(?P<h>\d{1,2})(?:(?:[:.]|\s?h\s?)(?P<m>\d\d)(?:[:.](?P<s>\d\d)(?:\.\d+)?)?)?\s*"
    r"(?:(?:h(?:rs?|ours|oras)?|uhr)\b)?\s*"
    r"(?P<half>[ap]\.?\s?m?\.?)?\s*(?P<zone>Z|UTC|GMT|[A-Z]{3,4}|[+-]\d\d:?\d\d)?\)?$",
    re.IGNORECASE,
)
_MILITARY = re.compile(r"^(?P<h>\d{1,2})(?P<m>\d\d)\s*(?:h(?:rs?|ours)?)?$", re.IGNORECASE)
_ZONE = re.compile(r"^(?:[A-Za-z]{1,4}|[+-]\d\d:?\d\d)$")
_BEFORE_A_TIME = re.compile(
    r"^(?:(?:at|time:?|hour:?|um|uhrzeit:?|gegen|a las?|hora:?|heure:?|[àa]|vers|sobre las"
    r"|hacia las)\s+|[@/–-]\s*)",
    re.IGNORECASE,
)
_MIDNIGHT = re.compile(r"^(?:0?0|12):00(?::00(?:\.0+)?)?(?:\s*a\.?m\.?)?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Printed:
    """The parts of a printed date.

    Attributes:
        first: Month, or the first of two numbers whose order is open.
        second: Day, or the second of them.
        year: In full.
        rest: What stands after the date, such as a time.
        is_open: Whether the order of the two numbers is not said by the form of the date.
    """

    first: int
    second: int
    year: int
    rest: str
    is_open: bool

    def day(self, order: Order) -> date | None:
        """The day, or None if there is no such day."""
        month, day = self.first, self.second
        if self.is_open and order is Order.DAY_FIRST:
            month, day = day, month
        try:
            return date(self.year, month, day)
        except ValueError:
            return None

    @property
    def is_ambiguous(self) -> bool:
        """Whether both orders give a day, and not the same one."""
        days = {self.day(Order.MONTH_FIRST), self.day(Order.DAY_FIRST)}
        return None not in days and len(days) > 1


@lru_cache(maxsize=16_384)
def taken_apart(text: str, today: date) -> Printed | None:
    """The parts of a printed date; None if it is not one.

    A year of two digits is the latest that is not in the future.
    """
    text = _BEFORE_A_DAY.sub("", _WEEKDAY.sub("", text.strip()))
    for pattern, is_open in ((_ISO, False), (_NUMERIC, True), (_COMPACT, False)):
        found = pattern.match(text)
        if found:
            a, b = ("a", "b") if is_open else ("m", "d")
            year = _year(found["y"], today)
            return Printed(int(found[a]), int(found[b]), year, found["rest"] or "", is_open)
    for pattern in (_DAY_NAME, _NAME_DAY, _YEAR_NAME):
        found = pattern.match(text)
        month = _MONTHS.get(folded(found["m"]), 0) if found else 0
        if found and month:
            year = _year(found["y"], today)
            return Printed(month, int(found["d"]), year, found["rest"] or "", is_open=False)
    return None


_WITHIN = re.compile(
    r"(?<![\w./-])(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.](?:\d{4}|\d\d)"
    r"|\d{1,2}(?:st|nd|rd|th|er|º)?[-/ .]{1,2}(?:de )?[^\W\d_]{3,10}[-/ .,]{1,2}(?:del? )?"
    r"(?:\d{4}|\d\d)"
    r"|[^\W\d_]{3,10}\.? \d{1,2}(?:st|nd|rd|th)?,? \d{4}"
    r"|(?:19|20)\d\d[-/ ][^\W\d_]{3,10}\.?[-/ ]\d{1,2})(?![\w/-]|\.\d)"
)


# Words that make a day, a month or a year a rough one; of a season the year is kept.
_ROUGHLY = re.compile(
    r"^(?:(?:~|about|around|approx\.?|circa|ca?\.|etwa|vers|hacia|early|mid|late|end of|spring"
    r"|summer|autumn|fall|winter|primavera|verano|otoño|invierno|frühjahr|frühling|sommer|herbst"
    r"|printemps|été|automne|hiver)[\s,]*)+(?:in |of |de |del )?(?=\S)",
    re.IGNORECASE,
)


def days_within(text: str, today: date) -> list[tuple[int, int]]:
    """Where the days stand that are printed within a text, as starts and ends."""
    return [
        found.span() for found in _WITHIN.finditer(text) if taken_apart(found[0], today) is not None
    ]


_SEASON = re.compile(
    r"(?<=\d)[\s,]*\(?\b(?:spring|summer|autumn|fall|winter|primavera|verano|otoño|invierno"
    r"|frühjahr"
    r"|frühling|sommer|herbst|printemps|été|automne|hiver)\)?$",
    re.IGNORECASE,
)
_PARTS = tuple(
    re.compile(pattern)
    for pattern in (
        r"^(?P<y>(?:19|20)\d\d)$",
        r"^(?P<y>(?:19|20)\d\d)[-/.](?P<n>0?[1-9]|1[0-2])$",
        r"^(?P<n>0?[1-9]|1[0-2])[-/.](?P<y>(?:19|20)\d\d)$",
        r"^(?P<m>[^\W\d_]{3,10})[-/ .,]*(?:del? )?(?P<y>(?:19|20)\d\d)$",
        r"^(?P<y>(?:19|20)\d\d)[-/ .,]*(?P<m>[^\W\d_]{3,10})$",
        r"^(?P<m>[^\W\d_]{3,10})[-/ .,]*['’](?P<y>\d\d)$",
    )
)


@lru_cache(maxsize=4096)
def tells_day(text: str, today: date, *, is_whole: bool = False) -> bool:
    """Whether a text is a day, or the month or year of one.

    Args:
        text: The text.
        today: The latest day that a year of two digits can mean.
        is_whole: Whether nothing may stand behind the day, such as a place.
    """
    printed = taken_apart(text, today)
    if printed is None:
        return month_or_year(text) is not None
    return not is_whole or is_whole_day(printed.rest)


def month_or_year(text: str) -> PartialDate | None:
    """A month or a year that stands for a day that nobody wrote down; None if it is none."""
    text = _SEASON.sub("", _ROUGHLY.sub("", text.strip()))
    for pattern in _PARTS:
        found = pattern.match(text)
        if not found:
            continue
        parts = found.groupdict()
        month = int(parts["n"]) if parts.get("n") else None
        if parts.get("m"):
            month = _MONTHS.get(folded(parts["m"]), 0)
            if not month:
                continue
        return PartialDate(_year(parts["y"], date.today()), month)
    return None


def month_named(text: str) -> int:
    """The number of a month's name or short form, in lower case without accents; 0 if none."""
    return _MONTHS.get(text, 0)


def _year(text: str, today: date) -> int:
    if len(text) == 4:  # noqa: PLR2004
        return int(text)
    century = today.year - today.year % 100
    year = century + int(text)
    return year if year <= today.year else year - 100


def order_of(texts: Iterable[str], today: date) -> tuple[Order, bool]:
    """The order of day and month that some dates of one file prove.

    A date proves an order if the other one gives no day. If the day first would put some date into
    the future and the month first would not, the month comes first; the other way round it may as
    well be a slip, and proves nothing.

    Returns:
        The order (UNKNOWN if nothing proves one), and whether dates prove both orders.
    """
    opened = [p for p in (taken_apart(text, today) for text in texts) if p and p.is_open]
    proven = {
        order
        for order, other in (
            (Order.MONTH_FIRST, Order.DAY_FIRST),
            (Order.DAY_FIRST, Order.MONTH_FIRST),
        )
        if any(p.day(other) is None and p.day(order) for p in opened)
    }
    if len(proven) > 1:
        return Order.UNKNOWN, True
    if proven:
        return proven.pop(), False
    month_first, day_first = (
        _all_past(opened, order, today) for order in (Order.MONTH_FIRST, Order.DAY_FIRST)
    )
    return (Order.MONTH_FIRST if month_first and not day_first else Order.UNKNOWN), False


_MONTH_FIRST = frozenset({"US", "PH", "FM", "MH", "PW", "PR", "GU"})
_BOTH = frozenset({"CA", ""})
_ASKED = "asked"


def usual_order(country: str, *, is_abroad: bool, dates: str = "") -> Order:
    """What comes first in the dates of a country, or in a file in another language than English.

    By the Unicode locale data, from memory; in Canada both are written.

    Args:
        country: ISO 3166-1 code; empty if not known.
        is_abroad: Whether the words of the file are Spanish, French or German.
        dates: What the household says of its labs: `month-first`, `day-first`, or `asked` to be
            asked each time; empty to go by the country.
    """
    if dates:
        return Order.UNKNOWN if dates == _ASKED else Order(dates.replace("-", " "))
    if country in _MONTH_FIRST:
        return Order.MONTH_FIRST if not is_abroad else Order.UNKNOWN
    if is_abroad or country not in _BOTH:
        return Order.DAY_FIRST
    return Order.UNKNOWN


def _all_past(opened: list[Printed], order: Order, today: date) -> bool:
    return all((day := p.day(order)) is not None and day <= today for p in opened)


def clock(text: str) -> tuple[time, int | None] | None:
    """A printed time of day and its offset from UTC in minutes, if printed; None if it is none."""
    text = _BEFORE_A_TIME.sub("", text.strip())
    found = _CLOCK.match(text)
    if not found or (found["m"] is None and found["half"] is None):
        found = _MILITARY.match(text)
        return _time(int(found["h"]), int(found["m"]), None) if found else None
    hour, half = int(found["h"]), (found["half"] or "")[:1].casefold()
    if half and hour <= 12:  # noqa: PLR2004
        hour = hour % 12 + (12 if half == "p" else 0)
    offset = _offset(found["zone"]) if found["zone"] else None
    return _time(hour, int(found["m"] or 0), offset)


def _time(hour: int, minute: int, offset: int | None) -> tuple[time, int | None] | None:
    try:
        return time(hour, minute), offset
    except ValueError:
        return None


def _offset(zone: str) -> int | None:
    if zone[0] in "+-":
        hours, minutes = int(zone[1:3]), int(zone[-2:])
        return (hours * 60 + minutes) * (-1 if zone[0] == "-" else 1)
    return _ZONES.get(zone.upper())


def moment(day: date, at: str, zone: str = "") -> LocalTime | None:
    """A day with the time printed beside it; None if that time can't be read."""
    read = clock(at)
    if read is None:
        return None
    named = _offset(zone.strip()) if _ZONE.match(zone.strip()) else None
    return LocalTime(day, read[0], read[1] if read[1] is not None else named)


def is_whole_day(rest: str) -> bool:
    """Whether what stands after a date is the midnight that a spreadsheet adds to a day."""
    return not rest.strip() or bool(_MIDNIGHT.match(rest.strip()))


_WHOLE_YEAR = re.compile(r"(?<!\d)\d{4}(?!\d)")


def in_iso(text: str) -> tuple[str, ...]:
    """A day as a person types it, in ISO with its time, or a month that was named.

    Two where day and month can be meant in either order; none if it is no day, its year has two
    digits, or what stands after it is no local time.
    """
    if not _WHOLE_YEAR.search(text):
        return ()
    named = month_or_year(text) if text.strip()[:1].isalpha() else None
    if named is not None and named.month and not _ROUGHLY.match(text.strip()):
        return (str(named),)
    printed = taken_apart(text, date.max)
    if printed is None:
        return ()
    read = clock(printed.rest) if printed.rest else None
    if printed.rest and (read is None or read[1] is not None):
        return ()
    at = f" {read[0]:%H:%M}" if read else ""
    days = (printed.day(order) for order in (Order.MONTH_FIRST, Order.DAY_FIRST))
    return tuple(f"{day.isoformat()}{at}" for day in dict.fromkeys(days) if day is not None)
