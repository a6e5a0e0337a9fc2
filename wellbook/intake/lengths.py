"""Files that are no tables or hold too much, and names that are longer than a book takes."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from wellbook.book.samples import LONGEST_LAB, LONGEST_PARAMETER
from wellbook.intake.draft import DraftSample
from wellbook.intake.files.sheets import Sheet
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

MOST_ROWS, MOST_CELLS, MOST_COLUMNS = 200_000, 3_000_000, 2_000  # of a file; our own bounds
LONGEST_CELL = 600  # characters; a name of more than 500 is not kept
_SHOWN = 40  # letters of a long name


def too_long(samples: Iterable[DraftSample]) -> Iterator[Finding]:
    """A finding that stops for each name that a book does not take, once each."""
    parameters: dict[str, None] = {}
    labs: dict[str, None] = {}
    for sample in samples:
        labs[sample.sample.lab] = None
        for result in sample.sample.results:
            parameters[result.name] = None
            labs[result.lab] = None
    for what, names, most in (
        (_("parameter"), parameters, LONGEST_PARAMETER),
        (_("lab"), labs, LONGEST_LAB),
    ):
        yield from (_finding(what, name, most) for name in names if len(name) > most)


def _finding(what: str, name: str, most: int) -> Finding:
    text = _(
        "The name of a {what} has {n} letters; more than {most} letters can’t be kept: "
        "shorten it in the file, or look whether it is a name at all."
    ).format(what=what, n=len(name), most=most)
    return Finding("long_name", text, f"“{name[:_SHOWN]}…”", Severity.STOP)


def shortened(sheet: Sheet) -> Sheet:
    """The sheet without what cells hold beyond the longest name; the file itself is kept whole."""
    longest = sheet.rows_with(lambda cell: len(cell) > LONGEST_CELL)
    if not longest:
        return sheet
    rows = list(sheet.rows)
    for index in longest:
        rows[index] = [
            " ".join(cell.split())[:LONGEST_CELL] if len(cell) > LONGEST_CELL else cell
            for cell in rows[index]
        ]
    return replace(sheet, rows=rows)


class NoTable(Fault):
    """There is no table of results in the file."""


def no_results(name: str) -> NoTable:
    """That no table of results was found in a file."""
    return NoTable(
        _(
            "{name} is not a table of results that can be read: no columns with names of "
            "parameters and their results were found. Give the columns headings such as "
            "Parameter, Result, Unit, Date collected, or type them in (“Enter a test by hand”)."
        ).format(name=name)
    )


def check_bounds(sheets: tuple[Sheet, ...], name: str) -> None:
    """Refuse a file that holds too much.

    Raises:
        Fault: It has too many rows, cells or columns.
    """
    widths = [width for sheet in sheets for width in map(len, sheet.rows)]
    if max(widths, default=0) > MOST_COLUMNS:
        raise no_results(name)
    if len(widths) > MOST_ROWS or sum(widths) > MOST_CELLS:
        raise too_many(name)


def too_many(name: str) -> Fault:
    """That a file has too many rows or cells."""
    return Fault(
        _(
            "{name} has more than {rows:,} rows or {cells:,} cells: too many to look over at once. "
            "Split it, for example by year."
        ).format(name=name, rows=MOST_ROWS, cells=MOST_CELLS)
    )
