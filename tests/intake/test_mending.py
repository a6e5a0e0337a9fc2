"""What a person decides about a draft changes the draft alone, and is remembered for the lab."""

import io
from datetime import date
from decimal import Decimal

import pytest
from reportlab.pdfgen.canvas import Canvas

from wellbook import intake
from wellbook.book import Book
from wellbook.intake import decisions, mending
from wellbook.intake.words.dates import Order
from wellbook.water.values.local_time import LocalTime

TEXT = (
    "Lab: Hollin Ridge\nParameter,Result,Unit\nMangenese,34,ug/L\nIron,0.2,mgl9\nFrobnium,3,mg/L\n"
)


@pytest.fixture
def draft(draft_of):
    return draft_of(TEXT)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "b.wellbook") as made:
        yield made


def keys(draft):
    return {finding.key for finding in draft.findings}


def test_every_stop_can_be_mended_in_place(draft):
    assert {finding.key for finding in draft.stops} == {"no_date", "unknown_unit"}
    draft = mending.with_moment(draft, 0, LocalTime(date(2024, 6, 5)))
    draft = mending.with_unit(draft, (0, 1), "mg/L")
    assert draft.stops == ()
    sample = draft.samples[0].sample
    assert (str(sample.collected.day), sample.results[1].reading.unit) == ("2024-06-05", "mg/L")


def test_a_decided_name_is_certain_and_stays_as_printed(draft):
    draft = mending.with_name(draft, (0, 2), "zinc")
    result = draft.samples[0].sample.results[2]
    assert (result.name, result.parameter) == ("Frobnium", "zinc")
    assert draft.samples[0].marks[2].is_certain
    assert "unknown_parameter" not in keys(draft)
    assert "near_name" in keys(draft)  # of another reading
    assert "near_name" not in keys(mending.settled(draft, (0, 0)))


def test_what_is_said_to_be_no_reading_is_listed_and_not_lost(draft):
    taken = draft.taken
    draft = mending.without(draft, (0, 2))
    assert draft.taken == taken - 1
    assert "3" in {left.what for left in draft.not_taken}
    draft = mending.without_sample(draft, 0)
    assert draft.samples == ()
    assert {left.what for left in draft.not_taken} == {"3", "34", "0.2"}


def test_a_result_that_was_read_wrong_is_typed_anew(draft):
    draft = mending.with_result(draft, (0, 1), "0.27")
    reading = draft.samples[0].sample.results[1].reading
    assert (reading.text, reading.number) == ("0.27", Decimal("0.27"))


def test_a_comma_that_is_settled_stays_as_it_was_printed(draft_of):
    """1,013 can be read both ways: the international system of units allows either decimal sign."""
    draft = draft_of(
        "Date collected: 2024-06-05\nParameter;Result;Unit\nIron;1,013;mg/L\nZinc;2;mg/L\n"
    )
    assert "comma" in draft.samples[0].marks[0].doubts
    draft = mending.with_result(draft, (0, 0), "1.013")
    reading = draft.samples[0].sample.results[0].reading
    assert (reading.text, reading.number) == ("1,013", Decimal("1.013"))
    assert draft.samples[0].marks[0].is_certain


def test_a_basis_is_said_with_its_unit(draft_of):
    draft = draft_of("Date collected: 2024-06-05\nParameter,Result,Unit\nNitrate,9,mg/L\n")
    assert "no_basis" in draft.samples[0].marks[0].doubts
    draft = mending.with_unit(draft, (0, 0), "mg/L as N")
    reading = draft.samples[0].sample.results[0].reading
    assert (reading.unit, reading.basis) == ("mg/L", "as N")
    assert draft.samples[0].marks[0].is_certain


def again(draft_of, book, catalogue, text, name="next.csv"):
    return decisions.read_as_decided(
        book, catalogue, lambda order, columns: draft_of(text, name, order=order, columns=columns)
    )


