"""Copies are made on their own, read back, thinned out by age, and lead back."""

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.book import Book, copies, opening
from wellbook.support.errors import Fault

TODAY = date(2026, 11, 25)


class Clock:
    def __init__(self, day):
        self.now = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock(TODAY)


@pytest.fixture
def book(tmp_path, clock):
    with Book.create(tmp_path / "home.wellbook", now=clock) as made:
        made.add_well("Home")
        yield made


def test_the_first_change_of_a_day_keeps_what_the_days_before_have_left(book, clock):
    assert copies.copies_of(book.path) == [], "a book begun today has nothing older to lose"
    clock.now += timedelta(days=1)
    book.add_well("Barn")
    book.add_well("Orchard")
    (copy,) = copies.copies_of(book.path)
    assert copy.day == TODAY + timedelta(days=1)
    assert book.copy_trouble == ""
    with Book.open(copy.path, readonly=True) as kept:
        assert [well.name for well in kept.wells()] == ["Home"]
        assert kept.digest() == book.journal()[0].digest


def test_a_copy_that_can_not_be_made_is_said_and_holds_nothing_up(book, clock):
    copies.folder_of(book.path).write_text("a file where the folder should be")
    clock.now += timedelta(days=1)
    book.add_well("Barn")
    assert "No copy of home.wellbook could be made" in book.copy_trouble
    assert len(book.wells()) == 2


def test_a_copy_goes_to_a_stick_in_one_step(book, tmp_path):
    stick = tmp_path / "stick"
    made = copies.make_copy(book.path, TODAY, stick)
    assert made == stick / "home 2026-11-25.wellbook"
    assert copies.on_same_disk(book.path, made)
    assert not list(stick.glob("*.partial"))


def test_a_damaged_book_is_not_copied_over_a_good_copy(book):
    good = copies.make_copy(book.path, TODAY).read_bytes()
    path = book.path
    book.close()
    path.write_bytes(path.read_bytes()[:8192] + bytes(60_000))
    with pytest.raises(Fault):
        copies.make_copy(path, TODAY)
    (copy,) = copies.copies_of(path)
    assert copy.path.read_bytes() == good
    assert [file.name for file in copy.path.parent.iterdir()] == [copy.path.name]


def test_a_copy_that_holds_what_the_book_no_longer_holds_is_not_written_over(book):
    """Both began alike; what only the copy tells would be lost."""
    first = copies.make_copy(book.path, TODAY - timedelta(days=1))
    book.add_well("Barn")
    copy = copies.make_copy(book.path, TODAY)
    book.close()
    copies.restore(book.path, first, TODAY)
    held = copy.read_bytes()
    with Book.open(book.path) as back:
        back.add_well("Orchard")
    with pytest.raises(Fault, match="is a copy of another book, so nothing is written over it"):
        copies.make_copy(book.path, TODAY)
    assert copy.read_bytes() == held


def test_what_a_killed_try_left_a_moment_ago_does_not_stop_the_next_copy(book):
    copy = copies.make_copy(book.path, TODAY)
    copies._beside(copy).write_bytes(b"half of a copy")
    assert copies.make_copy(book.path, TODAY) == copy
    assert [file.name for file in copy.parent.iterdir()] == [copy.name]


def test_a_copy_of_the_day_is_replaced_by_one_that_tells_more(book):
    for name in ("Barn", "Orchard"):
        copy = copies.make_copy(book.path, TODAY)
        book.add_well(name)
    with Book.open(copies.make_copy(book.path, TODAY), readonly=True) as kept:
        assert [well.name for well in kept.wells()] == ["Home", "Barn", "Orchard"]
    assert [one.path for one in copies.copies_of(book.path)] == [copy]


def test_going_back_shows_what_would_be_lost_and_gained(book):
    copy = copies.make_copy(book.path, TODAY)
    book.add_well("Barn")
    seen = copies.preview(book.path, copy)
    assert [entry.action for entry in seen.lost] == ["add a well"]
    assert seen.gained == ()
    seen = copies.preview(copy, book.path)
    assert (len(seen.lost), len(seen.gained)) == (0, 1)


