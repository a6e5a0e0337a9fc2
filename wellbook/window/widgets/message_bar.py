"""One line for what a person must know, instead of a box in the way."""

import logging
from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QMoveEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import Words


class MessageBar(QFrame):
    """Shows one sentence, perhaps with one or two things to do about it, until it is closed.

    Signals:
        changed: It says something else now, or nothing.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self._words = Words(parent=self)
        self._words.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._then, self._other = QPushButton(self), QPushButton(self)
        self._close = QPushButton(self)
        self.translate()
        self._close.clicked.connect(self.clear)
        for button in (self._then, self._other, self._close):
            button.setAutoDefault(False)  # in a dialog, Return is for the dialog's own button
        row = QHBoxLayout(self)
        row.setContentsMargins(em(self), em(self) // 4, em(self), em(self) // 4)
        row.addWidget(self._words, 1)
        row.addWidget(self._then)
        row.addWidget(self._other)
        row.addWidget(self._close)
        self._on_then: Callable[[], object] = lambda: None
        self._on_other: Callable[[], object] = lambda: None
        self._then.clicked.connect(self._do_then)
        self._other.clicked.connect(lambda: self.attempt(self._on_other))
        self.clear()

    def translate(self) -> None:
        """Name its button in the language of now."""
        self._close.setText(_("Close message"))

    @property
    def text(self) -> str:
        """The sentence that is shown, empty if none is."""
        return self._words.text()

    def say(
        self,
        sentence: str,
        then: str = "",
        on_then: Callable[[], object] | None = None,
        other: tuple[str, Callable[[], object]] | None = None,
    ) -> None:
        """Show a sentence and tell it to a screen reader.

        Args:
            sentence: What is said.
            then: Name of a button beside it; empty for none.
            on_then: What that does.
            other: Name and deed of a second button.
        """
        self._words.setText(sentence)
        self.setAccessibleName(sentence)
        self._then.setText(then)
        self._then.setVisible(bool(then))
        if on_then:
            self._on_then = on_then
        self._other.setVisible(other is not None)
        if other is not None:
            self._other.setText(other[0])
            self._on_other = other[1]
        self.setVisible(True)
        self.changed.emit()
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))

    def clear(self) -> None:
        """Take the sentence away."""
        self._words.clear()
        self.setAccessibleName("")
        self.setVisible(False)
        self.changed.emit()

    def attempt(self, deed: Callable[[], object]) -> bool:
        """Do something; say the sentence of a `Fault` if it comes to one. Whether it was done."""
        try:
            deed()
        except Fault as fault:
            logging.getLogger(__name__).info("%s", fault)
            self.say(str(fault))
            return False
        return True

    def _do_then(self) -> None:
        self.attempt(self._on_then)


class StatusLine(QWidget):
    """The place at the foot of a window where messages appear; it is there without one, too.

    A message never moves the page: one of several lines lies over its foot until it is closed.
    """

    def __init__(self, bar: MessageBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bar = bar
        self.setFixedHeight(bar.sizeHint().height())
        bar.changed.connect(self._place)

    def moveEvent(self, event: QMoveEvent) -> None:
        """Keep the message at the foot of the window."""
        super().moveEvent(event)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the message the width of the window."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        around, layout = self.parentWidget(), self._bar.layout()
        if around is None or layout is None:
            return
        if self._bar.parentWidget() is not around:
            is_shown = not self._bar.isHidden()
            self._bar.setParent(around)
            self._bar.setVisible(is_shown)
        here = self.geometry()
        layout.activate()
        high = max(here.height(), layout.totalHeightForWidth(here.width()))
        self._bar.setGeometry(here.left(), here.bottom() + 1 - high, here.width(), high)
        self._bar.raise_()
