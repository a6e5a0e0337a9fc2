"""Columns of a table in a picture, where room between cells is often no wider than between words.

In a picture the boxes of words are rough, and columns stand close. So the words of all rows below
a heading are laid over each other: what stays free is the room between two columns. Room that is
as narrow as between words counts only if the heading and the rows have words on both sides.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import inf
from statistics import median

from wellbook.intake.pages.cells import PageCell, PageRow, cell_of
from wellbook.intake.pages.words import Word

Room = tuple[float, float]  # from the left side to the right one

_STEP = 1.0  # points
_FAR = 1.8  # times the usual step from row to row; what lies farther below is no row
_CROSSED = 6  # one row of so many may cross the room between two columns
_NARROW = 0.55  # of a letter's height; room between words is no wider
_LEAST = 0.1  # of a letter's height
_TRIM = 0.06  # of a letter's height, by which boxes are too wide on either side
_WORDY = 2  # times the heading's words; a row with more of them is a sentence
_HALF = 0.5
_MARKS = 3  # different ones
_OFF = 2.5  # letters by which the place of a letter in a word may be wrong
# Between a word's end and the beginning of another; within a word or a figure it may be a letter.
_RULE = re.compile(r"^\|(?=[A-ZÀ-Þ])|(?<=[a-zà-ÿ)%])\|(?=[A-ZÀ-Þ0-9<(]|$)|(?<=[A-Z])\|(?=[0-9<])")
_SEAM = re.compile(r"([a-zà-ÿ](?=[A-Z0-9<µμ])|[0-9](?=[^\W\d_]))")


def at_rules(word: Word) -> Iterator[Word]:
    """A word parted where a rule of the table was read as a letter: `Einheit|Grenzwert`."""
    letter, start = (word.right - word.left) / max(len(word.text), 1), 0
    for end in (*(rule.start() for rule in _RULE.finditer(word.text)), len(word.text)):
        left, right = (word.left + letter * at for at in (start, end))
        if end > start:
            yield replace(word, left=left, right=right, text=word.text[start:end])
        start = end + 1


def with_bands(zone: list[PageRow]) -> bool:
    """Set the cells of a table's rows, from its heading on, by the bands in which words stand.

    Returns:
        Whether there are any; if not, nothing is changed.
    """
    if len(zone) < 2:  # noqa: PLR2004
        return False
    lines = _lines_of_heading(zone)
    heading, most = zone[:lines], sum(len(row.words) for row in zone[:lines])
    near = _close_below(zone)
    body = [
        row
        for number, row in enumerate(zone[lines:], lines)
        if _is_tabled(row, most) and (len(row.cells) > 1 or number < near)
    ]
    rooms = _between_columns(heading, body) if body else []
    if not rooms:
        return False
    edges = [(left + right) / 2 for left, right in rooms]
    for number, row in enumerate(zone):
        if number < lines or _keeps_to(row, edges, most):
            _put(row, rooms, edges)
        else:
            row.columns = [_start(cell, edges) for cell in row.cells]
    return True


def _close_below(zone: list[PageRow]) -> int:
    """How many rows of a zone, its heading among them, follow each other as rows of a table do."""
    steps = [b.top - a.top if a.page == b.page else inf for a, b in pairwise(zone)]
    usual = median(steps)
    return next((n for n, step in enumerate(steps, 1) if step > _FAR * usual), len(zone))


def _lines_of_heading(zone: list[PageRow]) -> int:
    """Two, if the second line has no figures either."""
    second = zone[1].words if len(zone) > 2 else []  # noqa: PLR2004
    has_figures = any(any(map(str.isdigit, word.text)) for word in second)
    return 2 if len(second) > 1 and not has_figures else 1


def _is_tabled(row: PageRow, most: int) -> bool:
    if all(":" in cell.text for cell in row.cells):
        return False
    figures = any(any(map(str.isdigit, word.text)) for word in row.words)
    return len(row.cells) > 1 or (figures and 1 < len(row.words) <= _WORDY * most)


def _between_columns(heading: list[PageRow], body: list[PageRow]) -> list[Room]:
    high = median(word.height for row in (*heading, *body) for word in row.words)
    rooms = _rooms(heading, body, high)
    edges = [(left + right) / 2 for left, right in rooms]
    kept = []
    for number, (left, right) in enumerate(rooms):
        if right - left >= _NARROW * high:
            kept.append((left, right))
            continue
        start = edges[number - 1] if number else float("-inf")
        end = edges[number + 1] if number + 1 < len(edges) else float("inf")
        sides = ((start, edges[number]), (edges[number], end))
        is_marked = not number and _are_marks(edges[0], body)
        if is_marked or all(_is_filled(side, heading, body) for side in sides):
            kept.append((left, right))
    return kept


def _are_marks(edge: float, body: list[PageRow]) -> bool:
    """Whether what stands before the first edge is a column of marks, such as `OK` and `!`."""
    marks = [word.text for row in body for word in row.words if _middle(word) <= edge]
    return len(marks) >= _HALF * len(body) and len(set(marks)) <= _MARKS < len(marks)


def _is_filled(side: tuple[float, float], heading: list[PageRow], body: list[PageRow]) -> bool:
    """Whether the heading and at least half of the rows have a word between two edges."""
    start, end = side

    def has_word(row: PageRow) -> bool:
        return any(start < _middle(word) <= end for word in row.words)

    return any(map(has_word, heading)) and sum(map(has_word, body)) >= _HALF * len(body)


def _rooms(heading: list[PageRow], body: list[PageRow], high: float) -> list[Room]:
    """What hardly a row's words cross, and none of the heading's: of each room where fewest do."""
    rows = [*heading, *body]
    allowed = len(rows) // _CROSSED
    least = min(word.left for row in rows for word in row.words)
    most = max(word.right for row in rows for word in row.words)
    crossed = [0] * (int((most - least) / _STEP) + 2)
    for number, row in enumerate(rows):
        weight = 1 if number >= len(heading) else allowed + 1
        for word in row.words:
            first = int((word.left + _TRIM * high - least) / _STEP)
            last = int((word.right - _TRIM * high - least) / _STEP)
            for step in range(max(first, 0), last + 1):
                crossed[step] += weight
    rooms = []
    start: int | None = None
    for step, count in enumerate(crossed):
        if count <= allowed and start is None:
            start = step
        elif count > allowed and start is not None:
            left, right = _freest(crossed, start, step)
            if start > 0 and (right - left) * _STEP >= _LEAST * high:
                rooms.append((least + left * _STEP, least + right * _STEP))
            start = None
    return rooms


def _freest(crossed: Sequence[int], start: int, end: int) -> tuple[int, int]:
    """The longest stretch within some steps that the fewest rows cross."""
    fewest = min(crossed[start:end])
    best = (start, start)
    begin: int | None = None
    for step in range(start, end + 1):
        if step < end and crossed[step] == fewest:
            begin = step if begin is None else begin
        elif begin is not None:
            best = max(best, (begin, step), key=lambda stretch: stretch[1] - stretch[0])
            begin = None
    return best


def _keeps_to(row: PageRow, edges: list[float], most: int) -> bool:
    """Whether a row is one of the table: no sentence, and hardly a word over an edge."""
    return _is_tabled(row, most) and len(row.words) <= _WORDY * most + 2 and _over(row, edges) < 2  # noqa: PLR2004


def _over(row: PageRow, edges: list[float]) -> int:
    """How many edges a row's words cross well inside."""
    return sum(1 for word in row.words for edge in edges if _is_over(word, edge))


