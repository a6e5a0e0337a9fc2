"""Tables with a column for every parameter or for every date, unfolded to one result a row."""

from collections.abc import Sequence
from datetime import date

from wellbook.intake.columns import Columns, is_reading
from wellbook.intake.dates import taken_apart
from wellbook.intake.headings import roles_of
from wellbook.intake.names import read_name
from wellbook.intake.preamble import Facts, facts_in
from wellbook.intake.roles import Role
from wellbook.intake.sheets import Cells, Sheet
from wellbook.intake.tables import Table, told
from wellbook.water.catalogue import Catalogue
from wellbook.water.units import understand

_TOP = 60  # rows among which the heading is looked for
_SAMPLE = (Role.DATE, Role.SOME_DATE, Role.TIME, Role.POINT, Role.WELL, Role.NUMBER, Role.LAB)


def unfolded(sheet: Sheet, catalogue: Catalogue, today: date) -> Table | None:
    """The table of a sheet, one result a row; None if the sheet has no such table."""
    facts: Facts = {}
    for index, row in enumerate(sheet.rows[:_TOP]):
        roles = roles_of(row)
        if Role.RESULT in roles and {Role.NAME, Role.CODE} & told(roles):
            return None  # the heading of a plain table
        if not any(is_reading(cell) and not cell.strip().isalpha() for cell in row):
            for unfold in (_by_parameter, _by_sample):
                table = unfold(sheet, index, roles, catalogue, today)
                if table:
                    table.facts = facts
                    return table
        for role, value in facts_in(row, today).items():
            facts.setdefault(role, value)
    return None


def _by_parameter(
    sheet: Sheet, index: int, roles: list[Role | None], catalogue: Catalogue, today: date
) -> Table | None:
    """Headings are parameters, every row is a sample."""
    heading = sheet.rows[index]
    names = [i for i, cell in enumerate(heading) if _is_parameter(cell, catalogue)]
    kept = {role: i for i, role in reversed(list(enumerate(roles))) if role in _SAMPLE}
    below = sheet.rows[index + 1 :]
    units, skip = _units_row(below, names)
    filled = [
        (number, row) for number, row in enumerate(below[skip:], index + 2 + skip) if any(row)
    ]
    results = sum(is_reading(_at(row, i)) for _, row in filled for i in names)
    if len(names) < 2 or not kept or not results or Role.NAME in roles:  # noqa: PLR2004  a pair
        return None
    table = _table(sheet, [*kept, Role.NAME, Role.UNIT, Role.RESULT])
    for number, row in filled:
        shared = [_at(row, kept[role]) for role in kept]
        if not any(shared):
            continue
        if any(taken_apart(cell, today) for cell in shared) or not _is_dated(kept):
            for i in names:
                if _at(row, i):
                    unit = units.get(i, "")
                    table.rows.append([*shared, heading[i].strip(), unit, _at(row, i)])
                    table.numbers.append(number)
    return table if table.rows else None


def _is_dated(kept: Columns) -> bool:
    return bool({Role.DATE, Role.SOME_DATE} & kept.keys())


def _by_sample(
    sheet: Sheet, index: int, roles: list[Role | None], catalogue: Catalogue, today: date
) -> Table | None:
    """Headings are dates or sampling points, every row is a parameter."""
    heading = sheet.rows[index]
    if Role.NAME not in roles:
        return None
    name = roles.index(Role.NAME)
    own = [i for i, role in enumerate(roles) if role is None and heading[i].strip()]
    dated = [i for i in own if taken_apart(heading[i], today)]
    below = list(enumerate(sheet.rows[index + 1 :], index + 2))
    if not dated and not _are_points(own, [row for _, row in below], name, catalogue):
        return None
    told_apart = Role.DATE if dated else Role.POINT
    kept = [r for r in (Role.UNIT, Role.METHOD, Role.FRACTION, Role.BASIS) if r in roles]
    table = _table(sheet, [told_apart, *kept, Role.NAME, Role.RESULT])
    for i in dated or own:
        for number, row in below:
            if _at(row, name) and _at(row, i):
                others = [_at(row, roles.index(role)) for role in kept]
                table.rows.append([heading[i].strip(), *others, _at(row, name), _at(row, i)])
                table.numbers.append(number)
    return table if table.rows else None


def _are_points(own: list[int], rows: Sequence[Cells], name: int, catalogue: Catalogue) -> bool:
    """Whether two or more columns without a telling heading hold readings of known parameters."""
    known = [row for row in rows if _is_parameter(_at(row, name), catalogue)]
    cells = {i: [_at(row, i) for row in known if _at(row, i)] for i in own}
    readings = [i for i, found in cells.items() if found and all(map(is_reading, found))]
    return len(readings) > 1 and len(readings) == len(own)


def _table(sheet: Sheet, roles: list[Role]) -> Table:
    return Table(sheet.name, {role: i for i, role in enumerate(roles)}, {})


def _units_row(rows: list[Cells], names: list[int]) -> tuple[dict[int, str], int]:
    """Units in the row under the headings, and how many rows they take."""
    if not rows:
        return {}, 0
    units = {i: _at(rows[0], i) for i in names if understand(_at(rows[0], i))}
    is_row = bool(units) and not any(is_reading(_at(rows[0], i)) for i in names)
    return (units, 1) if is_row else ({}, 0)


def _is_parameter(cell: str, catalogue: Catalogue) -> bool:
    cell = cell.strip()
    return (
        bool(cell)
        and not taken_apart(cell, date.max)
        and bool(read_name(cell, catalogue).parameter)
    )


def _at(row: Cells, index: int) -> str:
    return row[index].strip() if index < len(row) else ""
