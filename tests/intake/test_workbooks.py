"""XLSX and ODS files of invented labs."""

import io
import zipfile
from datetime import date, datetime, time
from decimal import Decimal

import openpyxl
import pytest
from drafts import TODAY, keys

from wellbook import intake
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind


@pytest.fixture
def workbook():
    """A report in two sheets, and a hidden one."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Report"
    sheet.append(["Pinewater Analytical"])
    sheet.append(["Collected", datetime(2024, 5, 13, 7, 15)])
    sheet.append(["Sample point:", "Kitchen tap"])
    sheet.append([])
    sheet.append(["Analyte", "Result", "Unit", "RL", "Date analyzed"])
    sheet.append(["Arsenic", 0.005, "mg/L", 0.005, date(2024, 5, 20)])
    sheet["B6"].number_format = '"<"0.000'
    sheet.append(["Nitrate-N", 3.4, "mg/L", 0.1, date(2024, 5, 14)])
    sheet["B7"].number_format = "0.00"
    sheet.append(["Hardness, total", 150.0, "mg/L as CaCO3", 5, None])
    sheet.append(["Total Coliform", "Absent", "per 100 mL", None, None])
    notes = book.create_sheet("About")
    notes.append(["Laboratory:", "Pinewater Analytical"])
    hidden = book.create_sheet("Old prices")
    hidden.sheet_state = "hidden"
    hidden.append(["Analyte", "Result"])
    hidden.append(["Lead", 99])
    return book


def saved(book, path):
    book.save(path)
    return path


@pytest.fixture
def draft(workbook, tmp_path, catalogue):
    return intake.read(saved(workbook, tmp_path / "report.xlsx"), catalogue, today=TODAY)


def test_the_sheet_tells_sample_and_results(draft):
    (sample,) = draft.samples
    assert sample.point_name == "Kitchen tap"
    assert sample.sample.collected == LocalTime(date(2024, 5, 13), time(7, 15))
    assert [r.parameter for r in sample.sample.results] == [
        "arsenic",
        "nitrate",
        "hardness",
        "total_coliform",
    ]


def test_the_sign_and_the_digits_that_a_format_shows_are_kept(draft):
    arsenic, nitrate, hardness, _ = draft.samples[0].sample.results
    assert (arsenic.reading.text, arsenic.reading.kind) == ("<0.005", Kind.BELOW)
    assert (nitrate.reading.text, nitrate.reading.number) == ("3.40", Decimal("3.40"))
    assert hardness.reading.text == "150"


def test_days_in_cells_need_no_guess(draft):
    assert draft.samples[0].sample.results[0].analysed == LocalTime(date(2024, 5, 20))
    assert "date_order" not in keys(draft)


def test_another_sheet_may_tell_the_lab(draft):
    assert draft.samples[0].sample.lab == "Pinewater Analytical"


def test_hidden_sheets_are_left_out_and_named(draft):
    (finding,) = draft.findings
    assert (finding.key, finding.severity) == ("hidden_sheet", "note")
    assert "Old prices" in finding.text


def test_a_formula_that_was_never_computed_stops_the_file_and_names_the_cell(
    workbook, tmp_path, catalogue
):
    workbook["Report"]["B8"] = "=B7*2"
    draft = intake.read(saved(workbook, tmp_path / "formula.xlsx"), catalogue, today=TODAY)
    assert ("uncomputed", "stop") in [(f.key, f.severity) for f in draft.findings]
    assert any("B8" in finding.text for finding in draft.findings)


def test_a_finding_names_sheet_and_row(workbook, tmp_path, catalogue):
    workbook["Report"]["C6"] = "furlongs"
    draft = intake.read(saved(workbook, tmp_path / "unit.xlsx"), catalogue, today=TODAY)
    assert draft.findings[0].where == "sheet Report, row 6"


def test_samples_on_several_sheets_come_together(tmp_path, catalogue):
    book = openpyxl.Workbook()
    for number, day in enumerate((date(2023, 5, 2), date(2024, 7, 2))):
        sheet = book.create_sheet(f"Test {number}")
        sheet.append(["Analyte", "Result", "Units", "Collected"])
        sheet.append(["Iron", 0.1 + number, "mg/L", day])
    draft = intake.read(saved(book, tmp_path / "two.xlsx"), catalogue, today=TODAY)
    assert [s.sample.collected.day for s in draft.samples] == [date(2023, 5, 2), date(2024, 7, 2)]


def test_a_workbook_without_results(tmp_path, catalogue):
    path = saved(openpyxl.Workbook(), tmp_path / "empty.xlsx")
    with pytest.raises(Fault, match="not a table of results"):
        intake.read(path, catalogue)


# A cell of an OpenDocument sheet (OASIS ODF 1.3 part 3, 9.1.4 and 19.385).
CELL = '<table:table-cell office:value-type="{}" {}><text:p>{}</text:p></table:table-cell>'
ODS = """<?xml version="1.0"?><office:document-content
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>
<table:table table:name="Results">{}</table:table></office:spreadsheet></office:body>
</office:document-content>"""


def ods(rows):
    cells = (
        "".join(
            CELL.format("float", f'office:value="{cell}"', cell)
            if isinstance(cell, float)
            else CELL.format("date", f'office:date-value="{cell}"', cell)
            if isinstance(cell, date)
            else CELL.format("string", "", cell)
            for cell in row
        )
        for row in rows
    )
    content = ODS.format("".join(f"<table:table-row>{row}</table:table-row>" for row in cells))
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("content.xml", content)
        archive.writestr("META-INF/manifest.xml", "<manifest/>")
    return file.getvalue()


def test_an_opendocument_sheet(draft_of):
    content = ods(
        [
            ["Analyte", "Result", "Units", "Collected"],
            ["Iron", 0.25, "mg/L", date(2024, 5, 13)],
            ["Lead", "&lt;1", "µg/L", date(2024, 5, 13)],
        ]
    )
    (sample,) = draft_of(content, "report.ods").samples
    iron, lead = sample.sample.results
    assert (iron.reading.number, iron.reading.unit) == (Decimal("0.25"), "mg/L")
    assert (lead.reading.text, lead.reading.kind) == ("<1", Kind.BELOW)
    assert sample.sample.collected == LocalTime(date(2024, 5, 13))


def test_empty_rows_to_the_end_of_the_sheet_do_no_harm(lab_file, catalogue):
    content = ods(
        [["Analyte", "Result", "Units", "Collected"], ["Iron", 1.0, "mg/L", "2024-05-13"]]
    )
    row = (
        '<table:table-row table:number-rows-repeated="1048574"><table:table-cell/>'
        "</table:table-row>"
    )
    path = lab_file(swapped(content, row), "report.ods")
    assert len(intake.read(path, catalogue, today=TODAY).samples) == 1


def swapped(content, row):
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    end = b"</table:table>"
    parts["content.xml"] = parts["content.xml"].replace(end, row.encode() + end)
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, part in parts.items():
            archive.writestr(name, part)
    return file.getvalue()


def test_two_cells_at_the_far_corners_of_a_sheet_are_refused(tmp_path, catalogue):
    book = openpyxl.Workbook()
    book.active["A1"] = "Analyte"
    book.active["XFD1048576"] = "Result"
    with pytest.raises(Fault, match="spreads over 1048576 rows and 16384 columns"):
        intake.read(saved(book, tmp_path / "corners.xlsx"), catalogue)


def test_a_cell_that_repeats_itself_over_the_whole_sheet_is_refused(lab_file, catalogue):
    cell = CELL.format("string", 'table:number-columns-repeated="16000"', "x")
    row = f'<table:table-row table:number-rows-repeated="1000000">{cell}</table:table-row>'
    content = ods([["Analyte", "Result"], ["Iron", 1.0]])
    with pytest.raises(Fault, match="spreads over 1000002 rows and 16000 columns"):
        intake.read(lab_file(swapped(content, row), "blown.ods"), catalogue)


def test_a_workbook_that_is_one_xml_text_is_read_by_its_cells(draft_of):
    """SpreadsheetML as published for spreadsheets of 2003; from memory."""

    def row(*cells):
        kind = {True: "Number", False: "String"}
        data = (f'<Data ss:Type="{kind[c[0].isdigit()]}">{c}</Data>' for c in cells)
        return f"<Row>{''.join(f'<Cell>{one}</Cell>' for one in data)}</Row>"

    book = (
        '<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet" '
        'xmlns:ss="urn:schemas-microsoft-com:office:spreadsheet"><Worksheet ss:Name="R"><Table>'
        + row("Sample collected", "March 21, 2018")
        + row("Analyte", "Result", "Units")
        + row("Radium-228", "&lt;1", "pCi/L")
        + '<Row ss:Index="6"><Cell><Data ss:Type="String">Uranium</Data></Cell><Cell>'
        '<Data ss:Type="Number">6.2</Data></Cell><Cell><Data ss:Type="String">ug/L</Data></Cell>'
        "</Row></Table></Worksheet></Workbook>"
    )
    (sample,) = draft_of(book, "results.xml").samples
    assert sample.sample.collected.iso() == "2018-03-21"
    readings = [(r.name, r.reading.text, r.reading.kind) for r in sample.sample.results]
    assert readings == [("Radium-228", "<1", Kind.BELOW), ("Uranium", "6.2", Kind.NUMBER)]
    assert [str(mark.place) for mark in sample.marks][-1] == "row 6; column 2; in R"
