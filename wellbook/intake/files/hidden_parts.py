"""Rows and columns that the sheets of a workbook hide, and what files strike through.

XLSX: ECMA-376 part 1, 18.3.1.73 row, 18.3.1.13 col, 18.8.22 font, 18.4.10 strike, 18.4.8 si.
ODS: OpenDocument 1.3 part 3, 19.753 table:visibility, 20.382 to 20.386 style:text-line-through.
"""

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from xml.etree import ElementTree as ET

from wellbook.intake.files import archives
from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

_LINES = ("style", "type")
_MOST = 1_000_000  # rows or columns of a sheet that are counted
# Most workbooks hide nothing, which is seen without taking them apart.
_MARKS = re.compile(rb"\b(?:hidden=[\"'](?:1|true)|(?:ht|width)=[\"']0(?:\.0*)?[\"']|visibility=)")
_WORKBOOK, _RELATIONS = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
_STYLES, _STRINGS = "xl/styles.xml", "xl/sharedStrings.xml"
_CONTENT, _NAMED_STYLES = "content.xml", "styles.xml"
Pieces = Sequence[tuple[str, bool]]
"""Pieces of a text in their order, and whether each is struck through."""
_NAMED = 5
_PART = tuple[str, str]  # what is left of a text, and what is struck out of it


@dataclass(frozen=True, slots=True)
class Hidden:
    """Numbers of the rows and of the columns that a sheet does not show, from 1.

    Attributes:
        struck: Rows in which something is struck through.
        parts: What is left of the text of a cell, and what is struck out of it, by row and column.
    """

    rows: set[int] = field(default_factory=set)
    columns: set[int] = field(default_factory=set)
    struck: set[int] = field(default_factory=set)
    parts: dict[tuple[int, int], _PART] = field(default_factory=dict)


def hidden_in(content: bytes) -> dict[str, Hidden]:
    """What each sheet of an XLSX or ODS file hides, by its name; none where that can't be read."""
    workbook = archives.part_of(content, _WORKBOOK)
    try:
        if workbook:
            return dict(_of_xlsx(content, workbook))
        styles = archives.part_of(content, _NAMED_STYLES)
        return dict(_of_ods(archives.part_of(content, _CONTENT), styles))
    except (ET.ParseError, ValueError, LookupError, RecursionError):
        return {}


def _of_xlsx(content: bytes, workbook: bytes) -> Iterator[tuple[str, Hidden]]:
    relations = _parsed(archives.part_of(content, _RELATIONS))
    targets = {one.get("Id", ""): one.get("Target", "") for one in relations}
    styles = _struck_styles(archives.part_of(content, _STYLES))
    strings = _struck_strings(archives.part_of(content, _STRINGS))
    for sheet in _parsed(workbook).iter():
        if _tag(sheet) != "sheet":
            continue
        number = next((text for key, text in sheet.items() if key.endswith("}id")), "")
        part = posixpath.normpath(posixpath.join("/xl", targets.get(number, "")))
        text = archives.part_of(content, part.lstrip("/"))
        if _MARKS.search(text) or styles or strings or b"strike" in text:
            yield sheet.get("name", ""), _of_sheet(_parsed(text), styles, strings)


def _struck_styles(text: bytes) -> set[str]:
    """Numbers of the styles of cells whose font is struck through."""
    if b"strike" not in text:
        return set()
    root = _parsed(text)
    fonts = [font for part in root if _tag(part) == "fonts" for font in part]
    struck = {
        str(number)
        for number, font in enumerate(fonts)
        if any(_tag(one) == "strike" and one.get("val") not in {"0", "false"} for one in font)
    }
    styles = [style for part in root if _tag(part) == "cellXfs" for style in part]
    return {str(number) for number, one in enumerate(styles) if one.get("fontId") in struck}


def _struck_strings(text: bytes) -> dict[str, _PART]:
    """By their numbers, the texts of which a run is struck through."""
    if b"strike" not in text:
        return {}
    told = ((str(number), _struck_part(one)) for number, one in enumerate(_parsed(text)))
    return {number: part for number, part in told if part}


def _struck_part(string: ET.Element) -> _PART | None:
    """What is left of a text of several runs, and what is struck out; None if nothing is."""
    runs = [run for run in string if _tag(run) == "r"]
    pieces = [("".join(run.itertext()), _is_struck_run(run)) for run in runs]
    return without_struck(pieces) if any(is_struck for _text, is_struck in pieces) else None


def _is_struck_run(run: ET.Element) -> bool:
    marks = (one for part in run if _tag(part) == "rPr" for one in part if _tag(one) == "strike")
    return any(one.get("val") not in {"0", "false"} for one in marks)


def _of_sheet(sheet: ET.Element, styles: set[str], strings: Mapping[str, _PART]) -> Hidden:
    from openpyxl.utils.cell import coordinate_to_tuple

    hidden = Hidden()
    number = 0
    for part in sheet.iter():
        tag = _tag(part)
        if tag == "row":
            number = int(part.get("r", number + 1))
            if _is_hidden(part, "ht"):
                hidden.rows.add(number)
        elif tag == "c" and len(part):
            told = _told_in(part[0], strings) if part.get("t") in {"s", "inlineStr"} else None
            if told or part.get("s") in styles:
                hidden.struck.add(number)
            if told and told[1]:
                hidden.parts[coordinate_to_tuple(part.get("r", ""))] = told
        elif tag == "col" and _is_hidden(part, "width"):
            first, last = int(part.get("min", "0")), int(part.get("max", "0"))
            hidden.columns.update(range(first, min(last, _MOST) + 1))
    return hidden


