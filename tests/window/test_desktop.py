"""What people expect of a program on their desk: books again, size of text, print, help, about."""

import pypdfium2
import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QListWidget

from wellbook import __version__
from wellbook.support import examples
from wellbook.window.app.dropped import DropHint
from wellbook.window.app.main_window import Frame
from wellbook.window.dialogs.cases_dialog import CasesDialog
from wellbook.window.dialogs.help.about_dialog import parts
from wellbook.window.printing.sheets import PdfSheets, set_paper
from wellbook.window.widgets.splitter import Splitter

CONTROL = Qt.KeyboardModifier.ControlModifier

# Words of the window that a household does not know, by the count of a person who tried it.
UNEXPLAINED = (
    "panel",
    "basis",
    "reporting limit",
    "round",
    "raw and treated",
    "action level",
    "mann-kendall",
    "90 % interval",
    "p",
    "sha-256",
    "fingerprint",
    "40 cfr",
    "point",
    "standing",
    "trend",
)


def press(frame, key, modifiers=CONTROL):
    frame.activateWindow()
    QApplication.processEvents()
    QTest.keyClick(frame, key, modifiers)


def dialog_of(frame):
    QApplication.processEvents()
    return next(d for d in frame.findChildren(QDialog) if d.isVisible())


def test_a_closed_book_is_named_on_the_start_page_and_in_the_menu_and_opens_again(frame, household):
    frame.open_book(household())
    press(frame, Qt.Key.Key_W)
    (shown,) = [
        one
        for one in frame.first_page.findChildren(QListWidget)
        if one.accessibleName() == "Books that were open last"
    ]
    assert shown.item(0).text().startswith("alder-hollow, in ")
    recent = frame.actions_by_key["recent_books"][1].menu()
    recent.aboutToShow.emit()
    assert recent.actions()[0].text() == "&1 alder-hollow"
    QTest.keyClick(shown, Qt.Key.Key_Return)
    assert frame.view.household.path.stem == "alder-hollow"


def test_the_next_start_shows_the_page_that_was_left(reference, preferences, answers, household):
    path = household()
    for begin in ("go", "look"):
        frame = Frame(reference, preferences, answers, examples.known)
        frame.open_first(path)
        frame.show()
        if begin == "go":
            frame.view.show_parameter("nitrate")
        else:
            assert frame.view.page == "parameter"
            assert frame.view.at("parameter").title.text().startswith("Nitrate, ")
        frame.close()
        frame.deleteLater()


