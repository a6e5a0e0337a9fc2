"""What a damaged book's journal still tells is saved into a new book."""

import sqlite3
from datetime import date
from pathlib import Path

import pytest

from wellbook.book import Book
from wellbook.book.check import check
from wellbook.book.reader import facts as facts_of
from wellbook.book.rescue import rescue
from wellbook.book.rows import NewResult, NewSample
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading

WHOLE = Path(__file__).parent.parent / "data" / "books" / "version-1.wellbook"


@pytest.fixture
def damaged(tmp_path):
    path = tmp_path / "damaged.wellbook"
    path.write_bytes(WHOLE.read_bytes())
    return path


def harm(path, *statements):
    store = sqlite3.connect(path)
    for statement in statements:
        store.execute(statement)
    store.commit()
    store.close()


def facts(path):
    with Book.open(path, readonly=True) as book:
        return facts_of(book._connection)


def test_tables_that_are_gone_come_back_from_the_journal(damaged, tmp_path):
    harm(damaged, "DELETE FROM result", "DELETE FROM event", "UPDATE well SET name = 'x'")
    new = tmp_path / "new.wellbook"
    saved = rescue(damaged, new)
    assert (saved.lost_entries, saved.lost_documents) == (0, ())
    assert facts(new) == facts(WHOLE)
    assert check(new, read_catalogue(paths.resources()), date(2026, 11, 25)) == ()
    with Book.open(new) as book:
        assert book.content(1) == b"%PDF-1.4 a lab's own report"
        book.add_well("Barn")


def test_a_result_without_a_text_is_entered_again_and_comes_back_from_the_journal(tmp_path):
    path, new = tmp_path / "home.wellbook", tmp_path / "new.wellbook"
    with Book.create(path) as book:
        point = book.add_point(book.add_well("Well"), "Tap")
        result = NewResult("iron", "Iron", Reading("", Kind.NONE, unit="mg/L"))
        book.add_sample(NewSample(point, LocalTime.parse("2024-05-03"), results=(result,)))
        before = facts_of(book._connection)
        assert book.undo() == book.redo() == "add a sample"
        assert facts_of(book._connection) == before
    rescue(path, new)
    assert facts(new) == facts(path) == before


def test_an_altered_entry_ends_what_is_saved_and_a_changed_document_is_named(damaged, tmp_path):
    harm(
        damaged,
        "DROP TRIGGER journal_is_never_changed",
        "UPDATE journal SET changes = '[]' WHERE seq = 11",
        "UPDATE document_body SET content = x'00'",
    )
    new = tmp_path / "new.wellbook"
    saved = rescue(damaged, new)
    assert saved.entries == 10
    assert saved.lost_entries == 3
    assert saved.lost_documents == ("report.pdf",)
    texts = [f.text for f in check(new, read_catalogue(paths.resources()), date(2026, 11, 25))]
    assert texts == ["The content of report.pdf is missing."]


def test_of_a_ruin_nothing_is_saved_and_nothing_is_left_behind(damaged, tmp_path):
    damaged.write_bytes(bytes(10_000))
    with pytest.raises(Fault, match="Nothing can be read"):
        rescue(damaged, tmp_path / "new.wellbook")
    harm_free = tmp_path / "empty.wellbook"
    Book.create(harm_free).close()
    with pytest.raises(Fault, match="journal is gone"):
        rescue(harm_free, tmp_path / "new.wellbook")
    assert not (tmp_path / "new.wellbook").exists()


def test_cut_anywhere_a_book_yields_what_lies_before_the_cut_or_a_clear_word(tmp_path):
    content = WHOLE.read_bytes()
    counts = set()
    for length in range(4096, len(content), 4096):
        cut, new = tmp_path / f"{length}.wellbook", tmp_path / f"{length}.new.wellbook"
        cut.write_bytes(content[:length])
        try:
            counts.add(rescue(cut, new).entries)
        except Fault:
            assert not new.exists()
        else:
            findings = check(new, read_catalogue(paths.resources()), date(2026, 11, 25))
            assert all("is missing" in finding.text for finding in findings)
    assert counts <= {0, *range(14)}
