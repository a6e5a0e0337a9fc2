"""Files that are damaged, or no tables, or meant to harm: one clear line each, and no traceback."""

import io
import os
import zipfile
import zlib
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wellbook import intake
from wellbook.intake.files import archives, flat_workbooks, web_tables
from wellbook.support.errors import Fault

HEAD = "Analyte,Result,Units,Collected\n"
ROW = "Iron,2,mg/L,2024-05-03\n"


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"  \n \n", "is empty"),
        (b"a", "not a table of results"),
        (b"Dear Sir,\nyour water is fine.\nRegards\n", "not a table of results"),
        (b"Limit,Unit\n0.3,mg/L\n", "not a table of results"),
        (b"x" * 300_000, "line 1 holds a cell too long"),
        (b",".join([b"x"] * 40_000), "not a table of results"),
        (HEAD.encode() + b'Iron,"2,mg/L,2024-05-03\n' + ROW.encode() * 3, "line 2 is never closed"),
        (HEAD.encode() + b'Iron,"2" x,mg/L,2024-05-03\n', "line 2 has a quotation mark"),
        (HEAD.encode() + b"Iron,2\x00,mg/L,2024-05-03\n", "line 2 is not text"),
        ((HEAD + ROW * 3 + "1,2-Dichloroethane,3,ug/L,2024-05-03\n").encode(), "row 5 has 5 cells"),
        ((HEAD + ROW * 3 + "Lead,3,ug").encode(), "stops in the middle of row 5"),
        (b"%PDF-1.7\n%\xe2\xe3", "is a PDF"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "a picture"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 512, "can’t be read as a workbook"),
        (b"PK\x03\x04 not really", "is damaged"),
        (bytes(range(256)) * 8, "not text"),
    ],
)
def test_every_such_file_gets_one_clear_line(lab_file, catalogue, content, words):
    path = lab_file(content)
    with pytest.raises(Fault) as fault:
        intake.read(path, catalogue)
    assert words in str(fault.value)
    assert path.name in str(fault.value)
    assert "\n" not in str(fault.value)


def test_a_file_that_is_not_there(tmp_path, catalogue):
    with pytest.raises(Fault, match=r"none\.csv can’t be read: "):
        intake.read(tmp_path / "none.csv", catalogue)


def test_a_folder(tmp_path, catalogue):
    with pytest.raises(Fault, match="is a folder"):
        intake.read(tmp_path, catalogue)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read(lab_file, catalogue):
    path = lab_file(HEAD + ROW)
    path.chmod(0)
    with pytest.raises(Fault, match="Permission denied"):
        intake.read(path, catalogue)


def test_a_file_larger_than_a_book_takes(lab_file, catalogue):
    path = lab_file("")
    with path.open("wb") as file:
        file.truncate(30_000_000)
    with pytest.raises(Fault, match="30 MB; up to 25 MB"):
        intake.read(path, catalogue)


def test_each_file_of_an_archive_is_read(lab_file, catalogue):
    parts = {
        "a.csv": (HEAD + ROW).encode(),
        "b/c.csv": (HEAD + ROW).encode(),
        "d.bin": b"\xff\xd8\xff",
    }
    draft = intake.read(lab_file(zipped(parts), "all.zip"), catalogue)
    assert [mark.place.sheet for one in draft.samples for mark in one.marks] == ["a.csv", "b/c.csv"]
    (left,) = draft.not_taken
    assert (left.what, left.place.sheet) == ("d.bin", "d.bin")
    assert "is a picture" in left.why


def test_a_part_without_a_name_ends_no_reading_of_an_archive(lab_file, catalogue):
    harmed = zipped({"a": b"x", "b.csv": (HEAD + ROW).encode()}).replace(b"a", b"\x00", 2)
    draft = intake.read(lab_file(harmed, "harmed.zip"), catalogue)
    assert [mark.place.sheet for one in draft.samples for mark in one.marks] == ["b.csv"]


def test_a_mail_whose_head_has_no_end_of_brackets_gets_one_clear_line(lab_file, catalogue):
    mail = f"From: lab {'(' * 9000}\nSubject: water\nContent-Type: {'(' * 9000}\n\n{HEAD}{ROW}"
    with pytest.raises(Fault, match=r"mail\.eml is damaged: its parts can’t be unpacked"):
        intake.read(lab_file(mail.encode(), "mail.eml"), catalogue)


@pytest.mark.parametrize("charset", ["utf\x008", "none-such", "punycode"])
def test_a_mail_in_no_encoding_that_is_known_is_read_all_the_same(lab_file, catalogue, charset):
    mail = (
        f'From: lab\nSubject: water\nContent-Type: text/plain; charset="{charset}"\n\n{HEAD}{ROW}'
    )
    (sample,) = intake.read(lab_file(mail.encode(), "mail.eml"), catalogue).samples
    assert [result.reading.text for result in sample.sample.results] == ["2"]


def test_a_name_in_an_archive_is_told_in_one_line(lab_file, catalogue):
    name = "first\nsecond\x1b[31m" + "x" * 9_000
    with pytest.raises(Fault) as told:
        intake.read(lab_file(zipped({name: b"no table"}), "all.zip"), catalogue)
    assert "first second" in str(told.value)
    assert "\n" not in str(told.value)
    assert "\x1b" not in str(told.value)
    assert len(str(told.value)) < 1_000


def zipped(parts):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return file.getvalue()


