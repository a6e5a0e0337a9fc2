"""From the cells of a row to a result, with what is odd about it."""

import re
from collections.abc import Collection
from dataclasses import dataclass, field, replace
from decimal import Decimal

from wellbook.book.rows import NewResult
from wellbook.intake.samples import codes
from wellbook.intake.samples.days import Days
from wellbook.intake.samples.decimals import commas
from wellbook.intake.samples.flags_beside import YES, below_limit, open_beside, with_words
from wellbook.intake.samples.formulas import basis_of, fraction_of
from wellbook.intake.samples.oddities import (
    NAMELESS,
    SECOND_BOTTLE,
    fits,
    is_second,
    left_out,
    oddities,
    of_care,
    two_units,
    unknown,
)
from wellbook.intake.words.doubts import beyond, largest, near_name
from wellbook.intake.words.lab_words import (
    SIGNS,
    SIGNS_APART,
    is_bad,
    is_fine,
    is_nothing,
    meant_by,
    of_sign,
    respelled_figure,
    says_some,
    sign_in_words,
    with_unit,
)
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.names import read_draw, read_name
from wellbook.intake.words.preamble import Facts
from wellbook.intake.words.remarks import flag_in, is_kept
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_
from wellbook.water.parsing.printed import as_printed, read_reading
from wellbook.water.units.basis import formula_in
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Severity
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading

ROLES = (
    Role.NAME,
    Role.CODE,
    Role.CAS,
    Role.RESULT,
    Role.SIGN,
    Role.REMARK,
    Role.CONDITION,
    Role.DETECTED,
    Role.UNIT,
    Role.BASIS,
    Role.FRACTION,
    Role.QUALIFIER,
    Role.REPORTING_LIMIT,
    Role.DETECTION_LIMIT,
    Role.LIMIT_UNIT,
    Role.LIMIT_TYPE,
    Role.METHOD,
    Role.ANALYSED,
    Role.ANALYSED_TIME,
    Role.DRAW,
    Role.STATUS,
    Role.KIND,
    Role.MEDIUM,
    Role.NOTE,
)
"""The columns that tell about one result; those of `samples.ROLES` tell about its sample."""

_NO_LIMIT = re.compile(
    r"upper|maximum|holding|uncertainty|confidence|standard|taxonomic", re.IGNORECASE
)
_DETECTION = re.compile(
    r"\bmdl\b|\bdetect\w* l\w+|instrument detection|long term method", re.IGNORECASE
)
_DRAWN = (Role.DRAW, Role.KIND)
_UNDETECTED = {"U", "ND", "BDL"}  # flags beside a result that is left blank
_NO = {"n", "no", "false", "0", "nd", "u", "not detected", "non-detect", "undetected"}


@dataclass(frozen=True, slots=True)
class Made:
    """A result, or why there is none, and what is odd about it.

    Attributes:
        most: The figure above which a reading of this row's kind is doubted; None if none is known.
    """

    result: NewResult | None
    troubles: tuple[Trouble, ...] = ()
    most: Decimal | None = None

    @property
    def doubts(self) -> tuple[str, ...]:
        """Keys of the questions about it."""
        return tuple(trouble.key for trouble in self.troubles if trouble.severity != Severity.NOTE)


@dataclass(frozen=True, slots=True)
class _Subject:
    """What a row is about, before its result is read."""

    parameter: Parameter | None
    printed: str
    unit: str
    basis: str
    fraction: str
    draw: str
    troubles: tuple[Trouble, ...]


_FIGURE = re.compile(r"^<?(?:0\.0*[1-9]\d{0,9}|[1-9]\d{0,6}(?:\.\d{1,9})?)$")


def is_figure(text: str) -> bool:
    """Whether a result is a plain number above zero, perhaps after a `<`."""
    return _FIGURE.match(text) is not None


