"""The review of a lab's file in the window: the file beside what was read, mended in place."""

import json
import shutil
from decimal import Decimal

import openpyxl
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QInputDialog
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas
from test_several_files import LEFT, choose_point, dialog, drop, said

from wellbook.support import paths
from wellbook.window.dialogs.draft import draft_rows
from wellbook.window.dialogs.draft.draft_dialog import DraftDialog

ROWS = [("Parameter", "Result", "Units"), ("Chloride", "27", "mg/L"), ("Mangenese", "1.2", "ug/L"),
        ("Turbidity", "see note", "")]  # fmt: skip
KEY = Qt.Key
INK, PAPER = 100, 250  # lightness of what is printed and of what is not


@pytest.fixture
def paper(tmp_path):
    def made(name, password="", rows=ROWS, turn=0):
        path = tmp_path / name
        lock = StandardEncryption(password, canPrint=1) if password else None
        page = Canvas(str(path), encrypt=lock)
        if turn:
            page.translate(595, 0)
            page.rotate(turn)
        page.drawString(60, 480, "Date collected: 2026-11-02")
        for i, row in enumerate(rows):
            for x, text in zip((60, 200, 300), row, strict=True):
                page.drawString(x, 440 - 18 * i, text)
        page.save()
        return path

    return made


@pytest.fixture
def sheet(tmp_path):
    def made(text, name="report.csv"):
        path = tmp_path / name
        path.write_text(text)
        return path

    return made


def review(opened, qtbot, path):
    drop(opened, path)
    shown = dialog(opened, qtbot, DraftDialog)
    qtbot.waitUntil(lambda: not shown.page.source.is_drawing, timeout=60000)
    return shown


def press(shown, key, times=1, modifier=Qt.KeyboardModifier.NoModifier):
    for _ in range(times):
        QTest.keyClick(QApplication.focusWidget() or shown, key, modifier)


def settle(shown):
    for _ in range(3):  # a field closes, tells what was typed, and the draft is shown anew
        QApplication.processEvents()
    shown.activateWindow()  # without a desktop nobody does that when a list was closed
    QApplication.processEvents()


