"""From the text that a lab printed to a reading, and back.

Nothing is guessed: what is not understood becomes `Kind.TEXT`, keeps its text, and is never
judged. The text itself is always kept as it was printed.
"""

import re
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache

from wellbook.water.parsing import lab_phrases
from wellbook.water.units.basis import understand_basis
from wellbook.water.units.spellings import COUNT, PRESENCE, Unit, basis_in, understand
from wellbook.water.values.readings import Flag, Fraction, Kind, Reading
from wellbook.water.values.signs import plain

_POWER = r"(?:[eE][+-]?\d{1,2}|\s?x\s?10\s?\^\s?[+-]?\d{1,2})?"
_WITH_POINT = rf"[+-]?(?:[1-9]\d{{0,2}}(?:,\d{{3}})+(?:\.\d+)?|\d+\.?\d*|\.\d+){_POWER}"
_WITH_COMMA = (
    rf"[+-]?(?:[1-9]\d{{0,2}}(?:[. ]\d{{3}})+(?:,\d+)?(?!\d)|\d+(?:,\d+)?(?![.,\d])|,\d+){_POWER}"
)
_SIGNS = r"<=|>=|<|>|=|~|(?:ca|approx|about|est)\.?(?=[ \d])"
_UNDETECTED = r"n\.?d\.?|not detected|none detected|non-?detect(?:ed)?|b[dr]l|bmdl|bql|u"
_BETWEEN = r"[\s(@:,<=]*(?:(?:at|mdl|rl|dl|pql|mrl|loq|lod|limit)\b[\s:=<]*)*"
_UNCERTAINTY = re.compile(r"^\s*(?:±|\+/-|\+-)\s*\d*[.,]?\d+\s*")
_DIGIT = re.compile(r"[0-9]")
_POWER_OF_TEN = re.compile(r"\s?x\s?10\s?\^\s?", re.IGNORECASE)
_VOLUME = re.compile(r"\s*(?:/|per|in)\s*100\s*ml\.?$", re.IGNORECASE)
_LONGEST = 40  # digits; nothing that a lab measures needs more


_NUMBER_FIRST, _UNDETECTED_FIRST = "number first", "undetected first"
_PATTERNS = {
    (name, comma): re.compile(pattern.replace("NUMBER", number), re.IGNORECASE)
    for comma, number in ((False, _WITH_POINT), (True, _WITH_COMMA))
    for name, pattern in (
        (_NUMBER_FIRST, rf"^(?P<sign>{_SIGNS})?\s*(?P<number>NUMBER)(?!\d)(?P<tail>.*)$"),
        (
            _UNDETECTED_FIRST,
            rf"^(?P<sign>{_UNDETECTED})(?![a-z]){_BETWEEN}(?P<number>NUMBER)(?P<tail>[^)]*\)?[^()]*)$",
        ),
    )
}
_KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}
_NO_FLAGS: frozenset[Flag] = frozenset()
_ABOUT = frozenset("~cae")  # about, approx, ca., est.
_FRACTIONS = (
    (re.compile(r"^(?:total|unfiltered|whole)\b"), Fraction.TOTAL),
    (re.compile(r"^(?:dissolved|filtered|filterable)\b"), Fraction.DISSOLVED),
)


@dataclass(frozen=True, slots=True)
class _Column:
    """What stands beside the result on its row, understood once for many rows."""

    understood: Unit | None
    basis: str
    fraction: str
    remark: str
    sign: str
    flags: frozenset[Flag]
    undetected: bool
    limit: str
    decimal_comma: bool

    @property
    def quantity(self) -> str:
        return self.understood.quantity if self.understood else ""


@dataclass(frozen=True, slots=True)
class _Found:
    sign: str
    number: Decimal
    unit: str
    letters: str


@dataclass(frozen=True, slots=True)
class _Said:
    kind: Kind
    number: Decimal | None = None
    unit: str = ""
    flags: frozenset[Flag] = frozenset()


