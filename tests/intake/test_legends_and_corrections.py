"""Lines that say what marks mean, or that a figure was amended. Words of the trade, from memory."""

import pytest

HEAD = "Collected,2026-02-04\nParameter,Result,Unit,Qualifier\n"


def certain(draft_of, rows, lines):
    """Whether each reading of a table with such lines below is certain."""
    draft = draft_of(f"{HEAD}{rows}{lines}\n")
    return [mark.is_certain for sample in draft.samples for mark in sample.marks]


LEAD = "Lead,5,ug/L,{mark}\nIron,0.3,mg/L,\nZinc,0.2,mg/L,\n"


@pytest.mark.parametrize(
    ("mark", "legend"),
    [
        ("K", "K = actual value is less than value shown"),
        ("L", "J = estimated; L = actual value is greater"),
        ("2", "2 = not detected at the value shown"),
        ("J", "J = joint sample of two wells"),
        ("U", "U = unsatisfactory"),
        ("Z", "Z = result in mg/L"),
        ("K", "K: actual value is less than value shown"),
        ("L", "Legend: J: estimated; L: actual value is greater"),
        ("2", "2: not detected at the value shown"),
        ("J", "J: joint sample of two wells"),
        ("Z", "U: not detected, Z: result in mg/L"),
        ("L", "L,actual value is less than value shown"),
        ("*", "*: not detected"),
    ],
)
def test_a_flag_is_asked_about_where_its_legend_says_something_else(draft_of, mark, legend):
    assert certain(draft_of, LEAD.format(mark=mark), legend) == [False, True, True]


@pytest.mark.parametrize(
    ("mark", "legend"),
    [
        ("J", "J = estimated value; MCL = maximum contaminant level"),
        ("U", "U = not detected at the limit shown"),
        ("B", "B = found in the method blank"),
        ("c", "c = subcontracted"),
        ("Z", "Z = result in ug/L"),
        ("J", "J: estimated value; MCL: maximum contaminant level"),
        ("U", "U: not detected at the limit shown"),
        ("*", "*: accredited"),
        ("E", "E: lab@example.org"),
        ("J", "J = estimated\nJ: Barn hydrant"),
    ],
)
def test_a_flag_is_certain_where_its_legend_says_what_was_read(draft_of, mark, legend):
    assert certain(draft_of, LEAD.format(mark=mark), legend) == [True, True, True]


@pytest.mark.parametrize(
    ("legend", "is_certain"),
    [
        ("P = present; A = absent", True),
        ("P = pass and none found; A = alarm: bacteria found", False),
        ("A = action needed", False),
    ],
)
def test_a_letter_in_place_of_a_result_means_what_the_legend_says(draft_of, legend, is_certain):
    rows = "Total coliform,A,,\nE. coli,A,,\n"
    assert certain(draft_of, rows, legend) == [is_certain, is_certain]


@pytest.mark.parametrize(
    ("rows", "note", "expected"),
    [
        ("Lead*,5,mg/L,\nIron,0.3,mg/L,\n", "* in µg/L", [False, True]),
        ("Lead*,5,µg/L,\nIron,0.3,mg/L,\n", "* in µg/L", [True, True]),
        ("Lead,5*,ug/L,\nIron,0.3,mg/L,\n", "* Not detected at the limit shown.", [False, True]),
        ("Lead*,5,ug/L,\nIron,0.3,mg/L,\n", "* Tested by another lab", [True, True]),
    ],
)
def test_a_footnote_mark_with_a_unit_or_a_word_for_none_is_asked_about(
    draft_of, rows, note, expected
):
    assert certain(draft_of, rows, note) == expected


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("Lead", "Amendment: the result of lead is revised from 3.2 to 12.4 ug/L."),
        ("Blei", "Korrektur: Blei muss 32 µg/L heißen"),
        ("Plomo", "Corrección: plomo 32 µg/L"),
    ],
)
def test_a_figure_that_a_sentence_corrects_is_asked_about(draft_of, name, line):
    rows = f"{name},3.2,ug/L,\nIron,0.3,mg/L,\n"
    assert certain(draft_of, rows, line) == [False, True]


def test_a_report_that_was_amended_without_naming_a_figure_leaves_all_certain(draft_of):
    rows = "Lead,3.2,ug/L,\nConductivity,310,uS/cm,\n"
    line = "Amended report\nConductivity is corrected to 25 °C"
    assert certain(draft_of, rows, line) == [True, True]


def test_a_revised_figure_beside_the_first_one_is_asked_about(draft_of):
    draft = draft_of(
        "Collected,2026-02-04\nParameter,Result,Revised result,Unit\n"
        "Lead,3.2,12.4,ug/L\nIron,0.3,,mg/L\nZinc,0.2,,mg/L\n"
    )
    assert [mark.is_certain for mark in draft.samples[0].marks] == [False, True, True]


@pytest.mark.parametrize("head", ["Revision", "Corrected on", "Corrected"])
def test_a_column_that_only_says_whether_or_when_is_no_second_figure(draft_of, head):
    cell = {"Revision": "1", "Corrected on": "2026-02-20"}.get(head, "N")
    draft = draft_of(
        f"Collected,2026-02-04\nParameter,Result,{head},Unit\n"
        f"Lead,3.2,{cell},ug/L\nIron,0.3,{cell},mg/L\n"
    )
    assert all(mark.is_certain for mark in draft.samples[0].marks)


def test_a_row_that_says_it_was_corrected_leaves_the_same_of_other_samples_certain(draft_of):
    draft = draft_of(
        "Sample,Date collected,Parameter,Result,Unit,Comment\n"
        "W1,2026-02-04,Lead,3.2,ug/L,corrected: should read 41\nW2,2026-02-04,Lead,2,ug/L,\n"
    )
    assert [mark.is_certain for one in draft.samples for mark in one.marks] == [False, True]


def test_a_figure_is_not_taken_for_the_mark_of_a_legend(draft_of):
    rows = "Lead,2,ug/L,c\nIron,0.3,mg/L,\n"
    assert certain(draft_of, rows, "2 = not detected at the value shown") == [True, True]
