"""Every test in the book with its readings and documents; strike out, open, save a copy."""

from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.choices import sets
from wellbook.book.rows import Document, Sample
from wellbook.faults import Fault
from wellbook.window import sample_rows
from wellbook.window.choosing import Chooser
from wellbook.window.household import Household
from wellbook.window.look import em
from wellbook.window.messages import MessageBar
from wellbook.window.sheets import SUBTITLE, words
from wellbook.window.snapshot import SnapshotModel
from wellbook.window.tables import Table

translate = QCoreApplication.translate


class SamplesPage(QWidget):
    """A table of tests, and under it what belongs to the chosen one.

    Signals:
        strike_wanted: A test is to be struck out; carries the sample.
        restore_wanted: A struck test is to be counted again; carries the sample.
    """

    strike_wanted = Signal(object)
    restore_wanted = Signal(object)

    def __init__(
        self, household: Household, bar: MessageBar, chooser: Chooser, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._household, self._bar, self._chooser = household, bar, chooser
        self._lent: TemporaryDirectory[str] | None = None
        self.table = Table(translate("Tests", "All tests"))
        self.model = SnapshotModel(sample_rows.columns(), lambda line: line.sample.id, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=7)
        self.table.picked.connect(self._on_picked)
        self.title = words(factor=SUBTITLE, bold=True)
        self.readings = Table(translate("Tests", "Readings of the chosen test"))
        self.readings_model = SnapshotModel(
            sample_rows.reading_columns(), lambda line: line.result.id, self
        )
        self.readings.setModel(self.readings_model)
        self.readings.fit(stretch=2)
        self.documents = QListWidget()
        self.documents.setAccessibleName(translate("Tests", "Documents of the chosen test"))
        self.open_button = QPushButton(translate("Tests", "Open the document"))
        self.save_button = QPushButton(translate("Tests", "Save a copy…"))
        self.strike_button = QPushButton(translate("Tests", "Strike out…"))
        self.open_button.clicked.connect(lambda: bar.attempt(self._open))
        self.save_button.clicked.connect(lambda: bar.attempt(self._save))
        self.strike_button.clicked.connect(self._on_strike)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        side = QVBoxLayout()
        side.addWidget(words(translate("Tests", "Documents"), bold=True))
        side.addWidget(self.documents, 1)
        side.addWidget(self.open_button)
        side.addWidget(self.save_button)
        below = QHBoxLayout()
        below.setSpacing(unit)
        below.addWidget(self.readings, 3)
        below.addLayout(side, 1)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.strike_button)
        lower = QWidget()
        column = QVBoxLayout(lower)
        column.setContentsMargins(0, unit // 2, 0, 0)
        column.addLayout(head)
        column.addLayout(below, 1)
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.table)
        split.addWidget(lower)
        split.setChildrenCollapsible(False)
        split.setSizes([unit * 16, unit * 22])
        page = QVBoxLayout(self)
        page.setContentsMargins(unit * 2, unit, unit * 2, unit)
        page.addWidget(split)

    def refresh(self) -> None:
        """Show the book as it is now."""
        self.model.show(sample_rows.lines(self._household))
        if self.table.row() is None and self.model.rows:
            self.table.pick(0)
        else:
            self._on_picked(self.table.row())

    def clean_up(self) -> None:
        """Remove the copies of documents that were opened in other programs."""
        if self._lent is not None:
            self._lent.cleanup()
            self._lent = None

    @property
    def sample(self) -> Sample | None:
        """The chosen sample."""
        line = self.table.row()
        return line.sample if isinstance(line, sample_rows.Line) else None

    def _on_picked(self, line: object) -> None:
        book = self._household.book
        sample = line.sample if isinstance(line, sample_rows.Line) else None
        results = book.results(sample=sample.id, with_struck=True) if sample else []
        chosen = sets(book, self._household.catalogue)
        self.readings_model.show(sample_rows.reading_lines(self._household, results, chosen))
        self.documents.clear()
        for document in book.documents(sample=sample.id) if sample else ():
            item = QListWidgetItem(document.name)
            item.setData(Qt.ItemDataRole.UserRole, document)
            self.documents.addItem(item)
        self.documents.setCurrentRow(0)
        self._name(line if isinstance(line, sample_rows.Line) else None)

    def _name(self, line: sample_rows.Line | None) -> None:
        if line is None:
            self.title.setText(translate("Tests", "No test has been entered yet."))
        else:
            text = translate("Tests", "{day}, {point}")
            day = sample_rows.columns()[0].text(line)
            self.title.setText(text.format(day=day, point=line.point))
        is_struck = line is not None and bool(line.sample.struck)
        self.strike_button.setText(
            translate("Tests", "Count it again") if is_struck else translate("Tests", "Strike out…")
        )
        self.strike_button.setEnabled(line is not None and not self._household.book.is_readonly)
        for button in (self.open_button, self.save_button):
            button.setEnabled(self.documents.count() > 0)

    def _on_strike(self) -> None:
        if self.sample is not None:
            wanted = self.restore_wanted if self.sample.struck else self.strike_wanted
            wanted.emit(self.sample)

    def _document(self) -> Document | None:
        item = self.documents.currentItem()
        return item.data(Qt.ItemDataRole.UserRole) if item else None

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
            self._bar.say(translate("Tests", "Saved as {path}.").format(path=path))

    def _write(self, document: Document, path: Path) -> None:
        content = self._household.book.content(document.id)
        try:
            path.write_bytes(content)
        except OSError as error:
            raise Fault(
                translate("Tests", "{path} can’t be written: {why}. Choose another place.").format(
                    path=path, why=error.strerror
                )
            ) from error
