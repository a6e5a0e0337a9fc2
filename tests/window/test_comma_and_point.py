"""Figures and days on the screen and from the keyboard, as three countries would have them."""

import re
from decimal import Decimal

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDateTimeEdit, QLabel

from wellbook.window.dialogs.correct_dialogs import CorrectResultDialog
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog

CONTROL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
MONTHS = {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}


@pytest.fixture(params=["de_DE", "es_ES", "en_US"], autouse=True)
def country(request):
    before = QLocale()
    QLocale.setDefault(QLocale(request.param))
    yield request.param
    QLocale.setDefault(before)


def typed(opened, result, limit=""):
    """Type one line of a paper report."""
    opened.activateWindow()
    QTest.keyClick(opened, Qt.Key.Key_T, CONTROL)
    dialog = opened.view.book_actions.dialog
    assert isinstance(dialog, ByHandDialog)
    dialog.day.setText("2026-11-10")
    line = dialog.lines.rows[0]
    for field, text in ((line.parameter, "Chloride"), (line.result, result), (line.limit, limit)):
        field.setFocus()
        QTest.keyClicks(field, text)
    return dialog, line


def keep(dialog):
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    if dialog.isVisible():  # odd figures are asked about once
        QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)


def newest(opened):
    return max(opened.view.household.book.results(), key=lambda result: result.id)


def shown(window):
    """Every word of the window that is seen: cells and labels."""
    window.view.overview.search.setText("Chloride")  # many parameters are folded
    texts = [label.text() for label in window.findChildren(QLabel) if label.isVisible()]
    for model in (window.view.overview.model, window.view.at("tests").model):
        texts += [
            str(model.index(row, column).data())
            for row in range(model.rowCount())
            for column in range(model.columnCount())
        ]
    return texts


def test_a_decimal_comma_is_read_and_shown_with_a_point(opened):
    dialog, line = typed(opened, "0,71")
    assert line.understood.text() == "0.71 mg/L"
    keep(dialog)
    assert not dialog.isVisible(), dialog.bar.text
    assert newest(opened).reading.number == Decimal("0.71")
    assert newest(opened).reading.text == "0,71"
    assert "0.71 mg/L" in shown(opened)
    assert "0,71 mg/L" not in shown(opened)


def test_a_decimal_point_is_read_and_shown_with_a_point(opened):
    dialog, line = typed(opened, "1.234")
    assert line.understood.text() == "1.234 mg/L"
    keep(dialog)
    assert newest(opened).reading.number == Decimal("1.234")


def test_a_figure_that_can_be_either_is_asked_about_and_not_kept(opened):
    before = newest(opened)
    dialog, line = typed(opened, "1,234")
    assert line.understood.text() == "1.234 or 1234?"
    assert line.comma.isVisible()
    keep(dialog)
    assert dialog.isVisible()
    assert "1.234 or 1234" in dialog.bar.text
    assert newest(opened) == before
    dialog.done(0)


@pytest.mark.parametrize(("down", "number"), [(1, "1.234"), (2, "1234")])
def test_a_figure_that_can_be_either_is_kept_as_it_was_chosen(opened, down, number):
    dialog, line = typed(opened, "1,234")
    line.comma.setFocus()
    for _ in range(down):
        QTest.keyClick(line.comma, Qt.Key.Key_Down)
    assert line.understood.text() == f"{number} mg/L"
    keep(dialog)
    assert not dialog.isVisible(), dialog.bar.text
    assert newest(opened).reading.number == Decimal(number)
    assert newest(opened).reading.text == "1,234"


def test_another_figure_is_asked_about_anew(opened):
    dialog, line = typed(opened, "1,234")
    line.comma.setFocus()
    QTest.keyClick(line.comma, Qt.Key.Key_Down)
    line.result.setFocus()
    line.result.selectAll()
    QTest.keyClicks(line.result, "2,345")
    assert line.understood.text() == "2.345 or 2345?"
    dialog.done(0)


def test_a_reporting_limit_with_a_comma_is_understood(opened):
    dialog, line = typed(opened, "ND", "0,5")
    assert line.understood.text() == "not detected, below 0.5 mg/L"
    keep(dialog)
    assert newest(opened).reading.number == Decimal("0.5")
    assert newest(opened).reporting_limit == "0.5"


def test_a_correction_of_another_field_leaves_the_figure_as_it_was_understood(opened):
    dialog, line = typed(opened, "1,234")
    line.comma.setFocus()
    QTest.keyClick(line.comma, Qt.Key.Key_Down)
    keep(dialog)
    book, kept = opened.view.household.book, newest(opened)
    opened.view.book_actions.correct_reading(book.sample(kept.sample), kept)
    dialog = opened.view.book_actions.dialog
    assert isinstance(dialog, CorrectResultDialog)
    assert dialog.line.understood.text() == "1.234 mg/L"
    dialog.line.limit.setFocus()
    QTest.keyClicks(dialog.line.limit, "0,1")
    QTest.keyClicks(dialog.reason, "limit was missing")
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible(), dialog.bar.text
    assert book.results(sample=kept.sample)[0].reading.number == Decimal("1.234")


def test_a_correction_asks_about_a_figure_that_can_be_either(opened):
    book = opened.view.household.book
    result = next(one for one in book.results() if one.parameter == "chloride")
    opened.view.book_actions.correct_reading(book.sample(result.sample), result)
    dialog = opened.view.book_actions.dialog
    dialog.line.result.setFocus()
    dialog.line.result.selectAll()
    QTest.keyClicks(dialog.line.result, "1,234")
    QTest.keyClicks(dialog.reason, "misread")
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    assert "1.234 or 1234" in dialog.bar.text
    assert dialog.isVisible()
    dialog.done(0)


def test_every_day_and_figure_on_the_screen_is_in_the_language_of_the_window(opened, qtbot):
    opened.activateWindow()
    for key in (Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_0, Qt.Key.Key_1):
        QTest.keyClick(opened, key, ALT)
        qtbot.waitExposed(opened)
    texts = shown(opened)
    months = {
        found
        for text in texts
        for pattern in (r"\b\d{1,2} (\w+)\.? \d{4}\b", r"\b(\w+)\.? \d{1,2}, \d{4}\b")
        for found in re.findall(pattern, text)
    }
    assert months
    assert months <= MONTHS | {"June", "July"}
    figures = [text for text in texts if re.fullmatch(r"[<>]?\d+,\d+( .*)?", text)]
    assert not [text for text in figures if not re.match(r"[<>]?\d{1,3},\d{3}\b", text)]


def test_every_field_for_a_day_names_the_month_in_the_language_of_the_window(opened):
    opened.activateWindow()
    QTest.keyClick(opened, Qt.Key.Key_E, CONTROL)
    dialog = opened.view.book_actions.dialog
    fields = dialog.findChildren(QDateTimeEdit)
    assert fields
    assert all(field.locale().language() is QLocale.Language.English for field in fields)
    dialog.done(0)
    QTest.keyClick(opened, Qt.Key.Key_0, ALT)
    for field in opened.view.at("changes").findChildren(QDateTimeEdit):
        assert re.search(r"[A-Z][a-z]{2}", field.text())[0] in MONTHS
