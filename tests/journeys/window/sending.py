"""How a click or a key reaches the program: handed to Qt, or by way of a real X server.

Without a display Qt is handed its events. On X11 `xdotool` has the server move the pointer and
press keys, so they come as from a desk: past the window manager, and only after a while.
"""

import subprocess
from collections import Counter

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtTest import QTest

LEFT, PLAIN = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
KEYSYMS = {"Esc": "Escape", ",": "comma", "-": "minus", ".": "period", " ": "space"}


def sender():
    """What sends clicks and keys on this platform.

    Each of its methods gives a deed, and a condition that holds once the program was reached.
    """
    return ThroughServer() if QGuiApplication.platformName() == "xcb" else ThroughQt()


def at_once():
    return True


class ThroughQt:
    def aim(self, _window, _there):
        return at_once

    def click(self, window, there, *, double):
        deed = QTest.mouseDClick if double else QTest.mouseClick
        return lambda: deed(window, LEFT, PLAIN, there), at_once

    def turn_wheel(self, window, there, *, up):
        turn = QPoint(0, 120 if up else -120)
        return lambda: QTest.wheelEvent(window, QPointF(there), turn), at_once

    def press(self, window, combination):
        modifiers = combination.keyboardModifiers()
        return lambda: QTest.keyClick(window, combination.key(), modifiers), at_once

    def write(self, window, sign):
        return lambda: QTest.keyClick(window, sign), at_once


class ThroughServer:
    def aim(self, window, there):
        """The pointer is over the place: the window manager may still be moving the window."""
        watch, looks = Watch(window), 0

        def is_there():
            nonlocal looks
            if watch.pointer == there:
                return True
            if looks % 50 == 0:
                at = window.mapToGlobal(there)
                move(at - QPoint(1, 0))
                move(at)
            looks += 1
            return False

        return is_there

    def click(self, window, _there, *, double):
        watch = Watch(window)
        times = 2 if double else 1
        pressed = ("click", "--repeat", str(times), "--delay", "5", "1")
        return lambda: xdotool(*pressed), watch.met(QEvent.Type.MouseButtonRelease, times)

    def turn_wheel(self, window, _there, *, up):
        watch = Watch(window)
        return lambda: xdotool("click", "4" if up else "5"), watch.met(QEvent.Type.Wheel)

    def press(self, window, combination):
        watch, (*held, key) = Watch(window), named(QKeySequence(combination).toString())
        keys = "+".join([*(name.lower() for name in held), KEYSYMS.get(key, key)])
        return lambda: xdotool("key", keys), watch.met(QEvent.Type.KeyRelease)

    def write(self, window, sign):
        watch = Watch(window)
        return lambda: xdotool("key", KEYSYMS.get(sign, sign)), watch.met(QEvent.Type.KeyRelease)


class Watch(QObject):
    """Notes what the server sends to a window, until nobody asks any more.

    Attributes:
        pointer: Where in the window the pointer was last.
    """

    def __init__(self, window):
        super().__init__()
        self.pointer, self.seen = None, Counter()
        window.installEventFilter(self)

    def eventFilter(self, _window, event):  # noqa: N802  Qt's name
        self.seen[event.type()] += 1
        if event.type() in {QEvent.Type.MouseMove, QEvent.Type.Enter}:
            self.pointer = event.position().toPoint()
        return False

    def met(self, kind, times=1):
        """A condition: so many such events have come."""

        return lambda: self.seen[kind] >= times


def named(keys):
    """The parts of a combination such as `Ctrl+T`, as the server names them."""
    *held, key = keys.split("+")
    return [*held, key if len(key) > 1 else key.lower()]


def move(place):
    xdotool("mousemove", str(place.x()), str(place.y()))


def xdotool(*words):
    subprocess.run(["xdotool", *words], check=True)
