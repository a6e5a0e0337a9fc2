"""Results that stand beside a table, in a line of their own, such as `E. coli: PRESENT`."""

import re
from collections.abc import Iterator
from dataclasses import replace

from wellbook.intake.files.plain_lines import pair_of
from wellbook.intake.files.sheets import Cells, Sheet, alone
from wellbook.intake.tables.cells import at, is_parameter
from wellbook.intake.tables.columns import Columns, is_reading
from wellbook.intake.words.asides import aside
from wellbook.intake.words.names import read_name
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter

_FOR = re.compile(
    r"\b(?P<result>positive|negative|present|absent|(?:not )?detected) for "
    r"(?P<name>[^:;,.]{2,40})(?:, [^:]*)?\.?$",
    re.IGNORECASE,
)
_OF_A_SAMPLE = {Role.DATE, Role.SOME_DATE, Role.POINT, Role.NUMBER}
_HEAD = ["Parameter", "Result"]
Found = tuple[int, str, str]  # row, name and result


def with_lines_below(sheet: Sheet, start: int, columns: Columns, catalogue: Catalogue) -> Sheet:
    """The sheet with such lines once more below its table, if that is of one sample.

    What the table tells itself is left out; so is everything where rows tell their own samples.

    Args:
        sheet: The sheet.
        start: The row after the table's heading, from 0.
        columns: What the table's columns hold.
        catalogue: To know a parameter's name.
    """
    name = columns.get(Role.NAME)
    if name is None or _OF_A_SAMPLE & columns.keys():
        return sheet
    lines = list(_told(sheet.rows, start, catalogue))
    if not lines:
        return sheet
    known = {_meant(at(row, name), catalogue) for row in sheet.rows[start:] if at(row, name)}
    found = [one for one in lines if _meant(one[1], catalogue) not in known]
    if not found:
        return sheet
    rows = [*sheet.rows, _HEAD, *([name, result] for _index, name, result in found)]
    places = [sheet.line(i) for i in range(len(sheet.rows))]
    places += [places[-1], *(places[index] for index, _name, _result in found)]
    return replace(sheet, rows=rows, lines=tuple(places))


def _meant(name: str, catalogue: Catalogue) -> Parameter | None:
    return read_name(name, catalogue).parameter


def _told(rows: list[Cells], start: int, catalogue: Catalogue) -> Iterator[Found]:
    """Results in lines above a table, and in lines of one cell below its heading."""
    for index, row in enumerate(rows):
        text = alone(row)
        cells = _of_one(text) if text else [cell.strip() for cell in row if cell.strip()]
        if not text and (index >= start or len(cells) % 2):
            continue
        pairs = list(zip(cells[::2], cells[1::2], strict=False))
        if pairs and all(_is_result(*pair, catalogue) for pair in pairs):
            yield from ((index, name.strip(" :"), result) for name, result in pairs)


def _of_one(text: str) -> Cells:
    """Name and result of a line of one cell."""
    found = _FOR.search(text)
    if found:
        return [found["name"].strip(), found["result"]]
    return pair_of(text)


def _is_result(name: str, result: str, catalogue: Catalogue) -> bool:
    is_named = not aside(name) and is_parameter(name.strip(" :"), catalogue)
    return is_named and is_reading(result)
