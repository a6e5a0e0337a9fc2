"""Blocks below one another, each with days or places of its own over its columns."""

from dataclasses import replace
from datetime import date

from wellbook.intake.files.sheets import Cells, Sheet, alone
from wellbook.intake.tables.cells import at, is_parameter
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import Table
from wellbook.intake.words.asides import is_number, is_place, section
from wellbook.intake.words.dates import taken_apart, tells_day
from wellbook.intake.words.headings import role_of, roles_of
from wellbook.intake.words.preamble import OF_ONE_SAMPLE, Facts, says_a_fact, stands_alone
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue

_TOP = 60  # rows among which the first heading is looked for
_NEAR = 8  # rows below a heading by which it is seen whether results stand under it
_ABOVE = 6  # lines above a heading that may tell about its block
_FIGURES = frozenset("0123456789<>.")
_SHORTEST = 6  # letters of a whole day
_YEAR = 4
_SIGNS = frozenset("-/ ")  # between the parts of a day
_DATES = {Role.DATE, Role.SOME_DATE}
_BEGIN = {None, Role.NAME, *_DATES}  # what the first words of such a heading say


def blocks_of(sheet: Sheet, catalogue: Catalogue, today: date) -> list[Sheet]:
    """The sheet cut above each heading of samples but the first; whole without a second one."""
    heads = _heads(sheet.rows, catalogue, today)
    if len(heads) < 2:  # noqa: PLR2004
        return [sheet]
    starts = [0, *(_start(sheet.rows, head, catalogue) for head in heads[1:])]
    return [
        replace(
            sheet,
            rows=sheet.rows[start:end],
            lines=tuple(sheet.line(i) for i in range(start, end)),
            has_open_end=sheet.has_open_end and end == len(sheet.rows),
        )
        for start, end in zip(starts, (*starts[1:], len(sheet.rows)), strict=True)
    ]


def tell(block: Sheet, table: Table, before: Facts, of_sheet: Facts, today: date) -> Facts:
    """Give a table what stands above its block, or before it where nothing does.

    Args:
        block: The block.
        table: Its table.
        before: What is told of the block before it.
        of_sheet: What is told of the first one, and so at the head of the sheet.
        today: No date after it is a fact.

    Returns:
        What is told of this block.
    """
    first = min((*table.indexes, *(index for index, _words in table.undated)), default=0)
    above = [row for row in block.rows[:first] if any(map(str.strip, row))]
    lines = [row for row in above if alone(row) or says_a_fact(at(row, 0))]
    own = stands_alone(lines, today)
    title = next((title for row in reversed(lines) if (title := section(row)) is not None), "")
    own |= {Role.KIND: title} if title else {}
    kept = before if not lines else {
        role: text for role, text in of_sheet.items() if role not in {*OF_ONE_SAMPLE, Role.KIND}
    }  # fmt: skip
    table.facts = {**kept, **own, **table.facts}
    return table.facts


def _heads(rows: list[Cells], catalogue: Catalogue, today: date) -> list[int]:
    """The row with which each heading over results begins that tells days or places."""
    found: list[int] = []
    start, is_dated = -1, False
    told = [(i, over) for i, row in enumerate(rows[:_TOP]) if (over := _over(row, today))]
    if not told:
        return []
    told += [(i, over) for i, row in enumerate(rows[_TOP:], _TOP) if (over := _over(row, today))]
    told = [one for one in told if not any(is_parameter(c, catalogue) for c in rows[one[0]])]
    ends = (*(index for index, _over in told), len(rows))[1:]
    for (index, over), end in zip(told, ends, strict=True):
        if found and role_of(at(rows[index], 0)) in _DATES and not is_dated:
            continue  # the days of the samples of a table that began without them
        start = start if start >= 0 and index - start < _NEAR else index
        is_dated = is_dated or any(tells_day(at(rows[index], i), today) for i in over)
        if any(_is_result(row, over, today) for row in rows[index + 1 : end][:_NEAR]):
            found.append(start)
            start = -1
    return found


def _over(row: Cells, today: date) -> list[int]:
    """Columns over which a row tells a day or a place, where it is a heading."""
    if any(cell[:1] in _FIGURES and not _may_be_day(cell) for cell in row if cell):
        return []
    if role_of(at(row, 0)) not in _BEGIN:
        return []
    roles = roles_of(row)
    is_named = Role.NAME in roles
    is_word = is_named or roles[:1] in ([Role.DATE], [Role.SOME_DATE])
    may_be_places = is_named and Role.RESULT not in roles
    found = []
    for i in range(1, len(row)):
        cell = at(row, i)
        is_day = tells_day(cell, today) and (is_word or taken_apart(cell, today) is not None)
        if is_day or (may_be_places and not roles[i] and (is_place(cell) or is_number(cell))):
            found.append(i)
        elif roles[i] is None and is_reading(cell):
            return []
    return found


def _may_be_day(cell: str) -> bool:
    """Whether a cell that begins with a figure may be a day or a year; told without much work."""
    is_whole = len(cell) >= _SHORTEST and (cell.count(".") > 1 or not _SIGNS.isdisjoint(cell))
    return is_whole or (len(cell) == _YEAR and cell.isdigit())


def _is_result(row: Cells, columns: list[int], today: date) -> bool:
    """Whether a row has a name and a reading, that is no day, in one of some columns."""
    readings = (i for i in columns if is_reading(at(row, i)) and not taken_apart(at(row, i), today))
    return any(any(map(str.isalpha, "".join(row[:i]))) for i in readings)


def _start(rows: list[Cells], head: int, catalogue: Catalogue) -> int:
    """Where the lines begin that belong to the block of a heading."""

    def is_beside(row: Cells) -> bool:
        word = alone(row)
        is_title = bool(word) and not is_reading(word) and not is_parameter(word, catalogue)
        return is_title or says_a_fact(at(row, 0))

    end = head
    while end and not any(map(str.strip, rows[end - 1])):
        end -= 1
    start = end
    while start and end - start < _ABOVE and is_beside(rows[start - 1]):
        start -= 1
    is_foot = end < head and start and any(map(str.strip, rows[start - 1]))
    return head if is_foot else start
