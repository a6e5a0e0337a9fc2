"""An open book: running head, its pages, and the way from one to another.

Only the overview is made at once; each other page when it is first gone to.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QMenu, QStackedWidget, QVBoxLayout, QWidget

from wellbook.book.rows import Sample
from wellbook.planning.overview import PointOverview, WellOverview, overview, point_record
from wellbook.support.translation import _, pgettext
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window.app import opening
from wellbook.window.app.book_actions import BookActions
from wellbook.window.app.due_loader import DueLoader
from wellbook.window.app.integrity_check import IntegrityCheck
from wellbook.window.app.reminder import Reminder
from wellbook.window.common import advice
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.preferences import Preferences
from wellbook.window.pages.overview_page import OverviewPage
from wellbook.window.widgets.layouts import rule
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.running_head import RunningHead

if TYPE_CHECKING:
    from wellbook.water.sampling.due import PanelDue
    from wellbook.window.pages.changes_page import ChangesPage
    from wellbook.window.pages.events_page import EventsPage
    from wellbook.window.pages.parameter_page import ParameterPage
    from wellbook.window.pages.samples_page import SamplesPage
    from wellbook.window.pages.well.well_page import WellPage
OVERVIEW, TESTS, EVENTS, WELL, PARAMETER, CHANGES = range(6)
_PAGES = {
    OVERVIEW: "overview",
    TESTS: "samples",
    EVENTS: "events",
    WELL: "well",
    PARAMETER: "parameter",
    CHANGES: "changes",
}
_REFRESHED = {"samples", "events", "well", "changes"}  # with the book, once they were gone to


class BookView(QWidget):
    """Shows a book and keeps every page in step with it.

    Signals:
        painted: It was painted for the first time; what takes longer may begin.
    """

    painted = Signal()

    def __init__(
        self,
        household: Household,
        bar: MessageBar,
        chooser: Chooser,
        preferences: Preferences,
        add_menu: QMenu,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.household, self._bar, self._chooser = household, bar, chooser
        self.page = OVERVIEW
        self._wells: tuple[WellOverview, ...] = ()
        self._point = 0
        self._parameter = ""
        self._before = OVERVIEW
        self._digest = ""
        self._records: dict[int, PointRecord] = {}
        self._dues: dict[int, tuple[PanelDue, ...]] | None = None
        self._was_painted = False
        self.ahead = DueLoader(household, self)
        names = [
            _("Overview"),
            pgettext("pages", "Tests"),
            _("Events"),
            _("Well"),
        ]
        self.head = RunningHead(names, add_menu)
        self.overview = OverviewPage(household)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.overview)
        self.desk = BookActions(household, bar, chooser, preferences, self)
        self.keeper = IntegrityCheck(household, bar, self)
        self.reminder = Reminder(household, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.head)
        column.addWidget(rule())
        column.addWidget(self.pages, 1)
        self._connect()

    def _connect(self) -> None:
        self.head.point_chosen.connect(self.show_point)
        self.head.page_chosen.connect(self.go)
        self.overview.parameter_chosen.connect(self.show_parameter)
        self.desk.changed.connect(self._on_changed)
        self.ahead.found.connect(self._on_dues)
        self.ahead.failed.connect(self._bar.say)
        self.overview.due.round_wanted.connect(self.desk.next_round)
        self.reminder.day_began.connect(self._on_changed)
        self.painted.connect(self.keeper.check_unasked)

    @cached_property
    def samples(self) -> "SamplesPage":
        """The page of tests."""
        from wellbook.window.pages.samples_page import SamplesPage

        page = SamplesPage(self.household, self._bar, self._chooser)
        page.strike_wanted.connect(self.desk.strike)
        page.restore_wanted.connect(self._on_restore)
        page.correct_wanted.connect(self.desk.correct)
        page.correct_reading_wanted.connect(self.desk.correct_reading)
        page.documents.kept.connect(self.desk.say_kept)
        page.refresh()
        self.pages.addWidget(page)
        return page

    @cached_property
    def events(self) -> "EventsPage":
        """The page of events."""
        from wellbook.window.pages.events_page import EventsPage

        page = EventsPage(self.household)
        page.add_wanted.connect(self.desk.add_event)
        page.change_wanted.connect(self.desk.change_event)
        page.removal_wanted.connect(self._on_removal)
        page.refresh()
        self.pages.addWidget(page)
        return page

    @cached_property
    def well(self) -> "WellPage":
        """The page of a well and all that belongs to it."""
        from wellbook.window.pages.well.well_page import WellPage

        page = WellPage(self.household, self._bar, self._chooser)
        page.dialog_wanted.connect(self.desk.enter)
        page.removal_wanted.connect(self._on_removal)
        page.documents.kept.connect(self.desk.say_kept)
        page.refresh()
        self.pages.addWidget(page)
        return page

    @cached_property
    def changes(self) -> "ChangesPage":
        """The page of what was written when."""
        from wellbook.window.pages.changes_page import ChangesPage

        page = ChangesPage(self.household)
        page.refresh()
        self.pages.addWidget(page)
        return page

    @cached_property
    def parameter(self) -> "ParameterPage":
        """The page of one parameter."""
        from wellbook.window.pages.parameter_page import ParameterPage

        page = ParameterPage(self.household, self._record)
        page.back_wanted.connect(self.back)
        self.pages.addWidget(page)
        return page

    def deeds(self) -> dict[str, Callable[[], object]]:
        """What the actions of the table do in an open book."""
        return {
            "add_file": self.desk.add_file,
            "add_by_hand": self.desk.add_by_hand,
            "paste": self.desk.paste,
            "add_event": self.desk.add_event,
            "add_point": self.desk.add_point,
            "undo": self.desk.taking_back.undo,
            "redo": self.desk.taking_back.redo,
            "check_book": self.keeper.check,
            "go_overview": lambda: self.go(OVERVIEW),
            "go_tests": lambda: self.go(TESTS),
            "go_events": lambda: self.go(EVENTS),
            "go_well": lambda: self.go(WELL),
            "go_changes": lambda: self.go(CHANGES),
            "go_back": self.back,
            "next_parameter": lambda: self._step(1),
            "previous_parameter": lambda: self._step(-1),
            "find": self._find,
            "next_round": self.desk.next_round,
            "export_packet": self.desk.export_packet,
            "export_tables": self.desk.export_tables,
        }

    @property
    def point(self) -> PointOverview | None:
        """The sampling point that is shown."""
        points = [point for well in self._wells for point in well.points]
        found = next((p for p in points if p.point.id == self._point), None)
        return found or (points[0] if points else None)

    def refresh(self) -> None:
        """Read the book anew and show it."""
        household = self.household
        household.book.was_changed_elsewhere()  # from here on the person sees what it was
        self._digest = household.book.digest()
        self._records.clear()
        self._wells = overview(household.book, household.catalogue, household.today, with_due=False)
        self._put_in_dues()
        if self._was_painted:
            self.ahead.start()
        shown = self.point
        self._point = shown.point.id if shown else 0
        self.head.show_wells(self._wells, self._point)
        names = [well.well.name for well in self._wells]
        self.head.name.setText(names[0] if len(names) == 1 else household.path.stem)
        self.head.show_page(self.page)
        self.overview.show_point(shown, is_waiting=self._dues is None)
        for made in _REFRESHED & self.__dict__.keys():
            getattr(self, made).refresh()
        if self.page == PARAMETER:
            self.show_parameter(self._parameter)

    def _put_in_dues(self) -> None:
        dues = self._dues or {}
        self._wells = tuple(
            replace(
                well,
                points=tuple(replace(p, due=dues.get(p.point.id, ())) for p in well.points),
            )
            for well in self._wells
        )

    def _on_dues(self, dues: "dict[int, tuple[PanelDue, ...]]") -> None:
        if dues != self._dues:
            self._dues = dues
            self._put_in_dues()
            self.overview.show_point(self.point, is_waiting=False)
        self.reminder.tell(self._wells)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Look ahead once the page was painted for the first time."""
        super().paintEvent(event)
        if not self._was_painted:
            self._was_painted = True
            QTimer.singleShot(0, self.ahead.start)
            QTimer.singleShot(0, self.painted.emit)

    def refresh_if_changed(self) -> None:
        """Show the book anew if something else wrote to it.

        Raises:
            Fault: The file is gone, or another one lies in its place.
        """
        self.household.book.require_in_place()
        if self.household.book.digest() != self._digest:
            self.refresh()

    def close_book(self) -> None:
        """Let work under way come to an end, then close the file."""
        self.ahead.stop()
        self.reminder.stop()
        self.keeper.stop()
        self.overview.wheel.show_point(None)
        self.desk.wait()
        for made in {"samples", "well"} & self.__dict__.keys():
            getattr(self, made).clean_up()
        self.household.book.close()
        if not self.household.why_readonly:
            opening.release(self.household.path)

    def go(self, page: int) -> None:
        """Show a page."""
        if page != self.page:
            self._before, self.page = self.page, page
        self.pages.setCurrentWidget(getattr(self, _PAGES[page]))
        self.head.show_page(page)

    def back(self) -> None:
        """Show the page before; from a parameter always the overview."""
        self.go(OVERVIEW if self.page == PARAMETER else self._before)
        if self.page == OVERVIEW:
            self.overview.table.setFocus()

    def show_point(self, number: int) -> None:
        """Show another sampling point."""
        self._point = number
        shown = self.point
        self.overview.show_point(shown, is_waiting=self._dues is None)
        if self.page == PARAMETER:
            keys = [standing.parameter.key for standing in shown.standings] if shown else []
            if self._parameter in keys:
                self.show_parameter(self._parameter)
            else:
                self.go(OVERVIEW)

    def show_parameter(self, key: str) -> None:
        """Show one parameter at the point."""
        shown = self.point
        standing = next(
            (s for s in shown.standings if s.parameter.key == key) if shown else iter(()), None
        )
        if shown is None or standing is None:
            self.go(OVERVIEW)
            return
        self._parameter = key
        said = advice.lines(
            advice.advice(shown, self.household), self.household, standing.parameter.name
        )
        others = [
            point.point
            for well in self._wells
            for point in well.points
            if point.point.well == shown.point.well and point.point.id != shown.point.id
        ]
        self.parameter.show_standing(shown.point, standing, others, said)
        self.go(PARAMETER)

    def _record(self, point: int) -> PointRecord:
        """All results at a point, read once until the book changes."""
        if point not in self._records:
            household = self.household
            self._records[point] = point_record(household.book, point, household.today)
        return self._records[point]

    def _step(self, by: int) -> None:
        order = self.overview.order
        if not order:
            return
        is_shown = self.page == PARAMETER and self._parameter in order
        at = order.index(self._parameter) + by if is_shown else 0
        self.show_parameter(order[at % len(order)])

    def _find(self) -> None:
        self.go(OVERVIEW)
        self.overview.search.setFocus()
        self.overview.search.selectAll()

    def _on_restore(self, sample: Sample) -> None:
        self._bar.attempt(lambda: self.desk.restore(sample))

    def _on_removal(self, remove: Callable[[], str]) -> None:
        self._bar.attempt(lambda: self.desk.say_kept(remove()))

    def _on_changed(self) -> None:
        self._bar.attempt(self.refresh)
