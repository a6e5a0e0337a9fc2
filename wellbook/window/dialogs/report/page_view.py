"""A page of a document as a picture, with one place on it lit."""

from collections.abc import Iterable
from math import ceil, log

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from wellbook.intake import PagePicture
from wellbook.support.translation import _
from wellbook.window.common.theme import LIGHT, em

_LIT = QColor(255, 214, 64, 90)  # over a page, which is white by day and by night
_AROUND = 3.0  # points round a lit box
_LARGEST, _STEP = 4.0, 1.25
_LEGIBLE = 0.8  # least height of a lit line beside that of the window's own
Box = tuple[float, float, float, float]


class _Paper(QWidget):
    """The picture, as wide as the view or wider."""

    pressed = Signal(QPointF)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.picture = QPixmap()
        self.lit: QRectF | None = None
        self.marked: tuple[QRectF, ...] = ()
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    @property
    def factor(self) -> float:
        """Pixels of the screen for one of the picture."""
        return self.width() / max(self.picture.width(), 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the page, the row that is lit as a band, and its box."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(self.rect(), self.picture)
        for marked in self.marked:
            box = self._on_screen(marked)
            painter.fillRect(box, _LIT)
            painter.setPen(QPen(QColor(LIGHT.accent), 1))
            painter.drawRect(box)
        if self.lit is not None:
            box = self._on_screen(self.lit)
            painter.fillRect(QRectF(0, box.y(), self.width(), box.height()), _LIT)
            painter.setPen(QPen(QColor(LIGHT.accent), 2))
            painter.drawRect(box)

    def _on_screen(self, box: QRectF) -> QRectF:
        scale = self.factor
        return QRectF(box.x() * scale, box.y() * scale, box.width() * scale, box.height() * scale)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Tell where on the picture it was pressed."""
        self.pressed.emit(event.position() / self.factor)


def _as_rect(box: Box) -> QRectF:
    return QRectF(box[0], box[1], box[2] - box[0], box[3] - box[1])


class PageView(QScrollArea):
    """A page that fits the width, or is larger so that the line which is lit can be read.

    Ctrl and the wheel, or Ctrl with + and -, make it larger or smaller; from then on it stays so.

    Signals:
        pressed: A place on the page was pressed; carries it in points, as boxes are counted.
    """

    pressed = Signal(QPointF)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAccessibleName(_("The page"))
        # A bar that comes and goes changes the width that the page fits, and so never rests.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self._page: PagePicture | None = None
        self._zoom = 1.0
        self._is_chosen = False  # whether a person made it larger or smaller
        self._paper = _Paper()
        self._paper.pressed.connect(self._on_pressed)
        self.setWidget(self._paper)

    def show_page(self, page: PagePicture) -> None:
        """Show a page, nothing on it lit."""
        self._page = page
        self._paper.picture = QPixmap()
        self._paper.picture.loadFromData(page.png, "PNG")
        self._paper.lit = None
        self._paper.marked = ()
        self._fit()

    def mark(self, boxes: Iterable[Box]) -> None:
        """Mark boxes on the page; the first of them is brought into sight."""
        page = self._page
        if page is not None:
            self._paper.marked = tuple(_as_rect(page.pixels(box)) for box in boxes)
        if self._paper.marked:
            middle = self._paper.marked[0].center() * self._paper.factor
            self.ensureVisible(
                round(middle.x()), round(middle.y()), em(self) * 4, self.viewport().height() // 3
            )
        self._paper.update()

    @property
    def marked(self) -> tuple[QRectF, ...]:
        """The marked boxes in pixels of the picture."""
        return self._paper.marked

    def light(self, box: Box | None) -> None:
        """Light a box on the page and bring it into sight."""
        self._paper.lit = None
        if box is not None and self._page is not None:
            self._paper.lit = _as_rect(
                self._page.pixels(
                    (box[0] - _AROUND, box[1] - _AROUND, box[2] + _AROUND, box[3] + _AROUND)
                )
            )
        self._fit()
        self._paper.setAccessibleDescription(_("lit") if self._paper.lit else "")
        self._paper.update()

    @property
    def lit(self) -> QRectF | None:
        """The lit box in pixels of the picture."""
        return self._paper.lit

    def zoom(self, factor: float) -> None:
        """Make the page larger or smaller; never smaller than the view."""
        self._zoom = min(max(self._now * factor, 1.0), _LARGEST)
        self._is_chosen = True
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the page to the new width."""
        super().resizeEvent(event)
        self._fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scroll; with Ctrl make the page larger or smaller."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(_STEP if event.angleDelta().y() > 0 else 1 / _STEP)
            event.accept()
        else:
            super().wheelEvent(event)

    def _fit(self) -> None:
        picture = self._paper.picture
        if picture.isNull():
            self._paper.resize(0, 0)
            return
        wide = self.viewport().width() * self._now
        self._paper.resize(round(wide), round(wide * picture.height() / picture.width()))
        lit = self._paper.lit
        if lit is not None:
            middle = lit.center() * self._paper.factor
            across, down = self.viewport().width() // 2, self.viewport().height() // 3
            self.ensureVisible(round(middle.x()), round(middle.y()), across, down)

    @property
    def _now(self) -> float:
        """How much larger than the view's width the page is."""
        page, lit, wide = self._page, self._paper.lit, self.viewport().width()
        if self._is_chosen or page is None or lit is None or wide <= 0:
            return self._zoom
        high = lit.height() - 2 * _AROUND * page.scale
        fits = wide / self._paper.picture.width()
        steps = ceil(log(max(em(self) * _LEGIBLE / max(high * fits, 1.0), 1.0), _STEP))
        return min(_STEP**steps, _LARGEST)  # in steps, since boxes of lines differ a little

    def _on_pressed(self, at: QPointF) -> None:
        if self._page is not None:
            scale = self._page.scale
            self.pressed.emit(
                QPointF(at.x() / scale - self._page.left, at.y() / scale - self._page.top)
            )