def _put(row: PageRow, rooms: list[Room], edges: list[float]) -> None:
    """Make a row's cells anew, one for each band in which it has words."""
    bands: dict[int, list[Word]] = {}
    row.words = [part for word in row.words for part in _cut(word, rooms)]
    for number, word in enumerate(row.words):
        at = _near_side(row.words, number, edges)
        bands.setdefault(sum(edge < at for edge in edges), []).append(word)
    _keep_together(bands)
    row.cells = [cell_of(words) for words in bands.values()]
    row.columns = list(bands)


def _keep_together(bands: dict[int, list[Word]]) -> None:
    """Put the last words of a cell to the next cell where they stand nearer to that."""
    for words, after in pairwise(bands.values()):
        across = after[0].left - words[-1].right
        if across <= 0 or not (words[-1].text.isalpha() and after[0].text.isalpha()):
            continue  # no phrase such as `nicht nachweisbar`
        for number in range(len(words) - 1, 0, -1):
            if words[number].left - words[number - 1].right > across * 2:
                after[:0] = words[number:]
                del words[number:]
                break


def _near_side(words: list[Word], number: int, edges: list[float]) -> float:
    """Where a word counts: in its middle, or, over an edge, at the side of the nearer word."""
    word = words[number]
    inside = any(word.left < edge < word.right for edge in edges)
    if not inside or not 0 < number < len(words) - 1:
        return _middle(word)
    before, after = word.left - words[number - 1].right, words[number + 1].left - word.right
    return word.right if after < before else word.left


def _cut(word: Word, rooms: list[Room]) -> list[Word]:
    """A word that was read over two columns, such as `DetectedNTU`, as its two."""
    over = [room for room in rooms if _is_over(word, sum(room) / 2)]
    if len(over) != 1:
        return [word]
    (left, right), letter = over[0], (word.right - word.left) / len(word.text)
    seams = [
        seam.end(1)
        for seam in _SEAM.finditer(word.text)
        if left - _OFF * letter <= word.left + seam.end(1) * letter <= right + _OFF * letter
    ]
    if not seams:
        return [word]
    middle = word.left + seams[0] * letter
    before, after = word.text[: seams[0]], word.text[seams[0] :]
    return [replace(word, right=middle, text=before), replace(word, left=middle, text=after)]


def _is_over(word: Word, edge: float) -> bool:
    return word.left + word.height / 2 < edge < word.right - word.height / 2


def _start(cell: PageCell, edges: list[float]) -> int:
    inside = any(cell.left < edge < cell.right for edge in edges)
    at = cell.left if inside else cell.middle
    return sum(edge <= at for edge in edges)


def _middle(word: Word) -> float:
    return (word.left + word.right) / 2