def with_figure(made: Made, text: str) -> Made:
    """A result like one that was made, from a row that differs from its row in the figure alone.

    Reading a figure takes far longer than this, and a file may hold 100,000 of them.

    Args:
        made: What was made of the first such row; its result was a figure too, with a `<` or
            without one like this.
        text: The result in the new row.
    """
    old = made.result
    if old is None:
        return made
    reading = old.reading
    number = Decimal(text.lstrip("<")) if reading.number is not None else None
    new = Reading(
        text, reading.kind, number, reading.unit, reading.basis, reading.fraction, reading.flags
    )
    result = NewResult(
        old.parameter, old.name, new, old.method, old.reporting_limit, old.detection_limit,
        old.qualifier, old.lab, old.analysed, old.draw,
    )  # fmt: skip
    kept = tuple(trouble for trouble in made.troubles if trouble.key != "beyond")
    return _with_bound(Made(result, kept, made.most))


def _with_bound(made: Made) -> Made:
    """With the question about a figure that can hardly be, where it is one."""
    result = made.result
    if result is None or made.most is None or result.reading.number is None:
        return made
    if result.reading.number <= made.most:
        return made
    odd = beyond(result.name, result.reading.text, result.reading.unit)
    return replace(made, troubles=(*made.troubles, odd))


