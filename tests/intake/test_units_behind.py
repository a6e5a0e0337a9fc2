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


@pytest.mark.parametrize(
    ("lines", "figures"),
    [
        ("- Coliform, Total = 12 per 100 mL\n- E. Coli = < 1 per 100 mL\n", ["12", "< 1"]),
        ("Coliformes totales 4\nE. coli 0\n", ["4", "0"]),
        ("Coliforme Bakterien 7 KBE/100 ml\nEscherichia coli 2 in 100 ml\n", ["7", "2"]),
    ],
)
def test_a_count_of_bacteria_in_a_mail_is_a_reading(draft_of, lines, figures):
    draft = draft_of(f"Sampled 2016-08-21:\n\nIron 0.2 mg/L\n{lines}", "mail.txt")
    (sample,) = draft.samples
    found = {one.parameter: one.reading.text for one in sample.sample.results}
    assert [found["total_coliform"].split(" per")[0].split(" KBE")[0],
            found["e_coli"].split(" per")[0].split(" in")[0]] == figures  # fmt: skip


def test_a_year_behind_bacteria_is_no_count_of_them(draft_of):
    draft = draft_of("Sampled 2016-08-21:\n\nIron 0.2 mg/L\nLead 2 ug/L\n"
                     "Coliform bacteria found in 2014\n", "mail.txt")  # fmt: skip
    assert {one.parameter for s in draft.samples for one in s.sample.results} == {"iron", "lead"}


def test_what_stands_at_the_place_of_the_labs_checks_is_no_sample(draft_of):
    draft = draft_of(
        "Type,Location,Date Sampled,Analyte,Value,UOM\n"
        "Sample,Well head,2020-08-14,Lead,9.9,ug/L\n"
        "Sample Duplicate,Lab QC,2020-08-14,Lead,0.8,ug/L\n"
    )
    assert [[r.reading.text for r in one.sample.results] for one in draft.samples] == [["9.9"]]
    assert [one.what for one in draft.not_taken] == ["0.8"]