def type_in(shown, text):
    """Mend the current cell with the keyboard alone."""
    press(shown, KEY.Key_F2)
    field = QApplication.focusWidget()
    QTest.keyClick(field, KEY.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(field, text)
    QTest.keyClick(QApplication.activePopupWidget() or field, KEY.Key_Return)
    settle(shown)
    if QApplication.focusWidget() is not shown.readings:
        press(shown, KEY.Key_Return)
        settle(shown)


def inks(page, box):
    """The darkest and the lightest ink inside of a box of the page."""
    image = QImage.fromData(page.png)
    left, top, right, bottom = map(round, page.pixels(box))
    found = [
        image.pixelColor(x, y).lightness() for x in range(left, right) for y in range(top, bottom)
    ]
    return min(found), max(found)


def test_a_pdf_is_read_its_doubt_is_decided_and_it_is_kept(opened, paper, qtbot):
    shown = review(opened, qtbot, paper("june.pdf"))
    assert "Taken: 3 of 3 figures." in shown.taken.text()
    press(shown, KEY.Key_F8)
    line = shown.readings.row()
    assert (line.new.name, line.name) == ("Mangenese", "Manganese")
    press(shown, KEY.Key_Space)
    assert shown.draft.samples[0].marks[1].is_certain
    press(shown, KEY.Key_F8)
    assert shown.readings.row().name == "Turbidity"
    press(shown, KEY.Key_Delete)
    assert "see note" in {left.what for left in shown.draft.not_taken}
    choose_point(shown)
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
    said(opened, qtbot, "1 test is kept from june.pdf.")


def test_nothing_is_kept_while_a_doubt_is_neither_decided_nor_left(opened, paper, qtbot):
    shown = review(opened, qtbot, paper("june.pdf"))
    choose_point(shown)
    assert not shown.keep_button.isEnabled()
    press(shown, KEY.Key_Return, modifier=Qt.KeyboardModifier.ControlModifier)
    assert shown.isVisible()
    box = shown.findChild(QCheckBox)
    QTest.mouseClick(shown.leave, LEFT, pos=QPoint(8, shown.leave.height() // 2))
    assert box is not None
    assert shown.keep_button.isEnabled()
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text


@pytest.mark.parametrize("turn", [0, 90])
def test_the_page_lights_where_the_reading_stands_and_a_press_finds_it(opened, paper, qtbot, turn):
    shown = review(opened, qtbot, paper("june.pdf", turn=turn))
    source = shown.page.source
    assert source.stack.currentWidget() is source.page
    page = source.page._page
    for mark in shown.draft.samples[0].marks:
        darkest, lightest = inks(page, mark.place.box)
        assert darkest < INK, "there is print in the box"
        assert lightest > PAPER
    shown.readings.pick(0)
    lit = source.page.lit
    paper_of = source.page.widget()
    last = page.pixels(shown.draft.samples[0].marks[2].place.box)
    middle = QPoint(round((last[0] + last[2]) / 2), round((last[1] + last[3]) / 2))
    QTest.mouseClick(paper_of, LEFT, pos=middle * paper_of.factor)
    assert shown.readings.row().new.name == "Turbidity"
    assert source.page.lit.top() > lit.top()
    shown.done(0)


def test_the_cells_of_a_table_stand_beside_its_readings(opened, sheet, qtbot):
    path = sheet("Sample date,Parameter,Result,Unit\n2026-11-02,Chloride,27,mg/L\n"
                 "2026-11-02,Iron,0.2,mg/L\n")  # fmt: skip
    shown = review(opened, qtbot, path)
    cells = shown.page.source.cells
    shown.readings.pick(1)
    assert cells.currentIndex().data() == "0.2"
    assert cells.model().headerData(2, Qt.Orientation.Horizontal) == "C"
    index = cells.model().index(1, 2)
    QTest.mouseClick(cells.viewport(), LEFT, pos=cells.visualRect(index).center())
    assert shown.readings.row().name == "Chloride"
    shown.done(0)


def test_the_text_of_a_mail_stands_beside_its_readings(opened, sheet, qtbot):
    text = "Dear Sir,\n\nDate collected: 2026-11-02\nNitrate: 4.2 mg/L as N\nIron: 0.2 mg/L\n"
    shown = review(opened, qtbot, sheet(text, "mail.txt"))
    view = shown.page.source.text
    shown.readings.pick(1)
    assert view.textCursor().block().text() == "Iron: 0.2 mg/L"
    shown.done(0)


def test_name_result_and_unit_are_mended_by_keyboard_and_taken_back(opened, sheet, qtbot):
    path = sheet("Sample date,Parameter,Result,Unit\n2026-11-02,Frobnium,27,mgl9\n")
    shown = review(opened, qtbot, path)
    assert not shown.keep_button.isEnabled()
    press(shown, KEY.Key_F8)
    type_in(shown, "Zinc")
    assert shown.draft.samples[0].sample.results[0].parameter == "zinc"
    press(shown, KEY.Key_F8)
    type_in(shown, "mg/L")
    press(shown, KEY.Key_Left)
    type_in(shown, "2.7")
    result = shown.draft.samples[0].sample.results[0]
    assert (result.reading.unit, result.reading.number) == ("mg/L", Decimal("2.7"))
    assert shown.draft.stops == ()
    press(shown, KEY.Key_Z, modifier=Qt.KeyboardModifier.ControlModifier)
    assert shown.draft.samples[0].sample.results[0].reading.number == 27
    shown.done(0)


def test_a_name_that_nobody_knows_is_said_and_changes_nothing(opened, sheet, qtbot):
    shown = review(
        opened, qtbot, sheet("Sample date,Parameter,Result,Unit\n2026-11-02,Iron,27,mg/L\n")
    )
    press(shown, KEY.Key_Left)
    type_in(shown, "Frobnium")
    assert "Frobnium" in shown.bar.text
    assert shown.readings.row().name == "Iron"
    shown.done(0)


def test_escape_in_a_cell_leaves_it_as_it_was_and_the_review_open(opened, sheet, qtbot):
    shown = review(
        opened, qtbot, sheet("Sample date,Parameter,Result,Unit\n2026-11-02,Iron,27,mg/L\n")
    )
    press(shown, KEY.Key_F2)
    QTest.keyClicks(QApplication.focusWidget(), "99")
    press(shown, KEY.Key_Escape)
    assert shown.isVisible()
    assert shown.readings.row().new.reading.text == "27"
    shown.done(0)


def test_over_for_the_first_time_is_said_before_it_is_kept_and_after(opened, sheet, qtbot):
    """Sodium chloride was never over before in this invented household; EPA 40 CFR 143.3: 250."""
    book = opened.view.household.book
    point = book.points()[0]
    assert max(r.reading.number for r in book.results(point.id, "chloride")) < 250
    path = sheet("Sample date,Parameter,Result,Unit\n2026-11-20,Chloride,262,mg/L\n")
    shown = review(opened, qtbot, path)
    choose_point(shown)
    column = [shown.readings_model.index(0, i).data() for i in range(5)]
    assert column[3] == "over 250 mg/L, first time"
    opened.do("go_tests")
    shown.accept()
    said = "is kept from {path.name}. Outside a limit: Chloride (for the first time)."
    assert said.format(path=path) in opened.bar.text, "and on whatever page it was kept"


def test_which_columns_are_the_household_s_water_is_asked_and_remembered(opened, sheet, qtbot):
    text = (
        "Collected,2026-11-02\nParameter,Units,Ours,Theirs\nArsenic,ug/L,3,10\nIron,mg/L,0.1,0.3\n"
    )
    shown = review(opened, qtbot, sheet(text))
    assert [box.text() for box in shown.page.columns.boxes] == ["Ours", "Theirs"]
    assert shown.page.state.text() == "", "the columns are left to decide"
    buttons = (shown.page.right, shown.page.skip, shown.page.not_mine)
    assert not any(button.isEnabled() for button in buttons), "there is no reading yet"
    box = shown.page.columns.boxes[0]
    QTest.mouseClick(box, LEFT, pos=QPoint(8, box.height() // 2))
    QTest.mouseClick(shown.page.columns.take, LEFT)
    qtbot.waitUntil(lambda: len(shown.draft.samples) == 1, timeout=60000)
    assert [r.reading.text for r in shown.draft.samples[0].sample.results] == ["3", "0.1"]
    assert shown.page.skip.isEnabled()
    assert not shown.page.change.isVisible(), "which tests were before it is not known yet"
    choose_point(shown)
    assert shown.page.change.text().startswith("Arsenic: ")
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
    kept = json.loads(opened.view.household.book.setting("lab_decisions"))
    assert kept["headings: Parameter; Units; Ours; Theirs"]["columns"] == {
        "Ours": True,
        "Theirs": False,
    }


def test_a_point_that_was_chosen_for_a_printed_one_is_offered_the_next_time(opened, sheet, qtbot):
    for day in ("2026-11-02", "2026-11-09"):
        text = f"Location,Sample date,Parameter,Result,Unit\nTap A,{day},Iron,0.2,mg/L\n"
        shown = review(opened, qtbot, sheet(text, f"{day}.csv"))
        [field] = shown.places.fields.values()
        if day == "2026-11-02":
            assert field.currentIndex() < 0
            choose_point(shown)
        assert field.currentIndex() == 0
        QTest.mouseClick(shown.keep_button, LEFT)
        assert not shown.isVisible(), shown.bar.text


def test_a_locked_pdf_asks_for_its_password_until_it_opens(opened, paper, qtbot):
    drop(opened, paper("locked.pdf", "willow"))
    for text in ("wrong", "willow"):
        asked = dialog(opened, qtbot, QInputDialog)
        asked.setTextValue(text)
        asked.accept()
        qtbot.waitUntil(
            lambda asked=asked: opened.view.book_actions.dialog is not asked, timeout=60000
        )
    shown = dialog(opened, qtbot, DraftDialog)
    assert shown.draft.source.name == "locked.pdf"
    qtbot.waitUntil(lambda: not shown.page.source.is_drawing, timeout=60000)
    assert shown.page.source.page._page.count == 1
    shown.done(0)


def test_a_day_that_the_file_does_not_tell_is_typed_in_place(opened, sheet, qtbot):
    shown = review(opened, qtbot, sheet("Parameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n"))
    assert not shown.keep_button.isEnabled()
    shown.page.head.day.setFocus()
    QTest.keyClicks(shown.page.head.day, "2026-11-02")
    QTest.keyClick(shown.page.head.day, KEY.Key_Tab)
    assert shown.keep_button.isEnabled()
    shown.done(0)


def test_the_names_of_the_readings_are_in_sight_in_a_small_window(opened, qtbot, tmp_path):
    file = next((paths.sample_wells() / "alder-hollow" / "to-add").glob("*.csv"))
    shown = review(opened, qtbot, shutil.copy(file, tmp_path))
    shown.resize(1000, 640)
    settle(shown)
    assert shown.readings.horizontalScrollBar().value() == 0
    assert shown.page.source.cells.horizontalScrollBar().value() == 0


def test_what_changed_since_the_test_before_is_said_before_it_is_kept(opened, qtbot, sheet):
    rows = (
        "Nitrate,11.9,mg/L as N,EPA 353.2,0.5",
        "Iron,0.27,mg/L,EPA 200.7,0.02",
        "Calcium,77,mg/L,,",
    )
    place = "2026-11-02,Tap at the pressure tank,Brackwater Labs"
    head = "Sample Date,Sample Point,Laboratory,Analyte,Result,Units,Method,Reporting Limit\n"
    shown = review(opened, qtbot, sheet(head + "\n".join(f"{place},{row}" for row in rows)))
    told = "\n".join(shown.finding_lines)
    assert "New in the latest test, 2 Nov 2026" in told
    assert (
        "Nitrate: Up by 2.7 mg/L as N since 7 Oct 2025, more than usual: the middle of 15 earlier "
        "steps is 0.5. Outside a limit for the first time. Another method: EPA 353.2, before EPA "
        "300.0." in told
    )
    assert told.count("Another lab: Brackwater Labs, before Quillfeather") == 1
    assert "Another reporting limit: Iron." in told
    assert shown.page.change.text().startswith("Nitrate: Up by 2.7 mg/L as N since 7 Oct 2025")
    press(shown, KEY.Key_Down)
    assert shown.page.change.text().startswith("Iron: Down by 0.013 mg/L since 7 Oct 2025, within")
    assert "Between the two: " in shown.page.change.text()
    choose_point(shown)
    assert shown.places.chosen("Tap at the pressure tank").name == "Kitchen tap"
    changed = "\n".join(shown.finding_lines)
    assert "Nitrate: Up by 2.7 mg/L as N since 7 Oct 2025" in changed
    assert "Iron: Up by" in changed, "held against the other point"
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text


def test_a_hidden_row_of_a_workbook_is_decided_before_it_is_kept(opened, tmp_path, qtbot):
    book = openpyxl.Workbook()
    book.active.append(["Parameter", "Result", "Unit", "Date collected"])
    for name, figure in (("Lead", 0.002), ("Iron", 0.1), ("Zinc", 0.2)):
        book.active.append([name, figure, "mg/L", "2026-05-13"])
    book.active.row_dimensions[3].hidden = True
    book.save(tmp_path / "results.xlsx")
    shown = review(opened, qtbot, tmp_path / "results.xlsx")
    choose_point(shown)
    assert not shown.keep_button.isEnabled()
    press(shown, KEY.Key_F8)
    line = shown.readings.row()
    assert line.name == "Iron"
    cells = {one.title: one.text(line) for one in draft_rows.reading_columns()}
    assert cells["To decide"] == "hidden row: still true?"
    press(shown, KEY.Key_Space)
    assert not [one for one in shown.draft.findings if one.key == "hidden_row"]
    QTest.mouseClick(shown.keep_button, LEFT)
    assert not shown.isVisible(), shown.bar.text
