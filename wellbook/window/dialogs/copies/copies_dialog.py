"""The copies of a book: where they lie, one more on a stick, going back to one of them."""

from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import QThreadPool, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QPushButton,
    QWidget,
)

from wellbook.book import Book
from wellbook.book.copies import Copy, Preview
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.jobs import Job
from wellbook.window.common.preferences import Preferences
from wellbook.window.dialogs.copies import copy_jobs
from wellbook.window.dialogs.copies.copy_rows import columns, preview_words, warning_words
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table


class CopiesDialog(Dialog):
    """Lists the dated copies of a book that is open, or of one that can't be opened any more.

    Signals:
        go_back_wanted: A copy is to take the place of the book; carries the copy's path.
        open_wanted: What was saved of a damaged book is to be opened; carries its path.
    """

    go_back_wanted = Signal(object)
    open_wanted = Signal(object)

    def __init__(
        self,
        path: Path,
        book: Book | None,
        preferences: Preferences,
        chooser: Chooser,
        today: date,
        parent: QWidget,
    ) -> None:
        title = _("Copies of {name}").format(name=path.name)
        super().__init__(title, parent, width=48, height=30)
        self._path, self._book, self._today = path, book, today
        self._preferences, self._chooser = preferences, chooser
        self._preview: Preview | None = None
        self.warning = words(bold=True)
        self.table = Table(_("Dated copies"))
        self.model = RowsModel(columns(), lambda copy: copy.path, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        self.table.arrange("copies")
        self.table.picked.connect(self._on_picked)
        self.preview = words()
        self.elsewhere_button = QPushButton(_("Copy to a stick or &folder…"))
        self.here_button = QPushButton(_("&Make a copy now"))
        self.back_button = QPushButton(_("&Go back to this copy"))
        self.rescue_button = QPushButton(_("&Save what can be read…"))
        self.elsewhere_button.clicked.connect(self._on_elsewhere)
        self.here_button.clicked.connect(lambda: self._make_copy(None))
        self.back_button.clicked.connect(self._on_back)
        self.rescue_button.clicked.connect(self._on_rescue)
        self.job = self._look = Job(self)
        self._lay_out()
        self.refresh()

    def _lay_out(self) -> None:
        self.rows.addWidget(
            words(
                _(
                    "At the first change of a day Wellbook copies the book as it was before, and "
                    "reads the copy back. It keeps the last seven, one a month and one a year."
                ),
                quiet=True,
            )
        )
        self.rows.addWidget(self.warning)
        self.rows.addWidget(self.table, 1)
        self.rows.addWidget(self.preview)
        row = QHBoxLayout()
        for button in (self.elsewhere_button, self.here_button):
            button.setVisible(self._book is not None)
            row.addWidget(button)
        self.rescue_button.setVisible(self._book is None)
        row.addWidget(self.rescue_button)
        row.addStretch(1)
        row.addWidget(self.back_button)
        self.foot.addLayout(row)
        buttons = QDialogButtonBox(self)
        buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def refresh(self) -> None:
        """List the copies that are there now."""
        found = copy_jobs.copies(self._path, self._preferences.copy_folder)
        self.model.show(found)
        trouble = self._book.copy_trouble if self._book else ""
        self.warning.setText(" ".join(filter(None, (trouble, warning_words(self._path, found)))))
        self.warning.setVisible(bool(self.warning.text()))
        if found and self.table.row() is None:
            self.table.pick(0)
        else:
            self._on_picked(self.table.row())

    def _on_picked(self, copy: object) -> None:
        self._preview = None
        self.back_button.setEnabled(False)
        if not isinstance(copy, Copy):
            self.preview.setText(_("There is no copy yet."))
            return
        self.preview.setText(_("Comparing with the book …"))
        look = self._look = Job(self)
        look.done.connect(partial(self._on_compared, look, copy))
        look.failed.connect(partial(self._on_not_compared, look))
        look.start(partial(copy_jobs.compare, self._path, self._book, copy.path))

    def _on_compared(self, look: Job, copy: Copy, found: object) -> None:
        if look is self._look and isinstance(found, Preview):
            self._preview = found
            self.preview.setText(preview_words(copy, found))
            self.back_button.setEnabled(bool(found.lost or found.gained or found.trouble))

    def _on_not_compared(self, look: Job, sentence: str) -> None:
        if look is self._look:
            self.preview.setText(sentence)

    def _on_back(self) -> None:
        copy = self.table.row()
        if isinstance(copy, Copy) and self._preview is not None:
            self.accept()
            self.go_back_wanted.emit(copy.path)

    def _on_elsewhere(self) -> None:
        folder = self._chooser.folder_for_copies(self)
        if folder is not None:
            self._preferences.copy_folder = folder
            self._make_copy(folder)

    def _make_copy(self, folder: Path | None) -> None:
        if self._book is not None and not self.job.running:
            self.bar.say(_("Copying, and reading the copy back …"))
            work = partial(copy_jobs.make, self._book, self._today, folder)
            self._run(work, self._on_made)

    def _on_made(self, made: object) -> None:
        self.refresh()
        self.bar.say(
            _("The copy {path} reads back the same.").format(path=made),
            _("Open the folder"),
            partial(self._chooser.show, Path(str(made)).parent),
        )

    def _on_rescue(self) -> None:
        name = _("{name} saved.wellbook").format(name=self._path.stem)
        target = self._chooser.book_to_make(self, name)
        if target is not None and not self.job.running:
            work = partial(copy_jobs.save_readable, self._path, target)
            self._run(work, partial(self._on_saved, target))

    def _on_saved(self, target: Path, said: object) -> None:
        self.bar.say(str(said), _("Open it"), partial(self._open, target))

    def _open(self, target: Path) -> None:
        self.accept()
        self.open_wanted.emit(target)

    def done(self, result: int) -> None:
        """Wait for work under way, which is over in moments, then close."""
        QThreadPool.globalInstance().waitForDone()
        super().done(result)

    def _run(self, work: copy_jobs.Work, on_done: copy_jobs.OnDone) -> None:
        self.job = Job(self)
        self.job.done.connect(on_done)
        self.job.failed.connect(self.bar.say)
        self.job.start(work)
