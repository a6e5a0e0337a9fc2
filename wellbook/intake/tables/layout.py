"""Where the tables of results stand in a sheet, and the words around them."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice

from wellbook.intake.files.sheets import Cells, Sheet, alone
from wellbook.intake.tables import crosstabs
from wellbook.intake.tables.beside import with_lines_below
from wellbook.intake.tables.blocks import blocks_of, tell
from wellbook.intake.tables.cells import SAMPLE, at, is_counter, is_parameter, joined, rows_of_words
from wellbook.intake.tables.columns import Columns, assign, is_reading
from wellbook.intake.tables.loose_cells import of_no_table
from wellbook.intake.tables.records_of_lines import with_records
from wellbook.intake.tables.regions import stacked
from wellbook.intake.tables.reshaped import (
    with_cards,
    with_days_of_results,
    with_days_spread,
    with_heads_filled,
    with_labels_above,
    with_names_down,
    with_whole_days,
    with_whole_places,
)
from wellbook.intake.tables.scanner import TableScanner
from wellbook.intake.tables.tables import Table, told
from wellbook.intake.tables.titled import with_dittos, with_titles
from wellbook.intake.tables.units_above import UnitsAbove
from wellbook.intake.words.asides import section
from wellbook.intake.words.dates import taken_apart
from wellbook.intake.words.headings import is_standard, role_of, role_of_column, roles_of
from wellbook.intake.words.letterheads import lab_in_head
from wellbook.intake.words.preamble import (
    OF_A_KIND,
    OF_ONE_SAMPLE,
    Facts,
    facts_below,
    facts_in,
    says_a_fact,
    stands_alone,
)
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue

_BROKEN = re.compile(r"\d{1,2}|\b(?:de|of|on|el|am|le|[^\W\d_]{3,10})$")  # within a day
_NAMED = 2  # results that name their column where it has no heading
_TOP = 300  # rows among which the first heading row is looked for
_NAMES = {Role.NAME, Role.CODE, Role.CAS}
_SUBJECTS = {Role.NAME, Role.CODE, Role.RESULT}


def likeness(rows: Sequence[Cells]) -> int:
    """How much some rows look like a table of results: what their best heading row tells."""
    return max((len(told(roles_of(row))) for row in rows[:_TOP]), default=0)


def heads_of(sheets: Sequence[Sheet]) -> str:
    """The words of the best heading row of some sheets, without days; empty if there is none."""
    best: tuple[bool, int, int] = (False, 0, 0)
    said: Cells = []
    for row in (row for sheet in sheets for row in sheet.rows[:_TOP]):
        words = told(roles_of(row))
        cells = [cell.strip() for cell in row if cell.strip() and not _is_day(cell)]
        rank = (bool(words & _SUBJECTS), len(words), len(cells))
        if words and len(cells) > 1 and rank > best and not any(map(_is_number, cells)):
            best, said = rank, cells
    return "; ".join(said)


def _is_number(text: str) -> bool:
    return is_reading(text) and any(map(str.isdigit, text))


def tables_in(
    sheet: Sheet,
    name: str,
    catalogue: Catalogue,
    today: date,
    told_columns: dict[str, bool] | None = None,
) -> tuple[list[Table], Facts]:
    """The tables of a sheet, and the facts that stand in it outside of tables.

    Args:
        sheet: The sheet.
        name: Name of the file, for messages.
        catalogue: To know a parameter's name.
        today: No date after it is a fact.
        told_columns: Headings of which a person said that they are samples of their water, or not.

    Raises:
        Fault: A row has more cells than its table, or the last row is cut off.
    """
    sheet = with_titles(with_dittos(with_whole_places(sheet)), catalogue)
    sheet = with_days_spread(with_days_of_results(with_records(with_whole_days(sheet))))
    sheet = with_names_down(with_cards(with_labels_above(sheet), catalogue), catalogue)
    blocks = blocks_of(sheet, catalogue, today)
    tables = _tables_of_blocks(blocks, name, catalogue, today, told_columns or {})
    return tables or _tables_of(sheet, name, catalogue, today, told_columns or {})


def _tables_of_blocks(
    blocks: list[Sheet], name: str, catalogue: Catalogue, today: date, said: dict[str, bool]
) -> tuple[list[Table], Facts] | None:
    """The tables of blocks with samples of their own across; None where none has any."""
    if len(blocks) < 2:  # noqa: PLR2004
        return None
    of_each = [_tables_of(block, name, catalogue, today, said)[0] for block in blocks]
    found: list[Table] = []
    facts: Facts = {}
    for block, tables in zip(blocks, of_each, strict=True):
        for table in tables:
            facts = tell(block, table, facts, found[0].facts if found else {}, today)
        found += tables
    if not any(table.cells for table in found):
        return None
    left = (block for block, tables in zip(blocks, of_each, strict=True) if not tables)
    found[0].not_taken += (one for block in left for one in of_no_table(block, catalogue))
    return found, found[0].facts


def _tables_of(
    sheet: Sheet, name: str, catalogue: Catalogue, today: date, said: dict[str, bool]
) -> tuple[list[Table], Facts]:
    """The tables of a sheet, or of one of its blocks, and the facts beside them."""
    sheet = stacked(with_heads_filled(sheet), catalogue)
    tables = crosstabs.unfolded(sheet, catalogue, today, said)
    if tables:
        _say_unit(sheet, tables, catalogue)
        if lab := lab_in_head(sheet.rows[: tables[0].indexes[0]] if tables[0].indexes else []):
            for table in tables:
                table.facts = {Role.LAB: lab, **table.facts}
        return tables, tables[0].facts
    found = _heading(sheet.rows, catalogue)
    if found is None:
        return [], _facts(sheet.rows[:_TOP], today)
    if sum(is_heading(sheet.rows[index]) for index in rows_of_words(sheet)) <= 1:
        sheet = with_lines_below(sheet, found.index + 1, found.columns, catalogue)
    scanner = TableScanner(sheet, name, catalogue, today)
    above = sheet.rows[: max(found.index + 1 - found.height, 0)]
    title = section(next((row for row in reversed(above) if any(map(str.strip, row))), []))
    about = {Role.KIND: title} if title else {}
    scanner.begin(found.cells, found.columns, {**about, **_facts(above, today)})
    scanner.unit_of_all(above)
    scanner.say_guess(_guess(found, sheet.rows))
    for index in range(found.index + 1, len(sheet.rows)):
        scanner.step(index)
    tables, facts = scanner.finish()
    _ask_day_of_paper(sheet, tables, above, today)
    return tables, facts


def _say_unit(sheet: Sheet, tables: list[Table], catalogue: Catalogue) -> None:
    """Say the unit that lines above an unfolded table, where it is the only one, tell of all."""
    (table, *others) = tables
    start = min(table.indexes, default=0)
    if others or table.unit or not start:
        return
    units = UnitsAbove(catalogue)
    units.take_above(sheet.rows[:start])
    units.take_below(sheet.rows[start:])
    table.unit = units.stated
    table.is_unit_usual = units.is_asked(table.unit)


def _ask_day_of_paper(
    sheet: Sheet, tables: list[Table], above: Sequence[Cells], today: date
) -> None:
    """A day alone in a line of a report may be the one of the report: it is asked about."""
    alone = stands_alone(above, today).get(Role.SOME_DATE, "") if sheet.is_paper else ""
    for table in tables:
        is_dated = Role.DATE in table.facts or {Role.DATE, Role.SOME_DATE} & table.columns.keys()
        if alone and not is_dated and table.facts.get(Role.SOME_DATE) == alone:
            table.is_day_guessed = True


def _guess(found: "_Heading", rows: list[Cells]) -> str:
    """The heading of the results, where another column holds figures and no word tells which.

    Of a table without headings it is the first results themselves.
    """
    result = found.columns[Role.RESULT]
    below = rows[found.index + 1 : found.index + 1 + _TOP]
    words = at(found.cells, result)
    if role_of(words) is Role.RESULT or (not words and found.cells):
        return ""
    width = len(found.cells) or max(map(len, below), default=0)
    for i in range(width):
        heading = at(found.cells, i)
        cells = [at(row, i) for row in below if at(row, i) and at(row, result)]
        is_open = bool(heading) and role_of_column(heading) is None
        is_open = is_open or not found.cells
        if is_open and i not in found.columns.values() and not is_counter(cells):
            figures = sum(map(is_reading, cells))
            if figures > 1 and figures * 2 > len(cells):
                results = (at(row, result) for row in below if is_reading(at(row, result)))
                return words or ", ".join([*islice(results, _NAMED), "…"])
    return ""


def _facts(rows: Sequence[Cells], today: date) -> Facts:
    facts: Facts = {}
    above: Cells = []
    for row in rows:
        if is_heading(row):  # of a table that was not understood, with a sample of its own
            of_sample = {*OF_ONE_SAMPLE, *OF_A_KIND}
            facts = {role: value for role, value in facts.items() if role not in of_sample}
        for role, value in (facts_below(above, row, today) | facts_in(row, today)).items():
            facts.setdefault(role, value)
        if Role.DATE not in facts and (day := _day_over_lines(above, row, today)):
            facts[Role.DATE] = day
        above = row
    for role, value in stands_alone(rows, today).items():
        facts.setdefault(role, value)
    if lab := lab_in_head(rows):
        facts.setdefault(Role.LAB, lab)
    return facts


def _day_over_lines(above: Cells, row: Cells, today: date) -> str:
    """The day of sampling in a sentence that breaks off within it at the end of a line."""
    before, behind = alone(above), alone(row)
    if not (before and behind and before[-1:].isalnum() and _BROKEN.search(before)):
        return ""
    return facts_in([f"{before} {behind}"], today).get(Role.DATE, "")


@dataclass(frozen=True, slots=True)
class _Heading:
    """A heading row, or two that belong together, and the columns under it.

    Attributes:
        index: Its last row, from 0; -1 for a table without one.
        height: How many rows it takes.
    """

    index: int
    height: int
    cells: Cells
    columns: Columns
    told: int


def _heading(rows: list[Cells], catalogue: Catalogue) -> _Heading | None:
    """The first heading row and the columns under it; None if there is no table."""
    best: _Heading | None = None
    for index, row in enumerate(rows[:_TOP]):
        cells, height, below = _whole_heading(rows, index)
        roles = columns_told(cells)
        words = told(roles)
        if not (words & _SUBJECTS and sum(map(bool, row)) > 1):
            continue
        if words == {Role.RESULT} and is_parameter(at(row, 0), catalogue):
            continue  # such as `E. coli: found`
        if best and len(words) <= best.told:
            continue
        if best and _holds_results(rows[best.index + 1 : index], best.columns, catalogue):
            return best  # this one is over a further table
        start = index + 1 + below
        columns = assign(roles, rows[start : start + _TOP], catalogue)
        if columns is None:
            continue
        best = _Heading(index + below, height + below, cells, columns, len(words))
        if Role.RESULT in words and words & _NAMES:
            return best
    if best:
        return best
    if likeness([row for row in rows if not any(":" in cell for cell in row)]) > 1:
        return None  # it has a heading, of something else, and not only lines of facts
    bare = [row for row in rows[: 2 * _TOP] if not (row and says_a_fact(row[0]))]
    columns = assign([], bare, catalogue)
    return _Heading(-1, 0, [], columns, 0) if columns else None


def _holds_results(rows: list[Cells], columns: Columns, catalogue: Catalogue) -> bool:
    """Whether two rows tell a parameter and its result in the columns of a heading."""
    name, result = columns.get(Role.NAME), columns[Role.RESULT]
    told = (
        row
        for row in rows
        if name is not None
        and is_reading(at(row, result))
        and is_parameter(at(row, name), catalogue)
    )
    return next(told, None) is not None and next(told, None) is not None


def columns_told(cells: Cells) -> list[Role | None]:
    """What the words over the columns say; a limit in whatever words is nothing here."""
    roles = roles_of(cells)
    if is_standard(cells):
        return roles
    return [role or role_of_column(cell) for role, cell in zip(roles, cells, strict=True)]


def is_heading(cells: Cells) -> bool:
    """Whether some cells are the heading of a table of results."""
    words = told(roles_of(cells))
    return len(words) > 1 and bool(words & _SUBJECTS)


def is_heading_of_page(cells: Cells) -> bool:
    """Whether cells of a page are such a heading, or one over a sample in each row."""
    if is_heading(cells):
        return True
    roles = roles_of(cells)
    open_ones = roles.count(None)
    is_dated = bool(told(roles) & {Role.DATE, Role.SOME_DATE}) and not any(map(_is_day, cells))
    return is_dated and open_ones > 1 and len(told(roles) & set(SAMPLE)) > 1


def _is_day(text: str) -> bool:
    return taken_apart(text, date.max) is not None


def _whole_heading(rows: list[Cells], index: int) -> tuple[Cells, int, int]:
    """A heading with the line above or below that belongs to it, its height, and lines below."""
    cells, height = _with_line_above(rows, index)
    below = rows[index + 1] if index + 1 < len(rows) else []
    if height > 1 or not cells or Role.RESULT in roles_of(cells):
        return cells, height, 0
    filled = [i for i in range(len(below)) if at(below, i)]
    if not filled or any(is_reading(at(below, i)) or not at(cells, i) for i in filled):
        return cells, height, 0
    both = joined(cells, below)[: len(cells)]
    less, more = told(roles_of(cells)), told(roles_of(both))
    if less & _NAMES and more == less | {Role.RESULT}:
        return both, height, 1
    return cells, height, 0


def _with_line_above(rows: list[Cells], index: int) -> tuple[Cells, int]:
    """A heading with the line above it, where the two together say more than the one."""
    row = rows[index]
    above = rows[index - 1] if index else []
    if sum(map(bool, above)) < 2 or any(is_reading(c) or _is_day(c) for c in above if c.strip()):  # noqa: PLR2004
        return row, 1
    both = joined(above, row)
    more, less = told(roles_of(both)), told(roles_of(row))
    own = told(roles_of(above))
    is_apart = not own & _NAMES or not (own & {Role.RESULT} or less & _NAMES)
    fits = len(more) > len(less) and less and more & _SUBJECTS and is_apart
    return (both, 2) if fits else (row, 1)
