"""Every test in the book with its readings and documents; correct, strike out."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.rows import Sample
from wellbook.planning.settings import sets
from wellbook.support.translation import _
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.dialogs.report.report_dialog import report_of
from wellbook.window.pages import sample_rows
from wellbook.window.widgets.documents_box import DocumentsBox
from wellbook.window.widgets.layouts import SUBTITLE, lock, scrolled, words
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.lists.giving_way import GivingWay
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.splitter import Splitter
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table

_REMARK, _PASSED = 7, 8  # places of columns in the model
_GIVE_WAY = (4, 3, 6, 5, 2)  # purpose, lab's number, documents, readings, lab: the first to go
_LEAST = 32  # ems of height of both lists; on a lower window the page scrolls
_WIDE = 84  # ems; below, what can be done stands below the name of the test


class SamplesPage(QWidget):
    """A table of tests, and under it what belongs to the chosen one.

    Signals:
        strike_wanted: A test is to be struck out; carries the sample.
        restore_wanted: A struck test is to be counted again; carries the sample.
        correct_wanted: The facts of a test are to be corrected; carries the sample.
        correct_reading_wanted: A reading is to be corrected; carries sample and result.
        add_reading_wanted: A reading that was left out is to be added; carries the sample.
        report_wanted: The report of a reading is to be shown; carries the result.
    """

    strike_wanted = Signal(object)
    restore_wanted = Signal(object)
    correct_wanted = Signal(object)
    correct_reading_wanted = Signal(object, object)
    add_reading_wanted = Signal(object)
    report_wanted = Signal(object)

    def __init__(
        self, household: Household, bar: MessageBar, chooser: Chooser, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._household = household
        self._records: dict[int, PointRecord] = {}
        self._passed: dict[int, sample_rows.Passed] = {}
        self.loader = Loader(self)
        self.loader.failed.connect(bar.say)
        self.table = Table(_("All tests"))
        self.model = RowsModel(sample_rows.columns(), lambda line: line.sample.id, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=_REMARK)
        self._giving_way = GivingWay(self.table, _GIVE_WAY, stretch=_REMARK)
        self.table.horizontalHeader().moveSection(_PASSED, 1)
        said = _("Choose “Add a test” above, or drop the lab’s file on this window.")
        self.empty = EmptyWords(self.table, self.model, said)
        self.search = FindField(_("Find a test"), self.table)
        self.table.picked.connect(self._on_picked)
        self.title = words(factor=SUBTITLE, bold=True)
        self.readings = Table(_("Readings of the chosen test"))
        self.readings_model = RowsModel(
            sample_rows.reading_columns(), lambda line: line.result.id, self
        )
        self.readings.setModel(self.readings_model)
        self.readings.fit(stretch=2)
        name = _("Documents of the chosen test")
        self.documents = DocumentsBox(household, bar, chooser, name)
        self.correct_button = QPushButton(_("Correct the test…"))
        self.reading_button = QPushButton(_("Correct the reading…"))
        self.add_button = QPushButton(_("Add a reading…"))
        self.add_button.clicked.connect(lambda: self.add_reading_wanted.emit(self.sample))
        self.report_button = QPushButton(_("Show it in the report…"))
        self.report_button.clicked.connect(lambda: self._on_report(self.readings.row()))
        self.readings.chosen.connect(self._on_report)
        self.strike_button = QPushButton(_("Strike out…"))
        self.strike_button.clicked.connect(self._on_strike)
        self.correct_button.clicked.connect(self._on_correct)
        self.reading_button.clicked.connect(self._on_correct_reading)
        self.readings.picked.connect(self._on_reading)
        self.table.arrange("tests", self.correct_button, self.strike_button)
        self.readings.arrange("readings", self.reading_button, self.add_button)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        below = QHBoxLayout()
        below.setSpacing(unit)
        below.addWidget(self.readings, 3)
        below.addWidget(self.documents, 1)
        self._head = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._head.addWidget(self.title, 1)
        deeds = QHBoxLayout()
        deeds.addStretch(1)
        for button in (
            self.report_button,
            self.add_button,
            self.reading_button,
            self.correct_button,
            self.strike_button,
        ):
            deeds.addWidget(button)
        self._head.addLayout(deeds)
        lower = QWidget()
        column = QVBoxLayout(lower)
        column.setContentsMargins(0, unit // 2, 0, 0)
        column.addLayout(self._head)
        column.addLayout(below, 1)
        split = Splitter("tests", Qt.Orientation.Vertical, (self.table, lower))
        split.share(16, 22)
        split.setMinimumHeight(unit * _LEAST)
        page = QVBoxLayout()
        page.setContentsMargins(unit * 2, unit, unit * 2, unit)
        page.addWidget(self.search)
        page.addWidget(split, 1)
        scrolled(self, page)

    def refresh(self) -> None:
        """Show the book as it is now."""
        self._records.clear()
        self._show_lines()
        self.loader.ask(sample_rows.to_pass(self._household, self._sets), self._on_passed)
        if self.table.row() is None and self.model.rows:
            self.table.pick(0)
        else:
            self._on_picked(self.table.row())

    @property
    def _sets(self) -> tuple[str, ...]:
        """Keys of the limit sets that the household compares with."""
        return tuple(sets(self._household.record.settings, self._household.catalogue))

    def _show_lines(self) -> None:
        self.model.show(sample_rows.lines(self._household, self._passed))
        self._giving_way.start()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave out what there is no room for; set name and buttons below one another."""
        super().resizeEvent(event)
        way = QBoxLayout.Direction
        is_wide = self.width() > _WIDE * em(self)
        self._head.setDirection(way.LeftToRight if is_wide else way.TopToBottom)
        self._giving_way.start()

    def _on_passed(self, passed: dict[int, sample_rows.Passed]) -> None:
        """Say which tests had something outside a limit."""
        self._passed = passed
        self._show_lines()
        self.table.fit(stretch=_REMARK)

    def show_test(self, number: int) -> None:
        """Make the test of a number the current one."""
        for place, line in enumerate(self.model.rows):
            if line.sample.id == number:
                self.table.pick(place)

    def clean_up(self) -> None:
        """Work nothing out any more; remove the copies of documents that were opened elsewhere."""
        self.loader.stop()
        self.documents.clean_up()

    @property
    def sample(self) -> Sample | None:
        """The chosen sample."""
        line = self.table.row()
        return line.sample if isinstance(line, sample_rows.Line) else None

    def _on_picked(self, line: object) -> None:
        sample = line.sample if isinstance(line, sample_rows.Line) else None
        chosen = self._sets
        self.readings_model.show(
            sample_rows.reading_lines(self._household, self._at(sample.point), sample.id, chosen)
            if sample
            else ()
        )
        self.documents.show_sample(sample.id if sample else 0)
        self._name(line if isinstance(line, sample_rows.Line) else None)

    def _at(self, point: int) -> PointRecord:
        """All results at a point, those of struck tests too, until the book is shown anew."""
        if point not in self._records:
            results = self._household.record.results(point, with_struck=True)
            self._records[point] = PointRecord.of(results)
        return self._records[point]

    def _name(self, line: sample_rows.Line | None) -> None:
        if line is None:
            self.title.setText(_("No test has been entered yet."))
        else:
            text = _("{day}, {point}")
            day = sample_rows.columns()[0].text(line)
            self.title.setText(text.format(day=day, point=line.point))
        is_struck = line is not None and bool(line.sample.struck)
        self.strike_button.setText(_("Count it again") if is_struck else _("Strike out…"))
        deeds = self.strike_button, self.correct_button, self.add_button
        lock(self._household.why_readonly, *deeds)
        if line is None:
            for button in deeds:
                button.setEnabled(False)
        self._on_reading(self.readings.row())

    def _on_reading(self, line: object) -> None:
        lock(self._household.why_readonly, self.reading_button)
        result = line.result if isinstance(line, sample_rows.ReadingLine) else None
        has_report = result is not None and report_of(self._household, result) is not None
        self.report_button.setEnabled(has_report)
        first = _("Choose a reading in the list below first.")
        set_tip(self.report_button, first if result is None else "")
        if result is None and self.reading_button.isEnabled():
            self.reading_button.setEnabled(False)
            set_tip(self.reading_button, first)

    def _on_correct(self) -> None:
        if self.sample is not None:
            self.correct_wanted.emit(self.sample)

    def _on_correct_reading(self) -> None:
        line = self.readings.row()
        if self.sample is not None and isinstance(line, sample_rows.ReadingLine):
            self.correct_reading_wanted.emit(self.sample, line.result)

    def _on_report(self, line: object) -> None:
        if isinstance(line, sample_rows.ReadingLine) and report_of(self._household, line.result):
            self.report_wanted.emit(line.result)

    def _on_strike(self) -> None:
        if self.sample is not None:
            wanted = self.restore_wanted if self.sample.struck else self.strike_wanted
            wanted.emit(self.sample)
