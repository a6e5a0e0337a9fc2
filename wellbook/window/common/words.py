"""Facts put into the words of the screen: verdicts, limits, trends, readings, days.

Everything a person reads about a number is made here, so that it reads the same on every page.
"""

import re
from datetime import date
from decimal import Decimal

from PySide6.QtCore import QCoreApplication, QDate, QLocale, QTime

from wellbook.water.parsing.typed import shown_with_point
from wellbook.water.units import conversion
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import Moment
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.verdicts.judge import Judgement, Verdict

translate = QCoreApplication.translate


def verdict_words(judgement: Judgement) -> str:
    """A verdict in a word or two; what is outside says in which way."""
    return {
        Verdict.OUTSIDE: _outside_words(judgement),
        Verdict.NEAR: translate("Words", "near limit"),
        Verdict.WITHIN: translate("Words", "within"),
        Verdict.UNDETECTED: translate("Words", "not detected"),
        Verdict.UNDECIDABLE: translate("Words", "can’t tell"),
        Verdict.NO_LIMIT: translate("Words", "no limit"),
    }[judgement.verdict]


def _outside_words(judgement: Judgement) -> str:
    limit = judgement.limit
    if limit is not None and limit.rule is Rule.ABSENT:
        return translate("Words", "present")
    if limit is None or limit.low is None or judgement.value is None:
        return translate("Words", "over limit")
    if judgement.value < limit.low:
        return translate("Words", "too low")
    return translate("Words", "too high")


def kind_words(kind: LimitKind) -> str:
    """What a limit is for."""
    return {
        LimitKind.HEALTH: translate("Words", "health"),
        LimitKind.ACTION: translate("Words", "action level"),
        LimitKind.ADVISORY: translate("Words", "advisory"),
        LimitKind.AESTHETIC: translate("Words", "taste, look and stains"),
        LimitKind.OPERATIONAL: translate("Words", "plumbing and treatment"),
    }[kind]


def limit_words(limit: Limit | None) -> str:
    """The figure of a limit with its unit and basis as published, or its rule."""
    if limit is None:
        return ""
    if limit.rule is Rule.ABSENT:
        return translate("Words", "must be absent")
    unit = " ".join(filter(None, (_shown_unit(limit.unit), limit.basis)))
    return _bound_words(limit, number_words(limit.low), number_words(limit.high), unit)


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
    unit = " ".join(filter(None, (printed.label, limit.basis)))
    return _bound_words(limit, low, high, unit)


def _converted(end: Decimal | None, limit: Limit, unit: str, parameter: Parameter) -> str:
    if end is None:
        return ""
    number = conversion.convert(end, limit.unit, limit.basis, unit, limit.basis, parameter).number
    return number_words(number.normalize())


def _bound_words(limit: Limit, low: str, high: str, unit: str) -> str:
    if limit.rule is Rule.ABSENT:
        return translate("Words", "must be absent")
    if limit.rule is Rule.RANGE and low and high:
        return translate("Words", "{low} to {high} {unit}").format(low=low, high=high, unit=unit)
    if low and not high:
        return translate("Words", "at least {low} {unit}").format(low=low, unit=unit).strip()
    return f"{high} {unit}".strip()


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
        return reading.text or translate("Words", "not analysed")
    unit = _shown_unit(reading.unit)
    basis = reading.basis if reading.basis.casefold() not in reading.unit.casefold() else ""
    if reading.kind in {Kind.PRESENT, Kind.ABSENT} and not re.search(r"\d", reading.text):
        unit = basis = ""
    return " ".join(filter(None, (shown_with_point(reading), unit, basis)))


def understood_words(reading: Reading) -> str:
    """What a printed result is taken to say."""
    figure = number_words(reading.number)
    unit = " ".join(filter(None, (_shown_unit(reading.unit), reading.basis)))
    if reading.kind is Kind.NUMBER:
        return f"{figure} {unit}".strip()
    if reading.kind is Kind.BELOW:
        said = translate("Words", "not detected, below {figure} {unit}")
        return said.format(figure=figure or "?", unit=unit).strip()
    if reading.kind is Kind.ABOVE:
        said = translate("Words", "more than {figure} {unit}")
        return (
            said.format(figure=figure, unit=unit).strip()
            if figure
            else translate("Words", "too many to count")
        )
    return {
        Kind.PRESENT: translate("Words", "present"),
        Kind.ABSENT: translate("Words", "absent"),
        Kind.NONE: translate("Words", "not analysed"),
    }.get(reading.kind, translate("Words", "not understood, kept as printed"))


