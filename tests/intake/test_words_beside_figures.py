"""Words beside a figure: of its sign, of what was found, of what changes it. Words from memory."""

import pytest

from wellbook.water.values.readings import Kind


def reading_with(draft_of, head, word, *, figure="5", name="Lead", unit="ug/L", more=""):
    """Kind and certainty of the first reading of a table with a column of such words."""
    draft = draft_of(
        f"Collected,2026-02-04\nParameter,{head},Result,Unit\n"
        f'{name},"{word}",{figure},{unit}\nZinc,,0.2,mg/L\nIron,,0.3,mg/L\n{more}'
    )
    sample = draft.samples[0]
    return sample.sample.results[0].reading.kind, sample.marks[0].is_certain


@pytest.mark.parametrize("head", ["Comp.", "Mod", "Operator", "Qualifier", "Sign"])
@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("GT", Kind.ABOVE),
        ("greater than", Kind.ABOVE),
        ("LT", Kind.BELOW),
        ("Less than", Kind.BELOW),
        ("<", Kind.BELOW),
    ],
)
def test_a_sign_in_words_is_read_as_the_sign(draft_of, head, word, kind):
    assert reading_with(draft_of, head, word) == (kind, True)


@pytest.mark.parametrize(
    ("word", "is_certain"), [("EQ", True), ("=", True), ("ZQ", False), ("Below", False)]
)
def test_a_word_for_a_sign_that_is_not_known_is_asked_about(draft_of, word, is_certain):
    assert reading_with(draft_of, "Comparator", word) == (Kind.NUMBER, is_certain)


@pytest.mark.parametrize(
    ("head", "remark", "kind"),
    [
        ("Remark", "not detected", Kind.BELOW),
        ("Comment", "Below reporting limit", Kind.BELOW),
        ("Bemerkung", "n.n.", Kind.BELOW),
        ("Hinweis", "unter BG", Kind.BELOW),
        ("Observaciones", "no detectado", Kind.BELOW),
        ("Remarque", "inférieur à la LQ", Kind.BELOW),
        ("Remarks", "> value shown", Kind.ABOVE),
        ("Remarks", "greater than", Kind.ABOVE),
    ],
)
def test_a_remark_that_is_wholly_such_a_phrase_counts(draft_of, head, remark, kind):
    assert reading_with(draft_of, head, remark) == (kind, True)


def test_a_plate_too_full_to_count_is_above_its_figure(draft_of):
    told = {"figure": "200", "name": "Total coliform", "unit": "CFU/100 mL"}
    kind, is_certain = reading_with(draft_of, "Remarks", "too numerous to count", **told)
    assert (kind, is_certain) == (Kind.ABOVE, True)


@pytest.mark.parametrize(
    "remark",
    [
        "Corrected 2026-02-20: should read 41.0",
        "positive on resample",
        "repeat sample: present",
        "result not valid, bottle broken",
        "value is in mg/L",
        "above the range",
        "Berichtigt am 20.02.2026",
    ],
)
def test_a_remark_that_may_change_the_figure_is_asked_about(draft_of, remark):
    kind, is_certain = reading_with(draft_of, "Comment", remark)
    assert (kind, is_certain) == (Kind.NUMBER, False)


@pytest.mark.parametrize(
    "remark",
    ["exceeds the MCL of 10 mg/L", "new filter in May", "tastes salty", "corrected to 25 °C", "OK"],
)
def test_other_remarks_leave_a_reading_certain(draft_of, remark):
    assert reading_with(draft_of, "Comment", remark) == (Kind.NUMBER, True)


@pytest.mark.parametrize(
    ("name", "unit", "is_certain"),
    [
        ("Lead (ppb)", "mg/L", False),
        ("Lead (ug/L)", "mg/L", False),
        ("Lead (ppb)", "ug/L", True),
        ("Lead (ug/L)", "µg/L", True),
    ],
)
def test_a_name_with_another_unit_than_its_column_is_asked_about(draft_of, name, unit, is_certain):
    told = {"name": name, "unit": unit, "figure": "0.5"}
    assert reading_with(draft_of, "Comment", "", **told) == (Kind.NUMBER, is_certain)


def test_a_flag_that_compares_with_a_limit_is_no_sign_of_the_figure(draft_of):
    assert reading_with(draft_of, "Qualifier", "below")[0] is Kind.NUMBER


@pytest.mark.parametrize(
    ("word", "is_certain"),
    [("BDL", False), ("not detected", False), ("> value shown", False), ("E1", True)],
)
def test_a_word_for_none_under_an_unknown_heading_is_asked_about(draft_of, word, is_certain):
    assert reading_with(draft_of, "Xq", word) == (Kind.NUMBER, is_certain)
