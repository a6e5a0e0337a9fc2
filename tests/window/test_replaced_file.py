"""A window whose file was replaced, moved or deleted says so, and hands over no other household.

A synchronising program is stood in for by what it does: it moves the file away and puts another
one under the same name.
"""

import shutil

import pytest
from PySide6.QtCore import Qt, QThreadPool
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QWidget

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.support import paths
from wellbook.window.dialogs.copies.copies_dialog import CopiesDialog
from wellbook.window.dialogs.round.round_dialog import RoundDialog
from wellbook.window.packet.packet_dialog import PacketDialog

CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
SAID = "another file lies in its place"


def press(widget, key, modifiers=CONTROL):
    widget.activateWindow()
    QTest.keyClick(widget, key, modifiers)


def click(button):
    assert button.isVisible()
    assert button.isEnabled()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def named(owner, text):
    return next(b for b in owner.findChildren(QPushButton) if text in b.text() and b.isVisible())


def settle(qtbot, frame):
    """Wait until the work of a book that was just opened is done."""
    qtbot.waitUntil(lambda: frame.view.keeper.findings is not None, timeout=60000)
    QThreadPool.globalInstance().waitForDone()
    qtbot.waitUntil(lambda: frame.view._dues is not None, timeout=60000)


def come_to_front(qtbot, frame):
    """Go to another window and come back, as a person does who looks at the file manager."""
    other = QWidget()
    qtbot.addWidget(other)
    other.show()
    other.activateWindow()
    qtbot.waitUntil(other.isActiveWindow)
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow)


def dialog_of(frame, kind):
    return next(d for d in frame.findChildren(kind) if d.isVisible())


@pytest.fixture
def replaced(opened, qtbot):
    """Shows one household; the file of another one was put in the place of its file."""
    settle(qtbot, opened)
    path = opened.view.household.path
    path.rename(path.with_suffix(".moved"))
    shutil.copyfile(paths.sample_wells() / "salt-lane.wellbook", path)
    return opened


def test_a_window_that_comes_to_the_front_says_that_its_file_was_replaced(replaced, qtbot):
    come_to_front(qtbot, replaced)
    assert SAID in replaced.bar.text
    click(named(replaced.bar, "Open it again"))
    with Book.open(paths.sample_wells() / "salt-lane.wellbook", readonly=True) as salted:
        assert replaced.view.household.book.wells() == salted.wells()
    assert replaced.view.household.book.is_in_place


def test_a_window_that_comes_to_the_front_says_that_its_file_is_gone(opened, qtbot):
    settle(qtbot, opened)
    opened.view.household.path.unlink()
    come_to_front(qtbot, opened)
    assert "it is gone" in opened.bar.text
    click(named(opened.bar, "Its copies…"))
    dialog_of(opened, CopiesDialog).reject()


def test_no_tables_of_another_household_are_written(replaced, answers, qtbot, tmp_path):
    answers.path = tmp_path / "tables"
    answers.path.mkdir()
    press(replaced, Qt.Key.Key_H, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: SAID in replaced.bar.text, timeout=60000)
    assert not list(answers.path.iterdir())


def test_no_packet_of_another_household_is_written(replaced, answers, qtbot, tmp_path):
    answers.path = tmp_path / "history.pdf"
    press(replaced, Qt.Key.Key_H)
    dialog = dialog_of(replaced, PacketDialog)
    click(dialog.write_button)
    qtbot.waitUntil(lambda: SAID in dialog.bar.text, timeout=60000)
    QThreadPool.globalInstance().waitForDone()
    assert not answers.path.exists()
    dialog.reject()


def test_no_round_of_another_household_is_shown(replaced, qtbot):
    press(replaced, Qt.Key.Key_R)
    dialog = dialog_of(replaced, RoundDialog)
    qtbot.waitUntil(lambda: SAID in dialog.bar.text, timeout=60000)
    assert dialog.round is None
    assert not dialog.sheet_button.isEnabled()
    dialog.reject()


def test_no_copy_of_another_household_is_made(replaced, answers, qtbot, tmp_path):
    answers.path = tmp_path / "stick"
    answers.path.mkdir()
    press(replaced, Qt.Key.Key_B)
    dialog = dialog_of(replaced, CopiesDialog)
    click(dialog.elsewhere_button)
    qtbot.waitUntil(lambda: SAID in dialog.bar.text, timeout=60000)
    assert not list(answers.path.iterdir())
    dialog.reject()


def test_a_file_of_the_lab_is_not_compared_with_another_household(replaced, answers, qtbot):
    answers.paths = sorted((paths.sample_wells() / "alder-hollow" / "to-add").iterdir())[:1]
    press(replaced, Qt.Key.Key_L)
    qtbot.waitUntil(lambda: SAID in replaced.bar.text, timeout=60000)
    assert replaced.view.book_actions.dialog is None


def test_what_is_looked_over_is_the_book_that_is_shown(replaced, qtbot):
    press(replaced, Qt.Key.Key_K)
    qtbot.waitUntil(lambda: SAID in replaced.bar.text, timeout=60000)


def test_nothing_of_a_packet_is_taken_into_another_household(replaced, answers, qtbot, tmp_path):
    answers.path = tmp_path / "history.pdf"
    view = replaced.view
    packet.write(
        view.household.record,
        view.household.catalogue,
        answers.path,
        packet.PacketOptions("buyer"),
        today=view.household.today,
    )
    before = view.household.path.read_bytes()
    press(replaced, Qt.Key.Key_I)
    dialog = replaced.reception.dialog
    qtbot.waitUntil(lambda: SAID in dialog.bar.text, timeout=60000)
    assert not dialog.way.isVisible()
    assert view.household.path.read_bytes() == before
    dialog.reject()
