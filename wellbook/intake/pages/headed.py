"""Columns of a table whose heading tells where room may be, though some lines below it cross.

No column of a table begins or ends within a word of its heading. Between two words of it, columns
part where hardly a line below has a word; lines of facts, of the next sample or of a check may
cross there. Where such room is hardly wider than between words, it tells columns only if the
heading and most lines have words on both sides.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import floor, inf
from statistics import median, median_low

from wellbook.intake.files.sheets import Cells
from wellbook.intake.pages.cells import GAP, PageCell, PageRow, cell_of
from wellbook.intake.pages.words import Word

Room = tuple[float, float]  # from the left side to the right one

_CROSSED = 3  # one line of so many may cross the room between two columns
_WIDER = 1.3  # times the usual room between words
_HALF = 0.5
_JOINED = 0.08  # of a letter's height; words that stand closer are one
_LINES = 5  # of a heading at most
_MOST_WORDS = 200  # of a heading; our own bound
_STEP = 0.5  # points
_ALIGNED = 2.0  # points
_FAR = 1.4  # times the usual step from row to row; what lies farther below is another block
_CLOSE = 1.25  # heights between the lines of one cell
_NEARER = 0.93  # of the usual step from row to row
_FEW = 3  # rows; fewer tell little of columns


def edges_of(zone: Sequence[PageRow], known: Sequence[float], heads: int) -> list[float]:
    """The edges of a zone's columns, with those that only some lines cross.

    Args:
        zone: Rows of a table, its heading among the first.
        known: Edges that no row crosses.
        heads: How many of the rows are its heading.
    """
    heading = [word for row in zone[:heads] for word in row.words]
    body = [row for row in _first_block(zone[heads:]) if _is_tabled(row)]
    if not body or len(heading) > _MOST_WORDS:
        return list(known)
    least = least_room(zone)
    found = list(known)
    for left, right in _between(heading):
        if any(left < edge < right for edge in known):
            continue
        room = _free(left, right, body, least)
        if room is None:
            continue
        edge = (room[0] + room[1]) / 2
        high = median(word.height for word in heading)
        if room[1] - room[0] >= GAP * high or _has_words(edge, found, heading, body):
            found.append(edge)
    words = [word for row in body for word in row.words]
    for edge in sorted(found):
        if _is_twice(edge, found, heading, words):
            found.remove(edge)
    return _without_halves(sorted(found), heading, words)


def _without_halves(
    edges: Sequence[float], heading: Sequence[Word], words: Sequence[Word]
) -> list[float]:
    """The edges without those between a word of the heading and the figures that belong to it.

    Such figures stand to the right in their column and the word over them to the left.
    """

    def is_half(low: float, high: float) -> tuple[bool, bool]:
        inside = [w for w in words if low < (w.left + w.right) / 2 <= high]
        figures = sum(w.text[0] in "<>" or w.text[0].isdigit() for w in inside)
        is_named = any(low < (w.left + w.right) / 2 <= high for w in heading)
        return is_named and not inside, not is_named and figures * 2 > len(inside)

    bounds = (-inf, *edges, inf)
    halves = [is_half(*pair) for pair in pairwise(bounds)]
    kept = []
    for number, edge in enumerate(edges):
        before, after = halves[number], halves[number + 1]
        is_one = before[0] and after[1] and not (number and halves[number - 1][1])
        if not is_one:
            kept.append(edge)
    return kept


def _is_twice(
    edge: float, edges: Sequence[float], heading: Sequence[Word], words: Sequence[Word]
) -> bool:
    """Whether it lies in a word of the heading, with no words below between it and another."""
    if not any(word.left < edge < word.right for word in heading):
        return False
    spans = [(min(edge, other), max(edge, other)) for other in edges if other != edge]
    return any(
        not any(low < (word.left + word.right) / 2 < high for word in words) for low, high in spans
    )


def parted(row: PageRow, edges: Sequence[float], least: float) -> list[PageCell]:
    """The cells of a row, parted also at edges where room is just wider than between words."""
    high = median(word.height for word in row.words)
    runs: list[list[Word]] = [[row.words[0]]]
    right = row.words[0].right
    for word in row.words[1:]:
        room = word.left - right
        is_edge = room >= least and any(right <= edge <= word.left for edge in edges)
        if room >= GAP * high or is_edge:
            runs.append([])
        runs[-1].append(word)
        right = max(right, word.right)
    return [cell_of(run, _JOINED * high) for run in runs]


def lines_of_heading(zone: Sequence[PageRow], is_told: Callable[[PageRow], bool]) -> int:
    """How many of a zone's first rows are its heading; 0 if it has none."""
    told = [number for number, row in enumerate(zone[:_LINES], 1) if is_told(row)]
    return told[-1] if told else 0


