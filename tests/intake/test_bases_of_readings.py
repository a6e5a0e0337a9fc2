"""The form in which a reading is counted belongs to it alone. Common practice, no source."""

import pytest

from wellbook.intake import mending


def bases_of(draft):
    """Basis and unit of each reading, by its parameter."""
    return {
        r.parameter: (r.reading.basis, r.reading.unit)
        for one in draft.samples for r in one.sample.results
    }  # fmt: skip


LETTER = "Dear owner,\nthe sample taken on March 21, 2023 at the tap gave:\n"


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ("Nitrate was 1.28 mg/L as N.\nIron, Total was 0.04 mg/L.", {"nitrate": "as N"}),
        ("Nitrate was 1.28 mg/L as N, nitrite 0.04 mg/L.", {"nitrate": "as N"}),
        ("Nitrate 6 mg/L as NO3 and nitrite 0.04 mg/L as N.", {"nitrite": "as N"}),
        ("Silica was 9 mg/L as SiO2; iron 0.3 mg/L.", {"silica": "as SiO2"}),
        ("Nitrates 4 mg/L (en NO3) ; Ammonium 0,3 mg/L.", {}),
    ],
)
def test_the_basis_of_a_figure_in_a_sentence_is_none_of_the_next(draft_of, told, expected):
    draft = draft_of(f"{LETTER}{told}\n", "letter.txt")
    found = bases_of(draft)
    assert len(found) == 2
    assert {key: found[key][0] for key in expected} == expected
    last = draft.samples[0].sample.results[-1]
    assert last.reading.basis == expected.get(last.parameter, "")
    assert not last.name.startswith(("as ", "NO3"))


DAYS = {"en": "Sampled 2023-03-21", "es": "Fecha de muestreo: 21/03/2023",
        "fr": "Prélevé le 21 mars 2023", "de": "Probenahme: 21.03.2023"}  # fmt: skip


@pytest.mark.parametrize(
    ("language", "line", "key", "expected"),
    [
        ("es", "Nitrato: 36,10 mg/L como NO3", "nitrate", ("as NO3", "mg/L como NO3")),
        ("es", "Nitrato: 36,10 mg/L (como NO3)", "nitrate", ("as NO3", "mg/L (como NO3)")),
        ("fr", "Nitrates: 36,10 mg/L en NO3", "nitrate", ("as NO3", "mg/L en NO3")),
        ("fr", "Ammonium 0,08 mg/L en NH4", "ammonia", ("as NH4", "mg/L en NH4")),
        ("fr", "Ammonium: N.D. mg/L en NH4", "ammonia", ("as NH4", "mg/L en NH4")),
        ("de", "Nitrat: 36,10 mg/l als NO3", "nitrate", ("as NO3", "mg/l als NO3")),
        ("de", "Nitrat = 36,10 mg/l als NO3", "nitrate", ("as NO3", "mg/l als NO3")),
        ("en", "Nitrate 7.31 mg N/L", "nitrate", ("as N", "mg N/L")),
    ],
)
def test_the_basis_behind_the_unit_of_a_line_is_read(draft_of, language, line, key, expected):
    draft = draft_of(f"{DAYS[language]}\n{line}\nMagnesium: 3 mg/L\n", "mail.txt")
    assert bases_of(draft) == {key: expected, "magnesium": ("", "mg/L")}
    assert all(mark.is_certain for mark in draft.samples[0].marks)


@pytest.mark.parametrize(
    ("told", "unit"),
    [
        ("die Probe vom 21. März 2023: Nitrat 5,69 mg/l als NO3 und", "mg/l als NO3"),
        ("prélèvement du 21 mars 2023. Résultats : Nitrates 5,69 mg/L (en NO3) ;", "mg/L (en NO3)"),
        ("la muestra tomada el 21 de marzo de 2023: Nitrato 5,69 mg/l como NO3,", "mg/l como NO3"),
    ],
)
def test_the_basis_behind_the_unit_in_a_sentence_is_read(draft_of, told, unit):
    draft = draft_of(f"Hola,\n{told} Magnesium 3 mg/l als Mittelwert.\n", "letter.txt")
    assert bases_of(draft) == {"nitrate": ("as NO3", unit), "magnesium": ("", "mg/l")}


@pytest.mark.parametrize("unit", ["mg/L como NO3", "mg/L en NO3", "mg/l als NO3", "mg/l NO3-"])
def test_the_basis_in_the_cell_of_a_unit_is_read(draft_of, unit):
    draft = draft_of(f"Parameter,Result,Unit,Collected\nNitrate,36.1,{unit},2017-05-19\n")
    assert not draft.stops
    assert bases_of(draft) == {"nitrate": ("as NO3", unit)}


@pytest.mark.parametrize(
    "heading",
    ["expresado_como", "Expresado como", "basis", "base", "Bezug", "exprimé_en", "Angabe als"],
)
@pytest.mark.parametrize("form", ["como NO3", "NO3", "en NO3", "als NO3"])
def test_a_column_tells_the_bases(draft_of, heading, form):
    draft = draft_of(
        f"Parameter,Result,Unit,{heading},Collected\nNitrate,36.1,mg/L,{form},2017-05-19\n"
        "Calcium,20,mg/L,,2017-05-19\n"
    )
    assert bases_of(draft) == {"nitrate": ("as NO3", "mg/L"), "calcium": ("", "mg/L")}
    assert all(mark.is_certain for mark in draft.samples[0].marks)


@pytest.mark.parametrize(
    ("name", "form", "is_asked"),
    [
        ("Hardness", "as XYZ", True),
        ("Nitrate as N", "see remark", True),
        ("Hardness", "como CaCO3", False),
        ("Cadmium", "as Cd", False),
        ("Hardness", "n/a", False),
        ("Hardness", "Wet", False),
        ("Hardness", "-", False),
    ],
)
def test_a_basis_that_is_not_understood_is_asked_about(draft_of, name, form, is_asked):
    draft = draft_of(
        f"Parameter,Result,Unit,Basis,Collected\n{name},3,mg/L,{form},2017-05-19\n"
        "Calcium,20,mg/L,,2017-05-19\n"
    )
    doubts = [mark.doubts for mark in draft.samples[0].marks]
    assert doubts == [("odd_basis",) if is_asked else (), ()]
    if is_asked:
        mended = mending.with_unit(draft, (0, 0), "mg/L as CaCO3")
        assert not mended.samples[0].marks[0].doubts


@pytest.mark.parametrize("said", ["(als NO3)", "(as NO3)", "(en NO₃)"])
def test_a_basis_on_the_second_line_of_a_name_belongs_to_it(draft_of, said):
    draft = draft_of(
        "Collected,2017-05-19,\n\nParameter,Result,Unit\nIron,0.3,mg/L\nNitrate,36.1,mg/L\n"
        f"{said},,\nCalcium,20,mg/L\n"
    )
    assert bases_of(draft) == {
        "iron": ("", "mg/L"), "nitrate": ("as NO3", "mg/L"), "calcium": ("", "mg/L")
    }  # fmt: skip
    assert [r.name for r in draft.samples[0].sample.results][1] == f"Nitrate {said}"


@pytest.mark.parametrize("figure", ["2.3 µg/L", "less than 2.3 µg/L", "2.3 µg/L (limit 10)"])
def test_the_unit_in_the_cell_of_a_figure_stays_as_printed(draft_of, figure):
    draft = draft_of(f"Parameter,Result,Collected\nLead,{figure},2017-05-19\nIron,1,2017-05-19\n")
    assert bases_of(draft)["lead"] == ("", "µg/L")
