"""Tables with a column for every sample, every date or every point, and a row for a parameter.

A column is a sample only by evidence: a day, a point or a number in its heading or in a row of
its own, or because a person says so. Words such as `Health`, `Goal` or `Last year` are none.
"""

import re
from collections.abc import Sequence
from datetime import date

from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.tables.cells import (
    SAMPLE,
    are_parameters,
    asks_presence,
    at,
    day_in,
    is_counter,
    is_figure,
    is_parameter,
    label_of,
    unfolded_table,
    whole_days,
    why_not,
    with_a_day,
)
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import NotTaken, Table
from wellbook.intake.words.asides import UPKEEP, aside, is_care, is_number, is_place
from wellbook.intake.words.dates import taken_apart
from wellbook.intake.words.headings import role_of, role_of_column, roles_of
from wellbook.intake.words.lab_words import is_nothing, meant_by, respelled_figure, says_some
from wellbook.intake.words.letterheads import is_letterhead
from wellbook.intake.words.names import read_draw
from wellbook.intake.words.preamble import OF_A_KIND
from wellbook.intake.words.roles import Role
from wellbook.support.translation import _
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded, normal_name

_KEPT = (Role.UNIT, Role.METHOD, Role.FRACTION, Role.BASIS)
_MOST_ODD = 0.4  # share of cells of a sample's column that may be no readings; our own choice
_MAY_BE_RESULTS = {None, Role.CLIENT_NUMBER, Role.POINT, Role.WELL}
_ABOUT_A_SAMPLE = {Role.DATE, Role.SOME_DATE, Role.POINT, Role.NUMBER}
# Such a column tells about the results beside it, and is no sample whatever stands in it.
_OF_A_RESULT = {
    *(Role.REPORTING_LIMIT, Role.DETECTION_LIMIT, Role.LIMIT_UNIT, Role.LIMIT_TYPE),
    *(Role.QUALIFIER, Role.SIGN, Role.ANALYSED, Role.CAS, Role.CODE),
}
# What columns behind the one of a sample tell about its results.
_TOLD_BESIDE = (Role.REPORTING_LIMIT, Role.DETECTION_LIMIT, Role.QUALIFIER, Role.NOTE)
_MAY_BEGIN = {None, *_ABOUT_A_SAMPLE}  # what may stand over the names
# Rows of such a table that tell about its results and hold none.
_BESIDE = {
    *(Role.NOTE, Role.METHOD, Role.UNIT, Role.SAMPLER, Role.RECEIVED, Role.REPORTED),
    *(Role.ANALYSED, Role.CLIENT_NUMBER, Role.REPORT_NUMBER, Role.PURPOSE, Role.TEMPERATURE),
}
_NO_READINGS = {*SAMPLE, *_BESIDE, *OF_A_KIND}
_OURS = re.compile(r"^(?:your|my|our) (?:sample|water|well|tap|home|house)$")
_OUR_WATER = re.compile(r"\s*(?:your|my|our) (?:sample|water)\s*$")  # and no place
_NEAR = 6  # rows below a heading without a word over the names
_TOP = 60  # rows below in which a heading over the names is looked for
Rows = Sequence[tuple[int, Cells]]


