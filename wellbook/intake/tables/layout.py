"""Where the tables of results stand in a sheet, and the words around them."""

from collections.abc import Iterable, Sequence
from datetime import date

from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.tables import crosstabs
from wellbook.intake.tables.columns import Columns, assign
from wellbook.intake.tables.scanner import Walk
from wellbook.intake.tables.tables import Table, told
from wellbook.intake.words.headings import roles_of
from wellbook.intake.words.preamble import Facts, facts_in
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue

_TOP = 300  # rows among which the first heading row is looked for
_NAMES = {Role.NAME, Role.CODE, Role.CAS}
_SUBJECTS = {Role.NAME, Role.CODE, Role.RESULT}


def likeness(rows: Sequence[Cells]) -> int:
    """How much some rows look like a table of results: what their best heading row tells."""
    return max((len(told(roles_of(row))) for row in rows[:_TOP]), default=0)


def tables_in(
    sheet: Sheet, name: str, catalogue: Catalogue, today: date
) -> tuple[list[Table], Facts]:
    """The tables of a sheet, and the facts that stand in it outside of tables.

    Raises:
        Fault: A row has more cells than its table, or the last row is cut off.
    """
    table = crosstabs.unfolded(sheet, catalogue, today)
    if table:
        return [table], table.facts
    start, columns = _heading(sheet.rows, catalogue)
    if columns is None:
        return [], _facts(sheet.rows[:_TOP], today)
    walk = Walk(sheet, name, catalogue, today)
    heading = sheet.rows[start] if start >= 0 else []
    walk.begin(heading, columns, _facts(sheet.rows[: max(start, 0)], today))
    for index in range(start + 1, len(sheet.rows)):
        walk.step(index)
    return walk.finish()


def _facts(rows: Iterable[Cells], today: date) -> Facts:
    facts: Facts = {}
    for row in rows:
        for role, value in facts_in(row, today).items():
            facts.setdefault(role, value)
    return facts


def _heading(rows: list[Cells], catalogue: Catalogue) -> tuple[int, Columns | None]:
    """Number of the first heading row and the columns under it; -1 for a table without one."""
    best: tuple[int, int, Columns] | None = None
    for index, row in enumerate(rows[:_TOP]):
        roles = roles_of(row)
        words = told(roles)
        if words & _SUBJECTS and sum(map(bool, row)) > 1 and (not best or len(words) > best[0]):
            columns = assign(roles, rows[index + 1 :][:_TOP], catalogue)
            if columns and Role.RESULT in words and words & _NAMES:
                return index, columns
            if columns:
                best = (len(words), index, columns)
    if best:
        return best[1], best[2]
    if likeness(rows) > 1:
        return -1, None  # it has a heading, of something else
    return -1, assign([], rows[: 2 * _TOP], catalogue)
