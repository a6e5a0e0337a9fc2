"""Tables side by side are put one below the other, so that each is read as a table of its own."""

from dataclasses import replace

from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.intake.words.headings import roles_of
from wellbook.intake.words.roles import Role

_OF_FIGURES = frozenset("0123456789<>")  # with these no cell of a heading begins


def stacked(sheet: Sheet) -> Sheet:
    """The sheet with tables that stand side by side one below the other."""
    cuts = {index: cut for index, row in enumerate(sheet.rows) if (cut := _cuts(row))}
    if not cuts:
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []

    def put(indexes: range, start: int, end: int | None) -> None:
        for index in indexes:
            row = sheet.rows[index][start:end]
            if start and not any(map(str.strip, row)):
                continue
            rows.append(row)
            line = sheet.lines[index] if sheet.lines else Line(index + 1)
            lines.append(replace(line, shift=line.shift + start))

    at = 0
    while at < len(sheet.rows):
        cut = cuts.get(at, ())
        if not cut:
            put(range(at, at + 1), 0, None)
            at += 1
            continue
        end = _end(sheet.rows, at, cuts)
        for start, stop in zip((0, *cut), (*cut, None), strict=True):
            put(range(at, end), start, stop)
        at = end
    return replace(sheet, rows=rows, lines=tuple(lines))


def _cuts(row: Cells) -> tuple[int, ...]:
    """Where in a heading row a second and a third table begins."""
    if sum(map(bool, row)) < 4 or any(cell[:1] in _OF_FIGURES for cell in row if cell):  # noqa: PLR2004
        return ()
    roles = roles_of(row)
    if roles.count(Role.NAME) < 2 or roles.count(Role.RESULT) < 2:  # noqa: PLR2004
        return ()
    first = roles.index(Role.NAME)
    starts = [i for i, role in enumerate(roles) if role is Role.NAME and i > first]
    parts = [roles[a:b] for a, b in zip((first, *starts), (*starts, None), strict=True)]
    return tuple(starts) if all(Role.RESULT in part for part in parts) else ()


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
