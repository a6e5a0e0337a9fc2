"""Columns that stand beside the results: signs, limits of the lab, days of the laboratory's work.

How labs head them: common practice, no source. All labs are invented.
"""

import io
from decimal import Decimal

import pytest
from reportlab.pdfgen.canvas import Canvas

HEAD = "Date collected,2026-02-04\n"


def taken(draft):
    """Day, parameter, text and kind of each result."""
    return [
        (one.sample.collected.iso()[:10], r.parameter or r.name, r.reading.text, r.reading.kind)
        for one in draft.samples
        for r in one.sample.results
    ]


@pytest.mark.parametrize("head", ["Kennz.", "Ind", "Signe"])
def test_a_column_of_signs_is_read_whatever_stands_over_it(draft_of, head):
    draft = draft_of(
        f"Entnahmedatum;2026-02-04\nParameter;Ergebnis;{head};Einheit\n"
        "Bor;0,05;<;mg/l\nBlei;4,3;;ug/l\n"
    )
    assert [(row[1], str(row[3])) for row in taken(draft)] == [
        ("boron", "below"),
        ("lead", "number"),
    ]


@pytest.mark.parametrize(
    "line", ["n.n.,nicht nachweisbar,", "ND,not detected,", "Responsable,L. Vale,"]
)
def test_no_reading_is_made_of_a_legend_or_of_who_signs(draft_of, line):
    draft = draft_of(f"{HEAD}Parameter,Unit,Result\nIron,mg/L,0.1\nLead,ug/L,ND\n{line}\n")
    assert [row[1] for row in taken(draft)] == ["iron", "lead"]


@pytest.mark.parametrize(
    ("heading", "key"),
    [
        ("Coliformes totales, NMP/100 mL", "total_coliform"),
        ("Escherichia coli, /100 mL", "e_coli"),
        ("E. coli (Anzahl/100 ml)", "e_coli"),
    ],
)
def test_a_heading_with_a_count_per_volume_is_its_parameter(draft_of, heading, key):
    draft = draft_of(f'Date sampled,"{heading}","Hierro, mg/L"\n2026-02-04,<1,0.3\n')
    assert {row[1] for row in taken(draft)} == {key, "iron"}


def test_tables_side_by_side_whose_results_have_another_heading_are_both_read(draft_of):
    draft = draft_of(
        f"{HEAD}Contaminant,Seen,UOM,,Contaminant,Seen,UOM\n"
        "Lead,2,ug/L,,Turbidity,0.97,NTU\nIron,0.1,mg/L,,E. coli,present,per 100 mL\n"
    )
    assert {row[1]: row[2] for row in taken(draft)} == {
        "lead": "2", "iron": "0.1", "turbidity": "0.97", "e_coli": "present"
    }  # fmt: skip


def test_no_figure_goes_under_a_name_of_the_table_beside_it_where_half_the_names_are_known(
    draft_of,
):
    draft = draft_of(
        f"{HEAD}Group A,Result,Units,Group B,Result,Units\nIron,0.3,mg/L,Calcium,40,mg/L\n"
        "Zorbium,0.1,mg/L,Magnesium,9,mg/L\nLead,0.001,mg/L,Quux,1,mg/L\n"
        "Frobium,0.2,mg/L,Xyzzy,2,mg/L\n"
    )
    found = {row[1]: row[2] for row in taken(draft)}
    assert found["calcium"] == "40"
    assert found.get("iron", "0.3") == "0.3"


def test_water_of_the_pressure_tank_is_a_sample_and_the_pressure_is_none(draft_of):
    draft = draft_of(
        "Parameter,Unit,Pressure tank,Barn\nDate sampled,,2026-02-04,2026-02-04\n"
        "Iron,mg/L,0.2,0.3\nE. coli,per 100 mL,present,absent\n"
    )
    assert {one.point_name: len(one.sample.results) for one in draft.samples} == {
        "Pressure tank": 2, "Barn": 2
    }  # fmt: skip


@pytest.mark.parametrize("head", ["Analysendatum", "Finished"])
def test_a_day_that_is_told_goes_before_one_of_the_labs_work(draft_of, head):
    draft = draft_of(f"{HEAD}Parameter,Result,Unit,{head}\nIron,0.1,mg/L,2026-02-07\n"
                     "Lead,2,ug/L,2026-02-08\n")  # fmt: skip
    assert {row[0] for row in taken(draft)} == {"2026-02-04"}


def test_a_day_under_words_that_tell_nothing_is_asked_about(draft_of):
    draft = draft_of("Parameter,Result,Unit,Finished\nIron,0.1,mg/L,2026-02-07\n"
                     "Lead,2,ug/L,2026-02-08\n")  # fmt: skip
    assert not any(mark.is_certain for one in draft.samples for mark in one.marks)


