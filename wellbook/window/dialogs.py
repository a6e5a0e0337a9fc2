"""The frame of every dialog that writes: fields, one line for what is wrong, two buttons."""

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QVBoxLayout,
    QWidget,
)

from wellbook.window.look import em
from wellbook.window.messages import MessageBar
from wellbook.window.sheets import SUBTITLE, words

translate = QCoreApplication.translate


class EntryDialog(QDialog):
    """Asks for something and keeps it; what can't be kept is said inside, and the dialog stays.

    Signals:
        kept: It was kept; carries the sentence that says so.
    """

    kept = Signal(str)

    def __init__(self, title: str, keep: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        unit = em(self)
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(unit * 2, unit, unit * 2, unit)
        self.rows.setSpacing(unit // 2)
        self.rows.addWidget(words(title, factor=SUBTITLE, bold=True))
        self.bar = MessageBar(self)
        self.rows.addWidget(self.bar)
        self.buttons = QDialogButtonBox(self)
        self.keep_button = self.buttons.addButton(keep, QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.addButton(
            translate("Dialogs", "Cancel"), QDialogButtonBox.ButtonRole.RejectRole
        )
        self.keep_button.setDefault(True)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def finish(self, *, spare: bool = True) -> None:
        """Set the buttons below everything else; `spare` height goes between."""
        if spare:
            self.rows.addStretch(1)
        self.rows.addWidget(self.buttons)

    def keep(self) -> str:
        """Write what was entered; returns the sentence that says so.

        Raises:
            Fault: It can't be kept; the sentence is shown and the dialog stays.
        """
        raise NotImplementedError

    def accept(self) -> None:
        """Keep what was entered, then close."""
        said: list[str] = []
        self.bar.clear()
        if self.bar.attempt(lambda: said.append(self.keep())):
            self.kept.emit(said[0])
            super().accept()
