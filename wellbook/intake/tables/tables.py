"""A table of results: one row, one result."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from wellbook.intake.files.sheets import Cells
from wellbook.intake.tables.columns import Columns
from wellbook.intake.words.preamble import Facts
from wellbook.intake.words.roles import Role


@dataclass(slots=True)
class Table:
    """Rows of results under one heading.

    Attributes:
        sheet: Name of its sheet, empty for a text file.
        columns: Which column holds what.
        facts: What lines outside the table say about all of it.
        unit: Unit that stands in the heading of the results.
        rows: Rows of cells, at least as long as the columns need.
        numbers: Their row numbers as a person counts.
        undated: Number and first words of rows that hold results, but no day of sampling where
            every other row of the table has one.
    """

    sheet: str
    columns: Columns
    facts: Facts
    unit: str = ""
    rows: list[Cells] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)
    undated: list[tuple[int, str]] = field(default_factory=list)


def told(roles: Iterable[Role | None]) -> set[Role]:
    """The roles that some headings give, without those that are of no use here."""
    return {role for role in roles if role and role is not Role.NOTHING}
