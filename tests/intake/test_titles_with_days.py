"""Sections opened by a day and a place. Common practice, no source."""

import pytest

HEADS = {
    "de": "Parameter;Messwert;Einheit",
    "en": "Test;Result;Unit",
    "es": "Ensayo;Resultado;Unidad",
    "fr": "Analyse;Valeur;Unité",
}
SECTIONS = [
    ("de", "Probenahme 26.07.2018", "26.10.2023, Brunnenkopf", "Brunnenkopf"),
    ("en", "July 26, 2018", "October 26, 2023, Kitchen tap", "Kitchen tap"),
    ("en", "Collected July 26, 2018", "Barn, October 26, 2023", "Barn"),
    ("en", "July 26, 2018, barn", "October 26, 2023 – after the storm", ""),
    ("es", "26 de julio de 2018", "Depósito (26/10/2023)", "Depósito"),
    ("fr", "26 juillet 2018", "26 octobre 2023, Réservoir", "Réservoir"),
    ("fr", "26 juillet 2018, Robinet de cuisine", "26 octobre 2023 : Réservoir", "Réservoir"),
]


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section[2])
def test_a_title_with_a_day_and_a_place_opens_a_sample_of_its_own(draft_of, section):
    language, first, second, place = section
    head = HEADS[language]
    draft = draft_of(
        f"{first};;\n{head}\nCalcium;23;mg/L\nMagnesium;3;mg/L\n\n"
        f"{second};;\n{head}\nCalcium;45;mg/L\nMagnesium;4;mg/L\n"
    )
    days = [one.sample.collected.iso() for one in draft.samples]
    assert days == ["2018-07-26", "2023-10-26"]
    assert [len(one.sample.results) for one in draft.samples] == [2, 2]
    assert draft.samples[1].point_name == place


@pytest.mark.parametrize("title", ["26 octobre 2023, Réservoir", "Réservoir, 26/10/2023"])
def test_one_such_title_tells_of_the_table_below_it(draft_of, title):
    draft = draft_of(f"Suivi;;\n{title};;\n{HEADS['fr']}\nCalcium;23;mg/L\nMagnésium;3;mg/L\n")
    (one,) = draft.samples
    assert (one.sample.collected.iso(), one.point_name) == ("2023-10-26", "Réservoir")


@pytest.mark.parametrize("line", ["Page 2, 26/10/2023", "Well report 26/10/2023", "Due 26/10/2023"])
def test_another_day_between_two_tables_opens_no_sample(draft_of, line):
    head = HEADS["en"]
    draft = draft_of(
        f"Collected 26/07/2018;;\n{head}\nCalcium;23;mg/L\nMagnesium;3;mg/L\n{line};;\n"
        f"{head}\nPotassium;2;mg/L\nSodium;4;mg/L\n"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2018-07-26"]
