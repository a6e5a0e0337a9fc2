"""A letter that tells figures in sentences: each is taken with its place, and asked about."""

import pytest
from drafts import keys

from wellbook.water.units.conversion import convert

LETTER = """Dear well owner,

the sample drawn on 3 March 2022 is done. Your nitrate was 3.2 mg/L and your lead was
below 1 ug/L. We found 0.25 mg/L of iron, and a pH of 7.4. Manganese came out at 0.06 mg/L.

The limit for nitrate is 10 mg/L. Last year your iron was 0.9 mg/L.
"""


def test_readings_within_sentences_are_taken_and_each_is_asked_about(draft_of):
    draft = draft_of(LETTER, "letter.txt")
    (sample,) = draft.samples
    found = {r.parameter: (r.reading.text, r.reading.unit) for r in sample.sample.results}
    assert found == {
        "nitrate": ("3.2", "mg/L"),
        "lead": ("below 1", "ug/L"),
        "iron": ("0.25", "mg/L"),
        "ph": ("7.4", ""),
        "manganese": ("0.06", "mg/L"),
    }
    assert sample.sample.collected.iso() == "2022-03-03"
    assert all("prose" in mark.doubts for mark in sample.marks)
    assert {mark.place.row for mark in sample.marks} == {3, 4}
    assert "prose" in keys(draft)


def test_limits_and_earlier_figures_are_no_readings_and_are_said(draft_of):
    draft = draft_of(LETTER, "letter.txt")
    assert {(left.what, left.place.row) for left in draft.not_taken} == {("10", 6), ("0.9", 6)}


@pytest.mark.parametrize("text", ["Dear neighbour,\nthe water is fine.\n", "a is 3 mg/L " * 9])
def test_a_text_without_a_known_reading_is_refused_as_before(draft_of, text):
    from wellbook.support.errors import Fault

    with pytest.raises(Fault):
        draft_of(text, "letter.txt")


@pytest.mark.parametrize(
    ("sentence", "day"),
    [
        ("On September 14, 2024 a sample was collected from your kitchen tap.", "2024-09-14"),
        ("On May 23, 2024, we sampled your well.", "2024-05-23"),
        ("Am 23. Mai 2024 wurde bei Ihnen eine Wasserprobe entnommen.", "2024-05-23"),
        ("El 23 de mayo de 2024 se tomó una muestra de agua.", "2024-05-23"),
        ("Le 23 mai 2024, un échantillon d'eau a été prélevé.", "2024-05-23"),
    ],
)
def test_a_sentence_may_begin_with_the_day_of_sampling(draft_of, sentence, day):
    draft = draft_of(
        f"County lab\nSeptember 26, 2024\n\n{sentence}\n\nIron: 0.3 mg/L\nLead: 3.0 ug/L\n", "l.txt"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == [day]


@pytest.mark.parametrize(
    "sentence",
    [
        "On September 14, 2024 we received a sample that you collected.",
        "On September 14, 2024 the report was written. A sample was taken by you.",
    ],
)
def test_a_day_of_something_else_is_no_day_of_sampling(draft_of, sentence):
    draft = draft_of(f"{sentence}\n\nIron: 0.3 mg/L\nLead: 3.0 ug/L\n", "l.txt")
    assert not any(mark.is_certain for one in draft.samples for mark in one.marks) or draft.stops


@pytest.mark.parametrize(
    "sentence",
    [
        "On September 24, 2014 we tested your raw water:",
        "Here is what we measured at your house on September 24, 2014.",
        "Site visit and testing on September 24, 2014",
    ],
)
def test_a_dealers_day_of_testing_is_the_day_of_its_readings(draft_of, sentence):
    draft = draft_of(f"Hi,\n\n{sentence}\n\n- Hardness: 26 gpg\n- Iron: 0.44 ppm\n", "l.txt")
    assert [one.sample.collected.iso() for one in draft.samples] == ["2014-09-24"]


# 17.85, 10 and 14.25 mg/L of CaCO3, 17.12 for a grain in a US gallon: handbooks, from memory.
DEGREES = [
    ("Hardness was 12 grains per US gallon.", "205.4"),
    ("Hardness was 12 gpg.", "205.4"),
    ("Hardness is 12 °Clark.", "171"),
    ("Hardness was 17.5 German degrees.", "312.4"),
    ("Die Gesamthärte beträgt 14 °dH.", "249.9"),
    ("Gesamthärte 14 dH", "249.9"),
    ("Die Gesamthärte liegt bei 14 Grad dH.", "249.9"),
    ("Die Gesamthärte lag bei 14 Grad deutscher Härte.", "249.9"),
    ("Die Gesamthärte lag bei 14° dH und Eisen bei 0,1 mg/l", "249.9"),
    ("La dureté est de 25 °f.", "250"),
    ("La dureté de votre eau est de 25 °fH, le fer 0,1 mg/L.", "250"),
    ("Dureté : 25 degrés français", "250"),
    ("La dureza es de 25 ºf.", "250"),
    ("La dureza era de 25 grados franceses.", "250"),
]


@pytest.mark.parametrize(("sentence", "expected"), DEGREES, ids=lambda text: text)
def test_degrees_of_hardness_in_prose_are_read_and_asked_about(
    draft_of, catalogue, sentence, expected
):
    text = f"Hello,\n\nthe sample was drawn on 13 May 2024. {sentence}\n\nRegards\n"
    (sample,) = draft_of(text, "l.txt").samples
    reading = next(r.reading for r in sample.sample.results if r.parameter == "hardness")
    hardness = catalogue.parameters["hardness"]
    found = convert(reading.number, reading.unit, "", "mg/L", "as CaCO3", hardness).number
    assert float(found) == pytest.approx(float(expected), rel=2e-3)
    assert not any(mark.is_certain for mark in sample.marks)


def test_degrees_of_warmth_are_none_of_hardness(draft_of):
    text = "The sample was drawn on 13 May 2024 at 55 °F. Hardness was 12 gpg."
    (sample,) = draft_of(text, "l.txt").samples
    assert [r.reading.text for r in sample.sample.results] == ["12"]


def test_sentences_of_a_diary_part_its_readings(draft_of):
    draft = draft_of(
        "Carnet du puits\n\n16 août 2018 : analyse au laboratoire. Nitrates 42,8 mg/L, "
        "Conductivité électrique 761 µS/cm.\n\n21 août 2022 : nouvelle analyse. Fer 0,150 mg/L, "
        "pH 8,23. Coliformes totaux : absence.\n",
        "carnet.txt",
    )
    found = [
        (one.sample.collected.iso(), r.parameter, r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ]
    assert found == [
        ("2018-08-16", "nitrate", "42,8 mg/L"),
        ("2018-08-16", "conductivity", "761 µS/cm"),
        ("2022-08-21", "iron", "0,150 mg/L"),
        ("2022-08-21", "ph", "8,23"),
        ("2022-08-21", "total_coliform", "absence"),
    ]


def test_a_sentence_may_break_off_within_the_day_of_sampling(draft_of):
    draft = draft_of(
        "Laboratorio Valdehierro\n06/12/2016\n\nLe comunicamos los resultados de la muestra tomada "
        "el 27 de noviembre de\n2016 en Grifo de cocina.\n\n"
        "Parámetro\tUnidad\tResultado\nHierro\tmg/L\t1,06\nSodio\tmg/L\t17,2\n",
        "carta.txt",
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2016-11-27"]
