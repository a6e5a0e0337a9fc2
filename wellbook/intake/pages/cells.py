"""Cells and rows of a page, made of words."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby, pairwise
from statistics import median

from wellbook.intake.files.sheets import Box, Cells
from wellbook.intake.pages.words import Word

GAP = 0.65  # of a letter's height; more room than that parts cells
_CENTRED = 0.8  # of a letter's height; rows stand farther apart than that
_FEWEST_DOTS = 3  # that lead from a name to its figure
_JOINED = 0.08  # of a letter's height; words that stand closer are one
_OVER = 0.25  # of the narrower of two words; more than that of it lies under the other one
_OVERPRINTED = " | "  # between two figures that stand over each other: they are no figure


@dataclass(slots=True)
class PageCell:
    """A text in its box, in points from the left and from the top of its page."""

    left: float
    top: float
    right: float
    bottom: float
    text: str

    @property
    def box(self) -> Box:
        """Its four sides."""
        return self.left, self.top, self.right, self.bottom

    @property
    def middle(self) -> float:
        """The middle between its left and its right."""
        return (self.left + self.right) / 2


@dataclass(slots=True)
class PageRow:
    """A row of a page.

    Attributes:
        page: From 1.
        number: Line of the page, from 1.
        cells: From left to right.
        words: What stands in its cells, word by word.
        columns: The column of each cell, from 0.
    """

    page: int
    number: int
    cells: list[PageCell]
    words: list[Word]
    columns: list[int] = field(default_factory=list)

    @property
    def texts(self) -> Cells:
        """What its cells say."""
        return [cell.text for cell in self.cells]

    @property
    def top(self) -> float:
        """The upper side of its highest cell."""
        return min(cell.top for cell in self.cells)

    @property
    def height(self) -> float:
        """The height of its highest cell."""
        return max(cell.bottom - cell.top for cell in self.cells)


def row_of(page: int, number: int, words: Sequence[Word], *, are_whole: bool = False) -> PageRow:
    """Words that stand level as a row, whose cells are what wide room, or a row of dots, parts.

    Args:
        page: The row's page, from 1.
        number: Its line on the page, from 1.
        words: In any order.
        are_whole: Whether none of them is a piece of a word.
    """
    ordered = sorted(words, key=lambda word: word.left)
    ordered = ordered if are_whole else _without_doubles(ordered)
    high = median(word.height for word in ordered)
    parts = _without_dots(ordered)
    ordered = [word for part in parts for word in part]
    firsts = {id(part[0]) for part in parts}
    runs: list[list[Word]] = []
    right = 0.0
    for word in ordered:
        if runs and word.left - right < GAP * high and id(word) not in firsts:
            runs[-1].append(word)
            right = max(right, word.right)
        else:
            runs.append([word])
            right = word.right
    least = float("-inf") if are_whole else _JOINED * high
    return PageRow(page, number, [cell_of(run, least) for run in runs], ordered)


def _are_over(one: Word, other: Word) -> bool:
    """Whether two words, or figures, stand over each other, as where one was corrected."""
    common = min(one.right, other.right) - max(one.left, other.left)
    narrower = min(one.right - one.left, other.right - other.left)
    is_text = any(map(str.isalnum, one.text)) and any(map(str.isalnum, other.text))
    return is_text and common > _OVER * narrower


def _without_doubles(words: list[Word]) -> list[Word]:
    """The words of a row, each once that is printed twice at one place to look bold."""
    kept: list[Word] = []
    for word in words:
        if not any(one.text == word.text and _are_over(one, word) for one in kept[-2:]):
            kept.append(word)
    return kept


def _without_dots(words: list[Word]) -> list[list[Word]]:
    """The words of a row, parted where dots lead from a name to its figure, without those dots."""
    blocks = [(is_dots, list(block)) for is_dots, block in groupby(words, _is_dots)]
    parts: list[list[Word]] = [[]]
    for number, (is_dots, block) in enumerate(blocks):
        leads = is_dots and 0 < number < len(blocks) - 1
        if leads and sum(len(word.text) for word in block) >= _FEWEST_DOTS:
            parts.append([])
        else:
            parts[-1] += block
    return parts


def _is_dots(word: Word) -> bool:
    return not word.text.strip(".…·_")


def with_centred(rows: list[PageRow]) -> list[PageRow]:
    """The rows of a page, with the two lines of a cell put into the row that stands between them.

    Rows of one line are centred beside cells of two, so that the lines stand too near for rows.
    """
    found: list[PageRow] = []
    index = 0
    while index < len(rows):
        one = _centred(*rows[index : index + 3]) if index + 3 <= len(rows) else None
        found.append(one or rows[index])
        index += 3 if one else 1
    return found


def _centred(above: PageRow, row: PageRow, below: PageRow) -> PageRow | None:
    """One row made of three lines; None if the first and the last are no lines of its cells."""
    most = _CENTRED * row.height
    if row.top - above.top > most or below.top - row.top > most:
        return None
    pairs = [[a for a in above.cells if _meet(a, cell)] for cell in below.cells]
    is_each = all(len(pair) == 1 for pair in pairs) and len(pairs) == len(above.cells)
    others = [*above.cells, *below.cells]
    if not is_each or any(_meet(one, cell) for one in others for cell in row.cells):
        return None
    whole = [
        Word(min(one.left, cell.left), row.top, max(one.right, cell.right), row.top + row.height,
             f"{one.text} {cell.text}")
        for (one,), cell in zip(pairs, below.cells, strict=True)
    ]  # fmt: skip
    cells = sorted([*row.cells, *(cell_of([word]) for word in whole)], key=lambda cell: cell.left)
    words = sorted([*row.words, *whole], key=lambda word: word.left)
    return PageRow(row.page, row.number, cells, words)


def _meet(one: PageCell, other: PageCell) -> bool:
    return one.left < other.right and other.left < one.right


def cell_of(words: Sequence[Word], least: float = float("-inf")) -> PageCell:
    """Some words, from left to right, as one cell; those with less room than that are joined."""
    first = words[0]
    cell = PageCell(first.left, first.top, first.right, first.bottom, first.text)
    for before, word in pairwise(words):
        room = " " if word.left - cell.right > least else ""
        is_over = least > float("-inf") and _are_over(before, word)
        cell.text += (_OVERPRINTED if is_over else room) + word.text
        cell.right = max(cell.right, word.right)
        cell.top, cell.bottom = min(cell.top, word.top), max(cell.bottom, word.bottom)
    return cell
