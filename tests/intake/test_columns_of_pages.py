"""Columns of a PDF whose room is narrow, or is crossed by lines below, or whose heading is broken.

Pages as labs lay them out: common practice, no source.
"""

import io

import pytest
from reportlab.pdfgen.canvas import Canvas

from wellbook.intake.pages.cells import row_of
from wellbook.intake.pages.words import Word

SIZE = 9.0


def page(*lines):
    """A PDF of lines, each a height above its foot and cells with their left sides."""
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1)
    canvas.setFont("Helvetica", SIZE)
    y = 780.0
    for step, *cells in lines:
        y -= step
        for left, text in cells:
            canvas.drawString(left, y, text)
    canvas.save()
    return file.getvalue()


def rows(edges, *texts, step=14):
    return [
        (step, *[(left, text) for left, text in zip(edges, row, strict=False) if text])
        for row in texts
    ]


def told(draft):
    """Of each sample its day and its parameters with their figures."""
    return [
        (
            one.sample.collected.iso(),
            {r.parameter: r.reading.text for r in one.sample.results},
        )
        for one in draft.samples
    ]


def all_certain(draft):
    return all(mark.is_certain for sample in draft.samples for mark in sample.marks)


def overprinted(second, step=0.0, shift=0.0):
    """Lead's figure, with another one set over it."""
    edges = (54, 200, 300)
    table = rows(
        edges,
        ("Parameter", "Result", "Unit"),
        ("Lead", "3", "ug/L"),
        ("Iron", "0.3", "mg/L"),
        ("Copper", "0.5", "mg/L"),
    )
    over = [(step, (200 + shift, second)), (-step, (54, ""))]
    return page((14, (54, "Collected: 2024-05-13")), *table[:2], *over, *table[2:])


@pytest.mark.parametrize("shift", [-3, 0, 2])
@pytest.mark.parametrize("second", ["15", "5", "<5"])
def test_two_figures_over_each_other_are_neither_one_nor_joined(draft_of, second, shift):
    """A 3 under a 5 is not 35, and not 3."""
    (sample,) = draft_of(overprinted(second, 1.0, shift), "a.pdf").samples
    lead, mark = sample.sample.results[0], sample.marks[0]
    assert (lead.reading.number, mark.is_certain) == (None, False)
    assert all(one.is_certain for one in sample.marks[1:])
    assert len(sample.marks) == 3


@pytest.mark.parametrize("shift", [0, 0.3])
def test_a_figure_that_is_printed_twice_to_be_bold_is_one(draft_of, shift):
    draft = draft_of(overprinted("3", 0.0, shift), "a.pdf")
    assert told(draft)[0][1]["lead"] == "3"
    assert all_certain(draft)


def test_a_figure_on_a_line_to_write_on_is_one(draft_of):
    draft = draft_of(overprinted("____"), "a.pdf")
    assert told(draft)[0][1]["lead"].strip("_ ") == "3"


def test_a_place_of_two_lines_over_its_column_is_told_whole(draft_of):
    edges = (54, 172, 260, 350)
    draft = draft_of(
        page(
            *rows(edges, ("", "", "Outdoor", "Kitchen"), step=20),
            *rows(edges, ("Sampling point", "", "tap", "tap"), step=11),
            *rows(
                edges,
                ("Date collected", "", "2024-09-16", "2024-09-16"),
                ("Parameter", "Unit", "L14-6843", "S25-3201"),
                ("Copper", "mg/L", "0.67", "1.91"),
                ("Nickel", "ug/L", "14.5", "<0.1"),
                ("Chloride", "mg/L", "34", "64"),
            ),
        ),
        "a.pdf",
    )
    assert [one.point_name for one in draft.samples] == ["Outdoor tap", "Kitchen tap"]


EDGES = (54, 172, 218, 284, 350)
HEAD = ("Analyte", "RL", "Result", "Units", "Analyst")
FIRST = (
    ("Alkalinity, total (as CaCO3)", "5", "171", "mg/L", "JP"),
    ("Chloride", "2", "96", "mg/L", "RT"),
    ("Lead", "0.5", "7.3", "ug/L", "RT"),
)
SECOND = (
    ("Alkalinity, total (as CaCO3)", "5", "208", "mg/L", "JP"),
    ("Chloride", "2", "41", "mg/L", "MH"),
    ("Lead", "0.5", "<0.5", "ug/L", "RT"),
)


