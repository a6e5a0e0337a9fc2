"""Blocks below one another, each with samples of its own across. Common practice, no source."""

import io

import openpyxl
import pytest

TWO = {
    "Barn": {"2018-05-17": {"iron": "0.31"}, "2019-12-25": {"iron": "0.42"}},
    "Kitchen tap": {"2024-05-23": {"iron": "0.11"}, "2025-06-24": {"iron": "0.12"}},
}


def told(draft):
    """Day, place and results of each sample; every one of them must be certain."""
    assert not any(mark.doubts for one in draft.samples for mark in one.marks)
    return [
        (
            one.sample.collected.iso(),
            one.point_name,
            {result.parameter: result.reading.text for result in one.sample.results},
        )
        for one in draft.samples
    ]


def listed(blocks):
    return [(day, place, row) for place, days in blocks.items() for day, row in days.items()]


@pytest.mark.parametrize(
    "head",
    [
        ("Test", "Unit"),
        ("", "Unit"),
        ("Ensayo", "Unidad"),
        ("Analyse", "Unité"),
        ("Parameter", "Einheit"),
    ],
)
@pytest.mark.parametrize("gap", ["", "\n"])
def test_each_block_keeps_the_days_and_the_place_above_it(draft_of, head, gap):
    lines = []
    for place, days in TWO.items():
        figures = ",".join(row["iron"] for row in days.values())
        lines.append(f"{place}\n{','.join((*head, *days))}\nIron,mg/L,{figures}\n{gap}")
    assert told(draft_of("".join(lines))) == listed(TWO)


def test_a_line_above_each_heading_tells_its_days(draft_of):
    text = ""
    for days in TWO.values():
        figures = ",".join(row["iron"] for row in days.values())
        text += f"Collected,,{','.join(days)}\nTest,Unit,Result,Result\nIron,mg/L,{figures}\n\n"
    assert told(draft_of(text)) == [(day, "", row) for day, _place, row in listed(TWO)]


def test_a_further_block_may_have_other_places_and_other_names(draft_of):
    draft = draft_of(
        "Collected: 2019-12-25\nTest,Unit,Kitchen,Barn\nIron,mg/L,0.31,0.42\n\n"
        "Test,Unit,Garage\nLead,ug/L,1.1\n"
    )
    assert told(draft) == [
        ("2019-12-25", "Kitchen", {"iron": "0.31"}),
        ("2019-12-25", "Barn", {"iron": "0.42"}),
        ("2019-12-25", "Garage", {"lead": "1.1"}),
    ]


def test_the_place_of_one_block_is_not_that_of_a_block_under_another_title(draft_of):
    draft = draft_of(
        "Lab: Cedar Hill\nLocation: Barn\nTest,Unit,2018-05-17\nIron,mg/L,0.31\n\n"
        "Guest cabin\nTest,Unit,2024-05-23\nIron,mg/L,0.11\n"
    )
    assert [one.point_name for one in draft.samples] == ["Barn", ""]
    assert {one.sample.lab for one in draft.samples} == {"Cedar Hill"}


def test_a_block_of_the_lab_s_own_checks_holds_no_result(draft_of):
    draft = draft_of(
        "Test,Unit,2018-05-17\nIron,mg/L,0.31\n\n"
        "Method blank\nTest,Unit,2018-05-18\nIron,mg/L,<0.01\n"
    )
    assert told(draft) == [("2018-05-17", "", {"iron": "0.31"})]
    assert "<0.01" in [one.what for one in draft.not_taken]


def test_the_days_of_samples_may_stand_below_their_numbers(draft_of):
    draft = draft_of(
        "Test,Unit,A-1,A-2\nDate collected,,2018-05-17,2019-12-25\nIron,mg/L,0.31,0.42\n"
        "Lead,ug/L,1,2\nDate received,,2018-05-18,2019-12-27\nZinc,mg/L,0.1,0.2\n"
    )
    assert [(day, len(row)) for day, _place, row in told(draft)] == [
        ("2018-05-17", 3),
        ("2019-12-25", 3),
    ]


def test_blocks_of_a_workbook_name_their_own_rows(draft_of):
    book = openpyxl.Workbook()
    for row in (
        ["Grifo de cocina"], ["Ensayo", "Unidad", "2023-07-23"], ["Calcio", "mg/L", 49.3], [],
        ["Depósito"], ["Ensayo", "Unidad", "2018-07-18"], ["Calcio", "mg/L", 50.3],
    ):  # fmt: skip
        book.active.append(row)
    content = io.BytesIO()
    book.save(content)
    draft = draft_of(content.getvalue(), "pozos.xlsx")
    assert told(draft) == [
        ("2023-07-23", "Grifo de cocina", {"calcium": "49.3"}),
        ("2018-07-18", "Depósito", {"calcium": "50.3"}),
    ]
    assert [one.marks[0].place.row for one in draft.samples] == [3, 7]


PLACES, DAYS = ("Küche Zapfhahn", "Brunnenkopf"), ("February 26, 2018", "August 23, 2022")


@pytest.mark.parametrize(
    ("first", "second"), [(PLACES, DAYS), (DAYS, PLACES)], ids=["places first", "days first"]
)
@pytest.mark.parametrize("head", [("Parameter", "Unit"), ("Parameter", "Einheit")])
@pytest.mark.parametrize("is_above", [False, True])
def test_a_heading_of_two_lines_tells_the_place_and_the_day(
    draft_of, head, first, second, is_above
):
    lines = [[*head, *first, "Standard"], ["", "", *second, ""]]
    rows = [*reversed(lines)] if is_above else lines
    rows += [["Lead", "µg/L", "2.5", "12.9", "10"], ["Iron", "mg/L", "0.31", "0.08", "0.3"]]
    text = "\n".join(";".join(row) for row in rows)
    assert told(draft_of(f"Certificate of Analysis;;;;\n\n{text}\n")) == [
        ("2018-02-26", PLACES[0], {"lead": "2.5", "iron": "0.31"}),
        ("2022-08-23", PLACES[1], {"lead": "12.9", "iron": "0.08"}),
    ]
