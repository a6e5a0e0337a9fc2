"""Words on a chart. Month names are ours: the same in every locale."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from wellbook.charts.parts import Mark, Shape
from wellbook.water.limits import Limit, Rule
from wellbook.water.parameters import Parameter
from wellbook.water.readings import Kind, Reading
from wellbook.water.seasons import MONTHS
from wellbook.water.verdicts import Judgement, Verdict

_MONTH, _DAY = len("2024-05"), len("2024-05-03")
_DIGITS = 3


def day(when: date) -> str:
    """`3 May 2024`."""
    return f"{when.day} {month(when)}"


def month(when: date) -> str:
    """`May 2024`."""
    return f"{MONTHS[when.month - 1][:3]} {when.year}"


def loose_day(text: str) -> str:
    """An ISO day, month or year in words."""
    if len(text) == _DAY:
        return day(date.fromisoformat(text))
    if len(text) == _MONTH:
        return month(date.fromisoformat(f"{text}-01"))
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
    return with_unit("", parameter.unit, parameter.basis)


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


def standing(judgement: Judgement, name: str) -> str:
    """How the latest reading stands to the limit in force now, with its source and date."""
    limit = judgement.limit
    if limit is None:
        return ""
    if judgement.verdict is Verdict.UNDECIDABLE:
        return judgement.why
    source = f"({name}, {limit.kind}, {force(limit)})"
    if limit.rule is Rule.ABSENT:
        must = "It must be absent there" if judgement.verdict is Verdict.OUTSIDE else "As required"
        return f"{must} {source}."
    what = "range" if limit.rule is Rule.RANGE else "limit"
    how = {
        Verdict.OUTSIDE: f"outside the {what}" if what == "range" else "over the limit",
        Verdict.NEAR: f"within the {what}, but near it:",
    }.get(judgement.verdict, f"within the {what}")
    return f"That is {how} of {bound(limit)} {source}.".replace(": of", ":")


def history(marks: Sequence[Mark], *, strip: bool) -> str:
    """The latest result; on a strip also how many there are of each row, and when."""
    if not marks:
        return "No result can be drawn."
    latest = marks[-1]
    if not strip:
        return f"Latest, {day(latest.day)}: {latest.label}."
    if len(marks) == 1:
        return f"1 test, {day(latest.day)}: {latest.label}."
    shapes = [mark.shape for mark in marks]
    rows = ((s, shapes.count(s)) for s in (Shape.PRESENT, Shape.ABSENT, Shape.UNCLEAR))
    found = ", ".join(f"{shape} in {n}" for shape, n in rows if n)
    span = f"{month(marks[0].day)} to {month(latest.day)}"
    return f"{len(marks):,} tests, {span}: {found}. Latest, {day(latest.day)}: {latest.label}."
