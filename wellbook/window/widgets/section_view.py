"""One kind of fact on a page: a table with add, change and take out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import SUBTITLE, lock, words
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table

_MANY = 10  # rows from which on they can be narrowed down


@dataclass(frozen=True, slots=True)
class Told:
    """A fact with what is told beside it, so that a table shows values only.

    Attributes:
        fact: The row of the book.
        beside: The words.
    """

    fact: Any
    beside: str


@dataclass(frozen=True, slots=True)
class Section:
    """What is shown of one kind of fact of a well, and how it is edited.

    Attributes:
        title: Its name.
        note: A sentence on what belongs here.
        columns: How a row is set.
        rows: The rows that belong to a well.
        identity: What tells a row from another one.
        edit: The dialog of a window that adds a row to a well (None) or changes one; None where
            rows are only shown and taken out.
        remove: Takes a row out and returns the sentence that says so; None where rows stay.
        stays: Why nothing is taken out here.
        stretch: The column that gets what is left of the width.
        add: What the button says that adds a row; empty where none is added.
        change: What the button says that changes one.
        take_out: What the button says that takes one out.
        told: A sentence on the rows of a well, shown above them; None for none.
    """

    title: str
    note: str
    columns: tuple[Column, ...]
    rows: Callable[[int], Sequence[Any]]
    identity: Callable[[Any], Any]
    edit: Callable[[int, Any | None, QWidget], EntryDialog] | None
    remove: Callable[[int, Any], str] | None = None
    stays: str = ""
    stretch: int = 1
    add: str | None = None
    change: str | None = None
    take_out: str | None = None
    told: Callable[[int], str] | None = None


class SectionView(QWidget):
    """Shows a section of one well; what it is made of is made when it is first looked at.

    Signals:
        dialog_wanted: A fact is to be added or changed; carries the dialog.
        removal_wanted: A fact is to be taken out; carries the deed for the message bar to attempt.

    Attributes:
        is_made: Whether it was looked at yet.
    """

    dialog_wanted = Signal(object)
    removal_wanted = Signal(object)

    def __init__(self, section: Section, why_readonly: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.section, self._why, self._well = section, why_readonly, 0
        self.is_made = False

    def make(self) -> None:
        """Make it, if that is still to be done, with the facts of the well as they are now."""
        if not self.is_made:
            self.is_made = True
            self._make_parts()
            self._lay_out()
            self.show_well(self._well)

    def _make_parts(self) -> None:
        section = self.section
        self.table = Table(section.title)
        self.model = RowsModel(section.columns, section.identity, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=section.stretch)
        self.empty = EmptyWords(self.table, self.model, "")
        self.table.chosen.connect(self._on_change)
        self.table.picked.connect(self._on_picked)
        self.add_button = QPushButton(_("Add…") if section.add is None else section.add)
        self.change_button = QPushButton(section.change or _("Change…"))
        self.remove_button = QPushButton(section.take_out or _("Take out"))
        self.add_button.clicked.connect(self._on_add)
        self.change_button.clicked.connect(self._on_change)
        self.remove_button.clicked.connect(self._on_remove)
        self.told = words()
        self.told.setVisible(False)
        self.search = FindField(_("Find in this list"), self.table)

    def _lay_out(self) -> None:
        section = self.section
        row = QHBoxLayout()
        for button in (self.add_button, self.change_button, self.remove_button):
            row.addWidget(button)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(em(self) // 2)
        column.addWidget(words(section.title, factor=SUBTITLE, bold=True))
        column.addWidget(words(section.note, quiet=True))
        column.addWidget(self.told)
        column.addWidget(self.search)
        column.addWidget(self.table, 1)
        deeds = (self.change_button, self.remove_button)
        self.table.arrange(f"section {section.columns[0].title} {len(section.columns)}", *deeds)
        column.addLayout(row)
        self.add_button.setVisible(section.add != "" and section.edit is not None)
        self.change_button.setVisible(section.edit is not None)

    def show_well(self, well: int) -> None:
        """Show the facts of a well as they are now; 0 for none."""
        self._well = well
        if not self.is_made:
            return
        rows = self.section.rows(well) if well else ()
        self.empty.say(self._way_on())
        self.model.show(rows)
        self.search.setVisible(len(rows) >= _MANY)
        if self.section.told is not None:
            self.told.setText(self.section.told(well))
            self.told.setVisible(bool(self.told.text()))
        if self.table.row() is None and self.model.rows:
            self.table.pick(0)
        self._on_picked(self.table.row())

    def _way_on(self) -> str:
        if not self._well or self.add_button.isHidden():
            return _("Nothing is noted here yet.")
        said = _("Nothing is noted here yet: “{button}” begins.")
        return said.format(button=self.add_button.text())

    def _on_picked(self, row: object) -> None:
        lock(self._why, self.add_button, self.change_button, self.remove_button)
        if not self._why:
            self.add_button.setEnabled(bool(self._well))
            self.change_button.setEnabled(row is not None)
            self.remove_button.setEnabled(row is not None and self.section.remove is not None)
            set_tip(self.remove_button, self.section.stays)

    def _on_add(self) -> None:
        if self.section.edit is not None:
            self.dialog_wanted.emit(self.section.edit(self._well, None, self))

    def _on_change(self) -> None:
        row, edit = self.table.row(), self.section.edit
        if row is not None and edit is not None and not self._why:
            self.dialog_wanted.emit(edit(self._well, row, self))

    def _on_remove(self) -> None:
        row, remove = self.table.row(), self.section.remove
        if row is not None and remove is not None:
            well = self._well
            self.removal_wanted.emit(lambda: remove(well, row))
