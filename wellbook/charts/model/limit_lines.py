"""From published limits to stepped lines."""

import calendar
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
_YEAR, _MONTH = len("2024"), len("2024-05")
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Span:
    """The days that a chart shows, both included."""

    first: date
    last: date

    def cut(self, first: date, last: date) -> Self | None:
        """The part of a stretch that is shown."""
        first, last = max(first, self.first), min(last, self.last)
        return type(self)(first, last) if first <= last else None


def limit_lines(
    parameter: Parameter, catalogue: Catalogue, sets: Sequence[str], span: Span
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


def _lines(
    limits: Sequence[Limit], parameter: Parameter, name: str, span: Span
) -> Iterable[LimitLine]:
    """The line of one group of limits; two where it is a range."""
    seen = [limit for limit in limits if span.cut(_earliest(limit.start), _latest(limit.end))]
    if not seen:
        return
    text = "; ".join(f"{facts.bound(limit)}, {facts.force(limit)}" for limit in seen)
    last = seen[-1]
    end = _latest(last.end)
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


def _steps(limit: Limit, parameter: Parameter, span: Span, *, lower: bool) -> Iterable[Step]:
    value = _value(limit, parameter, lower=lower)
    if value is None:
        return
    start, surely = _earliest(limit.start), _latest(limit.start) if limit.start else date.min
    until, end = _earliest(limit.end) if limit.end else date.max, _latest(limit.end)
    loose_start, loose_end = start != surely, until != end
    parts = (
        (start, surely, False) if loose_start else None,
        (
            surely + _DAY if loose_start else start,
            until - _DAY if loose_end else end,
            True,
        ),
        (until, end, False) if loose_end else None,
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


def _earliest(text: str) -> date:
    """First day of an ISO day, month or year; the first of all days for an empty text."""
    if not text:
        return date.min
    return date.fromisoformat(text + "-01-01"[len(text) - _YEAR :])


def _latest(text: str) -> date:
    """Last day of an ISO day, month or year; the last of all days for an empty text."""
    if not text:
        return date.max
    if len(text) == _YEAR:
        return date(int(text), 12, 31)
    if len(text) == _MONTH:
        year, month = int(text[:_YEAR]), int(text[_YEAR + 1 :])
        return date(year, month, calendar.monthrange(year, month)[1])
    return date.fromisoformat(text)
