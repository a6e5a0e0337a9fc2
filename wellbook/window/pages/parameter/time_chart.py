"""A chart over time under the pointer: what each mark is, closer looks, the way to its report."""

from collections.abc import Callable
from datetime import date, timedelta
from math import hypot

from PySide6.QtCore import QPoint, QPointF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QMenu, QToolTip, QWidget

from wellbook.charts.draw.drawing import Drawn, draw
from wellbook.charts.layout.theme import Theme
from wellbook.charts.model.parts import Chart, Mark
from wellbook.charts.model.stretch import stretch
from wellbook.window.common.theme import em
from wellbook.window.common.tips import tip
from wellbook.window.widgets.chart_view import FigureView

_NEAR = 1.0  # ems within which the pointer is at a mark
_CLOSER, _PAN = 0.7, 0.25  # of the days shown
_LEAST_DRAG = 4  # pixels


class TimeChart(FigureView):
    """Hover tells a mark, Ctrl and wheel or + and - look closer, dragging or Shift+arrows move on.

    Signals:
        mark_chosen: A mark was chosen by a double click or Return; carries it.
        stretched: Other days are shown now.
    """

    mark_chosen = Signal(object)
    stretched = Signal()

    def __init__(self, name: str, words: Callable[[Mark], str], menu: QMenu | None = None) -> None:
        super().__init__(name)
        self._words, self._menu = words, menu
        self._whole: Chart | None = None
        self.shown: Chart | None = None
        self.drawn = Drawn(0.0, 1.0, ())
        self.least_left = 0.0
        self._at: Mark | None = None
        self._pressed: QPoint | None = None
        self._from: tuple[date, date] | None = None
        self._ring = _Ring(self)
        self.setMouseTracking(True)

    def show_chart(self, chart: Chart, days: tuple[date, date] | None = None) -> None:
        """Show a chart; only some of its days if they are given."""
        self._whole = chart
        self._cut(days or (chart.first, chart.last))

    def show_days(self, days: tuple[date, date]) -> None:
        """Show other days of the chart."""
        self._cut(days)

    @property
    def days(self) -> tuple[date, date] | None:
        """First and last day shown."""
        return (self.shown.first, self.shown.last) if self.shown else None

    @property
    def is_whole(self) -> bool:
        """Whether every day of the chart is shown."""
        whole = self._whole
        return whole is None or self.days == (whole.first, whole.last)

    def _cut(self, days: tuple[date, date]) -> None:
        if self._whole is None:
            return
        self._at = None
        self._ring.at = None
        self.shown = chart = stretch(self._whole, *days)
        marks = sorted(chart.marks, key=lambda mark: mark.day)
        self.show_figure(self._paint_chart, self._whole.sentence, marks, self._words)

    def _paint_chart(self, figure: object, theme: Theme) -> None:
        if self.shown is not None:
            self.drawn = draw(self.shown, figure, theme, left=self.least_left)  # type: ignore[arg-type]
        self._ring.setGeometry(self.rect())
        self._ring.raise_()

    def place(self, mark: Mark) -> QPointF | None:
        """Where a mark lies on the widget."""
        found = next(((x, y) for x, y, one in self.drawn.spots if one == mark), None)
        return None if found is None else self._pixels(*found)

    def _pixels(self, x: float, y: float) -> QPointF:
        room, dots = self.contentsRect(), self.dots
        return QPointF(room.left() + x * dots, room.bottom() + 1 - y * dots)

    @property
    def dots(self) -> float:
        """Pixels of the widget in an inch of its figure."""
        if self._canvas is None:
            return 100.0
        return float(self._canvas.figure.dpi / self._canvas.device_pixel_ratio)

    def mark_at(self, place: QPointF) -> Mark | None:
        """The mark under the pointer, or next to it."""
        best, near = None, em(self) * _NEAR
        for x, y, mark in self.drawn.spots:
            away = self._pixels(x, y) - place
            if hypot(away.x(), away.y()) <= near:
                best, near = mark, hypot(away.x(), away.y())
        return best

    def place_of_step(self) -> QPoint:
        """Just beside the mark that was stepped to."""
        if not self.drawn.spots or self._step < 0:
            return super().place_of_step()
        x, y, mark = self.drawn.spots[min(self._step, len(self.drawn.spots) - 1)]
        self._point_at(mark)
        return self._pixels(x, y).toPoint() + QPoint(em(self) // 2, em(self) // 2)

    def _point_at(self, mark: Mark | None) -> None:
        self._at = mark
        self._ring.at = self.place(mark) if mark else None
        self._ring.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Tell the mark under the pointer, or move on in time while the button is held."""
        place = event.position()
        if self._pressed is not None and self._from is not None:
            self._drag(place.x() - self._pressed.x())
            return
        mark = self.mark_at(place)
        if mark != self._at:
            self._point_at(mark)
        if mark is None:
            QToolTip.hideText()
        else:
            QToolTip.showText(event.globalPosition().toPoint(), tip(self._words(mark)), self)

    def _drag(self, pixels: float) -> None:
        if abs(pixels) < _LEAST_DRAG or self._from is None or self.is_whole:
            return
        first, last = self._from
        wide = max((self.drawn.right - self.drawn.left) * self.dots, 1.0)
        by = timedelta(days=-round(pixels / wide * (last - first).days))
        self._change((first + by, last + by))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin to move in time."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._pressed, self._from = event.position().toPoint(), self.days

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """End it."""
        del event
        self._pressed = None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Choose the mark under the pointer."""
        mark = self.mark_at(event.position())
        if mark is not None:
            self.mark_chosen.emit(mark)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """With Ctrl look closer at what is under the pointer; otherwise the page scrolls."""
        if not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            event.ignore()
            return
        edge = self._pixels(self.drawn.left, 0).x()
        wide = max((self.drawn.right - self.drawn.left) * self.dots, 1.0)
        share = min(max((event.position().x() - edge) / wide, 0.0), 1.0)
        self.zoom(_CLOSER if event.angleDelta().y() > 0 else 1 / _CLOSER, share)
        event.accept()

    def zoom(self, factor: float, share: float = 0.5) -> None:
        """Show that many times as many days; what lies at a share of the width stays there."""
        if self.days is None:
            return
        first, last = self.days
        length = (last - first).days
        start = first + timedelta(days=round(length * share * (1 - factor)))
        self._change((start, start + timedelta(days=max(round(length * factor), 1))))

    def pan(self, share: float) -> None:
        """Move on by a share of the days shown."""
        if self.days is not None:
            by = timedelta(days=round((self.days[1] - self.days[0]).days * share))
            self._change((self.days[0] + by, self.days[1] + by))

    def show_all(self) -> None:
        """Show every day again."""
        if self._whole is not None:
            self._change((self._whole.first, self._whole.last))

    def _change(self, days: tuple[date, date]) -> None:
        if self._whole is not None and days[1] - days[0] >= self._whole.last - self._whole.first:
            days = (self._whole.first, self._whole.last)
        self._cut(days)
        self.stretched.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Look closer, move on, choose; the arrows alone step from mark to mark."""
        has_shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        deeds: dict[int, Callable[[], object]] = {
            Qt.Key.Key_Plus: lambda: self.zoom(_CLOSER),
            Qt.Key.Key_Equal: lambda: self.zoom(_CLOSER),
            Qt.Key.Key_Minus: lambda: self.zoom(1 / _CLOSER),
            Qt.Key.Key_0: self.show_all,
        }
        if has_shift:
            deeds |= {
                Qt.Key.Key_Right: lambda: self.pan(_PAN),
                Qt.Key.Key_Left: lambda: self.pan(-_PAN),
            }
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self._at is not None:
            self.mark_chosen.emit(self._at)
        elif event.key() in deeds:
            deeds[event.key()]()
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """What can be done with the picture."""
        if self._menu is None:
            super().contextMenuEvent(event)
        else:
            self._menu.popup(event.globalPos())


class _Ring(QWidget):
    """A ring round the mark that is pointed at, above the drawing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.at: QPointF | None = None

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the ring."""
        if self.at is not None:
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(self.palette().accent().color(), 2))
            painter.drawEllipse(self.at, em(self) * 0.6, em(self) * 0.6)