def test_going_back_keeps_the_book_as_it_was_aside(book):
    copy = copies.make_copy(book.path, TODAY)
    book.add_well("Barn")
    book.close()
    aside = copies.restore(book.path, copy, TODAY)
    with Book.open(book.path) as back, Book.open(aside) as before:
        assert [well.name for well in back.wells()] == ["Home"]
        assert [well.name for well in before.wells()] == ["Home", "Barn"]
    assert copies.restore(book.path, copy, TODAY).name == "home 2026-11-25 set aside 2.wellbook"
    assert [c.path for c in copies.copies_of(book.path)] == [copy], "set aside is no dated copy"


def test_going_back_works_when_the_book_is_a_ruin_or_gone(book):
    copy = copies.make_copy(book.path, TODAY)
    book.close()
    book.path.write_bytes(b"ruin")
    assert "not a book" in copies.preview(book.path, copy).trouble
    assert copies.restore(book.path, copy, TODAY).read_bytes() == b"ruin"
    book.path.unlink()
    assert copies.restore(book.path, copy, TODAY) is None
    with Book.open(book.path) as back:
        assert [well.name for well in back.wells()] == ["Home"]


def test_a_damaged_copy_is_not_put_in_the_place_of_a_book(book):
    copy = copies.make_copy(book.path, TODAY)
    copy.write_bytes(copy.read_bytes()[:5000])
    book.close()
    before = book.path.read_bytes()
    with pytest.raises(Fault):
        copies.restore(book.path, copy, TODAY)
    assert book.path.read_bytes() == before
    assert not book.path.with_suffix(".partial").exists()


DAYS = st.sets(st.dates(date(2000, 1, 1), TODAY), max_size=60)


@given(DAYS)
def test_what_is_kept_covers_a_week_of_days_a_year_of_months_and_every_year(days):
    kept = copies.keep(days, TODAY)
    assert kept <= days
    assert set(sorted(days)[-7:]) <= kept
    assert {day.year for day in kept} == {day.year for day in days}
    lately = {day for day in days if (TODAY.year - day.year) * 12 + TODAY.month - day.month < 12}
    assert {(d.year, d.month) for d in lately} <= {(d.year, d.month) for d in kept}
    assert len(kept) <= 7 + 12 + len({day.year for day in days})


def test_a_year_of_daily_copies_thins_out_to_a_score(tmp_path):
    book = tmp_path / "home.wellbook"
    folder = copies.folder_of(book)
    folder.mkdir()
    for step in reversed(range(400)):
        day = TODAY - timedelta(days=step)
        (folder / f"home {day}.wellbook").touch()
        copies.thin_out(book, day)
    days = [copy.day for copy in copies.copies_of(book)]
    assert len(days) == 7 + 11, "December's copy also stands for the year 2025"
    assert days[0] == TODAY


def test_the_copy_is_a_plain_book_even_if_the_original_was_in_wal_mode(book):
    with closing(sqlite3.connect(book.path)) as store:
        store.execute("PRAGMA journal_mode = WAL")
    copy = copies.make_copy(book.path, TODAY)
    with closing(sqlite3.connect(copy)) as store:
        assert store.execute("PRAGMA journal_mode").fetchone()[0] == "delete"


@pytest.mark.parametrize("begun", ["BEGIN IMMEDIATE", "BEGIN EXCLUSIVE"])
def test_going_back_waits_for_nobody_who_is_writing_the_book(book, monkeypatch, begun):
    copy = copies.make_copy(book.path, TODAY)
    before = book.path.read_bytes()
    monkeypatch.setattr(opening, "_BUSY_MS", 50)
    other = sqlite3.connect(book.path, isolation_level=None)
    for statement in (begun, "UPDATE well SET name = 'Other'"):  # without a journal, then with one
        other.execute(statement)
        with pytest.raises(Fault, match="being written by another"):
            copies.restore(book.path, copy, TODAY)
    assert book.path.read_bytes() == before
    other.execute("ROLLBACK")
    other.close()
    assert copies.restore(book.path, copy, TODAY).exists()
