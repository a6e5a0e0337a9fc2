"""The flow tests of a well: how much it gave when it was pumped."""

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import Event
from wellbook.planning import flow_test
from wellbook.support.translation import _
from wellbook.water.values.triggers import EventKind
from wellbook.window.common.household import Household
from wellbook.window.common.words import partial_words
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.section_view import Section
from wellbook.window.widgets.table_model import Column


def section(household: Household) -> Section:
    """The section of flow tests, the newest first."""

    def rows(well: int) -> list[Event]:
        events = household.record.events_of(well)
        return [one for one in reversed(events) if one.kind == EventKind.FLOW_TEST]

    def edit(_unused: int, row: Event | None, window: QWidget) -> EntryDialog:
        return EventDialog(household, window, event=row, kind=EventKind.FLOW_TEST)

    def remove(_unused: int, row: Event) -> str:
        household.book.remove("event", row.id)
        return _("The event is taken out; “Undo” in the menu Edit brings it back.")

    return Section(
        _("Flow tests"),
        _(
            "How much the well gave when it was pumped. Lenders and whoever sizes a treatment ask "
            "for the day, the flow, the hours and the drawdown, measured by a third party."
        ),
        (
            Column(_("When"), lambda event: partial_words(event.day), sort=lambda event: event.day),
            Column(_("What was measured"), flow_test.figures),
            Column(_("In your words"), lambda event: event.text),
        ),
        rows,
        lambda event: event.id,
        edit,
        remove,
        stretch=2,
    )
