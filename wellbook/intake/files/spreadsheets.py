"""Workbooks: XLSX, XLS and ODS, as rows of text as the sheets show them."""

import io
import logging
import warnings
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, datetime, time
from itertools import islice
from typing import Any

from wellbook.intake.files import number_formats
from wellbook.intake.files.hidden_parts import Hidden, hidden_in, say_struck
from wellbook.intake.files.old_workbooks import of_facts
from wellbook.intake.files.sheets import Sheet
from wellbook.sandbox import process
from wellbook.sandbox.process import Parcel, ReadFailed
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

CELLS_WITH_FORMATS = 400_000  # beyond that the second reading takes too long
_ROWS, _COLUMNS = 1_000_000, 2_000

Formats = dict[tuple[int, int], str]
"""Number format of every cell that has one of its own, after a `=` where the cell is a formula."""

_Told = tuple[dict[str, list[list[Any]]], list[str], dict[str, Hidden]]
"""The cells of every visible sheet, the names of those that are not, and what each hides."""

_FORMULA = "="
_READER = "wellbook.intake.files.workbook_reader"
LOCKED = "locked"


def sheets(content: bytes, name: str, *, with_formats: bool) -> tuple[Sheet, ...]:
    """The visible sheets of a workbook.

    Args:
        content: The file.
        name: Its name, for the message.
        with_formats: Read the number formats too (XLSX only).

    Raises:
        Fault: It is damaged, locked with a password, or no workbook.
    """
    read = _values if with_formats or _is_zip(content) else _asked
    values, hidden, unseen = read(content, name)
    cells = sum(len(rows) * len(rows[0]) for rows in values.values() if rows)
    formats = _formats(content) if with_formats and cells <= CELLS_WITH_FORMATS else {}
    read_ones = (_sheet(title, rows, formats.get(title, {})) for title, rows in values.items())
    found = list(_with_hidden(read_ones, unseen))
    if hidden:
        text = _("Hidden sheets were left out: {hidden}.").format(hidden=", ".join(hidden))
        found.append(Sheet("", [], (Finding("hidden_sheet", text, severity=Severity.NOTE),)))
    return tuple(found)


def _with_hidden(found: Iterable[Sheet], unseen: Mapping[str, Hidden]) -> Iterator[Sheet]:
    for one in found:
        own = unseen.get(one.name, Hidden())
        rows, columns, struck = map(frozenset, (own.rows, own.columns, own.struck))
        out = []
        for (row, column), (left, text) in own.parts.items():
            if row <= len(one.rows) and column <= len(one.rows[row - 1]):
                one.rows[row - 1][column - 1] = left
                out.append(text)
        findings = (*one.findings, *say_struck(out))
        yield replace(one, findings=findings, hidden=rows, hidden_columns=columns, struck=struck)


def _is_zip(content: bytes) -> bool:
    return content.startswith(b"PK")


def _asked(content: bytes, name: str) -> _Told:
    """As `_values`, of a process of its own: in an old XLS nothing tells before how large it is."""
    try:
        told = process.ask(_READER, Parcel({}, content), seconds=process.SECONDS).facts
    except ReadFailed:
        raise _damaged(name) from None
    if told["trouble"] == LOCKED:
        raise _locked(name)
    if told["trouble"]:
        raise _damaged(name)
    return dict(told["sheets"]), list(told["hidden"]), of_facts(told["unseen"])


def texts_of(content: bytes) -> tuple[dict[str, list[list[str]]], list[str], str]:
    """Texts of every visible sheet, names of the hidden ones, and what is wrong with the file."""
    import python_calamine

    try:
        values, hidden = _read(content)
    except python_calamine.PasswordError:
        return {}, [], LOCKED
    except BaseException as error:
        # The library raises many kinds of its own; its panics are no Exception.
        if isinstance(error, KeyboardInterrupt | SystemExit | GeneratorExit):
            raise
        return {}, [], "damaged"
    texts = {
        title: [[_text(value, "") for value in row[:_COLUMNS]] for row in rows[:_ROWS]]
        for title, rows in values.items()
    }
    return texts, hidden, ""


