"""Layouts of labs and of households that are rare, and are met. All labs are invented."""

import pytest
from reportlab.lib import colors
from reportlab.platypus import SimpleDocTemplate, Table, TableStyle


def taken(draft):
    """Day, point, parameter and text of each result."""
    return [
        (one.sample.collected.iso()[:10], one.point_name, r.parameter or r.name, r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ]


@pytest.mark.parametrize(
    "line",
    [
        "Collected:,06/18/2019 Time: 8:15 AM",
        "Analytical Report Sample Date 06/18/2019 Sample ID Tap-1",
        'Received: 06/19/2019 Collected: 06/18/2019,""',
        "Sample of 18 June 2019",
        '"Thank you for the sample, which was collected on June 18, 2019 from the kitchen"',
        "collectedAt,2019-06-18T08:15:00",
    ],
)
def test_the_day_of_sampling_is_found_in_a_line(draft_of, line):
    draft = draft_of(f"{line}\nParameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n")
    assert {row[0] for row in taken(draft)} == {"2019-06-18"}


def test_another_day_in_a_sentence_is_no_day_of_sampling(draft_of):
    draft = draft_of(
        "Your sample was received on June 18, 2019\nLimits of 12/26/2021\n"
        "Parameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n"
    )
    assert "no_date" in {finding.key for finding in draft.stops}


def test_each_column_of_samples_tells_its_place_and_its_day(draft_of):
    draft = draft_of(
        "Analyte,Unit,Kitchen (03/22/2023),Barn - 04/24/2023,Limit\nLead,ug/L,3.1,2.7,10\n"
        "Chloride,mg/L,18,17,250\n"
    )
    assert taken(draft) == [
        ("2023-03-22", "Kitchen", "lead", "3.1"), ("2023-03-22", "Kitchen", "chloride", "18"),
        ("2023-04-24", "Barn", "lead", "2.7"), ("2023-04-24", "Barn", "chloride", "17"),
    ]  # fmt: skip


def test_days_across_and_words_about_each_sample_below(draft_of):
    draft = draft_of(
        "Sampled,12-Mar-2019,14-May-2021\nSampled by,owner,owner\nLab No.,7731,8842\n"
        '"Lead, ug/L",3.1,2.7\nTotal coliform,absent,PRESENT\n'
    )
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2019-03-12", "3.1"), ("2019-03-12", "absent"),
        ("2021-05-14", "2.7"), ("2021-05-14", "PRESENT"),
    ]  # fmt: skip
    assert [one.sample.lab_number for one in draft.samples] == ["7731", "8842"]


def test_notes_below_a_sheet_of_years_are_no_results(draft_of):
    draft = draft_of(
        ",2018,2019,2020\nNitrate (ppm),3.1,2.7,2.9\nIron (ppm),0.2,0.1,0.3\nNotes,ok,new pump,ok\n"
    )
    assert {row[2] for row in taken(draft)} == {"nitrate", "iron"}


def test_a_diary_has_a_day_over_each_visit(draft_of):
    draft = draft_of(
        "Well diary\n\nMay 21, 2017\n  Nitrate 1.9 mg/L\n  Coliform absent\n\n"
        "June 14, 2018\n  Nitrate 2.2 mg/L\n  Coliform present\n",
        "diary.txt",
    )
    assert [(row[0], row[2]) for row in taken(draft)] == [
        ("2017-05-21", "nitrate"), ("2017-05-21", "total_coliform"),
        ("2018-06-14", "nitrate"), ("2018-06-14", "total_coliform"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "title", ["Quality Control - Method Blank", "QC Summary", "Laboratory Control Sample"]
)
def test_results_below_a_title_of_checks_are_none_of_the_water(draft_of, title):
    draft = draft_of(
        f"Collected,2024-06-05\nAnalyte,Result,Unit\nIron,0.4,mg/L\nLead,3,ug/L\n{title}\n"
        "Analyte,Result,Unit\nIron,<0.05,mg/L\nLead,<0.05,ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["0.4", "3"]
    assert [one.what for one in draft.not_taken if one.is_aside] == ["<0.05", "<0.05"]


def test_a_line_that_only_mentions_checks_hides_nothing(draft_of):
    draft = draft_of(
        "Collected,2024-06-05\nAnalyte,Result,Unit\nIron,0.4,mg/L\nQC batch: 77,,\n"
        "All quality control criteria were met,,\nLead,3,ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["0.4", "3"]


@pytest.mark.parametrize(
    ("word", "kind"), [("found", "present"), ("bad", "present"), ("ok", "absent")]
)
def test_what_a_household_notes_of_germs_is_asked_about(draft_of, word, kind):
    draft = draft_of(f"date,germs,nitrate mg/l\n2019-06-18,{word},3.1\n2020-06-18,{word},3.3\n")
    found = [r for s in draft.samples for r in s.sample.results if r.name == "germs"]
    assert {(r.parameter, r.reading.kind.value) for r in found} == {("total_coliform", kind)}
    doubts = [mark.doubts for sample in draft.samples for mark in sample.marks]
    assert doubts[0][0] == "near_name"


def test_heads_of_a_page_stand_in_two_lines_of_different_height(draft_of, tmp_path):
    heads = ["Location", "Collected", "Iron\nmg/L", "Lead\nug/L"]
    rows = [heads, ["Kitchen", "03/28/2019", "0.3", "<1.0"], ["Barn", "02/15/2022", "ND", "8.8"]]
    path = tmp_path / "report.pdf"
    ruled = TableStyle([("GRID", (0, 0), (-1, -1), 0.4, colors.grey)])
    SimpleDocTemplate(str(path)).build([Table(rows, style=ruled)])
    assert taken(draft_of(path.read_bytes(), "page.pdf")) == [
        ("2019-03-28", "Kitchen", "iron", "0.3"), ("2019-03-28", "Kitchen", "lead", "<1.0"),
        ("2022-02-15", "Barn", "iron", "ND"), ("2022-02-15", "Barn", "lead", "8.8"),
    ]  # fmt: skip
