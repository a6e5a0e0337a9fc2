"""Readings in rows and columns that a workbook hides: each of them is asked about."""

import io
import zipfile

import openpyxl
import pytest
import xlwt

from wellbook.intake import mending
from wellbook.intake.files.hidden_parts import hidden_in

HEAD = ["Parameter", "Result", "Unit", "Date collected"]
ROWS = [
    ["Lead", 2.1, "ug/L", "2024-05-13"],
    ["Iron", 0.3, "mg/L", "2024-05-13"],
    ["Chloride", 21, "mg/L", "2024-05-13"],
]


def xlsx(change, rows=(HEAD, *ROWS)):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Results"
    for row in rows:
        sheet.append(row)
    change(sheet)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def hide_row(sheet):
    sheet.row_dimensions[3].hidden = True


def flattened():
    """A workbook whose third row has no height."""
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(xlsx(lambda _sheet: None))) as old,
        zipfile.ZipFile(stream, "w") as new,
    ):
        for part in old.namelist():
            text = old.read(part).replace(b'<row r="3"', b'<row r="3" ht="0" customHeight="1"')
            new.writestr(part, text)
    return stream.getvalue()


def fold_row(sheet):
    sheet.row_dimensions.group(3, 3, hidden=True)


def packed_ods(content):
    """A workbook of OpenDocument around the text of its content."""
    manifest = "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("content.xml", content)
        archive.writestr("META-INF/manifest.xml", f"<m:manifest xmlns:m='{manifest}'/>")
    return stream.getvalue()


def ods():
    """Iron's row is hidden, after two alike."""
    cell = "<table:table-cell office:value-type='string'><text:p>{}</text:p></table:table-cell>"
    rows = [HEAD, *ROWS]
    hidden = {2: " table:visibility='filter'"}
    lines = "".join(
        f"<table:table-row{hidden.get(i, '')}>{''.join(cell.format(c) for c in row)}"
        "</table:table-row>"
        for i, row in enumerate(rows)
    )
    names = "urn:oasis:names:tc:opendocument:xmlns:"
    text = (
        f"<office:document-content xmlns:office='{names}office:1.0' xmlns:table='{names}table:1.0'"
        f" xmlns:text='{names}text:1.0' office:version='1.3'><office:body><office:spreadsheet>"
        f"<table:table table:name='Results'><table:table-column/>{lines}</table:table>"
        "</office:spreadsheet></office:body></office:document-content>"
    )
    return packed_ods(text)


def xls(change, rows=(HEAD, *ROWS)):
    """An old workbook (BIFF8), as xlwt writes it."""
    book = xlwt.Workbook()
    sheet = book.add_sheet("Results")
    for r, row in enumerate(rows):
        for c, cell in enumerate(row):
            sheet.write(r, c, cell)
    change(sheet)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def hide_row_of_xls(sheet):
    sheet.row(2).hidden = 1


def doubts(draft):
    return {
        r.name: set(mark.doubts)
        for s in draft.samples
        for r, mark in zip(s.sample.results, s.marks, strict=True)
    }


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (xlsx(hide_row), "a.xlsx"),
        (flattened(), "b.xlsx"),
        (xlsx(fold_row), "c.xlsx"),
        (ods(), "d.ods"),
        (xls(hide_row_of_xls), "e.xls"),
    ],
    ids=["hidden", "no height", "folded", "filtered in ODS", "hidden in XLS"],
)
def test_a_reading_in_a_hidden_row_is_asked_about_and_no_other(draft_of, content, name):
    draft = draft_of(content, name)
    assert doubts(draft) == {"Lead": set(), "Iron": {"hidden_row"}, "Chloride": set()}
    (finding,) = [one for one in draft.findings if one.key == "hidden_row"]
    assert "(3)" in finding.text


COLUMNS = [
    ["Parameter", "Unit", "2024-05-13", "2024-11-23", "2025-05-13"],
    ["Lead", "ug/L", 2.1, 2.2, 2.3],
    ["Iron", "mg/L", 0.1, 0.2, 0.3],
]


def hide_columns(sheet):
    for letter in "DE":
        sheet.column_dimensions[letter].hidden = True


def hide_columns_of_xls(sheet):
    sheet.col(3).hidden = 1
    sheet.col(4).width = 0


@pytest.mark.parametrize(
    "content",
    [xlsx(hide_columns, COLUMNS), xls(hide_columns_of_xls, COLUMNS)],
    ids=["XLSX", "XLS"],
)
def test_readings_in_a_hidden_column_are_asked_about(draft_of, content):
    draft = draft_of(content)
    asked = {
        (one.sample.collected.iso(), mark.doubts) for one in draft.samples for mark in one.marks
    }
    hidden = ("hidden_column",)
    assert asked == {("2024-05-13", ()), ("2024-11-23", hidden), ("2025-05-13", hidden)}
    (finding,) = [one for one in draft.findings if one.key == "hidden_column"]
    assert "(D, E)" in finding.text


def test_a_hidden_row_of_one_sheet_makes_no_doubt_in_another(draft_of):
    def change(sheet):
        hide_row(sheet)
        other = sheet.parent.create_sheet("Second")
        for row in (HEAD, *ROWS):
            other.append([*row[:3], "2025-05-13" if row is not HEAD else row[3]])

    draft = draft_of(xlsx(change))
    asked = [(mark.place.sheet, mark.place.row) for s in draft.samples for mark in s.marks
             if mark.doubts]  # fmt: skip
    assert asked == [("Results", 3)]


def test_a_long_workbook_hides_rows_as_a_short_one():
    rows = [HEAD, *([["Lead", n, "ug/L", "2024-05-13"] for n in range(600)])]

    def hide(sheet):
        for number in range(400, 501):
            sheet.row_dimensions[number].hidden = True

    assert hidden_in(xlsx(hide, rows))["Results"].rows == set(range(400, 501))


def test_the_finding_goes_when_each_hidden_reading_was_looked_at(draft_of):
    draft = draft_of(xlsx(hide_row))
    after = mending.settled(draft, (0, 1))
    assert "hidden_row" not in {finding.key for finding in after.findings}
    assert all(mark.is_certain for mark in after.samples[0].marks)


@pytest.mark.parametrize("content", [b"PK\x03\x04 no archive", xlsx(hide_row)[:900]])
def test_a_harmed_workbook_hides_nothing_and_raises_nothing(content):
    assert hidden_in(content) == {}
