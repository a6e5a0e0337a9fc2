"""Every exported table read back to the same facts: CSV by the standard library, XLSX by an
independent reader (calamine), WQX columns by our own way of taking in a lab's file."""

import csv
import io
import json
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

import household
import openpyxl
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from python_calamine import CalamineWorkbook

from wellbook import intake
from wellbook.export import open_tables, wqx
from wellbook.export.workbook import workbook
from wellbook.export.wqx import wqx_tables
from wellbook.sharing.formula_guard import restored
from wellbook.sharing.tables import tables as extracted
from wellbook.support import paths
from wellbook.water.units.spellings import understand
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag

CATALOGUE = read_catalogue(paths.resources())
quick = settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def everything(book, catalogue):
    more = wqx_tables(book.record(), with_personal=True)
    return extracted(book.record(), catalogue, with_personal=True, named={}, more=more)


def test_every_csv_table_is_read_back_cell_by_cell(book, catalogue):
    for table in everything(book, catalogue):
        text = table.content().decode("utf-8-sig")
        head, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
        assert head == [field.name for field in table.fields]
        assert [list(map(restored, row)) for row in rows] == [list(row) for row in table.rows]


def test_every_sheet_of_the_workbook_is_read_back_cell_by_cell(book, catalogue):
    made = everything(book, catalogue)
    read = CalamineWorkbook.from_filelike(io.BytesIO(workbook(made)))
    assert read.sheet_names == [table.file.removesuffix(".csv") for table in made]
    for table in made:
        head, *rows = read.get_sheet_by_name(table.file.removesuffix(".csv")).to_python(
            skip_empty_area=False
        ) or [[]]
        assert head == [field.name for field in table.fields]
        for cells, row in zip(rows, table.rows, strict=True):
            for cell, text in zip([*cells, *[""] * (len(head) - len(cells))], row, strict=True):
                assert same(cell, text), (table.file, cell, text)


def same(cell, text):
    """Whether a cell holds what was written: text, or the figure or day that the text names."""
    if isinstance(cell, float):
        return Decimal(str(cell)) == Decimal(text)
    if isinstance(cell, datetime):
        return cell.isoformat(timespec="minutes") == text
    return (cell.isoformat() if isinstance(cell, date) else str(cell)) == text


def test_figures_and_days_are_real_and_what_a_lab_printed_stays_text(book, catalogue):
    made = everything(book, catalogue)
    read = CalamineWorkbook.from_filelike(io.BytesIO(workbook(made)))
    head, *rows = read.get_sheet_by_name("results").to_python()
    column = {name: [row[place] for row in rows if row[place] != ""]
              for place, name in enumerate(head)}  # fmt: skip
    assert {type(cell) for cell in column["number"]} == {float}
    assert {type(cell) for cell in column["usual_number"]} == {float}
    assert {type(cell) for cell in column["reported"]} == {str}
    assert {type(cell) for cell in column["collected"]} & {date, datetime}
    sheets = openpyxl.load_workbook(io.BytesIO(workbook(made)))
    for sheet in sheets:
        assert sheet.freeze_panes == "A2"
        assert sheet.auto_filter.ref == sheet.dimensions


def test_no_cell_of_the_workbook_is_a_formula(book, catalogue):
    import zipfile

    with zipfile.ZipFile(io.BytesIO(workbook(everything(book, catalogue)))) as archive:
        sheets = [archive.read(one) for one in archive.namelist() if "/sheet" in one]
        assert len(sheets) > 10
        assert not any(b"<f>" in sheet or b"<f " in sheet for sheet in sheets)
        assert b"quotePrefix" in archive.read("xl/styles.xml")


def test_the_workbook_has_the_same_bytes_every_time(book, catalogue):
    made = everything(book, catalogue)
    assert workbook(made) == workbook(made)


