"""Facts put into the words of the screen: verdicts, limits, trends, readings, days.

Everything a person reads about a number is made here, so that it reads the same on every page.
"""

import re
from datetime import date
from decimal import Decimal

from PySide6.QtCore import QDate, QLocale, QTime

from wellbook.support.translation import _, current
from wellbook.water.parsing.typed import shown_with_point
from wellbook.water.units import conversion
from wellbook.water.values.limits import Limit
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.sums import Sum
from wellbook.wording import dates, facts


def limit_words(limit: Limit | None) -> str:
    """The figure of a limit with its unit and basis as published, or its rule."""
    return "" if limit is None else facts.bound(limit)


def sum_words(added: Sum) -> str:
    """What a sum can be: one figure, or from its least to its most."""
    return facts.added(added)


def limit_beside(limit: Limit | None, reading: Reading, parameter: Parameter | None) -> str:
    """What a limit allows in the unit of a reading, so that the two can be compared by eye."""
    printed = conversion.understand(reading.unit)
    if limit is None or parameter is None or printed is None or printed.label == limit.unit:
        return limit_words(limit)
    try:
        low, high = (
            _converted(end, limit, printed.label, parameter) for end in (limit.low, limit.high)
        )
    except conversion.NoConversion:
        return limit_words(limit)
    unit = facts.with_unit("", printed.label, limit.basis)
    return facts.allowed(limit.rule, low, high, unit)


def _converted(end: Decimal | None, limit: Limit, unit: str, parameter: Parameter) -> str:
    if end is None:
        return ""
    number = conversion.convert(end, limit.unit, limit.basis, unit, limit.basis, parameter).number
    return number_words(number.normalize())


def as_exact_as(figure: Decimal, printed: Decimal | None) -> Decimal:
    """A converted figure with as many digits as were printed, and no fewer than two."""
    if printed is None or not figure:
        return figure
    digits = max(len(printed.as_tuple().digits), 2)
    return figure.quantize(Decimal(1).scaleb(figure.adjusted() + 1 - digits))


def number_words(number: Decimal | None) -> str:
    """A figure with the digits it was given with, and the point for its decimal sign.

    The point in every language and country: what a lab printed stands beside it.
    """
    return "" if number is None else format(number, "f")


def reading_words(reading: Reading) -> str:
    """A reading as the lab reported it: its text with a decimal point, its unit and its basis."""
    if reading.kind is Kind.NONE:
        return reading.text or _("not analysed")
    basis = reading.basis if reading.basis.casefold() not in reading.unit.casefold() else ""
    unit = (reading.unit, basis)
    if reading.kind in {Kind.PRESENT, Kind.ABSENT} and not re.search(r"\d", reading.text):
        unit = ("", "")
    return facts.marked(facts.with_unit(shown_with_point(reading), *unit), reading)


def understood_words(reading: Reading) -> str:
    """What a printed result is taken to say."""
    figure = number_words(reading.number)
    unit = facts.with_unit("", reading.unit, reading.basis)
    if reading.kind is Kind.NUMBER:
        return f"{figure} {unit}".strip()
    if reading.kind is Kind.BELOW:
        said = _("not detected, below {figure} {unit}")
        return said.format(figure=figure or "?", unit=unit).strip()
    if reading.kind is Kind.ABOVE:
        said = _("more than {figure} {unit}")
        return said.format(figure=figure, unit=unit).strip() if figure else _("too many to count")
    return {
        Kind.PRESENT: _("present"),
        Kind.ABSENT: _("absent"),
        Kind.NONE: _("not analysed"),
    }.get(reading.kind, _("not understood, kept as printed"))


def language() -> QLocale:
    """The language of the window's words, figures and months; the country is the person's own."""
    return QLocale(current())


def clock_format() -> str:
    """How a time of day is written: by twelve or by twenty-four hours, as the person is used to."""
    usual = re.sub("'[^']*'", "", QLocale().timeFormat(QLocale.FormatType.ShortFormat))
    return "h:mm AP" if "a" in usual.casefold() else "HH:mm"


def day_words(day: date) -> str:
    """A day as every sentence writes it; of one that is not known itself the month or the year."""
    return dates.day(day)


def moment_words(moment: LocalTime) -> str:
    """A day and, if it is known, the local time."""
    if moment.at is None:
        return day_words(moment.day)
    clock = language().toString(QTime(moment.at.hour, moment.at.minute), clock_format())
    return f"{day_words(moment.day)}, {clock}"


def partial_words(text: str) -> str:
    """A day, a month or a year in ISO writing, in words; anything else as it stands."""
    partial = read_partial_date(text)
    if partial is None or partial.month is None:
        return text
    if partial.is_vague:
        return language().toString(QDate(partial.year, partial.month, 1), _month_format())
    return day_words(partial.first)


def edit_format(known_to: int) -> str:
    """How a date field is set that is known to the day (0), the month (1) or the year (2)."""
    return (_day_format(), _month_format(), "yyyy")[known_to]


def _month_format() -> str:
    return "MMMM 'de' yyyy" if current() == "es" else "MMMM yyyy"


def _day_format() -> str:
    """As `day_words`: in a field a day looks as in every sentence."""
    return "d MMM yyyy"


def reason_hint() -> str:
    """What stands in a field for a reason without which nothing is kept."""
    return _("Needed: a few words are enough")
