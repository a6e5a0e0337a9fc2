"""Results that are told line by line, `Parameter: Iron`, `Result: 0.3`, put into a table."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.intake.tables.cells import at
from wellbook.intake.words.headings import role_of_column
from wellbook.intake.words.roles import Role
from wellbook.water.values.signs import folded

_FEWEST = 2  # results


def with_records(sheet: Sheet) -> Sheet:
    """The sheet with such lines turned into a table, a row for each result."""
    keys = [_key(row) for row in sheet.rows]
    names = [key for key in keys if key and role_of_column(key) is Role.NAME]
    if len(names) < _FEWEST or len(set(names)) != 1:
        return sheet
    often = {key for key, n in Counter(filter(None, keys)).items() if n * 2 > len(names)}
    rows: list[Cells] = []
    lines: list[Line] = []
    last: tuple[str, ...] = ()
    for group in _groups(sheet.rows, keys, often):
        told = {keys[i]: i for i in group}
        results = [i for key, i in told.items() if role_of_column(key) is Role.RESULT]
        if names[0] not in told or len(results) != 1:
            rows += [sheet.rows[i] for i in group]
            lines += [sheet.line(i) for i in group]
            continue
        heads = tuple(at(sheet.rows[i], 0).strip(" :") for i in group)
        line = sheet.line(results[0])
        if heads != last:
            rows.append(list(heads))
            lines.append(line)
            last = heads
        rows.append([at(sheet.rows[i], 1) for i in group])
        lines.append(line)
    return replace(sheet, rows=rows, lines=tuple(lines)) if last else sheet


def _key(row: Cells) -> str:
    """The word before a value, where a row holds nothing but the two; else empty."""
    if any(map(str.strip, row[2:3])):  # at once: a file may have 100,000 rows
        return ""
    if any(map(str.strip, row[3:])) or not (at(row, 0) and at(row, 1)):
        return ""
    word = row[0].strip(" :")
    return folded(word) if role_of_column(word) else ""


def _groups(rows: Sequence[Cells], keys: list[str], often: set[str]) -> list[list[int]]:
    """Indexes of rows, those of one result together; empty rows are left out between them."""
    groups: list[list[int]] = []
    own: set[str] = set()
    for i, row in enumerate(rows):
        key = keys[i] if keys[i] in often else ""
        if key and own and key not in own:
            groups[-1].append(i)
            own.add(key)
        elif key or any(map(str.strip, row)) or not own:
            groups.append([i])
            own = {key} if key else set()
    return groups