def read_reading(
    text: str,
    *,
    unit: str = "",
    basis: str = "",
    fraction: str = "",
    qualifier: str = "",
    limit: str = "",
    decimal_comma: bool = False,
) -> Reading:
    """Understand one result as printed. Never raises.

    Args:
        text: The result, e.g. `<0.005`, `0.12 J`, `absent/100 mL`.
        unit: The unit's own column.
        basis: The basis, if it has a column or stands in the parameter's name.
        fraction: Total, dissolved, filtered and so on.
        qualifier: Flag letters or a remark in a column of their own.
        limit: The reporting limit's column, used where the result says only `ND`.
        decimal_comma: Whether the sheet writes 0,5 for a half.
    """
    column = _column(unit, basis, fraction, qualifier, limit, decimal_comma)
    said = _with_column(_said(plain(text), column), column)
    return Reading(
        text=text,
        kind=said.kind,
        number=said.number,
        unit=as_printed(said.unit, text) if said.unit and not column.understood else unit,
        basis=column.basis or basis_in(said.unit),
        fraction=column.fraction,
        flags=said.flags | column.flags if column.flags else said.flags,
    )


def as_printed(unit: str, text: str) -> str:
    """A unit as it stands in a text whose signs were made plain: `µg/l`, not `ug/l`."""
    if unit in text:
        return unit
    words = " ".join(text.split())
    signs = plain(words).casefold()
    at = signs.rfind(plain(unit).casefold())
    is_same = len(signs) == len(words) and at >= 0
    return words[at : at + len(unit)] if is_same else unit


def format_reading(reading: Reading) -> str:
    """One plain way to write a reading, which `read_reading` reads back to the same meaning."""
    if reading.kind is Kind.TEXT:
        return reading.text
    letters = " ".join(sorted(lab_phrases.LETTERS[flag] for flag in reading.flags))
    return f"{_figure(reading)} {letters}".strip()


def _figure(reading: Reading) -> str:
    if reading.number is not None:
        sign = {Kind.BELOW: "<", Kind.ABOVE: ">"}.get(reading.kind, "")
        return f"{sign}{reading.number:f}"
    words = {Kind.BELOW: "BDL", Kind.ABOVE: "off scale"}
    return words.get(reading.kind, reading.kind.value)


@lru_cache(maxsize=1024)
def _column(
    unit: str,
    basis: str,
    fraction: str,
    qualifier: str,
    limit: str,
    decimal_comma: bool,  # noqa: FBT001
) -> _Column:
    remark = plain(qualifier)
    flags, undetected = lab_phrases.flags(remark)
    return _Column(
        understood=understand(unit),
        basis=understand_basis(basis) or basis or basis_in(unit),
        fraction=_fraction(fraction),
        remark=remark,
        sign=remark[0] if remark[:1] in _KINDS else "",
        flags=flags,
        undetected=undetected,
        limit=plain(limit),
        decimal_comma=decimal_comma,
    )


def _said(text: str, column: _Column) -> _Said:
    if not text:
        text = column.remark if lab_phrases.is_phrase(column.remark, column.quantity) else ""
    if not text:
        return _Said(Kind.BELOW if column.undetected else Kind.NONE)
    figure = None
    if _DIGIT.search(text):
        figure = _number_first(text, column) or _undetected_first(text, column)
    return figure or _words(text, column) or _Said(Kind.TEXT)


def _number_first(text: str, column: _Column) -> _Said | None:
    found = _find(text, column, _NUMBER_FIRST)
    if found is None:
        return None
    flags, undetected = lab_phrases.flags(found.letters) if found.letters else (_NO_FLAGS, False)
    if found.sign[:1] in _ABOUT:
        flags |= {Flag.ESTIMATED}
    kind = _KINDS.get((found.sign or column.sign)[:1], Kind.NUMBER)
    if undetected or column.undetected:
        if kind is Kind.ABOVE:
            return None
        kind = Kind.BELOW
    return _Said(kind, found.number, found.unit, flags)


