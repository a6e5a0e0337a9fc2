"""Converted figures with no more digits than the lab reported."""

from decimal import ROUND_HALF_EVEN, Decimal

from wellbook.water.units.conversion import as_shown, in_usual
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result


def usual_number(result: Result, parameter: Parameter | None) -> Decimal | None:
    """The figure in the parameter's usual unit and basis; None where it can't be converted."""
    return None if parameter is None else _of(result, in_usual(result.reading, parameter))


def shown_number(result: Result, parameter: Parameter | None) -> Decimal | None:
    """The same in the unit and basis in which the parameter is shown."""
    return None if parameter is None else _of(result, as_shown(result.reading, parameter))


def _of(result: Result, number: Decimal | None) -> Decimal | None:
    reported = result.reading.number
    if number is None or reported is None:
        return number
    return _rounded(number, len(reported.as_tuple().digits))


def _rounded(number: Decimal, digits: int) -> Decimal:
    """A figure to so many significant digits; one that has no more stays as it is."""
    if len(number.as_tuple().digits) <= digits:
        return number
    last = Decimal(1).scaleb(number.adjusted() - digits + 1)
    return number.quantize(last, rounding=ROUND_HALF_EVEN)
