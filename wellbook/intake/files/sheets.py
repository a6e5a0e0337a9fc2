"""Cells of a file, as text, in rows."""

from dataclasses import dataclass

from wellbook.water.values.findings import Finding

Cells = list[str]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a workbook, or the whole of a text file.

    Attributes:
        name: Name of the sheet; empty for a text file.
        rows: Cells row by row, as printed; the first row is number 1 to a person.
        findings: What was odd in reading the cells.
        has_open_end: Whether a text file ends in the middle of a line.
    """

    name: str
    rows: list[Cells]
    findings: tuple[Finding, ...] = ()
    has_open_end: bool = False
