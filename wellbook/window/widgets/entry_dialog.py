"""The frame of every dialog: a title, one line for what is wrong, a page that scrolls, buttons.

A dialog belongs to a window, is never larger than the screen, and Return never writes anything.
"""

from collections.abc import Iterator
from typing import TypeGuard

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QCompleter,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.theme import em, room_on_screen
from wellbook.window.common.tips import name_inside
from wellbook.window.widgets.layouts import SUBTITLE, LongPage, PrimaryButton, words
from wellbook.window.widgets.message_bar import MessageBar

_LEAST = 5  # ems of the page that are always seen
_RETURN = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter})


class Dialog(QDialog):
    """As large as what is in it, as far as the screen goes; what is left over scrolls.

    The buttons go into `foot`, everything that may scroll into `rows`.
    """

    def __init__(self, title: str, parent: QWidget, *, width: int, height: int = 0) -> None:
        """Make the dialog.

        Args:
            title: What it is about.
            parent: The window, or the dialog, that it belongs to and closes with.
            width: How wide it is in ems, if the screen has the room.
            height: How high in ems; 0 for as high as what is in it.
        """
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.wanted = (width, height)
        self._follows_focus = False
        unit = em(self)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        self._column.setSpacing(unit // 2)
        self.head = QHBoxLayout()
        self.head.addWidget(words(title, factor=SUBTITLE, bold=True), 1)
        self._column.addLayout(self.head)
        self.bar = MessageBar(self)
        self.bar.changed.connect(self.grow)
        self._column.addWidget(self.bar)
        self.area = LongPage(self)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.area.setMinimumHeight(unit * _LEAST)
        self.rows = self.area.rows
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.area.verticalScrollBar().rangeChanged.connect(self._keep_off_the_bar)
        self._column.addWidget(self.area, 1)
        self.foot = QVBoxLayout()
        self._column.addLayout(self.foot)

    def _keep_off_the_bar(self, _least: int, most: int) -> None:
        """Leave room between fields and the bar that scrolls them, while there is one."""
        sides = self.rows.contentsMargins()
        sides.setRight(em(self) // 2 if most or sides.left() else 0)
        self.rows.setContentsMargins(sides)

    def default_button(self) -> QPushButton | None:
        """The button that Return presses; none where it would write into the book."""
        return None

    def _needed(self, width: int) -> QSize:
        """Size at which nothing scrolls, at this width or the least that the page can do with."""
        sides = self._column.contentsMargins()
        margins = sides.left() + sides.right()
        wide = max(width, self.rows.minimumSize().width() + margins)
        page = self.rows.totalHeightForWidth(wide - margins)
        page = page if page >= 0 else self.rows.totalSizeHint().height()
        around = self._column.totalHeightForWidth(wide) - self.area.sizeHint().height()
        return QSize(wide, around + max(page, self.area.minimumHeight()) + 2)

    def fit(self) -> None:
        """Take the size that is needed and that the screen has, round the same middle."""
        width, height = (em(self) * side for side in self.wanted)
        needed = self._needed(width).expandedTo(QSize(width, height))
        where = QRect(QPoint(), needed.boundedTo(room_on_screen(self).size()))
        where.moveCenter(self.geometry().center())
        self.resize(where.size())
        if self.isVisible():
            self._stay_in_sight(where)

    def grow(self) -> None:
        """Make room for what was added; never smaller than a person made it."""
        if self.isVisible():
            needed = self._needed(self.width()).expandedTo(self.size())
            self.resize(needed.boundedTo(room_on_screen(self).size().expandedTo(self.size())))
            self._stay_in_sight(self.geometry())

    def _stay_in_sight(self, wanted: QRect) -> None:
        room, frame = room_on_screen(self), self.geometry().topLeft() - self.pos()
        corner = QPoint(
            max(room.left(), min(wanted.left(), room.right() - wanted.width())),
            max(room.top(), min(wanted.top(), room.bottom() - wanted.height())),
        )
        if corner != self.geometry().topLeft():
            self.move(corner - frame)

    def showEvent(self, event: QShowEvent) -> None:
        """Take the size that is known by now; leave Return to the button it is meant for."""
        super().showEvent(event)
        if not event.spontaneous():
            self._watch_focus(wanted=True)
            self.fit()
            for box in self.area.findChildren(QComboBox):
                offer_below(box)
                name_inside(box)
            self._focus_first()
        meant = self.default_button()
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)
            button.setDefault(button is meant)

    def _focus_first(self) -> None:
        """Begin at the first field, unless a dialog chose another one; never at a button.

        Where there is none, the page has the focus, so that keys scroll it.
        """
        at = self.focusWidget()
        if at is None or not self.area.isAncestorOf(at):
            first = next(iter(self._fields()), self.area)
            if first is self.area:  # words keep off the line that is drawn round them
                self.rows.setContentsMargins(*[em(self) // 2] * 4)
                self.fit()
            first.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return presses the button with the focus, or goes to the next field."""
        if event.key() not in _RETURN or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            super().keyPressEvent(event)
            return
        at = self.focusWidget()
        if isinstance(at, QPushButton | QToolButton):
            at.click()
        elif self.default_button() is not None:
            super().keyPressEvent(event)
        elif at is not None:
            self.go_on_from(at)

    def go_on_from(self, field: QWidget) -> None:
        """Give the focus to the field that follows on the page, if there is one."""
        fields = self._fields()
        place = fields.index(field) + 1 if field in fields else len(fields)
        if place < len(fields):
            fields[place].setFocus(Qt.FocusReason.TabFocusReason)

    def _fields(self) -> list[QWidget]:
        """What can be filled in, line by line as it is read.

        Not along `nextInFocusChain`: PySide takes what that returns for a part of what it was
        asked of, and frees both together.
        """
        middles = {
            one: one.mapTo(self.area, one.rect().center())
            for one in self.area.findChildren(QWidget)
            if _is_field(one)
        }
        found: list[QWidget] = []
        line = 0
        keys: dict[QWidget, tuple[int, int]] = {}
        for one in sorted(middles, key=lambda one: middles[one].y()):
            if not found or middles[one].y() - middles[found[-1]].y() > em(self) // 2:
                line += 1
            found.append(one)
            keys[one] = (line, middles[one].x())
        return sorted(found, key=keys.__getitem__)

    def hideEvent(self, event: QHideEvent) -> None:
        """Follow the focus no longer: it still moves while a closed dialog is taken apart."""
        super().hideEvent(event)
        if not event.spontaneous():
            self._watch_focus(wanted=False)

    def _watch_focus(self, *, wanted: bool) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication) and wanted is not self._follows_focus:
            self._follows_focus = wanted
            move = app.focusChanged.connect if wanted else app.focusChanged.disconnect
            move(self._on_focus)

    def _on_focus(self, _unused: QWidget | None, now: QWidget | None) -> None:
        """Bring what an underlined letter leads to into sight, too."""
        if now is not None and self.area.isAncestorOf(now):
            self.area.ensureWidgetVisible(now)


class EntryDialog(Dialog):
    """Asks for something and keeps it; what can't be kept is said inside, and the dialog stays.

    Signals:
        kept: It was kept; carries the sentence that says so.
    """

    kept = Signal(str)

    def __init__(
        self, title: str, keep: str, parent: QWidget, *, width: int = 36, height: int = 0
    ) -> None:
        super().__init__(title, parent, width=width, height=height)
        self._untouched: dict[QWidget, object] | None = None
        self._odd: tuple[str, ...] = ()
        self.buttons = QDialogButtonBox()
        self.keep_button = PrimaryButton(keep)
        self.buttons.addButton(self.keep_button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.addButton(_("Cancel"), QDialogButtonBox.ButtonRole.RejectRole)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        for keys in ("Ctrl+Return", "Ctrl+Enter"):
            QShortcut(QKeySequence(keys), self, self.keep_button.click)
        self.keep_button.setToolTip(
            QKeySequence("Ctrl+Return").toString(QKeySequence.SequenceFormat.NativeText)
        )

    def finish(self, *, spare: bool = True) -> None:
        """Set the buttons below everything else; `spare` height goes between."""
        if spare:
            self.rows.addStretch(1)
        self.foot.addWidget(self.buttons)

    def keep(self) -> str:
        """Write what was entered; returns the sentence that says so.

        Raises:
            Fault: It can't be kept; the sentence is shown and the dialog stays.
        """
        raise NotImplementedError

    def ask_once(self, odd: tuple[str, ...]) -> None:
        """Ask about what is odd, once; doing the same again keeps it.

        Raises:
            Fault: It was not asked yet.
        """
        if odd and odd != self._odd:
            self._odd = odd
            self.keep_button.setText(_("Keep it all the same"))
            raise Fault(" ".join(odd))

    def accept(self) -> None:
        """Keep what was entered, then close."""
        said: list[str] = []
        self.bar.clear()
        if self.bar.attempt(lambda: said.append(self.keep())):
            self.kept.emit(said[0])
            super().accept()

    @property
    def is_touched(self) -> bool:
        """Whether anything was entered that closing would lose."""
        if self._untouched is None:
            return False
        now, before = dict(_entered(self.area)), self._untouched
        changed = any(now.get(field, value) != value for field, value in before.items())
        return changed or any(value for field, value in now.items() if field not in before)

    def showEvent(self, event: QShowEvent) -> None:
        """Remember what stood in the fields at first."""
        super().showEvent(event)
        if self._untouched is None:
            self._untouched = dict(_entered(self.area))

    def reject(self) -> None:
        """Close; ask first if that would lose what was entered."""
        if not self.is_touched:
            super().reject()
            return
        self.bar.say(
            _("What you entered here is not kept yet."),
            _("Close without keeping"),
            self.discard,
        )

    def discard(self) -> None:
        """Close without keeping anything."""
        super().reject()


def offer_below(box: QComboBox) -> None:
    """List what a box offers below it: completed in the line, Return would swap the whole text."""
    completer = box.completer() if box.isEditable() else None
    if completer is not None:
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)


def _is_field(widget: QWidget) -> bool:
    """Whether something can be entered there now; parts of a field and buttons are none."""
    is_part = isinstance(widget.parent(), QComboBox | QAbstractSpinBox)
    takes = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus) and widget.isEnabled()
    return takes and widget.isVisible() and not is_part and not isinstance(widget, QPushButton)


def _entered(page: QWidget) -> Iterator[tuple[QWidget, object]]:
    """Every field of a page with what it holds."""
    for field in page.findChildren(QWidget):
        if isinstance(field, QComboBox):
            yield field, field.currentText()
        elif isinstance(field, QAbstractSpinBox):
            yield field, field.text()
        elif isinstance(field, QPlainTextEdit):
            yield field, field.toPlainText().strip()
        elif isinstance(field, QAbstractButton) and field.isCheckable():
            yield field, field.isChecked()
        elif isinstance(field, QListWidget):
            yield field, tuple(field.item(n).checkState() for n in range(field.count()))
        elif _is_own_line(field):
            yield field, field.text()


def _is_own_line(field: QWidget) -> TypeGuard[QLineEdit]:
    """Whether it is a line to write in, and no part of another field."""
    is_line = isinstance(field, QLineEdit)
    return is_line and not isinstance(field.parent(), QComboBox | QAbstractSpinBox)


def close_dialogs(window: QWidget) -> bool:
    """Close what is open above a window, unless it holds what is not kept: it asks then."""
    offers = QApplication.activePopupWidget()
    if offers is not None:
        offers.close()  # it would lie over the question
    shown = [dialog for dialog in window.findChildren(QDialog) if dialog.isVisible()]
    for dialog in shown:
        if isinstance(dialog, EntryDialog) and dialog.is_touched:
            dialog.reject()
            dialog.activateWindow()
            return False
    for dialog in shown:
        dialog.reject()
        dialog.done(QDialog.DialogCode.Rejected)
    return True
