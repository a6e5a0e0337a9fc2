"""One parameter at one point: the sentence that says what it means, chart, table, limits."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QHBoxLayout,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.rows import Event, Point
from wellbook.charts.model.parts import Chart, EventMark, Mark
from wellbook.planning.between import since_test_before
from wellbook.planning.consulting import consulted, hints_of
from wellbook.planning.overview import PointOverview
from wellbook.planning.settings import measured, scheme, shown, yardsticks
from wellbook.support.translation import _
from wellbook.water.statistics.outcomes import Direction
from wellbook.water.statistics.trend_power import outlook
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.point_record import Assessed, PointRecord
from wellbook.water.verdicts.status import Standing
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.pages import limit_list
from wellbook.window.pages.caution_box import CautionBox
from wellbook.window.pages.parameter import chart_events, parameter_words, result_rows
from wellbook.window.pages.parameter.chart_choices import ChartChoices
from wellbook.window.pages.parameter.chart_deeds import ChartDeeds
from wellbook.window.pages.parameter.month_dots import MonthDots
from wellbook.window.pages.parameter.time_chart import TimeChart
from wellbook.window.widgets.chart_view import Drawing
from wellbook.window.widgets.layouts import SUBTITLE, TITLE, LongPage, VerdictLine, words
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import latest_change, trends
from wellbook.wording.consulting import levels, salt_sources, treatment_fit

if TYPE_CHECKING:
    from wellbook.water.values.results import Result

_CHART_HIGH, _MOST_ROWS = 22, 12  # ems, lines
_BESIDE = 20  # ems of the column beside the chart
_WIDE = 78  # ems of the page, from which that column stands beside it


class ParameterPage(LongPage):
    """Title and meaning first, the picture next, the figures under it.

    Signals:
        back_wanted: The person wants to go back to the overview.
        point_wanted: Another point is to be shown; carries its number.
        report_wanted: The report of a reading is to be shown; carries the result.
    """

    back_wanted = Signal()
    point_wanted = Signal(int)
    report_wanted = Signal(object)

    def __init__(
        self,
        household: Household,
        record: Callable[[int], PointRecord],
        bar: MessageBar,
        chooser: Chooser,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._household, self._record = household, record
        self.chart: Chart | None = None
        self._second: Chart | None = None
        self._point: Point | None = None
        self._standing: Standing | None = None
        self._judged: Standing | None = None  # by the limits that are chosen here
        self._assessed: Sequence[Assessed] = ()  # every result, by the same limits
        self._results: dict[int, Result] = {}
        self.title = words(factor=TITLE, bold=True)
        self.verdict = VerdictLine()
        self.short = words()
        self.how = QPushButton(_("How this was worked out"))
        self.how.setCheckable(True)
        self.sentence = words(quiet=True)
        self.how.toggled.connect(self.sentence.setVisible)
        self.change = words()
        self.long_run = words()
        self.origin, self.fit = words(), words()
        self.cautions = CautionBox()
        self.deeds = ChartDeeds(self, bar, chooser)
        self.choices = ChartChoices(household, self.deeds.menu(self))
        self.beside = self.choices.beside
        self.figure = TimeChart(_("Results over the years"), self._mark_words, self.menu)
        self.below = TimeChart(_("The other parameter over the years"), self._mark_words)
        self.months = MonthDots()
        self.notes = words(quiet=True)
        self.table = Table(_("Results in figures"))
        self.model: RowsModel | None = None
        self.why = words()
        self.limits = QVBoxLayout()
        self._lay_out()
        self._connect()

    @property
    def menu(self) -> QMenu:
        """What can be done with the picture and the table."""
        return self.choices.deeds.menu()

    def _connect(self) -> None:
        self.choices.changed.connect(self._draw)
        self.choices.span_chosen.connect(self._on_span)
        self.choices.point_wanted.connect(self.point_wanted)
        self.table.chosen.connect(self._on_chosen)
        for chart, other in ((self.figure, self.below), (self.below, self.figure)):
            chart.mark_chosen.connect(self._on_mark)
            chart.stretched.connect(lambda chart=chart, other=other: _follow(chart, other))

    def _lay_out(self) -> None:
        unit = em(self)
        self.rows.setContentsMargins(unit * 2, unit, unit * 2, unit * 2)
        back = QPushButton(_("Back to the overview"))
        back.clicked.connect(self.back_wanted)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(back)
        self.rows.addLayout(head)
        self.add(self.verdict, self.short, self.cautions)
        how = QHBoxLayout()
        how.addWidget(self.how)
        how.addStretch(1)
        self.rows.addLayout(how)
        self.add(self.sentence, self.choices)
        self.sentence.setVisible(False)
        self.figure.setFixedHeight(unit * _CHART_HIGH)
        self.below.setFixedHeight(unit * _CHART_HIGH * 3 // 4)
        self._change_title = words(_("Since the test before"), factor=SUBTITLE, bold=True)
        self._long_run_title = words(_("In the long run"), factor=SUBTITLE, bold=True)
        self._side = QWidget()
        side = QVBoxLayout(self._side)
        side.setContentsMargins(0, 0, 0, 0)
        for widget in (
            words(_("By month of the year"), factor=SUBTITLE, bold=True),
            self.months,
            self._change_title,
            self.change,
            self._long_run_title,
            self.long_run,
        ):
            side.addWidget(widget)
        side.addStretch(1)
        charts = QVBoxLayout()
        charts.addWidget(self.figure)
        charts.addWidget(self.below)
        charts.addWidget(self.notes)
        charts.addStretch(1)
        self._body = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._body.setSpacing(unit)
        self._body.addLayout(charts, 1)
        self._body.addWidget(self._side)
        self.rows.addLayout(self._body)
        self._origin_title = words(_("Where it may come from"), factor=SUBTITLE, bold=True)
        self._fit_title = words(_("What usually takes it out"), factor=SUBTITLE, bold=True)
        self.add(self._origin_title, self.origin, self._fit_title, self.fit)
        self.add(words(_("In figures"), factor=SUBTITLE, bold=True))
        self.add(self.table)
        self.add(words(_("Why it matters"), factor=SUBTITLE, bold=True))
        self.add(self.why)
        self.add(words(_("Limits"), factor=SUBTITLE, bold=True))
        self.rows.addLayout(self.limits)
        self.rows.addStretch(1)

    def show_standing(
        self,
        point: Point,
        standing: Standing,
        others: Sequence[Point],
        cautions: Sequence[str],
    ) -> None:
        """Show a parameter at a point; `others` are the points it can be compared with."""
        self._point, self._standing = point, standing
        parameter = standing.parameter
        self.title.setText(
            _("{parameter}, {point}").format(parameter=parameter.name, point=point.name)
            if others
            else parameter.name
        )
        self.title.setAccessibleName(f"{parameter.name}, {point.name}")
        self.why.setText(parameter.why)
        self.cautions.show_cautions(cautions)
        self._show_long_run(point, standing)
        self._show_consulted(point, standing)
        record, known = self._record(point.id), self._household.catalogue.parameters
        told_at = [one for one in others if self._record(one.id).history(parameter.key)]
        shown_in = shown(self._household.record.settings, self._household.catalogue)
        self.choices.offer(
            told_at,
            shown_in.parameters[parameter.key],
            (known[key] for key in record.histories if key in known),
        )
        self._draw()

    def _show_judged(self, point: Point, own: Standing) -> Standing:
        """Show how it stands by the limits that are chosen on this page; returns that."""
        judged = self.choices.judged(own, self._record(point.id))
        self.verdict.say(judged.now.verdict, parameter_words.standing(judged, own))
        self._show_change(point, judged)
        self._fill_table(point, own.parameter)
        limit_list.fill(self.limits, own.parameter, self._household, self.choices.sets)
        return judged

    def _show_change(self, point: Point, standing: Standing) -> None:
        changed = standing.change
        for widget in (self._change_title, self.change):
            widget.setVisible(changed is not None)
        if changed is None:
            return
        happened = since_test_before(self._household.record, point.well, changed)
        self.change.setText(latest_change.paragraph(changed, happened))

    def _show_long_run(self, point: Point, standing: Standing) -> None:
        """The middle of the history, and how many more tests would tell a trend."""
        parameter, told = standing.parameter, standing.summary is not None
        for widget in (self._long_run_title, self.long_run):
            widget.setVisible(told)
        if not told:
            return
        said = [levels.summary(standing)]
        if standing.trend.says in {Direction.FEW, Direction.MAYBE_SEASON}:
            history = self._record(point.id).history(parameter.key)
            said.append(trends.outlook(outlook(history, parameter, standing.trend)))
        self.long_run.setText(" ".join(said))

    def _show_consulted(self, point: Point, standing: Standing) -> None:
        """Where it may come from and what usually takes it out; of raw water only."""
        found = PointOverview(point, (standing,), ())
        told = consulted(found, self._record(point.id), self._household.catalogue)
        key = standing.parameter.key
        out = [treatment_fit.paragraph(fit) for fit in told.fits if fit.is_about(key)]
        shown = (
            (self._origin_title, self.origin, salt_sources.paragraph(hints_of(told, key))),
            (self._fit_title, self.fit, " ".join((*out, treatment_fit.caution())) if out else ""),
        )
        for title, label, said in shown:
            label.setText(said)
            title.setVisible(bool(said))
            label.setVisible(bool(said))

    def _fill_table(self, point: Point, parameter: Parameter) -> None:
        household, record = self._household, self._record(point.id)
        catalogue, _own = yardsticks(household.record.settings, household.catalogue)
        chosen = self.choices.sets
        history = record.history(parameter.key)
        self._assessed = assess(history, record, catalogue, chosen, household.today)
        lines = result_rows.lines(self._assessed, parameter)
        columns = result_rows.columns(parameter, lines)
        self.model = RowsModel(columns, lambda line: line.result.id, self.table)
        self.model.show(lines)
        self.table.setModel(self.model)
        self.table.fit(stretch=len(columns) - 1)
        self.table.arrange(f"results {len(columns)}")
        high = self.table.verticalHeader().defaultSectionSize()
        shown = min(len(self.model.rows), _MOST_ROWS) + 1
        self.table.setFixedHeight(high * shown + em(self) * 2)

    def _draw(self) -> None:
        """Describe the chart at once, draw it when the page has been painted."""
        if self._point is None or self._standing is None:
            return
        self._judged = judged = self._show_judged(self._point, self._standing)
        self.chart = self.described()
        key = self.choices.second
        self._second = self.described(key=key) if key else None
        self.below.setVisible(bool(key))
        self.sentence.setText(self.chart.sentence)
        sets, today = self._household.catalogue.sets, self._household.today
        self.short.setText(parameter_words.short(self.chart, judged, sets, today))
        self.notes.setText(" ".join(self.chart.notes))
        self.notes.setVisible(bool(self.chart.notes))
        self.months.show_chart(self.chart)
        QTimer.singleShot(0, self._show_figure)

    def described(self, *, key: str = "", is_private: bool = True) -> Chart:
        """The chart as it is chosen; for others it is made without what `is_private`.

        Args:
            key: Another parameter, drawn by the same choices.
            is_private: Whether events that tell of people are shown.

        Raises:
            ValueError: Nothing is shown yet.
        """
        from wellbook.charts.model.describe import chart

        if self._point is None or self._standing is None:
            raise ValueError("no parameter is shown")
        household, other = self._household, self.choices.other
        settings = household.record.settings
        catalogue = measured(settings, shown(settings, household.catalogue))
        parameter = catalogue.parameters[key or self._standing.parameter.key]
        events = household.record.events_of(self._point.well)
        return chart(
            self._record(self._point.id),
            parameter if key else self.choices.in_unit(parameter),
            catalogue,
            self.choices.sets,
            self._events(events if is_private else [e for e in events if not e.is_about_people]),
            scheme(settings),
            household.today,
            other=self._record(other.id) if other else None,
            names=(self._point.name, other.name if other else ""),
            known=[self._judged or self._standing],
            assessed=() if key else self._assessed,
        )

    def _events(self, events: Sequence[Event]) -> list[EventMark]:
        return chart_events.marks(events)

    def _show_figure(self) -> None:
        if self.chart is None or Drawing.awaits(self, self._show_figure):
            return
        # What was said anew gets its room first: drawing takes its time.
        QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
        self._results = {
            result.id: result
            for point in (self._point, self.choices.other)
            if point is not None
            for results in self._record(point.id).histories.values()
            for result in results
        }
        days = self._days(self.chart)
        self.figure.least_left = self.below.least_left = 0.0
        if self._second is not None:
            first = min(self.chart.first, self._second.first)
            last = max(self.chart.last, self._second.last)
            self.chart, self._second = (
                replace(one, first=first, last=last) for one in (self.chart, self._second)
            )
            days = self._days(self.chart)
            self.below.show_chart(self._second, days)
            self.figure.least_left = self.below.drawn.left
        self.figure.show_chart(self.chart, days)
        if self._second is not None and self.figure.drawn.left > self.below.drawn.left:
            self.below.least_left = self.figure.drawn.left
            self.below.redraw()

    def _days(self, chart: Chart) -> tuple[date, date]:
        years = self.choices.span.currentData()
        if not years:
            return chart.first, chart.last
        first = date(max(chart.last.year - years, 1), chart.last.month, 1)
        return max(first, chart.first), chart.last

    def _on_span(self) -> None:
        if self.chart is not None:
            self.figure.show_days(self._days(self.chart))
            _follow(self.figure, self.below)

    def _mark_words(self, mark: Mark) -> str:
        chart, result = self.chart, self._results.get(mark.result)
        own = [one for series in chart.series for one in series.marks] if chart else []
        unit = chart.unit if chart and mark in own else ""
        return parameter_words.mark(mark, unit, result.lab if result else "")

    def _on_mark(self, mark: Mark) -> None:
        if mark.result in self._results:
            self.report_wanted.emit(self._results[mark.result])

    def _on_chosen(self, line: object) -> None:
        if isinstance(line, result_rows.Line):
            self.report_wanted.emit(line.result)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Set the months beside the chart, or below it where there is no room."""
        super().resizeEvent(event)
        is_wide = self.width() > _WIDE * em(self)
        way = QBoxLayout.Direction
        self._body.setDirection(way.LeftToRight if is_wide else way.TopToBottom)
        self._side.setMaximumWidth(em(self) * _BESIDE if is_wide else 16777215)
        self.choices.lay_out(wide=is_wide)


def _follow(chart: TimeChart, other: TimeChart) -> None:
    """Have another chart show the same days."""
    if chart.days is not None and other.isVisible():
        other.show_days(chart.days)