def test_what_is_dragged_over_the_window_is_named_until_it_leaves_or_is_let_go(opened, tmp_path):
    data, photo = QMimeData(), tmp_path / "report.jpg"
    data.setUrls([QUrl.fromLocalFile(str(photo))])
    there, copy, left = opened.rect().center(), Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    enter = QDragEnterEvent(there, copy, data, left, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(opened.windowHandle(), enter)
    (hint,) = opened.findChildren(DropHint)
    assert hint.isVisible()
    assert "report.jpg" in hint.text()
    assert opened.rect().contains(hint.geometry())
    QApplication.sendEvent(opened.windowHandle(), QDragLeaveEvent())
    assert not hint.isVisible()


def test_text_grows_by_key_and_wheel_with_all_that_is_measured_by_it(opened):
    usual = QApplication.font().pointSizeF()
    before = opened.view.overview.table.verticalHeader().defaultSectionSize()
    book, deeds = opened.view.household.book, opened.view.book_actions.taking_back.opened_at
    opened.do("go_tests")
    try:
        press(opened, Qt.Key.Key_Plus)
        press(opened, Qt.Key.Key_Equal)
        assert QApplication.font().pointSizeF() == pytest.approx(usual * 1.25)
        assert opened.view.overview.table.verticalHeader().defaultSectionSize() > before
        assert (opened.view.page, opened.view.household.book) == ("tests", book)
        assert opened.view.book_actions.taking_back.opened_at == deeds
        table = opened.view.at("tests").table.viewport()
        there = QPointF(table.mapTo(opened, table.rect().center()))
        QTest.wheelEvent(opened.windowHandle(), there, QPoint(0, -120), QPoint(), CONTROL)
        QApplication.processEvents()
        assert QApplication.font().pointSizeF() == pytest.approx(usual * 1.1)
    finally:
        press(opened, Qt.Key.Key_0)
    assert QApplication.font().pointSizeF() == usual


def test_what_to_do_next_is_shown_by_a_click_at_its_place(frame, household):
    frame.open_book(household("first-year"))
    QApplication.processEvents()
    button = frame.view.overview.answer.next_button
    place = button.mapTo(frame, button.rect().center())
    assert frame.childAt(place) is button
    QTest.mouseClick(
        frame.windowHandle(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place
    )
    QApplication.processEvents()
    shown = [dialog for dialog in frame.findChildren(CasesDialog) if dialog.isVisible()]
    assert len(shown) == 1
    shown[0].reject()


@pytest.mark.usefixtures("qapp")
def test_a_moved_bar_between_two_parts_stays_where_it_was_moved_to(
    reference, preferences, answers, household
):
    path, met = household(), []
    for is_first in (True, False):
        frame = Frame(reference, preferences, answers, examples.known)
        frame.resize(1280, 720)
        frame.open_first(path)
        frame.show()
        frame.do("go_tests")
        QApplication.processEvents()
        bar = frame.view.at("tests").findChild(Splitter)
        if is_first:
            handle = bar.handle(1)
            QTest.mousePress(handle, Qt.MouseButton.LeftButton)
            QTest.mouseMove(handle, handle.rect().center() + QPoint(0, 30))
            QTest.mouseRelease(handle, Qt.MouseButton.LeftButton)
            before = bar.sizes()
        met.append(bar.sizes()[0])
        frame.close()
        frame.deleteLater()
    assert met[0] == before[0]
    assert met[1] == pytest.approx(met[0], abs=2)


@pytest.mark.parametrize("size", [(1280, 720), (911, 512)])
def test_a_message_of_any_length_moves_nothing_on_the_page(opened, size):
    opened.resize(*size)
    for _unused in range(5):  # until everything has its place
        QApplication.processEvents()
    table = opened.view.overview.table
    before = (table.mapTo(opened, QPoint()), table.size())
    for sentence in ("Reading june.csv …", "The test of 7 October is kept. " * 12):
        opened.bar.say(sentence, "Open it")
        QApplication.processEvents()
        assert opened.bar.isVisible()
        assert (table.mapTo(opened, QPoint()), table.size()) == before
        foot = opened.centralWidget().mapTo(opened, QPoint(0, opened.centralWidget().height())).y()
        assert opened.bar.mapTo(opened, QPoint(0, opened.bar.height())).y() == foot
        words = opened.bar.findChild(QLabel)
        assert words.height() >= words.heightForWidth(words.width())  # nothing of it is cut


def on_paper(what, path, paper="a4"):
    """Pages and words of what was printed into a PDF file."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    set_paper(printer, paper, what)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    what.print_on(printer)
    with pypdfium2.PdfDocument(path) as printed:
        words = [
            printed[number].get_textpage().get_text_bounded() for number in range(len(printed))
        ]
        return [tuple(map(round, page.get_size())) for page in printed], " ".join(words)


def test_a_table_is_printed_with_its_heads_rows_and_where_it_comes_from(opened, tmp_path):
    opened.do("go_tests")
    pages, words = on_paper(opened.view.printing.sheets(), tmp_path / "tests.pdf")
    assert pages[0] == (842, 595)  # A4 on its side in points, ISO 216
    for word in ("Tests", "Sampled", "Lab", "alder-hollow.wellbook"):
        assert word in words


def test_a_chart_is_printed_with_its_table(opened, tmp_path):
    opened.view.show_parameter("nitrate")
    QApplication.processEvents()  # the chart is drawn once the page is there
    sheets = opened.view.printing.sheets()
    pages, words = on_paper(sheets, tmp_path / "chart.pdf", "letter")
    assert pages[0] == (792, 612)  # letter on its side in points
    assert sheets.title == "Nitrate"
    assert "14.2 mg/L as NO3" in " ".join(words.split())  # lines are broken where they must be
    with pypdfium2.PdfDocument(tmp_path / "chart.pdf") as printed:
        kinds = [item.type for item in printed[0].get_objects(max_depth=8)]
        assert pypdfium2.raw.FPDF_PAGEOBJ_IMAGE in kinds


def test_a_field_sheet_is_shown_before_it_is_printed_and_printed_as_large_as_the_paper(
    opened, qtbot, tmp_path
):
    opened.do("next_round")
    round_dialog = dialog_of(opened)
    qtbot.waitUntil(round_dialog.print_button.isEnabled, timeout=60000)
    QTest.mouseClick(round_dialog.print_button, Qt.MouseButton.LeftButton)
    preview = next(d for d in round_dialog.findChildren(QDialog) if d.isVisible())
    qtbot.waitUntil(lambda: preview.sheets.pageCount() > 0, timeout=60000)
    assert preview.told.text().startswith("Sheet 1 of ")
    pages, _words = on_paper(preview._what, tmp_path / "sheet.pdf", "letter")
    assert len(pages) == preview.sheets.pageCount()
    assert isinstance(preview._what, PdfSheets)
    folder = preview._what.path.parent
    QTest.keyClick(preview, Qt.Key.Key_Escape)
    assert not folder.exists()
    round_dialog.reject()


def test_about_names_the_version_and_a_licence_for_each_library(frame):
    frame.do("about")
    dialog = dialog_of(frame)
    assert __version__ in dialog.version.text()
    named = {part.name for part in dialog.model.rows}
    assert {"PySide6-Essentials", "matplotlib", "reportlab", "pypdfium2"} <= named
    assert all(part.version and part.licence for part in parts())
    dialog.reject()


def test_the_help_explains_every_word_that_people_asked_about_and_finds_it(frame):
    press(frame, Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier)
    dialog = dialog_of(frame)
    explained = [word.word.casefold() for word in dialog.model.rows]
    missing = [word for word in UNEXPLAINED if not any(word in one for one in explained)]
    assert missing == []
    QTest.keyClicks(dialog.search, "nitrate")
    assert 0 < dialog.model.rowCount() < len(explained)
    QTest.keyClick(dialog.search, Qt.Key.Key_Down)
    assert "nitrate" in dialog.meaning.text()
    dialog.reject()
