"""Words of pages put into rows, rows into cells, and cells into columns.

Words whose feet stand level make a row; room wider than a letter's height parts cells. From a
heading on, columns are the bands of the page in which cells stand, with nothing between them.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from statistics import median, quantiles

from wellbook.intake.files.plain_lines import pair_of
from wellbook.intake.files.sheets import Box, Cells, Line, Sheet
from wellbook.intake.pages import headed
from wellbook.intake.pages.bands import at_rules, with_bands
from wellbook.intake.pages.cells import PageCell, PageRow, row_of, with_centred
from wellbook.intake.pages.words import Word

_LEVEL = 0.45  # of a letter's height; words whose middles lie nearer than that stand in one row
_NEAR = 2.2  # heights between a heading and the line above that belongs to it
_CROSSED = 0.04  # share of rows that may cross the room between two columns
_STEP = 1.0  # points
_FEW = 4  # lines; fewer tell nothing of how far rows stand apart
_APART = 1.25  # rows stand farther apart than the lines of a cell by this
_FAR = 3.0  # times as far apart as rows usually are
_FOOT = 2  # lines of a footer at most
_MOST_HEADS = 14  # words of a heading whose cells stand close
_MOST_LINES = 20_000  # our own bound, as the others here

IsHeading = Callable[[Cells], bool]


def sheet_of(
    pages: Sequence[Sequence[Word]], is_heading: IsHeading, *, are_pictures: bool = False
) -> Sheet:
    """All pages as one sheet, so that a table may go on over pages.

    Args:
        pages: Words of each page.
        is_heading: Whether some cells are the heading of a table of results.
        are_pictures: Whether the words were read from pictures, so that their boxes are rough.
    """
    if are_pictures:
        pages = [[part for word in page for part in at_rules(word)] for page in pages]
    rows = [
        row
        for number, words in enumerate(pages, 1)
        for row in _rows(words, number, are_whole=are_pictures)
    ]
    rows = rows[:_MOST_LINES]
    cells: list[Cells] = []
    lines: list[Line] = []
    for part in _zones(rows, is_heading, are_pictures=are_pictures):
        zone = part
        is_headed = are_pictures and (
            any(_is_close_heading(row, is_heading) for row in zone[:2]) or _heads_figures(zone, 0)
        )
        if not (is_headed and with_bands(zone)):
            heads = 0 if are_pictures else _heads(zone, is_heading)
            _set_columns(zone, heads)
            zone = headed.with_one_heading(zone, heads, is_heading)
        for row in _joined(zone) if is_heading(zone[0].texts) else zone:
            texts, boxes = _laid_out(row)
            cells.append(texts)
            lines.append(Line(row.number, page=row.page, boxes=boxes))
    return Sheet("", cells, lines=tuple(lines))


def _rows(words: Sequence[Word], page: int, *, are_whole: bool) -> list[PageRow]:
    levels: list[list[Word]] = []
    for word in sorted(words, key=lambda word: (word.top + word.bottom) / 2):
        middle = (word.top + word.bottom) / 2
        if levels:
            last = levels[-1]
            level = sum((one.top + one.bottom) / 2 for one in last) / len(last)
            if middle - level < _LEVEL * min(word.height, last[0].height):
                last.append(word)
                continue
        levels.append([word])
    rows = [
        row_of(page, number, level, are_whole=are_whole) for number, level in enumerate(levels, 1)
    ]
    return rows if are_whole else with_centred(rows)


def _zones(
    rows: list[PageRow], is_heading: IsHeading, *, are_pictures: bool
) -> list[list[PageRow]]:
    """Rows from one heading to the next; those before the first heading make a zone, too."""
    starts: list[int] = []
    for index, row in enumerate(rows):
        is_told = len(row.cells) > 1 and is_heading(row.texts)
        is_close = _is_close_heading(row, is_heading)
        is_close = is_close and (are_pictures or _stands_over_figures(rows, index))
        is_first = are_pictures and not starts and _heads_figures(rows, index)
        if is_told or is_close or is_first:
            start = index
            above = rows[index - 1] if index else None
            if above and _belongs(above, row):
                start -= 1
            if not are_pictures:
                start = min(start, headed.first_line(rows, index))
            starts.append(start)
    edges = sorted({0, *starts, len(rows)})
    return [rows[a:b] for a, b in pairwise(edges) if b > a]


def _heads(zone: list[PageRow], is_heading: IsHeading) -> int:
    """How many of a zone's first rows are its heading; 0 if it has none."""
    told = headed.lines_of_heading(zone, lambda row: is_heading(row.texts))
    return told or headed.lines_of_heading(zone[:2], lambda row: _is_close_heading(row, is_heading))


