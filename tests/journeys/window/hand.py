"""A person's hand: clicks, keys, wheel and drops on what is visible, and on nothing else.

A journey is a generator. It yields what it waits for, and each deed is done by a timer of its own,
so that a deed which opens a dialog that waits for its answer holds nothing up.
"""

import time
from pathlib import Path

from PySide6.QtCore import (
    QCoreApplication,
    QMimeData,
    QPoint,
    QPointF,
    Qt,
    QThreadPool,
    QTimer,
    QUrl,
)
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QKeySequence,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QCheckBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QMainWindow,
    QMenu,
    QRadioButton,
    QScrollArea,
)
from sending import LEFT, PLAIN, at_once, sender

from wellbook.support.translation import language_now

LONGEST = 120.0  # seconds that anything may take on a computer that does much else
OFTEN, SELDOM = 1, 20  # milliseconds between two looks whether something was done
SOME_LOOKS = 20
LOSE = "Close without keeping"


class OutOfReachError(AssertionError):
    """A person can't get at it with the mouse."""


def main_window():
    return next(w for w in QApplication.topLevelWidgets() if isinstance(w, QMainWindow))


def dialog():
    """The dialog in front, if there is one."""
    found = QApplication.activeModalWidget()
    return found if isinstance(found, QDialog) else None


def front():
    return QApplication.activePopupWidget() or QApplication.activeModalWidget() or main_window()


def dialogs_in_sight():
    return [w for w in QApplication.topLevelWidgets() if isinstance(w, QDialog) and w.isVisible()]


# waiting


class Rest:
    """True once no work is under way and the loop has gone round a few times."""

    def __init__(self, rounds=3):
        self.left = rounds

    def __call__(self):
        if QThreadPool.globalInstance().activeThreadCount():
            self.left = 3
            return False
        self.left -= 1
        return self.left < 0


def act(deed, arrived=at_once):
    """Do something, and wait until it is done or waits for an answer itself."""
    ended = []
    before = front()

    def run():
        try:
            deed()
        finally:
            ended.append(True)

    QTimer.singleShot(0, run)
    yield lambda: (ended and arrived()) or front() is not before
    yield Rest()


class Driver:
    """Runs a journey beside the program's own loop.

    It looks often at first, and seldom where something takes long, as each look takes the
    processor from what it waits for.
    """

    def __init__(self, journey, on_end):
        self._journey, self._on_end = journey, on_end
        self._condition, self._until, self._looks = None, 0.0, 0
        self._timer = QTimer()
        self._timer.setInterval(OFTEN)
        self._timer.timeout.connect(self._tick)
        self._timer.start()

    def _tick(self):
        try:
            if self._condition is not None and not self._condition():
                self._looks += 1
                if self._looks == SOME_LOOKS:
                    self._timer.setInterval(SELDOM)
                if time.monotonic() < self._until:
                    return
                late = TimeoutError(f"nothing came of it within {LONGEST:.0f} s; {_where()}")
                self._condition = self._journey.throw(late)
            else:
                self._condition = next(self._journey)
            if self._looks >= SOME_LOOKS:
                self._timer.setInterval(OFTEN)
            self._looks = 0
            self._until = time.monotonic() + LONGEST
        except StopIteration:
            self._end(None)
        except BaseException as error:  # noqa: BLE001  told in the report
            self._end(error)

    def _end(self, error):
        self._timer.stop()
        self._on_end(error)


def _where():
    return f"in front: {front().windowTitle() or type(front()).__name__}"


# the mouse


def place_of(widget, spot=None):
    """Window and place in it where a click meets the widget.

    Raises:
        OutOfReachError: It is hidden, covered, or beyond the edge of its window or the screen.
    """
    window = widget.window()
    if not widget.isVisible() or window is not front():
        raise OutOfReachError(f"{label(widget)} is not in front")
    seen = widget.visibleRegion().boundingRect()
    if seen.isEmpty() and spot is None:
        raise OutOfReachError(f"{label(widget)} is scrolled out of sight")
    at = spot or seen.center()
    if spot is None and isinstance(widget, QCheckBox | QRadioButton):
        at = QPoint(min(8, seen.right()), seen.center().y())
    there = widget.mapTo(window, at)
    met = window.childAt(there) or window
    if not (met is widget or widget.isAncestorOf(met)):
        raise OutOfReachError(f"{label(widget)} is covered by {label(met)}")
    if not window.screen().geometry().contains(window.mapToGlobal(there)):
        raise OutOfReachError(f"{label(widget)} is off the screen")
    return window, there


def areas_round(widget):
    at = widget
    while not at.isWindow():
        at = at.parentWidget()
        if isinstance(at, QScrollArea):
            yield at


