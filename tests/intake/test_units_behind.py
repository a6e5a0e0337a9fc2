"""Units behind a figure or a name, without a column of their own. Common practice, no source."""

import pytest

from wellbook.water.values.readings import Kind


@pytest.mark.parametrize(
    ("text", "kind", "unit"),
    [
        ("<1 NMP/100 mL", Kind.BELOW, "NMP/100 mL"),
        ("8 NMP/100 mL", Kind.NUMBER, "NMP/100 mL"),
        ("1 Anzahl/100 ml", Kind.NUMBER, "Anzahl/100 ml"),
        ("6 n/(100mL)", Kind.NUMBER, "n/(100mL)"),
    ],
)
def test_a_count_tells_its_unit_behind(results_of, text, kind, unit):
    found = results_of(f"Parameter,Result\nE. coli,{text}\nLead,7.3 ug/L\n")["E. coli"]
    assert (found.reading.kind, found.reading.unit) == (kind, unit)


def test_a_unit_without_a_stroke_stands_behind_a_word(results_of):
    iron = results_of("Parameter,Result\nIron,Not Detected ppm\nLead,7.3 ug/L\n")["Iron"]
    assert (iron.reading.kind, iron.reading.unit) == (Kind.BELOW, "ppm")


@pytest.mark.parametrize(
    ("name", "parameter", "unit"),
    [
        ("NO3-N; mg N/L", "nitrate", "mg N/L"),
        ("E. coli (per 100 mL)", "e_coli", "per 100 mL"),
        ("Coliforme Bakterien (Anzahl/100 ml)", "total_coliform", "Anzahl/100 ml"),
    ],
)
def test_a_unit_of_several_words_stands_in_a_name(results_of, name, parameter, unit):
    name = name.replace(";", ",")
    (found,) = results_of(f'Parameter,Result\n"{name}",1\n').values()
    assert (found.parameter, found.reading.unit) == (parameter, unit)


@pytest.mark.parametrize("heading", ["Amount Detected", "Concentration Found", "Level Found"])
def test_what_was_found_is_the_result(draft_of, heading):
    draft = draft_of(f"Parameter,Limit,{heading},Unit\nLead,15,7.3,ug/L\nIron,0.3,0.1,mg/L\n")
    (sample,) = draft.samples
    assert [result.reading.text for result in sample.sample.results] == ["7.3", "0.1"]
    assert all(mark.is_certain for mark in sample.marks)
