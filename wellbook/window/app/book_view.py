"""An open book: running head, its pages, and the way from one to another.

Only the overview is made at once; each other page when it is first gone to.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QMenu, QStackedWidget, QVBoxLayout, QWidget

from wellbook.planning.overview import PointOverview, WellOverview, point_record
from wellbook.planning.standings import Look
from wellbook.support.translation import _
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window import load_for_later
from wellbook.window.app.book_actions import BookActions
from wellbook.window.app.book_pages import PAGES, Made, Page, titles
from wellbook.window.app.integrity_check import IntegrityCheck
from wellbook.window.app.menus.page_printing import PagePrinting
from wellbook.window.app.opening import FileWatch
from wellbook.window.app.reminder import Reminder
from wellbook.window.common import advice
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader
from wellbook.window.common.preferences import Place, Preferences
from wellbook.window.pages.overview import overview_work
from wellbook.window.pages.overview.overview_page import OverviewPage
from wellbook.window.widgets.chart_view import Drawing
from wellbook.window.widgets.layouts import rule
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.running_head import RunningHead

_LATER = 50  # milliseconds

if TYPE_CHECKING:
    from wellbook.water.values.results import Result
    from wellbook.window.pages.overview.overview_work import Dues


class BookView(QWidget):
    """Shows a book and keeps every page in step with it.

    Signals:
        painted: It was painted for the first time; what takes longer may begin.

    Attributes:
        look: What is known of the book; what its histories tell may still be pending.
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
        self.household, self.bar, self.chooser = household, bar, chooser
        self.page = Page.OVERVIEW
        self._made: dict[Page, Made] = {}
        self._stale: set[Page] = set()  # shown anew when they are gone to
        self.look = Look((), {})
        self._wells: tuple[WellOverview, ...] = ()
        self._point = 0
        self._parameter = ""
        self._before = Page.OVERVIEW
        self._digest = ""
        self._records: dict[int, PointRecord] = {}
        self._dues: Dues | None = None
        self._was_painted = False
        self.ahead, self._for_later = Loader(self), Loader(self)
        self.head = RunningHead(titles(), add_menu, {Page.OVERVIEW, Page.PARAMETER})
        self.overview = OverviewPage(household, self.record)
        self.pages = QStackedWidget()
        self.book_actions = BookActions(household, bar, chooser, preferences, self)
        self.printing = PagePrinting(self)
        self.keeper = IntegrityCheck(household, bar, self)
        self.reminder = Reminder(household, self)
        self.watch = FileWatch(household, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.head)
        column.addWidget(rule())
        column.addWidget(self.pages, 1)
        self._connect()
        self._make(Page.OVERVIEW)

    def _connect(self) -> None:
        self.head.point_chosen.connect(self.show_point)
        self.head.page_chosen.connect(lambda page: self.go(Page(page)))
        self.book_actions.changed.connect(self._on_changed)
        self.ahead.failed.connect(self.bar.say)
        self.reminder.day_began.connect(self._on_changed)
        self.painted.connect(lambda: self._for_later.ask(load_for_later, bool))
        self.painted.connect(self.keeper.check_unasked)
        self.painted.connect(lambda: self.bar.attempt(lambda: self.reminder.follow(self.bar)))

    def at(self, page: Page) -> QWidget:
        """A page, made now if it was never gone to."""
        if page not in self._made:
            self._make(page).refresh()
        elif page in self._stale:
            self._stale.discard(page)
            self._made[page].refresh()
        return self._made[page].widget

    def _make(self, page: Page) -> Made:
        made = self._made[page] = PAGES[page].make(self)
        self.pages.addWidget(made.widget)
        return made

    @property
    def point(self) -> PointOverview | None:
        """The sampling point that is shown."""
        points = [point for well in self._wells for point in well.points]
        found = next((p for p in points if p.point.id == self._point), None)
        return found or (points[0] if points else None)

    @property
    def well(self) -> int:
        """Number of the well whose point is shown; 0 in a book that has none yet."""
        shown = self.point
        return shown.point.well if shown else 0

    def refresh(self) -> None:
        """Read the book anew and show it."""
        household = self.household
        if self.ahead.is_stopped or self.is_keeping(self._on_changed):
            return
        household.book.was_changed_elsewhere()  # from here on the person sees what it was
        self.look = household.apart(
            partial(overview_work.look, household, is_first=not self._was_painted)
        )
        self._wells = self.look.wells
        self._digest = household.outline.digest
        self._records.clear()
        self._put_in_dues()
        if self._was_painted:
            self._look_ahead()
        self._point = self.point.point.id if self.point else 0
        self.head.show_wells(self._wells, self._point)
        names = [well.well.name for well in self._wells]
        self.head.name.setText(names[0] if len(names) == 1 else household.path.stem)
        self.head.show_page(self.page)
        self._stale = self._made.keys() - {Page.OVERVIEW, self.page}
        for page, made in self._made.items():
            if page not in self._stale:
                made.refresh()

    def _put_in_dues(self) -> None:
        dues = self._dues or {}
        self._wells = tuple(
            replace(
                well,
                points=tuple(replace(p, due=dues.get(p.point.id, ())) for p in well.points),
            )
            for well in self._wells
        )

    def show_overview(self) -> None:
        """Show the point on the overview, with what is due as far as that is known."""
        self.overview.show_point(self.point, self._neighbours, is_waiting=self._dues is None)

    def _look_ahead(self) -> None:
        """Work out what is due on another thread: holidays of years are read for it."""
        if self.ahead.is_stopped or self.is_keeping(self._look_ahead):
            return  # the book was closed before there was time for it, or it is later
        household = self.household
        if not household.reader.is_loaded:
            household.apart(household.reader.load)
        self.ahead.ask(partial(overview_work.due, household, household.record), self._on_dues)

    @property
    def _neighbours(self) -> tuple[PointOverview, ...]:
        """The points of the well whose point is shown, with that one."""
        shown = self.point
        return next((well.points for well in self._wells if shown in well.points), ())

    def _on_dues(self, dues: "Dues") -> None:
        if dues != self._dues:
            self._dues = dues
            self._put_in_dues()
            self.show_overview()
        self.reminder.tell(self._wells)
        if self.look.is_pending:
            household = self.household
            work = partial(overview_work.histories, household, household.record, self.look)
            self.ahead.ask(work, self._on_histories)
        else:
            Drawing.load()

    def _on_histories(self, look: Look) -> None:
        self.look, self._wells = look, look.wells
        self._put_in_dues()
        self.show_overview()
        self.show_parameter_again()
        Drawing.load()  # the next thing that is looked at is a chart

    def paintEvent(self, event: QPaintEvent) -> None:
        """Look ahead once the page was painted for the first time."""
        super().paintEvent(event)
        if not self._was_painted:
            self._was_painted = True
            for then in (self._look_ahead, self._tell_painted):
                QTimer.singleShot(0, then)

    def _tell_painted(self) -> None:
        if not self.ahead.is_stopped and not self.is_keeping(self._tell_painted):
            self.painted.emit()

    def refresh_if_changed(self) -> None:
        """Show the book anew if something else wrote to it.

        Raises:
            Fault: The file is gone, or another one lies in its place.
        """
        if self.household.reader.is_lent:
            return
        self.household.book.require_in_place()
        if self.household.book.digest() != self._digest:
            self.refresh()

    def is_keeping(self, then: Callable[[], object]) -> bool:
        """Whether the book is written or read just now; something is then done after it."""
        if is_lent := self.household.reader.is_lent:
            QTimer.singleShot(_LATER, then)
        return is_lent

    def close_book(self) -> None:
        """Let work under way come to an end, then close the file."""
        self.stop()
        self.household.book.close()

    def stop(self) -> None:
        """Let work under way come to an end; the book stays open."""
        self.ahead.stop()
        self._for_later.stop()
        self.reminder.stop()
        self.watch.stop()
        self.keeper.stop()
        self.book_actions.wait()
        for made in self._made.values():
            made.clean_up()

    def go(self, page: Page) -> None:
        """Show a page."""
        if page != self.page:
            self._before, self.page = self.page, page
        self.pages.setCurrentWidget(self.at(page))
        self.head.show_page(page)

    def go_by(self, steps: int) -> None:
        """Show the page that stands that many places further on in the row of pages."""
        order = [Page.OVERVIEW, Page.TESTS, Page.EVENTS, Page.WELL, Page.LIMITS, Page.CHANGES]
        at = order.index(self.page) if self.page in order else 0
        self.go(order[(at + steps) % len(order)])

    @property
    def title(self) -> str:
        """What the page that is shown is called."""
        if self.page is Page.PARAMETER and self.point is not None:
            return self.household.catalogue.parameters[self._parameter].name
        others: dict[str, str] = {Page.LIMITS: _("Limits"), Page.CHANGES: _("What changed")}
        return (others | titles())[self.page]

    @property
    def place(self) -> Place:
        """Where the person is."""
        return Place(self.page, self._point, self._parameter)

    def go_to(self, place: Place) -> None:
        """Show again what was shown before, as far as it is still there."""
        self._point = place.point
        self._point = self.point.point.id if self.point else 0
        self.head.show_wells(self._wells, self._point)
        self.show_overview()
        if place.page == Page.PARAMETER:
            self.show_parameter(place.parameter)
        elif place.page in PAGES:
            self.go(Page(place.page))

    def back(self) -> None:
        """Show the page before; from a parameter always the overview."""
        self.go(Page.OVERVIEW if self.page is Page.PARAMETER else self._before)
        if self.page is Page.OVERVIEW:
            self.overview.table.setFocus()

    def show_point(self, number: int) -> None:
        """Show another sampling point."""
        self._point = number
        shown = self.point
        self.show_overview()
        if self.page is Page.PARAMETER:
            keys = [standing.parameter.key for standing in shown.standings] if shown else []
            if self._parameter in keys:
                self.show_parameter(self._parameter)
            else:
                self.go(Page.OVERVIEW)

    def show_parameter(self, key: str) -> None:
        """Show one parameter at the point."""
        from wellbook.window.pages.parameter.parameter_page import ParameterPage

        shown = self.point
        standing = next(
            (s for s in shown.standings if s.parameter.key == key) if shown else iter(()), None
        )
        if shown is None or standing is None:
            self.go(Page.OVERVIEW)
            return
        self._parameter = key
        said = advice.lines(
            advice.advice(shown, self._neighbours, self.household),
            self.household,
            standing.parameter.name,
        )
        others = [point.point for point in self._neighbours if point.point.id != shown.point.id]
        page = self.at(Page.PARAMETER)
        if isinstance(page, ParameterPage):
            page.show_standing(shown.point, standing, others, said)
        self.go(Page.PARAMETER)

    def record(self, point: int) -> PointRecord:
        """All results at a point, read once until the book changes."""
        if point not in self._records:
            household = self.household
            self._records[point] = point_record(household.record, point, household.today)
        return self._records[point]

    def show_parameter_again(self) -> None:
        """Show the parameter that is shown as it stands now."""
        if self.page is Page.PARAMETER and self._parameter:
            self.show_parameter(self._parameter)

    def step(self, by: int) -> None:
        """Show the parameter that many lines further down the overview."""
        order = self.overview.order
        if not order:
            return
        is_shown = self.page is Page.PARAMETER and self._parameter in order
        at = order.index(self._parameter) + by if is_shown else 0
        self.show_parameter(order[at % len(order)])

    def show_cases(self) -> None:
        """Show what the water of the point asks for, and what of it is still open."""
        from wellbook.window.dialogs.cases_dialog import CasesDialog

        shown = self.point
        if shown is not None:
            dialog = CasesDialog(self.household, shown, self._neighbours, self.window())
            dialog.round_wanted.connect(self.book_actions.next_round)
            dialog.finished.connect(dialog.deleteLater)
            dialog.open()

    def show_test(self, result: "Result") -> None:
        """Show the test that a result is of."""
        from wellbook.window.pages.samples_page import SamplesPage

        self.go(Page.TESTS)
        page = self.at(Page.TESTS)
        if isinstance(page, SamplesPage):
            page.show_test(result.sample)

    def show_upkeep(self) -> None:
        """Show all that units and wellhead need."""
        from wellbook.window.pages.well.well_page import WellPage

        self.go(Page.WELL)
        page = self.at(Page.WELL)
        if isinstance(page, WellPage):
            page.show_section(_("Upkeep"))

    def find_in_list(self) -> None:
        """Go to the field that narrows this list down, else to that of the overview."""
        found = self.at(self.page).findChildren(FindField)
        fields = [field for field in found if field.isVisible()]
        if not fields:
            self.go(Page.OVERVIEW)
        field = fields[0] if fields else self.overview.search
        field.setFocus()
        field.selectAll()

    def take_out(self, remove: Callable[[], str]) -> None:
        """Take something out, and say so."""
        self.bar.attempt(lambda: self.book_actions.say_kept(remove()))

    def _on_changed(self) -> None:
        if not self.ahead.is_stopped:
            self.bar.attempt(self.refresh)
