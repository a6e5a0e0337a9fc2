"""Who has a book open, what is said of a damaged one, and going back to a copy."""

import os
import sqlite3
import subprocess
import sys
from contextlib import contextmanager
from datetime import UTC, date, datetime

import pytest
from PySide6.QtWidgets import QDialog

from wellbook.book import Book, copies
from wellbook.window.dialogs.copies.copies_dialog import CopiesDialog

SINCE = datetime(2026, 11, 25, 8, 5, tzinfo=UTC)
# Opens a book's mark in another process, says so, and ends when its input does or by a crash.
OTHER = """
import sys
from pathlib import Path
from wellbook.window.app.opening import OpenMarks

marks = OpenMarks()
print(marks.hold(Path(sys.argv[1])), flush=True)
sys.stdin.readline()
"""


def place(path):
    return path.with_name(f".{path.name}.open")


def mark(path, computer="attic"):
    """A mark as Qt lays it down: process, program, computer."""
    place(path).write_text(f"1\nwellbook\n{computer}\n")
    os.utime(place(path), (SINCE.timestamp(), SINCE.timestamp()))


@contextmanager
def another_window(path):
    with subprocess.Popen(
        [sys.executable, "-c", OTHER, path],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout.readline().strip() == "None", "it is marked there"
        yield process


def dialog_of(frame, kind):
    return next(d for d in frame.findChildren(QDialog) if isinstance(d, kind) and d.isVisible())


def test_an_open_book_is_marked_and_free_again_when_it_is_closed(frame, household):
    path = household()
    frame.open_book(path)
    assert place(path).exists()
    frame.open_book(path)
    assert place(path).exists(), "opening it again keeps the mark"
    assert not frame.view.household.book.is_readonly
    frame.do("close_book")
    assert not place(path).exists()


def test_a_book_open_on_another_computer_is_only_read_and_says_who_has_it(frame, household):
    path = household()
    mark(path)
    frame.open_book(path)
    assert "open on the computer attic since 25 Nov 2026" in frame.bar.text
    assert frame.view.household.book.is_readonly
    added = frame.actions_by_key["add_event"][1]
    assert not added.isEnabled()
    assert "attic" in added.toolTip()
    assert frame.actions_by_key["export_packet"][1].isEnabled()
    frame.do("close_book")
    assert "attic" in place(path).read_text(), "another's mark stays"


def test_a_mark_that_another_computer_left_behind_can_be_taken_over(frame, household):
    path = household()
    mark(path)
    frame.open_book(path)
    frame.bar._do_then()
    assert not frame.view.household.book.is_readonly
    assert frame.actions_by_key["add_event"][1].isEnabled()
    assert frame.actions_by_key["add_event"][1].toolTip().startswith("Note a flood")


def test_a_second_window_on_this_computer_only_reads(frame, household):
    path = household()
    with another_window(path) as other:
        frame.open_book(path)
        assert "another window on this computer" in frame.bar.text
        assert not frame.bar._then.isVisible()
        assert frame.view.household.book.is_readonly
        other.communicate("\n")
    frame.open_book(path)
    assert not frame.view.household.book.is_readonly


def test_a_window_that_ended_without_closing_does_not_count(frame, household):
    path = household()
    with another_window(path) as other:
        other.kill()
    assert place(path).exists()
    frame.open_book(path)
    assert not frame.view.household.book.is_readonly


def test_a_half_written_mark_does_not_count(frame, household):
    path = household()
    place(path).write_text('{"computer": "ano')
    frame.open_book(path)
    assert not frame.view.household.book.is_readonly
    frame.do("close_book")
    assert not place(path).exists()


def test_a_book_whose_mark_can_t_be_laid_down_opens(frame, household):
    path = household()
    place(path).mkdir()
    frame.open_book(path)
    assert [well.name for well in frame.view.household.book.wells()]


def test_a_book_that_can_t_be_opened_is_not_left_marked(frame, tmp_path):
    path = tmp_path / "no.wellbook"
    path.write_bytes(b"not a book")
    frame.open_first(path)
    assert not place(path).exists()


def test_a_book_of_a_newer_version_is_only_read_with_its_word(frame, household):
    path = household()
    raw = sqlite3.connect(path)
    raw.execute("PRAGMA user_version = 99")
    raw.close()
    frame.open_book(path)
    assert "newer Wellbook" in frame.bar.text
    assert "newer Wellbook" in frame.actions_by_key["undo"][1].toolTip()


@pytest.fixture
def with_copy(household):
    """A household's book with a copy and one event that the copy lacks."""
    path = household()
    copies.make_copy(path, date(2026, 11, 20))
    with Book.open(path) as book:
        book.add_event(1, "flood", "2026-11-21", text="Creek over the bank")
    return path


def test_going_back_says_what_would_be_lost_and_keeps_the_book_aside(frame, with_copy, qtbot):
    frame.open_book(with_copy)
    frame.do("show_copies")
    dialog = dialog_of(frame, CopiesDialog)
    assert "gone with it" in dialog.warning.text(), "all on one disk"
    qtbot.waitUntil(dialog.back_button.isEnabled, timeout=5000)
    assert "made since that would be lost: 1" in dialog.preview.text()
    assert "event added" in dialog.preview.text()
    dialog.back_button.click()
    assert "lies in" in frame.bar.text
    texts = [event.text for event in frame.view.household.book.events()]
    assert "Creek over the bank" not in texts
    assert list(copies.folder_of(with_copy).glob("*set aside*"))


def test_a_copy_is_put_on_a_stick_in_one_step(frame, household, answers, tmp_path, qtbot):
    path = household()
    stick = tmp_path / "stick"
    stick.mkdir()
    answers.path = stick
    frame.open_book(path)
    frame.do("show_copies")
    dialog = dialog_of(frame, CopiesDialog)
    assert "no copy yet" in dialog.warning.text()
    dialog.elsewhere_button.click()
    qtbot.waitUntil(lambda: "reads back the same" in dialog.bar.text, timeout=10000)
    assert [copy.path.parent for copy in dialog.model.rows] == [stick]
    dialog.reject()


def spoil(path):
    """Break every page after the first, as a bad disk would."""
    content = bytearray(path.read_bytes())
    for at in range(4096, len(content)):
        content[at] = (content[at] * 7 + at) % 256
    path.write_bytes(bytes(content))


def test_a_damaged_book_offers_its_copies(frame, with_copy, qtbot):
    spoil(with_copy)
    frame.open_first(with_copy)
    assert frame.view is None
    assert "is damaged" in frame.bar.text
    frame.bar._do_then()
    dialog = dialog_of(frame, CopiesDialog)
    qtbot.waitUntil(dialog.back_button.isEnabled, timeout=5000)
    assert "can’t be read" in dialog.preview.text()
    assert not dialog.elsewhere_button.isVisible()
    dialog.back_button.click()
    assert frame.view is not None
    assert frame.view.overview.model.rowCount() > 5


def test_what_can_be_read_of_a_damaged_book_is_saved_into_a_new_one(
    frame, household, answers, tmp_path, qtbot
):
    path = household()
    raw = sqlite3.connect(path)
    root = raw.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'sample'").fetchone()[0]
    raw.close()
    content = bytearray(path.read_bytes())
    content[(root - 1) * 4096 : (root - 1) * 4096 + 100] = b"\xff" * 100
    path.write_bytes(bytes(content))
    frame.open_first(path)
    assert "is damaged" in frame.bar.text
    frame.bar._do_then()
    dialog = dialog_of(frame, CopiesDialog)
    answers.path = tmp_path / "saved.wellbook"
    dialog.rescue_button.click()
    qtbot.waitUntil(lambda: "entries were saved" in dialog.bar.text, timeout=10000)
    dialog.bar._do_then()
    assert frame.view.household.path == answers.path
    assert len(frame.view.household.book.samples()) > 3


def test_a_whole_book_is_looked_over_without_a_word(opened, qtbot):
    qtbot.waitUntil(lambda: opened.view.keeper.findings == (), timeout=20000)
    assert opened.bar.text == ""
    opened.do("check_book")
    qtbot.waitUntil(lambda: "The book is whole" in opened.bar.text, timeout=20000)


def test_a_fact_changed_outside_is_told_with_its_row(frame, household, qtbot):
    path = household()
    raw = sqlite3.connect(path)
    raw.execute("UPDATE result SET text = '0.1', number = '0.1' WHERE id = 3")
    raw.execute("UPDATE event SET day = '2031' WHERE id = 1")
    raw.commit()
    raw.close()
    frame.open_book(path)
    qtbot.waitUntil(lambda: "2 things were found" in frame.bar.text, timeout=20000)
    frame.bar._do_then()
    dialog = next(d for d in frame.findChildren(QDialog) if d.isVisible())
    shown = [dialog.list.item(row).text() for row in range(dialog.list.count())]
    assert any("Row 3 of result was changed outside Wellbook" in text for text in shown)
    dialog.reject()
