"""A greeting or a title in a line of its own is no place. Common practice, no source."""

import pytest

TABLE = "Test,Result,Unit\nIron,0.3,mg/L\nCalcium,40,mg/L\n"


@pytest.mark.parametrize(
    "line",
    [
        "Dear well owner,", "Hello well owner", "Estimado vecino del pozo:", "Carnet du puits",
        "Suivi du puits", "Cahier du puits", "Cuaderno del pozo", "Registro del pozo",
        "Well diary", "House well journal", "Tagebuch Brunnen", "Overview of well",
    ],
)  # fmt: skip
def test_a_greeting_or_a_title_is_no_place(draft_of, line):
    draft = draft_of(f'"{line}"\nCollected,2024-05-13\n\n{TABLE}')
    assert [sample.point_name for sample in draft.samples] == [""]


@pytest.mark.parametrize("line", ["Kitchen tap", "Tête de puits", "Pozo nuevo", "Brunnen Garten"])
def test_a_place_in_a_line_of_its_own_is_one(draft_of, line):
    draft = draft_of(f"{line}\nCollected,2024-05-13\n\n{TABLE}")
    assert [sample.point_name for sample in draft.samples] == [line]
