"""What a reading may amount to in a limit's unit and basis.

Mostly that is one figure. It is two where the sheet leaves a choice open: nitrate without a word
on its basis, or gross alpha from which an unknown uranium activity is still to be taken off.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from operator import itemgetter

from wellbook.support.message import Message, message
from wellbook.water.units.basis import NoConversion, choices, printed_in
from wellbook.water.units.conversion import URANIUM_ACTIVITY, convert
from wellbook.water.units.factors import Assumed
from wellbook.water.units.spellings import ACTIVITY, COUNT, PRESENCE, carries_basis, understand
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.compare import Figure
from wellbook.water.verdicts.reasons import Reason

_ALREADY_NET = ("adjusted", "net", "excluding u", "less uranium", "minus uranium")
# None in so few mL leaves room for some in 100 mL.
_SMALL_VOLUMES = {"per mL": 1, "CFU per mL": 1, "MPN per mL": 1, "per 10 mL": 10}

# What a µg of uranium in well water usually gives: from that of the federal rule of 2000 to what
# uranium-234 in excess makes of it (from memory).
URANIUM_ACTIVITIES = (URANIUM_ACTIVITY, Decimal("1.5"))  # pCi per µg

# Five tubes of 10 mL can at best say `<2.2`, ten of them `<1.1`, a filter or 51 wells `<1`: each
# means that nothing grew (multiple-tube tables of Standard Methods 9221; from memory).
NOTHING_GREW = Decimal("2.2")  # per 100 mL


@dataclass(frozen=True, slots=True)
class Possible:
    """The figures that a reading may amount to, and why there is more than one."""

    figures: tuple[Figure, ...]
    doubt: tuple[Message, ...] = ()


def possible(
    result: Result, limit: Limit, parameter: Parameter, beside: Iterable[Result]
) -> Possible:
    """The reading's figures in the limit's unit and basis.

    Args:
        result: The result that is judged.
        limit: The limit it is held against.
        parameter: Their parameter.
        beside: The other results of the same sample.

    Raises:
        NoConversion: The reading can't be brought into the limit's unit.
    """
    reading = _with_bound(result)
    if parameter.scale == "presence" or limit.rule is Rule.ABSENT:
        return Possible((_bacteria(reading, limit, parameter),))
    if reading.kind is Kind.ABSENT:
        # Of a substance `absent` says no more than `not detected`.
        reading = _with_bound(replace(result, reading=replace(reading, kind=Kind.BELOW)))
    if reading.number is None:
        return Possible((Figure(reading.kind),))
    open_choices = () if reading.basis or carries_basis(reading.unit) else choices(parameter)
    if open_choices and limit.basis:
        return _each_basis(reading, limit, parameter, open_choices)
    if parameter.key == "uranium" and _is_activity(reading.unit) != _is_activity(limit.unit):
        return _each_ratio(reading, limit, parameter)
    figure = _figure(reading, limit, parameter)
    if limit.is_net_of_uranium and not _is_net(result):
        return _net_of_uranium(figure, limit, parameter, beside)
    return Possible((figure,))


def _with_bound(result: Result) -> Reading:
    """The reading with what its row says beside it: the basis in its name, a limit's column."""
    reading = result.reading
    if not reading.basis and not carries_basis(reading.unit):
        named = printed_in(result.name)
        reading = replace(reading, basis=named) if named else reading
    if reading.kind is not Kind.BELOW or reading.number is not None:
        return reading
    from wellbook.water.parsing.printed import read_reading

    for text in (result.reporting_limit, result.detection_limit):
        bound = read_reading(text, unit=reading.unit)
        if bound.kind is Kind.TEXT:
            bound = read_reading(text)  # it may carry a unit of its own
        if bound.number is not None and bound.kind in {Kind.NUMBER, Kind.BELOW}:
            return replace(reading, number=bound.number, unit=bound.unit)
    return reading


def _figure(reading: Reading, limit: Limit, parameter: Parameter) -> Figure:
    number = reading.number or Decimal(0)
    basis = limit.basis or (limit.condition if limit.condition.startswith("at ") else "")
    got = convert(number, reading.unit, reading.basis, limit.unit, basis, parameter)
    at_least = reading.text.lstrip().startswith(("≥", ">=", "≧", "⩾"))
    return Figure(reading.kind, got.number, at_least, got.assumptions)


def _bacteria(reading: Reading, limit: Limit, parameter: Parameter) -> Figure:
    """A count, where none found is the same however the method says it (0, <1, <1.1, absent)."""
    number = reading.number
    if number is None:
        if reading.kind is not Kind.BELOW:
            return Figure(reading.kind)
        return Figure(Kind.ABSENT, assumed=(message(Reason.NONE_IN_100_ML),))
    if reading.kind is Kind.NUMBER and number > 0 and limit.rule is Rule.ABSENT:
        return Figure(Kind.PRESENT, _count(reading, limit, parameter))
    figure = _counted(reading, number, limit, parameter)
    bound = figure.value or Decimal(0)
    nothing = (figure.kind is Kind.NUMBER and bound == 0) or (
        figure.kind is Kind.BELOW and bound <= NOTHING_GREW
    )
    return replace(figure, kind=Kind.ABSENT) if nothing else figure


