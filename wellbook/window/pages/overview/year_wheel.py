"""The wheel of the year beside the overview: which months were ever sampled, what is suggested."""

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wellbook.planning.overview import PointOverview
from wellbook.planning.settings import scheme
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.widgets.chart_view import FigureView
from wellbook.window.widgets.layouts import words

_WIDE = 19  # ems


class YearWheel(QWidget):
    """The wheel with its sentence, drawn after the page itself was painted."""

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._point: PointOverview | None = None
        self.figure = FigureView(_("Months in which tests were drawn"))
        self.caption = words(quiet=True)
        side = em(self) * _WIDE
        self.setFixedWidth(side)
        self.figure.setFixedHeight(side)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.figure)
        column.addWidget(self.caption)
        column.addStretch(1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the sentence out where there is no room below the wheel."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        needed = self.figure.height() + self.caption.heightForWidth(self.width())
        self.caption.setVisible(self.height() >= needed)

    def show_point(self, point: PointOverview | None) -> None:
        """Show the wheel of a sampling point as soon as there is time; None while closing."""
        self._point = point
        QTimer.singleShot(0, self._show)

    def _show(self) -> None:
        from wellbook.charts.draw.year_wheel import draw_wheel
        from wellbook.charts.model.year_wheel import wheel

        if self._point is None:
            return
        record, point = self._household.record, self._point
        tests = record.samples(point.point.id)
        days = [test.collected.day for test in tests if not test.collected.known]
        described = wheel(
            days,
            scheme(record.settings),
            self._household.today,
            window=point.due[0].window if point.due else None,
        )
        self.caption.setText(described.sentence)
        self._make_room()
        self.figure.show_figure(
            lambda figure, theme: draw_wheel(described, figure, theme), described.sentence
        )
