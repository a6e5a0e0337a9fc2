"""All tables as one workbook (XLSX): figures and days as such, all else text that is never run.

What a lab printed stays text, letter by letter.
"""

import io
import re
import zipfile
from collections.abc import Callable, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from wellbook.sharing.fields import Field
from wellbook.sharing.tables import TableFile

FILE = "wellbook.xlsx"
_PAPERS = {"letter": 1, "a4": 9}  # their numbers in the format (ECMA-376, 18.3.1.63)
_LONGEST = 32_767  # signs that a cell holds, by the format
_WIDEST = 60
_ALWAYS = datetime(2000, 1, 1)  # so that bytes repeat; the tables hold the true days
_PROPERTIES = "docProps/core.xml"
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")
_FIGURES = frozenset({"bytes", "calendar months"})
_PLAIN = re.compile(r"-?\d+(?:\.(\d+))?")
_DAY = re.compile(r"(?:19|20)\d\d-\d\d-\d\d")  # the format knows no day before 1900
_TIME = re.compile(r"(?:19|20)\d\d-\d\d-\d\dT\d\d:\d\d")
_DIGITS = 15  # that the format keeps of a figure
_ZIP_DAY = (2000, 1, 1, 0, 0, 0)


Value = tuple[Any, str]  # what a cell holds and how it is shown; both empty where it is text
Reader = Callable[[str], Value]


def workbook(tables: Sequence[TableFile], paper: str = "letter") -> bytes:
    """The bytes of a workbook with one sheet for each table, printed across the paper.

    A text longer than a cell holds goes on in the columns after the last one.
    """
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.active)
    book.properties.creator = "Wellbook"
    book.properties.created = _ALWAYS
    for table in tables:
        sheet = book.create_sheet(table.file.removesuffix(".csv")[:31])
        names = [field.name for field in table.fields]
        _fill(sheet, 1, names, [_text] * len(names))
        readers = [_reader(field) for field in table.fields]
        for place, row in enumerate(table.rows, start=2):
            _fill(sheet, place, row, readers)
        sheet.freeze_panes = "A2"
        sheet.auto_filter.ref = sheet.dimensions
        sheet.page_setup.paperSize = _PAPERS[paper]
        sheet.page_setup.orientation = "landscape"
        for number, name in enumerate(names, start=1):
            longest = max([len(name), *(len(row[number - 1]) for row in table.rows[:200])])
            letter = sheet.cell(1, number).column_letter
            sheet.column_dimensions[letter].width = min(longest + 2, _WIDEST)
    content = io.BytesIO()
    book.save(content)
    return _same_every_time(content.getvalue())


def _fill(sheet: object, place: int, row: Sequence[str], readers: Sequence[Reader]) -> None:
    overflow: list[str] = []
    for number, (text, read) in enumerate(zip(row, readers, strict=True), start=1):
        value, written = read(text)
        _write(sheet, (place, number), value if written else text[:_LONGEST], written)
        overflow += [text[n : n + _LONGEST] for n in range(_LONGEST, len(text), _LONGEST)]
    for number, text in enumerate(overflow, start=len(row) + 1):
        _write(sheet, (place, number), text, "")


def _reader(field: Field) -> Reader:
    """How the cells of a column are read, by the unit or notation that it declares."""
    if field.unit == "ISO 8601":
        return _day
    return _figure if field.unit in _FIGURES or field.unit.startswith("see the column") else _text


def _text(_unused: str) -> Value:
    return "", ""


def _figure(text: str) -> Value:
    """A figure, shown with the decimals that it was written with."""
    found = _PLAIN.fullmatch(text)
    if found is None or len(text.lstrip("-").replace(".", "").lstrip("0")) > _DIGITS:
        return "", ""
    return Decimal(text), "0" + (f".{'0' * len(found[1])}" if found[1] else "")


def _day(text: str) -> Value:
    """A whole day or a local time; what is less, or has an offset, stays as it was written."""
    try:
        if _DAY.fullmatch(text):
            return date.fromisoformat(text), "yyyy-mm-dd"
        if _TIME.fullmatch(text):
            return datetime.fromisoformat(text), "yyyy-mm-dd hh:mm"
    except ValueError:
        return "", ""
    return "", ""


def _write(sheet: object, place: tuple[int, int], value: Any, written: str) -> None:
    """A figure or a day, or text that stays text whatever it starts with or is edited to."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    if value in {"", None}:
        return
    cell = sheet.cell(*place)  # type: ignore[attr-defined]  # openpyxl is untyped
    if written:
        cell.value = value
        cell.number_format = written
        return
    cell.value = ILLEGAL_CHARACTERS_RE.sub("�", value)
    cell.data_type = "s"
    cell.number_format = "@"
    cell.quotePrefix = True


def _same_every_time(content: bytes) -> bytes:
    """The same archive with a fixed day on each of its files."""
    made = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            entry = zipfile.ZipInfo(name, _ZIP_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            part = old.read(name)
            if name == _PROPERTIES:  # saving writes the time of the day into it
                part = _MODIFIED.sub(rb"\g<1>2000-01-01T00:00:00Z\g<2>", part)
            new.writestr(entry, part)
    return made.getvalue()
