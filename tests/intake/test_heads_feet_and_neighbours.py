"""Letterheads and footers, tables side by side, results told line by line. All labs are invented.

How labs lay out such pages: common practice, no source.
"""

import io

import openpyxl
import pytest
from drafts import TODAY
from reportlab.pdfgen.canvas import Canvas

from wellbook import intake

HEAD = "Date collected,2026-02-04\n"


def taken(draft):
    """Day, parameter, text and unit of each result."""
    return [
        (
            one.sample.collected.iso()[:10],
            r.parameter or r.name,
            r.reading.text,
            r.reading.unit,
        )
        for one in draft.samples
        for r in one.sample.results
    ]


def page(rows, edges, others=()):
    """A page with a table, and other words where they stand."""
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1)
    canvas.setFont("Helvetica", 9)
    for number, row in enumerate(rows):
        for x, cell in zip(edges, row, strict=True):
            canvas.drawString(x, 740 - 16 * number, cell)
    for x, y, text in others:
        canvas.drawString(x, y, text)
    canvas.save()
    return file.getvalue()


@pytest.mark.parametrize(
    "line",
    [
        "Page 1/1 - 555-0188,,",
        "Seite 1 von 1,Seite 1/1 - 555-0188,",
        "Seite,1/1,555-0188",
        "Hotline,555-0188,",
        "Fon,(555) 555-0188,",
        "Hollin Ridge Analytical,12 Mill Road,12345 Ashton",
        "Ashton,12345,",
        "Questions,lab@example.org,9 to 5",
    ],
)
def test_no_reading_is_made_of_a_footer_and_its_figures_stay_listed(draft_of, line):
    draft = draft_of(f"{HEAD}Parameter,Result,Unit\nIron,0.31,mg/L\nLead,2,ug/L\n{line}\n")
    assert [row[1] for row in taken(draft)] == ["iron", "lead"]
    assert any(one.place.row == 5 for one in draft.not_taken)


@pytest.mark.parametrize(
    "words",
    ["This report shall not be reproduced except in full.", "Laboratory director: on file"],
)
@pytest.mark.parametrize(
    "table", ["Total Coliform,Absent\n", "Total Coliform,Absent\nIron (mg/L),0.3\n"]
)
def test_a_footer_with_the_number_of_its_page_is_neither_a_result_nor_left(draft_of, words, table):
    head = (
        "Sample collected,2026-02-04\nSample location,Kitchen sink\nType of supply,Private well\n"
    )
    draft = draft_of(f"{head}{table}E. coli,Absent\n{words},Page 1\n")
    assert [row[1] for row in taken(draft)][-1] == "e_coli"
    assert all(mark.is_certain for sample in draft.samples for mark in sample.marks)
    assert not {"1", "Page 1"} & {one.what for one in draft.not_taken}


def test_a_number_of_a_page_below_a_table_is_no_figure_that_was_left(draft_of):
    foot = "This report shall not be reproduced except in full.,,Page 1 of 2"
    draft = draft_of(f"{HEAD}Parameter,Result,Unit\nIron,0.31,mg/L\nLead,2,ug/L\n{foot}\n")
    assert draft.not_taken == ()


def test_a_column_of_limits_beside_samples_is_listed_once_whatever_its_cells_say(draft_of):
    head = "What we tested,Your water,Recommended\n"
    draft = draft_of(
        f"{HEAD}{head}Iron,2.07 mg/L,0.3 or less\npH,6.3,6.5-8.5\nZinc,1 mg/L,5 max.\n"
    )
    assert [(one.what, one.is_aside) for one in draft.not_taken] == [("0.3 or less", True)]


@pytest.mark.parametrize("head", ["Dil", "Dil Fac", "Dil. Factor", "DF", "Dilution"])
def test_a_dilution_is_no_result_that_was_left_out(draft_of, head):
    draft = draft_of(f"{HEAD}Parameter,Result,Unit,{head}\nIron,0.31,mg/L,5\nLead,2,ug/L,1\n")
    assert all(one.is_aside for one in draft.not_taken)


def test_the_time_of_a_day_in_a_column_is_no_figure_that_was_left(draft_of):
    draft = draft_of(f"{HEAD}Parameter,Result,Unit,Set up\nIron,0.31,mg/L,2026-02-05 15:30\n")
    assert draft.not_taken == ()


