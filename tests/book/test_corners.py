"""Rare turns of the record: what is not there, what a person may not do, what is a bug of ours."""

import sqlite3
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from wellbook.book import Book, copies, opening, reader
from wellbook.book.rows import NewSample
from wellbook.book.writer import Writer, writing
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook", now=lambda: NOW) as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        yield made


def test_a_number_that_is_not_there_is_a_look_up_that_failed(book):
    for look in (book.point, book.sample, book.content):
        with pytest.raises(LookupError):
            look(99)
    with pytest.raises(LookupError):
        book.strike_sample(99, "why")


def test_what_changed_between_two_days_is_told(book):
    assert [entry.action for entry in book.changes(date(2026, 11, 25), date(2026, 11, 26))] == [
        "add a well",
        "add a point",
    ]
    assert book.changes(date(2026, 11, 26), date(2027, 1, 1)) == []


def test_a_write_that_changes_nothing_leaves_no_entry(book):
    number = book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3))))
    entries = len(book.journal())
    book.restore_sample(number)
    assert len(book.journal()) == entries


def test_a_write_without_an_entry_is_refused_as_a_bug(book):
    def sneak(writer: Writer) -> None:
        writer.insert("well", {"name": "Barn"})

    with pytest.raises(AssertionError, match="without a journal entry"):
        write(book, sneak)
    with pytest.raises(AssertionError, match="not a table of facts"):
        write(book, lambda writer: writer.insert("journal", {"at": ""}))
    assert [well.name for well in book.wells()] == ["Home"]


def write(book, what):
    with writing(book._connection, book.path, lambda: NOW) as writer:
        what(writer)


def test_the_same_document_is_tied_to_a_sample_once(book):
    from wellbook.book.rows import NewDocument

    number = book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3))))
    scan = NewDocument("a.pdf", "application/pdf", b"%PDF")
    for _ in range(2):
        book.add_document(scan, sample=number)
    assert len(book.documents()) == 1


def test_content_that_was_taken_back_is_there_again_when_it_is_added_again(book):
    from wellbook.book.rows import NewDocument

    scan = NewDocument("a.pdf", "application/pdf", b"%PDF")
    book.add_document(scan, well=1)
    book.undo()
    number = book.add_document(scan, well=1)
    assert book.content(number) == b"%PDF"


def test_a_bug_in_a_statement_of_ours_stays_a_bug(book):
    with pytest.raises(sqlite3.ProgrammingError), opening.faults(book.path):
        book._connection.execute("SELECT ?", (1, 2))


def test_an_old_sqlite_is_named(book, monkeypatch):
    monkeypatch.setattr(opening.sqlite3, "sqlite_version_info", (3, 31, 0))
    with pytest.raises(Fault, match=r"needs 3\.37 or newer"):
        Book.open(book.path)


def test_a_book_without_a_version_is_damaged(book):
    book._connection.execute("PRAGMA user_version = 0")
    with pytest.raises(Fault, match="is damaged"):
        Book.open(book.path)


def test_a_book_that_can_not_be_begun_leaves_no_file(tmp_path, monkeypatch):
    def full(connection):
        connection.execute("PRAGMA max_page_count = 1")

    monkeypatch.setattr(opening, "_prepare", full)
    with pytest.raises(Fault, match="is full"):
        Book.create(tmp_path / "home.wellbook")
    assert not list(tmp_path.iterdir())


def test_a_file_that_may_not_be_read_is_said(tmp_path, monkeypatch):
    path = tmp_path / "home.wellbook"
    path.write_bytes(b"SQLite format 3\0")

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(opening, "open_regular", refuse)
    with pytest.raises(Fault, match="can’t be read: Permission denied"):
        Book.open(path)


def test_a_copy_that_does_not_read_back_the_same_is_not_kept(book, monkeypatch):
    counts = iter([["ok"], ["ok", "changed"]])
    monkeypatch.setattr(copies, "_account", lambda _: (next(counts), [], [], ""))
    with pytest.raises(Fault, match="did not read back the same"):
        copies.make_copy(book.path, NOW.date())
    assert not copies.folder_of(book.path).exists()


def test_going_back_takes_the_journal_of_a_crash_along_with_the_book(book):
    copy = copies.make_copy(book.path, NOW.date())
    book.close()
    book.path.with_name("home.wellbook-journal").write_bytes(b"what a crash left")
    aside = copies.restore(book.path, copy, NOW.date())
    assert aside.with_name(f"{aside.name}-journal").read_bytes() == b"what a crash left"
    assert not book.path.with_name("home.wellbook-journal").exists()


def test_going_back_that_fails_at_the_last_step_leaves_the_book_in_its_place(book, monkeypatch):
    copy = copies.make_copy(book.path, NOW.date())
    book.close()
    real = type(book.path).replace

    def replace(self, target):
        if self.suffix == ".partial":
            raise OSError(5, "Input/output error")
        return real(self, target)

    monkeypatch.setattr(type(book.path), "replace", replace)
    before = book.path.read_bytes()
    with pytest.raises(Fault, match="could not be put back"):
        copies.restore(book.path, copy, NOW.date())
    assert book.path.read_bytes() == before
    book.path.unlink()
    with pytest.raises(Fault, match="could not be put back"):
        copies.restore(book.path, copy, NOW.date())


def test_a_folder_that_can_not_be_asked_to_settle_does_not_stop_a_copy(book, monkeypatch):
    real = copies.os.open

    def refuse(path, *how):
        if Path(path).is_dir():
            raise PermissionError
        return real(path, *how)

    monkeypatch.setattr(copies.os, "open", refuse)
    assert copies.make_copy(book.path, NOW.date()).exists()


def test_services_are_listed_by_unit(book):
    unit = book.add_unit(1, "Softener")
    other = book.add_unit(1, "Lamp")
    book.add_service(unit, "salt", "2024-05")
    book.add_service(other, "lamp", "2024-01", until="2024-02", text="new lamp")
    assert [service.kind for service in book.services()] == ["lamp", "salt"]
    assert [service.kind for service in book.services(unit)] == ["salt"]


def test_entries_come_in_order(book):
    assert [entry.seq for entry in reader.entries(book._connection)] == [1, 2]


@pytest.mark.parametrize(
    ("write", "said"),
    [
        (lambda book, name: book.add_well(name), "The name must have 1 to 200 letters"),
        (lambda book, name: book.add_point(1, name), "The name must have 1 to 200 letters"),
    ],
)
def test_a_name_that_is_empty_or_too_long_is_one_clear_sentence(book, write, said):
    before = book.last_entry()
    for name in ("", "a" * 201):
        with pytest.raises(opening.Unfit, match=said):
            write(book, name)
    assert book.last_entry() == before
    write(book, "a" * 200)
    write(book, "a")


def meet(path, error):
    with Book.open(path):
        raise error


def test_what_a_damaged_book_makes_go_wrong_is_said_to_be_its_damage(book):
    path = book.path
    book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3))))
    book.close()
    with pytest.raises(KeyError):
        meet(path, KeyError(1))
    other = sqlite3.connect(path)
    other.executescript("PRAGMA foreign_keys = OFF; DELETE FROM point")
    other.close()
    with pytest.raises(Fault, match="is damaged: Row 1 of sample points to a row of point"):
        meet(path, KeyError(1))
    with pytest.raises(OSError, match="no space"):
        meet(path, OSError("no space"))
