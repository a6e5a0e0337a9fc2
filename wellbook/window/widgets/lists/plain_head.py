"""The head of a list: words over a rule, sorted by a click, set by its menu."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QHeaderView, QWidget

from wellbook.window.common.theme import em

_RISING, _FALLING = "▲", "▼"


class PlainHead(QHeaderView):
    """A printed table's head: the second ink, a rule below, no buttons.

    Attributes:
        sorted_by: The column that the rows are sorted by; -1 for none.
        is_falling: Whether the largest comes first.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.setHighlightSections(False)
        self.setSectionsClickable(False)
        self.sorted_by, self.is_falling = -1, False

    def sizeHint(self) -> QSize:
        """As high as a row."""
        return QSize(super().sizeHint().width(), round(em(self) * 1.9))

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        """Paint the words of one column and the rule below them."""
        colours = self.palette()
        painter.fillRect(rect, colours.base())
        painter.setPen(colours.color(QPalette.ColorRole.Mid))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        title = str(self.model().headerData(section, self.orientation()) or "")
        if section == self.sorted_by:
            title = f"{_FALLING if self.is_falling else _RISING} {title}"
        margin = em(self) // 4
        room = rect.adjusted(margin, 0, -margin, 0)
        text = self.fontMetrics().elidedText(title, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(self.defaultAlignment()), text)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint what lies beside the columns as well."""
        QPainter(self.viewport()).fillRect(self.viewport().rect(), self.palette().base())
        super().paintEvent(event)
