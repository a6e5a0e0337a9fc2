"""Files dropped on the window: each is named, none is lost, and a report leads on to typing."""

import shutil

import hostile
import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QThreadPool, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from reportlab.pdfgen.canvas import Canvas

from wellbook.support import paths as places
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog
from wellbook.window.dialogs.draft.draft_dialog import DraftDialog

COPY, LEFT, NONE = (
    Qt.DropAction.CopyAction,
    Qt.MouseButton.LeftButton,
    Qt.KeyboardModifier.NoModifier,
)


def drop(frame, *paths):
    """Drop files on the middle of the window, as a file manager does."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    middle = frame.rect().center()
    entered = QDragEnterEvent(middle, COPY, data, LEFT, NONE)
    QApplication.sendEvent(frame, entered)
    assert entered.isAccepted()
    dropped = QDropEvent(QPointF(middle), COPY, data, LEFT, NONE)
    QApplication.sendEvent(frame, dropped)
    QApplication.processEvents()


def click(owner, text):
    found = [b for b in owner.findChildren(QPushButton) if text in b.text() and b.isVisible()]
    assert found, f"no button {text!r} is visible"
    QTest.mouseClick(found[0], LEFT)


def dialog(frame, qtbot, kind):
    qtbot.waitUntil(lambda: isinstance(frame.view.book_actions.dialog, kind), timeout=60000)
    return frame.view.book_actions.dialog


def said(frame, qtbot, *names):
    qtbot.waitUntil(lambda: all(name in frame.bar.text for name in names), timeout=60000)
    return frame.bar.text


@pytest.fixture
def report(tmp_path):
    def made(name):
        path = tmp_path / name
        page = Canvas(str(path))
        page.drawString(72, 720, "The water is as it was last year.")
        page.save()
        return path

    return made


@pytest.fixture
def table(tmp_path):
    def made(name, day):
        path = tmp_path / name
        path.write_text(f"Sample date,Parameter,Result,Unit\n{day},Arsenic,0.9,µg/L\n")
        return path

    return made


def test_reading_can_be_stopped_and_what_was_not_read_is_named(opened, table, tmp_path, qtbot):
    slow = tmp_path / "slow.pdf"
    slow.write_bytes(hostile.slow_contents())
    drop(opened, slow, table("one.csv", "2026-03-02"))
    said(opened, qtbot, "Reading slow.pdf")
    click(opened.bar, "Stop reading")
    assert "not read: slow.pdf, one.csv" in opened.bar.text
    qtbot.waitUntil(lambda: not QThreadPool.globalInstance().activeThreadCount(), timeout=4000)
    assert opened.view.book_actions.dialog is None


def choose_point(shown):
    [field] = shown.places.fields.values()
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down)


def test_two_tables_are_reviewed_one_after_the_other_and_both_are_named(opened, table, qtbot):
    before = len(opened.view.household.book.samples())
    drop(opened, table("one.csv", "2026-11-02"), table("two.csv", "2026-11-03"))
    for name in ("one.csv", "two.csv"):
        shown = dialog(opened, qtbot, DraftDialog)
        assert shown.draft.source.name == name
        choose_point(shown)
        QTest.mouseClick(shown.keep_button, LEFT)
        assert not shown.isVisible(), shown.bar.text
    assert len(opened.view.household.book.samples()) == before + 2
    said(opened, qtbot, "1 test is kept from one.csv.", "1 test is kept from two.csv.")


def test_two_reports_are_both_named_and_typed_in_one_after_the_other(opened, report, qtbot):
    drop(opened, report("june.pdf"), report("july.pdf"))
    said(opened, qtbot, "june.pdf", "july.pdf", "type them in")
    for name, left in (("june.pdf", "july.pdf"), ("july.pdf", "")):
        click(opened.bar, f"Type in {name}…")
        shown = dialog(opened, qtbot, ByHandDialog)
        assert shown.attached.text() == name
        QTest.keyClick(shown, Qt.Key.Key_Escape)
        shown.done(0)
        assert left in opened.bar.text
    assert opened.bar.text == ""


def test_a_report_is_kept_beside_the_test_that_is_typed_from_it(opened, report, qtbot):
    drop(opened, report("june.pdf"))
    said(opened, qtbot, "june.pdf", "type them in")
    click(opened.bar, "Type in june.pdf…")
    shown = dialog(opened, qtbot, ByHandDialog)
    shown.day.setText("2026-11-10")
    line = shown.lines.rows[0]
    for field, text in ((line.parameter, "Chloride"), (line.result, "12")):
        field.setFocus()
        QTest.keyClicks(field, text)
    QTest.mouseClick(shown.keep_button, LEFT)
    if shown.isVisible():
        QTest.mouseClick(shown.keep_button, LEFT)
    book = opened.view.household.book
    newest = max(sample.id for sample in book.samples())
    assert [document.name for document in book.documents(sample=newest)] == ["june.pdf"]


def test_a_report_beside_a_table_is_offered_after_the_table_was_kept(opened, report, table, qtbot):
    drop(opened, report("june.pdf"), table("one.csv", "2026-11-02"))
    shown = dialog(opened, qtbot, DraftDialog)
    choose_point(shown)
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
    said(opened, qtbot, "1 test is kept from one.csv.", "june.pdf")
    click(opened.bar, "Type in june.pdf…")
    dialog(opened, qtbot, ByHandDialog).done(0)


def test_a_photo_is_offered_for_typing(opened, tmp_path, qtbot):
    photo = tmp_path / "report.jpg"
    photo.write_bytes(b"\xff\xd8\xff\xe0 no real picture")
    drop(opened, photo)
    said(opened, qtbot, "report.jpg", "type them in")
    click(opened.bar, "Type in report.jpg…")
    dialog(opened, qtbot, ByHandDialog).done(0)


def test_two_files_that_cannot_be_read_are_both_named(opened, tmp_path, qtbot):
    files = [tmp_path / "notes.txt", tmp_path / "letter.txt"]
    for file in files:
        file.write_text("Dear neighbour,\nthe water is fine.\n")
    drop(opened, *files)
    said(opened, qtbot, "notes.txt", "letter.txt")


def test_what_is_dropped_beside_a_book_is_named(frame, household, table, qtbot):
    drop(frame, household(), table("one.csv", "2026-11-02"))
    said(frame, qtbot, "one.csv", "Not taken")
    assert frame.view is not None


def test_a_second_book_is_named(frame, household, tmp_path, qtbot):
    second = tmp_path / "other.wellbook"
    shutil.copyfile(places.sample_wells() / "salt-lane.wellbook", second)
    drop(frame, household(), second)
    said(frame, qtbot, "other.wellbook", "Not taken")


def test_files_dropped_without_a_book_are_named(frame, table, report, qtbot):
    drop(frame, table("one.csv", "2026-11-02"), report("june.pdf"))
    said(frame, qtbot, "Start a new book, or open one", "one.csv", "june.pdf")


def test_files_dropped_without_a_book_wait_for_the_one_that_was_open_last(
    frame, household, table, qtbot
):
    frame.open_book(household())
    frame.close_book()
    drop(frame, table("one.csv", "2026-11-02"))
    said(frame, qtbot, "Into which book?", "one.csv")
    click(frame.bar, "Open alder-hollow")
    dialog(frame, qtbot, DraftDialog).discard()
