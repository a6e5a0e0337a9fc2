"""Tables: columns share the width of the page, text wraps only where it has to."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph, Table, TableStyle

from wellbook.pdf import style
from wellbook.pdf.flowables import CodeSpace, Marked, PageNumber, Reference
from wellbook.pdf.letters import markup
from wellbook.support.translation import _

Cell: TypeAlias = str | CodeSpace | Marked | PageNumber | Reference | Paragraph

_PAD = 5.0
_LONGEST = 1200  # characters of one cell; longer text goes on in the next row
_FACE = TableStyle(
    [
        *style.PLAIN.getCommands(),
        ("RIGHTPADDING", (0, 0), (-1, -1), _PAD),
        ("TOPPADDING", (0, 0), (-1, -1), 2.4),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.8),
        ("LINEBELOW", (0, 0), (-1, -1), 0.25, style.RULE),
    ]
)
_HEADED = TableStyle(
    [
        ("TEXTCOLOR", (0, 0), (-1, 0), style.GREY),
        ("FONT", (0, 0), (-1, 0), style.FONT, style.HEAD_CELL.fontSize, style.HEAD_CELL.leading),
        ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.7, style.GREY),
    ]
)


@dataclass(frozen=True, slots=True)
class Column:
    """A column's head, its share of the width, and whether its text stands at the right.

    The head is in English; the grid says it.
    """

    head: str
    share: float
    right: bool = False


def grid(columns: Sequence[Column], rows: Sequence[Sequence[Cell]], width: float) -> Table:
    """A table whose head is repeated on each page."""
    widths = _widths(columns, width)
    head: list[Any] = [
        _fit(_(column.head), room, style.HEAD_CELL)
        for column, room in zip(columns, widths, strict=True)
    ]
    body = [line for row in rows for line in _lines(row, widths)]
    table = Table([head, *body], colWidths=widths, repeatRows=1)
    table.setStyle(_FACE)
    table.setStyle(_HEADED)
    table.setStyle(
        TableStyle(
            [("ALIGN", (i, 0), (i, -1), "RIGHT") for i, c in enumerate(columns) if c.right]
            or [("ALIGN", (0, 0), (-1, -1), "LEFT")]
        )
    )
    return table


def pairs(rows: Sequence[tuple[str, Cell]], width: float, share: float = 0.28) -> Table:
    """A table of names and facts without a head."""
    widths = [width * share, width * (1 - share)]
    body = [line for row in rows for line in _lines(row, widths)]
    table = Table(body, colWidths=widths)
    table.setStyle(_FACE)
    table.setStyle(TableStyle([("TEXTCOLOR", (0, 0), (0, -1), style.GREY)]))
    return table


def trimmed(text: str, room: float, size: float) -> str:
    """Text cut to a width, with an ellipsis where something was cut off."""
    if stringWidth(text, style.FONT, size) <= room:
        return text
    while text and stringWidth(f"{text}…", style.FONT, size) > room:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _widths(columns: Sequence[Column], width: float) -> list[float]:
    whole = sum(column.share for column in columns)
    return [width * column.share / whole for column in columns]


def _lines(row: Sequence[Cell], widths: Sequence[float]) -> list[list[Any]]:
    """One row, or several where a cell's text is too long to stand on one page."""
    longest = max((len(cell) for cell in row if isinstance(cell, str)), default=0)
    lines: list[list[Any]] = []
    for start in range(0, max(longest, 1), _LONGEST):
        parts = [_part(cell, start) for cell in row]
        lines.append(
            [_fit(part, room, style.CELL) for part, room in zip(parts, widths, strict=True)]
        )
    return lines


def _part(cell: Cell, start: int) -> Cell:
    if isinstance(cell, str):
        return cell[start : start + _LONGEST]
    return cell if start == 0 else ""


def _fit(cell: Cell, room: float, face: Any) -> Any:
    if not isinstance(cell, str):
        return cell
    if stringWidth(cell, style.FONT, face.fontSize) <= room - _PAD and "\n" not in cell:
        return cell
    return Paragraph(markup(cell).replace("\n", "<br/>"), face)
