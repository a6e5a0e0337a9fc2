"""Tables side by side are put one below the other, so that each is read as a table of its own."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.intake.tables.cells import are_parameters, at, is_parameter, rows_of_words
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.words.asides import is_place
from wellbook.intake.words.headings import roles_of
from wellbook.intake.words.preamble import says_a_fact
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue

_PAIR = 2  # cells of a name and its figure
_SYMBOL = 2  # letters of an element's symbol; a lab's marks look the same
_LOOK = 30  # rows below a heading by which its columns are known


def stacked(sheet: Sheet, catalogue: Catalogue) -> Sheet:
    """The sheet with tables that stand side by side one below the other."""
    words = rows_of_words(sheet)
    formed = _with_pairs_apart(sheet, words, catalogue)
    words = words if formed is sheet else rows_of_words(formed)
    sheet = formed
    cuts = {}
    for index in words:
        cut = _cuts(sheet.rows, index, catalogue)
        cut = cut or _cuts_of_days(sheet.rows[index], catalogue)
        if cut:
            cuts[index] = cut
    if not cuts:
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []

    def put(indexes: range, start: int, end: int | None) -> None:
        for index in indexes:
            row = sheet.rows[index][start:end]
            if start and not any(map(str.strip, row)):
                continue
            rows.append(_as_place(row) if index in titles else row)
            line = sheet.line(index)
            lines.append(replace(line, shift=line.shift + start))

    titles = {i - 1 for i, cut in cuts.items() if i and _are_titles(sheet.rows[i - 1], cut)}
    begins = {_begin(sheet.rows, i, cut, titles): i for i, cut in cuts.items()}
    here = 0
    while here < len(sheet.rows):
        first = begins.get(here, here)
        cut = cuts.get(first, ())
        if not cut:
            put(range(here, here + 1), 0, None)
            here += 1
            continue
        end = _end(sheet.rows, first, cuts)
        for start, stop in zip((0, *cut), (*cut, None), strict=True):
            put(range(here, end), start, stop)
        here = end
    return replace(sheet, rows=rows, lines=tuple(lines))


def _with_pairs_apart(sheet: Sheet, words: Iterable[int], catalogue: Catalogue) -> Sheet:
    """The sheet with a row for each pair of a form that has two or more in a line.

    Such as `Iron (ppm) | 0.08 | pH | 6.4`: a name, its figure, the next name. Where a heading, one
    of the rows of words, tells the columns, `B | 0.05` is a mark and a limit, and no pair.
    """
    if any(Role.RESULT in roles_of(sheet.rows[index]) for index in words):
        return sheet

    def is_pair(name: str, figure: str) -> bool:
        is_symbol = len(name.strip()) <= _SYMBOL and name.strip().casefold() != "ph"
        return is_reading(figure) and not is_symbol and is_parameter(name, catalogue)

    def starts(row: Cells) -> tuple[int, ...]:
        return tuple(i for i, pair in enumerate(pairwise(row)) if is_pair(*pair))

    found = [starts(row) if len(row) > _PAIR else () for row in sheet.rows]
    usual = Counter(one for one in found if len(one) > 1)
    if not usual or max(usual.values()) < 2:  # noqa: PLR2004
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []
    for index, row in enumerate(sheet.rows):
        cuts = found[index][1:] if usual[found[index]] > 1 else ()
        for start, end in zip((0, *cuts), (*cuts, None), strict=True):
            line = sheet.line(index)
            rows.append(row[start:end])
            lines.append(replace(line, shift=line.shift + start))
    return replace(sheet, rows=rows, lines=tuple(lines))


def _cuts(rows: list[Cells], index: int, catalogue: Catalogue) -> tuple[int, ...]:
    """Where in a row of words a second and a third table begins."""
    row = rows[index]
    if sum(map(bool, row)) < 4:  # noqa: PLR2004
        return ()
    roles = roles_of(row)
    if roles.count(Role.NAME) < 2:  # noqa: PLR2004
        is_twice = roles.count(Role.RESULT) > 1
        return _cuts_of_names(rows, index, roles, catalogue) if is_twice else ()
    first, *starts = (i for i, role in enumerate(roles) if role is Role.NAME)
    below = rows[index + 1 : index + 1 + _LOOK]

    def has_results(start: int, end: int) -> bool:
        return Role.RESULT in roles[start:end] or any(
            roles[i] in {None, Role.UNIT} and _are_readings([at(one, i) for one in below])
            for i in range(start + 1, end)
        )

    parts = zip((first, *starts), (*starts, len(roles)), strict=True)
    return tuple(starts) if all(has_results(*part) for part in parts) else ()


def _are_readings(cells: list[str]) -> bool:
    filled = [cell for cell in cells if cell]
    return sum(map(is_reading, filled)) * 2 > len(filled)


def _cuts_of_names(
    rows: list[Cells], index: int, roles: list[Role | None], catalogue: Catalogue
) -> tuple[int, ...]:
    """The same where titles such as `Metals` and `Minerals` stand over the names of parameters."""
    below = rows[index + 1 : index + 1 + _LOOK]

    def are_names(column: int) -> bool:
        return are_parameters([text for row in below if (text := at(row, column))], catalogue)

    results = [i for i, role in enumerate(roles) if role is Role.RESULT]
    starts = []
    for before, result in zip((-1, *results), results, strict=False):
        open_heads = (i for i in range(before + 1, result) if roles[i] in {None, Role.NAME})
        start = next(filter(are_names, open_heads), None)
        if start is None:
            return ()
        starts.append(start)
    return tuple(starts[1:])


def _cuts_of_days(row: Cells, catalogue: Catalogue) -> tuple[int, ...]:
    """Where in a row of words a second sheet begins that has its own days, as of another well."""
    dated = [i for i, role in enumerate(roles_of(row)) if role in {Role.DATE, Role.SOME_DATE}]
    if len(dated) < 2 or dated[0]:  # noqa: PLR2004
        return ()
    parts = [row[a:b] for a, b in zip(dated, (*dated[1:], None), strict=True)]
    is_each = all(any(is_parameter(cell, catalogue) for cell in part[1:]) for part in parts)
    return tuple(dated[1:]) if is_each else ()


def _are_titles(row: Cells, cut: tuple[int, ...]) -> bool:
    """Whether a line names the place of each of the tables below it, and says nothing else."""
    filled = [i for i, cell in enumerate(row) if cell.strip()]
    return filled == [0, *cut] and all(is_place(row[i]) for i in filled)


def _begin(rows: list[Cells], index: int, cut: tuple[int, ...], titles: set[int]) -> int:
    """The first row of tables side by side: lines above their heading may tell of each."""
    start = index
    while start and (
        start - 1 in titles or all(says_a_fact(at(rows[start - 1], i)) for i in (0, *cut))
    ):
        start -= 1
    return start


def _as_place(row: Cells) -> Cells:
    return ["Location:", row[0].strip()]


def _end(rows: list[Cells], start: int, cuts: dict[int, tuple[int, ...]]) -> int:
    """The row after the last one of tables that stand side by side."""
    width = cuts[start][0]
    for index in range(start + 1, len(rows)):
        row = rows[index]
        if index in cuts and cuts[index] != cuts[start]:
            return index
        if not any(map(str.strip, row[width:])) and not any(map(str.strip, row[:width])):
            return index
    return len(rows)