def _undetected_first(text: str, column: _Column) -> _Said | None:
    found = _find(text, column, _UNDETECTED_FIRST)
    if found is None:
        return None
    return _Said(Kind.BELOW, found.number, found.unit, lab_phrases.flags(found.letters)[0])


def _words(text: str, column: _Column) -> _Said | None:
    unit = "/100 mL" if _VOLUME.search(text) else ""
    quantity = column.quantity or (COUNT if unit else "")
    tokens = _VOLUME.sub("", text).split(" ")
    for end in range(len(tokens), 0, -1):
        meant = lab_phrases.meaning(" ".join(tokens[:end]), quantity)
        if meant and all(map(lab_phrases.is_flag, tokens[end:])):
            kind, flags = meant
            return _Said(kind, None, unit, flags | lab_phrases.flags(" ".join(tokens[end:]))[0])
    grown = lab_phrases.overgrown(text)
    return _Said(grown[0], None, unit, grown[1]) if grown else None


def _with_column(said: _Said, column: _Column) -> _Said:
    """Take a non-detect's limit from its column where the result itself gives none."""
    if said.kind is not Kind.BELOW or (said.number is not None and said.number > 0):
        return said
    found = _find(column.limit, column, _NUMBER_FIRST)
    if found is None or found.number <= 0:
        return replace(said, number=None)
    return replace(said, number=found.number, unit=said.unit or found.unit)


def _find(text: str, column: _Column, pattern: str) -> _Found | None:
    """A number with its sign, unit and flags; None if any part of the text is not understood."""
    match = _PATTERNS[pattern, column.decimal_comma].match(text)
    if match is None or len(match["number"]) > _LONGEST:
        return None
    after = _UNCERTAINTY.sub("", match["tail"])
    if pattern == _UNDETECTED_FIRST:
        after = after.replace(")", " ")  # a unit may stand in the bracket of the limit or behind it
    tail = _tail(after, column) if after else ("", "")
    if tail is None:
        return None
    number = _number(match["number"], decimal_comma=column.decimal_comma)
    return _Found((match["sign"] or "").casefold(), number, *tail)


def _number(text: str, *, decimal_comma: bool) -> Decimal:
    if "^" in text:
        text = _POWER_OF_TEN.sub("E", text)
    if decimal_comma:
        text = text.replace(".", "").replace(" ", "")
    return Decimal(text.replace(",", "." if decimal_comma else ""))


def _tail(text: str, column: _Column) -> tuple[str, str] | None:
    """What follows a number, as unit and flags; None if a part of it is not understood."""
    tokens = text.split()
    if all(map(lab_phrases.is_known_flag, tokens)):
        return "", text
    for end in range(len(tokens), -1, -1):
        for unit, letters in (
            (tokens[:end], tokens[end:]),
            (tokens[len(tokens) - end :], tokens[: len(tokens) - end]),
        ):
            printed = " ".join(unit).strip("()[]") if unit else ""
            if "(" in printed and ")" not in printed:  # `mg/L (as N)`
                printed += ")"
            if all(map(lab_phrases.is_flag, letters)) and _is_unit(printed, column):
                return printed, " ".join(letters)
    return None


def _is_unit(text: str, column: _Column) -> bool:
    """Whether a text after a number is a unit that agrees with the unit's own column."""
    if not text:
        return True
    inside, beside = understand(text), column.understood
    if inside is None or (len(text) == 1 and text.casefold() not in {"c", "f", "%"}):
        return False
    if beside is None or inside.label == beside.label:
        return True
    return {inside.quantity, beside.quantity} <= {COUNT, PRESENCE}


def _fraction(text: str) -> str:
    lowered = plain(text).casefold()
    for pattern, name in _FRACTIONS:
        if pattern.match(lowered):
            return name
    return "" if lowered == "none" else lowered