def test_a_workbook_that_swells_beyond_all_bounds_is_never_unpacked(
    lab_file, catalogue, monkeypatch
):
    monkeypatch.setattr(archives, "LARGEST", 3_000_000)
    bomb = zipped({"xl/workbook.xml": b"<workbook/>", "xl/worksheets/sheet1.xml": b" " * 9_000_000})
    assert len(bomb) < 20_000
    with pytest.raises(Fault, match="unpacks to more than 3 MB"):
        intake.read(lab_file(bomb, "bomb.xlsx"), catalogue)


def test_a_workbook_that_lies_about_its_size_is_found_out(lab_file, catalogue, monkeypatch):
    monkeypatch.setattr(archives, "LARGEST", 3_000_000)
    bomb = bytearray(zipped({"xl/workbook.xml": b" " * 9_000_000}))
    size = (9_000_000).to_bytes(4, "little")
    while size in bomb:
        at = bomb.index(size)
        bomb[at : at + 4] = (9).to_bytes(4, "little")
    with pytest.raises(Fault, match="unpacks to more than"):
        intake.read(lab_file(bytes(bomb), "bomb.xlsx"), catalogue)


def test_a_workbook_cut_off_half_way(lab_file, catalogue):
    whole = zipped({"xl/workbook.xml": zlib.compress(os.urandom(3000)), "b": os.urandom(3000)})
    with pytest.raises(Fault, match="is damaged"):
        intake.read(lab_file(whole[: len(whole) // 2], "half.xlsx"), catalogue)


def test_a_cell_that_a_spreadsheet_would_run_stays_text(results_of):
    found = results_of(HEAD + 'Iron,"=HYPERLINK(""http://x"")",mg/L,2024-05-03\n' + ROW * 2)
    assert found["Iron"]  # and nothing was run or fetched


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=400))
def test_any_bytes_whatever_are_read_or_refused(lab_file, catalogue, content):
    path = lab_file(content)
    assert "\n" not in outcome(path, catalogue)


def outcome(path, catalogue):
    """The line that a person reads, empty if the file is read."""
    try:
        intake.read(path, catalogue)
    except Fault as fault:
        return str(fault)
    return ""


CELLS = st.sampled_from(
    [
        "Analyte",
        "Result",
        "Iron",
        "2",
        "<0.1",
        "mg/L",
        "2024-05-03",
        "",
        '"',
        "a:b",
        "Collected: 1",
        "Collected",
        "5/6/7",
        "ND",
        "Sample ID",
        "1,2",
        "µg/L",
        "\n",
        "Lab:",
        "as N",
        "Method",
    ]
)


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.lists(CELLS, max_size=6), max_size=8), st.sampled_from([",", ";", "\t", "|"]))
def test_any_cells_whatever_are_read_or_refused(lab_file, catalogue, rows, separator):
    path = lab_file("\n".join(separator.join(row) for row in rows))
    try:
        draft = intake.read(path, catalogue)
    except Fault:
        return
    # A draft without results asks which columns are samples, and can't be stored.
    assert draft.stops or sum(len(sample.sample.results) for sample in draft.samples) > 0


MOST_CELLS = 520_000  # a little over what there is room for
BOOK = (
    '<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet" '
    'xmlns:ss="urn:schemas-microsoft-com:office:spreadsheet"><Worksheet ss:Name="a"><Table>'
    "{rows}</Table></Worksheet></Workbook>"
)


@pytest.mark.parametrize(
    "row",
    [
        '<Row><Cell ss:Index="2000"><Data>x</Data></Cell></Row>',
        '<Row><Cell ss:MergeAcross="1999"><Data>x</Data></Cell></Row>',
        '<Row ss:Index="{n}000"><Cell><Data>x</Data></Cell></Row>',
    ],
)
def test_an_xml_workbook_gets_no_more_empty_cells_than_there_is_room_for(row):
    rows = "".join(row.replace("{n}", str(n)) for n in range(1, 1001))
    book = fromstring(BOOK.format(rows=rows))  # noqa: S314  our own
    (sheet,) = flat_workbooks.sheets_of(book)
    assert len(sheet.rows) + sum(map(len, sheet.rows)) < MOST_CELLS


def test_a_page_gets_no_more_cells_that_others_reach_into_than_there_is_room_for():
    (sheet,) = web_tables.sheets("<table>" + "<tr><td rowspan=100 colspan=100>x" * 400)
    assert sum(map(len, sheet.rows)) < MOST_CELLS


@pytest.mark.parametrize("told", ["9" * 5000, "²", "-1", ""])
def test_a_span_that_is_no_number_of_cells_is_one_or_the_most(told):
    (sheet,) = web_tables.sheets(f"<table><tr><td colspan='{told}'>x<td>y</table>")
    assert [cell for cell in sheet.rows[0] if cell] == ["x", "y"]
    assert len(sheet.rows[0]) <= 101


def test_a_document_of_tables_within_tables_without_end_is_refused(lab_file, catalogue):
    names = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
    within = "<w:tbl><w:tr><w:tc>" * 3000 + "</w:tc></w:tr></w:tbl>" * 3000
    text = f"<w:document {names}><w:body>{within}</w:body></w:document>"
    path = lab_file(zipped({"word/document.xml": text.encode()}), "report.docx")
    with pytest.raises(Fault, match="its text can’t be read"):
        intake.read(path, catalogue)
