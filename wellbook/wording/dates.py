"""Days, months and seasons in words, whatever the machine's locale."""

from datetime import date

from wellbook.support.translation import N_, _
from wellbook.water.values.local_time import known_of
from wellbook.water.values.partial_date import YEARS, read_partial_date
from wellbook.water.values.seasons import Scheme, Season, season_of, year_of

_MONTHS = (
    N_("January"),
    N_("February"),
    N_("March"),
    N_("April"),
    N_("May"),
    N_("June"),
    N_("July"),
    N_("August"),
    N_("September"),
    N_("October"),
    N_("November"),
    N_("December"),
)
_IN_SHORT = (
    N_("Jan {year}"),
    N_("Feb {year}"),
    N_("Mar {year}"),
    N_("Apr {year}"),
    N_("May {year}"),
    N_("Jun {year}"),
    N_("Jul {year}"),
    N_("Aug {year}"),
    N_("Sep {year}"),
    N_("Oct {year}"),
    N_("Nov {year}"),
    N_("Dec {year}"),
)
_WEEKDAYS = (
    N_("Monday"),
    N_("Tuesday"),
    N_("Wednesday"),
    N_("Thursday"),
    N_("Friday"),
    N_("Saturday"),
    N_("Sunday"),
)
_SEASONS = {
    "winter": N_("winter"),
    "spring": N_("spring"),
    "summer": N_("summer"),
    "autumn": N_("autumn"),
    "wet": N_("wet season"),
    "dry": N_("dry season"),
}


def month(number: int) -> str:
    """The name of a month (1 to 12)."""
    return _(_MONTHS[number - 1])


def short_month(number: int) -> str:
    """The three letters of a month (1 to 12)."""
    return month(number)[:3]


def weekday(when: date) -> str:
    """The name of a day's weekday."""
    return _(_WEEKDAYS[when.weekday()])


def month_of(when: date) -> str:
    """A day's month and year in short: `May 2024`."""
    return _(_IN_SHORT[when.month - 1]).format(year=when.year)


def day(when: date) -> str:
    """`3 May 2024`; of a day that is not known its month or year."""
    known = known_of(when)
    if known is not None:
        return month_of(when) if known.month else str(known)
    return _("{day} {month}").format(day=when.day, month=month_of(when))


def written(when: date) -> str:
    """A day with the month in full: `5 August 2021`; of one not known its month or year."""
    known = known_of(when)
    if known is not None:
        return long_month(when) if known.month else str(known)
    return _("{day} {month} {year}").format(day=when.day, month=month(when.month), year=when.year)


def long_month(when: date) -> str:
    """A day's month in full and its year: `August 2021`."""
    return _("{month} {year}").format(month=month(when.month), year=when.year)


def day_of_year(when: date) -> str:
    """`3 May`."""
    return _("{day} {month}").format(day=when.day, month=short_month(when.month))


def span(first: str, last: str) -> str:
    """Two days, months or years as a period; one where they are the same."""
    return first if first == last else _("{first} to {last}").format(first=first, last=last)


def loose_day(text: str) -> str:
    """An ISO day, month or year in words; anything else as it stands."""
    partial = read_partial_date(text)
    if partial is None or partial.month is None:
        return text
    return month_of(partial.first) if partial.is_vague else day(partial.first)


def season(wanted: Season) -> str:
    """The name of a season."""
    return _(_SEASONS[wanted.key])


def season_with_year(when: date, scheme: Scheme) -> str:
    """The season of a day with the year that the season ends in, e.g. `winter 2026`."""
    name, year = season(season_of(when, scheme)), year_of(when, scheme)
    return _("{season} {year}").format(season=name, year=year)


def outside_years(text: str) -> str:
    """What is said of a day, as it was typed, that no book can hold."""
    return _("{value} lies outside the years {first} to {last}").format(
        value=text, first=YEARS.start, last=YEARS.stop - 1
    )
