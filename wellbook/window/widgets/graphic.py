"""A picture that is painted."""

from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QKeySequence, QPixmap
from PySide6.QtWidgets import QLabel, QMenu, QWidget

from wellbook.support.translation import _


class Graphic(QLabel):
    """A label that holds a picture, so that a screen reader is told of a graphic."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setPixmap(QPixmap(1, 1))

    def copy(self) -> None:
        """Copy it as a picture, as it is seen."""
        QGuiApplication.clipboard().setPixmap(self.grab())

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """What can be done with the picture, from the mouse or the menu key."""
        menu = QMenu(self)
        menu.addAction(_("Copy picture"), self.copy).setShortcut(
            QKeySequence(QKeySequence.StandardKey.Copy)
        )
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(event.globalPos())
