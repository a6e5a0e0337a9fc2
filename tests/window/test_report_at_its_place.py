"""From a reading to the line of the report in which it stands."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from reportlab.pdfgen.canvas import Canvas
from test_several_files import LEFT, choose_point, click, dialog, drop

from wellbook.window.app.book_pages import Page
from wellbook.window.dialogs.draft.draft_dialog import DraftDialog
from wellbook.window.dialogs.report.report_dialog import ReportDialog
from wellbook.window.pages.sample_rows import reading_columns

ROWS = [("Parameter", "Result", "Units"), ("Chloride", "27", "mg/L"), ("Lead", "19", "ug/L")]


@pytest.fixture
def paper(tmp_path):
    path = tmp_path / "june.pdf"
    page = Canvas(str(path))
    page.drawString(60, 700, "A page before the table")
    page.showPage()
    page.drawString(60, 480, "Date collected: 2026-11-02")
    for i, row in enumerate(ROWS):
        for x, text in zip((60, 200, 300), row, strict=True):
            page.drawString(x, 440 - 18 * i, text)
    page.save()
    return path


def keep(opened, qtbot, path):
    drop(opened, path)
    shown = dialog(opened, qtbot, DraftDialog)
    qtbot.waitUntil(lambda: not shown.page.source.is_drawing, timeout=60000)
    choose_point(shown)
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
    QApplication.processEvents()


def page_of_tests(opened):
    opened.view.go(Page.TESTS)
    QApplication.processEvents()
    page = opened.view.pages.currentWidget()
    page.table.pick(0)
    return page


def pick(page, name):
    line = next(i for i, row in enumerate(page.readings_model.rows) if row.result.name == name)
    page.readings.pick(line)


def test_page_and_line_are_told_and_open_the_report_there(opened, paper, qtbot):
    keep(opened, qtbot, paper)
    page = page_of_tests(opened)
    pick(page, "Lead")
    line = page.readings.row()
    assert reading_columns()[-1].text(line) == "page 2, line 4"
    click(page, "Show it in the report…")
    (shown,) = opened.findChildren(ReportDialog)
    qtbot.waitUntil(lambda: not shown.source.is_drawing, timeout=60000)
    assert "page 2 of 2" in shown.source.title.text()
    assert shown.source.page.lit is not None
    assert "Lead: 19 ug/L, page 2, line 4" in shown.said.text()
    QTest.keyClick(shown, Qt.Key.Key_Escape)
    assert not shown.isVisible()


def test_a_cell_of_a_table_is_shown_as_the_lab_sent_it(opened, tmp_path, qtbot):
    path = tmp_path / "june.csv"
    path.write_text("Date,Parameter,Result,Units\n2026-11-02,Lead,19,ug/L\n")
    keep(opened, qtbot, path)
    page = page_of_tests(opened)
    pick(page, "Lead")
    page.readings.setFocus()
    QTest.keyClick(page.readings, Qt.Key.Key_Return)
    (shown,) = opened.findChildren(ReportDialog)
    cells = shown.source.cells
    qtbot.waitUntil(lambda: cells.model() is not None, timeout=20000)
    assert cells.currentIndex().data() == "19"
    QTest.keyClick(shown, Qt.Key.Key_Escape)


def test_a_typed_reading_without_a_report_has_nothing_to_show(opened):
    page = page_of_tests(opened)
    for line in range(len(page.model.rows)):
        page.table.pick(line)
        if page.model.rows[line].documents == 0:
            page.readings.pick(0)
            assert not page.report_button.isEnabled()
            return
