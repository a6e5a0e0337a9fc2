"""Tables with a column for every parameter or for every date, unfolded to one result a row."""

from collections.abc import Sequence
from datetime import date

from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import Table, told
from wellbook.intake.words.dates import taken_apart
from wellbook.intake.words.headings import role_of, roles_of
from wellbook.intake.words.names import read_name
from wellbook.intake.words.preamble import Facts, facts_in
from wellbook.intake.words.roles import Role
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue

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
    days = [kept[role] for role in (Role.DATE, Role.SOME_DATE) if role in kept]
    for number, row in filled:
        if days and not any(taken_apart(_at(row, i), today) for i in days):
            if any(is_reading(_at(row, i)) for i in names):
                table.undated.append((number, next((_at(row, i) for i in days if _at(row, i)), "")))
            continue
        shared = [_at(row, kept[role]) for role in kept]
        for i in names:
            if _at(row, i):
                table.rows.append([*shared, heading[i].strip(), units.get(i, ""), _at(row, i)])
                table.numbers.append(number)
    return table if table.rows else None


def _by_sample(
    sheet: Sheet, index: int, roles: list[Role | None], catalogue: Catalogue, today: date
) -> Table | None:
    """Headings are dates, sampling points or samples, every row is a parameter."""
    heading = sheet.rows[index]
    below = list(enumerate(sheet.rows[index + 1 :], index + 2))
    name = _name_column(roles, [row for _, row in below], catalogue)
    own = [i for i, role in enumerate(roles) if role is None and heading[i].strip() and i != name]
    dated = [i for i in own if taken_apart(heading[i], today)]
    if name is None or not (dated or _are_samples(own, below, name, catalogue)):
        return None
    # Rows such as `Date collected` tell about the sample of their column.
    told_below = {role_of(_at(row, name)): row for _, row in reversed(below)}
    about = {role: told_below[role] for role in _SAMPLE if role in told_below}
    number_or_point = Role.NUMBER if Role.POINT in about else Role.POINT
    told_apart = Role.DATE if dated else number_or_point
    about.pop(told_apart, None)
    kept = [r for r in (Role.UNIT, Role.METHOD, Role.FRACTION, Role.BASIS) if r in roles]
    table = _table(sheet, [told_apart, *about, *kept, Role.NAME, Role.RESULT])
    for i in dated or own:
        shared = [heading[i].strip(), *(_at(row, i) for row in about.values())]
        for number, row in below:
            if _at(row, name) and _at(row, i) and role_of(_at(row, name)) not in _SAMPLE:
                others = [_at(row, roles.index(role)) for role in kept]
                table.rows.append([*shared, *others, _at(row, name), _at(row, i)])
                table.numbers.append(number)
    return table if table.rows else None


def _name_column(
    roles: list[Role | None], rows: Sequence[Cells], catalogue: Catalogue
) -> int | None:
    """The column of names; its heading may be left blank in the corner of the table."""
    if Role.NAME in roles:
        return roles.index(Role.NAME)
    if not roles or roles[0] is not None:
        return None
    cells = [_at(row, 0) for row in rows if _at(row, 0)]
    known = sum(_is_parameter(cell, catalogue) for cell in cells)
    return 0 if known > 1 and known * 2 >= len(cells) else None


def _are_samples(
    own: list[int], below: Sequence[tuple[int, Cells]], name: int, catalogue: Catalogue
) -> bool:
    """Whether two or more columns without a telling heading hold readings of known parameters."""
    known = [row for _, row in below if _is_parameter(_at(row, name), catalogue)]
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