def _counted(reading: Reading, number: Decimal, limit: Limit, parameter: Parameter) -> Figure:
    unit = understand(reading.unit)
    if not reading.unit.strip() or (unit and unit.quantity == PRESENCE):
        return Figure(reading.kind, number, assumed=(message(Reason.IN_100_ML),))
    volume = _SMALL_VOLUMES.get(unit.label) if unit and unit.quantity == COUNT else None
    if volume and reading.kind is Kind.NUMBER and number == 0:
        return Figure(Kind.BELOW, Decimal(100) / volume)
    return _figure(reading, limit, parameter)


def _count(reading: Reading, limit: Limit, parameter: Parameter) -> Decimal | None:
    """The count in the limit's unit; None if it can't be had, as found is found in any unit."""
    try:
        return _figure(reading, limit, parameter).value
    except NoConversion:
        return None


def _each_basis(
    reading: Reading, limit: Limit, parameter: Parameter, bases: Sequence[str]
) -> Possible:
    assumed = (message(Reason.WORSE_BASIS, bases=tuple(bases)),)
    figures = tuple(
        replace(_figure(replace(reading, basis=basis), limit, parameter), assumed=assumed)
        for basis in bases
    )
    told = tuple(
        (basis, figure.value, f"{limit.unit} {limit.basis}")
        for basis, figure in zip(bases, figures, strict=True)
        if figure.value is not None
    )
    doubt = message(Reason.OPEN_BASIS, parameter=parameter.name, bases=tuple(bases), told=told)
    return Possible(figures, (doubt,))


def _is_activity(label: str) -> bool:
    unit = understand(label)
    return unit is not None and unit.quantity == ACTIVITY


def _each_ratio(reading: Reading, limit: Limit, parameter: Parameter) -> Possible:
    """Uranium between mass and activity, by the least and the most that a µg usually gives."""
    figures = []
    for ratio in URANIUM_ACTIVITIES:
        found = _figure(reading, limit, parameter)
        scale = URANIUM_ACTIVITY / ratio if _is_activity(reading.unit) else ratio / URANIUM_ACTIVITY
        value = None if found.value is None else found.value * scale
        assumed = (message(Assumed.URANIUM, activity=ratio),)
        figures.append(replace(found, value=value, assumed=assumed))
    low, high = sorted(figure.value or Decimal(0) for figure in figures)
    least, most = URANIUM_ACTIVITIES
    doubt = message(
        Reason.URANIUM_RANGE, least=least, most=most, low=low, high=high, unit=limit.unit
    )
    return Possible(tuple(figures), (doubt,))


def _is_net(result: Result) -> bool:
    name = result.name.casefold()
    return any(word in name for word in _ALREADY_NET)


def _net_of_uranium(
    figure: Figure, limit: Limit, parameter: Parameter, beside: Iterable[Result]
) -> Possible:
    if figure.value is None or figure.kind is Kind.BELOW:
        return Possible((figure,))
    least, most, said = _uranium(beside, limit, replace(parameter, key="uranium", name="Uranium"))
    highest = figure.value - least
    lowest = Decimal(0) if most is None else max(figure.value - most, Decimal(0))
    figures = tuple(replace(figure, value=value, assumed=said) for value in {highest, lowest})
    doubt = message(Reason.WITH_URANIUM)
    return Possible(figures, (doubt, *(said or (message(Reason.URANIUM_WOULD_TELL),))))


def _uranium(
    beside: Iterable[Result], limit: Limit, uranium: Parameter
) -> tuple[Decimal, Decimal | None, tuple[Message, ...]]:
    """Least and most uranium activity of the sample in the limit's unit, and how it was had.

    Of several results the lowest counts: it leaves the most for the limit.
    """
    found: list[tuple[Decimal, Decimal | None, tuple[Message, ...]]] = []
    for result in beside:
        reading = result.reading
        if result.parameter != "uranium" or reading.number is None or not _is_bounded(reading):
            continue
        try:
            got = convert(reading.number, reading.unit, reading.basis, limit.unit, "", uranium)
        except NoConversion:
            continue
        least = Decimal(0) if reading.kind is Kind.BELOW else got.number
        taken_off = message(
            Reason.URANIUM_TAKEN_OFF, figure=reading.text.strip(), unit=reading.unit
        )
        found.append((least, got.number, (taken_off, *got.assumptions)))
    return min(found, key=itemgetter(0, 1), default=(Decimal(0), None, ()))


def _is_bounded(reading: Reading) -> bool:
    return reading.kind in {Kind.NUMBER, Kind.BELOW} and Flag.REJECTED not in reading.flags