def reach(widget):
    """Scroll with the wheel until the widget can be clicked."""
    for area in areas_round(widget):
        for _ in range(200):
            middle = widget.mapTo(area.viewport(), widget.rect().center()).y()
            high = area.viewport().height()
            half = widget.height() // 2
            if middle >= half and middle + half <= high:
                break
            bar = area.verticalScrollBar()
            before = bar.value()
            yield from turn_wheel(area.viewport(), up=middle < high // 2, spot=QPoint(2, high // 2))
            if bar.value() == before:
                break
    place_of(widget)


def click(widget, *, double=False, spot=None):
    if spot is None:
        yield from reach(widget)
    window, there = place_of(widget, spot)
    yield sender().aim(window.windowHandle(), there)
    yield from act(*sender().click(window.windowHandle(), there, double=double))


def turn_wheel(widget, *, up=False, spot=None):
    window, there = place_of(widget, spot)
    yield sender().aim(window.windowHandle(), there)
    yield from act(*sender().turn_wheel(window.windowHandle(), there, up=up))


def drop(paths, window, *, rests=True):
    """Drag files over the middle of a window and let them go; perhaps wait for what comes of it."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    there = window.rect().center()
    copy = Qt.DropAction.CopyAction
    enter = QDragEnterEvent(there, copy, data, LEFT, PLAIN)
    fall = QDropEvent(QPointF(there), copy, data, LEFT, PLAIN)

    def deed():
        QCoreApplication.sendEvent(window.windowHandle(), enter)
        if enter.isAccepted():
            QCoreApplication.sendEvent(window.windowHandle(), fall)

    if rests:
        yield from act(deed)
    else:
        QTimer.singleShot(0, deed)
        yield enter.isAccepted
    return enter.isAccepted()


# the keys


def with_the_focus():
    """The window that keys go to; a platform without window manager does not pass the focus on."""
    window = (QApplication.activeModalWidget() or main_window()).windowHandle()
    if QApplication.activePopupWidget() is None and QGuiApplication.focusWindow() is not window:
        window.requestActivate()
        yield lambda: QGuiApplication.focusWindow() is window
    return window


def press(keys):
    """Press a key such as `Ctrl+T` in the window that has the focus."""
    combination = QKeySequence(keys)[0]
    window = yield from with_the_focus()
    yield from act(*sender().press(window, combination))


def write(text):
    for sign in text:
        window = yield from with_the_focus()
        yield from act(*sender().write(window, sign))


def enter(*texts, most=2):
    """Write into one field after another and leave each by Return."""
    for text in texts:
        yield from write(text)
        field = QApplication.focusWidget()
        for _ in range(most):  # the first may take the name that is offered
            if QApplication.focusWidget() is field:
                yield from press("Return")


def keep(presses=press):
    """Keep what is typed, all the same if an odd figure is asked about."""
    yield from presses("Ctrl+Return")
    if dialog() is not None and button("Keep it all the same"):
        yield from presses("Ctrl+Return")


def paste(text):
    """Bring words from the clipboard, which then holds again what it held."""
    board = QApplication.clipboard()
    kept = board.text()
    board.setText(text)
    yield from press("Ctrl+V")
    board.setText(kept)


def answer(path):
    """Paste a path into the dialog that asks for a file, and press Return."""
    asked = dialog()
    assert isinstance(asked, QFileDialog), _where()
    field = asked.findChild(QLineEdit)
    yield from click(field)
    yield from press("Ctrl+A")
    yield from paste(str(Path(path)))
    yield from press("Return")
    for _ in range(2):  # the first may have taken what was offered below the field
        if dialog() is asked:
            yield from press("Return")
    assert dialog() is not asked, f"{path} was not taken by {asked.windowTitle()}"


def leave_dialogs():
    """Escape from whatever is open, and lose what was typed if that is asked."""
    for _ in range(12):
        if QApplication.activePopupWidget() is None and dialog() is None:
            return
        shown = dialog()
        yield from press("Escape")
        lose = button(LOSE) if dialog() is shown and shown is not None else None
        if lose is not None:
            yield from click(lose)
    raise AssertionError(f"can't get out of {_where()}")


# what is in sight


def plain(text):
    """The words without underlined letter and dots, in small letters: some languages are loud."""
    return text.replace("&", "").rstrip("…").casefold()


def spoken(text):
    """What an English word of ours may be called in the language of now, as `plain` has it."""
    sentences = getattr(language_now().words, "_catalog", {})
    return {plain(text)} | {
        plain(said)
        for source, said in sentences.items()
        if isinstance(source, str) and plain(source.rpartition("\x04")[2]) == plain(text)
    }


def label(widget):
    """What a person would call it."""
    text = getattr(widget, "text", str)
    found = text() if callable(text) else ""
    said = (found or widget.accessibleName() or widget.toolTip()).replace("&", "")
    return f"{type(widget).__name__} “{said}”" if said else type(widget).__name__


def visible(kind, inside=None):
    inside = inside or front()
    return [w for w in inside.findChildren(kind) if w.isVisible() and w.window() is inside.window()]


def button(text, inside=None):
    """The button with these words (without underlined letter and dots), if it is in sight."""
    free = [b for b in visible(QAbstractButton, inside) if b.isEnabled()]
    called = spoken(text)
    return next((b for b in free if plain(b.text()) in called), None)


def push(text, inside=None):
    found = button(text, inside)
    assert found is not None, f"no button {text} can be pressed; {_where()}"
    yield from click(found)


def open_menu(bar, action):
    """Open a menu of the menu bar with the mouse."""
    yield from click(bar, spot=bar.actionGeometry(action).center())
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu), f"menu {action.text()} does not open"
    return menu


def table_rows(view):
    model = view.model()
    return model.rowCount() if model is not None else 0


def click_row(view, row, *, double=False):
    """Scroll a list or a table with the wheel to one of its rows, and click it."""
    column = 0
    index = view.model().index(row, column)
    for _ in range(200):
        spot, room = view.visualRect(index).center(), view.viewport().rect()
        if room.top() <= spot.y() <= room.bottom():
            break
        before = view.verticalScrollBar().value()
        yield from turn_wheel(view.viewport(), up=spot.y() < room.top())
        if view.verticalScrollBar().value() == before:
            break
    yield from click(view.viewport(), double=double, spot=spot)


def is_scrolled_by(widget):
    """The nearest area round a widget that has something to scroll."""
    return next((a for a in areas_round(widget) if a.verticalScrollBar().maximum() > 0), None)
