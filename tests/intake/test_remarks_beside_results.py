"""Marks and words in a column of remarks. Letters of flags: common practice, no source."""

import pytest

from wellbook.water.values.readings import Flag, Kind

HEADS = ["Comment", "Flag", "Foot Note", "Footnote", "Note", "Notes", "Remarks"]


def with_remark(results_of, head, remark):
    text = f'Collected,2026-02-18\nParameter,Result,{head},Unit\nLead,8.5,"{remark}",ug/L\n'
    return results_of(text + "Iron,0.2,,mg/L\nZinc,0.3,,mg/L\n")["Lead"]


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize(
    ("mark", "flags"),
    [
        ("B", {Flag.IN_BLANK}),
        ("H", {Flag.HELD_TOO_LONG}),
        ("B, H", {Flag.IN_BLANK, Flag.HELD_TOO_LONG}),
        ("*", set()),
    ],
)
def test_a_mark_says_the_same_whatever_stands_over_its_column(results_of, head, mark, flags):
    result = with_remark(results_of, head, mark)
    assert (result.qualifier, set(result.reading.flags)) == (mark, flags)


def test_a_mark_of_what_was_not_detected_is_read_below_any_heading(results_of):
    assert with_remark(results_of, "Note", "U").reading.kind is Kind.BELOW


@pytest.mark.parametrize(
    ("remark", "flags"),
    [
        ("Also found in the method blank.", {Flag.IN_BLANK}),
        ("Analyzed past the holding time", {Flag.HELD_TOO_LONG}),
        ("Above calibration range", {Flag.OVER_RANGE}),
        ("Estimated value", {Flag.ESTIMATED}),
    ],
)
def test_a_sentence_that_tells_a_flag_is_kept_with_it(results_of, remark, flags):
    result = with_remark(results_of, "Comment", remark)
    assert (result.qualifier, set(result.reading.flags)) == (remark, flags)


@pytest.mark.parametrize("remark", ["Not found in the blank", "Yield estimated by driller", "OK"])
def test_other_remarks_are_no_flags(results_of, remark):
    result = with_remark(results_of, "Comment", remark)
    assert (result.qualifier, result.reading.flags) == ("", frozenset())


@pytest.mark.parametrize("number", ["1", "a, b", "(2)"])
def test_the_number_of_a_footnote_is_kept_and_is_no_flag(results_of, number):
    result = with_remark(results_of, "Footnote", number)
    assert (result.qualifier, result.reading.flags) == (number, frozenset())


def flags_of(draft):
    return [(r.reading.kind, set(r.reading.flags)) for s in draft.samples for r in s.sample.results]


@pytest.mark.parametrize("mark", ["H", "Analyzed past the holding time"])
def test_a_mark_at_the_end_of_a_row_of_several_results_is_of_all(draft_of, mark):
    head = "Date collected,Iron (mg/L),Lead (ug/L),Notes\n"
    draft = draft_of(f"{head}2026-02-18,0.2,8.5,{mark}\n2026-02-19,0.2,8.5,new filter\n")
    assert flags_of(draft) == [("number", {Flag.HELD_TOO_LONG})] * 2 + [("number", set())] * 2


def test_a_mark_behind_each_of_several_results_is_of_that_one(draft_of):
    head = "Date collected,Iron (mg/L),Q,Lead (ug/L),Q\n"
    draft = draft_of(f"{head}2026-02-18,0.2,H,8.5,\n2026-02-19,0.2,,8.5,U\n")
    assert flags_of(draft) == [("number", {Flag.HELD_TOO_LONG}), ("number", set()),
                               ("number", set()), ("below", set())]  # fmt: skip


def test_one_mark_of_what_was_not_detected_denies_none_of_several_results(draft_of):
    draft = draft_of("Date collected,Iron (mg/L),Lead (ug/L),Q\n2026-02-18,0.2,8.5,U\n")
    assert flags_of(draft) == [("number", set())] * 2
