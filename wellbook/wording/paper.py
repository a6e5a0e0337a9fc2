"""Facts as the words that stand on paper; days are worded as on the charts."""

from wellbook.support.translation import _
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind, Reading
from wellbook.wording import facts, vocabulary
from wellbook.wording.facts import also, bound_shown, day, force, loose_day, reported, shown

__all__ = [
    "also",
    "bound",
    "bound_beside",
    "bound_shown",
    "day",
    "flags",
    "force",
    "loose_day",
    "moment",
    "open_span",
    "reported",
    "shown",
    "span",
    "unit",
    "with_fraction",
    "with_side",
]


def flags(reading: Reading) -> str:
    """What the lab said beside a figure."""
    return ", ".join(map(vocabulary.flag, sorted(reading.flags)))


def moment(when: LocalTime) -> str:
    """A day, with the local time and its offset where they were written down."""
    if when.at is None:
        return day(when.day)
    clock = f"{day(when.day)}, {when.at:%H:%M}"
    if when.offset is None:
        return clock
    sign, minutes = ("−" if when.offset < 0 else "+"), abs(when.offset)
    return f"{clock} (UTC{sign}{minutes // 60}:{minutes % 60:02d})"


def span(start: str, end: str) -> str:
    """Two loose days as a period; an open or unknown end says so."""
    if start and end and start != end:
        return f"{loose_day(start)} – {loose_day(end)}"
    if start or not end:
        return loose_day(start) if start else _("not known")
    return _("until {day}").format(day=loose_day(end))


def open_span(start: str, end: str) -> str:
    """A period that may go on; empty if neither end is known."""
    if start and not end:
        return _("since {day}").format(day=loose_day(start))
    return span(start, end) if end else ""


def with_side(point: str, *, treated: bool) -> str:
    """A sampling point with its side of the treatment."""
    if treated:
        return _("{point} (after treatment)").format(point=point)
    return _("{point} (before treatment)").format(point=point)


def unit(reading: Reading) -> str:
    """Unit, basis and fraction of a reading as they were reported."""
    said = facts.with_unit("", reading.unit, reading.basis)
    return " ".join(filter(None, (said, vocabulary.fraction(reading.fraction))))


def with_fraction(said: Reading) -> str:
    """Text, unit, basis and fraction as printed; words stand without a unit."""
    if said.kind in {Kind.NONE, Kind.TEXT}:
        return said.text
    shown = facts.with_unit(said.text, said.unit, said.basis)
    return " ".join(filter(None, (shown, vocabulary.fraction(said.fraction))))


def bound_beside(
    reading: Reading, limit: Limit, parameter: Parameter, *, is_short: bool = False
) -> str:
    """What is allowed, in the unit of the result, with the published figure where it differs.

    The short form leaves the published figure to a list of limits.
    """
    published = bound_shown(bound(limit), limit, parameter)
    if limit.high is None or limit.rule is not Rule.MAX:
        return published
    say = facts.bound_in_unit_of if is_short else facts.in_unit_of
    same = say(reading, limit, parameter)
    return published if same == facts.bound(limit) else _("up to {bound}").format(bound=same)


def bound(limit: Limit) -> str:
    """What a limit allows where nothing beside it says that it is a limit."""
    said = facts.bound(limit)
    if limit.rule is not Rule.MAX or limit.high is None:
        return said
    return _("up to {figure}").format(figure=said)
