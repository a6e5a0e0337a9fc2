"""From a lab's file to a draft: table files of all kinds, whatever their layout."""

import mimetypes
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book.rows import NewDocument
from wellbook.book.samples import LARGEST_DOCUMENT
from wellbook.intake.draft import Draft
from wellbook.intake.files import archives, spreadsheets, text_tables
from wellbook.intake.files.sheets import Sheet
from wellbook.intake.lengths import too_long
from wellbook.intake.samples.days import days_of, texts_in, undated
from wellbook.intake.samples.results import Maker
from wellbook.intake.samples.samples import Grouping
from wellbook.intake.tables.layout import likeness, tables_in
from wellbook.intake.tables.tables import Table
from wellbook.intake.words.dates import Order
from wellbook.intake.words.decimals import Commas, commas
from wellbook.intake.words.log import Log, Trouble
from wellbook.intake.words.roles import Role
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import NotAFile, TooLarge, read_whole, shown_name
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Severity

_NUMBERS = (Role.RESULT, Role.REPORTING_LIMIT, Role.DETECTION_LIMIT)
_ZIP, _OLE, _PDF = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"%PDF"
_XLSX, _ODS = "xl/workbook.xml", "content.xml"


def read(
    path: Path, catalogue: Catalogue, *, order: Order = Order.UNKNOWN, today: date | None = None
) -> Draft:
    """Read a lab's CSV, XLSX, XLS or ODS file into a draft.

    Args:
        path: The file. It is only read.
        catalogue: Parameters by all the names that labs give them.
        order: What comes first in dates such as 03/05/2025, if a person says so.
        today: The day after which a date lies in the future; the present day if not given.

    Raises:
        Fault: The file can't be read, is damaged, or is no table of results.
    """
    content = _content(path)
    sheets = _sheets(content, path.name)
    return _draft(path, content, sheets, catalogue, _Dating(order, today or date.today()))


def read_pasted(
    text: str, catalogue: Catalogue, *, order: Order = Order.UNKNOWN, today: date | None = None
) -> Draft:
    """Read a table that was copied from a lab's web page or a spreadsheet.

    The arguments, and what is raised, are those of `read`; the text itself becomes the document.
    """
    path = Path("pasted table.tsv")
    if not text.strip():
        raise Fault(_("Nothing was pasted: copy the table of results first."))
    sheet = Sheet("", text_tables.split(text, path.name, likeness))
    return _draft(path, text.encode(), (sheet,), catalogue, _Dating(order, today or date.today()))


@dataclass(frozen=True, slots=True)
class _Dating:
    """What a person says about the dates of a file."""

    order: Order
    today: date


def _draft(
    path: Path, content: bytes, sheets: tuple[Sheet, ...], catalogue: Catalogue, dating: _Dating
) -> Draft:
    tables = _tables(sheets, path.name, catalogue, dating.today)
    log = Log()
    days, odd = days_of(texts_in(tables), dating.today, dating.order)
    comma = commas(_numbers(tables))
    for trouble in (*odd, *_of_commas(comma)):
        log.add(trouble)
    grouping = Grouping(days, Maker(catalogue, days, comma.are_decimal), log)
    for table in tables:
        grouping.take(table)
        for number, words in table.undated:
            log.add(undated(words), table.sheet, number)
    samples = grouping.samples(NewDocument(shown_name(path), _media_type(path.name), content))
    if not samples:
        raise _no_results(path.name)
    of_cells = tuple(finding for sheet in sheets for finding in sheet.findings)
    return Draft(path, samples, (*log.findings(), *of_cells, *too_long(samples)))


def _content(path: Path) -> bytes:
    try:
        content = read_whole(path, LARGEST_DOCUMENT)
    except NotAFile as found:
        raise Fault(
            _("{path} is {found}: name the lab's file instead.").format(path=path, found=found.what)
        ) from None
    except TooLarge as found:
        raise Fault(
            _(
                "{path} has {size:.0f} MB; up to {largest_document:.0f} MB can be "
                "taken in at once. Split it, for example by year."
            ).format(path=path, size=found.size / 1e6, largest_document=LARGEST_DOCUMENT / 1e6)
        ) from None
    except OSError as error:
        raise Fault(
            _("{path} can't be read: {problem}.").format(path=path, problem=error.strerror or error)
        ) from None
    if not content.strip():
        raise Fault(_("{path} is empty. Ask for the file again.").format(path=path.name))
    return content


def _sheets(content: bytes, name: str) -> tuple[Sheet, ...]:
    if content.startswith(_ZIP):
        parts = archives.members(content, name)
        if not parts & {_XLSX, _ODS}:
            raise Fault(
                _("{name} is an archive: unpack it and take in the file that is in it.").format(
                    name=name
                )
            )
        return spreadsheets.sheets(content, name, with_formats=_XLSX in parts)
    if content.startswith(_OLE):
        return spreadsheets.sheets(content, name, with_formats=False)
    if content.startswith(_PDF):
        raise Fault(
            _(
                "{name} is a PDF, which is not a table that can be read here. Ask the lab for the "
                "results as CSV or XLSX, and keep the PDF beside the test."
            ).format(name=name)
        )
    text = text_tables.decode(content, name)
    rows = text_tables.split(text, name, likeness)
    return (Sheet("", rows, has_open_end=not text.endswith(("\n", "\r"))),)


def _tables(sheets: tuple[Sheet, ...], name: str, catalogue: Catalogue, today: date) -> list[Table]:
    """All tables of a file; what one sheet doesn't tell of its samples another may."""
    found = [tables_in(sheet, name, catalogue, today) for sheet in sheets if sheet.rows]
    tables = [table for tables, _unused in found for table in tables]
    if not tables:
        raise _no_results(name)
    others = {role: text for own, facts in found if not own for role, text in facts.items()}
    for table in tables:
        table.facts = {**others, **table.facts}
    return tables


def _no_results(name: str) -> Fault:
    return Fault(
        _(
            "{name} is not a table of results that can be read: no columns with names of "
            "parameters "
            "and their results were found. Give the columns headings such as Parameter, Result, "
            "Unit, "
            "Date collected."
        ).format(name=name)
    )


def _numbers(tables: list[Table]) -> Iterator[str]:
    for table in tables:
        for index in (table.columns[role] for role in _NUMBERS if role in table.columns):
            yield from {row[index] for row in table.rows}


def _of_commas(found: Commas) -> Iterator[Trouble]:
    if found.clash:
        text = _(
            "Some numbers of this file have a decimal comma and others a decimal point "
            "(“{clash}”): write them in one way."
        ).format(clash=found.clash)
        yield Trouble("mixed_decimals", text, Severity.STOP)
    if found.open:
        text = _(
            "“{open}” can be read with the comma as thousands mark or as decimal mark, and "
            "nothing in the file tells which: read as thousands."
        ).format(open=found.open)
        yield Trouble("comma", text)


def _media_type(name: str) -> str:
    return mimetypes.guess_type(name)[0] or "text/csv"
