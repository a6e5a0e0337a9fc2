"""Figures of a plain table that stand in no column, or in no row, of which results are made."""

from collections.abc import Iterator

from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.tables.cells import at, is_figure, is_parameter, why_not
from wellbook.intake.tables.tables import NotTaken, Table
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

_MOST = 2_000  # rows of such a sheet that are looked at


def in_no_column(table: Table) -> Iterator[NotTaken]:
    """Every figure in a column without a meaning; of one that means something else its heading."""
    known = set(table.columns.values())
    width = max(map(len, table.rows), default=0)
    for column in range(width):
        if column in known:
            continue
        heading = at(table.heading, column)
        why, is_aside = why_not(heading)
        found = (
            (index, at(row, column))
            for index, row in zip(table.indexes, table.rows, strict=True)
            if is_figure(at(row, column))
        )
        for index, text in found:
            what = heading if is_aside else text
            yield NotTaken(what, why, table.source.place(index, column), is_aside)
            if is_aside:
                break


def loose(sheet: Sheet, index: int, row: Cells, result: int) -> list[NotTaken]:
    """The figure of a row below a heading that is neither a result nor a word beside the table."""
    text = at(row, result)
    if not is_figure(text) or not any(map(str.isalpha, "".join(row))):
        return []
    return [
        NotTaken(text, _("its row has no name of what was measured"), sheet.place(index, result))
    ]


def of_no_table(sheet: Sheet, catalogue: Catalogue) -> Iterator[NotTaken]:
    """Figures in rows that name a parameter, in a sheet in which no table was found."""
    for index, row in enumerate(sheet.rows[:_MOST]):
        name = next((i for i, cell in enumerate(row) if is_parameter(cell, catalogue)), None)
        if name is None:
            continue
        for column in range(name + 1, len(row)):
            if is_figure(row[column]):
                why = _("no table was found around it")
                yield NotTaken(row[column].strip(), why, sheet.place(index, column))


def left_aside(sheet: Sheet, index: int, column: int, heading: str) -> list[NotTaken]:
    """The figure of a row over which words say that it is no result, with the reason."""
    why, is_aside = why_not(heading)
    text = at(sheet.rows[index], column)
    return [NotTaken(text, why, sheet.place(index, column), is_aside)] if text else []


def too_wide(name: str, row: int, cells: int, width: int) -> Fault:
    """That a row has more cells than its table."""
    said = _(
        "{name} is damaged: row {index} has {n} cells where the table has "
        "{width}. Put a cell that holds the separator into quotation marks, or ask "
        "the lab for the file again."
    )
    return Fault(said.format(name=name, index=row, n=cells, width=width))
