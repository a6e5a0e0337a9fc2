"""Decimal comma or point, by what the numbers of one file allow."""

from decimal import Decimal

import pytest
from drafts import keys
from hypothesis import given
from hypothesis import strategies as st

from wellbook.intake.samples.decimals import commas

FILE = "Analyte;Result;Units;Collected\n{}"


def rows(*texts):
    names = ("Iron", "Sulfate", "Chloride", "Sodium", "Zinc")
    lines = (f"{name};{text};mg/L;2024-05-13\n" for name, text in zip(names, texts, strict=False))
    return FILE.format("".join(lines))


def numbers(draft):
    return [r.reading.number for r in draft.samples[0].sample.results]


def test_one_clear_decimal_comma_decides_for_the_file(draft_of):
    draft = draft_of(rows("0,05", "1,234", "<0,5"))
    assert numbers(draft) == [Decimal("0.05"), Decimal("1.234"), Decimal("0.5")]
    assert keys(draft) == []


def test_the_text_stays_as_printed(draft_of):
    draft = draft_of(rows("<0,5"))
    assert draft.samples[0].sample.results[0].reading.text == "<0,5"


def test_one_clear_decimal_point_makes_commas_thousands_marks(draft_of):
    draft = draft_of(rows("0.05", "1,234"))
    assert numbers(draft) == [Decimal("0.05"), Decimal(1234)]
    assert keys(draft) == []


def test_a_comma_that_nothing_decides_is_asked_about(draft_of):
    draft = draft_of(rows("1,234", "7"))
    assert [(f.key, f.severity) for f in draft.findings] == [("comma", "ask")]


def test_both_marks_in_one_column_are_each_read_and_what_can_be_both_is_asked(draft_of):
    draft = draft_of(rows("0,05", "0.07", "1.234", "1,234", "12"))
    assert [(f.key, f.severity) for f in draft.findings] == [("mixed_decimals", "ask")]
    assert numbers(draft)[:2] == [Decimal("0.05"), Decimal("0.07")]
    doubts = [mark.doubts for mark in draft.samples[0].marks]
    assert doubts == [(), (), ("comma",), ("comma",), ()]
    assert not draft.stops


def test_a_column_with_one_mark_is_read_by_it_though_another_table_has_the_other(draft_of):
    text = (
        "Date;Parameter;Result;Unit\n2024-05-03;Lead;0,5;ug/L\n2024-05-03;Iron;1,2;mg/L\n\n"
        "Date;Parameter;Result;Unit\n2025-05-03;Lead;0.25;ug/L\n2025-05-03;Iron;1.75;mg/L\n"
    )
    draft = draft_of(text)
    found = [r.reading.number for s in draft.samples for r in s.sample.results]
    assert found == list(map(Decimal, ("0.5", "1.2", "0.25", "1.75")))
    assert all(mark.is_certain for s in draft.samples for mark in s.marks)


@pytest.mark.parametrize("text", ["1.234,5", "12.345.678,9"])
def test_points_may_be_thousands_marks(text):
    assert commas([text]).are_decimal


@given(st.lists(st.decimals(0, 10**6, places=3), min_size=1), st.booleans())
def test_a_file_written_with_one_mark_is_never_read_with_the_other(values, with_comma):
    texts = [f"{value:f}".replace(".", "," if with_comma else ".") for value in values]
    found = commas(texts)
    assert not found.clash
    assert not (found.are_decimal and not with_comma)
    assert found.are_decimal or not with_comma or found.open
