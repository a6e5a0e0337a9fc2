"""What single cells of a table say, for those that have a column a parameter or a sample."""

from collections.abc import Sequence
from datetime import date

from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import Table
from wellbook.intake.words.asides import aside, is_place
from wellbook.intake.words.dates import (
    Printed,
    days_within,
    month_or_year,
    taken_apart,
    tells_day,
)
from wellbook.intake.words.doubts import means_germs
from wellbook.intake.words.headings import role_of, role_of_column, says_what_it_is_called
from wellbook.intake.words.names import read_name
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.values.catalogue import Catalogue

SAMPLE = (Role.DATE, Role.SOME_DATE, Role.TIME, Role.POINT, Role.WELL, Role.NUMBER, Role.LAB)
"""What is told about the sample of a column, or of a row."""

_AROUND_DAYS = " :*-–=#_~[]()"  # what stands around a day alone in its line
SEVERAL = 3  # headings that are parameters and can't all be there by chance
_SIGNS = " ()[]-–—:,;/@"
_OF_FIGURES = frozenset("0123456789<>")

UNKNOWN_COLUMN = N_("nothing tells what its column holds")
NO_HEADING = N_("its column has no heading")


def at(row: Cells, index: int) -> str:
    """The text of a cell; empty beyond the end of the row."""
    return row[index].strip() if index < len(row) else ""


def label_of(row: Cells, name: int, own: Sequence[int]) -> str:
    """The word before what a row tells of samples: over the names, or else right before them.

    Args:
        row: The row.
        name: The column of names.
        own: Columns of figures, which hold no such word.
    """
    first = next((i for i, cell in enumerate(row) if cell.strip()), name)
    return at(row, name) or ("" if first in own else at(row, first))


def joined(above: Cells, below: Cells) -> Cells:
    """The words of two rows that are one heading."""
    width = max(len(above), len(below))
    return [" ".join(filter(None, (at(above, i), at(below, i)))) for i in range(width)]


def is_over(rows: Sequence[Cells], index: int, column: int, heading: str) -> bool:
    """Whether a row, alone or with the one above or below, has a heading's words in a column."""
    above, words, below = (
        at(rows[i], column) if 0 <= i < len(rows) else "" for i in (index - 1, index, index + 1)
    )
    said = (words, f"{above} {words}", f"{words} {below}")
    return heading.casefold() in {text.strip().casefold() for text in said}


def with_a_day(roles: list[Role | None]) -> list[Role | None]:
    """A household's `Date tested` is the day on which it took the sample, as far as it tells."""
    if {Role.DATE, Role.SOME_DATE} & set(roles):
        return roles
    return [Role.SOME_DATE if role is Role.ANALYSED else role for role in roles]


def is_parameter(cell: str, catalogue: Catalogue) -> bool:
    """Whether a cell names something that is measured."""
    cell = cell.strip()
    return (
        bool(cell)
        and not taken_apart(cell, date.max)
        and bool(read_name(cell, catalogue).parameter)
    )


def are_parameters(cells: Sequence[str], catalogue: Catalogue, least: int = 2) -> bool:
    """Whether the filled cells of a column name parameters: the least and half of them."""
    known = sum(is_parameter(cell, catalogue) for cell in cells)
    return known >= least and known * 2 >= len(cells)


def asks_presence(cell: str, catalogue: Catalogue) -> bool:
    """Whether a cell names bacteria, of which `yes` and `no` tell something."""
    parameter = read_name(cell.strip(" ?"), catalogue).parameter
    return means_germs(cell) or (parameter is not None and parameter.scale == "presence")


def begins_with_figures(row: Cells) -> bool:
    """Whether a cell of a row begins as no word over a column does; told without much work."""
    return any(cell[:1] in _OF_FIGURES for cell in row if cell)


def rows_of_words(sheet: Sheet) -> list[int]:
    """Indexes of the rows none of whose cells begins with a figure, as those of a heading."""
    return sheet.rows_without(_OF_FIGURES)


def is_counter(cells: list[str]) -> bool:
    """Whether the cells of a column number its rows: 1, 2, 3."""
    numbers = [int(cell) for cell in cells if cell.isascii() and cell.isdigit()]
    is_whole = len(numbers) == len(cells) > 2  # noqa: PLR2004
    return is_whole and numbers == list(range(numbers[0], numbers[0] + len(cells)))


def is_figure(cell: str) -> bool:
    """Whether a cell holds a figure, or a word longer than a flag, as labs print for a result."""
    cell = cell.strip()
    has_digit = any(map(str.isdigit, cell))
    return is_reading(cell) and (has_digit or len(cell) > 3)  # noqa: PLR2004


