"""Rows in which something is struck through: each reading in them is asked about.

ECMA-376 part 1, 18.4.10 and 17.3.2.37 strike; OpenDocument 1.3 part 3, 20.384
style:text-line-through-style; HTML: s, del, text-decoration. What is struck out in a cell that says
something else too is no reading.
"""

import io
import zipfile

import openpyxl
import pytest
import xlwt
from drafts import TODAY, keys
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.styles import Font
from test_hidden_parts import packed_ods

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


def xls(*, of_cell, rich=()):
    """Iron's cell is struck through, or a part of its text is (BIFF8, as xlwt writes it)."""
    book = xlwt.Workbook()
    sheet = book.add_sheet("Results")
    struck = xlwt.easyxf("font: struck_out on")
    for r, row in enumerate((HEAD, *ROWS)):
        for c, text in enumerate(row):
            is_it = text == "0.3"
            if not (is_it and rich):
                sheet.write(r, c, text, *([struck] if is_it and of_cell else []))
            if is_it and rich:
                sheet.write_rich_text(r, c, [(rich[0], struck.font), rich[1]])
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def rich_xlsx():
    """Iron's cell holds a 3 that is struck through, and a 5 behind it."""
    book = openpyxl.Workbook()
    for row in (HEAD, *ROWS):
        book.active.append(row)
    gone = TextBlock(InlineFont(strike=True), "3")
    book.active.cell(3, 2).value = CellRichText(gone, "5")
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def shared_xlsx():
    """The same, in the table of texts that cells share."""
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rich = "<si><r><rPr><strike/></rPr><t>3</t></r><r><t>5</t></r></si>"
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(xlsx(Font(bold=True)))) as old,
        zipfile.ZipFile(stream, "w") as new,
    ):
        for part in old.namelist():
            text = old.read(part)
            before, found, behind = text.partition(b't="inlineStr"><is><t>0.3<')
            end = behind.partition(b"</is>")[2]
            new.writestr(part, before + b't="s"><v>0</v>' + end if found else text)
        new.writestr("xl/sharedStrings.xml", f'<sst xmlns="{space}">{rich}</sst>')
    return stream.getvalue()


def ods(of_cell):
    """Iron's cell has a style, or the first part of its text has."""

    def cell(text):
        style = of_cell if text == "0.3" else ""
        if style == "span":
            text, style = "<text:span text:style-name='T1'>3</text:span>5", ""
        name = f" table:style-name='{style}'" if style else ""
        return (
            f"<table:table-cell{name} office:value-type='string'><text:p>{text}</text:p>"
            "</table:table-cell>"
        )

    lines = "".join(
        f"<table:table-row>{''.join(map(cell, row))}</table:table-row>" for row in (HEAD, *ROWS)
    )
    names = "urn:oasis:names:tc:opendocument:xmlns:"

    def style(name, family, line):
        return (
            f"<style:style style:name='{name}' style:family='{family}'><style:text-properties "
            f"style:text-line-through-style='{line}'/></style:style>"
        )

    styles = style("ce1", "table-cell", "solid") + style("T1", "text", "solid")
    styles += style("ce2", "table-cell", "none")
    text = (
        f"<office:document-content xmlns:office='{names}office:1.0' xmlns:table='{names}table:1.0'"
        f" xmlns:text='{names}text:1.0' xmlns:style='{names}style:1.0' office:version='1.3'>"
        f"<office:automatic-styles>{styles}</office:automatic-styles>"
        "<office:body><office:spreadsheet><table:table table:name='Results'>"
        f"<table:table-column/>{lines}</table:table></office:spreadsheet></office:body>"
        "</office:document-content>"
    )
    return packed_ods(text)


