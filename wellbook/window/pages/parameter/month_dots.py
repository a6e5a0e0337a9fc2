"""All results of a parameter by month of the year, whatever the year."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from wellbook.charts.model.parts import Chart, Mark, Scale, Shape
from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.seasons import YEAR
from wellbook.window.common.theme import em, inks_of
from wellbook.window.widgets import verdict_icons
from wellbook.window.widgets.graphic import Graphic
from wellbook.wording import dates

_HIGH = 9  # ems
_DOT = 20.0  # units of a mark's square in an em
_ROWS = {Shape.PRESENT: 0.8, Shape.UNCLEAR: 0.5, Shape.ABSENT: 0.2}


class MonthDots(Graphic):
    """Twelve columns; a mark for each result of the first point, the limit as a line."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._marks: tuple[Mark, ...] = ()
        self._chart: Chart | None = None
        self.setAccessibleName(_("Results by month of the year"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """As wide as there is room."""
        return QSize(em(self) * 16, em(self) * _HIGH)

    def show_chart(self, chart: Chart) -> None:
        """Show the marks of a chart by month."""
        self._chart = chart
        self._marks = tuple(m for series in chart.series if not series.second
                            for m in series.marks)  # fmt: skip
        counts = [sum(mark.day.month == n + 1 for mark in self._marks) for n in range(YEAR)]
        said = [
            ngettext("{month}: {n:,} result", "{month}: {n:,} results", n).format(
                month=dates.month(month), n=n
            )
            for month, n in enumerate(counts, start=1)
            if n
        ]
        self.setAccessibleDescription(", ".join(said))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the columns, the limit, the marks and the letters of the months."""
        painter, inks, side = QPainter(self), inks_of(self.palette()), em(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), self.palette().base())
        room = QRectF(self.rect()).adjusted(side / 2, side / 2, -side / 2, -side * 1.5)
        wide = room.width() / YEAR
        letters = pgettext("first letters of the months", "J F M A M J J A S O N D").split()
        for month, letter in enumerate(letters):
            column = QRectF(room.left() + month * wide, room.top(), wide, room.height())
            painter.fillRect(column.adjusted(1, 0, -1, 0), QColor(inks.band))
            painter.setPen(QColor(inks.muted))
            below = QRectF(column.left(), room.bottom(), wide, side * 1.4)
            painter.drawText(below, int(Qt.AlignmentFlag.AlignCenter), letter)
        if self._chart is None:
            return
        for line in self._chart.limits:
            if line.in_view and line.steps:
                height = self._height(line.steps[-1].value, room)
                painter.setPen(QPen(QColor(inks.muted), 1, Qt.PenStyle.DashLine))
                painter.drawLine(QPointF(room.left(), height), QPointF(room.right(), height))
        for mark in self._marks:
            share = (mark.day.month - 1) + (mark.day.day - 0.5) / 31
            value = self._mark_height(mark, room)
            self._draw(painter, mark, QPointF(room.left() + share * wide, value))

    def _mark_height(self, mark: Mark, room: QRectF) -> float:
        if self._chart is not None and self._chart.scale is Scale.STRIP:
            return room.bottom() - _ROWS.get(mark.shape, 0.5) * room.height()
        return self._height(mark.value, room)

    def _height(self, value: float, room: QRectF) -> float:
        chart = self._chart
        if chart is None or chart.high == chart.low:
            return room.bottom()
        share = (value - chart.low) / (chart.high - chart.low)
        return room.bottom() - min(max(share, 0.0), 1.0) * room.height()

    def _draw(self, painter: QPainter, mark: Mark, at: QPointF) -> None:
        inks, unit = inks_of(self.palette()), em(self) / _DOT
        painter.save()
        painter.translate(at)
        painter.scale(unit, unit)
        verdict = seen_as(mark)
        if verdict is not None:
            painter.translate(-verdict_icons.MIDDLE, -verdict_icons.MIDDLE)
            verdict_icons.draw(painter, verdict, QColor(inks.verdicts[verdict]))
        else:
            painter.setPen(QPen(QColor(inks.muted), 1.8))
            painter.setBrush(QColor(inks.muted))
            up = ((0, -6), (6, 5), (-6, 5))
            if mark.shape is Shape.ABOVE:
                painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in up]))
            else:
                if mark.shape in {Shape.BELOW, Shape.ABSENT}:
                    painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawEllipse(QPointF(), 4.8, 4.8)
        painter.restore()


def seen_as(mark: Mark) -> Verdict | None:
    """The verdict by whose mark, that of the tables, a result is drawn; None where none fits."""
    if mark.shape is Shape.UNCLEAR:
        return Verdict.UNDECIDABLE
    return None if mark.verdict is Verdict.NO_LIMIT else mark.verdict
