"""The first page of an open book: the answer, what is next, where every parameter stands."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from wellbook.book.rows import Sample
from wellbook.planning.overview import PointOverview
from wellbook.planning.upkeep.due import UpkeepItem, due_now, upkeep_items
from wellbook.support.translation import _
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.window.common import advice
from wellbook.window.common import words as common
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.pages.caution_box import CautionBox
from wellbook.window.pages.overview.answer_card import AnswerCard
from wellbook.window.pages.overview.answer_words import answer
from wellbook.window.pages.overview.first_steps import FirstSteps
from wellbook.window.pages.overview.history_lines import (
    HistoryDelegate,
    HistoryLine,
    ShareDelegate,
    history_line,
    share_of_limit,
)
from wellbook.window.pages.overview.month_wheel import MonthWheel
from wellbook.window.pages.overview.next_card import NextCard
from wellbook.window.pages.overview.overview_rows import Group, Line, columns, lines, order
from wellbook.window.pages.overview.upkeep_lines import UpkeepLines
from wellbook.window.widgets.layouts import scrolled, words
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import latest_change

if TYPE_CHECKING:
    from wellbook.planning.lab.awaited import Awaited

_WHEEL = 84  # ems of width; below, the wheel makes room for the words
_LOW = 36  # ems of height; below, only the answer itself is said at the top
_LEAST = 10  # ems of height that the list keeps; on a lower window the page scrolls
_NEXT = (34, 20)  # ems of the card of what is next, with the wheel and without
# Places of the columns in the model.
_SAMPLED, _LIMIT, _TREND, _TESTS, _YEARS, _SHARE = 2, 4, 5, 6, 7, 8
_GIVE_WAY = (_TESTS, _SHARE, _TREND, _SAMPLED, _YEARS)  # the first to go where there is no room


class OverviewPage(QWidget):
    """The answer beside what comes next, below them the list of parameters.

    Signals:
        parameter_chosen: A parameter was chosen; carries its key.
        next_wanted: What to do next about the water is to be shown.
    """

    parameter_chosen = Signal(str)
    next_wanted = Signal()

    def __init__(
        self,
        household: Household,
        record: Callable[[int], PointRecord],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._household, self._record = household, record
        self._point: PointOverview | None = None
        self._opened: dict[Group, bool] = {}
        self._histories: dict[str, HistoryLine] = {}
        self.answer = AnswerCard()
        self.answer.next_wanted.connect(self.next_wanted)
        self.answer.chart_wanted.connect(self.parameter_chosen)
        self.due = NextCard(household)
        self.upkeep = UpkeepLines(household.why_readonly)
        self.first_steps = FirstSteps(household.why_readonly)
        self.table = Table(_("Parameters at this point"))
        self.search = FindField(_("Find a parameter"), self.table, lambda _text: self._refill())
        self.model = RowsModel(
            columns(household.catalogue),
            lambda line: line.key,
            self,
            is_head=lambda line: line.standing is None,
            opens=lambda line: line.is_open is not None,
        )
        self._set_table()
        self.notes = words(quiet=True)
        self._lay_out()

    def _set_table(self) -> None:
        table = self.table
        table.setModel(self.model)
        table.fit(stretch=_LIMIT)
        table.chosen.connect(self._on_chosen)
        table.clicked.connect(self._on_clicked)
        head = table.horizontalHeader()
        self._painted: tuple[tuple[int, HistoryDelegate | ShareDelegate], ...] = (
            (_YEARS, HistoryDelegate(self._history, table)),
            (_SHARE, ShareDelegate(_share, table)),
        )
        for place, (column, delegate) in enumerate(self._painted):
            table.setItemDelegateForColumn(column, delegate)
            table.hold(column, delegate.width)
            head.moveSection(head.visualIndex(column), 2 + place)
        table.arrange("parameters")

    @property
    def care(self) -> CautionBox:
        """The cautions that apply to the water of the point."""
        return self.answer.care

    @property
    def wheel(self) -> MonthWheel:
        """The wheel of the year."""
        return self.due.wheel

    @property
    def changes(self) -> QLabel:
        """What is new in the latest test."""
        return self.answer.changes

    def _lay_out(self) -> None:
        unit = em(self)
        top = QHBoxLayout()
        top.setSpacing(unit)
        top.addWidget(self.answer, 1)
        top.addWidget(self.due)
        top.addStretch(0)  # without an answer the card stays at the left
        line = QHBoxLayout()
        self.search.setMaximumWidth(unit * 28)
        line.addWidget(self.search, 2)
        line.addSpacing(unit)
        line.addWidget(self.notes, 3)
        line.addStretch(0)
        column = QVBoxLayout()
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.setSpacing(unit // 2)
        column.addWidget(self.first_steps)
        column.addLayout(top)
        column.addLayout(line)
        column.addWidget(self.table, 1)
        column.addWidget(self.upkeep)  # below what is said of the water
        self.table.setMinimumHeight(unit * _LEAST)
        scrolled(self, column)

    def show_point(
        self,
        point: PointOverview | None,
        points: Sequence[PointOverview] = (),
        *,
        is_waiting: bool = False,
    ) -> None:
        """Show a sampling point, one of the `points` of its well; None in a book that has none yet.

        Where nothing was tested at any of them, the first steps are shown.

        What is due `is_waiting` to be worked out.
        """
        self._point = point
        self._histories.clear()
        self.table.viewport().update()  # small lines are drawn when the tests were read
        is_begun = any(one.standings or one.unknown for one in points)
        self.first_steps.setVisible(not is_begun)
        for card in (self.answer, self.table, self.search):
            card.setVisible(is_begun)
        self.due.setVisible(point is not None)
        if point is not None:
            cautions = advice.pressing(point, points, self._household)
            said = answer(point, self._household.catalogue, self._household.today)
            new = latest_change.latest_test(one.change for one in point.standings)
            self.answer.show_answer(said, cautions, new)
            if is_waiting:
                self.due.show_waiting()
            else:
                self.due.show_due(point, self._household.today, self._owed(point))
        self.upkeep.show_items(self._upkeep(point), self._household.today)
        self._refill()

    def _history(self, row: object) -> HistoryLine | None:
        if self._point is None or not isinstance(row, Line):
            return None
        if not isinstance(row.standing, Standing) or not self._household.reader.is_loaded:
            return None
        if row.key not in self._histories:
            record, today = self._record(self._point.point.id), self._household.today
            first = min((s.collected.day for s in self._samples), default=today)
            self._histories[row.key] = history_line(record, row.standing, first, today)
        return self._histories[row.key]

    @property
    def _samples(self) -> Sequence[Sample]:
        point = self._point
        return self._household.record.samples(point.point.id) if point else ()

    def _owed(self, point: PointOverview) -> "list[Awaited]":
        """What is awaited of the taps of a point's well."""
        from wellbook.planning.lab.awaited import awaited

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
        return order(self._point.by_urgency if self._point else ())

    def _refill(self) -> None:
        standings = self._point.by_urgency if self._point else ()
        self.model.show(lines(standings, self.search.text(), self._opened))
        self._say(self._note(self._point))
        self._give_way()

    def _say(self, note: str) -> None:
        self.notes.setText(note)
        self.notes.setVisible(bool(note) and self.first_steps.isHidden())

    def _note(self, point: PointOverview | None) -> str:
        if point is None:
            return ""
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

    def _on_clicked(self, index: QModelIndex) -> None:
        line = self.model.rows[index.row()]
        if line.is_open is not None:
            self._fold(line)

    def _fold(self, line: Line) -> None:
        self._opened[line.group] = not line.is_open
        self._refill()

    def _on_chosen(self, line: Line) -> None:
        if isinstance(line.standing, Standing):
            self.parameter_chosen.emit(line.key)
        elif isinstance(line.standing, SumStanding):
            self._say(self._parts(line.standing))
        elif line.is_open is not None:
            self._fold(line)

    def _parts(self, total: SumStanding) -> str:
        """What a sum was added up of: each part has a page, the sum has none."""
        rules = self._household.catalogue.sums
        keys = {term.parameter for rule in rules if rule.key == total.parameter.key
                for term in rule.members}  # fmt: skip
        shown = self._point.standings if self._point else ()
        parts = [
            _("{name} {reading}").format(
                name=one.parameter.name, reading=common.reading_words(one.latest.reading)
            )
            for one in shown
            if one.parameter.key in keys
        ]
        said = _("{name} is added up here, no lab reported it. Its parts have pages: {parts}.")
        return said.format(name=total.parameter.name, parts=", ".join(parts))

    def _give_way(self) -> None:
        """Leave out the columns that can be missed, before words of others are cut."""
        table = self.table
        wide = [table.sizeHintForColumn(n) for n in range(self.model.columnCount())]
        for column, delegate in self._painted:
            wide[column] = delegate.width * em(self)
        edge = table.verticalScrollBar().sizeHint().width() + 4 * em(self)  # margins of the page
        room, needed = self.width() - edge, sum(wide)
        left_out = []
        for column in _GIVE_WAY:
            if needed > room:
                left_out.append(column)
                needed -= wide[column]
        table.leave_out(left_out)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave out what the words need the room of."""
        super().resizeEvent(event)
        unit = em(self)
        with_wheel = self.width() > _WHEEL * unit
        self.due.wheel.setVisible(with_wheel)
        self.due.setFixedWidth(unit * _NEXT[not with_wheel])
        self.answer.be_brief(self.height() < _LOW * unit)
        self._give_way()


def _share(row: object) -> Decimal | None:
    if not isinstance(row, Line) or row.standing is None:
        return None
    return share_of_limit(row.standing.now)
