"""Rows in which something is struck through: each reading in them is asked about.

ECMA-376 part 1, 18.4.10 and 17.3.2.37 strike; HTML: s, del, text-decoration.
"""

import io
import zipfile

import openpyxl
import pytest
from drafts import TODAY, keys
from openpyxl.styles import Font

from wellbook import intake

HEAD = ["Parameter", "Result", "Unit", "Date collected"]
ROWS = [
    ["Lead", "2.1", "ug/L", "2024-05-13"],
    ["Iron", "0.3", "mg/L", "2024-05-13"],
    ["Chloride", "21", "mg/L", "2024-05-13"],
]


def xlsx(font):
    book = openpyxl.Workbook()
    for row in (HEAD, *ROWS):
        book.active.append(row)
    book.active.cell(3, 2).font = font
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def docx(mark):
    space = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"

    def cell(text):
        style = f"<w:rPr>{mark}</w:rPr>" if text == "0.3" else ""
        return f"<w:tc><w:p><w:r>{style}<w:t>{text}</w:t></w:r></w:p></w:tc>"

    rows = "".join(f"<w:tr>{''.join(map(cell, row))}</w:tr>" for row in (HEAD, *ROWS))
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as parts:
        text = f'<w:document xmlns:w="{space}"><w:body><w:tbl>{rows}</w:tbl></w:body></w:document>'
        parts.writestr("word/document.xml", text)
    return stream.getvalue()


def html(of_row, of_cell, ends="</td>"):
    def cell(text):
        return f"<td>{of_cell.format(text) if text == '0.3' else text}{ends}"

    def row(cells):
        return f"<tr{of_row if cells[0] == 'Iron' else ''}>{''.join(map(cell, cells))}"

    rows = "".join(map(row, (HEAD, *ROWS)))
    return f"<html><body><table>{rows}</table></body></html>".encode()


STRUCK = {
    "font.xlsx": lambda: xlsx(Font(strike=True)),
    "strike.docx": lambda: docx("<w:strike/>"),
    "twice.docx": lambda: docx('<w:dstrike w:val="1"/>'),
    "s.html": lambda: html("", "<s>{}</s>"),
    "del.html": lambda: html("", "<del><b>{}</b></del>"),
    "row.html": lambda: html(' style="text-decoration: line-through"', "{}"),
    "open.html": lambda: html(' style="text-decoration: line-through"', "{}", ends=""),
}
PLAIN = {
    "bold.xlsx": lambda: xlsx(Font(bold=True)),
    "off.docx": lambda: docx('<w:strike w:val="0"/>'),
    "plain.html": lambda: html("", "<span>{}</span>"),
}


def draft_of_file(catalogue, folder, name, content):
    path = folder / name
    path.write_bytes(content)
    return intake.read(path, catalogue, today=TODAY)


@pytest.mark.parametrize("name", sorted(STRUCK))
def test_a_reading_that_is_struck_through_is_asked_about(catalogue, tmp_path, name):
    draft = draft_of_file(catalogue, tmp_path, name, STRUCK[name]())
    assert [mark.is_certain for mark in draft.samples[0].marks] == [True, False, True]
    assert "struck" in keys(draft)


@pytest.mark.parametrize("name", sorted(PLAIN))
def test_other_looks_leave_a_reading_certain(catalogue, tmp_path, name):
    draft = draft_of_file(catalogue, tmp_path, name, PLAIN[name]())
    assert all(mark.is_certain for mark in draft.samples[0].marks)
    assert "struck" not in keys(draft)
