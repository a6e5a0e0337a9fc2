"""Everything can be reached by key and has a name for a screen reader."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QPlainTextEdit,
    QTableView,
    QWidget,
)

from wellbook.window.app.book_pages import Page
from wellbook.window.app.menus.menu_bar import menus
from wellbook.window.common.actions import Needs

PARTS = (QAbstractSpinBox, QComboBox)


def focusable(window):
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.isVisibleTo(window)
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not (isinstance(widget, QLineEdit) and isinstance(widget.parent(), PARTS))
    ]


def name_of(widget):
    spoken = QAccessible.queryAccessibleInterface(widget)
    return spoken.text(QAccessible.Text.Name) if spoken else ""


def dialog_of(frame, key):
    frame.do(key)
    QApplication.processEvents()
    return next(d for d in frame.findChildren(QDialog) if d.isVisible())


PAGES = [
    "first",
    "go_overview",
    "go_tests",
    "go_events",
    "go_well",
    "go_limits",
    "go_changes",
    "next_parameter",
]
DIALOGS = [
    "add_by_hand",
    "add_event",
    "add_point",
    "export_packet",
    "household",
    "next_round",
    "settings",
    "show_copies",
    "show_keys",
]


@pytest.mark.parametrize("page", PAGES)
def test_every_focusable_widget_of_a_page_has_a_name(frame, household, page):
    if page != "first":
        frame.open_book(household())
        frame.do(page)
    widgets = focusable(frame)
    assert widgets
    assert [w for w in widgets if not name_of(w).strip()] == []


@pytest.mark.parametrize("key", DIALOGS)
def test_every_focusable_widget_of_a_dialog_has_a_name(opened, key):
    dialog = dialog_of(opened, key)
    widgets = focusable(dialog)
    assert widgets
    assert [w for w in widgets if not name_of(w).strip()] == []
    dialog.reject()


@pytest.mark.parametrize("page", PAGES)
def test_tab_comes_round_and_visits_each_widget(frame, household, qtbot, page):
    if page != "first":
        frame.open_book(household())
        frame.do(page)
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow, timeout=5000)
    wanted = {w for w in focusable(frame) if w.isEnabled()}
    start = next(iter(wanted))
    start.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is not None, timeout=5000)
    met = []
    for _ in range(3 * len(wanted) + 10):
        at = QApplication.focusWidget()
        met.append(at)
        qtbot.keyClick(at, Qt.Key.Key_Tab)
    assert wanted - set(met) == set()


def test_no_table_and_no_text_field_is_a_keyboard_trap(opened):
    for key in DIALOGS:
        dialog_of(opened, key)
    assert [t for t in opened.findChildren(QTableView) if t.tabKeyNavigation()] == []
    assert [t for t in opened.findChildren(QPlainTextEdit) if not t.tabChangesFocus()] == []
    for dialog in opened.findChildren(QDialog):
        dialog.reject()


def test_escape_closes_every_dialog(opened, qtbot):
    for key in DIALOGS:
        dialog = dialog_of(opened, key)
        qtbot.keyClick(dialog, Qt.Key.Key_Escape)
        assert not dialog.isVisible()


def test_no_two_actions_share_a_key_or_an_underlined_letter():
    shown = menus()
    keys = [a.keys().toString() for _, actions in shown for a in actions if not a.keys().isEmpty()]
    assert len(keys) == len(set(keys))
    for actions in ([(title,) for title, _ in shown], *[[(a.text,) for a in m] for _, m in shown]):
        letters = [text[text.index("&") + 1].casefold() for (text,) in actions]
        assert len(letters) == len(set(letters)), actions


def test_every_action_has_words(opened):
    for action, made in opened.actions_by_key.values():
        assert action.text
        assert action.help.endswith(".")
        assert made.text() == action.text


@pytest.mark.parametrize("page", [page for page in Page if page is not Page.PARAMETER])
def test_an_action_goes_to_each_page(opened, page):
    opened.do(f"go_{page}")
    assert opened.view.page is page
    assert opened.view.at(page).isVisible()


def test_without_a_book_an_action_that_needs_one_can_t_be_chosen(frame):
    for action, made in frame.actions_by_key.values():
        assert made.isEnabled() == (action.needs is Needs.NOTHING), action.key


def test_the_page_of_keys_lists_every_action(opened):
    dialog = dialog_of(opened, "show_keys")
    assert dialog.model.rowCount() == len(opened.actions_by_key)
    dialog.reject()


def test_the_chart_is_stepped_through_by_arrow_keys_and_spoken(opened, qtbot):
    view = opened.view
    view.show_parameter("nitrate")
    qtbot.waitUntil(
        lambda: view.at("parameter").figure.accessibleDescription() != "", timeout=20000
    )
    figure, chart = view.at("parameter").figure, view.at("parameter").chart
    assert figure.accessibleDescription() == chart.sentence
    assert figure.focusPolicy() & Qt.FocusPolicy.TabFocus
    qtbot.keyClick(figure, Qt.Key.Key_Right)
    assert figure.step.startswith("12 May 2009")
    qtbot.keyClick(figure, Qt.Key.Key_End)
    assert chart.marks[-1].label in figure.step
    assert "within, but close" in figure.step
    qtbot.keyClick(figure, Qt.Key.Key_Home)
    assert chart.marks[0].label in figure.step


def test_focus_goes_back_to_the_list_when_a_parameter_is_left(opened, qtbot):
    opened.activateWindow()
    qtbot.waitUntil(opened.isActiveWindow, timeout=5000)
    view = opened.view
    view.overview.table.setFocus()
    row = [line.key for line in view.overview.model.rows].index("nitrate")
    view.overview.table.pick(row)
    qtbot.keyClick(view.overview.table, Qt.Key.Key_Return)
    assert view.at("parameter").title.text() == "Nitrate, Tap at the pressure tank"
    opened.do("go_back")
    assert isinstance(QApplication.focusWidget(), QAbstractItemView)
    assert view.overview.table.currentIndex().row() == row