def _read(content: bytes) -> tuple[dict[str, list[list[Any]]], list[str]]:
    import python_calamine

    workbook = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(content))
    values = {
        sheet.name: workbook.get_sheet_by_name(sheet.name).to_python(skip_empty_area=False)
        for sheet in workbook.sheets_metadata
        if sheet.visible == python_calamine.SheetVisibleEnum.Visible
        and sheet.typ == python_calamine.SheetTypeEnum.WorkSheet
    }
    return values, [s.name for s in workbook.sheets_metadata if s.name not in values]


def _locked(name: str) -> Fault:
    return Fault(
        _(
            "{name} is locked with a password. Open it in a spreadsheet program, save it "
            "without "
            "one, and take in that file."
        ).format(name=name)
    )


def _damaged(name: str) -> Fault:
    return Fault(
        _(
            "{name} can’t be read as a workbook: it is damaged, or of another kind than its "
            "name "
            "says. Ask for the file again, best as CSV."
        ).format(name=name)
    )


def _values(content: bytes, name: str) -> _Told:
    """As `_Told` says."""
    import python_calamine

    try:
        return *_read(content), hidden_in(content)
    except python_calamine.PasswordError:
        raise _locked(name) from None
    except BaseException as error:
        # The library raises many kinds of its own; its panics are no Exception.
        if isinstance(error, KeyboardInterrupt | SystemExit | GeneratorExit):
            raise
        logging.getLogger(__name__).info("workbook not read", exc_info=True)
        raise _damaged(name) from None


def _sheet(title: str, values: list[list[Any]], formats: Formats) -> Sheet:
    rows = [
        [
            _text(value, formats.get((r, c), "").lstrip(_FORMULA))
            for c, value in enumerate(row[:_COLUMNS])
        ]
        for r, row in enumerate(values[:_ROWS])
    ]
    empty = [
        (r, c)
        for (r, c), code in formats.items()
        if code.startswith(_FORMULA) and r < len(rows) and c < len(rows[r]) and not rows[r][c]
    ]
    return Sheet(title, rows, _uncomputed(title, empty))


def _uncomputed(title: str, empty: list[tuple[int, int]]) -> tuple[Finding, ...]:
    if not empty:
        return ()
    from openpyxl.utils import get_column_letter

    names = [f"{get_column_letter(c + 1)}{r + 1}" for r, c in empty]
    more = (" " + _("and {n} more").format(n=len(names) - 3)) if len(names) > 3 else ""  # noqa: PLR2004  enough to find
    text = _(
        "Formulas without a computed value in {names}{more}: open the file in a "
        "spreadsheet program, save it, and take it in again."
    ).format(names=", ".join(names[:3]), more=more)
    return (
        Finding("uncomputed", text, _("sheet {title}").format(title=title), severity=Severity.STOP),
    )


def _text(value: Any, code: str) -> str:
    if isinstance(value, str | bool):
        return str(value)
    if isinstance(value, int | float):
        number = float(value)
        return number_formats.shown(number, code) if code else number_formats.plain(number)
    if isinstance(value, datetime):
        whole = value.time() == time.min
        return value.date().isoformat() if whole else value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.isoformat("minutes")
    return str(value)


def _formats(content: bytes) -> dict[str, Formats]:
    """Formats of the cells of an XLSX file, sheet by sheet; none where it can't be read so."""
    import openpyxl

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about parts of the workbook that hold no cells
            book = openpyxl.load_workbook(io.BytesIO(content), read_only=True)
            return {sheet.title: dict(_of_cells(sheet)) for sheet in book.worksheets}
    except Exception:
        logging.getLogger(__name__).info("number formats not read", exc_info=True)
        return {}


def _of_cells(sheet: Any) -> Iterator[tuple[tuple[int, int], str]]:
    for row in islice(sheet.iter_rows(), _ROWS):
        for cell in row:
            if cell.value is None:
                continue
            code = "" if cell.number_format == "General" else cell.number_format
            if cell.data_type == "f":
                yield (cell.row - 1, cell.column - 1), _FORMULA + code
            elif cell.data_type == "n" and code:
                yield (cell.row - 1, cell.column - 1), code
