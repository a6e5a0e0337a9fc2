"""All tables as one workbook (XLSX), every cell text, so that nothing in it is ever run."""

import io
import re
import zipfile
from collections.abc import Sequence
from datetime import datetime

from wellbook.sharing.tables import TableFile

FILE = "wellbook.xlsx"
_PAPERS = {"letter": 1, "a4": 9}  # their numbers in the format (ECMA-376, 18.3.1.63)
_LONGEST = 32_767  # signs that a cell holds, by the format
_WIDEST = 60
_ALWAYS = datetime(2000, 1, 1)  # so that bytes repeat; the tables hold the true days
_PROPERTIES = "docProps/core.xml"
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")
_ZIP_DAY = (2000, 1, 1, 0, 0, 0)


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
        for place, row in enumerate([names, *table.rows], start=1):
            _fill(sheet, place, row)
        sheet.freeze_panes = "A2"
        sheet.page_setup.paperSize = _PAPERS[paper]
        sheet.page_setup.orientation = "landscape"
        for number, name in enumerate(names, start=1):
            longest = max([len(name), *(len(row[number - 1]) for row in table.rows[:200])])
            letter = sheet.cell(1, number).column_letter
            sheet.column_dimensions[letter].width = min(longest + 2, _WIDEST)
    content = io.BytesIO()
    book.save(content)
    return _same_every_time(content.getvalue())


def _fill(sheet: object, place: int, row: Sequence[str]) -> None:
    overflow: list[str] = []
    for number, text in enumerate(row, start=1):
        _write(sheet, place, number, text[:_LONGEST])
        overflow += [text[n : n + _LONGEST] for n in range(_LONGEST, len(text), _LONGEST)]
    for number, text in enumerate(overflow, start=len(row) + 1):
        _write(sheet, place, number, text)


def _write(sheet: object, row: int, column: int, text: str) -> None:
    """A cell that is text whatever it starts with, and stays text when somebody edits it."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    if not text:
        return
    cell = sheet.cell(row, column)  # type: ignore[attr-defined]  # openpyxl is untyped
    cell.value = ILLEGAL_CHARACTERS_RE.sub("�", text)
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
