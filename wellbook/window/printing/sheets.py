"""What can be printed: the pages of a PDF, or what a page of the window shows."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QMarginsF, QRectF, QSizeF, Qt, QUrl
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter, QTextDocument
from PySide6.QtPrintSupport import QPrinter

from wellbook.pdf import native

if TYPE_CHECKING:
    from pypdfium2 import PdfDocument

_SHARPEST = 300  # dots per inch that a page is drawn with; printers that can do more gain nothing
_MARGIN = 15.0  # millimetres
_UPRIGHT = 5  # columns that fit on upright paper
_LONGEST = 32  # letters of a cell that widen its column
_STYLE = """
h1 {font-size: 14pt; font-weight: bold;} p {font-size: 9pt;}
th {font-size: 8pt; text-align: left; font-weight: bold;} td {font-size: 8pt;}
"""


class Printable(Protocol):
    """What can be put on paper."""

    @property
    def title(self) -> str:
        """What the job is called."""

    @property
    def is_wide(self) -> bool:
        """Whether the paper is to lie on its side."""

    def print_on(self, printer: QPrinter) -> None:
        """Put it on the paper of a printer."""


@dataclass(frozen=True, slots=True)
class PdfSheets:
    """A PDF of ours, page by page as large as the paper.

    Attributes:
        title: What the job is called.
        path: The file; it is read when it is printed.
    """

    title: str
    path: Path

    @property
    def is_wide(self) -> bool:
        """Our PDFs stand upright."""
        return False

    def print_on(self, printer: QPrinter) -> None:
        """Draw each page that is asked for as a picture, as sharp as is of use."""
        with native.opened(self.path) as document:
            painter = QPainter()
            try:
                self._print(document, painter, printer)
            finally:
                if painter.isActive():
                    painter.end()

    def _print(self, document: "PdfDocument", painter: QPainter, printer: QPrinter) -> None:
        first = max(printer.fromPage(), 1)
        last = min(printer.toPage() or len(document), len(document))
        sharp = min(printer.resolution(), _SHARPEST)
        for number in range(first, last + 1):
            if number == first:
                painter.begin(printer)
            else:
                printer.newPage()
            bitmap = document[number - 1].render(scale=sharp / 72, rev_byteorder=True)
            image = QImage(
                bytes(bitmap.buffer),
                bitmap.width,
                bitmap.height,
                bitmap.stride,
                QImage.Format.Format_RGB888,
            )
            _draw_in(painter, image, QRectF(painter.viewport()))


@dataclass(frozen=True, slots=True)
class Rows:
    """A table: heads, rows, and what it is called."""

    name: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]


@dataclass(frozen=True, slots=True)
class PageSheets:
    """What a page of the window shows: pictures of its charts, and its tables.

    Attributes:
        title: Heading of the first sheet.
        about: Lines below it.
        parts: Charts and tables from top to bottom.
    """

    title: str
    about: Sequence[str]
    parts: Sequence[QImage | Rows]

    @property
    def is_wide(self) -> bool:
        """On its side where a table has many columns."""
        tables = [part for part in self.parts if isinstance(part, Rows)]
        return any(len(table.heads) > _UPRIGHT for table in tables)

    def print_on(self, printer: QPrinter) -> None:
        """Set it as a text that flows over as many sheets as it needs."""
        document = QTextDocument()
        document.setDefaultStyleSheet(_STYLE)
        room = printer.pageLayout().paintRect(QPageLayout.Unit.Point)
        wide = int(room.width()) - 20
        said = [f"<h1>{escape(self.title)}</h1>"]
        said += [f"<p>{escape(line)}</p>" for line in self.about]
        for number, part in enumerate(self.parts):
            if isinstance(part, QImage):
                place = QUrl(f"chart:{number}")
                document.addResource(QTextDocument.ResourceType.ImageResource, place, part)
                said.append(f'<p><img src="{place.toString()}" width="{wide}"/></p>')
            else:
                said.append(_table(part))
        document.setHtml("".join(said))
        document.setPageSize(QSizeF(room.size()))
        document.print_(printer)


def set_paper(printer: QPrinter, paper: str, what: Printable) -> None:
    """Give a printer its paper (`a4` or `letter`), its margins and the name of the job."""
    sides = QPageLayout.Orientation
    printer.setPageOrientation(sides.Landscape if what.is_wide else sides.Portrait)
    size = QPageSize.PageSizeId.A4 if paper == "a4" else QPageSize.PageSizeId.Letter
    printer.setPageSize(QPageSize(size))
    margins = QMarginsF(_MARGIN, _MARGIN, _MARGIN, _MARGIN)
    printer.setPageMargins(margins, QPageLayout.Unit.Millimeter)
    printer.setDocName(what.title)


def _table(rows: Rows) -> str:
    columns = zip(rows.heads, *rows.rows, strict=True)
    letters = [min(max(map(len, column)), _LONGEST) + 2 for column in columns]
    heads = "".join(
        f'<th width="{100 * count // sum(letters)}%">{escape(head)}</th>'
        for head, count in zip(rows.heads, letters, strict=True)
    )
    lines = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows.rows
    )
    return (
        f"<p><b>{escape(rows.name)}</b></p>"
        f'<table width="100%" border="0.5" cellspacing="0" cellpadding="3">'
        f"<thead><tr>{heads}</tr></thead>{lines}</table>"
    )


def _draw_in(painter: QPainter, image: QImage, room: QRectF) -> None:
    """Draw a picture as large as the room lets it be, in its middle."""
    size = QSizeF(image.size()).scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
    place = QRectF(room.topLeft(), size)
    place.moveCenter(room.center())
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(place, image)
