"""What the sheets of an old XLS workbook hide or strike through, beside what calamine reads of it.

[MS-XLS] 2.4.221 Row, 2.4.53 ColInfo, 2.4.122 Font. Runs in the process that reads such a workbook.
"""

import io
import logging
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Any

from wellbook.intake.files.hidden_parts import Hidden, without_struck


def hidden_in_old(content: bytes, most_cells: int) -> dict[str, Hidden]:
    """What each sheet hides, by its name; none where that can't be read, or of too many cells."""
    import xlrd

    try:
        book = xlrd.open_workbook(
            file_contents=content, formatting_info=True, logfile=io.StringIO()
        )
        if sum(sheet.nrows * sheet.ncols for sheet in book.sheets()) > most_cells:
            return {}
        return {sheet.name: _of_sheet(book, sheet) for sheet in book.sheets()}
    except Exception:  # it raises many kinds of its own
        logging.getLogger(__name__).info("hidden parts not read", exc_info=True)
        return {}


def _of_sheet(book: Any, sheet: Any) -> Hidden:
    hidden = Hidden()
    hidden.rows.update(row + 1 for row, told in sheet.rowinfo_map.items() if told.hidden)
    columns = sheet.colinfo_map.items()
    hidden.columns.update(i + 1 for i, told in columns if told.hidden or told.width == 0)
    fonts = {number for number, font in enumerate(book.font_list) if font.struck_out}
    if not fonts:
        return hidden
    for row in range(sheet.nrows):
        for column in range(sheet.row_len(row)):
            own = book.xf_list[sheet.cell_xf_index(row, column)].font_index
            runs = sheet.rich_text_runlist_map.get((row, column), ())
            pieces = list(_pieces(str(sheet.cell_value(row, column)), own, runs, fonts))
            if any(is_struck and text.strip() for text, is_struck in pieces):
                hidden.struck.add(row + 1)
                left, out = without_struck(pieces)
                if out:
                    hidden.parts[row + 1, column + 1] = left, out
    return hidden


def _pieces(
    text: str, own: int, runs: Iterable[tuple[int, int]], fonts: set[int]
) -> Iterator[tuple[str, bool]]:
    """Pieces of the text of a cell, each in one font."""
    starts = [(0, own), *runs, (len(text), own)]
    for (start, font), (end, _next) in pairwise(starts):
        if start < end:
            yield text[start:end], font in fonts


def as_facts(unseen: Mapping[str, Hidden]) -> dict[str, dict[str, list[Any]]]:
    """As JSON can carry it."""
    return {
        name: {
            "rows": sorted(one.rows),
            "columns": sorted(one.columns),
            "struck": sorted(one.struck),
            "parts": [[*at, *texts] for at, texts in one.parts.items()],
        }
        for name, one in unseen.items()
    }


def of_facts(told: Mapping[str, Mapping[str, list[Any]]]) -> dict[str, Hidden]:
    """What `as_facts` carried."""
    return {
        name: Hidden(
            set(one["rows"]),
            set(one["columns"]),
            set(one["struck"]),
            {(row, column): (left, out) for row, column, left, out in one["parts"]},
        )
        for name, one in told.items()
    }
