"""What a person decides about a draft changes the draft alone, and is remembered for the lab."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.intake import mending

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
    draft = mending.with_day(draft, 0, date(2024, 6, 5))
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


def test_a_decision_is_remembered_for_its_lab_alone(draft, draft_of, book, catalogue):
    mending.remember(book, draft, mending.with_name(draft, (0, 2), "zinc"))
    again = mending.as_remembered(draft_of(TEXT, "next.csv"), book, catalogue)
    assert again.samples[0].sample.results[2].parameter == "zinc"
    assert "remembered" in keys(again)
    other = draft_of(TEXT.replace("Hollin", "Quillback"), "other.csv")
    assert mending.as_remembered(other, book, catalogue) == other
