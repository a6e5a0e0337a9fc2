"""Sheets that leave out what a reader sees: names in a title, and marks for `the same again`."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from wellbook.intake.files.sheets import Cells, Line, Sheet, alone
from wellbook.intake.tables.cells import at, begins_with_figures, is_parameter
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.words.dates import month_named, month_or_year, tells_day
from wellbook.intake.words.headings import role_of
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded

_DITTO = frozenset({'"', "''", "”", "“", "〃", "ditto", "do.", "dto.", "idem", '-"-', ",,", "id."})
_HEAD = ["Date", "Parameter", "Result"]
_FEWEST = 2  # lines of a day and its figure; fewer may be anything
_TITLE = 4  # words of a title
_TOP = 20  # rows among which names over columns are looked for
_NEAR = 3  # lines between a title and the first day


def with_dittos(sheet: Sheet) -> Sheet:
    """The sheet with what stands above each mark such as `"` in place of it."""
    if not any(map(_is_ditto, sheet.texts)):
        return sheet
    rows: list[Cells] = []
    for row in sheet.rows:
        above = rows[-1] if rows else []
        rows.append([at(above, i) if _is_ditto(cell) else cell for i, cell in enumerate(row)])
    return replace(sheet, rows=rows)


def _is_ditto(cell: str) -> bool:
    return cell.strip().casefold() in _DITTO


def with_titles(sheet: Sheet, catalogue: Catalogue) -> Sheet:
    """The sheet with each figure beside a day under a title named by that title.

    The title is a line such as `Nitrate (mg/L)` above, or the sheet's own name. Days may also be
    a month before the line and a year above the column.
    """
    runs = list(_runs(sheet, catalogue))
    if not runs:
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []
    done = 0
    for run in runs:
        for index in range(done, run.start):
            rows.append(sheet.rows[index])
            lines.append(sheet.line(index))
        if run.figures:
            rows.append(_HEAD)
            lines.append(sheet.line(run.start))
        for index, column, day in run.figures:
            rest = [cell for i, cell in enumerate(sheet.rows[index][2:], 2) if not run.is_grid]
            rows.append([day, run.title, at(sheet.rows[index], column), *rest])
            line = sheet.line(index)
            lines.append(replace(line, shift=line.shift + column - 2))
        done = run.end
    for index in range(done, len(sheet.rows)):
        rows.append(sheet.rows[index])
        lines.append(sheet.line(index))
    return replace(sheet, rows=rows, lines=tuple(lines))


@dataclass(frozen=True, slots=True)
class _Run:
    """Lines of days and figures under one title.

    Attributes:
        start: Its first line, from 0; a heading such as `date, value` is one of it.
        end: The line after its last.
        title: What was measured.
        figures: Line, column and day of each figure.
        is_grid: Whether months stand before the lines and years above the columns.
    """

    start: int
    end: int
    title: str
    figures: tuple[tuple[int, int, str], ...]
    is_grid: bool = False


def _runs(sheet: Sheet, catalogue: Catalogue) -> Iterator[_Run]:
    title = of_sheet = _title_of(sheet, catalogue)
    if not title and not any(_named(said, catalogue) for said in map(alone, sheet.rows) if said):
        return
    since, start = 0, -1
    figures: list[tuple[int, int, str]] = []
    for index, row in enumerate([*sheet.rows, []]):
        is_figure = (
            bool(title)
            and tells_day(at(row, 0), date.max, is_whole=True)
            and is_reading(at(row, 1))
        )
        if is_figure and not _is_named(row, catalogue):
            figures.append((index, 1, at(row, 0)))
            continue
        if len(figures) >= _FEWEST:
            yield _Run(start if start >= 0 else figures[0][0], index, title, tuple(figures))
        figures = []
        if not any(map(str.strip, row)):
            continue
        years = _years(row)
        if years and title and index - since <= _NEAR:
            grid = tuple(_grid(sheet.rows, index, years))
            if len(grid) >= _FEWEST:
                yield _Run(index, max(line for line, _c, _d in grid) + 1, title, grid, is_grid=True)
                title = ""
            continue
        start = index if _is_heading(row) else -1
        said = alone(row)
        named = _named(said, catalogue)
        if named:
            title, since = named, index
        elif start < 0 and not _is_note(said):
            title = of_sheet


def _title_of(sheet: Sheet, catalogue: Catalogue) -> str:
    """The sheet's name as title of all its figures; names over its columns say more than that."""
    title = _named(sheet.name, catalogue)
    return "" if title and any(_is_named(row, catalogue) for row in sheet.rows[:_TOP]) else title


def _is_named(row: Cells, catalogue: Catalogue) -> bool:
    return any(is_parameter(cell, catalogue) for cell in row[1:])


def _is_note(text: str) -> bool:
    """Whether a line alone is a remark, such as `pump replaced 2015`, rather than a title."""
    return any(map(str.isdigit, text)) or len(text.split()) > _TITLE


def _named(title: str, catalogue: Catalogue) -> str:
    """The title, if it names a parameter; one that can't be in a sheet's name is put back."""
    title = title.strip(" :*-=#").replace(" per ", "/")
    words = title.partition(" at the ")
    unit = words[2].rpartition(",")[2].strip() if "," in words[2] else ""
    title = f"{words[0]}, {unit}" if unit else words[0]
    return title if title and is_parameter(title, catalogue) else ""


def _is_heading(row: Cells) -> bool:
    """Whether a line is the heading of days and figures, without a column of names."""
    if begins_with_figures(row):
        return False
    roles = [role_of(cell) for cell in row if cell.strip()]
    return bool(roles) and roles[0] in {Role.DATE, Role.SOME_DATE} and Role.RESULT in roles[1:2]


def _years(row: Cells) -> dict[int, str]:
    """The years above the columns of a line that holds nothing else."""
    found: dict[int, str] = {}
    for index in range(1, len(row)):
        year = at(row, index).removesuffix(".0")
        if year and not year.isdigit():
            return {}  # at once: a file may have 100,000 rows
        if year:
            found[index] = year
    is_all = len(found) > 1 and all(map(month_or_year, found.values()))
    return found if is_all and not any(map(str.isdigit, at(row, 0))) else {}


def _grid(rows: list[Cells], head: int, years: dict[int, str]) -> Iterator[tuple[int, int, str]]:
    for index in range(head + 1, len(rows)):
        month = month_named(folded(at(rows[index], 0)).strip(" ."))
        if not month:
            return
        for column, year in years.items():
            if is_reading(at(rows[index], column)):
                yield index, column, f"{year}-{month:02}"