def _told_in(value: ET.Element, strings: Mapping[str, _PART]) -> _PART | None:
    """What is struck out of the text of a cell, which is its own or one that cells share."""
    return _struck_part(value) if _tag(value) == "is" else strings.get(value.text or "")


def _is_hidden(part: ET.Element, size: str) -> bool:
    return part.get("hidden") in {"1", "true"} or float(part.get(size, "1")) == 0


def _of_ods(text: bytes, named: bytes) -> Iterator[tuple[str, Hidden]]:
    has_struck = b"line-through" in text or b"line-through" in named
    if not (has_struck or _MARKS.search(text)):
        return
    root = _parsed(text)
    styles = _struck_through([_parsed(named), root]) if has_struck and named else set()
    styles = styles or (_struck_through([root]) if has_struck else set())
    for table in root.iter():
        if _tag(table) == "table":
            yield _said(table, "name"), _of_table(table, styles)


def _struck_through(roots: Iterable[ET.Element]) -> set[str]:
    """Names of the styles whose text is struck through, by themselves or by their parents."""
    struck: set[str] = set()
    for style in (one for root in roots for one in root.iter() if _tag(one) == "style"):
        lines = [_said(part, f"text-line-through-{key}") for part in style for key in _LINES]
        told = [line for line in lines if line]
        is_struck = any(line != "none" for line in told) if told else False
        if is_struck or (not told and _said(style, "parent-style-name") in struck):
            struck.add(_said(style, "name"))
    return struck


def _of_table(table: ET.Element, styles: set[str]) -> Hidden:
    hidden = Hidden()
    rows = columns = 0
    for part in table.iter():
        is_hidden = _said(part, "visibility") in {"collapse", "filter"}
        if _tag(part) == "table-row":
            end = rows + int(_said(part, "number-rows-repeated") or 1)
            if is_hidden:
                hidden.rows.update(range(rows + 1, min(end, _MOST) + 1))
            if styles:
                _take_struck(part, rows + 1, styles, hidden)
            rows = end
        elif _tag(part) == "table-column":
            end = columns + int(_said(part, "number-columns-repeated") or 1)
            if is_hidden:
                hidden.columns.update(range(columns + 1, min(end, _MOST) + 1))
            columns = end
    return hidden


def _take_struck(row: ET.Element, number: int, styles: set[str], hidden: Hidden) -> None:
    """Note what of the cells of a row is struck through."""
    column = 0
    for cell in (one for one in row if _tag(one) in {"table-cell", "covered-table-cell"}):
        column += 1
        if len(cell):
            is_whole = _said(cell, "style-name") in styles
            texts = [text for text in cell if _tag(text) == "p"]
            pieces = [piece for text in texts for piece in (*_pieces(text, styles), ("\n", False))]
            left, out = without_struck(pieces)
            if is_whole or any(is_struck for _text, is_struck in pieces):
                hidden.struck.add(number)
            if out and not is_whole:
                hidden.parts[number, column] = left, out
        column += int(_said(cell, "number-columns-repeated") or 1) - 1


def _pieces(
    text: ET.Element, styles: set[str], *, struck: bool = False
) -> Iterator[tuple[str, bool]]:
    """Pieces of a paragraph, and whether each is struck through."""
    struck = struck or _said(text, "style-name") in styles
    yield text.text or "", struck
    for span in text:
        yield from _pieces(span, styles, struck=struck)
        yield span.tail or "", struck


def _parsed(text: bytes) -> ET.Element:
    if b"<!ENTITY" in text:
        raise ValueError
    return ET.fromstring(text)  # noqa: S314  without entities nothing can swell


def _tag(part: ET.Element) -> str:
    return part.tag.rpartition("}")[2]


def _said(part: ET.Element, name: str) -> str:
    return next((text for key, text in part.items() if key.rpartition("}")[2] == name), "")


def without_struck(pieces: Pieces) -> tuple[str, str]:
    """What is left of a text and what is struck out of it; all of it where no answer is left.

    A unit behind a figure that is struck out is none.
    """
    left = "".join(text for text, is_struck in pieces if not is_struck).strip()
    out = "".join(text for text, is_struck in pieces if is_struck).strip()
    is_answer = any(map(str.isdigit, left)) or not any(map(str.isdigit, out))
    if out and is_answer and any(map(str.isalnum, left)):
        return left, out
    return "".join(text for text, _is_struck in pieces).strip(), ""


def say_struck(texts: Iterable[str]) -> tuple[Finding, ...]:
    """What was struck out and left out, in one sentence."""
    said = [f"“{text}”" for text in texts]
    if not said:
        return ()
    text = _("Struck through, with something else beside it, and left out: {texts}.")
    named = ", ".join([*said[:_NAMED], *["…"][: len(said) - _NAMED]])
    return (Finding("struck_out", text.format(texts=named), severity=Severity.NOTE),)