def why_not(heading: str) -> tuple[str, bool]:
    """Why no results are made of a column, and whether it is understood as something else."""
    if not heading.strip():
        return _(NO_HEADING), False
    other = aside(heading)
    if other:
        return _("“{heading}”: {other}").format(heading=heading.strip(), other=_(other)), True
    if role_of_column(heading) is Role.RESULT:
        return _("“{heading}”: another column of results").format(heading=heading.strip()), False
    if role_of_column(heading):
        return _("“{heading}”: beside the results, not one").format(heading=heading.strip()), True
    why = _(UNKNOWN_COLUMN)
    return _("“{heading}”: {why}").format(heading=heading.strip(), why=why), False


def unfolded_table(sheet: Sheet, roles: list[Role]) -> Table:
    """A table to be filled with one result a row, its columns in the order of the roles."""
    return Table(sheet, {role: i for i, role in enumerate(roles)}, {})


def day_over(row: Cells) -> str:
    """What may be the day over the lines below: a line alone, perhaps with words beside it."""
    cells = [cell.strip() for cell in row if cell.strip()]
    are_words = all(not is_reading(c) and not any(map(str.isdigit, c)) for c in cells[1:])
    return cells[0].strip(_AROUND_DAYS) if cells and are_words else ""


def whole_day(columns: Sequence[tuple[Role | None, int]], rows: Sequence[Cells]) -> dict[Role, int]:
    """The column of whole days, where one of years or months stands beside it: `Year | Date`."""
    days = [i for role, i in columns if role is Role.SOME_DATE]
    if len(days) < 2:  # noqa: PLR2004
        return {}
    whole = {i: sum(taken_apart(at(row, i), date.max) is not None for row in rows) for i in days}
    return {Role.SOME_DATE: max(days, key=lambda i: whole[i])}


def is_day_alone(row: Cells, today: date) -> bool:
    """Whether a row holds a day alone, perhaps with words beside it."""
    text = day_over(row)
    return bool(text) and tells_day(text, today, is_whole=True)


def whole_days(
    days: dict[int, tuple[str, str]], about: dict[Role, Cells], today: date
) -> dict[int, tuple[str, str]]:
    """The days over columns, of which a row below can tell more, as where years stand over them.

    That is so if each day there lies in the month or year over it.
    """
    row = about.get(Role.DATE, about.get(Role.SOME_DATE, []))
    rough = {i: found for i, (text, _rest) in days.items() if (found := month_or_year(text))}
    whole = {i: taken_apart(at(row, i), today) for i in rough}
    is_each = all(
        day and day.year == rough[i].first.year and rough[i].month in {None, *_months(day)}
        for i, day in whole.items()
    )
    return {**days, **{i: (at(row, i), days[i][1]) for i in rough}} if is_each else days


def _months(day: Printed) -> set[int]:
    return {day.first, day.second} if day.is_open else {day.first}


def day_in(text: str, today: date) -> tuple[str, str]:
    """The day in a heading such as `Kitchen (03/12/2023)`, and the words beside it."""
    printed = taken_apart(text, today)
    if (printed and not printed.rest) or month_or_year(text):
        return text.strip(), ""
    spans = days_within(text, today)
    if len(spans) == 1:
        start, end = spans[0]
        rest = " ".join((text[:start] + " " + text[end:]).split()).strip(_SIGNS)
        return text[start:end], "" if role_of(rest) is Role.RESULT else rest
    return (text.strip(), "") if printed else ("", text.strip())


def without_names(
    told: tuple[list[Role | None], list[str]],
    names: list[int],
    rows: list[list[str]],
    catalogue: Catalogue,
) -> list[Role | None]:
    """The roles, without that of names where such a word stands over no names of parameters.

    `Bezeichnung` beside a column for each parameter heads places, and `What` what was done.
    """
    roles, headings = told
    if len(names) < SEVERAL or Role.RESULT in roles:
        return roles

    def settled(role: Role | None, i: int) -> Role | None:
        cells = [at(row, i) for row in rows if at(row, i)]
        if role is not Role.NAME or any(is_parameter(cell, catalogue) for cell in cells):
            return role
        are_places = Role.POINT not in roles and sum(map(is_place, cells)) * 2 > len(cells)
        is_called = says_what_it_is_called(headings[i]) and not any(map(is_reading, cells))
        return Role.POINT if are_places else Role.CLIENT_NUMBER if is_called else None

    return [settled(role, i) for i, role in enumerate(roles)]
