"""A table of results: one row, one result."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import repeat

from wellbook.intake.files.sheets import Cells, Place, Sheet
from wellbook.intake.tables.columns import Columns
from wellbook.intake.words.asides import names_neighbour
from wellbook.intake.words.preamble import Facts, stands_alone
from wellbook.intake.words.roles import Role

_PLACES = {Role.POINT, Role.CLIENT_NUMBER, Role.WELL}


@dataclass(frozen=True, slots=True)
class NotTaken:
    """Something of a file that no result was made of.

    Attributes:
        what: The text of the cell, or the heading of a column.
        why: One plain sentence.
        place: Where it stands.
        is_aside: Whether it is understood as something else than a result of the household's
            water: a limit, a check of the lab's own. It is not counted among the figures.
        column: Heading of its column, where nothing tells whether that is the household's water.
    """

    what: str
    why: str
    place: Place
    is_aside: bool = False
    column: str = ""


@dataclass(slots=True)
class Table:
    """Rows of results under one heading.

    Attributes:
        source: Its sheet.
        columns: Which column holds what.
        facts: What lines outside the table say about all of it.
        unit: Unit that stands in the heading of the results.
        heading: The words over the columns; none for a table that was unfolded.
        rows: Rows of cells, at least as long as the columns need.
        indexes: Their places among the rows of the sheet, from 0.
        cells: Column of each result in the sheet, for a table that was unfolded.
        undated: Index and first words of rows that hold results, but no day of sampling where
            every other row of the table has one.
        not_taken: What of the sheet is in no row.
        guessed: Heading of the column of results, where only what stands in it tells so.
        is_unit_usual: Whether a line above says its unit, which may not be of every result.
        is_day_guessed: Whether its day is only the one day that the file tells.
        kind_below: Kind of sample that a line below it tells, where none above it does.
    """

    source: Sheet
    columns: Columns
    facts: Facts
    unit: str = ""
    heading: Cells = field(default_factory=list)
    rows: list[Cells] = field(default_factory=list)
    indexes: list[int] = field(default_factory=list)
    cells: list[int] = field(default_factory=list)
    undated: list[tuple[int, str]] = field(default_factory=list)
    not_taken: list[NotTaken] = field(default_factory=list)
    guessed: str = ""
    is_day_guessed: bool = False
    kind_below: str = ""
    is_unit_usual: bool = False

    def place(self, at: int) -> Place:
        """Where the result of a row of this table stands in its file."""
        column = self.cells[at] if self.cells else self.columns[Role.RESULT]
        return self.source.place(self.indexes[at], column)

    def places(self) -> Iterator[Place]:
        """Where the result of each row stands, in their order."""
        columns = self.cells or repeat(self.columns[Role.RESULT], len(self.rows))
        return map(self.source.place, self.indexes, columns)


def tell_beside(tables: list[Table], others: Facts, today: date) -> None:
    """Take in what other sheets tell of all tables, and of several sheets the place in its name."""
    is_several = len({table.source.name for table in tables}) > 1
    for table in tables:
        name = table.source.name if is_several else ""
        is_place = names_neighbour(name) or Role.POINT in stands_alone([[name]], today)
        is_told = _PLACES & (table.facts.keys() | table.columns.keys())
        own = {Role.POINT: name} if is_place and not is_told else {}
        table.facts = {**others, **own, **table.facts}


def told(roles: Iterable[Role | None]) -> set[Role]:
    """The roles that some headings give, without those that are of no use here."""
    return {role for role in roles if role and role is not Role.NOTHING}