def test_the_labs_limits_are_no_sample_of_their_own(draft_of):
    """Two samples on a page, in blocks; the words over the names are unknown."""
    block = "Sampling point,{},,\nDate sampled,2026-02-04,,\nProbe,RL,Result,Unit\n"
    rows = "Nitrate-N,0.1,3.1,mg/L\nIron,0.05,{},mg/L\nLead,0.5,2,ug/L\n"
    text = block.format("Kitchen") + rows.format("0.2") + block.format("Barn") + rows.format("0.3")
    draft = draft_of(text)
    assert {row[2] for row in taken(draft)} == {"3.1", "0.2", "0.3", "2"}
    assert {one.point_name for one in draft.samples} == {"Kitchen", "Barn"}


def test_facts_of_the_next_sample_do_not_join_the_columns_above_them(draft_of):
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1)
    edges = [50, 150, 200, 260, 330]
    y = 760
    table = [
        ["Parameter", "RL", "Result", "Units", "Analyst"],
        ["Nitrate-N", "0.1", "3.1", "mg/L", "JP"],
        ["Iron", "0.05", "0.2", "mg/L", "JP"],
        ["Lead", "0.5", "2", "ug/L", "JP"],
        ["Zinc", "0.5", "3", "ug/L", "JP"],
        ["Boron", "0.5", "5", "mg/L", "JP"],
    ]
    for point in ("Kitchen tap", "Barn hydrant by the road"):
        for row in (["Sampling point", point], ["Date of sampling", "2026-02-04"], *table):
            for x, cell in zip(edges, row, strict=False):
                canvas.drawString(x, y, cell)
            y -= 16
    canvas.save()
    found = taken(draft_of(file.getvalue(), "page.pdf"))
    assert [row[2] for row in found] == ["3.1", "0.2", "2", "3", "5"] * 2


def test_a_sentence_on_a_limit_is_no_reading_and_a_count_in_one_is(draft_of):
    draft = draft_of(
        "Dear A.,\n\nDate sampled: February 4, 2026\n\nIron came back at 0.2 mg/L.\n"
        "The result for E. coli is <1 MPN/100 mL.\n\nThe federal limit for nitrate is 10 mg/L.\n",
        "letter.txt",
    )
    assert [row[1] for row in taken(draft)] == ["iron", "e_coli"]
    draft = draft_of("Sample of 4 February 2026\n- Lead: 4 ppb\n- Iron: 0.1 mg/L\n"
                     "Limit for lead is 15 ppb.\n", "letter.txt")  # fmt: skip
    assert [row[2] for row in taken(draft)] == ["4 ppb", "0.1 mg/L"]


SAMPLES = "Collected,2026-02-18,,,,\nAnalyte,Units,"


@pytest.mark.parametrize(
    "rows",
    [
        "Kitchen,RL,Barn,RL\nLead,ug/L,ND,1,8,1\nIron,mg/L,0.3,0.05,ND,0.05\n",
        "Kitchen,Barn,RL\nLead,ug/L,ND,8,1\nIron,mg/L,0.3,ND,0.05\n",
        "RL,Kitchen,Barn\nLead,ug/L,1,ND,8\nIron,mg/L,0.05,0.3,ND\n",
        "Kitchen,,Barn,\n,,Result,RL,Result,RL\nLead,ug/L,ND,1,8,1\nIron,mg/L,0.3,0.05,ND,0.05\n",
    ],
    ids=["behind each", "behind all", "before all", "below merged heads"],
)
def test_reporting_limits_beside_columns_of_samples_are_those_of_their_results(draft_of, rows):
    draft = draft_of(SAMPLES + rows)
    found = {
        (sample.point_name, r.name): (r.reporting_limit, r.reading.number)
        for sample in draft.samples
        for r in sample.sample.results
    }
    assert found == {
        ("Kitchen", "Lead"): ("1", Decimal(1)), ("Kitchen", "Iron"): ("0.05", Decimal("0.3")),
        ("Barn", "Lead"): ("1", Decimal(8)), ("Barn", "Iron"): ("0.05", Decimal("0.05")),
    }  # fmt: skip
    assert draft.not_taken == ()


@pytest.mark.parametrize("head", ["Q", "Flag", "Note", "Footnote"])
def test_marks_behind_the_column_of_a_sample_are_those_of_its_results(draft_of, head):
    rows = f"Kitchen,{head},Barn,{head}\nLead,ug/L,2,B,8,\nIron,mg/L,0.3,,0.1,U\n"
    draft = draft_of(SAMPLES + rows)
    found = [(r.name, r.qualifier, r.reading.kind) for s in draft.samples for r in s.sample.results]
    assert found == [("Lead", "B", "number"), ("Iron", "", "number"),
                     ("Lead", "", "number"), ("Iron", "U", "below")]  # fmt: skip