def first_line(rows: Sequence[PageRow], index: int) -> int:
    """The row in which a heading begins whose last line is known: its cells may take several."""
    for start in range(index, max(index - _LINES + 1, 0), -1):
        above = rows[start - 1]
        is_over = _is_over(above, rows[start : index + 1]) or _is_in_columns(above, rows[index])
        if not is_over and not _is_over_figures(above, rows[index : index + 1 + _FEW]):
            return start
    return max(index - _LINES + 1, 0)


def with_one_heading(
    zone: list[PageRow], heads: int, is_heading: Callable[[Cells], bool]
) -> list[PageRow]:
    """A zone whose heading of several lines, which stand nearer than rows do, is one row."""
    steps = [b.top - a.top for a, b in pairwise(zone[heads:]) if a.page == b.page]
    if heads < 2 or not steps:  # noqa: PLR2004
        return zone
    start, near = heads - 1, _NEARER * median_low(steps)
    while start and zone[start].top - zone[start - 1].top < near:
        if not _is_over(zone[start - 1], zone[start:heads]):
            break
        start -= 1
    if start == heads - 1:
        return zone
    lines, last = zone[start:heads], zone[heads - 1]
    cells: dict[int, PageCell] = {}
    for row in lines:
        for column, cell in zip(row.columns, row.cells, strict=True):
            cells[column] = _both(cells[column], cell) if column in cells else cell
    words = [word for row in lines for word in row.words]
    columns = sorted(cells)
    one = PageRow(last.page, last.number, [cells[at] for at in columns], words, columns)
    return [*zone[:start], one, *zone[heads:]] if is_heading(one.texts) else zone


def _is_in_columns(above: PageRow, heading: PageRow) -> bool:
    """Whether each cell of a line stands with one of a heading: it tells of its samples."""
    if above.page != heading.page or len(above.cells) < _FEW:
        return False
    sides = [cell.left for cell in heading.cells]
    if all(min(abs(side - cell.left) for side in sides) < _ALIGNED for cell in above.cells):
        return True
    if ":" in "".join(above.texts) or abs(above.cells[0].left - sides[0]) >= _ALIGNED:
        return False
    under = [
        [
            i
            for i, one in enumerate(heading.cells)
            if one.left < cell.right and cell.left < one.right
        ]
        for cell in above.cells[1:]
    ]
    single = {found[0] for found in under if len(found) == 1 and found[0]}
    return len(single) == len(under)


def _is_over_figures(above: PageRow, table: Sequence[PageRow]) -> bool:
    """Whether a line tells of samples whose columns a heading leaves blank: `Location | A | B`.

    Args:
        above: The line.
        table: The heading and the first rows below it.
    """
    heading, end = table[0], table[0].cells[-1].right
    if any(row.page != above.page for row in table):
        return False
    told = [cell for cell in above.cells if cell.left > end]
    words = above.cells[: len(above.cells) - len(told)]
    is_word = len(words) < 2 and all(  # noqa: PLR2004
        abs(cell.left - heading.cells[0].left) < _ALIGNED for cell in words
    )
    columns = [[cell for cell in row.cells if cell.left > end] for row in table[1:]]
    return (
        is_word
        and len(told) > 1
        and bool(columns)
        and all(
            len(row) == len(told)
            and all(
                one.left < cell.right and cell.left < one.right
                for one, cell in zip(row, told, strict=True)
            )
            for row in columns
        )
    )


def _both(above: PageCell, below: PageCell) -> PageCell:
    """Two lines of one cell."""
    return PageCell(
        min(above.left, below.left), min(above.top, below.top), max(above.right, below.right),
        max(above.bottom, below.bottom), f"{above.text} {below.text}",
    )  # fmt: skip


