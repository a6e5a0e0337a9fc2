"""The report of a reading, opened where the reading stands in it."""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QWidget

from wellbook.book.rows import Document
from wellbook.intake import Place
from wellbook.intake.said import where_words
from wellbook.support.translation import _
from wellbook.water.values.results import Result
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words
from wellbook.wording import facts

if TYPE_CHECKING:
    from wellbook.intake import PagePicture, Sheet


def report_of(household: Household, result: Result) -> Document | None:
    """The document of a test in which a reading stands; None where there is none."""
    own = [one for one in household.record.documents if one.sample == result.sample]
    named = (one for one in own if result.report and one.sha256.startswith(result.report))
    return next(named, own[0] if own and not result.report else None)


def place_of(result: Result) -> Place:
    """Where a reading stands in its report; the first page of it where that is not known."""
    return Place.parse(result.place) or Place(page=1)


def place_words(result: Result) -> str:
    """Where a reading stands in its report, in words; empty where that is not known."""
    place = Place.parse(result.place)
    return where_words(place) if place else ""


def show_report(household: Household, result: Result, parent: QWidget) -> None:
    """Open the report of a reading at its place, beside the window."""
    dialog = ReportDialog(household, result, parent)
    dialog.finished.connect(dialog.deleteLater)
    QDialog.open(dialog)


class ReportDialog(Dialog):
    """A report as it was sent; the place of one reading is lit."""

    def __init__(self, household: Household, result: Result, parent: QWidget) -> None:
        from wellbook.window.dialogs.report.source_view import SourceView

        self._household = household
        self._document = report_of(household, result)
        self._place = place_of(result)
        name = self._document.name if self._document else ""
        super().__init__(name or _("The report"), parent, width=60, height=46)
        said = _("{name}: {reported}").format(
            name=result.name, reported=facts.with_unit(result.reading.text, result.reading.unit, "")
        )
        where = place_words(result)
        self.said = words(_("{said}, {where}").format(said=said, where=where) if where else said)
        self.source = SourceView(name, self._draw)
        self.source.failed.connect(self.bar.say)
        self._loader = Loader(self)
        self._loader.failed.connect(self.bar.say)
        self.rows.addWidget(self.said)
        self.rows.addWidget(self.source, 1)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)
        self._show(is_known=bool(where))

    def _show(self, *, is_known: bool) -> None:
        if self._document is None:
            self.bar.say(_("No report is kept with this test."))
        elif self._place.page:
            self.source.show_place(self._place, is_lit=is_known)
        else:
            self._loader.ask(partial(self._sheets, self._document), self._on_sheets)

    def _content(self, document: Document) -> bytes:
        with self._household.book.again() as book:
            return book.content(document.id)

    def _draw(self, place: Place, tell: Tell) -> "PagePicture":
        from wellbook.intake import page_picture

        tell(0, 1, "")
        if self._document is None:
            raise AssertionError("nothing is drawn without a document")
        return page_picture(self._content(self._document), self._document.name, place)

    def _sheets(self, document: Document, tell: Tell) -> "tuple[Sheet, ...]":
        from wellbook.intake import sheets_of_kept

        tell(0, 1, "")
        return sheets_of_kept(self._content(document), document.name, self._household.untranslated)

    def _on_sheets(self, sheets: "tuple[Sheet, ...]") -> None:
        self.source.show_file(sheets, [self._place])
        self.source.show_place(self._place)

    def done(self, code: int) -> None:
        """Draw nothing any more, then close."""
        self.source.stop()
        self._loader.stop()
        super().done(code)
