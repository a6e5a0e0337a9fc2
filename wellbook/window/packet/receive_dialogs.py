"""The two ways on from a packet: a new book, or what it adds to the book that is open."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from wellbook.book import Book
from wellbook.packet.receive.merge import Merged
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.packet.inspection_dialog import LookOverDialog
from wellbook.window.packet.inspection_jobs import (
    Looked,
    add_new,
    added_words,
    make_book,
    new_words,
)


class GoOnDialog(LookOverDialog):
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
            self.run(said, partial(make_book, looked.look.packet, new), self._on_made)

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
        super().__init__(path, into, parent)

    def way_words(self) -> str:
        """Add what is new."""
        return _("&Add what is new")

    def has_way(self, looked: Looked) -> bool:
        """Only if something is new."""
        return looked.new is not None and not looked.new.nothing

    def show_looked(self, looked: Looked) -> None:
        """Show what it would add, too."""
        super().show_looked(looked)
        if looked.new is not None:
            self.new.setText(new_words(looked.new))
            self.new.show()

    def go_on(self) -> None:
        """Add what is new, all of it or nothing."""
        if self.looked is not None:
            said = _("Adding what is new …")
            self.run(said, partial(add_new, self.looked.look.packet, self._into), self._on_added)

    def _on_added(self, new: Merged) -> None:
        self.accept()
        self.added.emit(added_words(new, self.path.name))


def _refuse(new: Path) -> None:
    if new.exists():
        said = _("{path} exists already: choose another name. Nothing was changed.")
        raise Fault(said.format(path=new))
