"""Workbooks that are one XML text (SpreadsheetML of 2003), as rows of text."""

import re
from itertools import takewhile
from xml.etree import ElementTree as ET

from wellbook.intake.files.sheets import Cells, Room, Sheet

_NAMESPACE = "{urn:schemas-microsoft-com:office:spreadsheet}"
_START = re.compile(
    rb"<(?:\w+:)?Workbook\b[^>]*\bschemas-microsoft-com:office:spreadsheet\b", re.DOTALL
)
_MOST_COLUMNS = 2_000  # our own bound


def is_workbook(start: bytes) -> bool:
    """Whether the first bytes of an XML text are those of such a workbook."""
    return _START.search(start) is not None


def sheets_of(root: ET.Element) -> tuple[Sheet, ...]:
    """The sheets of a workbook; no sheets if the root is none of a workbook."""
    found, room = [], Room()
    for one in root.iter(f"{_NAMESPACE}Worksheet"):
        rows: list[Cells] = []
        hidden: set[int] = set()
        for row in one.iter(f"{_NAMESPACE}Row"):
            gap = room.take(_number(row, "Index") - len(rows) - 1)
            rows += [[] for _ in range(gap)]
            rows.append(_cells(row, room))
            if row.get(f"{_NAMESPACE}Hidden") == "1":
                hidden.add(len(rows))
        columns = frozenset(_hidden_columns(one, room))
        name = one.get(f"{_NAMESPACE}Name", "")
        found.append(Sheet(name, rows, hidden=frozenset(hidden), hidden_columns=columns))
    return tuple(found)


def _cells(row: ET.Element, room: Room) -> Cells:
    cells: Cells = []
    for cell in row.iter(f"{_NAMESPACE}Cell"):
        at = min(_number(cell, "Index"), _MOST_COLUMNS)
        cells += [""] * room.take(at - 1 - len(cells))
        data = cell.find(f"{_NAMESPACE}Data")
        text = " ".join("".join(data.itertext()).split()) if data is not None else ""
        across = room.take(min(_number(cell, "MergeAcross"), _MOST_COLUMNS - len(cells)))
        cells += [text.removesuffix("T00:00:00.000"), *[""] * across]
    return cells


def _hidden_columns(sheet: ET.Element, room: Room) -> list[int]:
    found: list[int] = []
    last = 0
    for column in sheet.iter(f"{_NAMESPACE}Column"):
        first = _number(column, "Index") or last + 1
        last = first + room.take(min(_number(column, "Span"), _MOST_COLUMNS))
        if column.get(f"{_NAMESPACE}Hidden") == "1":
            found += range(first, last + 1)
    return found


def _number(element: ET.Element, name: str) -> int:
    """An attribute that is a whole number; 0 if it is not told."""
    text = element.get(f"{_NAMESPACE}{name}", "")
    return int("".join(takewhile(str.isdecimal, text[:9])) or 0)