def test_an_unknown_name_with_a_unit_is_no_footer(draft_of):
    draft = draft_of(
        f"{HEAD}Parameter,Result,Unit\nIron,0.31,mg/L\nFrobnium 12345 Ashton,12,mg/L\n"
    )
    assert len(taken(draft)) == 2


def test_a_number_of_a_sample_is_no_telephone(draft_of):
    head = "Lab No.,Collected,Parameter,Result\n"
    draft = draft_of(f"{head}260-4471,2026-02-04,Frobnium,present\n260-4471,2026-02-04,Iron,2\n")
    assert len(taken(draft)) == 2


def test_a_footer_across_two_columns_does_not_join_them(draft_of):
    rows = [
        ["Analyte", "Result", "Flag", "Units", "Analyst"],
        ["Iron", "0.31", "*", "mg/L", "KT"],
        ["Chloride", "22", "", "mg/L", "KT"],
        ["E. coli", "Absent", "", "per 100 mL", "JP"],
    ]
    others = [
        (50, 800, "Date sampled: 2026-02-04"),
        (50, 60, "Page 1/1"),
        (400, 60, "Report 26-4471"),
    ]
    draft = draft_of(page(rows, [50, 150, 250, 370, 460], others), "page.pdf")
    assert [row[3] for row in taken(draft)] == ["mg/L", "mg/L", "per 100 mL"]


NEIGHBOURS = [
    ["Metals", "Result", "Unit", "Minerals of water", "Result", "Unit"],
    ["Iron", "0.31", "mg/L", "Chloride", "21", "mg/L"],
    ["Lead", "<1", "ug/L", "Sulfate", "33", "mg/L"],
    ["Copper", "0.2", "mg/L", "Fluoride", "0.4", "mg/L"],
]


@pytest.mark.parametrize("kind", ["csv", "pdf"])
def test_tables_side_by_side_under_titles_keep_their_own_results(draft_of, kind):
    if kind == "csv":
        text = HEAD + "\n".join(",".join(row) for row in NEIGHBOURS)
        draft = draft_of(text)
    else:
        others = [(50, 785, "Date collected: 2026-02-04")]
        draft = draft_of(page(NEIGHBOURS, [50, 130, 180, 300, 420, 470], others), "page.pdf")
    assert {row[1]: row[2] for row in taken(draft)} == {
        "iron": "0.31", "lead": "<1", "copper": "0.2",
        "chloride": "21", "sulfate": "33", "fluoride": "0.4",
    }  # fmt: skip


def test_results_told_line_by_line_are_read(draft_of):
    card = "Sample: Kitchen\nDate: 2026-02-04\nParameter: {}\nResult: {}\nUnit: {}\n\n"
    draft = draft_of(
        card.format("Iron", "0.31", "mg/L") + card.format("Lead", "<1", "ug/L"), "x.txt"
    )
    assert taken(draft) == [
        ("2026-02-04", "iron", "0.31", "mg/L"),
        ("2026-02-04", "lead", "<1", "ug/L"),
    ]


def test_lines_that_tell_the_sample_only_once_hold_for_all_results_below(draft_of):
    card = "Parameter: {}\nResult: {}\nUnit: {}\n"
    text = "Collected: 2026-02-04\nLocation: Kitchen\n" + card.format("Iron", "0.31", "mg/L")
    draft = draft_of(text + card.format("Lead", "<1", "ug/L"), "x.txt")
    assert [row[0] for row in taken(draft)] == ["2026-02-04"] * 2
    assert draft.samples[0].point_name == "Kitchen"


def test_the_year_beside_the_word_result_is_the_year_of_the_column(draft_of):
    draft = draft_of(
        "Parameter,Unit,Result 2024,Result 2025,Limit\nIron,mg/L,0.12,0.31,0.3\n"
        "E. coli,per 100 mL,absent,present,0\n"
    )
    assert [(row[0][:4], row[1], row[2]) for row in taken(draft)] == [
        ("2024", "iron", "0.12"), ("2024", "e_coli", "absent"),
        ("2025", "iron", "0.31"), ("2025", "e_coli", "present"),
    ]  # fmt: skip