def _is_close_heading(row: PageRow, is_heading: IsHeading) -> bool:
    """Whether a row is a heading whose cells stand as close as words: few words, and no figures."""
    words = [word.text for word in row.words]
    return (
        1 < len(words) <= _MOST_HEADS
        and not any(map(str.isdigit, "".join(words[:1])))
        and not any(":" in word for word in words)
        and is_heading(words)
    )


def _heads_figures(rows: list[PageRow], index: int) -> bool:
    """Whether a row of words stands over rows of figures, whatever its words are."""
    row, below = rows[index], rows[index + 1 : index + 1 + _FEW]
    said = "".join(row.texts)
    return (
        len(row.cells) > 1
        and ":" not in said
        and not any(map(str.isdigit, said))
        and len(below) == _FEW
        and all(len(one.words) > 1 and any(map(str.isdigit, "".join(one.texts))) for one in below)
    )


def _stands_over_figures(rows: list[PageRow], index: int) -> bool:
    """Whether a row of words stands over rows of which most have figures."""
    said = "".join(rows[index].texts)
    below = rows[index + 1 : index + 1 + 2 * _FEW]
    with_figures = (
        len(row.words) > 1 and any(map(str.isdigit, "".join(row.texts))) for row in below
    )
    return not any(map(str.isdigit, said)) and sum(with_figures) >= _FEW - 1


def _belongs(above: PageRow, heading: PageRow) -> bool:
    """Whether the line above a heading is its first line."""
    near = above.page == heading.page and heading.top - above.top < _NEAR * heading.height
    words = "".join(above.texts)
    return near and len(above.cells) > 1 and ":" not in words and not any(map(str.isdigit, words))


def _set_columns(zone: list[PageRow], heads: int) -> None:
    """Find the bands of a zone and say of each cell in which it stands.

    Lines of facts, such as those of the next sample below a table, keep to no bands of it; the
    first rows, its heading, tell where else columns may part.
    """
    wide = [row for row in _near_others(zone) if len(row.cells) > 1]
    tabled = [row for row in wide if not all(":" in cell.text for cell in row.cells)] or wide
    full = [row for row in tabled if len(row.cells) > 2]  # noqa: PLR2004  a pair is a fact beside it
    tabled = full if len(full) > _FEW and len(zone[0].cells) > _FEW - 1 else tabled
    edges = _edges(tabled) if tabled else []
    if heads:
        edges = headed.edges_of(zone, edges, heads)
        least = headed.least_room(zone)
        for row in zone:
            row.cells = headed.parted(row, edges, least)
    for row in zone:
        row.columns = [_column((cell.left + cell.right) / 2, cell, edges) for cell in row.cells]
        if len(row.columns) == 2 and row.columns[0] == row.columns[1]:  # noqa: PLR2004
            row.columns[1] += 1  # a word and what it tells, where other lines leave no room


def _near_others(zone: list[PageRow]) -> list[PageRow]:
    """The rows of a zone without one or two that stand far from all others, as a footer."""
    gaps = [b.top - a.top for a, b in pairwise(zone) if a.page == b.page]
    if len(gaps) < _FEW:
        return zone
    far = _FAR * median(gaps)
    blocks = [[zone[0]]]
    for above, row in pairwise(zone):
        if above.page != row.page or row.top - above.top > far:
            blocks.append([])
        blocks[-1].append(row)
    near = [row for block in blocks if len(block) > _FOOT or block is blocks[0] for row in block]
    return near if len(near) > 1 else zone


