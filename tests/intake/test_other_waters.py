"""Samples and sheets of the lab's checks, of limits and of other water than the household's.

How such samples and sheets are named: words of the trade, from memory. All labs are invented.
"""

import io

import openpyxl
import pytest
from drafts import keys

HEAD = ["Parameter", "Result", "Unit"]
ROWS = [["Lead", "2.1", "ug/L"], ["Iron", "0.3", "mg/L"]]
OTHER = [["Lead", "0.5", "ug/L"], ["Iron", "4.9", "mg/L"]]


def workbook(**sheets):
    """A workbook with a small table in each of its sheets."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in [["Collected", "2024-05-03"], HEAD, *rows]:
            sheet.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def figures(draft):
    return [r.reading.text for s in draft.samples for r in s.sample.results]


def aside(draft):
    return [one.what for one in draft.not_taken if one.is_aside]


def certain(draft):
    results = [r for s in draft.samples for r in s.sample.results]
    marks = [mark for s in draft.samples for mark in s.marks]
    pairs = zip(results, marks, strict=True)
    return [r.reading.text for r, mark in pairs if mark.is_certain and not draft.stops]


@pytest.mark.parametrize(
    "name",
    [
        "QC",
        "LCS",
        "Method Blank",
        "Matrix Spike",
        "Limits",
        "Averages 2010-2020",
        "5-year average",
        "EPA MCLs",
        "Bottled water",
    ],
)
def test_a_sheet_of_other_figures_is_left_out_with_the_reason(draft_of, name):
    draft = draft_of(workbook(**{"Results": ROWS, name: OTHER}), "report.xlsx")
    assert certain(draft) == ["2.1", "0.3"]
    assert aside(draft) == ["0.5", "4.9"]
    assert all(name in one.why for one in draft.not_taken)


@pytest.mark.parametrize(
    "name",
    ["May 2024", "State lab", "Health dept", "Blank form", "Limit Road", "History", "Previous"],
)
def test_a_sheet_under_any_other_name_is_read(draft_of, name):
    draft = draft_of(workbook(**{name: ROWS}), "report.xlsx")
    assert certain(draft) == ["2.1", "0.3"]


def test_sheets_named_for_places_are_samples_of_these_places(draft_of):
    file = workbook(**{"House well": ROWS, "Barn well": OTHER, "Notes": []})
    draft = draft_of(file, "report.xlsx")
    assert [sample.point_name for sample in draft.samples] == ["House well", "Barn well"]
    assert certain(draft) == ["2.1", "0.3", "0.5", "4.9"]
    assert "repeated" not in keys(draft)


LONG = "Sample,Collected,Parameter,Result,Unit\nKitchen tap,2024-05-03,Lead,2.1,ug/L\n"


@pytest.mark.parametrize(
    "name",
    [
        "MCL",
        "EPA limit",
        "Health goal",
        "State guideline 2024",
        "Action level",
        "County average",
        "Typical well in the county",
        "Bottled water",
        "City water",
        "Valor límite",
        "Media anual",
        "Límite legal",
        "Promedio",
        "Grenzwert TrinkwV",
        "Valeur limite",
        "Moyenne annuelle",
    ],
)
def test_rows_of_a_limit_a_statistic_or_other_water_are_left_out_with_the_reason(draft_of, name):
    draft = draft_of(f"{LONG}{name},2024-05-03,Lead,0.5,ug/L\n")
    assert certain(draft) == ["2.1"]
    assert aside(draft) == ["0.5"]
    assert name in draft.not_taken[0].why


@pytest.mark.parametrize(
    "name",
    [
        "State Park Road well",
        "Limit Street tap",
        "Goal post well",
        "Well 2",
        "All wells",
        "Max's tap",
        "City Road tap",
        "Water",
        "Method",
        "Kitchen normal use",
        "Our well",
    ],
)
def test_a_sample_under_any_other_name_is_the_households(draft_of, name):
    draft = draft_of(f"{LONG}{name},2024-06-03,Lead,0.5,ug/L\n")
    assert "0.5" in figures(draft)
    assert aside(draft) == []


def asked(draft):
    """The readings that are asked about as perhaps of other water."""
    results = [r for s in draft.samples for r in s.sample.results]
    marks = [mark for s in draft.samples for mark in s.marks]
    pairs = zip(results, marks, strict=True)
    return [r.reading.text for r, mark in pairs if "open_kind" in mark.doubts]


@pytest.mark.parametrize(
    "name", ["Neighbor's well (Lot 14)", "Miller's next door", "Vecino", "Voisin", "Last year"]
)
def test_a_sample_of_a_neighbour_or_of_an_earlier_day_is_kept_and_asked_about(draft_of, name):
    draft = draft_of(f"{LONG}{name},2024-05-03,Lead,0.5,ug/L\n")
    assert asked(draft) == ["0.5"]
    assert certain(draft) == ["2.1"]
    (said,) = [finding.text for finding in draft.findings if finding.key == "open_kind"]
    assert name in said


def test_a_neighbours_report_and_sheet_are_asked_about(draft_of):
    line = "Sample location: Neighbor's well\nCollected: 2024-05-03\n"
    assert asked(draft_of(f"{line}Parameter,Result,Unit\nLead,2.1,ug/L\n")) == ["2.1"]
    draft = draft_of(workbook(Results=ROWS, Neighbor=OTHER), "report.xlsx")
    assert asked(draft) == ["0.5", "4.9"]


@pytest.mark.parametrize(
    "name",
    [
        "B4411-BLK1",
        "B4411-BS1",
        "B4411-BSD1",
        "B4411-MS1",
        "B4411-DUP1",
        "24-101-1MS",
        "24-101-1MSD",
        "BLK-0504",
        "CCB1",
        "WELL-1 LFM",
        "WELL-1 LFMD",
        "Method Blk",
        "Std 5 ppb",
        "Blank 2",
        "Blanco de método",
        "Muestra de control",
        "Ajout dosé",
        "Blindprobe",
        "Kontrollprobe",
        "Témoin",
        "Blanc de terrain",
        "Puits doublon",
        "Pozo duplicado",
        "Brunnen Doppelprobe",
    ],
)
def test_a_check_of_the_labs_own_is_left_out_by_its_code_or_name(draft_of, name):
    draft = draft_of(f"{LONG}{name},2024-05-03,Lead,0.5,ug/L\n")
    assert certain(draft) == ["2.1"]
    assert aside(draft) == ["0.5"]


@pytest.mark.parametrize(
    "name",
    ["Blank Road well", "Spike Road tap", "Spring", "Duplicate Lane", "Well MS-2 house", "Lot 4B"],
)
def test_a_place_whose_name_is_like_that_of_a_check_stays_the_households(draft_of, name):
    draft = draft_of(f"{LONG}{name},2024-06-03,Lead,0.5,ug/L\n")
    assert certain(draft) == ["2.1", "0.5"]


def test_a_column_of_samples_tells_whose_each_row_of_a_wide_table_is(draft_of):
    draft = draft_of(
        "Sample,Date,Lead (ug/L),Iron (mg/L),Sodium (mg/L)\nMCL,2024-05-03,15,0.3,20\n"
        "Kitchen tap,2024-05-03,2.1,0.1,8\nBarn,2024-05-03,4,0.7,9\n"
    )
    assert [sample.point_name for sample in draft.samples] == ["Kitchen tap", "Barn"]
    assert certain(draft) == ["2.1", "0.1", "8", "4", "0.7", "9"]
    assert aside(draft) == ["15", "0.3", "20"]


STATUS = "Parameter,Result,Unit,Status\nLead,2.1,ug/L,Final\n"


@pytest.mark.parametrize("status", ["Superseded", "Cancelled", "Entered in error", "Withdrawn"])
def test_a_withdrawn_result_is_left_out_with_the_reason(draft_of, status):
    draft = draft_of(f"Collected: 2024-05-03\n{STATUS}Iron,0.3,mg/L,{status}\n")
    assert certain(draft) == ["2.1"]
    assert aside(draft) == ["0.3"]
    assert status in draft.not_taken[0].why


def test_a_rejected_result_is_kept_and_asked_about(draft_of):
    draft = draft_of(f"Collected: 2024-05-03\n{STATUS}Iron,0.3,mg/L,Rejected\n")
    assert figures(draft) == ["2.1", "0.3"]
    assert certain(draft) == ["2.1"]


@pytest.mark.parametrize(
    ("heading", "names"),
    [
        ("Date,Spigot used,Iron (mg/L),Lead (ug/L)", ["raw tap", "barn"]),
        ("Date,Whose well,Iron (mg/L),Lead (ug/L)", ["ours", "Miller"]),
        ("Fecha,Muestra,Hierro (mg/L),Plomo (ug/L)", ["Pozo casa", "Pozo huerta"]),
        ("Fecha,Donde,Hierro (mg/L),Plomo (ug/L)", ["Cocina", "Huerta"]),
        ("Date,Lieu,Fer (mg/L),Plomb (ug/L)", ["Cuisine", "Grange"]),
    ],
)
def test_a_heading_over_the_points_tells_two_samples_of_a_day_apart(draft_of, heading, names):
    rows = [f"2024-05-{day},{name},0.{day},2.{day}" for day in (13, 17) for name in names]
    draft = draft_of("\n".join([heading, *rows]) + "\n")
    assert [sample.point_name for sample in draft.samples] == names * 2
    assert "repeated" not in keys(draft)


def test_the_words_your_water_over_a_column_do_not_hide_its_point(draft_of):
    draft = draft_of(
        "Sampling point: Kitchen tap\nCollected: 2024-05-03\n\n"
        "Parameter,Regional average,Your water,Unit\nLead,0.5,2.1,ug/L\nIron,0.1,0.3,mg/L\n"
    )
    assert [sample.point_name for sample in draft.samples] == ["Kitchen tap"]
    assert certain(draft) == ["2.1", "0.3"]


def test_a_column_of_wells_may_name_a_limit_too(draft_of):
    rows = "03/05/2024,Casa,0.7,2.1\n31/12/2024,Valor límite,0.3,10\n"
    draft = draft_of(f"Fecha,Pozo,Hierro (mg/L),Plomo (ug/L)\n{rows}")
    assert figures(draft) == ["0.7", "2.1"]
    assert aside(draft) == ["0.3", "10"]


# Names of blanks and second bottles: common practice, no source.
CHECKS = (
    "Blanco de campo|Blanco de transporte|Blanc de terrain|Blanc de rinçage|Feldblindwert|Nullprobe"
    "|Doublon de E1|Duplicado de M-1|Doppelprobe zu P1|Réplicat|Duplicate of W-1"
)


@pytest.mark.parametrize("name", sorted(CHECKS.split("|")))
@pytest.mark.parametrize(
    "told",
    [
        (
            "Fecha,Descripción,Hierro (mg/L),Manganeso (mg/L),pH\n"
            "2024-05-03,Pozo casa,0.7,0.21,7.1\n"
            "2024-05-03,{name},0.02,0.01,6.9\n"
        ),
        (
            "Parámetro,Unidades,M-1,M-2\nDescripción,,Pozo casa,{name}\n"
            "Fecha,,2024-05-03,2024-05-03\nHierro,mg/L,0.7,0.02\nManganeso,mg/L,0.21,0.01\n"
            "pH,,7.1,6.9\n"
        ),
    ],
    ids=["a row each", "a column each"],
)
def test_what_a_sample_is_called_tells_that_it_is_a_check(draft_of, name, told):
    draft = draft_of(told.format(name=name))
    assert figures(draft) == ["0.7", "0.21", "7.1"]
    assert [sample.point_name for sample in draft.samples] == ["Pozo casa"]
    assert sorted(aside(draft)) == ["0.01", "0.02", "6.9"]


STANDARDS = (
    "Patrón|Material de referencia|Étalon|Matériau de référence|Blanc réactif|Referenzmaterial"
    "|Aufgestockte Probe|Laborduplikat|Kalibrierlösung|Standardlösung|Ringversuch"
)


@pytest.mark.parametrize("name", sorted(STANDARDS.split("|")))
@pytest.mark.parametrize("head", ["Sample type", "Sample ID"])
def test_standards_of_a_lab_in_any_language_are_none_of_the_households_water(draft_of, head, name):
    draft = draft_of(
        f"{head},Parameter,Result,Unit,Date collected\nWell water,Iron,0.3,mg/L,2024-05-03\n"
        f"{name},Lead,0.01,mg/L,2024-05-03\n"
    )
    assert figures(draft) == ["0.3"]
    assert aside(draft) == ["0.01"]
