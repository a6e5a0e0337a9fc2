"""Rows and columns that the sheets of a workbook hide, and rows that they strike through.

XLSX: ECMA-376 part 1, 18.3.1.73 row, 18.3.1.13 col, 18.8.22 font, 18.4.10 strike.
ODS: OpenDocument 1.3 part 3, 19.753 table:visibility.
"""

import posixpath
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.etree import ElementTree as ET

from wellbook.intake.files import archives

_MOST = 1_000_000  # rows or columns of a sheet that are counted
# Most workbooks hide nothing, which is seen without taking them apart.
_MARKS = re.compile(rb"\b(?:hidden=[\"'](?:1|true)|(?:ht|width)=[\"']0(?:\.0*)?[\"']|visibility=)")
_WORKBOOK, _RELATIONS = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
_STYLES = "xl/styles.xml"
_CONTENT = "content.xml"


@dataclass(frozen=True, slots=True)
class Hidden:
    """Numbers of the rows and of the columns that a sheet does not show, from 1.

    Attributes:
        struck: Rows in which a cell is struck through.
    """

    rows: set[int] = field(default_factory=set)
    columns: set[int] = field(default_factory=set)
    struck: set[int] = field(default_factory=set)


def hidden_in(content: bytes) -> dict[str, Hidden]:
    """What each sheet of an XLSX or ODS file hides, by its name; none where that can't be read."""
    workbook = archives.part_of(content, _WORKBOOK)
    try:
        if workbook:
            return dict(_of_xlsx(content, workbook))
        return dict(_of_ods(archives.part_of(content, _CONTENT)))
    except (ET.ParseError, ValueError, LookupError):
        return {}


def _of_xlsx(content: bytes, workbook: bytes) -> Iterator[tuple[str, Hidden]]:
    relations = _parsed(archives.part_of(content, _RELATIONS))
    targets = {one.get("Id", ""): one.get("Target", "") for one in relations}
    styles = _struck_styles(archives.part_of(content, _STYLES))
    for sheet in _parsed(workbook).iter():
        if _tag(sheet) != "sheet":
            continue
        number = next((text for key, text in sheet.items() if key.endswith("}id")), "")
        part = posixpath.normpath(posixpath.join("/xl", targets.get(number, "")))
        text = archives.part_of(content, part.lstrip("/"))
        if _MARKS.search(text) or styles:
            yield sheet.get("name", ""), _of_sheet(_parsed(text), styles)


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


def _of_sheet(sheet: ET.Element, styles: set[str]) -> Hidden:
    hidden = Hidden()
    number = 0
    for part in sheet.iter():
        tag = _tag(part)
        if tag == "row":
            number = int(part.get("r", number + 1))
            if _is_hidden(part, "ht"):
                hidden.rows.add(number)
        elif tag == "c" and part.get("s") in styles and len(part):
            hidden.struck.add(number)
        elif tag == "col" and _is_hidden(part, "width"):
            first, last = int(part.get("min", "0")), int(part.get("max", "0"))
            hidden.columns.update(range(first, min(last, _MOST) + 1))
    return hidden


def _is_hidden(part: ET.Element, size: str) -> bool:
    return part.get("hidden") in {"1", "true"} or float(part.get(size, "1")) == 0


def _of_ods(text: bytes) -> Iterator[tuple[str, Hidden]]:
    if not _MARKS.search(text):
        return
    for table in _parsed(text).iter():
        if _tag(table) == "table":
            yield _said(table, "name"), _of_table(table)


def _of_table(table: ET.Element) -> Hidden:
    hidden = Hidden()
    rows = columns = 0
    for part in table.iter():
        is_hidden = _said(part, "visibility") in {"collapse", "filter"}
        if _tag(part) == "table-row":
            end = rows + int(_said(part, "number-rows-repeated") or 1)
            if is_hidden:
                hidden.rows.update(range(rows + 1, min(end, _MOST) + 1))
            rows = end
        elif _tag(part) == "table-column":
            end = columns + int(_said(part, "number-columns-repeated") or 1)
            if is_hidden:
                hidden.columns.update(range(columns + 1, min(end, _MOST) + 1))
            columns = end
    return hidden


def _parsed(text: bytes) -> ET.Element:
    if b"<!ENTITY" in text:
        raise ValueError
    return ET.fromstring(text)  # noqa: S314  without entities nothing can swell


def _tag(part: ET.Element) -> str:
    return part.tag.rpartition("}")[2]


def _said(part: ET.Element, name: str) -> str:
    return next((text for key, text in part.items() if key.rpartition("}")[2] == name), "")