def test_two_dots_lead_to_a_result_as_three_do(draft_of):
    draft = draft_of(
        "Sample of 4 February 2026\n\nIron ....... 0.31 mg/L\nTotal coliform .. present\n", "x.txt"
    )
    assert [row[1:3] for row in taken(draft)] == [
        ("iron", "0.31 mg/L"),
        ("total_coliform", "present"),
    ]


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Koloniezahl 22 °C", "heterotrophic_plate_count"),
        ("Conductividad a 20 ºC", "conductivity"),
        ("pH à 20 °C", "ph"),
        ("Conductivity, 25 °C", "conductivity"),
    ],
)
def test_the_warmth_of_a_measurement_is_no_part_of_its_name(draft_of, name, key):
    draft = draft_of(f"{HEAD};;\nParameter;Result;Unit\n{name};7,1;\n".replace(",2026", ";2026"))
    assert taken(draft)[0][1] == key


@pytest.mark.parametrize("head", ["Incertitude", "Incertidumbre", "Messunsicherheit"])
def test_an_uncertainty_is_no_result_that_was_left_out(draft_of, head):
    text = HEAD.replace(",", ";") + f"Parameter;Result;Unit;{head}\nIron;0,31;mg/L;± 0,04\n"
    assert all(one.is_aside for one in draft_of(text).not_taken)


def test_a_heading_whose_words_stand_in_two_lines_is_one(draft_of):
    draft = draft_of(
        f"{HEAD}TEST,YOUR,,EPA,\n,RESULT,UNITS,LIMIT,COMMENT\n"
        "Iron,0.45,mg/L,0.3,HIGH\nE. coli,ABSENT,per 100 mL,ABSENT,OK\n"
    )
    assert [row[2] for row in taken(draft)] == ["0.45", "ABSENT"]
    assert not draft.findings


def test_a_day_and_a_place_alone_above_a_table_are_those_of_its_sample(draft_of):
    draft = draft_of("Kitchen tap,,\n14/05/2025,,\nParameter,Result,Unit\nIron,0.31,mg/L\n")
    assert (taken(draft)[0][0], draft.samples[0].point_name) == ("2025-05-14", "Kitchen tap")
    assert "some_date" in [finding.key for finding in draft.findings]


def test_numbers_of_rows_are_no_results_and_not_detected_is_one(draft_of):
    draft = draft_of(
        "Result ID,Sampled,Characteristic,Value,Unit,Detection\n"
        "1,2026-02-04,Iron,310,ug/L,\n2,2026-02-04,Lead,,ug/L,Not Detected\n"
    )
    assert [row[2] for row in taken(draft)] == ["310", "not detected"]
    assert all(one.is_aside for one in draft.not_taken)


def test_the_word_result_is_no_place(draft_of):
    draft = draft_of(
        f"{HEAD}Location,Kitchen\nTEST,YOUR,,EPA,\n,RESULT,UNITS,LIMIT,COMMENT\n"
        "Iron,0.45,mg/L,0.3,HIGH\nLead,2,ug/L,15,OK\n"
    )
    assert {one.point_name for one in draft.samples} == {"Kitchen"}


@pytest.mark.parametrize(
    ("titles", "points"),
    [
        (",Raw water,,After filter,", ["Raw water", "After filter"]),
        (",Well 1,,Well 2,", ["Well 1", "Well 2"]),
        (",Our well,,Neighbour's well,", ["Our well"]),
        (",Unser Brunnen,,Nachbarn,", ["Unser Brunnen"]),
    ],
)
def test_titles_over_columns_of_the_same_names_tell_the_waters_apart(draft_of, titles, points):
    heads = "Date,Nitrate-N mg/L,Iron mg/L,Nitrate-N mg/L,Iron mg/L"
    draft = draft_of(f"{titles}\n{heads}\n2018-03-14,6,0.9,5.3,1.7\n2019-09-16,2.3,0.2,5.8,6.1\n")
    assert [one.point_name for one in draft.samples] == points * 2
    assert [row[2] for row in taken(draft)][:2] == ["6", "0.9"]
    others = [one.what for one in draft.not_taken]
    assert sorted(others) == ([] if len(points) > 1 else ["1.7", "5.3", "5.8", "6.1"])


