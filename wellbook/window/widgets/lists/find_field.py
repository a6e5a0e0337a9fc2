"""The field that narrows a list down: Return and Down lead into the list, Escape clears it."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QDialog, QLineEdit, QWidget

from wellbook.window.widgets.tables import Table

_DOWN = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down})


class FindField(QLineEdit):
    """Narrows a table down to the rows that hold what is typed."""

    def __init__(
        self,
        says: str,
        table: Table,
        narrow: Callable[[str], object] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Make the field.

        Args:
            says: What it is called.
            table: The list.
            narrow: Shows the rows that fit; None lets the list look through its own words.
            parent: The page.
        """
        super().__init__(parent)
        self.setPlaceholderText(says)
        self.setAccessibleName(says)
        self.setClearButtonEnabled(True)
        self._table = table
        self.textChanged.connect(narrow or table.narrow)

    def event(self, event: QEvent) -> bool:
        """Leave the keys of undo and redo to the book while nothing stands here."""
        if event.type() is QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            keys = QKeySequence.StandardKey
            has_undo = bool(self.text()) and self.isUndoAvailable()
            has_redo = bool(self.text()) and self.isRedoAvailable()
            for key, is_ours in ((keys.Undo, has_undo), (keys.Redo, has_redo)):
                if event.matches(key) and not is_ours:
                    event.ignore()
                    return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go into the list, or let go of what was typed; then Escape closes a dialog as always."""
        if event.key() in _DOWN:
            self._table.enter()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        elif event.key() == Qt.Key.Key_Escape and not isinstance(self.window(), QDialog):
            self._table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().keyPressEvent(event)
