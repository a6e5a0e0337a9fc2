"""Holding one figure against one limit: the plain comparison, without any reservation."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from wellbook.support.message import Message, message
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import HEALTH_KINDS, NEAR_SHARE, Limit, Rule
from wellbook.water.values.readings import Kind
from wellbook.water.verdicts.reasons import Reason

_ORDER = (
    Verdict.NO_LIMIT,
    Verdict.UNDETECTED,
    Verdict.WITHIN,
    Verdict.NEAR,
    Verdict.ADOPTED,
    Verdict.UNDECIDABLE,
    Verdict.OUTSIDE,
)
_Outcome = tuple[Verdict, Message | None]


@dataclass(frozen=True, slots=True)
class Figure:
    """What is compared: a reading in the limit's unit and basis.

    Attributes:
        kind: What sort of statement the reading is.
        value: Its figure; None where there is none.
        at_least: Whether ABOVE allows the figure itself (`≥16`).
        assumed: What had to be assumed to get the figure.
    """

    kind: Kind
    value: Decimal | None = None
    at_least: bool = False
    assumed: tuple[Message, ...] = ()


def badness(verdict: Verdict) -> int:
    """Where a verdict stands from `no limit` (0) to `outside` (6)."""
    return _ORDER.index(verdict)


def compare(figure: Figure, limit: Limit, near_share: Decimal = NEAR_SHARE) -> _Outcome:
    """Hold a figure against a limit by the limit's own rule; gives the verdict and its reason."""
    if figure.value is None or figure.kind in {Kind.PRESENT, Kind.ABSENT}:
        return _without_figure(figure.kind, limit)
    return _COMPARISONS[limit.rule](figure, figure.value, limit, near_share)


def _without_figure(kind: Kind, limit: Limit) -> _Outcome:
    if kind is Kind.ABSENT and limit.rule is not Rule.RANGE:
        return Verdict.UNDETECTED, None
    if kind is Kind.PRESENT and limit.rule is not Rule.RANGE:
        if limit.rule is Rule.ABSENT or limit.high == 0:
            return Verdict.OUTSIDE, None
        return Verdict.UNDECIDABLE, message(Reason.FOUND_WITHOUT_FIGURE)
    reason = {Kind.BELOW: Reason.NO_REPORTING_LIMIT, Kind.ABOVE: Reason.OFF_SCALE}
    return Verdict.UNDECIDABLE, message(reason.get(kind, Reason.NO_FIGURE))


def _maximum(figure: Figure, value: Decimal, limit: Limit, near_share: Decimal) -> _Outcome:
    high = limit.high
    if high is None:
        return Verdict.UNDECIDABLE, message(Reason.NO_NUMBER_IN_RULE)
    if figure.kind is Kind.BELOW:
        return _below_maximum(value, high, limit.unit)
    if figure.kind is Kind.ABOVE:
        return _above_maximum(figure, value, high, limit.unit)
    if value > high:
        rounds = limit.rounds and limit.kind in HEALTH_KINDS
        return Verdict.OUTSIDE, _rounded(value, high) if rounds else None
    near = limit.kind in HEALTH_KINDS and high > 0 and value >= near_share * high
    return (Verdict.NEAR if near else Verdict.WITHIN), None


def _below_maximum(value: Decimal, high: Decimal, unit: str) -> _Outcome:
    if value <= high:
        return Verdict.UNDETECTED, None
    reason = message(Reason.SEEN_TOO_LATE, least=value, limit=high, unit=unit)
    return Verdict.UNDECIDABLE, reason


def _above_maximum(figure: Figure, value: Decimal, high: Decimal, unit: str) -> _Outcome:
    if value > high or (value == high and not figure.at_least):
        return Verdict.OUTSIDE, None
    return Verdict.UNDECIDABLE, message(Reason.MORE_THAN, figure=value, unit=unit)


def _range(figure: Figure, value: Decimal, limit: Limit, _unused: Decimal) -> _Outcome:
    kind = figure.kind
    below = limit.low is not None and (
        value < limit.low or (kind is Kind.BELOW and value == limit.low)
    )
    above = limit.high is not None and (
        value > limit.high or (kind is Kind.ABOVE and value == limit.high and not figure.at_least)
    )
    if kind is Kind.NUMBER:
        return (Verdict.OUTSIDE if below or above else Verdict.WITHIN), None
    if (below and kind is Kind.BELOW) or (above and kind is Kind.ABOVE):
        return Verdict.OUTSIDE, None
    return Verdict.UNDECIDABLE, message(Reason.ONLY_A_BOUND)


def _absence(figure: Figure, value: Decimal, _unused: Limit, __: Decimal) -> _Outcome:
    if figure.kind is Kind.BELOW:
        return Verdict.UNDECIDABLE, message(Reason.NOTHING_GREW, figure=value)
    is_found = value > 0 or figure.kind is Kind.ABOVE
    return (Verdict.OUTSIDE if is_found else Verdict.UNDETECTED), None


_COMPARISONS: dict[Rule, Callable[[Figure, Decimal, Limit, Decimal], _Outcome]] = {
    Rule.MAX: _maximum,
    Rule.RANGE: _range,
    Rule.ABSENT: _absence,
}


def _rounded(value: Decimal, high: Decimal) -> Message | None:
    """Public supplies round to the figures of the limit first; say so where it would matter."""
    rounded = value.quantize(high, ROUND_HALF_UP)
    return None if rounded > high else message(Reason.ROUNDED, figure=rounded)