def test_lines_of_the_next_sample_below_a_table_take_no_column_from_it(draft_of):
    facts = (54, 110, 190, 290)
    content = page(
        (14, (54, "Date Collected"), (140, "2025-03-19")),
        *rows(EDGES, HEAD, *FIRST),
        *rows(facts, ("Lab ID", "S20-6525-01-0077", "Sampling Point", "Bathroom sink"), step=28),
        (14, (54, "Date Collected"), (140, "2025-03-20")),
        *rows(EDGES, HEAD, *SECOND, step=20),
    )
    draft = draft_of(content, "report.pdf")
    assert told(draft) == [
        ("2025-03-19", {"alkalinity": "171", "chloride": "96", "lead": "7.3"}),
        ("2025-03-20", {"alkalinity": "208", "chloride": "41", "lead": "<0.5"}),
    ]


def test_columns_stand_apart_that_are_hardly_farther_from_each_other_than_words(draft_of):
    close = (54, 103, 155, 187, 215)
    content = page(
        (14, (54, "Date Collected:"), (140, "2025-03-19")),
        *rows(
            close,
            ("Method", "Analyte", "Result", "Units", "RL"),
            ("EPA 200.8", "Lead, Total", "7.3", "ug/L", "0.2"),
            ("EPA 300.0", "Chloride", "48.7", "mg/L", "0.1"),
            ("EPA 300.0", "Fluoride", "0.38", "mg/L", "0.02"),
            ("EPA 200.8", "Iron", "0.36", "mg/L", "0.01"),
        ),
    )
    draft = draft_of(content, "report.pdf")
    assert told(draft) == [
        ("2025-03-19", {"lead": "7.3", "chloride": "48.7", "fluoride": "0.38", "iron": "0.36"})
    ]
    assert all_certain(draft)


@pytest.mark.parametrize("lines", [2, 3])
def test_the_lines_of_a_broken_heading_are_one_heading(draft_of, lines):
    upper = [(14, (54, "Lab")), (10, (54, "Sample"), (250, "Analysis"))][3 - lines :]
    edges = (54, 110, 170, 210, 250)
    content = page(
        (14, (54, "Sample Date: 2025-03-19")),
        *upper,
        *rows(edges, ("ID", "Analyte", "Result", "Units", "Date"), step=10),
        *rows(
            edges,
            ("K16-8278", "Lead", "7.3", "ug/L", "03/22/2025"),
            ("K16-8278", "Chloride", "48.7", "mg/L", "03/22/2025"),
            ("K16-8278", "Iron", "0.36", "mg/L", "03/22/2025"),
            ("K16-8278", "Zinc", "1.2", "mg/L", "03/22/2025"),
        ),
    )
    draft = draft_of(content, "report.pdf")
    assert told(draft) == [
        ("2025-03-19", {"lead": "7.3", "chloride": "48.7", "iron": "0.36", "zinc": "1.2"})
    ]


def test_broken_names_of_parameters_over_samples_in_rows_are_whole(draft_of):
    edges = (40, 110, 190, 250, 330)
    content = page(
        (14, (250, "Total")),
        *rows(edges, ("", "", "", "Dissolved", "Total"), step=10),
        *rows(edges, ("Sample", "Sample", "Chloride,", "Solids,", "Coliform"), step=10),
        *rows(edges, ("Date", "Location", "mg/L", "mg/L", "Bacteria"), step=10),
        *rows(
            edges,
            ("06/23/2020", "Pressure tank", "67", "283", "Absent"),
            ("04/21/2023", "Pressure tank", "99", "694", "Absent"),
            ("09/17/2025", "Pressure tank", "59", "458", "Present"),
        ),
    )
    found = told(draft_of(content, "report.pdf"))
    assert [day for day, _results in found] == ["2020-06-23", "2023-04-21", "2025-09-17"]
    assert found[2][1] == {"chloride": "59", "tds": "458", "total_coliform": "Present"}


def test_days_above_the_numbers_of_samples_belong_to_their_columns(draft_of):
    edges = (54, 190, 240, 310)
    content = page(
        *rows(edges, ("Sample Site", "", "Barn", "Kitchen tap")),
        *rows(edges, ("Collected", "", "12/13/2012", "05/16/2015")),
        *rows(
            edges,
            ("Parameter", "Unit", "S12-4926", "W18-6350"),
            ("Lead", "ug/L", "0.5", "18"),
            ("Boron", "mg/L", "0.44", "1.18"),
            ("Chloride", "mg/L", "74", "57"),
        ),
    )
    draft = draft_of(content, "report.pdf")
    assert [
        (one.point_name, day) for one, (day, _found) in zip(draft.samples, told(draft), strict=True)
    ] == [
        ("Barn", "2012-12-13"),
        ("Kitchen tap", "2015-05-16"),
    ]