def _is_over(above: PageRow, lines: Sequence[PageRow]) -> bool:
    """Whether a line close above others holds words of their cells, each over one of them."""
    first = lines[0]
    if len(above.words) > _MOST_WORDS:
        return False
    said = "".join(above.texts)
    are_figures = any(cell.text[0] in "<>" or cell.text[0].isdigit() for cell in above.cells)
    if above.page != first.page or ":" in said or are_figures:
        return False
    if first.top - above.top > _CLOSE * first.height:
        return False
    cells = [cell for row in lines for cell in row.cells]
    last = lines[-1].cells

    def are_over(parts: Sequence[PageCell | Word]) -> bool:
        return all(
            sum(one.left < part.right and part.left < one.right for one in last) <= 1
            and any(one.left < part.right and part.left < one.right for one in cells)
            for part in parts
        )

    return are_over(above.cells) or are_over(above.words)


def least_room(zone: Sequence[PageRow]) -> float:
    """How wide room is that is wider than between words, in points."""
    high = median(word.height for row in zone for word in row.words)
    rooms = [b.left - a.right for row in zone for a, b in pairwise(row.words)]
    close = sorted(room for room in rooms if _JOINED * high < room < GAP * high)
    # Some of them are rooms between columns: those between words are the narrow ones.
    return _WIDER * close[len(close) // 4] if close else GAP * high


def _first_block(rows: Sequence[PageRow]) -> Sequence[PageRow]:
    """The rows down to the first that stands farther off; all, if that leaves hardly any."""
    steps = [b.top - a.top if a.page == b.page else inf for a, b in pairwise(rows)]
    if not steps:
        return rows
    far = _FAR * median(steps)
    end = next((n for n, step in enumerate(steps, 1) if step > far), len(rows))
    return rows[:end] if end >= _FEW else rows


def _is_tabled(row: PageRow) -> bool:
    """Whether a row may be one of the table, and no fact or sentence below it."""
    said = "".join(row.texts)
    is_fact = row.cells[0].text.endswith(":")
    has_cells = len(row.cells) > 1 or any(map(str.isdigit, said))
    return len(row.words) > 1 and has_cells and not is_fact


def _between(heading: Sequence[Word]) -> list[Room]:
    """The rooms that no word of the heading crosses, in any of its lines."""
    rooms = []
    ordered = sorted(heading, key=lambda word: word.left)
    right = ordered[0].right
    for word in ordered[1:]:
        if word.left > right:
            rooms.append((right, word.left))
        right = max(right, word.right)
    return rooms


def _free(left: float, right: float, body: Sequence[PageRow], least: float) -> Room | None:
    """The widest room within some bounds that the fewest lines cross, if it is wide enough."""
    steps = [0] * max(1, round((right - left) / _STEP))
    for row in body:
        for word in row.words:
            first, last = floor((word.left - left) / _STEP), floor((word.right - left) / _STEP)
            for step in range(max(first, 0), min(last, len(steps) - 1) + 1):
                steps[step] += 1
    for most in sorted(set(steps)):
        if most * _CROSSED > len(body):
            break
        start, end = _longest(steps, most)
        if (end - start) * _STEP >= least:
            return left + start * _STEP, left + end * _STEP
    return None


def _longest(steps: Sequence[int], most: int) -> tuple[int, int]:
    """The longest stretch of steps that no more lines cross than that."""
    best, start = (0, 0), 0
    for at, count in enumerate((*steps, most + 1)):
        if count > most:
            best = max(best, (start, at), key=lambda one: one[1] - one[0])
            start = at + 1
    return best


def _has_words(
    edge: float, others: Sequence[float], heading: Sequence[Word], body: Sequence[PageRow]
) -> bool:
    """Whether heading and most lines have words close on both sides of an edge."""
    start = max((other for other in others if other < edge), default=float("-inf"))
    end = min((other for other in others if other > edge), default=float("inf"))
    for low, high in ((start, edge), (edge, end)):

        def is_in(word: Word, low: float = low, high: float = high) -> bool:
            return low < (word.left + word.right) / 2 <= high

        lines = sum(any(map(is_in, row.words)) for row in body)
        if not any(map(is_in, heading)) or lines < _HALF * len(body):
            return False
    return True