def by_sample(
    sheet: Sheet,
    index: int,
    roles: list[Role | None],
    catalogue: Catalogue,
    told: tuple[date, dict[str, bool]],
) -> Table | None:
    """The table under a heading whose columns are samples; None if there is none.

    Args:
        sheet: The sheet.
        index: The heading's row, from 0.
        roles: What the cells of the heading say.
        catalogue: To know a parameter's name.
        told: The day after which no date lies, and what a person said of columns.
    """
    today, told_columns = told
    heading = sheet.rows[index]
    is_plain = roles.count(Role.RESULT) == 1 and _OF_A_RESULT & set(roles)
    if not any(heading) or is_plain or _is_of_mail(sheet.rows, index):
        return None
    below = list(enumerate(sheet.rows[index + 1 :], index + 1))
    roles = _without_result_over_names(roles, below, catalogue)
    is_tested = _tells_tested(roles, sheet)
    roles = [Role.SOME_DATE, *roles[1:]] if is_tested else roles
    name = _name_column((roles, heading), below, catalogue)
    first = roles[0] if roles else None
    if name is None or (first in _ABOUT_A_SAMPLE and _stands_again(first, sheet)):
        return None
    own = [
        i
        for i, role in enumerate(roles)
        if i != name and heading[i].strip() and role not in (*_KEPT, Role.NOTE)
        and says_some(heading[i]) is None
        and _holds_figures(i, below, name) and not _is_told(roles, i, name)
    ]  # fmt: skip
    lines = [*_lines_above(sheet, index, name, own), *below]
    told_below = _about(lines, (name, own), heading)
    days = whole_days({i: day_in(heading[i], today) for i in own}, told_below, today)
    dated = [i for i in own if days[i][0] and not aside(days[i][1])]
    if not dated and not any(is_parameter(at(row, name), catalogue) for _, row in below):
        return None
    about = {**_unnamed(sheet.rows, index, name, own), **told_below}
    said = {normal_name(text): is_water for text, is_water in told_columns.items()}
    samples = dated or [i for i in own if _is_sample(heading[i], roles[i], i, about)]
    samples = [i for i in own if said.get(normal_name(heading[i]), i in samples)]
    is_long = any(role in roles for role in SAMPLE)  # each row tells its own sample
    guessed = "" if samples or is_long else _only_one(heading, roles, own, said)
    samples = samples or [i for i in own if guessed and heading[i].strip() == guessed]
    if not samples and len([i for i in own if roles[i] is None]) < 2:  # noqa: PLR2004
        return None
    told_apart = [Role.NUMBER if Role.POINT in about or roles[0] is Role.NUMBER else Role.POINT]
    if dated:
        has_places = Role.POINT not in about and any(days[i][1] for i in dated)
        day = Role.SOME_DATE if is_tested else Role.DATE
        told_apart = [day, Role.POINT][: 1 + has_places]
    kinds = _about(lines, (name, own), heading, OF_A_KIND)
    about = {role: row for role, row in about.items() if role not in told_apart} | kinds
    roles = _with_units(roles, heading, below, name)
    kept = [role for role in _KEPT if role in roles]
    beside = _beside_samples((roles, heading), below, (name, samples))
    more = [role for role in _TOLD_BESIDE if any(role in one for one in beside.values())]
    table = unfolded_table(sheet, [*told_apart, *about, *kept, *more, Role.NAME, Role.RESULT])
    table.guessed, table.heading = guessed, heading
    for i in samples:
        is_bare = bool(guessed) or (len(samples) == 1 and _names_no_point(heading[i], roles[i]))
        title = days[i] if dated else ("" if is_bare else heading[i].strip(),)
        shared = [*title[: len(told_apart)], *(at(row, i) for row in about.values())]
        for number, row in below:
            others = [at(row, roles.index(role)) for role in kept]
            others += [at(row, beside[i][role]) if role in beside[i] else "" for role in more]
            answers = says_some(at(row, i)) is not None
            is_answer = answers and asks_presence(at(row, name), catalogue)
            _take(table, (number, row, i, name), [*shared, *others], is_answer=is_answer)
    used = {column for one in beside.values() for column in one.values()}
    left = [i for i in own if i not in samples and i not in used]
    _say_not_taken(table, heading, left, (below, name))
    return table if table.rows or table.not_taken else None


def _is_of_mail(rows: list[Cells], index: int) -> bool:
    """Whether a row is of the head of a mail: `From`, or a pair close below it, as its day."""
    is_pair = sum(map(bool, rows[index])) == 2  # noqa: PLR2004
    above = rows[max(index - 2, 0) : index] if is_pair else []
    return is_letterhead(rows[index]) or any(map(is_letterhead, above))


def _names_no_point(heading: str, role: Role | None) -> bool:
    return role is Role.RESULT or bool(_OUR_WATER.match(folded(heading)))


def _with_units(
    roles: list[Role | None], heading: Cells, below: Rows, name: int
) -> list[Role | None]:
    """The roles with the column of units, where it has no heading."""
    width = max((len(row) for _, row in below), default=0)
    for i in range(name + 1, width):
        cells = [at(row, i) for _, row in below if at(row, i) and at(row, name)]
        units = sum(not cell.isdigit() and understand(cell) is not None for cell in cells)
        if Role.UNIT not in roles and not at(heading, i) and units > 1 and units * 2 > len(cells):
            whole = [*roles, *[None] * (i + 1 - len(roles))]
            return [*whole[:i], Role.UNIT, *whole[i + 1 :]]
    return roles


