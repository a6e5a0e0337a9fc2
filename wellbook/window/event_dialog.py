"""Noting what happened to the well."""

from PySide6.QtCore import QCoreApplication, QDate
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDateEdit,
    QFormLayout,
    QHBoxLayout,
    QPlainTextEdit,
    QWidget,
)

from wellbook.faults import Fault
from wellbook.water.triggers import SYMPTOM
from wellbook.window.dialogs import EntryDialog
from wellbook.window.household import Household
from wellbook.window.look import em
from wellbook.window.sheets import named
from wellbook.window.words import edit_format, event_kinds

translate = QCoreApplication.translate
_ISO = ("yyyy-MM-dd", "yyyy-MM", "yyyy")


class EventDialog(EntryDialog):
    """Kind, day (or only month or year), words, and whether it is private."""

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(
            translate("Event", "Add an event"), translate("Event", "Keep the event"), parent
        )
        self._household = household
        self.well = QComboBox()
        for well in household.book.wells():
            self.well.addItem(well.name, well.id)
        self.kind = QComboBox()
        for key, name in event_kinds().items():
            self.kind.addItem(name, key)
        self.day = QDateEdit(QDate.currentDate())
        self.day.setCalendarPopup(True)
        self.day.setMaximumDate(QDate.currentDate())
        self.known = QComboBox()
        self.known.addItems(
            [
                translate("Event", "the day is known"),
                translate("Event", "only the month is known"),
                translate("Event", "only the year is known"),
            ]
        )
        self.known.setAccessibleName(translate("Event", "How exactly the day is known"))
        self.known.currentIndexChanged.connect(self._on_known)
        self._on_known(0)
        self.text = QPlainTextEdit()
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(em(self) * 5)
        self.kind.currentIndexChanged.connect(self._on_kind)
        self.private = QCheckBox(
            translate("Event", "&Private: leave it out of every history that is handed on")
        )
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        if self.well.count() > 1:
            form.addRow(translate("Event", "&Well"), self.well)
        form.addRow(translate("Event", "&What happened"), self.kind)
        days = QHBoxLayout()
        days.addWidget(self.day)
        days.addWidget(self.known)
        form.addRow(named(translate("Event", "&Day"), self.day), days)
        self.day.setAccessibleName(translate("Event", "Day"))
        form.addRow(translate("Event", "&In your words"), self.text)
        form.addRow("", self.private)
        self.rows.addLayout(form)
        self.finish()
        self.kind.setFocus()

    def _on_kind(self) -> None:
        """Ask for the words by which a change is told from another."""
        hint = translate(
            "Event", "Which: salty, rotten egg, metallic, rusty, cloudy, slime, scale, fuel …"
        )
        self.text.setPlaceholderText(hint if self.kind.currentData() == SYMPTOM else "")

    def _on_known(self, index: int) -> None:
        self.day.setDisplayFormat(edit_format(index))

    def keep(self) -> str:
        """Write the event."""
        if self.well.currentData() is None:
            raise Fault(
                translate("Event", "This book has no well yet: add a sampling point first.")
            )
        self._household.book.add_event(
            self.well.currentData(),
            self.kind.currentData(),
            self.day.date().toString(_ISO[self.known.currentIndex()]),
            text=self.text.toPlainText().strip(),
            private=self.private.isChecked(),
        )
        return translate("Event", "The event is kept.")
