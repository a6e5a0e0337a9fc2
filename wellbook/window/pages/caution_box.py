"""What to do and not to do while a result is outside a limit."""

from collections.abc import Sequence

from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import clear_layout, words


class CautionBox(QFrame):
    """The cautions that apply, one a line; nothing where none does."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(em(self), em(self) // 2, em(self), em(self) // 2)
        self.lines: tuple[str, ...] = ()

    def show_cautions(self, cautions: Sequence[str]) -> None:
        """Show these sentences."""
        clear_layout(self._rows)
        self.lines = tuple(cautions)
        for caution in self.lines:
            self._rows.addWidget(words(caution))
        self.setVisible(bool(self.lines))
