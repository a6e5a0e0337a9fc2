"""From published limits to stepped lines."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Self

from wellbook.charts.model.parts import LimitLine, Step
from wellbook.support.translation import _
from wellbook.water.units import conversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.judge import IN_FORCE
from wellbook.wording import facts

_RANK = tuple(LimitKind)
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class DayRange:
    """The days that a chart shows, both included."""

    first: date
    last: date

    def cut(self, first: date, last: date) -> Self | None:
        """The part of a stretch that is shown."""
        first, last = max(first, self.first), min(last, self.last)
        return type(self)(first, last) if first <= last else None


def limit_lines(
    parameter: Parameter, catalogue: Catalogue, sets: Sequence[str], span: DayRange
) -> tuple[LimitLine, ...]:
    """Lines of the limits that were in force within the span, health first."""
    groups: dict[tuple[str, LimitKind, str, str], list[Limit]] = {}
    for limit in catalogue.limits_of(parameter.key):
        if limit.set in sets and catalogue.sets[limit.set].standing == IN_FORCE:
            key = (limit.set, limit.kind, limit.condition, limit.fraction)
            groups.setdefault(key, []).append(limit)
    order = sorted(groups, key=lambda key: (_RANK.index(key[1]), sets.index(key[0])))
    lines: list[LimitLine] = []
    for key in order:
        name = ", ".join(filter(None, (catalogue.sets[key[0]].name, _(key[2]))))
        lines += _lines(groups[key], parameter, name, span)
    return tuple(lines)


def in_time(limits: Iterable[Limit]) -> list[Limit]:
    """Limits in the order in which they held, whatever that of the file."""
    return sorted(limits, key=_bounds)


def _lines(
    limits: Sequence[Limit], parameter: Parameter, name: str, span: DayRange
) -> Iterable[LimitLine]:
    """The line of one group of limits; two where it is a range."""
    seen = in_time(limit for limit in limits if span.cut(*_bounds(limit)))
    if not seen:
        return
    text = "; ".join(f"{facts.bound(limit)}, {facts.force(limit)}" for limit in seen)
    last = seen[-1]
    _, end = _bounds(last)
    ended = facts.loose_day(last.end) if end < span.last else ""
    if parameter.scale == "presence" or all(limit.rule is Rule.ABSENT for limit in seen):
        yield LimitLine(last.kind, name, facts.until(facts.bound(last), ended), text, ())
        return
    for lower in (False, True):
        steps: list[Step] = []
        for limit in seen:
            steps += _steps(limit, parameter, span, lower=lower)
        if steps:
            figure = facts.figure(steps[-1].value)
            label = facts.until(facts.with_unit(figure, *parameter.shown_in), ended)
            yield LimitLine(last.kind, name, label, text, tuple(steps), lower)


def _steps(limit: Limit, parameter: Parameter, span: DayRange, *, lower: bool) -> Iterable[Step]:
    value = _value(limit, parameter, lower=lower)
    if value is None:
        return
    (first, last), (start, end) = _bounds(limit), limit.period
    loose_start, loose_end = bool(start and start.is_vague), bool(end and end.is_vague)
    sure_from = min(start.last, last) + _DAY if start and loose_start else first
    loose_from = max(end.first, sure_from) if end and loose_end else date.max
    parts = (
        (first, sure_from - _DAY, False) if loose_start else None,
        (sure_from, loose_from - _DAY if loose_end else last, True),
        (loose_from, last, False) if loose_end else None,
    )
    for part in filter(None, parts):
        shown = span.cut(part[0], part[1])
        if shown:
            yield Step(shown.first, shown.last, float(value), certain=part[2])


def _value(limit: Limit, parameter: Parameter, *, lower: bool) -> Decimal | None:
    number = limit.low if lower else limit.high
    if number is None or (lower and limit.rule is not Rule.RANGE) or limit.rule is Rule.ABSENT:
        return None
    try:
        return conversion.convert(
            number, limit.unit, limit.basis, *parameter.shown_in, parameter
        ).number
    except conversion.NoConversion:
        return None


def _bounds(limit: Limit) -> tuple[date, date]:
    """The first and the last day on which it may hold; an open end is that of all days."""
    start, end = limit.period
    return start.first if start else date.min, end.last if end else date.max
