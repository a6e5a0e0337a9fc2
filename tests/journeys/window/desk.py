"""A short visit with a window manager about: pages, dialogs, a field, and the end, by mouse."""

import hand
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QPlainTextEdit, QTableView
from sending import xdotool
from shiboken6 import isValid


def visit(told):
    yield from _stands_in_its_frame(hand.main_window(), told)
    yield from _pages(told)
    yield from _menu("Record", "Event")
    yield from _dialog(told, by="Escape")
    yield from _menu("Edit", "Settings")
    yield from _dialog(told, by="its frame")
    yield from _typed_words(told)
    told.note("the end by the frame")
    told.facts["visited"] = True
    yield from _close_by_its_frame(hand.main_window())
    told.fail("the program runs on without a window")


def _pages(told):
    for name in ("Tests", "Events", "Well", "Overview"):
        yield from hand.push(name)
        told.note(f"page {name}")
        chosen = [b.text() for b in hand.visible(hand.QAbstractButton) if b.isChecked()]
        if name not in chosen:
            told.fail(f"{name} does not lead to its page")
    table = next(t for t in hand.visible(QTableView) if hand.table_rows(t))
    rows = range(table.model().rowCount())
    row = next(row for row in rows if table.model().index(row, 0).data() == "Nitrate")
    yield from hand.click_row(table, row, double=True)
    told.note("page of a parameter")
    if table.isVisible():
        told.fail("a double click on a row does not lead to its parameter")
    yield from _menu("View", "What changed")
    told.note("page of what changed")


def _menu(title, entry):
    bar = hand.main_window().menuBar()
    action = next(a for a in bar.actions() if _plain(a) == title)
    menu = yield from hand.open_menu(bar, action)
    chosen = next(a for a in menu.actions() if _plain(a) == entry)
    yield from hand.click(menu, spot=menu.actionGeometry(chosen).center())


def _plain(action):
    return action.text().replace("&", "").removesuffix("…")


def _dialog(told, *, by):
    shown = hand.dialog()
    assert shown is not None, "no dialog opens"
    title = shown.windowTitle()
    yield from _stands_in_its_frame(shown, told)
    if by == "Escape":
        yield from hand.press("Escape")
    else:
        yield from _close_by_its_frame(shown)
    told.note(f"{title} closed by {by}")
    if hand.dialog() is not None:
        told.fail(f"{title} stays")


def _typed_words(told):
    yield from _menu("Record", "Event")
    shown = hand.dialog()
    field = hand.visible(QPlainTextEdit)[0]
    yield from hand.click(field)
    yield from hand.write("new pump")
    told.facts["typed"] = field.toPlainText()
    yield from hand.press("Escape")
    told.facts["asked"] = hand.dialog() is shown
    yield from hand.push(hand.LOSE)
    told.note("typed words are let go of")


def _stands_in_its_frame(window, told):
    """The window manager has put a frame round it, gave it the focus, and all is on the screen."""
    handle = window.windowHandle()
    yield lambda: handle.frameMargins().top() > 0
    yield lambda: QGuiApplication.focusWindow() is handle
    room = handle.screen().geometry()
    if not room.contains(handle.frameGeometry()):
        told.fail(f"{window.windowTitle()}: {handle.frameGeometry().getRect()} in {room.getRect()}")


def _close_by_its_frame(window):
    """The window manager's own key asks the window to close."""
    assert QApplication.activeWindow() is window
    xdotool("key", "alt+F4")
    yield lambda: not (isValid(window) and window.isVisible())
    yield hand.Rest()
