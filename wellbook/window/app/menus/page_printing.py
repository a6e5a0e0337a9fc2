"""Printing what a page of the window shows: its charts and its tables, under its title."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QWidget

from wellbook.planning.settings import paper
from wellbook.support.translation import _
from wellbook.window.common.preferences import paper_of_system
from wellbook.window.common.words import day_words
from wellbook.window.widgets.chart_view import FigureView
from wellbook.window.widgets.tables import Table

if TYPE_CHECKING:
    from PySide6.QtGui import QImage

    from wellbook.window.app.book_view import BookView
    from wellbook.window.printing.sheets import PageSheets, Rows


class PagePrinting:
    """Prints the page that a view of a book shows, or shows it as it would be printed."""

    def __init__(self, view: "BookView") -> None:
        self._view = view

    def preview_page(self) -> None:
        """Show the sheets."""
        from wellbook.window.printing.preview_dialog import PreviewDialog

        dialog = PreviewDialog(self.sheets(), self._paper, self._view)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def print_page(self) -> None:
        """Ask which printer, and print."""
        from PySide6.QtPrintSupport import QPrinter

        from wellbook.window.printing.preview_dialog import print_with_dialog
        from wellbook.window.printing.sheets import set_paper

        what = self.sheets()
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        set_paper(printer, self._paper, what)
        print_with_dialog(what, printer, self._view)

    @property
    def _paper(self) -> str:
        return paper(self._view.household.record.settings, paper_of_system())

    def sheets(self) -> "PageSheets":
        """What the page shows now."""
        from wellbook.window.printing.sheets import PageSheets

        view = self._view
        page = view.pages.currentWidget()
        inside = page.findChildren(QWidget) if page is not None else []
        shown = [part for part in inside if part.isVisible()]
        shown.sort(key=lambda part: part.mapTo(view, QPoint()).y())
        parts: list[QImage | Rows] = []
        for part in shown:
            if isinstance(part, FigureView):
                parts.append(part.drawn_on_paper())
            elif isinstance(part, Table) and part.model() is not None:
                parts.append(_rows(part))
        today = day_words(view.household.today)
        about = [
            _("Printed on {day} from {book}.").format(day=today, book=view.household.path.name)
        ]
        point = view.point
        if point is not None:
            about.insert(0, f"{view.head.name.text()}, {point.point.name}")
        return PageSheets(view.title, about, parts)


def _rows(table: Table) -> "Rows":
    from wellbook.window.printing.sheets import Rows

    heads, rows = table.words()
    return Rows(table.accessibleName(), heads, rows)
