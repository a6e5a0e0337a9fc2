"""One parameter at one point: the sentence that says what it means, chart, table, limits."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.book.rows import Point
from wellbook.charts.model.parts import Chart, EventMark
from wellbook.planning.between import between
from wellbook.planning.settings import scheme, shown, yardsticks
from wellbook.support.translation import _
from wellbook.water.statistics.summary import spread
from wellbook.water.statistics.trend import Direction
from wellbook.water.statistics.trend_power import outlook
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.words import day_words, limit_beside, moment_words
from wellbook.window.dialogs.report.report_dialog import report_of
from wellbook.window.pages import limit_list
from wellbook.window.pages.caution_box import CautionBox
from wellbook.window.pages.parameter import chart_events, result_rows
from wellbook.window.widgets.chart_view import FigureView
from wellbook.window.widgets.layouts import SUBTITLE, TITLE, LongPage, VerdictLine, named, words
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import latest_change, trends, verdicts

_CHART_HIGH, _MOST_ROWS = 22, 12  # ems, lines
LEAST_TOLD = 4  # tests from which the middle of a history is told


class ParameterPage(LongPage):
    """Title and meaning first, the picture next, the figures under it.

    Signals:
        back_wanted: The person wants to go back to the overview.
        report_wanted: The report of a reading is to be shown; carries the result.
    """

    back_wanted = Signal()
    report_wanted = Signal(object)

    def __init__(
        self,
        household: Household,
        record: Callable[[int], PointRecord],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._household, self._record = household, record
        self.chart: Chart | None = None
        self._point: Point | None = None
        self._standing: Standing | None = None
        self.title = words(factor=TITLE, bold=True)
        self.verdict = VerdictLine()
        self.sentence = words()
        self.change = words()
        self.long_run = words()
        self.cautions = CautionBox()
        self.figure = FigureView(_("Results over the years"))
        self.figure.setFixedHeight(em(self) * _CHART_HIGH)
        self.notes = words(quiet=True)
        self.table = Table(_("Results in figures"))
        self.table.chosen.connect(self._on_chosen)
        self.model: RowsModel | None = None
        self.why = words()
        self.limits = QVBoxLayout()
        self.beside = QComboBox()
        self.beside.activated.connect(self._draw)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        self.rows.setContentsMargins(unit * 2, unit, unit * 2, unit * 2)
        back = QPushButton(_("Back to the overview"))
        back.clicked.connect(self.back_wanted)
        self._beside_label = named(_("&Compare with:"), self.beside)
        self.beside.setAccessibleName(_("Compare with another point"))
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self._beside_label)
        head.addWidget(self.beside)
        head.addWidget(back)
        self.rows.addLayout(head)
        self.add(self.verdict, self.sentence, self.cautions, self.figure, self.notes)
        self._change_title = words(_("Since the test before"), factor=SUBTITLE, bold=True)
        self.add(self._change_title, self.change)
        self._long_run_title = words(_("In the long run"), factor=SUBTITLE, bold=True)
        self.add(self._long_run_title, self.long_run)
        self.add(words(_("In figures"), factor=SUBTITLE, bold=True))
        self.add(self.table)
        self.add(words(_("Why it matters"), factor=SUBTITLE, bold=True))
        self.add(self.why)
        self.add(words(_("Limits"), factor=SUBTITLE, bold=True))
        self.rows.addLayout(self.limits)
        self.rows.addStretch(1)

    def show_standing(
        self, point: Point, standing: Standing, others: Sequence[Point], cautions: Sequence[str]
    ) -> None:
        """Show a parameter at a point; `others` are the points it can be compared with."""
        self._point, self._standing = point, standing
        parameter = standing.parameter
        self.title.setText(parameter.name)
        self.title.setAccessibleName(f"{parameter.name}, {point.name}")
        self.verdict.say(standing.now.verdict, _standing_words(standing))
        self.why.setText(parameter.why)
        self.cautions.show_cautions(cautions)
        self._show_change(point, standing)
        self._show_long_run(point, standing)
        self._offer(others)
        self._fill_table(point, parameter)
        limit_list.fill(self.limits, parameter, self._household)
        self._draw()

    def _show_change(self, point: Point, standing: Standing) -> None:
        changed = standing.change
        for widget in (self._change_title, self.change):
            widget.setVisible(changed is not None)
        if changed is None:
            return
        book = self._household.book
        services = [s for unit in book.units(point.well) for s in book.services(unit.id)]
        happened = between(book.events(point.well), services, changed.before, changed.day)
        self.change.setText(latest_change.paragraph(changed, happened))

    def _show_long_run(self, point: Point, standing: Standing) -> None:
        """The middle of the history, and how many more tests would tell a trend."""
        parameter, found = standing.parameter, standing.trend
        history = self._record(point.id).history(parameter.key)
        told = found.n >= LEAST_TOLD and parameter.scale != "presence"
        for widget in (self._long_run_title, self.long_run):
            widget.setVisible(told)
        if not told:
            return
        said = [trends.spread(spread(history, parameter))]
        if found.says in {Direction.FEW, Direction.MAYBE_SEASON}:
            said.append(trends.outlook(outlook(history, parameter)))
        self.long_run.setText(" ".join(said))

    def _offer(self, others: Sequence[Point]) -> None:
        self.beside.clear()
        self.beside.addItem(_("no other point"), None)
        for other in others:
            if self._standing and self._record(other.id).history(self._standing.parameter.key):
                self.beside.addItem(other.name, other)
        for widget in (self.beside, self._beside_label):
            widget.setVisible(self.beside.count() > 1)

    def _fill_table(self, point: Point, parameter: Parameter) -> None:
        household, record = self._household, self._record(point.id)
        by = yardsticks(household.record.settings, household.catalogue)
        lines = result_rows.lines(record, parameter, *by, household.today)
        columns = result_rows.columns(parameter, lines)
        self.model = RowsModel(columns, lambda line: line.result.id, self.table)
        self.model.show(lines)
        self.table.setModel(self.model)
        self.table.fit(stretch=len(columns) - 1)
        self.table.arrange(f"results {len(columns)}")
        high = self.table.verticalHeader().defaultSectionSize()
        shown = min(len(self.model.rows), _MOST_ROWS) + 1
        self.table.setFixedHeight(high * shown + em(self) * 2)

    def _on_chosen(self, line: object) -> None:
        if isinstance(line, result_rows.Line) and report_of(self._household, line.result):
            self.report_wanted.emit(line.result)

    def _draw(self) -> None:
        """Describe the chart at once, draw it when the page has been painted."""
        from wellbook.charts.model.describe import chart

        if self._point is None or self._standing is None:
            return
        household, other = self._household, self.beside.currentData()
        settings = household.record.settings
        catalogue, chosen = yardsticks(settings, shown(settings, household.catalogue))
        self.chart = chart(
            self._record(self._point.id),
            catalogue.parameters[self._standing.parameter.key],
            catalogue,
            chosen,
            self._events(self._point.well),
            scheme(settings),
            household.today,
            other=self._record(other.id) if other else None,
            names=(self._point.name, other.name if other else ""),
        )
        self.sentence.setText(self.chart.sentence)
        self.notes.setText(" ".join(self.chart.notes))
        self.notes.setVisible(bool(self.chart.notes))
        QTimer.singleShot(0, self._show_figure)

    def _events(self, well: int) -> list[EventMark]:
        return chart_events.marks(self._household.record.events_of(well))

    def _show_figure(self) -> None:
        from wellbook.charts.draw.drawing import draw

        described = self.chart
        if described is None:
            return
        steps = [f"{day_words(mark.day)}: {mark.label}" for mark in described.marks]
        self.figure.show_figure(
            lambda figure, theme: draw(described, figure, theme), described.sentence, steps
        )


def _standing_words(standing: Standing) -> str:
    limit = standing.now.limit
    allowed = limit_beside(limit, standing.latest.reading, standing.parameter)
    said = (
        _("{verdict} Sampled on {day}; limit: {allowed}.")
        if allowed
        else _("{verdict} Sampled on {day}.")
    )
    return said.format(
        verdict=verdicts.sentence(standing.now),
        day=moment_words(standing.latest.collected),
        allowed=allowed,
    )
