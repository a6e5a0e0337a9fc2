"""Striking out a test, with a reason."""

from PySide6.QtWidgets import QFormLayout, QPlainTextEdit, QWidget

from wellbook.book import Book
from wellbook.book.rows import Sample
from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.common.words import moment_words, reason_hint
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words


class StrikeDialog(EntryDialog):
    """Asks why a test is not to be counted."""

    def __init__(self, book: Book, sample: Sample, parent: QWidget) -> None:
        day = moment_words(sample.collected)
        title = _("Strike out the test of {day}").format(day=day)
        super().__init__(title, _("Strike it out"), parent)
        self._book, self._sample, self._day = book, sample, day
        self.rows.addWidget(
            words(
                _(
                    "It stays in the book with your reason, is left out of charts and "
                    "comparisons, and can be counted again later. A buyer’s history says how "
                    "many tests were struck out."
                )
            )
        )
        self.reason = QPlainTextEdit()
        self.reason.setPlaceholderText(reason_hint())
        self.reason.setTabChangesFocus(True)
        self.reason.setFixedHeight(em(self) * 5)
        form = QFormLayout()
        form.addRow(_("&Reason"), self.reason)
        self.rows.addLayout(form)
        self.finish()

    def keep(self) -> str:
        """Strike the test out."""
        self._book.strike_sample(self._sample.id, self.reason.toPlainText())
        return _("The test of {day} is struck out.").format(day=self._day)
