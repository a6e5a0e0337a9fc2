"""Words on a chart. Month names are ours: the same in every locale."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from wellbook.charts.parts import Mark, Shape
from wellbook.water import units
from wellbook.water.judgement import Judgement, Verdict
from wellbook.water.limits import Limit, LimitKind, Rule
from wellbook.water.parameters import Parameter
from wellbook.water.readings import Kind, Reading
from wellbook.water.results import Result
from wellbook.water.seasons import month_of

_MONTH, _DAY = len("2024-05"), len("2024-05-03")
_DIGITS = 3
ROWS = {Shape.PRESENT: "present", Shape.ABSENT: "absent", Shape.UNCLEAR: "can’t tell"}
KINDS = {
    LimitKind.HEALTH: "limit",
    LimitKind.ACTION: "action level",
    LimitKind.ADVISORY: "advisory level",
    LimitKind.AESTHETIC: "aesthetic level",
    LimitKind.OPERATIONAL: "operational level",
}


def day(when: date) -> str:
    """`3 May 2024`."""
    return f"{when.day} {month_of(when)}"


def loose_day(text: str) -> str:
    """An ISO day, month or year in words."""
    if len(text) == _DAY:
        return day(date.fromisoformat(text))
    if len(text) == _MONTH:
        return month_of(date.fromisoformat(f"{text}-01"))
    return text


def force(limit: Limit) -> str:
    """When a limit holds or held."""
    if limit.start and limit.end:
        return f"{loose_day(limit.start)} to {loose_day(limit.end)}"
    if limit.end:
        return f"until {loose_day(limit.end)}"
    return f"since {loose_day(limit.start)}" if limit.start else "start not known"


def count(n: int, one: str) -> str:
    """`1 test`, `3 tests`."""
    return f"{n:,} {one if n == 1 else one + 's'}"


def figure(number: Decimal | float) -> str:
    """A figure as reported, or three digits of a computed one; never with an exponent."""
    if isinstance(number, Decimal) and len(number.normalize().as_tuple().digits) <= _DIGITS:
        return f"{number.normalize():f}"
    rounded = Decimal(f"{number:.{_DIGITS}g}")
    return f"{rounded:f}" if abs(rounded) < 10**_DIGITS else f"{number:.0f}"


def with_unit(number: str, unit: str, basis: str) -> str:
    """A figure with unit and basis; the unit `1` of plain numbers is left out."""
    return " ".join(filter(None, (number, unit if unit != "1" else "", basis)))


def axis(parameter: Parameter) -> str:
    """Unit and basis of a parameter's figures."""
    return with_unit("", *parameter.shown_in)


def reported(reading: Reading) -> str:
    """A reading as reported, with unit and basis where it is a figure."""
    if reading.kind in {Kind.NUMBER, Kind.BELOW, Kind.ABOVE}:
        return with_unit(reading.text, reading.unit, reading.basis)
    return reading.text


def bound(limit: Limit) -> str:
    """What a limit allows, with unit and basis, as it was published."""
    if limit.rule is Rule.ABSENT:
        return "must be absent"
    if limit.rule is Rule.RANGE and limit.low is not None:
        upto = "" if limit.high is None else f" to {limit.high:f}"
        return with_unit(f"{limit.low:f}{upto}", limit.unit, limit.basis)
    return with_unit("" if limit.high is None else f"{limit.high:f}", limit.unit, limit.basis)


def in_unit_of(reading: Reading, limit: Limit, parameter: Parameter) -> str:
    """What a limit allows in the unit of a reading, and beside it as it was published."""
    published = bound(limit)
    if limit.rule is Rule.ABSENT or (limit.unit, limit.basis) == (reading.unit, reading.basis):
        return published
    ends = [number for number in (limit.low, limit.high) if number is not None]
    try:
        converted = [
            units.convert(
                end, limit.unit, limit.basis, reading.unit, reading.basis, parameter
            ).number
            for end in ends
        ]
    except units.NoConversion:
        return published
    numbers = " to ".join(map(figure, converted))
    here = with_unit(numbers, reading.unit, reading.basis)
    if converted == ends:  # the same figures: only the spelling differs, or a basis is missing
        return published
    return f"{here}, published as {published}"


def standing(judgement: Judgement, allowed: str, name: str) -> str:
    """How a reading stands to a limit, with the limit's source, kind and dates.

    Args:
        judgement: The verdict with what it rests on.
        allowed: What the limit allows, in words.
        name: Plain name of the limit's set.
    """
    limit = judgement.limit
    if limit is None:
        return ""
    plain = limit.rule is Rule.MAX and limit.kind is not LimitKind.HEALTH
    source = ", ".join((name, force(limit)) if plain else (name, limit.kind, force(limit)))
    must = f"{allowed} ({source})"
    verdict = judgement.verdict
    if limit.rule is Rule.ABSENT:
        must = f"It {must}"
        if verdict is Verdict.UNDECIDABLE:
            return f"{must}; whether it is can’t be told. {judgement.why}"
        found = ", and was found" if verdict is Verdict.OUTSIDE else ""
        return f"{must}{found}. {judgement.why}".strip()
    what = f"the {'range' if limit.rule is Rule.RANGE else KINDS[limit.kind]} of {must}"
    if verdict is Verdict.UNDECIDABLE:
        return f"Whether that is within {what} can’t be told. {judgement.why}"
    how = {
        Verdict.OUTSIDE: "outside" if limit.rule is Rule.RANGE else "over",
        Verdict.NEAR: "within, but near,",
    }.get(verdict, "within")
    return f"That is {how} {what}. {judgement.why}".strip()


def latest(result: Result) -> str:
    """The latest result, as reported."""
    return f"Latest, {day(result.collected.day)}: {reported(result.reading)}."


def rows(marks: Sequence[Mark]) -> str:
    """How many results of a strip are in each row, and when."""
    if not marks:
        return ""
    shapes = [mark.shape for mark in marks]
    counts = ((shape, shapes.count(shape)) for shape in ROWS)
    found = ", ".join(f"{ROWS[shape]} in {n}" for shape, n in counts if n)
    first, last = month_of(marks[0].day), month_of(marks[-1].day)
    span = first if first == last else f"{first} to {last}"
    return f"{count(len(marks), 'test')}, {span}: {found}."
