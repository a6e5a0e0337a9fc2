"""The pages of a report from this computer, to be typed from."""

from pathlib import Path

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.intake import PagePicture, Place, page_of_file
from wellbook.support.translation import _
from wellbook.window.common.jobs import Tell
from wellbook.window.common.theme import em
from wellbook.window.dialogs.report.source_view import SourceView


class PagesBeside(QWidget):
    """Shows one page of a file and leafs through the others; hidden until there is a file."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.path: Path | None = None
        self._page = 1
        self.source = SourceView("", self._draw)
        self.back_button = QPushButton(_("Page &before"))
        self.next_button = QPushButton(_("Ne&xt page"))
        self.back_button.clicked.connect(lambda: self._leaf(-1))
        self.next_button.clicked.connect(lambda: self._leaf(1))
        self.source.drawn.connect(self._say_pages)
        row = QHBoxLayout()
        row.addWidget(self.back_button)
        row.addWidget(self.next_button)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.source, 1)
        column.addLayout(row)
        self.setMinimumWidth(em(self) * 18)
        self.hide()

    def show_file(self, path: Path) -> None:
        """Show the first page of a file."""
        self.path, self._page = path, 1
        self.source.begin(path.name)
        self.show()
        self._leaf(0)

    def stop(self) -> None:
        """Draw nothing any more."""
        self.source.stop()

    def _leaf(self, step: int) -> None:
        self._page = min(max(self._page + step, 1), max(self.source.count, 1))
        self.source.show_place(Place(page=self._page), is_lit=False)

    def _say_pages(self) -> None:
        """Offer the pages there are; a file of one page has none to leaf to."""
        count = self.source.count
        for button, is_there in (
            (self.back_button, self._page > 1),
            (self.next_button, self._page < count),
        ):
            button.setVisible(count > 1)
            button.setEnabled(is_there)

    def _draw(self, place: Place, tell: Tell) -> PagePicture:
        tell(0, 1, "")
        return page_of_file(self.path, place)
