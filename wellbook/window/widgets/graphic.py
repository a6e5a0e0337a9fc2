"""A picture that is painted."""

from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QLabel, QWidget


class Graphic(QLabel):
    """A label that holds a picture, so that a screen reader is told of a graphic."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setPixmap(QPixmap(1, 1))
