"""Signs that stand in a column of their own, whatever its heading. Common practice, no source."""

import pytest

from wellbook.water.values.readings import Kind


@pytest.mark.parametrize("heading", ["", "Calif.", "Code", "Kennz."])
def test_a_sign_in_a_column_of_any_heading_belongs_to_its_figure(results_of, heading):
    found = results_of(
        f"Parameter,Unit,Result,{heading}\n"
        "Chloride,mg/L,5,<\nIron,mg/L,0.19,\nLead,ug/L,3.1,J\nTotal Coliform,MPN/100 mL,2419.6,>\n"
    )
    kinds = {name: result.reading.kind for name, result in found.items()}
    assert kinds == {
        "Chloride": Kind.BELOW,
        "Iron": Kind.NUMBER,
        "Lead": Kind.NUMBER,
        "Total Coliform": Kind.ABOVE,
    }
    assert found["Lead"].qualifier == "J"


def test_a_sign_between_a_figure_and_its_limit_makes_no_figure_smaller(results_of):
    found = results_of(
        "Parameter,Unit,Result,,Limit\nLead,ug/L,14,<,15\nIron,mg/L,0.4,>,0.3\nZinc,mg/L,2,<,5\n"
    )
    assert {result.reading.kind for result in found.values()} == {Kind.NUMBER}


def test_the_heading_again_on_the_next_page_leaves_signs_what_they_are(draft_of):
    head = "Parameter,Unit,Result,Code\n"
    draft = draft_of(
        f"{head}Chloride,mg/L,5,<\nIron,mg/L,2,<\nZinc,mg/L,3,<\n{head}Lead,ug/L,3.1,\n"
    )
    kinds = [result.reading.kind for one in draft.samples for result in one.sample.results]
    assert kinds == [Kind.BELOW, Kind.BELOW, Kind.BELOW, Kind.NUMBER]


@pytest.mark.parametrize(("said", "text"), [("Y", "<0.5"), ("<", "<0.5"), ("N", "")])
def test_a_result_left_blank_below_its_limit_is_less_than_the_limit(results_of, said, text):
    found = results_of(
        "Analyte Name,Less Than Indicator,Reporting Level,Concentration,Unit\n"
        f"Arsenic,N,1,2.8,ug/L\nCadmium,{said},0.5,,ug/L\nBarium,N,0.01,0.06,mg/L\n"
    )
    assert found["Cadmium"].reading.text == text
    assert (found["Cadmium"].reading.kind is Kind.BELOW) == bool(text)
    assert found["Arsenic"].reading.text == "2.8"
