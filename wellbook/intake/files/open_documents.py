"""ODT: tables and paragraphs in their order (OASIS OpenDocument 1.3, part 3: 5.1, 6.1, 9.1)."""

from collections.abc import Iterator
from xml.etree import ElementTree as ET

from wellbook.intake.files import archives
from wellbook.intake.files.plain_lines import cells_of
from wellbook.intake.files.sheets import Cells, Line, Sheet, times

CONTENT, MIMETYPE = "content.xml", "mimetype"
TEXT = b"application/vnd.oasis.opendocument.text"
_NAMES = "{urn:oasis:names:tc:opendocument:xmlns:%s:1.0}"
_OFFICE, _TABLE, _TEXT, _STYLE = (_NAMES % one for one in ("office", "table", "text", "style"))
_PARAGRAPHS = {f"{_TEXT}p", f"{_TEXT}h"}
_GAPS = {f"{_TEXT}tab", f"{_TEXT}line-break"}
_CELLS = {f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"}
_NO_TEXT = {f"{_TEXT}tracked-changes", f"{_OFFICE}annotation", f"{_TEXT}note"}
_MOST_CELLS = 100  # that one cell may stand for; our own bounds
_DEEPEST = 50  # lists within lists


def sheets(content: bytes, name: str) -> tuple[Sheet, ...]:
    """The document as one sheet: rows of its tables, and its paragraphs between them.

    Raises:
        Fault: It is damaged.
    """
    root = archives.document_in(content, CONTENT, name)
    struck = frozenset(
        style.get(f"{_STYLE}name", "")
        for style in root.iter(f"{_STYLE}style")
        for text in style.iter(f"{_STYLE}text-properties")
        if text.get(f"{_STYLE}text-line-through-style", "none") != "none"
    )
    body = root.find(f"{_OFFICE}body/{_OFFICE}text")
    found = list(_rows(body)) if body is not None else []
    lines = tuple(Line(number) for number in range(1, len(found) + 1))
    crossed = frozenset(n for n, (_row, part) in enumerate(found, 1) if _is_struck(part, struck))
    return (Sheet("", [row for row, _part in found], lines=lines, struck=crossed),)


def _rows(body: ET.Element, depth: int = 0) -> Iterator[tuple[Cells, ET.Element]]:
    for part in body if depth < _DEEPEST else ():
        if part.tag in _PARAGRAPHS:
            yield cells_of(_said(part)), part
        elif part.tag == f"{_TABLE}table":
            for row in part.iter(f"{_TABLE}table-row"):
                yield list(_cells(row)), row
            yield [], ET.Element("")
        elif part.tag not in _NO_TEXT:  # a list, a section
            yield from _rows(part, depth + 1)


def _cells(row: ET.Element) -> Iterator[str]:
    for cell in row:
        if cell.tag in _CELLS:
            text = " ".join(filter(None, (_said(one) for one in cell.iter() if _is_line(one))))
            repeated = cell.get(f"{_TABLE}number-columns-repeated")
            yield from [text] * times(repeated, _MOST_CELLS)


def _is_line(part: ET.Element) -> bool:
    return part.tag in _PARAGRAPHS


def _is_struck(part: ET.Element, styles: frozenset[str]) -> bool:
    return any(one.get(f"{_TEXT}style-name") in styles and _said(one) for one in part.iter())


def _said(part: ET.Element) -> str:
    """The text of a paragraph, without notes; `text:s` stands for several blanks (6.1.3)."""

    def parts(one: ET.Element, depth: int = 0) -> Iterator[str]:
        yield one.text or ""
        for inner in one if depth < _DEEPEST else ():
            if inner.tag in _GAPS:
                yield "  "
            elif inner.tag == f"{_TEXT}s":
                yield " " * times(inner.get(f"{_TEXT}c"), _MOST_CELLS)
            elif inner.tag not in _NO_TEXT:
                yield from parts(inner, depth + 1)
            yield inner.tail or ""

    return "".join(parts(part)).strip()
