"""DOCX: tables and paragraphs in their order (ECMA-376 part 1, 17.4 tables, 17.3 paragraphs)."""

from collections.abc import Iterator
from xml.etree import ElementTree as ET

from wellbook.intake.files import archives
from wellbook.intake.files.hidden_parts import say_struck, without_struck
from wellbook.intake.files.plain_lines import cells_of
from wellbook.intake.files.sheets import Cells, Line, Sheet, times

DOCUMENT = "word/document.xml"
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_MOST_SPAN = 100


def sheets(content: bytes, name: str) -> tuple[Sheet, ...]:
    """The document as one sheet: rows of its tables, and its paragraphs between them.

    Raises:
        Fault: It is damaged.
    """
    root = archives.document_in(content, DOCUMENT, name)
    body = root.find(f"{_W}body")
    out: list[str] = []
    found = list(_rows(body, out)) if body is not None else []
    lines = tuple(Line(number) for number in range(1, len(found) + 1))
    struck = frozenset(n for n, (_row, is_struck) in enumerate(found, 1) if is_struck)
    rows = [row for row, _is_struck in found]
    return (Sheet("", rows, say_struck(out), lines=lines, struck=struck),)


def _rows(body: ET.Element, out: list[str]) -> Iterator[tuple[Cells, bool]]:
    """Rows, and whether something in each is struck through; what is struck out goes to `out`."""
    for part in body:
        if part.tag == f"{_W}p":
            yield cells_of(_left(part, out) or _text(part)), any(map(_is_struck, _runs(part)))
        elif part.tag == f"{_W}tbl":
            for row in part.iter(f"{_W}tr"):
                yield list(_cells(row, out)), any(map(_is_struck, _runs(row)))
            yield [], False


def _runs(part: ET.Element) -> Iterator[ET.Element]:
    return part.iter(f"{_W}r")


def _is_struck(run: ET.Element) -> bool:
    """Whether the text of a run is struck through (17.3.2.37 strike, .9 dstrike)."""
    marks = [one for name in ("strike", "dstrike") for one in run.findall(f"{_W}rPr/{_W}{name}")]
    return any(one.get(f"{_W}val") not in {"0", "false"} for one in marks) and bool(_text(run))


def _left(part: ET.Element, out: list[str]) -> str:
    """What is left of a cell or a paragraph beside what is struck out; empty if nothing is."""
    pieces: list[tuple[str, bool]] = []
    for paragraph in part.iter(f"{_W}p"):
        pieces += [(_said(run), _is_struck(run)) for run in _runs(paragraph)] + [(" ", False)]
    left, struck = without_struck(pieces)
    out += [struck] if struck else []
    return left if struck else ""


def _cells(row: ET.Element, out: list[str]) -> Iterator[str]:
    for cell in row.findall(f"{_W}tc"):
        texts = (_text(paragraph) for paragraph in cell.iter(f"{_W}p"))
        yield _left(cell, out) or " ".join(filter(None, texts))
        span = cell.find(f"{_W}tcPr/{_W}gridSpan")
        wide = span.get(f"{_W}val") if span is not None else None
        yield from [""] * (times(wide, _MOST_SPAN) - 1)


def _text(paragraph: ET.Element) -> str:
    return _said(paragraph).strip()


def _said(paragraph: ET.Element) -> str:
    said = []
    for part in paragraph.iter():
        if part.tag == f"{_W}t":
            said.append(part.text or "")
        elif part.tag in {f"{_W}tab", f"{_W}br"}:
            said.append("  ")
    return "".join(said)
