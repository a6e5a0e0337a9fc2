"""What happened to the well, in order of time."""

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.book.rows import Event
from wellbook.window.household import Household
from wellbook.window.look import em
from wellbook.window.sheets import lock, words
from wellbook.window.snapshot import Column, SnapshotModel
from wellbook.window.tables import Table
from wellbook.window.words import event_kinds, partial_words

translate = QCoreApplication.translate


class EventsPage(QWidget):
    """A table of events.

    Signals:
        add_wanted: A new event is to be added.
    """

    add_wanted = Signal()

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self.table = Table(translate("Events", "Events"))
        self.model = SnapshotModel(_columns(household), lambda event: event.id, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=3)
        self.note = words(quiet=True)
        self.add_button = QPushButton(translate("Events", "Add an event…"))
        lock(household.why_readonly, self.add_button)
        self.add_button.clicked.connect(self.add_wanted)
        unit = em(self)
        head = QHBoxLayout()
        head.addWidget(self.note, 1)
        head.addWidget(self.add_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.addLayout(head)
        column.addWidget(self.table, 1)

    def refresh(self) -> None:
        """Show the book as it is now, the newest event first."""
        self.model.show(tuple(reversed(self._household.book.events())))
        self.note.setText(
            translate("Events", "Events stand on the charts as labelled lines.")
            if self.model.rows
            else translate(
                "Events",
                "Nothing has been noted yet. A flood, a repair, a new pump or a disinfection "
                "explains what a chart alone can’t.",
            )
        )


def _columns(household: Household) -> tuple[Column, ...]:
    wells = {well.id: well.name for well in household.book.wells()}

    def days(event: Event) -> str:
        first, last = partial_words(event.day), partial_words(event.until)
        return f"{first} – {last}" if last else first

    def private(event: Event) -> str:
        return translate("Events", "private") if event.is_about_people else ""

    return (
        Column(translate("Events", "When"), days),
        Column(translate("Events", "Well"), lambda event: wells.get(event.well, "")),
        Column(
            translate("Events", "What"), lambda event: event_kinds().get(event.kind, event.kind)
        ),
        Column(translate("Events", "In your words"), lambda event: event.text),
        Column(translate("Events", "Handed on"), private),
    )
