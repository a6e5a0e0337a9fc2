"""Copies of a book in words: where they lie, whether one disk holds all, what going back does."""

from datetime import date
from pathlib import Path

import pytest
from household import with_one_test

from wellbook.book.copies import Copy, Preview
from wellbook.book.journal import Entry
from wellbook.window.dialogs.copies.copy_jobs import compare, copies, make
from wellbook.window.dialogs.copies.copy_rows import columns, preview_words, warning_words

OTHER_DISK = Path("/dev/shm")  # noqa: S108  a disk of its own on every Linux
DAY = date(2026, 3, 4)


def entries(n, action="add a well"):
    return tuple(
        Entry(k, f"2026-03-0{k}T12:00:00", action, "", None, "[]", "") for k in range(1, n + 1)
    )


@pytest.fixture
def lying(tmp_path):
    """A copy of so many bytes."""

    def put(name="home 2026-03-04.wellbook", size=2048):
        path = tmp_path / name
        path.write_bytes(b"x" * size)
        return Copy(path, DAY)

    return put


def test_a_copy_says_its_day_its_size_and_its_folder(lying, tmp_path):
    said = [column.text(lying()) for column in columns()]
    assert said == ["4 Mar 2026", "2.00 KiB", str(tmp_path)]
    gone = Copy(tmp_path / "gone.wellbook", DAY)
    assert [column.text(gone) for column in columns()] == ["4 Mar 2026", "", str(tmp_path)]


def test_a_book_without_a_copy_asks_for_one(tmp_path):
    said = warning_words(tmp_path / "home.wellbook", [])
    assert said == "The book has no copy yet: put one on a stick or on another disk."


def test_copies_that_all_lie_on_the_disk_of_the_book_are_warned_of(lying):
    book = lying("home.wellbook").path
    alone = [lying("a.wellbook"), lying("b.wellbook")]
    said = warning_words(book, alone)
    assert said.startswith("All copies lie on the disk of the book itself.")
    assert warning_words(book, [*alone, Copy(book.with_name("gone.wellbook"), DAY)]) == ""


@pytest.mark.skipif(not OTHER_DISK.is_dir(), reason="this system has one disk only")
def test_one_copy_on_another_disk_is_enough(lying, tmp_path):
    book = lying("home.wellbook").path
    elsewhere = Copy(OTHER_DISK, DAY)
    if OTHER_DISK.stat().st_dev == tmp_path.stat().st_dev:
        pytest.skip("it is the same disk")
    assert warning_words(book, [lying(), elsewhere]) == ""
    assert warning_words(book, [elsewhere]) == ""


def test_a_copy_that_holds_the_same_is_nothing_to_go_back_for(lying):
    said = preview_words(lying(), Preview((), ()))
    assert said == "The book holds the same as this copy: nothing to go back for."


def test_what_would_be_lost_and_come_back_is_counted_and_named(lying):
    said = preview_words(lying(), Preview(entries(2), entries(1, "add a sample")))
    assert said == (
        "Going back to the copy of 4 Mar 2026. "
        "Entries made since that would be lost: 2 (1 Mar 2026, 12:00: well added; "
        "2 Mar 2026, 12:00: well added). "
        "Entries that would come back: 1 (1 Mar 2026, 12:00: test added). "
        "The book as it is now is kept beside the copies."
    )
    assert "come back" not in preview_words(lying(), Preview(entries(1), ()))
    assert "would be lost" not in preview_words(lying(), Preview((), entries(1)))


def test_four_entries_are_named_and_of_more_the_last_four(lying):
    four = preview_words(lying(), Preview(entries(4), ()))
    assert "lost: 4 (1 Mar 2026, 12:00: well added; 2 Mar" in four
    assert "…" not in four
    six = preview_words(lying(), Preview(entries(6), ()))
    assert "lost: 6 (…; 3 Mar 2026, 12:00: well added; 4 Mar" in six
    assert "2 Mar 2026" not in six
    assert "6 Mar 2026, 12:00: well added)." in six


def test_of_a_book_that_cant_be_read_the_entries_of_the_copy_are_counted(lying):
    found = Preview((), entries(3), "the file is damaged")
    said = preview_words(lying(), found)
    assert said == "The book itself can’t be read. Entries in this copy: 3."


def test_copies_of_both_folders_are_listed_once_newest_first(tmp_path):
    told = []
    tell = lambda *words: told.append(words)  # noqa: E731
    with with_one_test(tmp_path / "home.wellbook") as book:
        first = make(book, date(2026, 3, 4), None, tell)
        stick = tmp_path / "stick"
        stick.mkdir()
        second = make(book, date(2026, 5, 6), stick, tell)
        found = copies(book.path, stick)
        assert [(one.path, one.day.month) for one in found] == [(second, 5), (first, 3)]
        assert [one.path for one in copies(book.path, None)] == [first]
        assert [one.path for one in copies(book.path, first.parent)] == [first]
        book.add_well("Old Field")
        shown = compare(book.path, book, first, tell)
        assert [one.action for one in shown.lost] == ["add a well"]
        assert shown.gained == ()
    assert told == [(0, 0, "home.wellbook")] * 2 + [(0, 0, first.name)]
