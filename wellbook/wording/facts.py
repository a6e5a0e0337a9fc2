"""Words on a chart, in the language of now. Month names are ours, whatever the locale."""

from collections.abc import Sequence
from decimal import Context, Decimal
from math import inf

from wellbook.support.translation import _
from wellbook.water.chemistry.interval import Interval
from wellbook.water.statistics.series import FROM_PIPES
from wellbook.water.units import conversion, spellings
from wellbook.water.values.figures import plain
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.sums import Sum
from wellbook.wording import units, vocabulary
from wellbook.wording.dates import day, day_of_year, loose_day, short_month, span

__all__ = [
    "added",
    "allowed",
    "also",
    "axis",
    "bound",
    "bound_shown",
    "bounds",
    "day",
    "day_of_year",
    "figure",
    "force",
    "in_unit_of",
    "latest",
    "loose_day",
    "reported",
    "short_month",
    "shown",
    "span",
    "until",
    "with_unit",
]

_DIGITS = 3
_SUM_DIGITS, _LONGEST = 4, 9  # digits of a sum, and most of them
_SIGNS = {Kind.BELOW: "<", Kind.ABOVE: ">"}


def force(limit: Limit) -> str:
    """When a limit holds or held."""
    if limit.start and limit.end:
        return _("{first} to {last}").format(
            first=loose_day(limit.start), last=loose_day(limit.end)
        )
    if limit.end:
        return _("until {day}").format(day=loose_day(limit.end))
    if limit.start:
        return _("since {day}").format(day=loose_day(limit.start))
    return _("start not known")


def until(allowed: str, end: str) -> str:
    """What a limit allowed, with its last day in words unless that is empty."""
    return _("{allowed} until {day}").format(allowed=allowed, day=end) if end else allowed


def figure(number: Decimal | float) -> str:
    """A figure as reported, or three digits of a computed one; never with an exponent."""
    if isinstance(number, Decimal) and len(number.normalize().as_tuple().digits) <= _DIGITS:
        return f"{number.normalize():f}"
    rounded = Decimal(f"{number:.{_DIGITS}g}")
    return f"{rounded:f}" if abs(rounded) < 10**_DIGITS else f"{number:.0f}"


def with_unit(number: str, unit: str, basis: str) -> str:
    """A figure with unit and basis, once, also where the lab printed them into the figure's cell.

    The unit `1` of plain numbers is left out.
    """
    told = "" if basis and spellings.basis_in(unit) == basis else basis
    whole = " ".join(filter(None, (unit if unit != "1" else "", told)))
    return " ".join(filter(None, (_without_unit(number, unit, basis), units.said(whole))))


def _without_unit(number: str, unit: str, basis: str) -> str:
    figure, found, rest = number.rpartition(unit) if unit not in {"", "1"} else (number, "", "")
    is_basis = rest.strip().removeprefix("as ") in {"", basis.removeprefix("as ")}
    return figure.rstrip() if found and figure.strip() and is_basis else number


def bounds(found: Interval, digits: int = 3) -> str:
    """A figure that is known to lie between two ends: `3.42`, `3.4 to 3.6`."""
    low, high = plain(found.low, digits), plain(found.high, digits)
    if found.high == inf:
        return _("more than {figure}").format(figure=low)
    return low if low == high else _("{low} to {high}").format(low=low, high=high)


def added(found: Sum) -> str:
    """What a sum can be: one figure, or from its least to its most."""
    unit = with_unit("", found.unit, found.basis)
    low, high = _total(found.low), found.high
    if high is None:
        return _("{figure} or more").format(figure=f"{low:f} {unit}".strip())
    if found.low == high:
        return f"{low:f} {unit}".strip()
    ends = (low, _total(high))
    places = max(len(f"{end.normalize():f}".partition(".")[2]) for end in ends)
    least, most = (f"{end:.{places}f}" for end in ends)
    return _("{low} to {high}").format(low=least, high=f"{most} {unit}".strip())


def _total(number: Decimal) -> Decimal:
    """A sum in four digits, or in more where these look like a round figure that it is not."""
    rounded, least = number, max(_SUM_DIGITS, number.adjusted() + 1)
    for digits in range(least, least + _LONGEST - _SUM_DIGITS):
        rounded = Context(prec=digits).plus(number)
        if rounded == number or len(rounded.normalize().as_tuple().digits) == digits:
            break
    return rounded


def axis(parameter: Parameter) -> str:
    """Unit and basis of a parameter's figures."""
    return with_unit("", *parameter.shown_in)


