"""Noting what happened to the well."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QDate
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDateEdit,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from wellbook.book.rows import Event
from wellbook.planning.upkeep.costs import usual_currency
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost
from wellbook.support.translation import _
from wellbook.water.values.partial_date import PartialDate
from wellbook.water.values.triggers import SYMPTOM, EventKind
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.typed_days import partial_hint, read_partial
from wellbook.window.common.words import edit_format
from wellbook.window.dialogs.flow_fields import NO_TEST, FlowFields
from wellbook.window.widgets.date_fields import speak
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named
from wellbook.wording import vocabulary

if TYPE_CHECKING:
    from wellbook.book.changes import EventFields

_ISO = ("yyyy-MM-dd", "yyyy-MM", "yyyy")
_EXACT = tuple(map(len, _ISO))


class EventDialog(EntryDialog):
    """Kind, day (or only month or year), words, and whether it is private."""

    def __init__(
        self,
        household: Household,
        parent: QWidget,
        *,
        event: Event | None = None,
        kind: str = "",
    ) -> None:
        """Make the dialog.

        Args:
            household: Whose well it happened to.
            parent: The window.
            event: The one that is changed; None for a new one.
            kind: What happened, if that is known of a new one.
        """
        super().__init__(
            _("Change an event") if event else _("Add an event"),
            _("Keep the event"),
            parent,
        )
        self._household, self._event = household, event
        self.well = QComboBox()
        for well in household.book.wells():
            self.well.addItem(well.name, well.id)
        self.kind = QComboBox()
        self.kind.setPlaceholderText(_("choose what happened"))
        for key, name in vocabulary.event_choices().items():
            self.kind.addItem(name, key)
        self.kind.setCurrentIndex(self.kind.findData(kind) if kind else -1)
        today = household.today
        self.day = QDateEdit(QDate(today.year, today.month, today.day))
        self.day.setCalendarPopup(True)
        self.day.setMaximumDate(self.day.date())
        speak(self.day)
        self.known = QComboBox()
        self.known.addItems(
            [
                _("the day is known"),
                _("only the month is known"),
                _("only the year is known"),
            ]
        )
        self.known.setAccessibleName(_("How exactly the day is known"))
        self.known.currentIndexChanged.connect(self._on_known)
        self._on_known(0)
        self.until = QLineEdit()
        self.until.setPlaceholderText(partial_hint())
        self.text = QPlainTextEdit()
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(em(self) * 5)
        self.flow = FlowFields()
        self.form = QFormLayout()
        self.kind.currentIndexChanged.connect(self._on_kind)
        self.cost = QLineEdit()
        self.currency = QComboBox()
        self.currency.setEditable(True)
        self.currency.setMinimumContentsLength(5)
        self.currency.addItems(list(CURRENCIES))
        self.currency.setEditText(usual_currency(household.record))
        self.currency.setAccessibleName(_("Currency of the cost"))
        self.private = QCheckBox(_("&Private: leave it out of every history that is handed on"))
        if event:
            self._show(event)
        self._lay_out()
        self._on_kind()

    def _show(self, event: Event) -> None:
        """Fill in an event that is there."""
        self.well.setCurrentIndex(self.well.findData(event.well))
        self.well.setEnabled(False)  # an event stays with its well
        if self.kind.findData(event.kind) < 0:
            self.kind.addItem(event.kind, event.kind)
        self.kind.setCurrentIndex(self.kind.findData(event.kind))
        self.known.setCurrentIndex(_EXACT.index(len(event.day)))
        day = QDate.fromString(event.day, _ISO[self.known.currentIndex()])
        self.day.setMaximumDate(max(day, self.day.maximumDate()))
        self.day.setDate(day)
        self.until.setText(event.until)
        self.text.setPlainText(event.text)
        self.private.setChecked(event.private)
        self.flow.show(event)
        self.cost.setText(event.cost)
        self.currency.setCurrentText(event.currency or self.currency.currentText())

    def _lay_out(self) -> None:
        form = self.form
        if self.well.count() > 1:
            form.addRow(_("&Well"), self.well)
        form.addRow(_("&What happened"), self.kind)
        days = QHBoxLayout()
        days.addWidget(self.day)
        days.addWidget(self.known)
        form.addRow(named(_("&Day"), self.day), days)
        self.day.setAccessibleName(_("Day"))
        form.addRow(_("&Until, if it lasted"), self.until)
        self.flow.lay_out(form)
        form.addRow(_("&In your words"), self.text)
        price = QHBoxLayout()
        price.addWidget(self.cost, 1)
        price.addWidget(self.currency)
        form.addRow(named(_("Co&st (private)"), self.cost), price)
        form.addRow("", self.private)
        self.rows.addLayout(form)
        self.finish()
        self.kind.setFocus()

    def _on_kind(self) -> None:
        """Ask for the figures of a flow test, and how a change of taste is told from another."""
        kind = self.kind.currentData()
        self.flow.set_wanted(self.form, wanted=kind == EventKind.FLOW_TEST)
        self.grow()
        hint = _("Which: salty, rotten egg, metallic, rusty, cloudy, slime, scale, fuel …")
        self.text.setPlaceholderText(hint if kind == SYMPTOM else "")

    def _on_known(self, index: int) -> None:
        self.day.setDisplayFormat(edit_format(index))

    def keep(self) -> str:
        """Write the event."""
        if self.well.currentData() is None:
            raise Fault(_("This book has no well yet: add a sampling point first."))
        kind, text = self.kind.currentData(), self.text.toPlainText().strip()
        if not kind:
            raise Fault(_("Choose what happened."))
        day = self.day.date().toString(_ISO[self.known.currentIndex()])
        until, private = read_partial(self.until.text()), self.private.isChecked()
        if until and PartialDate.parse(until) < PartialDate.parse(day):
            raise Fault(_("It can’t have ended before it began: look at both days."))
        book, event, well = self._household.book, self._event, self.well.currentData()
        cost, currency = read_cost(self.cost.text(), self.currency.currentText())
        tested = self.flow.typed() if kind == EventKind.FLOW_TEST else NO_TEST
        said: EventFields = {
            "until": until,
            "text": text,
            "private": private,
            "cost": cost,
            "currency": currency,
            **tested,
        }
        if event:
            self._household.apart(lambda: book.change_event(event.id, kind=kind, day=day, **said))
            return _("The event is changed.")
        self._household.apart(lambda: book.add_event(well, kind, day, **said))
        return _("The event is kept.")
