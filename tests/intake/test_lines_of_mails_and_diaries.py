"""Lines of mails and diaries that tell a reading each, or several. Common practice, no source."""

import pytest

from wellbook.water.values.readings import Flag, Kind

MAIL = "Hi, results of the sample from the kitchen.\nCollected: 2024-05-03\n\n"


def readings(draft):
    return {r.parameter: r.reading for s in draft.samples for r in s.sample.results}


def figures(draft):
    """Day, parameter and figure of each reading."""
    return [
        (one.sample.collected.iso(), r.parameter, str(r.reading.number))
        for one in draft.samples for r in one.sample.results
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("line", "key", "kind", "number", "unit", "flags"),
    [
        ("Lead = 0.976 J mg/L", "lead", Kind.NUMBER, "0.976", "mg/L", {Flag.ESTIMATED}),
        ("Lead = 2 U ug/L", "lead", Kind.BELOW, "2", "ug/L", set()),
        ("Lead 0.976 mg/L J", "lead", Kind.NUMBER, "0.976", "mg/L", {Flag.ESTIMATED}),
        ("Iron - ND (2) mg/L", "iron", Kind.BELOW, "2", "mg/L", set()),
        ("Iron ND (2 mg/L)", "iron", Kind.BELOW, "2", "mg/L", set()),
        ("pH 6.5 std units", "ph", Kind.NUMBER, "6.5", "std units", set()),
        ("pH 6.5 standard units", "ph", Kind.NUMBER, "6.5", "standard units", set()),
        ("pH 6.5 S.U.", "ph", Kind.NUMBER, "6.5", "S.U.", set()),
        ("Hardness 25 °f", "hardness", Kind.NUMBER, "25", "°f", set()),
        ("Hardness 12 °e", "hardness", Kind.NUMBER, "12", "°e", set()),
        ("Hardness 14 Grad dH", "hardness", Kind.NUMBER, "14", "Grad dH", set()),
        (
            "Hardness 12 grains per gallon",
            "hardness",
            Kind.NUMBER,
            "12",
            "grains per gallon",
            set(),
        ),
        ("Copper .3 mg/L", "copper", Kind.NUMBER, "0.3", "mg/L", set()),
    ],
)
def test_a_line_with_a_flag_a_limit_or_a_unit_of_words_is_a_reading(
    draft_of, line, key, kind, number, unit, flags
):
    draft = draft_of(f"{MAIL}{line}\nZinc: 3 mg/L\n", "mail.txt")
    found = readings(draft)[key]
    assert (found.kind, str(found.number), found.unit) == (kind, number, unit)
    assert found.flags == flags
    assert found.text in line  # as the lab wrote it
    assert not draft.not_taken


def test_a_flag_within_a_sentence_goes_with_its_figure(draft_of):
    draft = draft_of(
        "Dear owner, we drew the sample on 3 March 2022. Your lead was 0.976 J mg/L, iron came "
        "out at .3 mg/L and arsenic at 2 U ug/L.\n",
        "letter.txt",
    )
    found = readings(draft)
    assert found["lead"].flags == {Flag.ESTIMATED}
    assert str(found["iron"].number) == "0.3"
    assert found["arsenic"].kind is Kind.BELOW
    assert all(mark.doubts for sample in draft.samples for mark in sample.marks)


@pytest.mark.parametrize(
    "line",
    [
        "6/22/2020 - retest: nitrate 3.4 / iron .3",
        "6/22/2020 - retest: nitrate 3.4/iron .3",
        "6/22/2020: test: nitrate 3.4; iron .3",
        "6/22/2020 nitrate 3.4, iron .3",
    ],
)
@pytest.mark.parametrize("before", ["", "6/22/2019 - nitrate 2.9 mg/L\n"])
def test_several_readings_after_one_day_are_taken_and_asked_about(draft_of, before, line):
    draft = draft_of(f"Diary\n{before}{line}\n6/22/2021 - pump replaced\n", "diary.txt")
    expected = [("2020-06-22", "nitrate", "3.4"), ("2020-06-22", "iron", "0.3")]
    assert figures(draft)[-2:] == expected
    assert len(figures(draft)) == 2 + bool(before)
    asked = [mark.doubts for sample in draft.samples for mark in sample.marks]
    assert all("no_unit" in doubts for doubts in asked[-2:])


@pytest.mark.parametrize("whose", ["neighbor", "blank", "last year", "limits"])
def test_readings_of_other_water_on_a_day_are_listed_and_not_taken(draft_of, whose):
    draft = draft_of(
        "6/22/2020 - retest: nitrate 3.4 / iron .3\n"
        f"6/22/2022 - {whose}: nitrate 9.1 / iron .9\n6/22/2023: nitrate 3.1, iron .2\n",
        "diary.txt",
    )
    assert {number for _day, _key, number in figures(draft)} == {"3.4", "0.3", "3.1", "0.2"}
    assert {".9", "9.1"} <= {one.what for one in draft.not_taken}


def test_the_head_of_a_mail_tells_no_sample_and_its_day_is_not_the_one_of_sampling(draft_of):
    text = (
        "De: laboratorio@example.org\nFecha: 3 de julio de 2023\nAsunto: Resultados de su pozo\n\n"
        "Resultados de la muestra tomada el 22 de junio de 2023:\n\n"
        "Coliformes totales      Ausentes\nDureza total            187 mg/L\n"
        "Fluoruro                1.31 mg/L     (límite 1.5)\n"
    )
    (sample,) = draft_of(text, "correo.txt").samples
    assert sample.sample.collected.iso() == "2023-06-22"
    assert sample.point_name == ""
