"""The mark of each verdict: a shape that can be told without its colour.

A circle is a reading that a limit allows: full where something was measured, hollow where nothing
was detected, half full near the limit. A diamond is outside, a hollow one over a limit to come. A
square with a gap in the middle can't be told. A dash has no limit.
"""

from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF

from wellbook.water.verdicts.judge import Verdict

_GRID = 16.0  # the marks are drawn on a square of this many units
MIDDLE = _GRID / 2


@lru_cache(maxsize=64)
def mark(verdict: Verdict, side: int, ink: str, chosen_ink: str) -> QIcon:
    """The mark as an icon of so many logical pixels a side, sharp at 1, 1.5, 2 and 3 times.

    Args:
        verdict: Whose mark.
        side: Its width and height.
        ink: Its colour.
        chosen_ink: Its colour in a row that is chosen, where the other would not be seen.
    """
    icon = QIcon()
    for ratio in (1.0, 1.5, 2.0, 3.0):
        icon.addPixmap(_pixmap(verdict, side, ratio, ink))
        icon.addPixmap(_pixmap(verdict, side, ratio, chosen_ink), QIcon.Mode.Selected)
    return icon


def _pixmap(verdict: Verdict, side: int, ratio: float, ink: str) -> QPixmap:
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(side / _GRID, side / _GRID)
    draw(painter, verdict, QColor(ink))
    painter.end()
    return pixmap


def draw(painter: QPainter, verdict: Verdict, colour: QColor) -> None:
    """Draw a mark on a square of 16 units from the origin."""
    painter.setPen(QPen(colour, 1.8))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    ring = QRectF(3.2, 3.2, 9.6, 9.6)
    if verdict in {Verdict.OUTSIDE, Verdict.ADOPTED}:
        if verdict is Verdict.OUTSIDE:
            painter.setBrush(colour)
        painter.drawPolygon(
            QPolygonF([QPointF(8, 1.4), QPointF(14.6, 8), QPointF(8, 14.6), QPointF(1.4, 8)])
        )
    elif verdict is Verdict.WITHIN:
        painter.setBrush(colour)
        painter.drawEllipse(ring)
    elif verdict is Verdict.UNDETECTED:
        painter.drawEllipse(ring)
    elif verdict is Verdict.NEAR:
        painter.drawEllipse(ring)
        painter.setBrush(colour)
        painter.drawPie(ring, 90 * 16, 180 * 16)
    elif verdict is Verdict.UNDECIDABLE:
        painter.drawRect(QRectF(2.6, 2.6, 10.8, 10.8))
        painter.setBrush(colour)
        painter.drawEllipse(QPointF(8, 8), 0.9, 0.9)
    else:
        painter.drawLine(QPointF(4, 8), QPointF(12, 8))
