"""What happened to the well, in order of time."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.book.rows import Event
from wellbook.planning import flow_test
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.words import partial_words
from wellbook.window.widgets.layouts import PrimaryButton, lock, words
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import vocabulary


class EventsPage(QWidget):
    """A table of events.

    Signals:
        add_wanted: A new event is to be added.
        change_wanted: One is to be changed; carries it.
        removal_wanted: One is to be taken out; carries the deed.
    """

    add_wanted = Signal()
    change_wanted = Signal(object)
    removal_wanted = Signal(object)

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self.table = Table(_("Events"))
        self.model = RowsModel(_columns(household), lambda event: event.id, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=3)
        self.empty = EmptyWords(
            self.table,
            self.model,
            _(
                "Nothing has been noted yet. A flood, a repair, a new pump or a disinfection "
                "explains what a chart alone can’t."
            ),
        )
        self.note = words(_("Events stand on the charts as labelled lines."), quiet=True)
        self.add_button = PrimaryButton(_("Add an event…"))
        self.change_button = QPushButton(_("Change…"))
        self.remove_button = QPushButton(_("Take out"))
        self.add_button.clicked.connect(self.add_wanted)
        self.change_button.clicked.connect(self._on_change)
        self.remove_button.clicked.connect(self._on_remove)
        self.table.chosen.connect(self._on_change)
        self.table.picked.connect(self._on_picked)
        unit = em(self)
        head = QHBoxLayout()
        self.search = FindField(_("Find an event"), self.table)
        head.addWidget(self.search, 1)
        head.addWidget(self.note, 2)
        head.addWidget(self.add_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.addLayout(head)
        column.addWidget(self.table, 1)
        below = QHBoxLayout()
        below.addWidget(self.change_button)
        below.addWidget(self.remove_button)
        below.addStretch(1)
        column.addLayout(below)
        self.table.arrange("events", self.change_button, self.remove_button)
        self._on_picked(None)

    def _on_picked(self, event: object) -> None:
        lock(self._household.why_readonly, self.add_button, self.change_button, self.remove_button)
        if not self._household.why_readonly:
            self.change_button.setEnabled(event is not None)
            self.remove_button.setEnabled(event is not None)

    def _on_change(self) -> None:
        event = self.table.row()
        if event is not None and not self._household.why_readonly:
            self.change_wanted.emit(event)

    def _on_remove(self) -> None:
        event, book = self.table.row(), self._household.book
        if isinstance(event, Event):

            def remove() -> str:
                book.remove("event", event.id)
                return _("The event is taken out; “Undo” in the menu Edit brings it back.")

            self.removal_wanted.emit(remove)

    def refresh(self) -> None:
        """Show the book as it is now, the newest event first."""
        self.model.show(tuple(reversed(self._household.book.events())))
        self._on_picked(self.table.row())


def _columns(household: Household) -> tuple[Column, ...]:
    wells = {well.id: well.name for well in household.book.wells()}

    def days(event: Event) -> str:
        first, last = partial_words(event.day), partial_words(event.until)
        return f"{first} – {last}" if last else first

    def private(event: Event) -> str:
        return _("private") if event.is_about_people else ""

    return (
        Column(_("When"), days, sort=lambda event: event.day),
        Column(_("Well"), lambda event: wells.get(event.well, "")),
        Column(_("What"), lambda event: vocabulary.event_in_full(event.kind)),
        Column(_("In your words"), flow_test.words),
        Column(_("Handed on"), private),
    )