def reported(reading: Reading) -> str:
    """A reading as reported, with unit and basis where it is a figure."""
    figures = {Kind.NUMBER, Kind.BELOW, Kind.ABOVE}
    unit = (reading.unit, reading.basis) if reading.kind in figures else ("", "")
    return marked(with_unit(reading.text, *unit), reading)


def marked(said: str, reading: Reading) -> str:
    """What is said of a reading, marked where the lab told it before its report."""
    if Flag.PRELIMINARY not in reading.flags:
        return said
    return _("{reading} (preliminary)").format(reading=said)


def also(reading: Reading, parameter: Parameter | None) -> str:
    """A figure in the units that were chosen for its parameter; empty where it stands in them."""
    if parameter is None or parameter.shown in {None, (reading.unit, reading.basis)}:
        return ""
    number = conversion.as_shown(reading, parameter)
    if number is None:
        return ""
    return with_unit(f"{_SIGNS.get(reading.kind, '')}{figure(number)}", *parameter.shown_in)


def shown(reading: Reading, parameter: Parameter | None) -> str:
    """A reading as reported, and in brackets in the units that were chosen."""
    return _beside(reported(reading), also(reading, parameter))


def bound_shown(said: str, limit: Limit, parameter: Parameter) -> str:
    """What a limit allows, in words, and in brackets in the units that were chosen."""
    ends = [end for end in (limit.low, limit.high) if end is not None]
    if (
        parameter.shown in {None, (limit.unit, limit.basis)}
        or limit.rule is Rule.ABSENT
        or not ends
    ):
        return said
    line = (limit.unit, limit.basis, *parameter.shown_in, parameter)
    try:
        converted = [figure(conversion.convert(end, *line).number) for end in ends]
    except conversion.NoConversion:
        return said
    return _beside(said, with_unit(_ends(converted), *parameter.shown_in))


def _beside(said: str, converted: str) -> str:
    return f"{said} ({converted})" if converted else said


def bound(limit: Limit) -> str:
    """What a limit allows, with unit and basis, as it was published."""
    low, high = ("" if end is None else f"{end:f}" for end in (limit.low, limit.high))
    return allowed(limit.rule, low, high, with_unit("", limit.unit, limit.basis))


def allowed(rule: Rule, low: str, high: str, unit: str) -> str:
    """What a rule allows by the figures of its ends, either of which may be empty."""
    if rule is Rule.ABSENT:
        return _("must be absent")
    if rule is Rule.RANGE and low and high:
        return _("{low} to {high} {unit}").format(low=low, high=high, unit=unit).strip()
    if rule is Rule.RANGE and low:
        return _("at least {low} {unit}").format(low=low, unit=unit).strip()
    return f"{high} {unit}".strip() if high else _("no figure")


def _ends(figures: Sequence[str]) -> str:
    """One figure, or both ends of a range."""
    return (
        _("{low} to {high}").format(low=figures[0], high=figures[1]) if figures[1:] else figures[0]
    )


def in_unit_of(reading: Reading, limit: Limit, parameter: Parameter) -> str:
    """What a limit allows in the unit of a reading, and beside it as it was published."""
    published = bound(limit)
    here = bound_in_unit_of(reading, limit, parameter)
    if here == published:
        return published
    return _("{here}, published as {published}").format(here=here, published=published)


def bound_in_unit_of(reading: Reading, limit: Limit, parameter: Parameter) -> str:
    """What a limit allows in the unit of a reading; as published where that is the same."""
    published = bound(limit)
    if limit.rule is Rule.ABSENT or (limit.unit, limit.basis) == (reading.unit, reading.basis):
        return published
    ends = [number for number in (limit.low, limit.high) if number is not None]
    try:
        converted = [
            conversion.convert(
                end, limit.unit, limit.basis, reading.unit, reading.basis, parameter
            ).number
            for end in ends
        ]
    except conversion.NoConversion:
        return published
    if converted == ends:  # the same figures: only the spelling differs, or a basis is missing
        return published
    return with_unit(_ends([figure(end) for end in converted]), reading.unit, reading.basis)


def latest(result: Result, parameter: Parameter) -> str:
    """The latest result, as reported and in the units that were chosen."""
    when, what = day(result.collected.day), shown(result.reading, parameter)
    if result.draw and parameter.key in FROM_PIPES:
        return _("Latest, {day}, {draw}: {reading}.").format(
            day=when, draw=vocabulary.draw(result.draw), reading=what
        )
    return _("Latest, {day}: {reading}.").format(day=when, reading=what)
