"""One sample whose names stand across, above lines of results and units. Common practice."""

import pytest


@pytest.mark.parametrize(
    "words",
    [
        ("", "Unit", "Result", "Limit"),
        ("Parameter", "Result", "Unit", "MCL"),
        ("Paramètre", "Unité", "Résultat", "Limite"),
        ("Ensayo", "Unidad", "Resultado", "Límite"),
        ("Parameter", "Einheit", "Messwert", "Grenzwert"),
    ],
)
def test_each_name_goes_with_the_figure_and_the_unit_below_it(draft_of, words):
    said = {2: ("0.31", "2.1", "44"), 1: ("mg/L", "ug/L", "mg/L"), 3: ("0.3", "15", "")}
    if words[1] == "Result":
        said[1], said[2] = said[2], said[1]
    lines = [words[0] + ";Iron;Lead;Calcium"]
    lines += [";".join((words[n], *said[n])) for n in (1, 2, 3)]
    draft = draft_of("Sampled;2019-02-25\n\n" + "\n".join(lines) + "\n")
    (one,) = draft.samples
    assert [(r.parameter, r.reading.text, r.reading.unit) for r in one.sample.results] == [
        ("iron", "0.31", "mg/L"),
        ("lead", "2.1", "ug/L"),
        ("calcium", "44", "mg/L"),
    ]
    assert not any(mark.doubts for mark in one.marks)
    row = 4 if words[1] == "Result" else 5
    places = [(mark.place.row, mark.place.column) for mark in one.marks]
    assert places == [(row, 2), (row, 3), (row, 4)]
