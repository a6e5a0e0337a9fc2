"""What to do and not to do while a result is outside a limit."""

from collections.abc import Sequence

from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from wellbook.window.common.theme import em, inks_of
from wellbook.window.widgets.layouts import clear_layout, words


class CautionBox(QFrame):
    """The cautions that apply, one a line; nothing where none does."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(em(self), em(self) // 2, em(self), em(self) // 2)
        self.lines: tuple[str, ...] = ()

    def show_cautions(self, cautions: Sequence[str]) -> None:
        """Show these sentences."""
        clear_layout(self._rows)
        self.lines = tuple(cautions)
        for caution in self.lines:
            line = words(caution)
            self._rows.addWidget(line)
            line.show()  # a line that is not shown yet counts for no height
        self.setVisible(bool(self.lines))
        self._be_high_enough()

    def _be_high_enough(self) -> None:
        """Be as high as the words at once; an area that scrolls asks later, and paints before."""
        self.setMinimumHeight(self.height_for(self.width()) if self.lines else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Be as high as the words need at the new width."""
        super().resizeEvent(event)
        self._be_high_enough()

    def height_for(self, width: int) -> int:
        """Height that the cautions need at a width."""
        return self._rows.heightForWidth(width)

    def paintEvent(self, _: QPaintEvent) -> None:
        """A tint that tells a caution from what is merely said."""
        QPainter(self).fillRect(self.rect(), QColor(inks_of(self.palette()).doubt))