def test_a_decision_is_remembered_for_its_lab_alone(draft, draft_of, book, catalogue):
    after = mending.with_name(draft, (0, 2), "zinc")
    after = mending.with_unit(after, (0, 1), "mg/L")
    decisions.remember(book, "Hollin Ridge", decisions.decided(draft, after))
    later = again(draft_of, book, catalogue, TEXT)
    results = later.samples[0].sample.results
    assert (results[2].parameter, results[1].reading.unit) == ("zinc", "mg/L")
    assert "remembered" in keys(later)
    other = draft_of(TEXT.replace("Hollin", "Quillback"), "other.csv")
    assert decisions.as_remembered(other, book, catalogue) == other


def test_what_is_remembered_can_be_forgotten(draft, draft_of, book, catalogue):
    after = mending.with_name(draft, (0, 2), "zinc")
    decisions.remember(book, "Hollin Ridge", decisions.decided(draft, after))
    assert list(decisions.remembered(book)) == ["Hollin Ridge"]
    (one,) = decisions.decisions_in(book, catalogue)
    assert (one.lab, one.said) == ("Hollin Ridge", "“frobnium” is Zinc")
    decisions.forget(book, one)
    assert decisions.remembered(book) == {}
    assert "remembered" not in keys(again(draft_of, book, catalogue, TEXT))


COLUMNS = (
    "Lab: Hollin Ridge\nCollected,2024-06-05\nParameter,Units,Ours,Theirs\n"
    "Arsenic,ug/L,3,10\nIron,mg/L,0.1,0.3\n"
)


def test_columns_that_a_person_chose_are_taken_the_next_time(draft_of, book, catalogue):
    asked = again(draft_of, book, catalogue, COLUMNS)
    assert "which_columns" in keys(asked)
    assert {left.column for left in asked.not_taken if left.column} == {"Ours", "Theirs"}
    told = {"Ours": True, "Theirs": False}
    draft = draft_of(COLUMNS, columns=told)
    decided = decisions.decided(draft, draft, columns=told)
    decisions.remember(book, decisions.source_of(draft), decided)
    later = again(draft_of, book, catalogue, COLUMNS)
    assert [sample.point_name for sample in later.samples] == ["Ours"]
    assert "remembered" in keys(later)
    for text in (
        COLUMNS.replace("Hollin", "Quillback"),  # another lab calls its columns the same
        COLUMNS.replace("Theirs", "Other").replace("10", "90"),  # nobody said whose water that is
    ):
        assert "which_columns" in keys(again(draft_of, book, catalogue, text))


def test_columns_of_one_file_without_a_lab_decide_for_no_other_layout(draft_of, book, catalogue):
    """Two labs that name themselves nowhere may both call a column `Ours`."""
    text = COLUMNS.partition("\n")[2]
    told = {"Ours": True, "Theirs": False}
    draft = draft_of(text, columns=told)
    decided = decisions.decided(draft, draft, columns=told)
    decisions.remember(book, decisions.source_of(draft), decided)
    later = again(draft_of, book, catalogue, text.replace("Arsenic,ug/L,3", "Arsenic,ug/L,4"))
    assert [sample.point_name for sample in later.samples] == ["Ours"]
    assert "remembered" in keys(later)
    other = text.replace("Parameter,Units", "Analyte,Unit of measure")
    assert "which_columns" in keys(again(draft_of, book, catalogue, other))
    (first, _second) = decisions.decisions_in(book, catalogue)
    assert "Parameter; Units; Ours; Theirs" in decisions.said_source(first.lab)


def test_a_place_left_out_of_a_file_without_a_lab_is_asked_about_in_the_next(
    draft_of, book, catalogue
):
    text = (
        "Location,Date collected,Parameter,Result,Unit\n"
        "Tap,2024-06-05,Arsenic,3,ug/L\nBarn,2024-06-05,Arsenic,12,ug/L\n"
    )
    draft = draft_of(text)
    after = mending.without_sample(draft, 1)
    decisions.remember(book, decisions.source_of(draft), decisions.decided(draft, after))
    later = again(draft_of, book, catalogue, text)
    assert [sample.point_name for sample in later.samples] == ["Tap", "Barn"]


def test_what_an_older_book_keeps_for_no_lab_stays_listed_and_decides_nothing(
    draft_of, book, catalogue
):
    book.set_setting("lab_decisions", '{"": {"names": {"frobnium": "zinc"}}}')
    later = again(draft_of, book, catalogue, TEXT.partition("\n")[2])
    assert later.samples[0].sample.results[2].parameter == ""
    (one,) = decisions.decisions_in(book, catalogue)
    assert "no longer used" in decisions.said_source(one.lab)
    decisions.remember(book, "Hollin Ridge", decisions.Decisions(order="day first"))
    assert decisions.remembered(book)[""].names == {"frobnium": "zinc"}


