"""A heading that comes again with other words over the figures. Common practice, no source."""

import pytest

HEAD = "Date collected,2026-02-04\n"


def readings(draft):
    """Parameter, text and unit of each result."""
    results = [r for one in draft.samples for r in one.sample.results]
    return [(r.parameter, r.reading.text, r.reading.unit) for r in results]


def test_a_heading_again_with_another_unit_counts_for_the_rows_below_it(draft_of):
    draft = draft_of(
        f"{HEAD}Parameter,Result (µg/L)\nLead,2.1\nParameter,Result (mg/L)\nNitrate as N,8.8\n"
    )
    assert readings(draft) == [("lead", "2.1", "µg/L"), ("nitrate", "8.8", "mg/L")]


def test_a_heading_again_without_the_unit_takes_none_from_the_first(draft_of):
    draft = draft_of(f"{HEAD}Parameter,Result (mg/L)\nIron,0.2\nParameter,Result\nLead,2.1\n")
    assert readings(draft) == [("iron", "0.2", "mg/L"), ("lead", "2.1", "")]
    marks = [mark.is_certain for one in draft.samples for mark in one.marks]
    assert marks == [True, False]


@pytest.mark.parametrize(
    "word",
    ["Limit", "Previous result", "Guideline", "Median", "Blank", "Neighbor's well", "Last year"],
)
def test_figures_below_a_heading_of_something_else_are_left_out_with_the_reason(draft_of, word):
    draft = draft_of(
        f"{HEAD}Parameter,Result,Unit\nIron,0.2,mg/L\nLead,2.1,ug/L\n"
        f"Parameter,{word},Unit\nIron,0.3,mg/L\nLead,15,ug/L\n"
        "Parameter,Result,Unit\nZinc,0.4,mg/L\n"
    )
    texts = [text for _, text, _ in readings(draft)]
    left = {one.what: one.why for one in draft.not_taken if one.is_aside}
    assert texts == ["0.2", "2.1", "0.4"]
    assert set(left) == {"0.3", "15"}
    assert all(word in why or "check" in why for why in left.values())


def test_the_lab_s_values_beside_assigned_ones_are_a_check_of_its_own(draft_of):
    draft = draft_of(
        f"{HEAD}Analyte,Result,Units,\nLead,2.2,ug/L,\nProficiency testing round 14,,,\n"
        "Analyte,Assigned value,Our value,Units\nLead,5.0,5.1,ug/L\n"
    )
    assert readings(draft) == [("lead", "2.2", "ug/L")]
