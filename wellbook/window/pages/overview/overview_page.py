"""The first page of an open book: what is due, and where every parameter of a point stands."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from wellbook.planning.lab.awaited import Awaited, awaited
from wellbook.planning.overview import PointOverview
from wellbook.planning.upkeep.due import UpkeepItem, due_now, upkeep_items
from wellbook.support.translation import _
from wellbook.water.verdicts.status import Standing
from wellbook.window.common import advice
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.pages.caution_box import CautionBox
from wellbook.window.pages.overview.due_banner import DueBanner, UpkeepLines
from wellbook.window.pages.overview.overview_rows import Line, columns, lines
from wellbook.window.pages.overview.year_wheel import YearWheel
from wellbook.window.widgets.layouts import words
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import latest_change

_CARE = 14  # ems of height; more is scrolled to
_NARROW = 70  # ems; below, the wheel makes room for the table


class OverviewPage(QWidget):
    """Due banner, list of parameters, year wheel.

    Signals:
        parameter_chosen: A parameter was chosen; carries its key.
    """

    parameter_chosen = Signal(str)

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._point: PointOverview | None = None
        self.due = DueBanner()
        self.upkeep = UpkeepLines(household.why_readonly)
        self.care = CautionBox()
        self._care_room = QScrollArea()  # many cautions leave the table its room
        self._care_room.setWidget(self.care)
        self._care_room.setWidgetResizable(True)
        self._care_room.setFrameShape(QFrame.Shape.NoFrame)
        self._care_room.setMaximumHeight(em(self) * _CARE)
        self._care_room.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._care_room.setVisible(False)
        self.table = Table(_("Parameters at this point"))
        self.search = FindField(_("Find a parameter"), self.table, lambda _text: self._refill())
        self.model = RowsModel(
            columns(household.catalogue),
            lambda line: line.key,
            self,
            is_head=lambda line: line.standing is None,
        )
        self.table.setModel(self.model)
        self.table.fit(stretch=4)
        self.table.arrange("parameters")
        self.table.chosen.connect(self._on_chosen)
        self.wheel = YearWheel(household)
        self.changes = words()
        self.notes = words(quiet=True)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        left = QVBoxLayout()
        left.setSpacing(unit // 2)
        line = QHBoxLayout()
        line.addWidget(self.search, 2)
        line.addStretch(3)
        left.addLayout(line)
        left.addWidget(self.table, 1)
        left.addWidget(self.changes)
        left.addWidget(self.notes)
        self._body = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._body.setSpacing(unit)
        self._body.addLayout(left, 1)
        self._body.addWidget(self.wheel, 0)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.setSpacing(unit)
        column.addWidget(self._care_room)
        column.addWidget(self.due)
        column.addLayout(self._body, 1)
        column.addWidget(self.upkeep)  # below what is said of the water

    def show_point(
        self,
        point: PointOverview | None,
        points: Sequence[PointOverview] = (),
        *,
        is_waiting: bool = False,
    ) -> None:
        """Show a sampling point, one of the `points` of its well; None in a book that has none yet.

        What is due, and with it the wheel, `is_waiting` to be worked out.
        """
        self._point = point
        self.due.setVisible(point is not None)
        if point is not None:
            if is_waiting:
                self.due.show_waiting()
            else:
                self.due.show_due(point, self._household.today, self._owed(point))
            self.care.show_cautions(advice.pressing(point, points, self._household))
            self._care_room.setVisible(bool(self.care.lines))
        self.upkeep.show_items(self._upkeep(point), self._household.today)
        changes = [one.change for one in point.standings] if point else []
        self.changes.setText(latest_change.latest_test(changes))
        self.changes.setVisible(bool(self.changes.text()))
        self._refill()
        if not is_waiting:
            self.wheel.show_point(point)

    def _owed(self, point: PointOverview) -> list[Awaited]:
        """What is awaited of the taps of a point's well."""
        household = self._household
        found = awaited(household.outline, household.catalogue, household.today)
        return [one for one in found if one.well.id == point.point.well]

    def _upkeep(self, point: PointOverview | None) -> tuple[UpkeepItem, ...]:
        """What is due by today at the units and the wellhead of a point's well."""
        household = self._household
        if point is None:
            return ()
        found = upkeep_items(household.outline, household.upkeep, household.today)
        here = (item for item in found if item.well.id == point.point.well)
        return due_now(here, household.today)

    @property
    def order(self) -> tuple[str, ...]:
        """Keys of the parameters in the order in which they stand on the page; sums have none."""
        return tuple(line.key for line in self.model.rows if isinstance(line.standing, Standing))

    def _refill(self) -> None:
        standings = self._point.by_urgency if self._point else ()
        self.model.show(lines(standings, self.search.text()))
        self.notes.setText(self._note(self._point))
        self.notes.setVisible(bool(self.notes.text()))

    def _note(self, point: PointOverview | None) -> str:
        if point is None:
            return _(
                "This book is empty. Name the place where you draw samples (menu Record, "
                "“Sampling point”), then enter a test."
            )
        if not point.standings:
            return _(
                "No test has been entered at this point yet. Choose “Add a test” above, or drop "
                "the lab’s file on this window."
            )
        if not self.model.rows:
            return _("No parameter of that name was tested at this point.")
        if point.unknown:
            names = ", ".join(point.unknown)
            return _(
                "Kept as printed but not compared, because the name is not known: {names}."
            ).format(names=names)
        return ""

    def _on_chosen(self, line: Line) -> None:
        if isinstance(line.standing, Standing):
            self.parameter_chosen.emit(line.key)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the wheel out where the table needs the room."""
        super().resizeEvent(event)
        self.wheel.setVisible(self.width() > _NARROW * em(self))
