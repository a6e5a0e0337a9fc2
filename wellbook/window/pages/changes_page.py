"""What was written into the book between two days, in plain words."""

from datetime import date, timedelta

from PySide6.QtCore import QDate
from PySide6.QtWidgets import QDateEdit, QHBoxLayout, QVBoxLayout, QWidget

from wellbook.book.journal import Entry
from wellbook.support.translation import _
from wellbook.window.common.clock_words import since_words
from wellbook.window.common.household import Household
from wellbook.window.common.journal_words import Names, action_words, detail_words
from wellbook.window.common.theme import em
from wellbook.window.common.words import edit_format
from wellbook.window.widgets.date_fields import speak
from wellbook.window.widgets.layouts import named, words
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table

_AT_FIRST = timedelta(days=365)


class ChangesPage(QWidget):
    """A table of journal entries, the newest first."""

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._names = Names()
        self.first = _day(household.today - _AT_FIRST)
        self.last = _day(household.today)
        self.first.setAccessibleName(_("First day"))
        self.last.setAccessibleName(_("Last day"))
        self.note = words(quiet=True)
        self.table = Table(_("What was written into the book"))
        columns = (
            Column(_("Entered"), lambda entry: since_words(entry.at), sort=lambda entry: entry.seq),
            Column(_("What"), _what),
            Column(_("To what"), self._details),
            Column(_("Reason"), lambda entry: entry.reason),
        )
        self.model = RowsModel(columns, lambda entry: entry.seq, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        self.empty = EmptyWords(
            self.table, self.model, _("Nothing was written into the book in these days.")
        )
        self.table.arrange("changes")
        self.search = FindField(_("Find an entry"), self.table)
        for field in (self.first, self.last):
            field.dateChanged.connect(self.refresh)
        unit = em(self)
        row = QHBoxLayout()
        for label, field in (
            (_("What changed &from"), self.first),
            (_("&to"), self.last),
        ):
            row.addWidget(named(label, field))
            row.addWidget(field)
        row.addSpacing(unit)
        row.addWidget(self.search, 1)
        row.addWidget(self.note, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.addLayout(row)
        column.addWidget(self.table, 1)

    def refresh(self) -> None:
        """Show what the journal tells now."""
        household = self._household
        self._names = Names.of(household.record, household.catalogue)
        found = household.book.changes(_picked(self.first), _picked(self.last))
        self.model.show(tuple(reversed(found)))
        said = _("Entries: {count}. Every one stays; none can be altered.")
        self.note.setText(said.format(count=len(found)))

    def _details(self, entry: Entry) -> str:
        return detail_words(entry, self._names)


def _what(entry: Entry) -> str:
    said = action_words(entry.action)
    return said[0].upper() + said[1:]


def _day(day: date) -> QDateEdit:
    made = QDateEdit(QDate(day.year, day.month, day.day))
    made.setCalendarPopup(True)
    made.setDisplayFormat(edit_format(0))
    speak(made)
    return made


def _picked(field: QDateEdit) -> date:
    day = field.date()
    return date(day.year(), day.month(), day.day())
