"""The year as a wheel of twelve months, each filled by how many tests were drawn in it."""

from collections.abc import Sequence
from datetime import date
from math import cos, sin, tau

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QHelpEvent,
    QKeyEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QToolTip, QWidget

from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.values.seasons import YEAR
from wellbook.window.common.theme import Palette, em, inks_of
from wellbook.window.common.tips import tip
from wellbook.window.widgets.graphic import Graphic
from wellbook.wording import dates

_SIDE = 11.5  # ems
_HUB = 0.5  # of the radius
_MOST = 4  # tests from which a wedge is full
_GREEN = "#009e73"  # Okabe and Ito 2008; 3:1 on both pages
_MIDDLE = 0.5 / YEAR


class MonthWheel(Graphic):
    """Twelve wedges; the one of the next sampling day is outlined. Arrow keys read month by month.

    Attributes:
        counts: Tests drawn in each month, January first.
        next: The next sampling day, if one is suggested.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("Months in which tests were drawn"))
        self.counts: tuple[int, ...] = (0,) * YEAR
        self.next: date | None = None
        self._month = -1
        self.setFixedSize(self.sizeHint())

    def sizeHint(self) -> QSize:
        """A square."""
        side = round(em(self) * _SIDE)
        return QSize(side, side)

    def show_days(self, days: Sequence[date], following: date | None, sentence: str) -> None:
        """Show the sampling days of a point, each counted once."""
        tested = set(days)
        self.counts = tuple(sum(day.month == n + 1 for day in tested) for n in range(YEAR))
        self.next = following
        self.setAccessibleDescription(sentence)
        self.update()

    def said(self, month: int) -> str:
        """A month, counted from 0, in words."""
        n = self.counts[month]
        told = ngettext("{month}: {n:,} test day", "{month}: {n:,} test days", n)
        said = told.format(month=dates.month(month + 1), n=n)
        if self.next and self.next.month == month + 1:
            said = _("{said}; the next one is suggested here").format(said=said)
        return said

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrow keys step from month to month and say each."""
        moves = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}
        step = moves.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
            return
        self._month = (self._month + step) % YEAR
        said = self.said(self._month)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, said))
        place = self._at(self._month, (1 + _HUB) / 2).toPoint()
        QToolTip.showText(self.mapToGlobal(place), tip(said), self)
        self.update()

    def event(self, event: QEvent) -> bool:
        """Say the month under the pointer."""
        if isinstance(event, QHelpEvent):
            place = QPointF(event.pos())
            found = next((n for n in range(YEAR) if self._wedge(n).contains(place)), None)
            said = self.accessibleDescription() if found is None else self.said(found)
            QToolTip.showText(event.globalPos(), tip(said), self)
            return True
        return super().event(event)

    @property
    def _radius(self) -> float:
        return self.width() / 2 - em(self) * 1.3

    def _at(self, month: float, share: float) -> QPointF:
        angle = tau * (month / YEAR + _MIDDLE)
        middle, radius = self.width() / 2, self._radius * share
        return QPointF(middle + sin(angle) * radius, middle - cos(angle) * radius)

    def _wedge(self, month: int) -> QPainterPath:
        middle, radius = self.width() / 2, self._radius
        outer, inner = (
            QRectF(middle - r, middle - r, 2 * r, 2 * r) for r in (radius, radius * _HUB)
        )
        start = 90 - 360 * month / YEAR
        path = QPainterPath()
        path.arcMoveTo(outer, start)
        path.arcTo(outer, start, -360 / YEAR)
        path.arcTo(inner, start - 360 / YEAR, 360 / YEAR)
        path.closeSubpath()
        return path

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the wedges with their counts, the months round them, the next day in the middle."""
        painter, inks = QPainter(self), inks_of(self.palette())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for month in range(YEAR):
            self._paint_month(painter, month, inks)
        if self.next is not None:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(_GREEN), em(self) / 5))
            painter.drawPath(self._wedge(self.next.month - 1))
        self._paint_middle(painter, inks)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(inks.accent), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
            if self._month >= 0:
                painter.drawPath(self._wedge(self._month))

    def _paint_month(self, painter: QPainter, month: int, inks: Palette) -> None:
        n = self.counts[month]
        full, empty = QColor(inks.accent), QColor(inks.sheet)
        share = min(n, _MOST) / _MOST * 0.8
        mixed = [
            round(there + (here - there) * share)
            for here, there in (
                (full.red(), empty.red()),
                (full.green(), empty.green()),
                (full.blue(), empty.blue()),
            )
        ]
        painter.setPen(QPen(QColor(inks.edge), 1))
        painter.setBrush(QColor(*mixed))
        painter.drawPath(self._wedge(month))
        font = self.font()
        is_next = self.next is not None and self.next.month == month + 1
        side = em(self)
        if n:
            is_dark = sum(mixed) < 3 * 140
            painter.setPen(QColor("#ffffff" if is_dark else "#201f1c"))
            painter.drawText(_round(self._at(month, (1 + _HUB) / 2), side), _CENTRE, str(n))
        font.setBold(is_next)
        painter.setFont(font)
        painter.setPen(QColor(inks.text if is_next else inks.muted))
        letter = pgettext("first letters of the months", "J F M A M J J A S O N D").split()[month]
        beyond = 1 + side * 0.6 / self._radius
        painter.drawText(_round(self._at(month, beyond), side), _CENTRE, letter)
        font.setBold(False)
        painter.setFont(font)

    def _paint_middle(self, painter: QPainter, inks: Palette) -> None:
        side, middle = em(self), self.width() / 2
        if self.next is None:
            return
        room = QRectF(0, middle - side * 1.1, self.width(), side * 1.1)
        painter.setPen(QColor(inks.muted))
        painter.drawText(room, _CENTRE, pgettext("in the middle of the year", "next"))
        font = self.font()
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(QColor(inks.text))
        painter.drawText(room.translated(0, side * 1.05), _CENTRE, dates.day_of_year(self.next))
        font.setBold(False)
        painter.setFont(font)


_CENTRE = int(Qt.AlignmentFlag.AlignCenter)


def _round(middle: QPointF, side: float) -> QRectF:
    return QRectF(middle.x() - side, middle.y() - side, 2 * side, 2 * side)