def test_a_unit_that_is_printed_is_asked_about_where_it_was_read_as_another_before(
    draft_of, book, catalogue
):
    text = (
        "Lab: Hollin Ridge\nCollected,2024-06-05\nParameter,Result,Unit\nLead,5,mg/L\nIron,1,mg/L\n"
    )
    draft = draft_of(text)
    after = mending.with_unit(draft, (0, 0), "ug/L")  # a slip of the lab, that time
    decisions.remember(book, "Hollin Ridge", decisions.decided(draft, after))
    later = again(draft_of, book, catalogue, text.replace("Lead,5", "Lead,0.9"))
    # 40 CFR 141.80: 0.9 mg/L of lead is sixty times the action level, 0.9 µg/L is within it.
    assert later.samples[0].sample.results[0].reading.unit == "mg/L"
    assert later.samples[0].marks[0].doubts == ("other_unit",)
    assert any("you read that as ug/L before" in finding.text for finding in later.findings)
    for decided in (mending.settled(later, (0, 0)), mending.with_unit(later, (0, 0), "ug/L")):
        assert decided.samples[0].marks[0].is_certain
        assert "other_unit" not in keys(decided)


def test_a_column_that_is_not_the_household_s_water_is_left_aside_the_next_time(
    draft_of, book, catalogue
):
    text = (
        "Lab: Hollin Ridge\nTest,Units,W-1,W-2\nDate collected,,2024-04-03,2024-04-03\n"
        "Lead,ug/L,3.1,2.7\nChloride,mg/L,18,17\n"
    )
    draft = draft_of(text)
    assert len(draft.samples) == 2
    after = mending.without_sample(draft, 1)
    decisions.remember(book, decisions.source_of(draft), decisions.decided(draft, after))
    later = again(draft_of, book, catalogue, text)
    assert len(later.samples) == 1
    assert {"2.7", "17"} <= {left.what for left in later.not_taken}
    assert "remembered" in keys(later)


def test_the_order_of_a_lab_s_dates_is_asked_once(draft_of, book, catalogue):
    text = "Lab: Hollin Ridge\nSample Date,Analyte,Result,Units\n03/05/2024,Chloride,200,mg/L\n"
    asked = again(draft_of, book, catalogue, text)
    assert asked.stops
    order = intake.Order.DAY_FIRST
    decisions.remember(book, "Hollin Ridge", decisions.Decisions(order=str(order)))
    later = again(draft_of, book, catalogue, text)
    assert later.stops == ()
    assert later.samples[0].sample.collected.day == date(2024, 5, 3)


def test_names_that_an_older_book_remembers_still_hold(draft_of, book, catalogue):
    book.set_setting("lab_names", '{"Hollin Ridge": {"frobnium": "zinc"}}')
    later = again(draft_of, book, catalogue, TEXT)
    assert later.samples[0].sample.results[2].parameter == "zinc"


@pytest.mark.parametrize("says", ["the day", "it is right"])
def test_a_day_is_decided_once_for_all_readings_of_its_sample(draft_of, says):
    lines = ["Hollin Ridge Analytical", "06/12/2016", "Parameter   Unit   Result",
             "Iron   mg/L   1.06", "Sodium   mg/L   17.2", "Copper   mg/L   0.895"]  # fmt: skip
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1)
    for number, line in enumerate(lines):
        for column, cell in enumerate(line.split("   ")):
            canvas.drawString(60 + 140 * column, 740 - 16 * number, cell)
    canvas.save()
    draft = draft_of(file.getvalue(), "letter.pdf", order=Order.MONTH_FIRST)
    assert [mark.doubts for mark in draft.samples[0].marks] == [("some_date",)] * 3
    if says == "the day":
        draft = mending.with_moment(draft, 0, LocalTime.parse("2016-05-30"))
    else:
        draft = mending.settled(draft, (0, 1))
    assert all(mark.is_certain for mark in draft.samples[0].marks)
