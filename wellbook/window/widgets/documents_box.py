"""The documents of a test or a well: add, open, save a copy, verify, take out."""

from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.rows import Document
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.support.whole_file import write_whole
from wellbook.water.values.results import Result
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.attaching import new_document
from wellbook.window.widgets.layouts import SUBTITLE, lock, words
from wellbook.window.widgets.message_bar import MessageBar


class DocumentsBox(QWidget):
    """A list of documents with what can be done with them.

    Signals:
        kept: A document was added or taken out; carries the sentence that says so.
    """

    kept = Signal(str)

    def __init__(
        self,
        household: Household,
        bar: MessageBar,
        chooser: Chooser,
        name: str,
        parent: QWidget | None = None,
        *,
        is_wide: bool = False,
    ) -> None:
        super().__init__(parent)
        self._household, self._bar, self._chooser = household, bar, chooser
        self._sample = self._well = 0
        self._lent: TemporaryDirectory[str] | None = None
        self.list = QListWidget()
        self.list.setAccessibleName(name)
        self.list.itemActivated.connect(lambda: bar.attempt(self._open))
        self.add_button = QPushButton(_("Add a document…"))
        self.open_button = QPushButton(_("Open the document"))
        self.save_button = QPushButton(_("Save a copy…"))
        self.verify_button = QPushButton(_("Is it as it was put in?"))
        self.remove_button = QPushButton(_("Take out"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        empty = _("Nothing is noted here yet: “{button}” begins.")
        self.none = words(empty.format(button=self.add_button.text()), quiet=True)
        size = SUBTITLE if is_wide else 1.0
        column.addWidget(words(_("Documents"), factor=size, bold=True))
        column.addWidget(self.none)
        column.addWidget(self.list, 1)
        grid, across = QGridLayout(), 2 if is_wide else 1
        grid.setColumnStretch(across, 1 if is_wide else 0)
        for place, (button, deed) in enumerate(
            (
                (self.add_button, self._add),
                (self.open_button, self._open),
                (self.save_button, self._save),
                (self.verify_button, self._verify),
                (self.remove_button, self._remove),
            )
        ):
            button.clicked.connect(partial(bar.attempt, deed))
            grid.addWidget(button, place // across, place % across)
        column.addLayout(grid)

    def show_sample(self, number: int) -> None:
        """Show the documents of a sample; 0 for none."""
        self._sample, self._well = number, 0
        self._fill(self._household.book.documents(sample=number) if number else [])

    def show_well(self, number: int) -> None:
        """Show the documents of a well; 0 for none."""
        self._sample, self._well = 0, number
        self._fill(self._household.book.documents(well=number) if number else [])

    def clean_up(self) -> None:
        """Remove the copies of documents that were opened in other programs."""
        if self._lent is not None:
            self._lent.cleanup()
            self._lent = None

    def _fill(self, documents: list[Document]) -> None:
        self.list.clear()
        for document in documents:
            item = QListWidgetItem(document.name)
            set_tip(item, document.name)
            item.setData(Qt.ItemDataRole.UserRole, document)
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        for button in (self.open_button, self.save_button, self.verify_button):
            button.setEnabled(bool(documents))
        lock(self._household.why_readonly, self.add_button, self.remove_button)
        if not documents:
            self.remove_button.setEnabled(False)
        can_begin = not documents and (self._sample or self._well)
        self.none.setVisible(bool(can_begin) and not self._household.why_readonly)
        if not (self._sample or self._well):
            self.add_button.setEnabled(False)

    def _document(self) -> Document | None:
        item = self.list.currentItem()
        return item.data(Qt.ItemDataRole.UserRole) if item else None

    def _add(self) -> None:
        for path in self._chooser.documents(self):
            document = new_document(path)
            self._household.book.add_document(document, sample=self._sample, well=self._well)
            self.kept.emit(_("{name} is kept.").format(name=path.name))

    def _open(self) -> None:
        document = self._document()
        if document is not None:
            if self._lent is None:
                self._lent = TemporaryDirectory(prefix="wellbook-", ignore_cleanup_errors=True)
            path = Path(self._lent.name) / Path(document.name).name
            self._write(document, path)
            self._chooser.show(path)

    def _save(self) -> None:
        document = self._document()
        path = document and self._chooser.file_to_write(self, document.name, "")
        if document and path:
            self._write(document, path)
            self._bar.say(_("Saved as {path}.").format(path=path))

    def _verify(self) -> None:
        document = self._document()
        if document is not None:
            self._household.book.content(document.id)  # says what is wrong, if anything is
            said = _(
                "{name} is byte for byte what was put in (SHA-256 {digest}). That says nothing on "
                "who made it."
            )
            self._bar.say(said.format(name=document.name, digest=document.sha256))

    def _remove(self) -> None:
        """Take the document out, unless readings were taken from it.

        Raises:
            Fault: They were: it stays with them.
        """
        document = self._document()
        if document is None:
            return
        n = sum(_is_from(one, document, self._first) for one in self._results())
        if n:
            said = ngettext(
                "{n} reading was taken from {name}, so it stays beside it. If it is of other "
                "water, strike the test out.",
                "{n} readings were taken from {name}, so it stays beside them. If it is of other "
                "water, strike the test out.",
                n,
            )
            raise Fault(said.format(n=n, name=document.name))
        self._take_out(document)

    def _results(self) -> list[Result]:
        found = self._household.record.results(with_struck=True)
        return [one for one in found if self._sample and one.sample == self._sample]

    @property
    def _first(self) -> Document:
        """The first document of the list."""
        first: Document = self.list.item(0).data(Qt.ItemDataRole.UserRole)
        return first

    def _take_out(self, document: Document) -> None:
        self._household.book.remove_document(document)
        said = _(
            "{name} is taken out: no list and no packet has it any more. Its content stays in the "
            "file of the book; “Undo” in the menu Edit brings it back."
        )
        self.kept.emit(said.format(name=document.name))

    def _write(self, document: Document, path: Path) -> None:
        write_whole(path, self._household.book.content(document.id))


def _is_from(result: Result, document: Document, first: Document) -> bool:
    """Whether a reading was taken from a document; the first of its test need not be named."""
    if result.report:
        return document.sha256.startswith(result.report)
    return bool(result.place) and document == first
