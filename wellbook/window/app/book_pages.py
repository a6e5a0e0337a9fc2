"""The pages of an open book, one row for each; a page is made when it is first gone to."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from wellbook.support.translation import _, pgettext
from wellbook.window.widgets.layouts import lock

if TYPE_CHECKING:
    from wellbook.book.rows import Sample
    from wellbook.water.values.results import Result
    from wellbook.window.app.book_view import BookView


class Page(StrEnum):
    """The pages by name."""

    OVERVIEW = "overview"
    TESTS = "tests"
    EVENTS = "events"
    WELL = "well"
    PARAMETER = "parameter"
    LIMITS = "limits"
    CHANGES = "changes"


def _nothing() -> None:
    """A page that has nothing to do."""


@dataclass(frozen=True, slots=True)
class Made:
    """A page that is there.

    Attributes:
        widget: The page.
        refresh: Shows the book as it is now.
        clean_up: Called before the book is closed.
    """

    widget: QWidget
    refresh: Callable[[], object]
    clean_up: Callable[[], object] = _nothing


@dataclass(frozen=True, slots=True)
class Row:
    """How a page is made.

    Attributes:
        make: Makes it, and connects what it asks for.
        title: What its link in the running head says; None if it has none.
    """

    make: "Callable[[BookView], Made]"
    title: Callable[[], str] | None = None


def titles() -> dict[str, str]:
    """The links of the running head by page, in the language of now."""
    return {page: row.title() for page, row in PAGES.items() if row.title is not None}


def _overview(view: "BookView") -> Made:
    page = view.overview
    page.parameter_chosen.connect(view.show_parameter)
    page.due.round_wanted.connect(view.book_actions.next_round)
    page.due.call_wanted.connect(view.book_actions.lab_called)
    lock(view.household.why_readonly, page.due.call_button)
    page.upkeep.done.connect(view.book_actions.note_done)
    page.upkeep.all_wanted.connect(view.show_upkeep)
    page.next_wanted.connect(view.show_cases)
    page.first_steps.wanted.connect(partial(_begin, view))
    return Made(page, view.show_overview)


def _begin(view: "BookView", key: str) -> None:
    """Do one of the first steps."""
    actions = view.book_actions
    deeds: dict[str, Callable[[], object]] = {
        "add_by_hand": actions.add_by_hand,
        "add_file": actions.add_file,
        "household": actions.show_household,
        "next_round": partial(_plan_first, view),
    }
    view.bar.clear()
    view.bar.attempt(deeds[key])


def _plan_first(view: "BookView") -> None:
    """Show what to draw; where it is drawn must have a name first."""
    from wellbook.window.dialogs.point_dialog import PointDialog

    if view.household.book.points():
        view.book_actions.next_round()
        return
    dialog = PointDialog(view.household, view)
    dialog.accepted.connect(lambda: QTimer.singleShot(0, view.book_actions.next_round))
    view.book_actions.enter(dialog)


def _tests(view: "BookView") -> Made:
    from wellbook.window.pages.samples_page import SamplesPage

    page = SamplesPage(view.household, view.bar, view.chooser)
    page.strike_wanted.connect(view.book_actions.strike)
    page.restore_wanted.connect(
        lambda test: view.bar.attempt(lambda: view.book_actions.restore(test))
    )
    page.correct_wanted.connect(view.book_actions.correct)
    page.correct_reading_wanted.connect(view.book_actions.correct_reading)
    page.add_reading_wanted.connect(partial(_add_reading, view))
    page.documents.kept.connect(view.book_actions.say_kept)
    page.report_wanted.connect(lambda result: _show_report(view, result))
    return Made(page, page.refresh, page.clean_up)


def _add_reading(view: "BookView", sample: "Sample") -> None:
    """Add a reading that was left out of a test, with a reason."""
    from wellbook.window.dialogs.correct_dialogs import AddResultDialog

    view.book_actions.enter(AddResultDialog(view.household, sample, view.window()))


def _show_origin(view: "BookView", result: "Result") -> None:
    """Show where a result comes from: its report, or its test where there is none."""
    from wellbook.window.dialogs.report.report_dialog import report_of

    if report_of(view.household, result):
        _show_report(view, result)
    else:
        view.show_test(result)


def _show_report(view: "BookView", result: "Result") -> None:
    from wellbook.window.dialogs.report.report_dialog import show_report

    show_report(view.household, result, view.window())


def _events(view: "BookView") -> Made:
    from wellbook.window.pages.events_page import EventsPage

    page = EventsPage(view.household)
    page.add_wanted.connect(view.book_actions.add_event)
    page.change_wanted.connect(view.book_actions.change_event)
    page.removal_wanted.connect(view.take_out)
    return Made(page, page.refresh)


def _well(view: "BookView") -> Made:
    from wellbook.window.pages.well.well_page import WellPage

    page = WellPage(view.household, view.bar, view.chooser)
    page.dialog_wanted.connect(view.book_actions.enter)
    page.point_wanted.connect(view.book_actions.add_point)
    page.removal_wanted.connect(view.take_out)
    page.documents.kept.connect(view.book_actions.say_kept)
    return Made(page, page.refresh, page.clean_up)


def _parameter(view: "BookView") -> Made:
    from wellbook.window.pages.parameter.parameter_page import ParameterPage

    page = ParameterPage(view.household, view.record, view.bar, view.chooser)
    page.back_wanted.connect(view.back)
    page.point_wanted.connect(view.show_point)
    page.report_wanted.connect(lambda result: _show_origin(view, result))
    return Made(page, view.show_parameter_again)


def _limits(view: "BookView") -> Made:
    from wellbook.window.pages.limits_page import LimitsPage

    page = LimitsPage(view.household)
    return Made(page, page.refresh)


def _changes(view: "BookView") -> Made:
    from wellbook.window.pages.changes_page import ChangesPage

    page = ChangesPage(view.household)
    return Made(page, page.refresh)


PAGES: Mapping[Page, Row] = {
    Page.OVERVIEW: Row(_overview, lambda: _("Overview")),
    Page.TESTS: Row(_tests, lambda: pgettext("pages", "Tests")),
    Page.EVENTS: Row(_events, lambda: _("Events")),
    Page.WELL: Row(_well, lambda: _("Well")),
    Page.PARAMETER: Row(_parameter),
    Page.LIMITS: Row(_limits),
    Page.CHANGES: Row(_changes),
}
