"""Files put together by lot: which columns, words, places and marks they have falls by the dice.

A layout is thrown from the seed and its own number; each of its files has other readings. Half of
the layouts are held back.
"""

from collections.abc import Callable, Iterator

import lot_forms as forms
import lot_households as own
import lot_mails as mails
import lot_papers as papers
import lot_tables as tables
from facts import LabFile, Truth
from lot_words import Lot

FILES = (2, 1)  # of each layout, in turn
_GRIDS = (  # endings with their writers, in turn
    ("csv", forms.comma), ("xlsx", forms.workbook), ("csv", forms.comma), ("html", forms.page),
    ("xlsx", forms.workbook), ("txt", forms.tab), ("xls", forms.old_workbook),
    ("docx", forms.paper),
    ("csv", forms.semicolon), ("ods", forms.open_sheet), ("eml", forms.letter_with_file),
    ("zip", forms.archive), ("xls", forms.page), ("txt", forms.pipe),
)  # fmt: skip
_ROWS = ((tables.one_sample, 10), (tables.bare, 3), (tables.long_list, 3), (tables.crosstab, 3),
         (tables.wide, 3), (tables.blocks, 2), (tables.last_year, 2), (tables.with_checks, 1),
         (tables.checks_below, 1), (tables.side_by_side, 1), (tables.statistics, 1),
         (tables.not_analysed, 2), (tables.footnotes, 1))  # fmt: skip
_WHOLE = ((forms.records, "json", 2), (forms.flat_records, "json", 1), (forms.elements, "xml", 2),
          (forms.cover_and_results, "xlsx", 1), (forms.hidden_checks, "xlsx", 1))  # fmt: skip
_ONLY_ENGLISH = {tables.with_checks, tables.checks_below, tables.footnotes}
_PAPERS = (
    (papers.drawn(tables.one_sample), 5), (papers.drawn(tables.one_sample, is_turned=True), 1),
    (papers.drawn(tables.one_sample, is_wide=True), 1), (papers.drawn(tables.blocks), 2),
    (papers.drawn(tables.crosstab), 2), (papers.drawn(tables.wide, is_wide=True), 1),
    (papers.drawn(tables.last_year), 1), (papers.drawn(tables.side_by_side), 1),
    (papers.many_pages, 2), (papers.two_columns, 1), (papers.dotted, 1), (papers.letter, 2),
)  # fmt: skip
_ENGLISH_PAPERS = ((papers.drawn(tables.checks_below), 1), (papers.drawn(tables.footnotes), 1),
                   (papers.drawn(tables.long_list, is_wide=True), 1))  # fmt: skip
_OWN_ROWS = ((own.years_across, 3), (own.months_across, 1), (own.days_down, 4), (own.two_wells, 2),
             (own.units_behind, 1), (own.raw_and_treated, 1), (own.raw_treated_rows, 1),
             (own.raw_treated_columns, 1),
             (own.long_log, 1), (own.card, 2), (own.with_limits, 1), (own.untested, 1))  # fmt: skip
_OWN_GRIDS = (("xlsx", forms.workbook), ("csv", forms.comma), ("ods", forms.open_sheet),
              ("xlsx", forms.workbook), ("csv", forms.semicolon),
              ("docx", forms.paper))  # fmt: skip
_OWN_WHOLE = (
    (own.by_year_sheets, "xlsx", 1), (own.notes, "txt", 2), (own.marked_table, "md", 1),
    (mails.pairs, "eml", 3), (mails.table, "eml", 2), (mails.forwarded, "eml", 1),
    (mails.run, "eml", 1), (mails.sentences, "eml", 1), (mails.page, "eml", 1),
    (mails.two_days, "eml", 1),
)  # fmt: skip
_TONGUES = (0, 0, 1, 0, 2, 0, 0, 3, 0, 1)  # of every ten layouts six are English

Maker = Callable[[Lot], tuple[bytes, list[Truth]]]


def files(seed: str) -> Iterator[LabFile]:
    """All files of one seed: tables, PDFs, and households' own sheets with mails."""
    kinds = (("tables", _tables()), ("PDF", _papers()), ("own and mail", _own()))
    for group, layouts in kinds:
        for number, (make, ending, is_english) in enumerate(layouts):
            layout = f"{group.split()[0].lower()}-{number:02}"
            language = 0 if is_english else _TONGUES[number % len(_TONGUES)]
            for file in range(FILES[number % len(FILES)]):
                lot = Lot(f"lot-{seed}-{layout}", file, language)
                content, truths = make(lot)
                name = f"lot-{seed}-{layout}-{file}.{ending}"
                yield LabFile(name, group, content, tuple(truths), layout=f"{layout} of {seed}")


def _grid(rows: Callable, write: Callable) -> Maker:
    def make(lot: Lot) -> tuple[bytes, list[Truth]]:
        cells, truths = rows(lot)
        return write(lot, cells), truths

    return make


def _spread(kinds: tuple, grids: tuple) -> Iterator[tuple[Maker, str, bool]]:
    repeated = [rows for rows, often in kinds for _ in range(often)]
    for at, rows in enumerate(repeated):
        ending, write = grids[at % len(grids)]
        yield _grid(rows, write), ending, rows in _ONLY_ENGLISH


def _tables() -> list[tuple[Maker, str, bool]]:
    whole = [(make, ending, True) for make, ending, often in _WHOLE for _ in range(often)]
    return [*_spread(_ROWS, _GRIDS), *whole]


def _papers() -> list[tuple[Maker, str, bool]]:
    found = [(make, "pdf", False) for make, often in _PAPERS for _ in range(often)]
    return found + [(make, "pdf", True) for make, often in _ENGLISH_PAPERS for _ in range(often)]


def _own() -> list[tuple[Maker, str, bool]]:
    whole = [(make, ending, False) for make, ending, often in _OWN_WHOLE for _ in range(often)]
    return [*_spread(_OWN_ROWS, _OWN_GRIDS), *whole]
