"""Cells of a file, as text, in rows, and where each of them stands."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import chain
from typing import NamedTuple

from wellbook.water.values.findings import Finding

Cells = list[str]
Box = tuple[float, float, float, float]
"""Left, top, right and bottom in points from the upper left corner of a page."""
_DIGITS = 9  # of such a number; more of them are not read
_SIDE = r"-?[0-9]{1,6}(?:\.[0-9]+)?"
_KEPT = re.compile(
    r"(?:page (?P<page>[0-9]{1,6})(?:; )?)?(?:(?:line|row) (?P<row>[0-9]{1,9})(?:; )?)?"
    r"(?:column (?P<column>[0-9]{1,6})(?:; )?)?"
    rf"(?:box (?P<box>{_SIDE} {_SIDE} {_SIDE} {_SIDE})(?:; )?)?(?:in (?P<sheet>.*))?",
    re.DOTALL,
)


def times(told: str | None, most: int) -> int:
    """How many cells or rows one stands for, as an attribute of it says: 1 to the most."""
    digits = (told or "")[:_DIGITS]
    return max(1, min(int(digits), most)) if digits.isdecimal() else 1


@dataclass(slots=True)
class Room:
    """Empty cells and rows that a file may still ask for by a number in place of writing them."""

    left: int = 500_000  # our own bound

    def take(self, wanted: int) -> int:
        """As many of those that are wanted as there is room for."""
        given = max(0, min(wanted, self.left))
        self.left -= given
        return given


# One for each of 100,000 rows: made in a quarter of the time of a dataclass.
class Place(NamedTuple):
    """Where something stands in a file: in a cell, or in a box on a page.

    Attributes:
        sheet: Name of the sheet or of the file inside of the file; empty if there is one only.
        row: Row, or line of the page, from 1; 0 for something that is no cell.
        column: Column from 1; 0 for a whole row, and on a page.
        page: Page from 1; 0 where there are no pages.
        box: Where on the page.
    """

    sheet: str = ""
    row: int = 0
    column: int = 0
    page: int = 0
    box: Box | None = None

    def __str__(self) -> str:
        """As the record keeps it: `page 2; line 7; box 60 412.5 300 424`, `row 4; column 3`."""
        if self.row and self.column and not (self.page or self.box or self.sheet):
            return f"row {self.row}; column {self.column}"
        parts = [f"page {self.page}" if self.page else ""]
        if self.row:
            parts.append(f"{'line' if self.page else 'row'} {self.row}")
        if self.column:
            parts.append(f"column {self.column}")
        if self.box:
            parts.append("box " + " ".join(f"{side:.1f}".removesuffix(".0") for side in self.box))
        if self.sheet:
            parts.append(f"in {self.sheet}")
        return "; ".join(filter(None, parts))

    @classmethod
    def parse(cls, text: str) -> "Place | None":
        """The place that a kept text means; None where it means none."""
        found = _KEPT.fullmatch(text)
        if not text or found is None:
            return None
        page, row, column = (int(found[key] or 0) for key in ("page", "row", "column"))
        sides = [float(side) for side in (found["box"] or "").split()]
        box = (sides[0], sides[1], sides[2], sides[3]) if sides else None
        return cls(found["sheet"] or "", row, column, page, box)


@dataclass(frozen=True, slots=True)
class Line:
    """Where a row comes from that was moved or put together.

    Attributes:
        number: Row of the sheet, or line of the page, from 1.
        shift: Columns that stood to the left of its first cell.
        page: Page from 1; 0 where there are no pages.
        boxes: On a page the box of every cell, counted without the shift.
    """

    number: int
    shift: int = 0
    page: int = 0
    boxes: tuple[Box | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a workbook, or the whole of a text file.

    Attributes:
        name: Name of the sheet; empty for a text file.
        rows: Cells row by row, as printed; the first row is number 1 to a person.
        findings: What was odd in reading the cells.
        has_open_end: Whether a text file ends in the middle of a line.
        lines: Where each row comes from, if not from the row of its own number.
        hidden: Numbers of rows that the sheet does not show.
        hidden_columns: Numbers of such columns, from 1.
        struck: Numbers of rows in which something is struck through.
        text: What a person wrote, where the rows are the lines of it.
    """

    name: str
    rows: list[Cells]
    findings: tuple[Finding, ...] = ()
    has_open_end: bool = False
    lines: tuple[Line, ...] = ()
    hidden: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    text: str = ""
    struck: frozenset[int] = frozenset()
    _texts: set[str] = field(init=False, repr=False, compare=False, default_factory=set)
    _found: dict[frozenset[str], list[int]] = field(
        init=False, repr=False, compare=False, default_factory=dict
    )

    @property
    def texts(self) -> set[str]:
        """Every text that stands in its rows, once: a table says the same in most of its rows."""
        if not self._texts:
            self._texts.update(chain.from_iterable(self.rows))
        return self._texts

    def rows_with(self, fits: Callable[[str], bool]) -> list[int]:
        """Indexes of the rows that hold a cell which fits; each text is asked about once."""
        found = set(filter(fits, self.texts))
        rows = enumerate(self.rows)
        return [i for i, row in rows if not found.isdisjoint(row)] if found else []

    def rows_without(self, signs: frozenset[str]) -> list[int]:
        """Indexes of the rows none of whose cells begins with one of some signs; found once."""
        if signs not in self._found:
            begun = {text for text in self.texts if text[:1] in signs}
            rows = enumerate(self.rows)
            self._found[signs] = [index for index, row in rows if begun.isdisjoint(row)]
        return self._found[signs]

    @property
    def is_paper(self) -> bool:
        """Whether its rows stand on pages."""
        return bool(self.lines and self.lines[0].page)

    def line(self, index: int) -> Line:
        """Where a row comes from."""
        return self.lines[index] if self.lines else Line(index + 1)

    def number(self, index: int) -> int:
        """The number of a row, as a person counts."""
        return self.line(index).number

    def where(self, index: int) -> tuple[str | int, int]:
        """The sheet's name, or the page's number, and the number of a row there."""
        if self.lines and self.lines[index].page:
            return self.lines[index].page, self.lines[index].number
        return self.name, self.number(index)

    def place(self, index: int, column: int) -> Place:
        """Where the cell of a row stands."""
        if not self.lines:
            return Place(self.name, index + 1, column + 1)
        line = self.lines[index]
        column += line.shift
        if line.page:
            box = line.boxes[column] if column < len(line.boxes) else None
            return Place(self.name, line.number, 0, line.page, box or _around(line.boxes))
        return Place(self.name, line.number, column + 1)


def alone(row: Cells) -> str:
    """The one filled cell of a row that has one only; empty for any other row."""
    if len(row) > 1 and row[0].strip() and row[1].strip():
        return ""
    filled = [cell for cell in map(str.strip, row) if cell]
    return filled[0] if len(filled) == 1 else ""


def _around(boxes: tuple[Box | None, ...]) -> Box | None:
    """The box around several boxes."""
    known = [box for box in boxes if box]
    if not known:
        return None
    lefts, tops, rights, bottoms = zip(*known, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)