def test_several_facts_in_a_line_above_a_list_are_no_heading_of_it(draft_of):
    facts = ((54, "Probe-Nr.: S19-3474"), (200, "Entnahmestelle: Brunnen"))
    lines = ["Mangan: 0,249 mg/L", "Fluorid: < 0,05 mg/L", "Cadmium: 1,8 ug/L"]
    content = page(
        (14, *facts, (380, "Entnahmedatum: 26.11.2015")),
        *[(14, (54, line)) for line in [*lines, "Coliforme Bakterien: 0 KBE/100 ml"]],
    )
    draft = draft_of(content, "report.pdf")
    assert [day for day, _found in told(draft)] == ["2015-11-26"]
    assert list(told(draft)[0][1]) == ["manganese", "fluoride", "cadmium", "total_coliform"]


def test_words_as_far_apart_as_narrow_columns_are_two_cells():
    """Columns of 10 point letters with four points around each cell, as tables are often set."""
    words = [Word(40, 216.4, 81.1, 228.3, "Analysis"), Word(83.9, 216.4, 119.5, 228.3, "Method"),
             Word(127.5, 216.4, 188.6, 228.3, "Contaminant")]  # fmt: skip
    assert row_of(1, 1, words).texts == ["Analysis Method", "Contaminant"]


def test_dots_that_lead_to_a_figure_part_its_cell_and_belong_to_none():
    texts = ["Mangan", ".", ".", ".", ".", "n.n.", "mg/l"]
    words = [Word(40 + 14 * n, 100, 50 + 14 * n, 110, text) for n, text in enumerate(texts)]
    assert row_of(1, 1, words).texts == ["Mangan", "n.n. mg/l"]
    assert row_of(1, 1, words[:3]).texts == ["Mangan . ."]


def test_lines_centred_beside_cells_of_two_are_one_row(draft_of):
    """As a table is set whose cells are centred from top to bottom."""
    centred = page(
        (20, (54, "Collected: 2025-05-23")),
        (24, (200, "Result")), (5.5, (54, "Parameter"), (300, "Unit")), (5.5, (200, "May 2025")),
        (16, (54, "Nitrate as N")), (5.5, (200, "0.689"), (300, "mg/L")), (5.5, (54, "(by IC)")),
        (16, (54, "Total Dissolved")), (5.5, (200, "481"), (300, "mg/L")), (5.5, (54, "Solids")),
        (20, (54, "Zinc"), (200, "1.02"), (300, "mg/L")),
    )  # fmt: skip
    (sample,) = draft_of(centred, "centred.pdf").samples
    assert [(r.parameter, r.reading.text) for r in sample.sample.results] == [
        ("nitrate", "0.689"),
        ("tds", "481"),
        ("zinc", "1.02"),
    ]


@pytest.mark.parametrize("limit", ["", "LOR"])
def test_lines_over_columns_that_the_heading_leaves_blank_tell_of_their_samples(draft_of, limit):
    edges = (46, 170, 222, 312, 402)
    draft = draft_of(
        page(
            *rows(edges, ("", "", "", "Sample 1", "Sample 2"), step=20),
            *rows(edges, ("Location", "", "", "Well", "After softener"), step=16),
            *rows(edges, ("Sampled", "", "", "3 Aug 2023", "3 Aug 2023"), step=16),
            *rows(edges, ("Parameter", limit, "Unit"), step=16),
            *rows(
                edges,
                ("Hardness", "5" if limit else "", "mg/L", "389", "4"),
                ("Sodium", "1" if limit else "", "mg/L", "12", "186"),
                ("Iron", "0.02" if limit else "", "mg/L", "1.16", "<0.02"),
                step=16,
            ),
        ),
        "report.pdf",
    )
    assert [one.point_name for one in draft.samples] == ["Well", "After softener"]
    assert told(draft) == [
        ("2023-08-03", {"hardness": "389", "sodium": "12", "iron": "1.16"}),
        ("2023-08-03", {"hardness": "4", "sodium": "186", "iron": "<0.02"}),
    ]


def test_a_day_and_an_hour_in_one_line_of_a_slip_are_of_the_sample(draft_of):
    draft = draft_of(
        page(
            (20, (60, "Specimen number:            B-2406-0098")),
            (16, (60, "Date collected:              June 5, 2024        Hour: 9:00 AM")),
            (16, (60, "Collection point:            Hose bib")),
            (16, (60, "Chlorine residual:          0.0 mg/L")),
            (16, (60, "Date received:               June 5, 2024")),
            (16, (60, "RESULTS")),
            (16, (60, "Total coliform:               PRESENT")),
            (16, (60, "Nitrate nitrogen:            2.75 mg/L")),
            (16, (60, "INTERPRETATION:  [ ] Satisfactory   [X] Unsatisfactory   [ ] Unsuitable")),
        ),
        "slip.pdf",
    )
    assert [day for day, _results in told(draft)] == ["2024-06-05"]