def docx(mark, behind=""):
    space = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"

    def cell(text):
        is_it = text == "0.3"
        style = f"<w:rPr>{mark}</w:rPr>" if is_it else ""
        more = f"<w:r><w:t>{behind}</w:t></w:r>" if is_it and behind else ""
        return f"<w:tc><w:p><w:r>{style}<w:t>{text}</w:t></w:r>{more}</w:p></w:tc>"

    rows = "".join(f"<w:tr>{''.join(map(cell, row))}</w:tr>" for row in (HEAD, *ROWS))
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as parts:
        text = f'<w:document xmlns:w="{space}"><w:body><w:tbl>{rows}</w:tbl></w:body></w:document>'
        parts.writestr("word/document.xml", text)
    return stream.getvalue()


def html(of_row, of_cell, ends="</td>", head=""):
    def cell(text):
        return f"<td>{of_cell.format(text) if text == '0.3' else text}{ends}"

    def row(cells):
        return f"<tr{of_row if cells[0] == 'Iron' else ''}>{''.join(map(cell, cells))}"

    rows = "".join(map(row, (HEAD, *ROWS)))
    return f"<html><head>{head}</head><body><table>{rows}</table></body></html>".encode()


RULES = "<style>td { color: black } .new, tr.old { text-decoration: line-through }</style>"


STRUCK = {
    "font.xlsx": lambda: xlsx(Font(strike=True)),
    "strike.docx": lambda: docx("<w:strike/>"),
    "twice.docx": lambda: docx('<w:dstrike w:val="1"/>'),
    "s.html": lambda: html("", "<s>{}</s>"),
    "del.html": lambda: html("", "<del><b>{}</b></del>"),
    "row.html": lambda: html(' style="text-decoration: line-through"', "{}"),
    "class.html": lambda: html(' class="low old"', "{}", head=RULES),
    "cell.xls": lambda: xls(of_cell=True),
    "cell.ods": lambda: ods("ce1"),
    "open.html": lambda: html(' style="text-decoration: line-through"', "{}", ends=""),
}
PLAIN = {
    "bold.xlsx": lambda: xlsx(Font(bold=True)),
    "class.html": lambda: html(' class="low"', "{}", head=RULES),
    "plain.xls": lambda: xls(of_cell=False),
    "none.ods": lambda: ods("ce2"),
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


IN_PART = {
    "run.docx": lambda: docx("<w:strike/>", " 0.5"),
    "s.html": lambda: html("", "<s>{}</s> 0.5"),
    "class.html": lambda: html("", '<span class="old">{}</span>0.5', head=RULES),
}
TOGETHER = {
    "run.xls": lambda: xls(of_cell=False, rich=("3", "5")),
    "run.xlsx": rich_xlsx,
    "shared.xlsx": shared_xlsx,
    "span.ods": lambda: ods("span"),
}


@pytest.mark.parametrize("name", sorted(IN_PART))
def test_the_figure_beside_one_that_is_struck_out_is_asked_about(catalogue, tmp_path, name):
    draft = draft_of_file(catalogue, tmp_path, name, IN_PART[name]())
    iron, mark = draft.samples[0].sample.results[1], draft.samples[0].marks[1]
    assert (iron.reading.text, mark.is_certain) == ("0.5", False)
    (said,) = [finding.text for finding in draft.findings if finding.key == "struck_out"]
    assert "“0.3”" in said


@pytest.mark.parametrize("name", sorted(TOGETHER))
def test_a_digit_that_is_struck_out_is_no_part_of_the_figure(catalogue, tmp_path, name):
    """A 3 struck out before a 5 is not 35."""
    draft = draft_of_file(catalogue, tmp_path, name, TOGETHER[name]())
    iron, mark = draft.samples[0].sample.results[1], draft.samples[0].marks[1]
    assert (iron.reading.text, mark.is_certain) == ("5", False)


@pytest.mark.parametrize("name", sorted(PLAIN))
def test_other_looks_leave_a_reading_certain(catalogue, tmp_path, name):
    draft = draft_of_file(catalogue, tmp_path, name, PLAIN[name]())
    assert all(mark.is_certain for mark in draft.samples[0].marks)
    assert "struck" not in keys(draft)
