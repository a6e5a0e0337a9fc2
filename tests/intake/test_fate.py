"""A file whose tests are in the book already, or half of them, is told from a new one."""

import pytest

from wellbook import intake
from wellbook.book import Book
from wellbook.intake.fate import Fate, complete, fate

HEAD = "Sample date,Parameter,Result,Unit\n"
FIRST = HEAD + "2025-05-15,Iron,0.2,mg/L\n2025-05-15,Arsenic,3,µg/L\n"


@pytest.fixture
def book(tmp_path, draft_of):
    with Book.create(tmp_path / "b.wellbook") as made:
        intake.store(draft_of(FIRST), made, well="W", point="Tap")
        yield made


@pytest.fixture
def fate_of(draft_of, book, catalogue):
    def told(text):
        draft = draft_of(text, "later.csv")
        return draft, fate(draft, book, catalogue)

    return told


def test_a_new_day_is_ready(fate_of):
    assert fate_of(FIRST.replace("05-15", "05-16"))[1].fate is Fate.READY


def test_the_same_figures_in_other_units_are_the_same_test(fate_of):
    """1 mg/L is 1000 µg/L: the international system of units."""
    other = HEAD + "2025-05-15,Iron,200,ug/L\n2025-05-15,Arsenic,0.003,mg/L\n"
    assert fate_of(other)[1].fate is Fate.THERE


@pytest.mark.parametrize("iron", ["0.2,mg/L", "200,ug/L"])
def test_a_later_report_adds_only_what_is_new(fate_of, book, iron):
    text = HEAD + f"2025-05-15,Iron,{iron}\n2025-05-15,Arsenic,3,µg/L\n2025-05-15,Lead,1,µg/L\n"
    draft, found = fate_of(text)
    assert (found.fate, found.adds) == (Fate.ADDS, 1)
    [old] = book.samples()
    complete(draft, found, book)
    assert [sample.id for sample in book.samples()] == [old.id]
    assert sorted(r.parameter for r in book.results()) == ["arsenic", "iron", "lead"]
    names = {document.name for document in book.documents(sample=old.id)}
    assert names == {"report.csv", "later.csv"}
    assert fate_of(text)[1].fate is Fate.THERE


def test_what_is_added_is_taken_back_whole(fate_of, book):
    before = len(book.results())
    draft, found = fate_of(FIRST + "2025-05-15,Lead,1,µg/L\n")
    complete(draft, found, book)
    assert len(book.results()) == before + 1
    assert "later.csv" in book.journal()[-1].reason or any(
        "later.csv" in entry.reason for entry in book.journal()
    )


def test_other_values_of_the_same_number_are_never_added_unseen(tmp_path, draft_of, catalogue):
    numbered = "Lab number,Sample date,Parameter,Result,Unit\nL-7,2025-05-15,Iron,{},mg/L\n"
    with Book.create(tmp_path / "n.wellbook") as book:
        intake.store(draft_of(numbered.format("0.2")), book, well="W", point="Tap")
        later = draft_of(numbered.format("0.4"), "amended.csv")
        assert fate(later, book, catalogue).fate is Fate.OTHER


def test_another_sample_of_the_same_day_is_a_test_of_its_own(fate_of):
    assert fate_of(HEAD + "2025-05-15,Iron,0.9,mg/L\n")[1].fate is Fate.READY
    assert fate_of(HEAD + "2025-05-15,Lead,1,µg/L\n")[1].fate is Fate.READY


def test_a_doubt_is_decided_first(fate_of):
    assert fate_of(HEAD + "2025-06-01,Mangenese,3,µg/L\n")[1].fate is Fate.DECIDE