def _shown_unit(unit: str) -> str:
    return "" if unit == "1" else unit


def flag_words(flag: Flag) -> str:
    """What the lab said beside a reading."""
    return {
        Flag.ESTIMATED: translate("Words", "estimated"),
        Flag.HELD_TOO_LONG: translate("Words", "held too long"),
        Flag.IN_BLANK: translate("Words", "found in the blank"),
        Flag.DUPLICATE: translate("Words", "duplicate"),
        Flag.DILUTED: translate("Words", "diluted"),
        Flag.REJECTED: translate("Words", "rejected"),
        Flag.OVER_RANGE: translate("Words", "over the method’s range"),
        Flag.OVERGROWN: translate("Words", "overgrown"),
    }[flag]


def trend_words(says: str) -> str:
    """What the trend test says."""
    return {
        "rising": translate("Words", "rising"),
        "falling": translate("Words", "falling"),
        "no clear trend": translate("Words", "no clear trend"),
        "too few tests": translate("Words", "too few tests"),
        "only non-detects": translate("Words", "never detected"),
        "not for this parameter": "",
    }.get(says, says)


def language() -> QLocale:
    """The language of the window's words, figures and months; the country is the person's own."""
    return QLocale(QLocale.Language.English)


def clock_format() -> str:
    """How a time of day is written: by twelve or by twenty-four hours, as the person is used to."""
    usual = re.sub("'[^']*'", "", QLocale().timeFormat(QLocale.FormatType.ShortFormat))
    return "h:mm AP" if "a" in usual.casefold() else "HH:mm"


def day_words(day: date) -> str:
    """A day with the month as a word and the year in full, in the person's usual order."""
    return language().toString(QDate(day.year, day.month, day.day), _day_format())


def moment_words(moment: Moment) -> str:
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
        return language().toString(QDate(partial.year, partial.month, 1), "MMMM yyyy")
    return day_words(partial.first)


def edit_format(known_to: int) -> str:
    """How a date field is set that is known to the day (0), the month (1) or the year (2)."""
    return (_day_format(), "MMMM yyyy", "yyyy")[known_to]


def event_kinds() -> dict[str, str]:
    """Kinds of events by key."""
    return {
        "flood": translate("Words", "flood"),
        "repair": translate("Words", "repair"),
        "pump": translate("Words", "pump"),
        "disinfection": translate("Words", "disinfection"),
        "treatment": translate("Words", "treatment installed or changed"),
        "drilling nearby": translate("Words", "drilling nearby"),
        "quarry nearby": translate("Words", "quarry or blasting nearby"),
        "road salt": translate("Words", "road salt nearby"),
        "farming nearby": translate("Words", "farming nearby"),
        "septic nearby": translate("Words", "septic system nearby"),
        "landfill nearby": translate("Words", "landfill, fuel station or factory nearby"),
        "spill": translate("Words", "spill or spreading nearby"),
        "fire nearby": translate("Words", "fire nearby"),
        "earthquake": translate("Words", "earthquake"),
        "dry": translate("Words", "well ran dry or low"),
        "taste": translate("Words", "change of taste, smell or colour"),
        "radon in air": translate("Words", "radon in the air of the house"),
        "sale": translate("Words", "sale or loan planned"),
        "owner": translate("Words", "change of owner"),
        "birth": translate("Words", "birth"),
        "pregnancy": translate("Words", "pregnancy"),
        "illness": translate("Words", "illness"),
        "other": translate("Words", "something else"),
    }


def purposes() -> dict[str, str]:
    """What a test was drawn for, by key."""
    return {
        "": "",
        "routine": translate("Words", "routine"),
        "after an event": translate("Words", "after an event"),
        "treatment check": translate("Words", "check of the treatment"),
        "complaint": translate("Words", "complaint"),
        "new well": translate("Words", "new well"),
        "sale": translate("Words", "sale of the house"),
        "loan": translate("Words", "loan"),
    }


def standings() -> dict[str, str]:
    """Who drew a test, by key; a lender accepts some and not others."""
    return {
        "": "",
        "owner": translate("Words", "the owner"),
        "lab": translate("Words", "the lab"),
        "disinterested professional": translate("Words", "a professional without interest"),
        "agency": translate("Words", "an agency"),
    }


def _day_format() -> str:
    order = QLocale().dateFormat(QLocale.FormatType.ShortFormat).casefold()
    if order.startswith("m"):
        return "MMM d, yyyy"
    if order.startswith("y"):
        return "yyyy-MM-dd"
    return "d MMM yyyy"