def test_a_sheets_name_gives_way_to_names_over_the_columns(tmp_path, catalogue):
    book = openpyxl.Workbook()
    book.active.title = "Nitrate"
    for row in (["Date", "Nitrate-N mg/L", "Iron mg/L"], ["2018-03-14", 6.5, 0.9]):
        book.active.append(row)
    book.active.append(["2019-09-16", 2.5, 0.2])
    book.save(tmp_path / "tests.xlsx")
    draft = intake.read(tmp_path / "tests.xlsx", catalogue, today=TODAY)
    assert [row[1:] for row in taken(draft)][:2] == [
        ("nitrate", "6.5", "mg/L"),
        ("iron", "0.9", "mg/L"),
    ]


def test_figures_at_the_right_belong_to_the_heading_at_the_left_of_their_column(draft_of):
    rows = [
        ("Lugar de muestreo", "", "Pozo", "Grifo de cocina"),
        ("Fecha de toma de muestra", "", "14-02-2022", ""),
        ("Analito", "Unidades", "S14-6597", "L21-6740"),
    ]
    figures = [("Manganeso", "mg/L", "0,710", "0,543"), ("Cobre", "mg/L", "0,499", "0,114"),
               ("Zinc", "mg/L", "0,91", "<0,02"), ("Sulfatos", "mg/L", "162", "150")]  # fmt: skip
    words = [(*row[:2], "", "") for row in figures]
    right = [
        (edge - 5 * len(text), 740 - 16 * number, text)
        for number, row in enumerate(figures, 3)
        for edge, text in ((294, row[2]), (379, row[3]))
    ]
    right.append((330, 724, "14-02-2022"))
    draft = draft_of(page([*rows, *words], (54, 184, 243, 302), right), "b.pdf")
    assert [one.point_name for one in draft.samples] == ["Pozo", "Grifo de cocina"]
    assert [row[2] for row in taken(draft)] == [row[2] for row in figures] + [
        row[3] for row in figures
    ]


def test_a_first_table_headed_by_an_open_word_is_read_beside_the_second(draft_of):
    draft = draft_of(
        "Collected:,10/17/2020,,,Site:,Well tap\n,,,,,,\n"
        "General,Result,Unit,,Metals,Result,Unit\n"
        "Sulfate,45.4,mg/L,,Total Iron,0.132,mg/L\nChloride,12,mg/L,,Lead,<1,ug/L\n"
    )
    assert taken(draft) == [
        ("2020-10-17", "sulfate", "45.4", "mg/L"),
        ("2020-10-17", "chloride", "12", "mg/L"),
        ("2020-10-17", "iron", "0.132", "mg/L"),
        ("2020-10-17", "lead", "<1", "ug/L"),
    ]


def test_lines_above_tables_side_by_side_tell_of_the_one_below_them(draft_of):
    draft = draft_of(
        "Date sampled:,2015-05-21,,,Date sampled:,2024-10-14,\nTap:,Kitchen,,,Tap:,Barn,\n"
        "Test,Result,Unit,,Test,Result,Unit\n"
        "Iron,0.58,mg/L,,Iron,0.62,mg/L\nLead,2,ug/L,,Lead,<1,ug/L\n"
    )
    assert [row[0] + row[2] for row in taken(draft)] == [
        "2015-05-210.58", "2015-05-212", "2024-10-140.62", "2024-10-14<1",
    ]  # fmt: skip
    assert [one.point_name for one in draft.samples] == ["Kitchen", "Barn"]


def test_a_day_over_several_columns_is_of_each_place_below_it(draft_of):
    draft = draft_of(
        "Parameter,Units,09/21/2022,,11/24/2023,\n"
        ",,Before softener,After softener,Before softener,After softener\n"
        "Iron,mg/L,2.06,<0.03,1.59,0.04\nSodium,mg/L,15,36,16,31\n"
    )
    found = [one.sample.collected.iso()[:4] + one.point_name for one in draft.samples]
    places = ["Before softener", "After softener"]
    assert found == [year + place for year in ("2022", "2023") for place in places]
    assert sorted(row[2] for row in taken(draft)) == sorted(
        ["2.06", "<0.03", "1.59", "0.04", "15", "36", "16", "31"]
    )