def _take(
    table: Table, cell: tuple[int, Cells, int, int], beside: list[str], *, is_answer: bool
) -> None:
    number, row, column, name = cell
    text = at(row, column)
    role = role_of(at(row, name))
    if not at(row, name) or not text or role in (*SAMPLE, *OF_A_KIND):
        return
    if role is Role.NAME and not is_reading(text):
        return  # what a sample is called
    if meant_by(at(row, name)) == "not detected" and not any(map(str.isdigit, text)):
        return  # a line that says what a mark means
    if not is_reading(text) and is_letterhead([at(row, name), text]):
        return  # a footer, such as `Page 1`
    if role in _BESIDE or aside(at(row, name)) == UPKEEP:
        if any(map(str.isdigit, text)):
            why, place = why_not(at(row, name))[0], table.source.place(number, column)
            table.not_taken.append(NotTaken(text, why, place, is_aside=True))
        return
    is_told = is_reading(text) or is_answer or any(map(str.isdigit, text))
    if is_nothing(text) or not (is_told or is_care(at(row, name))):
        why = _("nothing was measured there, or it is no figure")
        place = table.source.place(number, column)
        table.not_taken.append(NotTaken(text, why, place, is_aside=is_nothing(text)))
        return
    table.rows.append([*beside, at(row, name), text])
    table.indexes.append(number)
    table.cells.append(column)


def _say_not_taken(
    table: Table, heading: Cells, columns: list[int], found: tuple[Rows, int]
) -> None:
    below, name = found
    for i in columns:
        why, is_aside = why_not(heading[i])
        if not is_aside:
            why = _("“{heading}”: nothing tells whether this column is your water").format(
                heading=heading[i].strip()
            )
        for number, row in below:
            if is_figure(at(row, i)) and role_of(at(row, name)) not in SAMPLE:
                place, column = (
                    table.source.place(number, i),
                    "" if is_aside else heading[i].strip(),
                )
                table.not_taken.append(NotTaken(at(row, i), why, place, is_aside, column))


def _about(
    below: Rows, columns: tuple[int, list[int]], heading: Cells, of: Sequence[Role] = SAMPLE
) -> dict[Role, Cells]:
    """Rows such as `Date collected` tell about the sample of their column.

    So does one such as `Sample description`, for its point, where the heading names no places.
    """
    name, own = columns
    rows = {role_of(label_of(row, name, own)): row for _, row in reversed(below)}
    if not any(is_place(heading[i]) for i in own):
        for called in (Role.CLIENT_NUMBER, Role.NAME):  # such as `Description`
            if called in rows and not any(is_reading(at(rows[called], i)) for i in own):
                rows.setdefault(Role.POINT, rows[called])
    return {role: rows[role] for role in of if role in rows and any(at(rows[role], i) for i in own)}


def _beside_samples(
    told: tuple[list[Role | None], Cells], below: Rows, columns: tuple[int, list[int]]
) -> dict[int, dict[Role, int]]:
    """Columns such as `RL` right behind the one of each sample, by their roles.

    The words over them may stand in the row below the heading. One alone for a limit is of all
    samples.
    """
    (roles, heading), (name, samples) = told, columns
    second = below[0][1] if below and not at(below[0][1], name) else []
    words = [
        roles[i] if at(heading, i) else role_of(at(second, i))
        for i in range(max(len(heading), len(second)))
    ]
    found: dict[int, dict[Role, int]] = {i: {} for i in samples}
    for i in samples:
        for column in range(i + 1, len(words)):
            role = words[column]
            if role not in _TOLD_BESIDE or role in found[i]:
                break
            found[i][role] = column
    for role in (Role.REPORTING_LIMIT, Role.DETECTION_LIMIT):
        if words.count(role) == 1:
            found = {i: {**one, role: words.index(role)} for i, one in found.items()}
    return found


def _unnamed(rows: list[Cells], index: int, name: int, own: list[int]) -> dict[Role, Cells]:
    """Rows next to a heading, without a word before them, with the day or place of each sample."""
    found: dict[Role, Cells] = {}
    for k in (index - 1, index + 1):
        row = rows[k] if 0 <= k < len(rows) else []
        cells = [at(row, i) for i in own if at(row, i)]
        if at(row, name) or len(cells) < min(2, len(own)):
            continue
        if all(taken_apart(cell, date.max) for cell in cells):
            found[Role.DATE] = row
        elif all(is_place(cell) or is_number(cell) for cell in cells):
            found[Role.POINT] = row
    return found


def _lines_above(sheet: Sheet, index: int, name: int, own: list[int]) -> Rows:
    """Lines close above a heading that tell of its samples, such as the day of each."""
    start, told = index, (*SAMPLE, *OF_A_KIND, Role.CLIENT_NUMBER)
    while start and role_of(label_of(sheet.rows[start - 1], name, own)) in told:
        if sum(bool(at(sheet.rows[start - 1], i)) for i in own) < 2:  # noqa: PLR2004
            break
        start -= 1
    return list(enumerate(sheet.rows[start:index], start))


