"""The two ways on from a packet: a new book, or what it adds to the book that is open."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QScrollArea, QVBoxLayout, QWidget

from wellbook.book import Book
from wellbook.packet.receive.merge import Merged
from wellbook.packet.receive.same_test import Answer
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.theme import em
from wellbook.window.packet.inspection_dialog import LookOverDialog
from wellbook.window.packet.inspection_jobs import (
    Looked,
    add_new,
    added_words,
    answer_words,
    difference_words,
    make_book,
    new_words,
)
from wellbook.window.widgets.layouts import words


class ReceiveDialog(LookOverDialog):
    """Makes a book from the packet.

    Signals:
        made: A book was made; carries its path.
    """

    made = Signal(object)

    def __init__(self, path: Path, chooser: Chooser, parent: QWidget) -> None:
        self._chooser = chooser
        super().__init__(path, None, parent)

    def way_words(self) -> str:
        """Make a book."""
        return _("&Make a book from it…")

    def go_on(self) -> None:
        """Ask where the book is to lie, then make it; a file that is there stays."""
        looked = self.looked
        new = self._chooser.book_to_make(self, f"{self.path.stem}.wellbook")
        if looked is not None and new is not None and self.bar.attempt(partial(_refuse, new)):
            said = _("Making {name} …").format(name=new.name)
            self.run(said, partial(make_book, looked.inspected.packet, new), self._on_made)

    def _on_made(self, new: Path) -> None:
        self.accept()
        self.made.emit(new)


class TakeInDialog(LookOverDialog):
    """Adds to the open book what it lacks.

    Signals:
        added: Something was added; carries the sentence that says so.
    """

    added = Signal(str)

    def __init__(self, path: Path, into: Book, parent: QWidget) -> None:
        self._into = into
        self.choices: dict[int, QComboBox] = {}
        self._questions: QScrollArea | None = None
        super().__init__(path, into, parent)

    def way_words(self) -> str:
        """Add what is new."""
        return _("&Add what is new")

    def has_way(self, looked: Looked) -> bool:
        """Only if something is new."""
        return looked.new is not None and not looked.new.nothing

    def show_looked(self, looked: Looked) -> None:
        """Show what it would add, too, and ask what is to become of tests that differ."""
        super().show_looked(looked)
        if looked.new is not None:
            self.new.setText(new_words(looked.new))
            self.new.show()
            self._ask(looked.new)

    def _ask(self, new: Merged) -> None:
        """A question for each test of which packet and book say other things."""
        if self._questions is not None:
            self._questions.deleteLater()
            self._questions = None
        self.choices = {}
        if not new.differences:
            return
        inner = QWidget()
        rows = QVBoxLayout(inner)
        for difference in new.differences:
            choice = QComboBox()
            for words_of, answer in answer_words():
                choice.addItem(words_of, answer)
            label = words(difference_words(difference))
            choice.setAccessibleName(difference.test)
            choice.currentIndexChanged.connect(self._show_way)
            self.choices[difference.number] = choice
            rows.addWidget(label)
            rows.addWidget(choice)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setWidget(inner)
        area.setMinimumHeight(em(self) * 8)
        self.page_rows.insertWidget(self.page_rows.count() - 1, area, 1)
        self._questions = area

    def _answers(self) -> dict[int, Answer]:
        found = {number: choice.currentData() for number, choice in self.choices.items()}
        return {number: Answer(answer) for number, answer in found.items() if answer}

    def _show_way(self) -> None:
        self.way.setEnabled(len(self._answers()) == len(self.choices))

    def _show_state(self, under_way: str = "") -> None:
        super()._show_state(under_way)
        if not under_way and self.way.isEnabled():
            self._show_way()

    def go_on(self) -> None:
        """Add what is new, all of it or nothing."""
        if self.looked is not None:
            said = _("Adding what is new …")
            packet = self.looked.inspected.packet
            self.run(said, partial(add_new, packet, self._into, self._answers()), self._on_added)

    def _on_added(self, new: Merged) -> None:
        self.accept()
        self.added.emit(added_words(new, self.path.name))


def _refuse(new: Path) -> None:
    if new.exists():
        said = _("{path} exists already: choose another name. Nothing was changed.")
        raise Fault(said.format(path=new))