@dataclass(slots=True)
class Maker:
    """Makes results from rows; what repeats is worked out once.

    Attributes:
        catalogue: To look up what was measured.
        days: Reads the dates of the file.
        decimal_comma: Whether the file writes 0,5 for a half; None where each figure tells.
        believed: Printed names whose formula in brackets tells how they are counted.
    """

    catalogue: Catalogue
    days: Days
    decimal_comma: bool | None
    believed: Collection[str] = frozenset()
    _subjects: dict[tuple[str, ...], _Subject] = field(default_factory=dict)

    def make(self, cells: Facts, unit: str) -> Made:
        """A result from the cells of its row.

        Args:
            cells: What the row says, and what stands beside the table for all rows.
            unit: The unit in the heading of the column of results.
        """
        aside = left_out(cells)
        if aside:
            return Made(None, (aside,))
        subject = self._subject(cells, unit)
        if not subject.printed:
            return Made(None, (NAMELESS,))
        limits = _limits(cells)
        analysed, odd_day = self.days.read(
            cells.get(Role.ANALYSED, ""),
            cells.get(Role.ANALYSED_TIME, ""),
            "",
            N_("day of analysis"),
        )
        reading = self._reading(cells, subject, limits.get("any", ""))
        result = NewResult(
            parameter=subject.parameter.key if subject.parameter else "",
            name=subject.printed,
            reading=_flagged(reading, cells),
            method=cells.get(Role.METHOD, ""),
            reporting_limit=limits.get("reporting", ""),
            detection_limit=limits.get("detection", ""),
            qualifier=_qualifier(cells),
            analysed=analysed,
            draw=subject.draw,
        )
        care = of_care(result)
        if care:
            return Made(None, (care,))
        most = largest(subject.parameter, reading.unit, reading.basis)
        troubles = (*subject.troubles, *odd_day, *oddities(result, subject.parameter))
        troubles += (SECOND_BOTTLE,) if is_second(cells) else ()
        troubles += open_beside(cells, result)
        return _with_bound(Made(result, troubles, most))

    def _subject(self, cells: Facts, unit: str) -> _Subject:
        roles = (
            *(Role.NAME, Role.CODE, Role.CAS, Role.UNIT, Role.BASIS, Role.FRACTION, Role.DRAW),
            Role.KIND,
        )
        key = (*(cells.get(role, "") for role in roles), unit, _unit_of_limit(cells))
        found = self._subjects.get(key)
        if found is None:
            found = self._subjects[key] = self._new_subject(cells, unit)
        return found

    def _new_subject(self, cells: Facts, unit: str) -> _Subject:
        printed = cells.get(Role.NAME) or cells.get(Role.CODE) or cells.get(Role.CAS, "")
        code = codes.look_up(cells[Role.CODE]) if cells.get(Role.CODE) else None
        name = read_name(printed, self.catalogue, cells.get(Role.CAS, ""))
        if name.parameter is None and code:
            name = replace(name, parameter=self.catalogue.parameters.get(code.parameter))
        unit = unit if fits(unit, name.parameter) else ""
        said = cells.get(Role.UNIT) or _unit_of_limit(cells) or name.unit or unit
        said = said or (code.unit if code else "")
        named = name.basis or (code.basis if code else "")
        basis, clash = basis_of(cells, said, named, name.parameter)
        if not basis and printed in self.believed:
            basis = formula_in(printed)
        fraction, odd = fraction_of(cells, name.fraction or (code.fraction if code else ""))
        near = None if name.parameter else near_name(printed, self.catalogue)
        if near:
            name = replace(name, parameter=near.parameter)
        strange = near.trouble if near else unknown(printed, name.parameter)
        units = two_units(name, printed, cells.get(Role.UNIT, ""))
        troubles = [t for t in (clash, odd, strange, units) if t]
        told = (cells.get(role, "") for role in _DRAWN)
        draw = name.draw or next(filter(None, map(read_draw, told)), "")
        draw = draw or cells.get(Role.DRAW, "")
        return _Subject(name.parameter, printed, said, basis, fraction, draw, tuple(troubles))

    def _is_comma(self, *texts: str) -> bool:
        """Whether a comma is the decimal mark of a figure."""
        return commas(texts).are_decimal if self.decimal_comma is None else self.decimal_comma

    def _reading(self, cells: Facts, subject: _Subject, limit: str) -> Reading:
        if subject.unit == SIGNS:
            subject = replace(subject, unit="")
            sign = of_sign(_text(cells))
            if sign is not None:
                return replace(read_reading("present" if sign else "absent"), text=_text(cells))
        reading = read_reading(
            _text(cells),
            unit=subject.unit,
            basis=subject.basis,
            fraction=subject.fraction,
            qualifier=with_words(cells, _meaning_of_flags(cells)),
            limit=limit,
            decimal_comma=self._is_comma(_text(cells), limit),
        )
        is_presence = subject.parameter is not None and subject.parameter.scale == "presence"
        is_bare = is_presence and not subject.unit and not is_nothing(reading.text)
        if reading.kind is Kind.TEXT and is_bare:  # a bare P or A
            reading = replace(read_reading(_text(cells), unit="P/A"), unit="")
        if reading.kind is not Kind.TEXT:
            return reading
        return self._in_other_spelling(reading, subject) or _in_other_words(reading, subject, limit)

    def _in_other_spelling(self, reading: Reading, subject: _Subject) -> Reading | None:
        """A reading whose figure is spelled in an unusual way; its text stays as printed."""
        is_comma = self._is_comma(reading.text)
        respelled = respelled_figure(reading.text, decimal_comma=is_comma)
        if not respelled:
            return None
        read = read_reading(
            respelled,
            unit=subject.unit,
            basis=subject.basis,
            fraction=subject.fraction,
            decimal_comma=is_comma,
        )
        if read.kind is Kind.TEXT:
            return None
        return replace(read, text=reading.text, unit=as_printed(read.unit, reading.text))


def _in_other_words(reading: Reading, subject: _Subject, limit: str) -> Reading:
    """A reading in the words of another language; its text stays as printed."""
    word, unit = with_unit(reading.text)
    inside, beside = understand(unit), understand(subject.unit)
    if inside and beside and inside.label != beside.label and any(map(str.isdigit, word)):
        return reading  # two units are printed
    meant = meant_by(word) or (word if unit else "")
    is_presence = subject.parameter is not None and subject.parameter.scale == "presence"
    if is_presence and (is_fine(word) or is_bad(word)):
        return replace(reading, kind=Kind.ABSENT if is_fine(word) else Kind.PRESENT)
    answer = says_some(word) if is_presence else None
    if answer is not None:
        return replace(reading, kind=Kind.PRESENT if answer else Kind.ABSENT)
    if meant == "absent" and not is_presence:
        meant = word if unit else ""  # such as `None detected mg/L`
    if not meant:
        return reading
    unit = subject.unit or unit
    read = read_reading(meant, unit=unit, basis=subject.basis, limit=limit)
    kind, number = read.kind, read.number
    if is_presence and kind is Kind.BELOW and number is None:
        kind = Kind.ABSENT
    flags, basis = reading.flags | read.flags, reading.basis or read.basis
    return replace(reading, kind=kind, number=number, unit=unit, basis=basis, flags=flags)