def _tells_tested(roles: list[Role | None], sheet: Sheet) -> bool:
    """Whether days stand behind `Date tested`, as in a household's own sheet, and behind no other.

    On which day the water was drawn is asked then.
    """
    if not roles or roles[0] is not Role.ANALYSED:
        return False
    words = [role_of(at(row, 0)) for row in sheet.rows]
    return words.count(Role.ANALYSED) == 1 and with_a_day(words) != words


def _stands_again(first: Role | None, sheet: Sheet) -> bool:
    """Whether a word such as `Sampled` stands before several lines, for a sample each."""
    return sum(role_of(at(row, 0)) is first for row in sheet.rows) > 1


def _has_names_below(below: Rows) -> bool:
    """Whether the heading over the names of what was measured comes further down."""
    return any(Role.NAME in roles_of(row) for _, row in below[:_TOP])


def _reaches_beyond(heading: Cells, below: Rows, name: int) -> bool:
    """Whether figures or units stand in columns of which a line such as `Sampled` says nothing."""
    named = [row for _, row in below if at(row, name)]
    width = max(map(len, named), default=0)
    blank = (i for i in range(name + 1, width) if not at(heading, i))
    return any(
        _holds_figures(i, below, name) or sum(bool(at(row, i)) for row in named) * 2 > len(named)
        for i in blank
    )


def _is_sample(heading: str, role: Role | None, column: int, about: dict[Role, Cells]) -> bool:
    """Whether something tells that a column is a sample of the household's water."""
    if read_draw(heading):  # such as `After 5 min flush`
        return True
    if aside(heading) or role in _OF_A_RESULT:
        return False
    if _OURS.match(folded(heading)):
        return True
    if any(at(row, column) for row in about.values()):
        return True
    if role is Role.RESULT or is_number(heading):
        return True
    return is_place(heading)


def _only_one(
    heading: Cells, roles: list[Role | None], own: list[int], said: dict[str, bool]
) -> str:
    """The heading of the one column that can be the results, where no other can."""
    left = [
        heading[i].strip()
        for i in own
        if role_of_column(heading[i]) in _MAY_BE_RESULTS and said.get(normal_name(heading[i]), True)
    ]
    return left[0] if len(left) == 1 and Role.RESULT not in roles else ""


def _without_result_over_names(
    roles: list[Role | None], below: Rows, catalogue: Catalogue
) -> list[Role | None]:
    """The roles, without that of results where such a word stands over names: `Measured (mg/L)`."""
    cells = [at(row, 0) for _, row in below if at(row, 0)]
    is_over_names = roles[0] is Role.RESULT and are_parameters(cells, catalogue)
    return [None, *roles[1:]] if is_over_names else roles


def _is_told(roles: list[Role | None], column: int, name: int) -> bool:
    """Whether a day is what the word to its left tells, as in a line of facts, and no heading."""
    before = column - 1
    return before > name and roles[before] in {Role.DATE, Role.SOME_DATE}


def _holds_figures(column: int, below: Rows, name: int) -> bool:
    """Whether most filled cells of a column are readings; a few odd ones don't matter."""
    cells = [
        at(row, column)
        for _, row in below
        if at(row, column) and at(row, name) and role_of(at(row, name)) not in _NO_READINGS
    ]
    if is_counter(cells):
        return False
    odd = sum(
        not (is_reading(cell) or respelled_figure(cell, decimal_comma=False)) for cell in cells
    )
    return bool(cells) and odd <= max(1, _MOST_ODD * len(cells)) and odd < len(cells)


def _name_column(
    told: tuple[list[Role | None], Cells], below: Rows, catalogue: Catalogue
) -> int | None:
    """The column of names; its heading may be left blank, or be a title of the household's.

    It may also be a line such as `Sampled`, with the day of each sample beside it, if no heading
    over the names comes further down and no figures stand in columns of which it says nothing.
    """
    roles, heading = told
    if Role.NAME in roles:
        return roles.index(Role.NAME)
    if not roles or roles[0] not in _MAY_BEGIN or is_parameter(heading[0], catalogue):
        return None
    if _has_names_below(below if roles[0] else below[:_NEAR]):
        return None
    is_pair = sum(map(bool, heading)) == 2  # noqa: PLR2004  a word and what it tells
    if (roles[0] or is_pair) and _reaches_beyond(heading, below, 0):
        return None
    cells = [at(row, 0) for _, row in below if at(row, 0) and not role_of(at(row, 0))]
    least = (
        1 if not heading[0].strip() and any(taken_apart(cell, date.max) for cell in heading) else 2
    )
    return 0 if are_parameters(cells, catalogue, least) else None