def _joined(zone: list[PageRow]) -> list[PageRow]:
    """The rows of a table, with the lines of a cell that takes several put into their row.

    Such lines stand nearer to each other than rows do.
    """
    gaps = [b.top - a.top for a, b in pairwise(zone) if a.page == b.page]
    if len(gaps) < _FEW or len([row for row in zone if len(row.cells) == 1]) < 2:  # noqa: PLR2004
        return zone
    near, far = quantiles(gaps, n=5)[0], quantiles(gaps, n=5)[-1]
    if far < _APART * near:
        return zone
    blocks: list[list[PageRow]] = [[zone[0]]]
    for above, row in pairwise(zone):
        is_near = above.page == row.page and row.top - above.top < (near + far) / 2
        if is_near and above is not zone[0]:
            blocks[-1].append(row)
        else:
            blocks.append([row])
    return [row for block in blocks for row in _one_of(block)]


def _one_of(block: list[PageRow]) -> list[PageRow]:
    """The one row that lines make of which all but one hold words of one column only."""
    whole = [row for row in block if len(row.cells) > 1]
    if len(whole) != 1 or len(block) < 2:  # noqa: PLR2004
        return block
    row, column = whole[0], block[0].columns[0]
    rest = [one for one in block if one is not row]
    if column not in row.columns or any(one.columns != [column] for one in rest):
        return block
    own = [cell for cell, at in zip(row.cells, row.columns, strict=True) if at == column]
    if len(own) != 1 or any(":" in one.cells[0].text for one in block):
        return block
    lines = [own[0] if one is row else one.cells[0] for one in block]
    own[0].text = " ".join(line.text for line in lines)
    for line in lines:
        left, top, right, bottom = _over(own[0].box, line.box)
        own[0].left, own[0].top, own[0].right, own[0].bottom = left, top, right, bottom
    return [row]


def _edges(rows: list[PageRow]) -> list[float]:
    """Middles of the rooms that hardly a row crosses, from left to right."""
    least = min(cell.left for row in rows for cell in row.cells)
    most = max(cell.right for row in rows for cell in row.cells)
    steps = int((most - least) / _STEP) + 1
    crossed = [0] * (steps + 1)
    for row in rows:
        for cell in row.cells:
            first, last = int((cell.left - least) / _STEP), int((cell.right - least) / _STEP)
            for step in range(first, min(last, steps) + 1):
                crossed[step] += 1
    allowed = int(_CROSSED * len(rows))
    edges = []
    start: int | None = None
    for step, count in enumerate(crossed):
        if count <= allowed and start is None:
            start = step
        elif count > allowed and start is not None:
            if start > 0:
                edges.append(least + (start + step) / 2 * _STEP)
            start = None
    return edges


def _column(middle: float, cell: PageCell, edges: list[float]) -> int:
    """The band of a cell; one that reaches over several bands stands where it begins."""
    inside = [edge for edge in edges if cell.left < edge < cell.right]
    at = cell.left if inside else middle
    return sum(edge <= at for edge in edges)


def _laid_out(row: PageRow) -> tuple[Cells, tuple[Box | None, ...]]:
    """Texts and boxes by column; a single cell such as `Iron: 0.3 mg/L` is taken apart."""
    if len(row.cells) == 1:
        cell = row.cells[0]
        pair = pair_of(cell.text)
        if len(pair) > 1:
            return pair, (cell.box, cell.box)
    if len(row.cells) == 2 and row.cells[1].text.startswith(":"):  # noqa: PLR2004  `Iron   : 0.3`
        before, after = row.cells
        return [before.text, after.text.lstrip(": ")], (before.box, after.box)
    if len({*row.columns}) < 2 < len(row.cells) and row.cells[0].text.endswith(":"):  # noqa: PLR2004
        # Facts in a line, where other lines leave no room: `Collected:  May 3  Hour: 9:00`.
        return row.texts, tuple(cell.box for cell in row.cells)
    width = max(row.columns) + 1
    texts = [""] * width
    boxes: list[Box | None] = [None] * width
    room = "  " if all(":" in cell.text for cell in row.cells) else " "  # facts stay apart
    for column, cell in zip(row.columns, row.cells, strict=True):
        texts[column] = f"{texts[column]}{room}{cell.text}".strip()
        boxes[column] = cell.box if boxes[column] is None else _over(boxes[column], cell.box)
    return texts, tuple(boxes)


def _over(one: Box | None, other: Box) -> Box:
    if one is None:
        return other
    return (
        min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])
    )  # fmt: skip
