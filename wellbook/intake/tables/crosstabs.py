"""Tables with a column for every parameter, unfolded to one result a row."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

from wellbook.intake.files.sheets import Sheet
from wellbook.intake.tables.by_sample import by_sample
from wellbook.intake.tables.cells import (
    SAMPLE,
    SEVERAL,
    asks_presence,
    at,
    is_figure,
    is_parameter,
    joined,
    rows_of_words,
    unfolded_table,
    whole_day,
    why_not,
    with_a_day,
    without_names,
)
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import NotTaken, Table, told
from wellbook.intake.words.asides import aside, is_care, is_number, is_place
from wellbook.intake.words.dates import tells_day
from wellbook.intake.words.doubts import near_name
from wellbook.intake.words.headings import role_of, role_of_column, roles_of
from wellbook.intake.words.lab_words import SIGNS, is_fine, is_nothing, of_sign, says_some
from wellbook.intake.words.names import apart_from_stage
from wellbook.intake.words.preamble import (
    OF_A_KIND,
    Facts,
    facts_in,
    says_a_fact,
    stands_alone,
)
from wellbook.intake.words.remarks import is_kept
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded

_TOP = 60  # rows among which the heading is looked for
_UNDATED = N_("its row has no day of sampling")
_PAIR = 2  # cells of a word and what it tells
_ABOVE = 2  # rows above a further heading that may tell about its samples
_HEADS = 6  # rows below a heading among which units are looked for
_LEAST_FILLED = 0.5  # share of readings in a column whose heading no list has; our own choice


def unfolded(
    sheet: Sheet, catalogue: Catalogue, today: date, told_columns: dict[str, bool]
) -> list[Table]:
    """The tables of a sheet, one result a row; none if the sheet has no such table.

    Below the first one others may stand whose headings are parameters.

    Args:
        sheet: The sheet.
        catalogue: To know a parameter's name.
        today: No date after it is a fact.
        told_columns: Headings of which a person said that they are samples of their water, or not.
    """
    others = _headings(sheet, catalogue)
    first = replace(sheet, rows=sheet.rows[: others[1]]) if len(others) > 1 else sheet
    table = _first(first, catalogue, today, told_columns)
    if table is None:
        return []
    found = [table]
    for start, end in pairwise((*others[1:], len(sheet.rows))):
        part = replace(sheet, rows=sheet.rows[:end])
        more = _by_parameter(part, start, roles_of(sheet.rows[start]), catalogue, today)
        if more:
            above = (row for row in sheet.rows[start - _ABOVE : start] if says_a_fact(at(row, 0)))
            own = {role: text for row in above for role, text in facts_in(row, today).items()}
            more.facts = {**table.facts, **own}
            found.append(more)
    _say_places(found, [sheet.rows[max(start - _ABOVE, 0) : start] for start in others], today)
    return found


def _say_places(tables: list[Table], above: list[list[list[str]]], today: date) -> None:
    """Take in the place that stands alone above each of several tables, such as `Barn well`."""
    titles = [stands_alone(rows, today).get(Role.POINT, "") for rows in above]
    if len(tables) > 1 and len(titles) == len(tables) and all(titles):
        for table, title in zip(tables, titles, strict=True):
            table.facts = {Role.POINT: title, **table.facts}


def _headings(sheet: Sheet, catalogue: Catalogue) -> list[int]:
    """Rows that begin with a word for a day and have parameters beside it."""
    return [
        index
        for index in rows_of_words(sheet)
        if with_a_day(roles_of(sheet.rows[index]))[:1] in ([Role.DATE], [Role.SOME_DATE])
        and any(is_parameter(cell, catalogue) for cell in sheet.rows[index][1:])
    ]


def _first(
    sheet: Sheet, catalogue: Catalogue, today: date, told_columns: dict[str, bool]
) -> Table | None:
    """The first such table of a sheet."""
    facts: Facts = {}
    lines = range(min(_TOP, len(sheet.rows)))
    for index in [i for i in lines if not _are_titles_of_groups(sheet.rows, i, catalogue)]:
        row = sheet.rows[index]
        roles = roles_of(row)
        if _is_plain_heading(roles):
            heading = _places_below(sheet, index, roles, today)
            if not heading:
                return None
            rows = [*sheet.rows[: index + 1], heading, *sheet.rows[index + 2 :]]
            sheet, roles = replace(sheet, rows=rows), roles_of(heading)
            table = by_sample(sheet, index + 1, roles, catalogue, (today, told_columns))
            if table:
                table.facts = facts
            return table
        if not any(is_figure(cell) for cell in row if not tells_day(cell, today)):
            table = _by_parameter(sheet, index, roles, catalogue, today) or by_sample(
                sheet, index, roles, catalogue, (today, told_columns)
            )
            if table and not _has_plain_heading(sheet, index):
                if Role.POINT in facts and roles[0] is None and sum(map(bool, row)) == _PAIR:
                    table.columns.pop(Role.POINT, None)  # `Type of supply`, `Private well`
                table.facts = facts
                return table
        if not _has_several_days(row, today):
            for role, value in facts_in(row, today).items():
                facts.setdefault(role, value)
    return None


def _are_titles_of_groups(rows: list[list[str]], index: int, catalogue: Catalogue) -> bool:
    """Whether a line tells groups of the parameters below it, as `Metals (µg/L)` does."""
    below = rows[index + 1] if index + 1 < len(rows) else []
    if at(rows[index], 0) or sum(map(bool, rows[index])) < 2:  # noqa: PLR2004
        return False
    if not {Role.DATE, Role.SOME_DATE} & set(roles_of(below)):
        return False
    return sum(is_parameter(cell, catalogue) for cell in below) >= SEVERAL and not any(
        is_parameter(cell, catalogue) or is_reading(cell) for cell in rows[index]
    )


def _has_several_days(row: list[str], today: date) -> bool:
    """Whether a line such as `Sampled` tells the days of several samples."""
    days = {cell.strip() for cell in row[1:] if cell.strip() and tells_day(cell, today)}
    return len(days) > 1 and role_of(at(row, 0)) in {Role.DATE, Role.SOME_DATE}


def _places_below(
    sheet: Sheet, index: int, roles: list[Role | None], today: date
) -> list[str] | None:
    """A heading whose word for the results has the places or days of several below it."""
    row = sheet.rows[index]
    below = sheet.rows[index + 1] if index + 1 < len(sheet.rows) else []
    under = [i for i, cell in enumerate(below) if cell.strip()]
    if len(under) < 2 or any(at(row, i) and roles[i] is not Role.RESULT for i in under):  # noqa: PLR2004
        return None
    if not all(is_place(at(below, i)) or is_number(at(below, i)) or tells_day(at(below, i), today)
               for i in under):  # fmt: skip
        return None
    width = max(len(row), len(below))
    return [at(below, i) or (at(row, i) if i not in under else "") for i in range(width)]


def _is_plain_heading(roles: list[Role | None]) -> bool:
    return Role.RESULT in roles and bool({Role.NAME, Role.CODE} & told(roles))


def _has_plain_heading(sheet: Sheet, index: int) -> bool:
    """Whether the heading of a plain table follows, so that this row was only one of facts."""
    below = sheet.rows[index + 1] if index + 1 < len(sheet.rows) else []
    both = joined(sheet.rows[index], below)
    is_whole = Role.RESULT in roles_of(below) and _is_plain_heading(roles_of(both))
    return is_whole or any(_is_plain_heading(roles_of(one)) for one in sheet.rows[index + 1 : _TOP])


def _by_parameter(
    sheet: Sheet, index: int, roles: list[Role | None], catalogue: Catalogue, today: date
) -> Table | None:
    """Headings are parameters, every row is a sample."""
    heading, stages = _stages(sheet.rows[index], catalogue)
    named = [i for i, cell in enumerate(heading) if is_parameter(cell, catalogue)]
    titles = {} if stages or len(named) < 2 else _titles(sheet.rows, index, named)  # noqa: PLR2004
    stages = stages or {i: title for i, title in titles.items() if not aside(title)}
    names = [i for i in named if not aside(titles.get(i, ""))]
    roles = without_names((roles, heading), names, sheet.rows[index + 1 :], catalogue)
    if not names or Role.NAME in roles:
        return None
    roles = with_a_day(roles)
    kept = _of_samples(roles, names, sheet.rows[index + 1 :])
    rows = list(enumerate(sheet.rows[index + 1 :], index + 1))
    units, skip = _units_row([row for _, row in rows[:1]], names)
    units = units or _units_below([row for _, row in rows[1:_HEADS]], names)
    if not kept and rows and (skip or not any(at(rows[0][1], i) for i in names)):
        heading, kept = _second_line(heading, rows[0][1])
        skip = 1 if kept else skip
    filled = [(number, row) for number, row in rows[skip:] if any(row)]
    kept = kept or _days_unnamed(heading, [row for _, row in filled], today)
    results = sum(is_reading(at(row, i)) for _, row in filled for i in names)
    if not kept or not results:
        return None
    kinds = {r: roles.index(r) for r in OF_A_KIND if r in roles and roles.index(r) not in names}
    kept = {**kept, **{r: i for r, i in kinds.items() if i not in kept.values()}}
    dated = [kept[role] for role in (Role.DATE, Role.SOME_DATE) if role in kept]
    if len(names) < 2 and not _is_log([row for _, row in filled], dated, today):  # noqa: PLR2004
        return None  # one name alone may stand anywhere
    by_stage = [Role.POINT] if stages and Role.POINT not in kept else []
    notes = _notes_by_name(roles, names, filled)
    by_note = [Role.NOTE] if notes else []
    table = unfolded_table(sheet, [*kept, *by_stage, *by_note, Role.NAME, Role.UNIT, Role.RESULT])
    table.heading = heading
    loose = [i for i in range(len(heading)) if i not in named and i not in kept.values()]
    unknown = [
        i
        for i in loose
        if is_care(heading[i])
        or _holds_results(heading[i], i, filled, catalogue)
        or (asks_presence(heading[i], catalogue) and any(_answers(at(row, i)) for _, row in filled))
    ]
    left = {*loose, *named} - {*names, *unknown}
    germs = (i for i in (*names, *unknown) if asks_presence(heading[i], catalogue))
    signs = (i for i in germs if any(of_sign(at(row, i)) for _, row in filled))
    units = {**units, **dict.fromkeys(signs, SIGNS)}
    said = [titles.get(i, cell) for i, cell in enumerate(heading)]
    _say_not_taken(table, said, [i for i in range(len(said)) if i in left], filled)
    for number, row in filled:
        if dated and not any(tells_day(at(row, i), today) for i in dated):
            if any(is_reading(at(row, i)) for i in names):
                words = next((at(row, i) for i in dated if at(row, i)), "")
                _say_undated(table, (number, row), sorted([*names, *unknown]), words)
            continue
        shared = [at(row, kept[role]) for role in kept]
        for i in sorted([*names, *unknown]):
            if at(row, i):
                drawn = [*shared, *(stages.get(i, "") for _role in by_stage)]
                drawn += [at(row, notes[i]) if i in notes else "" for _role in by_note]
                table.rows.append([*drawn, heading[i].strip(), units.get(i, ""), at(row, i)])
                table.indexes.append(number)
                table.cells.append(i)
    return table if table.rows else None


def _say_undated(table: Table, line: tuple[int, list[str]], columns: list[int], words: str) -> None:
    """List the figures of a row without a day of sampling; the words stand where it would."""
    number, row = line
    table.undated.append((number, words))
    table.not_taken += [
        NotTaken(at(row, i), _(_UNDATED), table.source.place(number, i))
        for i in columns
        if is_figure(at(row, i))
    ]


def _second_line(heading: list[str], below: list[str]) -> tuple[list[str], dict[Role, int]]:
    """A heading of two lines, with what the second one says of the samples, by its columns."""
    second = roles_of(below)
    kept = {
        role: i
        for i, role in reversed(list(enumerate(second)))
        if role in SAMPLE and not at(heading, i)
    }
    width = max(len(heading), len(second))
    whole = [at(heading, i) or (at(below, i) if i in kept.values() else "") for i in range(width)]
    return whole, kept


def _notes_by_name(
    roles: list[Role | None], names: list[int], rows: list[tuple[int, list[str]]]
) -> dict[int, int]:
    """The column of marks for each column of results: the one right behind it, or one for all.

    One for all holds for a whole sample, as where it was held too long; a mark that says of a
    figure that nothing was detected does not.
    """
    columns = [
        i
        for i, role in enumerate(roles)
        if role in {Role.NOTE, Role.QUALIFIER} and any(is_kept(at(row, i)) for _, row in rows)
    ]
    if len(columns) == 1:
        is_open = len(names) > 1 and any("U" in at(row, columns[0]) for _, row in rows)
        return {} if is_open else dict.fromkeys(names, columns[0])
    return {i: i + 1 for i in names if i + 1 in columns}


def _of_samples(
    roles: list[Role | None], names: list[int], rows: list[list[str]]
) -> dict[Role, int]:
    """The columns that tell of the sample of a row; what it is called is its point."""
    free = [(role, i) for i, role in enumerate(roles) if i not in names]
    kept = {role: i for role, i in reversed(free) if role in SAMPLE} | whole_day(free, rows)
    own = next((i for role, i in free if role is Role.CLIENT_NUMBER), None)
    if own is None or not kept or {Role.POINT, Role.WELL} & kept.keys():
        return kept
    are_counted = all(at(row, own).isdigit() for row in rows if at(row, own))
    return kept if are_counted else {**kept, Role.POINT: own}


def _stages(heading: list[str], catalogue: Catalogue) -> tuple[list[str], dict[int, str]]:
    """A heading without words such as `before`, and those words by column.

    They are taken off where two columns of one parameter would be alike without them.
    """
    apart = [apart_from_stage(cell.strip()) for cell in heading]
    stages = {
        i: stage for i, (name, stage) in enumerate(apart) if stage and is_parameter(name, catalogue)
    }
    names = [apart[i][0] for i in stages]
    if len(set(names)) == len(names):
        return heading, {}
    return [apart[i][0] if i in stages else cell for i, cell in enumerate(heading)], stages


def _titles(rows: list[list[str]], index: int, named: list[int]) -> dict[int, str]:
    """The titles in the line above by column, where they tell columns of the same name apart.

    Such as `Our well` and `Neighbour's well`, each over a column of nitrate and one of iron.
    """
    above = rows[index - 1] if index else []
    titles: dict[int, str] = {}
    title = ""
    for i in range(max(named) + 1):
        title = at(above, i) or title
        titles[i] = title
    names = [folded(at(rows[index], i)) for i in named]
    told = {(titles[i], name) for i, name in zip(named, names, strict=True)}
    is_needed = len(set(names)) < len(names) == len(told)
    return {i: titles[i] for i in named} if is_needed and all(titles[i] for i in named) else {}


def _days_unnamed(heading: list[str], rows: list[list[str]], today: date) -> dict[Role, int]:
    """A first column of days without a word over it, and one of places beside it."""
    if at(heading, 0) or not _is_log(rows, [0], today):
        return {}
    places = [at(row, 1) for row in rows if tells_day(at(row, 0), today)]
    is_of_places = not at(heading, 1) and all(is_place(text) for text in places)
    return {Role.SOME_DATE: 0, **({Role.POINT: 1} if is_of_places else {})}


def _is_log(rows: list[list[str]], dated: list[int], today: date) -> bool:
    """Whether most rows begin with a day, as in a log of one or two things."""
    days = sum(any(tells_day(at(row, i), today) for i in dated) for row in rows)
    return days > 1 and days * 2 > len(rows)


def _holds_results(
    heading: str, column: int, rows: list[tuple[int, list[str]]], catalogue: Catalogue
) -> bool:
    """Whether a column under a name that no list has holds readings, as those beside it do."""
    if not heading.strip() or role_of_column(heading):
        return False
    cells = [at(row, column) for _, row in rows if at(row, column)]
    if all(is_fine(cell) or _answers(cell) for cell in cells) and not near_name(heading, catalogue):
        return False  # such as `Leak: no`
    return sum(map(is_reading, cells)) >= _LEAST_FILLED * len(cells)


def _answers(text: str) -> bool:
    """Whether a cell says `yes` or `no`, or `+`."""
    return says_some(text) is not None or bool(of_sign(text))


def _say_not_taken(
    table: Table, heading: list[str], columns: list[int], rows: list[tuple[int, list[str]]]
) -> None:
    for i in columns:
        why, is_aside = why_not(heading[i])
        if is_aside and role_of(heading[i]) is Role.NOTE:
            continue
        for number, row in rows:
            text = at(row, i)
            if is_figure(text) or (not is_aside and (is_reading(text) or _answers(text))):
                place = table.source.place(number, i)
                table.not_taken.append(NotTaken(at(row, i), why, place, is_aside))


def _units_below(rows: list[list[str]], names: list[int]) -> dict[int, str]:
    """Units in a row further down, below one of methods, say."""
    return next(filter(None, (_units_row([row], names)[0] for row in rows)), {})


def _units_row(rows: list[list[str]], names: list[int]) -> tuple[dict[int, str], int]:
    """Units in the row under the headings, and how many rows they take."""
    if not rows:
        return {}, 0
    units = {i: at(rows[0], i) for i in names if understand(at(rows[0], i))}
    cells = [at(rows[0], i) for i in names]
    is_row = bool(units) and not any(is_reading(one) and not is_nothing(one) for one in cells)
    return (units, 1) if is_row else ({}, 0)