def test_a_text_longer_than_a_cell_holds_is_not_cut(catalogue, tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        book.add_well("W", note="n" * 70_000)
        content = workbook(extracted(book.record(), catalogue, with_personal=True, named={}))
    sheet = CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_name("wells")
    assert sum(cell.count("n") for cell in sheet.to_python()[1]) == 70_000


# Standards: the columns that EPA and USGS print (tests/data/wqx), the condition from EPA's list.
def test_the_columns_and_words_are_those_of_the_format(book):
    data = Path(__file__).parent.parent / "data" / "wqx"
    with (data / "results_legacy.csv").open(encoding="utf-8", newline="") as file:
        known = set(next(csv.reader(file)))
    table, _rest = wqx_tables(book.record(), with_personal=True)
    own = {field.name for field in table.fields}
    limits = {name for name in own if name.startswith("DetectionQuantitationLimit")}
    # The basis has a column of its own in the format's narrow results (from memory).
    assert own - limits - {"MethodSpecificationName"} <= known
    with (data / "detection_limits.csv").open(encoding="utf-8", newline="") as file:
        assert limits <= set(next(csv.reader(file))) | known
    conditions = json.loads((data / "ResultDetectionCondition.json").read_text())["enum"]
    place = [field.name for field in table.fields].index("ResultDetectionConditionText")
    assert {row[place] for row in table.rows} - {""} <= set(conditions)


def allowed(name):
    data = Path(__file__).parent.parent / "data" / "wqx"
    return set(json.loads((data / f"{name}.json").read_text(encoding="utf-8"))["enum"])


def test_every_word_is_one_of_the_domain_lists_and_what_has_none_stands_beside(tmp_path):
    """EPA's lists as in the npm package `wqx` 3.0.209; of the names those that are used."""
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("W"), "Tap")
        book.add_sample(
            household.sample(
                tap,
                "2024-05-03",
                household.result("nitrate_nitrite", "NO3+NO2", "4", "mg/L", basis="as N"),
                household.result("ph", "pH", "7.1", "s.u."),
                household.result("conductivity", "EC", "310", "umhos/cm", fraction="total"),
                household.result("hardness", "Hardness", "9", "°dH"),
                household.result("", "Unobtainium", "1", "mg/L"),
                household.result("total_organic_carbon", "TOC", "1.2", "mg/L"),
            )
        )
        made, rest = wqx_tables(book.record(), with_personal=True)
    rows = [dict(zip([one.name for one in made.fields], row, strict=True)) for row in made.rows]
    assert [(row["CharacteristicName"], row["ResultMeasure/MeasureUnitCode"]) for row in rows] == [
        ("Nitrate + Nitrite", "mg/L"),
        ("pH", "None"),
        ("Specific conductance", "uS/cm"),
        ("Organic carbon", "mg/L"),
    ]
    assert rows[0]["ResultCommentText"] == "NO3+NO2: 4"
    assert [row["ResultSampleFractionText"] for row in rows] == ["", "", "Total", "Total"]
    assert {row["ResultSampleFractionText"] for row in rows} - {""} <= allowed("SampleFraction")
    assert {row["MethodSpecificationName"] for row in rows} - {""} <= allowed("MethodSpeciation")
    told = {row[3]: row[-1] for row in rest.rows}
    assert told.keys() == {"Hardness", "Unobtainium"}
    assert "no unit of the domain list" in told["Hardness"]
    assert "no characteristic of the domain list" in told["Unobtainium"]
    assert set(wqx.UNITS.values()) <= allowed("MeasurementUnit")
    assert allowed("MethodSpeciation") >= wqx.BASES
    with (paths.resources() / "wqx_names.csv").open(encoding="utf-8", newline="") as file:
        names = {row["parameter"]: row["characteristic"] for row in csv.DictReader(file)}
    assert set(names.values()) <= allowed("Characteristic")
    assert names.keys() <= CATALOGUE.parameters.keys()


def test_no_reading_is_lost_between_the_two_tables(book):
    made, rest = wqx_tables(book.record(), with_personal=True)
    count = len(list(book.record().results(with_struck=True)))
    assert len(made.rows) + len(rest.rows) == count


def facts(result):
    said = result.reading
    kept = said.flags - {Flag.REJECTED}
    return (
        result.parameter, said.kind, said.number, understand(said.unit), said.basis,
        said.fraction, kept, result.method, result.lab,
    )  # fmt: skip


printed = st.sampled_from(
    ["11.4", "0.020", "<0.05", ">2419.6", "absent", "present", "ND", "-0.5", "<1", "7", "0.000"]
)
subjects = st.sampled_from(
    [
        ("nitrate", "Nitrate", "mg/L", "as N"), ("nitrate", "Nitrate", "mg/L", "as NO3"),
        ("arsenic", "Arsenic", "µg/L", ""), ("e_coli", "E. coli", "MPN/100 mL", ""),
        ("chloride", "Cl", "ppm", ""), ("iron", "Iron", "mg/L", ""),
    ]
)  # fmt: skip
rows = st.builds(
    lambda subject, text, fraction, qualifier: household.result(
        subject[0], subject[1], text, subject[2], basis=subject[3], fraction=fraction,
        qualifier=qualifier, method="EPA 200.8", lab="Larkspur Laboratory",
    ),
    subjects, printed, st.sampled_from(["", "total", "dissolved"]), st.just(""),
)  # fmt: skip
moments = st.sampled_from(["2024-05-03", "2024-05-03T07:15", "2019-11-30T23:50-04:00"])


@quick
@given(st.dictionaries(moments, st.lists(rows, min_size=1, max_size=6), min_size=1))
def test_readings_in_wqx_columns_are_taken_in_again_as_the_same_facts(tmp_path_factory, samples):
    catalogue = CATALOGUE
    folder = tmp_path_factory.mktemp("wqx")
    with household.new_book(folder / "b.wellbook") as book:
        point = book.add_point(book.add_well("W"), "Pressure tank")
        for number, (when, results) in enumerate(samples.items()):
            book.add_sample(
                household.sample(
                    point, when, *results, lab="Larkspur Laboratory", lab_number=f"L{number}"
                )
            )
        kept = {
            one.lab_number: (one.collected, [facts(r) for r in book.results(sample=one.id)])
            for one in book.samples()
        }
        path = folder / "wqx_results.csv"
        made, rest = wqx_tables(book.record(), with_personal=True)
        path.write_bytes(made.content())
    draft = intake.read(path, catalogue)
    read = {
        one.sample.lab_number: (
            one.sample.collected,
            [
                (r.parameter, r.reading.kind, r.reading.number, understand(r.reading.unit),
                 r.reading.basis, r.reading.fraction, r.reading.flags - {Flag.REJECTED}, r.method,
                 r.lab or one.sample.lab)
                for r in one.sample.results
            ],
        )
        for one in draft.samples
    }  # fmt: skip
    assert not rest.rows
    assert read == kept
    assert {one.point_name for one in draft.samples} == {"Pressure tank"}
    assert isinstance(next(iter(kept.values()))[0], LocalTime)


def test_export_writes_workbook_and_wqx_columns_beside_the_tables(book, catalogue, tmp_path):
    names = {one.name for one in open_tables.export(book.record(), catalogue, tmp_path)}
    assert {
        "wellbook.xlsx",
        "wqx_results.csv",
        "wqx_not_mapped.csv",
        "results.csv",
        "dictionary.csv",
    } <= names
