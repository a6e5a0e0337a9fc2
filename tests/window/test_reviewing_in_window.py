"""The review of a lab's file in the window: what was taken, what is doubted, mended by hand."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QInputDialog
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas
from test_several_files import LEFT, choose_point, dialog, drop, said

from wellbook.window.dialogs.draft.draft_dialog import DraftDialog


@pytest.fixture
def paper(tmp_path):
    def made(name, password=""):
        path = tmp_path / name
        lock = StandardEncryption(password, canPrint=1) if password else None
        page = Canvas(str(path), encrypt=lock)
        page.drawString(60, 780, "Date collected: 2026-11-02")
        rows = [("Parameter", "Result", "Units"), ("Chloride", "27", "mg/L"),
                ("Mangenese", "1.2", "ug/L"), ("Turbidity", "see note", "")]  # fmt: skip
        for i, row in enumerate(rows):
            for x, text in zip((60, 200, 300), row, strict=True):
                page.drawString(x, 740 - 18 * i, text)
        page.save()
        return path

    return made


def test_a_pdf_is_read_its_doubt_is_decided_and_it_is_kept(opened, paper, qtbot):
    drop(opened, paper("june.pdf"))
    shown = dialog(opened, qtbot, DraftDialog)
    assert "Taken: 3 of 3 figures." in shown.taken.text() or "Taken: 2" in shown.taken.text()
    QTest.keyClick(shown, Qt.Key.Key_F8)
    line = shown.readings.row()
    assert (line.new.name, line.name) == ("Mangenese", "Manganese")
    QTest.mouseClick(shown.mending.right, LEFT)
    assert shown.draft.samples[0].marks[1].is_certain
    choose_point(shown)
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
    said(opened, qtbot, "1 test is kept from june.pdf.")


def test_a_locked_pdf_asks_for_its_password_until_it_opens(opened, paper, qtbot):
    drop(opened, paper("locked.pdf", "willow"))
    for text in ("wrong", "willow"):
        asked = dialog(opened, qtbot, QInputDialog)
        asked.setTextValue(text)
        asked.accept()
        qtbot.waitUntil(lambda asked=asked: opened.view.desk.dialog is not asked, timeout=60000)
    shown = dialog(opened, qtbot, DraftDialog)
    assert shown.draft.source.name == "locked.pdf"
    shown.done(0)


def test_a_day_that_the_file_does_not_tell_is_typed_in_place(opened, tmp_path, qtbot):
    path = tmp_path / "dayless.csv"
    path.write_text("Parameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n")
    drop(opened, path)
    shown = dialog(opened, qtbot, DraftDialog)
    assert not shown.keep_button.isEnabled()
    shown.readings.pick(0)
    shown.mending.day.setFocus()
    QTest.keyClicks(shown.mending.day, "2026-11-02")
    QTest.keyClick(shown.mending.day, Qt.Key.Key_Tab)
    assert shown.keep_button.isEnabled()
    shown.done(0)
