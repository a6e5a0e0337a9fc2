"""A paper report of twelve results is typed beside its page; every action is counted."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from reportlab.pdfgen.canvas import Canvas
from shiboken6 import isValid
from test_several_files import LEFT, click, dialog, drop, said

from wellbook.book.rows import NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog
from wellbook.window.dialogs.draft.draft_findings import HandChanges

KEY = Qt.Key
MOST = 55  # actions
# Invented figures; names as reports print them.
LINES = (
    ("Nitrate", "3.1"), ("Iron", "0.2"), ("Manganese", "0.01"), ("Lead", "1.2"), ("Copper", "0.3"),
    ("Arsenic", "<1"), ("Chloride", "21"), ("Sulfate", "18"), ("Sodium", "14"), ("Fluoride", "0.3"),
    ("pH", "7.4"), ("Zinc", "0.05"),
)  # fmt: skip


class Hands:
    """Keyboard and mouse; each word typed, key pressed and button clicked is one action."""

    def __init__(self):
        self.actions = 0

    def write(self, text):
        self.actions += 1
        QTest.keyClicks(QApplication.focusWidget(), text)
        QApplication.processEvents()

    def press(self, key, modifier=Qt.KeyboardModifier.NoModifier):
        self.actions += 1
        while (offered := QApplication.activePopupWidget()) is not None:
            offered.close()  # a desktop closes it when the keyboard goes elsewhere
        QTest.keyClick(QApplication.focusWidget(), key, modifier)
        QApplication.processEvents()

    def click(self, button):
        self.actions += 1
        QTest.mouseClick(button, LEFT)
        QApplication.processEvents()


@pytest.fixture
def page(tmp_path):
    """A report in which no table can be read."""
    path = tmp_path / "spring.pdf"
    canvas = Canvas(str(path))
    canvas.drawString(72, 720, "The water is as it was last year.")
    canvas.save()
    return path


def begun(opened, qtbot, page, hands):
    """The dialog beside the page, as a dropped file leads there."""
    drop(opened, page)
    hands.actions += 1
    said(opened, qtbot, "type them in")
    click(opened.bar, "Type in spring.pdf…")
    hands.actions += 1
    typing = dialog(opened, qtbot, ByHandDialog)
    typing.activateWindow()
    qtbot.waitUntil(lambda: not typing.beside.source.is_drawing, timeout=60000)
    assert typing.beside.isVisible()
    assert typing.beside.source.title.text() == "spring.pdf, page 1 of 1"
    assert not typing.beside.next_button.isVisible(), "there is no other page to leaf to"
    assert typing.day.text() == "", "no day stands there before it is typed"
    assert QApplication.focusWidget() is typing.day
    return typing


def finish(typing, hands):
    hands.press(KEY.Key_Return, Qt.KeyboardModifier.ControlModifier)
    if isValid(typing) and typing.isVisible():
        assert typing.keep_button.text() == "Keep it all the same", typing.bar.text
        hands.press(KEY.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert not (isValid(typing) and typing.isVisible())


def kept(opened):
    newest = max(opened.view.household.book.samples(), key=lambda sample: sample.id)
    return newest, opened.view.household.book.results(sample=newest.id)


def test_a_report_of_a_lab_that_is_not_known_yet(opened, qtbot, page):
    hands = Hands()
    typing = begun(opened, qtbot, page, hands)
    hands.write("2026-11")
    for place, (name, figure) in enumerate(LINES):
        row = typing.lines.rows[place]
        if place == 0:
            hands.click(row.parameter.lineEdit())
        assert QApplication.focusWidget() is row.parameter
        hands.write(name)
        hands.press(KEY.Key_Tab)
        assert QApplication.focusWidget() is row.result, "Tab goes to the figure"
        hands.write(figure)
        if name == "Nitrate":
            hands.press(KEY.Key_Tab)
            assert QApplication.focusWidget() is row.basis, "the basis is asked"
            hands.write("as N")
        hands.press(KEY.Key_Return)
    finish(typing, hands)
    sample, results = kept(opened)
    assert sample.collected.iso() == "2026-11"
    assert [(r.name, r.reading.text) for r in results] == list(LINES)
    assert results[0].reading.basis == "as N"
    assert hands.actions <= MOST, hands.actions


def test_the_page_stays_in_sight_however_many_lines_there_are(opened, qtbot, page):
    typing = begun(opened, qtbot, page, Hands())
    for place in range(20):
        row = typing.lines.rows[place]
        row.result.setFocus()
        QTest.keyClicks(row.result, "1")
        QApplication.processEvents()
    assert typing.area.verticalScrollBar().maximum() == 0
    assert typing.sheet.verticalScrollBar().maximum() > 0
    middle = row.result.mapTo(typing.sheet.viewport(), row.result.rect().center())
    assert typing.sheet.viewport().rect().contains(middle), "what is typed in is in sight, too"
    typing.discard()


def test_another_file_is_shown_in_place_of_the_first_and_leafed_through(opened, qtbot, page):
    typing = begun(opened, qtbot, page, Hands())
    other = page.with_name("summer.pdf")
    canvas = Canvas(str(other))
    for said_there in ("one", "two"):
        canvas.drawString(72, 720, said_there)
        canvas.showPage()
    canvas.save()
    typing.beside.show_file(other)
    title = typing.beside.source.title
    for number, button in ((1, "next_button"), (2, "back_button")):
        qtbot.waitUntil(
            lambda n=number: f"summer.pdf, page {n} of 2" in title.text(), timeout=60000
        )
        free = [typing.beside.back_button.isEnabled(), typing.beside.next_button.isEnabled()]
        assert free == [number == 2, number == 1]
        QTest.mouseClick(getattr(typing.beside, button), LEFT)
    typing.discard()


def test_the_lines_of_the_lab_s_last_test_are_offered(opened, qtbot, page):
    book = opened.view.household.book
    old = book.results()
    panel = [r for r in old if r.sample == max(old, key=lambda r: r.collected.order()).sample]
    lab = "Hollin Ridge Analytical"
    book.add_sample(
        NewSample(
            book.points()[0].id, LocalTime.parse("2025-11-02"), lab=lab,
            results=tuple(new(name, figure) for name, figure in LINES),
        )
    )  # fmt: skip
    assert panel
    hands = Hands()
    typing = begun(opened, qtbot, page, hands)
    hands.write("2026-11-10")
    hands.press(KEY.Key_Tab)
    hands.write(lab)
    hands.click(typing.offer_button)
    for place, (_name, figure) in enumerate(LINES):
        assert QApplication.focusWidget() is typing.lines.rows[place].result
        hands.write(figure)
        hands.press(KEY.Key_Tab if place % 2 else KEY.Key_Return)
    finish(typing, hands)
    _sample, results = kept(opened)
    assert [(r.name, r.reading.text) for r in results] == list(LINES)
    assert hands.actions <= 35, hands.actions


def new(name, figure):
    from wellbook.book.rows import NewResult
    from wellbook.water.parsing.printed import read_reading

    basis = "as N" if name == "Nitrate" else ""
    return NewResult("", name, read_reading(figure, unit="mg/L", basis=basis))


def test_the_wheel_changes_nothing_and_escape_asks(opened, qtbot, page):
    typing = begun(opened, qtbot, page, Hands())
    row = typing.lines.rows[0]
    QTest.keyClicks(row.parameter, "Iron")
    for field in (row.unit, row.basis, typing.point, typing.purpose, typing.lab):
        field.setFocus()
        before = field.currentText()
        wheel = QWheelEvent(
            QPointF(5, 5), QPointF(field.mapToGlobal(QPoint(5, 5))), QPoint(), QPoint(0, -120),
            Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase, False,  # noqa: FBT003  not inverted
        )  # fmt: skip
        QApplication.sendEvent(field, wheel)
        assert field.currentText() == before
    QTest.keyClick(typing, KEY.Key_Escape)
    assert typing.isVisible()
    assert "not kept yet" in typing.bar.text
    typing.discard()


def test_a_usual_figure_is_told_too_while_it_is_typed(opened):
    household = opened.view.household
    nitrate = household.catalogue.parameters["nitrate"]
    point = household.record.points[0].id
    usual = NewResult("nitrate", "Nitrate", read_reading("9.3", unit="mg/L", basis="as N"))
    told = HandChanges(household).said(point, "2026-10-01", [usual], nitrate)
    assert told.startswith("Nitrate: Up by 0.1 mg/L as N")
    assert HandChanges(household).said(point, "2026-1", [usual], nitrate) == ""


def typed(opened, qtbot, *lines, day="2026-11-11"):
    """The dialog without a page, with a day and lines as a person types them."""
    opened.view.book_actions.add_by_hand()
    typing = dialog(opened, qtbot, ByHandDialog)
    typing.activateWindow()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is typing.day)
    hands = Hands()
    hands.write(day)
    for place, (name, figure) in enumerate(lines):
        for field, text in zip(typing.lines.rows[place].fields, (name, figure), strict=False):
            typing.activateWindow()  # without a desktop nobody does that when a list was closed
            field.setFocus()
            QTest.keyClicks(field, text)
            hands.press(KEY.Key_Tab)
    return typing


def test_what_no_limit_is_held_against_is_asked_before_it_is_kept(opened, qtbot):
    lines = (("Iron", "0,,5"), ("Blorbium", "3"), ("Zinc", "0.3"), ("Zinc", "3"), ("Tin", ""))
    typing = typed(opened, qtbot, *lines, day="1826-11-11")
    QTest.mouseClick(typing.keep_button, LEFT)
    assert typing.bar.text == "Line 5 needs a parameter and a result as printed."
    typing.lines.rows[4].parameter.setCurrentText("")
    QTest.mouseClick(typing.keep_button, LEFT)
    for asked in (
        "Iron: “0,,5” is not understood",
        "“Blorbium” is no parameter that Wellbook knows",
        "Zinc stands here twice: 0.3 mg/L and 3 mg/L.",
        "11 Nov 1826 is more than 100 years ago.",
    ):
        assert asked in typing.bar.text
    QTest.mouseClick(typing.keep_button, LEFT)
    said(opened, qtbot, "is kept.")
    _sample, results = kept(opened)
    # While it was typed it was B for a while: boron, in mg/L.
    assert [(r.name, r.reading.unit) for r in results][1] == ("Blorbium", "")


def test_what_is_outside_a_limit_is_said_when_it_is_kept(opened, qtbot):
    # 40 CFR 141.80: the action level of lead is 15 µg/L; 40 CFR 141.52: no E. coli.
    typing = typed(opened, qtbot, ("Lead", "90"), ("Zinc", "0.1"), ("E. coli", "Present"))
    QTest.mouseClick(typing.keep_button, LEFT)
    said(opened, qtbot, "is kept. Outside a limit: Lead (for the first time), E. coli.")


def test_what_a_typed_figure_changes_is_in_sight_below_many_lines(opened, qtbot):
    typing = typed(opened, qtbot, *LINES, ("Turbidity", "0.3"), ("E. coli", "Present"))
    assert typing.area.verticalScrollBar().maximum() > 0
    assert "E. coli: Found" in typing.changed.text()
    assert not typing.area.isAncestorOf(typing.changed)
    said_in = typing.changed
    assert said_in.height() >= said_in.heightForWidth(said_in.width())
    at = QApplication.focusWidget()
    assert typing.rect().contains(at.mapTo(typing, at.rect().bottomRight()))
    typing.discard()
