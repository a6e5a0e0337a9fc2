"""Words on a chart, in the language of now. Month names are ours, whatever the locale."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from wellbook.support.translation import N_, _
from wellbook.water.units import conversion
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import MONTHS, month_of

_DIGITS = 3
_SIGNS = {Kind.BELOW: "<", Kind.ABOVE: ">"}
# All of these are to be said.
KINDS = {
    LimitKind.HEALTH: N_("limit"),
    LimitKind.ACTION: N_("action level"),
    LimitKind.ADVISORY: N_("advisory level"),
    LimitKind.AESTHETIC: N_("aesthetic level"),
    LimitKind.OPERATIONAL: N_("operational level"),
}
_YARDSTICKS = {
    LimitKind.HEALTH: N_("the limit of {allowed} ({source})"),
    LimitKind.ACTION: N_("the action level of {allowed} ({source})"),
    LimitKind.ADVISORY: N_("the advisory level of {allowed} ({source})"),
    LimitKind.AESTHETIC: N_("the aesthetic level of {allowed} ({source})"),
    LimitKind.OPERATIONAL: N_("the operational level of {allowed} ({source})"),
}
_RANGE = N_("the range of {allowed} ({source})")


def day(when: date) -> str:
    """`3 May 2024`."""
    return _("{day} {month}").format(day=when.day, month=month_of(when))


def day_of_year(when: date) -> str:
    """`3 May`."""
    return _("{day} {month}").format(day=when.day, month=short_month(when.month))


def short_month(number: int) -> str:
    """The three letters of a month (1 to 12)."""
    return _(MONTHS[number - 1])[:3]


def span(first: str, last: str) -> str:
    """Two days, months or years as a period; one where they are the same."""
    return first if first == last else _("{first} to {last}").format(first=first, last=last)


def loose_day(text: str) -> str:
    """An ISO day, month or year in words; anything else as it stands."""
    partial = read_partial_date(text)
    if partial is None or partial.month is None:
        return text
    return month_of(partial.first) if partial.is_vague else day(partial.first)


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


def holds(judgement: Judgement, limit: Limit) -> str:
    """When the limit of a judgement holds; one to come says from when on."""
    if judgement.verdict is Verdict.ADOPTED:
        return _("starts on {day}").format(day=loose_day(limit.start))
    return force(limit)


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
    if limit.rule is Rule.ABSENT:
        return _("must be absent")
    if limit.rule is Rule.RANGE and limit.low is not None:
        ends = [limit.low] if limit.high is None else [limit.low, limit.high]
        return with_unit(_ends([f"{end:f}" for end in ends]), limit.unit, limit.basis)
    return with_unit("" if limit.high is None else f"{limit.high:f}", limit.unit, limit.basis)


def _ends(figures: Sequence[str]) -> str:
    """One figure, or both ends of a range."""
    return (
        _("{low} to {high}").format(low=figures[0], high=figures[1]) if figures[1:] else figures[0]
    )


def in_unit_of(reading: Reading, limit: Limit, parameter: Parameter) -> str:
    """What a limit allows in the unit of a reading, and beside it as it was published."""
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
    here = with_unit(_ends([figure(end) for end in converted]), reading.unit, reading.basis)
    return _("{here}, published as {published}").format(here=here, published=published)


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
    when = holds(judgement, limit)
    plain = limit.rule is Rule.MAX and limit.kind is not LimitKind.HEALTH
    source = ", ".join((name, when) if plain else (name, _(limit.kind), when))
    if limit.rule is Rule.ABSENT:
        said = _absence(judgement.verdict, source)
    else:
        known = _RANGE if limit.rule is Rule.RANGE else _YARDSTICKS[limit.kind]
        limits = _(known).format(allowed=allowed, source=source)
        said = _comparison(judgement.verdict, limits, in_range=limit.rule is Rule.RANGE)
    return f"{said} {judgement.why}".strip()


def _absence(verdict: Verdict, source: str) -> str:
    if verdict is Verdict.UNDECIDABLE:
        return _("It must be absent ({source}); whether it is can’t be told.").format(source=source)
    if verdict is Verdict.OUTSIDE:
        return _("It must be absent ({source}), and was found.").format(source=source)
    return _("It must be absent ({source}).").format(source=source)


def _comparison(verdict: Verdict, limit: str, *, in_range: bool) -> str:
    if verdict is Verdict.UNDECIDABLE:
        return _("Whether that is within {limit} can’t be told.").format(limit=limit)
    if verdict is Verdict.ADOPTED:
        return _("That is over {limit}, which is adopted and does not bind yet.").format(
            limit=limit
        )
    if verdict is Verdict.NEAR:
        return _("That is within, but near, {limit}.").format(limit=limit)
    if verdict is not Verdict.OUTSIDE:
        return _("That is within {limit}.").format(limit=limit)
    if in_range:
        return _("That is outside {limit}.").format(limit=limit)
    return _("That is over {limit}.").format(limit=limit)


def latest(result: Result, parameter: Parameter) -> str:
    """The latest result, as reported and in the units that were chosen."""
    when, what = day(result.collected.day), shown(result.reading, parameter)
    return _("Latest, {day}: {reading}.").format(day=when, reading=what)
