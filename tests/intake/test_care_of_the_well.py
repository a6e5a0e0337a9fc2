"""What a household's own sheet tells of its pump, filter and salt is no reading of its water."""

import pytest
from drafts import keys

WHY = "of the well or its care, not of the water itself"


def taken(draft):
    return {r.name for s in draft.samples for r in s.sample.results}


def left(draft):
    """Text, row and column of what is listed as of the well's care."""
    return {
        (one.what, one.place.row, one.place.column)
        for one in draft.not_taken
        if one.is_aside and one.why.endswith(WHY)
    }


def test_columns_of_care_are_listed_with_place_and_reason(draft_of):
    draft = draft_of(
        "Date,Nitrate (mg/L),pH,Pump,Filter changed,Salt,Leak\n"
        "2024-05-13,3.1,7.1,ok,yes,2 bags,no\n2024-11-23,3.3,7.0,,no,40,no\n"
    )
    assert taken(draft) == {"Nitrate (mg/L)", "pH"}
    assert left(draft) == {
        ("ok", 2, 4), ("yes", 2, 5), ("2 bags", 2, 6), ("no", 2, 7),
        ("no", 3, 5), ("40", 3, 6), ("no", 3, 7),
    }  # fmt: skip
    whys = {one.why for one in draft.not_taken}
    assert f"“Filter changed”: {WHY}" in whys
    assert not {"unknown_parameter", "odd_result"} & set(keys(draft))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            ("Item,2024-05-13,2024-11-23\nNitrate mg/L,3.1,3.3\nIron mg/L,0.1,0.2\nPump,ok,ok\n"
            "Filter changed,yes,no\n"),
            {("ok", 4, 2), ("ok", 4, 3), ("yes", 5, 2), ("no", 5, 3)},
        ),
        (
            ("Item,Result,Date\nNitrate,3.1 mg/L,2024-05-13\nIron,0.1 mg/L,2024-05-13\n"
            "Pump,ok,2024-05-13\nSalt,2 bags,2024-05-13\n"),
            {("ok", 4, 2), ("2 bags", 5, 2)},
        ),
        (
            ("Fecha,Nitrato (mg/L),Bomba,Filtro cambiado,Sal\n2024-05-13,3.1,ok,si,2 sacos\n"
            "2024-11-23,3.3,ok,no,1 saco\n"),
            {("ok", 2, 3), ("si", 2, 4), ("2 sacos", 2, 5),
             ("ok", 3, 3), ("no", 3, 4), ("1 saco", 3, 5)},
        ),
    ],
)  # fmt: skip
def test_rows_of_care_and_words_in_spanish_are_listed_alike(draft_of, text, expected):
    draft = draft_of(text)
    assert left(draft) == expected
    assert not any("ump" in name or "Bomba" in name for name in taken(draft))


@pytest.mark.parametrize(
    ("heading", "cell"),
    [("Salt (mg/L)", "35"), ("Pump", "0.3 mg/L"), ("Softener", "<1"), ("Tank", "positive"),
     ("Filter iron", "0.3"), ("Colifrom", "ok"), ("Bacteria", "no")],
)  # fmt: skip
def test_what_may_be_of_the_water_is_asked_and_not_left_aside(draft_of, heading, cell):
    draft = draft_of(
        f"Date,Nitrate (mg/L),{heading}\n2024-05-13,3.1,{cell}\n2024-11-23,3.3,{cell}\n"
    )
    asked = [
        mark.doubts
        for s in draft.samples
        for r, mark in zip(s.sample.results, s.marks, strict=True)
        if r.name == heading
    ]
    assert len(asked) == 2
    assert all(asked)
    assert not left(draft)


def test_a_parameter_of_the_catalogue_is_never_of_the_wells_care(catalogue):
    from wellbook.intake.words.asides import is_care

    names = [name for one in catalogue.parameters.values() for name in (one.name, *one.aliases)]
    assert [name for name in names if is_care(name)] == []
