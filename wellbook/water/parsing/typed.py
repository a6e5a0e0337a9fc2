"""Figures as a person types them: a comma may be the decimal sign or part the thousands.

A lab's file is read as a whole and settles it for every figure in it (`intake`). A figure that is
typed stands alone: `0,71` and `12,5` can only be decimals and `1,234,000` only thousands, but
`1,234` can be either, a factor of 1000 apart. Who typed it is asked; nothing is guessed. The point
is always the decimal sign unless a decimal comma follows it (`1.234,5`).
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from wellbook.water.values.readings import Kind, Reading

_FIGURE = re.compile(r"\d+(?:[.,]\d+)+|(?<![\d.,]),\d+")
_GROUP_SPACE = re.compile(r"(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))")
_BASIS = re.compile(r"(?:^|\s+)(as\s+[A-Z]\S*)(?:\s+|$)", re.IGNORECASE)
_GROUP = 3  # digits between two signs that part the thousands


def comma_is_decimal(text: str) -> bool | None:
    """Whether the comma in a typed text is the decimal sign; None if it can be either."""
    told = {_in_figure(figure) for figure in _FIGURE.findall(text) if "," in figure}
    if True in told:
        return True
    return None if None in told else False


def _in_figure(figure: str) -> bool | None:
    before, _, after = figure.rpartition(",")
    if "." in figure:
        return "," not in before and "." not in after
    if "," in before:
        return False
    is_group = len(after) == _GROUP and 1 <= len(before) <= _GROUP and before[0] != "0"
    return None if is_group else True


def meanings(text: str) -> tuple[str, str] | None:
    """An unsettled text with its figure as a decimal and as thousands; None if it is settled."""
    if comma_is_decimal(text) is not None:
        return None
    return with_point(text, is_decimal=True), with_point(text, is_decimal=False)


def with_point(text: str, *, is_decimal: bool) -> str:
    """A typed text with points for decimal signs and nothing between the thousands."""
    if "," not in text:
        return text
    if is_decimal:
        text = _GROUP_SPACE.sub("", text)
    return _FIGURE.sub(lambda found: _pointed(found[0], is_decimal=is_decimal), text)


def _pointed(figure: str, *, is_decimal: bool) -> str:
    if "," not in figure:
        return figure
    if is_decimal:
        return figure.replace(".", "").replace(",", ".")
    return figure.replace(",", "")


def shown_with_point(reading: Reading) -> str:
    """The text of a reading with the point for its decimal sign, where it was printed otherwise."""
    found = _FIGURE.search(reading.text)
    if found is None or "," not in found[0] or reading.number is None:
        return reading.text
    figure = _pointed(found[0], is_decimal=True)
    if figure.count(".") != 1 or Decimal(figure) != abs(reading.number):
        return reading.text
    return reading.text[: found.start()] + figure + reading.text[found.end() :]


def read_typed(
    text: str, *, unit: str = "", basis: str = "", limit: str = "", is_decimal: bool = False
) -> Reading:
    """Understand one result as typed. Never raises; the text is kept as it was typed.

    Args:
        text: The result.
        unit: Its unit.
        basis: Its basis.
        limit: Its reporting limit.
        is_decimal: What a comma that can be either is; asked of who typed it.
    """
    from wellbook.water.parsing.printed import read_reading

    reading = read_reading(
        typed_with_point(text, is_decimal=is_decimal),
        unit=unit,
        basis=basis,
        limit=typed_with_point(limit, is_decimal=is_decimal),
    )
    return replace(reading, text=text)


def typed_with_point(text: str, *, is_decimal: bool) -> str:
    """A typed text with a decimal point; `is_decimal` counts where the comma can be either."""
    told = comma_is_decimal(text)
    decimal = is_decimal if told is None else told
    return with_point(text, is_decimal=True) if decimal else text  # thousands are read as printed


@dataclass(frozen=True, slots=True)
class TypedLine:
    """A line of a report that was typed as a whole, in its parts; unit and basis may be empty."""

    name: str
    figure: str
    unit: str
    basis: str


def typed_line(text: str, is_known: Callable[[str], bool]) -> TypedLine | None:
    """Part a typed line such as `Iron <0.05 mg/L`; None where it is a name alone, or unclear.

    The longest known name counts, so that a number in a name (`Radium 226`) is never its figure.

    Args:
        text: The line.
        is_known: Whether a name is one of a parameter.
    """
    words = text.split()
    for count in range(len(words), 0, -1):
        name, rest = " ".join(words[:count]), " ".join(words[count:])
        if is_known(name):
            return _parted(name, rest) if rest else None
    return None


def _parted(name: str, rest: str) -> TypedLine | None:
    from wellbook.water.parsing.printed import read_reading

    found = _BASIS.search(rest)
    basis = found[1] if found else ""
    rest = _BASIS.sub(" ", rest).strip()
    reading = read_typed(rest)
    if reading.kind in {Kind.TEXT, Kind.NONE}:
        return None
    unit = rest[-len(reading.unit) :] if reading.unit else ""  # as printed: µg/L, not ug/L
    if read_reading(f"1 {unit}").unit != reading.unit:
        unit = reading.unit
    figure = rest.removesuffix(unit).rstrip() if unit else rest
    return TypedLine(name, figure or rest, unit, basis or reading.basis)
