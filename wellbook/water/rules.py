"""Holding one figure against one limit: the plain comparison, without any reservation.

Each function takes a `Figure` in the limit's unit and basis and gives a verdict with, where it
needs one, its reason.
"""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from wellbook.water.judgement import Verdict
from wellbook.water.limits import Limit, LimitKind, Rule
from wellbook.water.readings import Kind

# Ours: from this share of a health limit on, a reading is called near it. Not a rule of anyone's.
NEAR_SHARE = Decimal("0.8")
HEALTH_KINDS = frozenset({LimitKind.HEALTH, LimitKind.ACTION})

# Five tubes of 10 mL can at best say `<2.2`, ten of them `<1.1`, a filter or 51 wells `<1`: all
# of them mean that nothing grew (multiple-tube tables of Standard Methods 9221; from memory).
NOTHING_GREW = Decimal("2.2")  # per 100 mL

_ORDER = (
    Verdict.NO_LIMIT,
    Verdict.UNDETECTED,
    Verdict.WITHIN,
    Verdict.NEAR,
    Verdict.UNDECIDABLE,
    Verdict.OUTSIDE,
)


@dataclass(frozen=True, slots=True)
class Figure:
    """What is compared: the reading's kind, its figure in the limit's unit, its basis if assumed.

    Attributes:
        kind: What sort of statement the reading is.
        value: Its figure in the limit's unit and basis; None where there is none.
        at_least: Whether ABOVE allows the figure itself (`≥16`).
        assumed: What had to be assumed to get the figure, one sentence, or empty.
    """

    kind: Kind
    value: Decimal | None = None
    at_least: bool = False
    assumed: str = ""


def badness(verdict: Verdict) -> int:
    """Where a verdict stands from `no limit` (0) to `outside` (5)."""
    return _ORDER.index(verdict)


def compare(figure: Figure, limit: Limit, near_share: Decimal = NEAR_SHARE) -> tuple[Verdict, str]:
    """Hold a figure against a limit by the limit's own rule."""
    if limit.rule is Rule.ABSENT:
        return _absent(figure)
    if limit.rule is Rule.RANGE:
        return _range(figure, limit)
    return _maximum(figure, limit, near_share)


def _maximum(figure: Figure, limit: Limit, near_share: Decimal) -> tuple[Verdict, str]:
    high = limit.high
    if high is None:
        return Verdict.UNDECIDABLE, "The rule gives no number."
    value = figure.value
    if figure.kind is Kind.ABSENT:
        return Verdict.UNDETECTED, ""
    if figure.kind is Kind.PRESENT:
        if high == 0:
            return Verdict.OUTSIDE, ""
        return Verdict.UNDECIDABLE, "It was found, but the lab gives no figure."
    if value is None:
        return Verdict.UNDECIDABLE, _no_figure(figure.kind)
    if figure.kind is Kind.BELOW:
        return _below_maximum(value, high, limit.unit)
    if figure.kind is Kind.ABOVE:
        return _above_maximum(figure, value, limit)
    if value > high:
        return Verdict.OUTSIDE, _rounded(value, high)
    near = limit.kind in HEALTH_KINDS and high > 0 and value >= near_share * high
    return (Verdict.NEAR if near else Verdict.WITHIN), ""


def _below_maximum(value: Decimal, high: Decimal, unit: str) -> tuple[Verdict, str]:
    if value <= high:
        return Verdict.UNDETECTED, ""
    return (
        Verdict.UNDECIDABLE,
        f"Not found, but the lab could only see from {shown(value)} {unit} on, which is above "
        f"the limit of {shown(high)}.",
    )


def _above_maximum(figure: Figure, value: Decimal, limit: Limit) -> tuple[Verdict, str]:
    high = limit.high
    if high is not None and (value > high or (value == high and not figure.at_least)):
        return Verdict.OUTSIDE, ""
    return (
        Verdict.UNDECIDABLE,
        f"More than {shown(value)} {limit.unit}, but the lab does not say how much more.",
    )


def _range(figure: Figure, limit: Limit) -> tuple[Verdict, str]:
    value, low, high = figure.value, limit.low, limit.high
    if value is None or figure.kind in {Kind.PRESENT, Kind.ABSENT}:
        return Verdict.UNDECIDABLE, _no_figure(figure.kind)
    too_low = low is not None and (value < low or (figure.kind is Kind.BELOW and value == low))
    too_high = high is not None and (value > high or (figure.kind is Kind.ABOVE and value == high))
    if figure.kind is Kind.NUMBER:
        return (Verdict.OUTSIDE if too_low or too_high else Verdict.WITHIN), ""
    if (figure.kind is Kind.BELOW and too_low) or (figure.kind is Kind.ABOVE and too_high):
        return Verdict.OUTSIDE, ""
    if figure.kind is Kind.BELOW and low is None and not too_high:
        return Verdict.UNDETECTED, ""
    if figure.kind is Kind.ABOVE and high is None and not too_low:
        return Verdict.WITHIN, ""
    return Verdict.UNDECIDABLE, "The lab gives only a bound, and the range lies beyond it."


def _absent(figure: Figure) -> tuple[Verdict, str]:
    value = figure.value
    if figure.kind is Kind.ABSENT:
        return Verdict.UNDETECTED, ""
    if figure.kind is Kind.PRESENT:
        return Verdict.OUTSIDE, ""
    if figure.kind is Kind.ABOVE:
        if value is None:
            return Verdict.UNDECIDABLE, _no_figure(figure.kind)
        return Verdict.OUTSIDE, ""
    if figure.kind is Kind.NUMBER:
        if value is None:
            return Verdict.UNDECIDABLE, _no_figure(figure.kind)
        return (Verdict.OUTSIDE if value > 0 else Verdict.UNDETECTED), ""
    if value is None:
        return Verdict.UNDETECTED, "The sheet gives no reporting limit; taken as none in 100 mL."
    if value <= NOTHING_GREW:
        return Verdict.UNDETECTED, ""
    return (
        Verdict.UNDECIDABLE,
        f"Not found, but only from {shown(value)} per 100 mL on would it have been seen.",
    )


def _no_figure(kind: Kind) -> str:
    if kind is Kind.BELOW:
        return "Not found, but the sheet gives no reporting limit to compare."
    if kind is Kind.ABOVE:
        return "Too much to count or off scale, without a figure; a new sample would tell."
    return "There is no figure to compare."


def _rounded(value: Decimal, high: Decimal) -> str:
    """Public supplies round to the figures of the limit first; say so where it would matter."""
    exponent = high.as_tuple().exponent
    if not isinstance(exponent, int):
        return ""
    rounded = value.quantize(Decimal(1).scaleb(exponent), ROUND_HALF_UP)
    if rounded > high:
        return ""
    return (
        f"Rounded to the figures of the limit it would be {shown(rounded)}, which public supplies "
        "count as met."
    )


def shown(number: Decimal) -> str:
    """A figure for a sentence: as it is up to four digits, else to three."""
    digits = 4
    if len(number.as_tuple().digits) > digits:
        number = Decimal(f"{number:.3g}")
    return f"{number:f}"