def _unit_of_limit(cells: Facts) -> str:
    """The unit of the limit, where a result that says only `not detected` prints none itself."""
    return "" if cells.get(Role.UNIT) or cells.get(Role.RESULT) else cells.get(Role.LIMIT_UNIT, "")


def _limits(cells: Facts) -> dict[str, str]:
    """Reporting and detection limit, and `any`: the one to take for a non-detect."""
    reporting, detection = cells.get(Role.REPORTING_LIMIT, ""), cells.get(Role.DETECTION_LIMIT, "")
    kind = cells.get(Role.LIMIT_TYPE, "")
    if kind and _NO_LIMIT.search(kind):
        reporting = ""
    elif kind and _DETECTION.search(kind) and not detection:
        reporting, detection = "", reporting
    other = cells.get(Role.LIMIT_UNIT, "")
    if other and cells.get(Role.UNIT) and understand(other) != understand(cells[Role.UNIT]):
        # In another unit than the result: kept with it, and of no use for the result's figure.
        return {
            "reporting": f"{reporting} {other}" if reporting else "",
            "detection": f"{detection} {other}" if detection else "",
        }
    return {"reporting": reporting, "detection": detection, "any": reporting or detection}


def _text(cells: Facts) -> str:
    """The result as printed; a sign in a column of its own is put before it."""
    text = cells.get(Role.RESULT, "")
    is_denied = cells.get(Role.DETECTED, "").casefold() in _NO
    if not text:
        signs = (cells.get(role, "") for role in (Role.CONDITION, Role.SIGN, Role.QUALIFIER))
        said = next((sign for sign in signs if meant_by(sign) or sign in _UNDETECTED), "")
        said = said or below_limit(cells)
        return cells.get(Role.CONDITION, "") or said or ("not detected" if is_denied else "")
    if is_denied and is_nothing(text):
        return "not detected"
    sign = sign_in_words(cells.get(Role.SIGN, "")) or cells.get(Role.REMARK, "")
    if cells.get(Role.SIGN, "").casefold() in YES:  # a column that asks `Less than?`
        sign = "<"
    if sign in SIGNS_APART and text[0] not in "<>≤≥":
        return sign + text
    return "<" + text if is_denied and text[0].isdigit() else text


def _qualifier(cells: Facts) -> str:
    roles = (Role.QUALIFIER, Role.SIGN, Role.REMARK)
    parts = [cells[role] for role in roles if cells.get(role, "") not in {"", *SIGNS_APART}]
    note = cells.get(Role.NOTE, "")
    return " ".join([*parts, note] if is_kept(note) else parts)


def _meaning_of_flags(cells: Facts) -> str:
    remark = cells.get(Role.REMARK, "")
    meant = codes.REMARKS.get(remark, "")
    sign = cells.get(Role.SIGN, "")
    sign = "" if sign in SIGNS_APART or sign.casefold() in YES | _NO else sign
    parts = (cells.get(Role.QUALIFIER, ""), meant, sign, flag_in(cells.get(Role.NOTE, "")))
    return " ".join(filter(None, parts))


def _flagged(reading: Reading, cells: Facts) -> Reading:
    added = set()
    if is_second(cells):
        added.add(Flag.DUPLICATE)
    if cells.get(Role.STATUS, "").casefold() == "rejected":
        added.add(Flag.REJECTED)
    return replace(reading, flags=reading.flags | added) if added else reading
