"""Where the keys go is seen on every page, and Tab goes on as a page is read."""

from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QMainWindow,
    QWidget,
)

from wellbook.window.common.theme import BLACK_ON_WHITE, DARK, LIGHT, WHITE_ON_BLACK, apply_theme

THEMES = {
    "light": LIGHT,
    "dark": DARK,
    "light contrast": BLACK_ON_WHITE,
    "dark contrast": WHITE_ON_BLACK,
}
PAGES = ("overview", "tests", "events", "well", "limits", "changes", "parameter")
DIALOGS = ("add_by_hand", "add_event", "household", "next_round", "export_packet", "settings")
LEAST = 30  # pixels that are drawn otherwise: less than the outline of the smallest button
EDGE = 5  # pixels, in which a line round a widget lies
UP = 6  # pixels that a field may lie higher than the one before it on its line
PARTS = (QComboBox, QAbstractSpinBox)


def luminance(ink):
    parts = [int(ink[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return sum(share * one for share, one in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one, other):
    bright, dim = sorted((luminance(one), luminance(other)), reverse=True)
    return (bright + 0.05) / (dim + 0.05)


def stops(window):
    """What Tab stops at, without the parts of another field."""
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.isVisibleTo(window)
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not (isinstance(widget, QLineEdit) and isinstance(widget.parent(), PARTS))
    ]


def lightness(widget):
    """Relative luminance (WCAG 2.2) of the pixels within five of the edge of a widget."""
    image = widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    wide, high = image.width(), image.height()
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(high, -1, 4)[:, :wide, 2::-1]
    inner = pixels[EDGE : high - EDGE]
    parts = pixels[:EDGE], pixels[high - EDGE :], inner[:, :EDGE], inner[:, wide - EDGE :]
    edge = np.concatenate([part.reshape(-1, 3) for part in parts]) / 255
    linear = np.where(edge <= 0.04045, edge / 12.92, ((edge + 0.055) / 1.055) ** 2.4)
    return linear @ (0.2126, 0.7152, 0.0722)


def seen(one, other):
    """How many pixels differ by 3:1 between two states (WCAG 2.2, 2.4.13)."""
    bright, dim = np.maximum(one, other), np.minimum(one, other)
    return np.count_nonzero((bright + 0.05) / (dim + 0.05) >= 3)


def unseen(window):
    """What looks with the focus nearly as it looks without."""
    found = stops(window)
    for widget in found:
        other = found[0] if widget is not found[0] else found[1]
        other.setFocus(Qt.FocusReason.TabFocusReason)
        before = lightness(widget)
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        after = lightness(widget)
        if before.shape == after.shape and seen(before, after) < LEAST:
            yield f"{name(widget)} {widget.hasFocus()} {window.isActiveWindow()}"


@pytest.mark.parametrize("theme", THEMES)
def test_the_line_of_the_focus_reaches_3_to_1(theme):
    """WCAG 2.2, 1.4.11 and 2.4.13."""
    inks = THEMES[theme]
    assert min(contrast(inks.accent, page) for page in (inks.paper, inks.sheet, inks.band)) >= 3


def test_whatever_has_the_focus_on_a_page_or_in_a_dialog_differs_by_3_to_1(opened, qapp, qtbot):
    told = []
    try:
        for theme in THEMES:
            apply_theme(qapp, theme)
            opened.activateWindow()
            qtbot.waitUntil(opened.isActiveWindow, timeout=5000)
            for page in PAGES if theme == "light" else PAGES[:3]:
                opened.do("next_parameter" if page == "parameter" else f"go_{page}")
                QApplication.processEvents()
                told += [f"{theme}, {page}: {one}" for one in unseen(opened)]
            for key in DIALOGS if theme == "light contrast" else DIALOGS[2:3]:
                dialog = open_dialog(opened, key, qtbot)
                told += [f"{theme}, {key}: {one}" for one in unseen(dialog)]
                dialog.reject()
    finally:
        apply_theme(qapp, "light")
    assert "\n".join(told) == ""


def open_dialog(frame, key, qtbot):
    frame.do(key)
    QApplication.processEvents()
    dialog = next(d for d in frame.findChildren(QDialog) if d.isVisible())
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow, timeout=5000)
    return dialog


def back_again(window):
    """Where Tab leads up the page: to what lies above and not in another column to the right."""
    found, met = stops(window), []
    for one in found:
        one.setFocus()
        QApplication.processEvents()
        if QApplication.focusWidget() is one:
            break
    for _unused in range(2 * len(found)):
        at = QApplication.focusWidget()
        if at is None or at in met:
            break
        met.append(at)
        QTest.keyClick(at, Qt.Key.Key_Tab)
    places = {one: (one.mapTo(window, QPoint()), one.size()) for one in met}
    top = min(met, key=lambda one: (places[one][0].y(), places[one][0].x()))
    met = met[met.index(top) :] + met[: met.index(top)]
    for before, after in pairwise(met):
        (at, size), (then, high) = places[before], places[after]
        is_above = then.y() + high.height() <= at.y() + UP
        is_beside = then.x() >= at.x() + size.width() - UP
        if is_above and not is_beside:
            yield f"{name(before)} -> {name(after)}"


class Windows(QObject):
    """Notes what is shown as a window of its own."""

    def __init__(self):
        super().__init__()
        self.met = []

    def eventFilter(self, watched, event):  # noqa: N802  as Qt calls it
        is_shown = event.type() is QEvent.Type.Show and isinstance(watched, QWidget)
        if is_shown and watched.isWindow() and not isinstance(watched, QDialog | QMainWindow):
            self.met.append(name(watched))
        return False


def test_no_part_of_a_page_or_dialog_is_a_window_for_a_moment(opened, qapp):
    windows = Windows()
    qapp.installEventFilter(windows)
    try:
        for page in PAGES:
            opened.do("next_parameter" if page == "parameter" else f"go_{page}")
        for key in DIALOGS:
            opened.do(key)
            QApplication.processEvents()
            next(d for d in opened.findChildren(QDialog) if d.isVisible()).reject()
    finally:
        qapp.removeEventFilter(windows)
    assert windows.met == []


def name(widget):
    return f"{type(widget).__name__} {widget.accessibleName() or getattr(widget, 'text', str)()}"


def test_tab_goes_down_every_page_and_dialog_as_it_is_read(opened, qtbot):
    opened.activateWindow()
    qtbot.waitUntil(opened.isActiveWindow, timeout=5000)
    told = []
    for page in PAGES:
        opened.do("next_parameter" if page == "parameter" else f"go_{page}")
        QApplication.processEvents()
        told += [f"{page}: {one}" for one in back_again(opened)]
    for key in DIALOGS:
        dialog = open_dialog(opened, key, qtbot)
        told += [f"{key}: {one}" for one in back_again(dialog)]
        dialog.reject()
    assert "\n".join(told) == ""
