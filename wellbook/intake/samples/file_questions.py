"""What is asked, or said, about a file as a whole."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from wellbook.intake.draft import WHICH_COLUMNS, DraftSample, Mark
from wellbook.intake.files.sheets import Sheet
from wellbook.intake.said import letters
from wellbook.intake.samples.decimals import Commas, commas
from wellbook.intake.tables.tables import NotTaken, Table
from wellbook.intake.words.headings import is_abroad as is_word_abroad
from wellbook.intake.words.lab_names import languages
from wellbook.intake.words.log import Log, Trouble
from wellbook.intake.words.roles import Role
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.readings import Kind

_NUMBERS = (Role.RESULT, Role.REPORTING_LIMIT, Role.DETECTION_LIMIT)
_OPEN = re.compile(r"\d,\d{3}$")
_OPEN_BOTH = re.compile(r"(?<![\d.,])[1-9]\d{0,2}[.,]\d{3}$")
_LOOK = 200  # rows of a table whose names tell the language of its file
_FEW = 3  # results; with fewer the share of words tells nothing
_NAMED = 5
HIDDEN_ROW, HIDDEN_COLUMN = "hidden_row", "hidden_column"  # doubts of readings not shown
STRUCK = "struck"  # doubt of a reading in a row where something is struck through
NOT_OURS = "not_ours"  # key of the finding that no reading of a file is of the household's water


def numbers_in(tables: Iterable[Table]) -> Iterator[str]:
    """Every text that stands where a number is expected."""
    for table in tables:
        for index in (table.columns[role] for role in _NUMBERS if role in table.columns):
            yield from {row[index] for row in table.rows}


def is_abroad(tables: Sequence[Table], catalogue: Catalogue) -> bool:
    """Whether the headings, or names of what was measured, are Spanish, French or German."""
    if any(is_word_abroad(cell) for table in tables for cell in table.heading):
        return True
    named = (table for table in tables if Role.NAME in table.columns)
    names = {row[table.columns[Role.NAME]] for table in named for row in table.rows[:_LOOK]}
    return sum(bool(languages(name, catalogue)) for name in names) > 1


def comma_of(table: Table, comma: Commas) -> bool | None:
    """Whether a comma is decimal in a table; None where each of its figures tells for itself."""
    if not comma.clash:
        return comma.are_decimal
    own = commas({row[table.columns[Role.RESULT]] for row in table.rows})
    return None if own.clash else own.are_decimal


def of_commas(found: Commas) -> Iterator[Trouble]:
    """What is odd about the commas of a file."""
    if found.clash:
        text = _(
            "Some numbers of this file have a decimal comma and others a decimal point "
            "(“{clash}”): each column is read by its own figures. Look at those that can be read "
            "in both ways."
        ).format(clash=found.clash)
        yield Trouble("mixed_decimals", text)
    if found.open:
        said = (
            _(
                "“{open}” can be read with the comma as thousands mark or as decimal mark, and "
                "nothing in the file tells which: read as decimals, as is usual in this place."
            )
            if found.are_decimal
            else _(
                "“{open}” can be read with the comma as thousands mark or as decimal mark, and "
                "nothing in the file tells which: read as thousands."
            )
        )
        yield Trouble("comma", said.format(open=found.open))


def with_comma_doubt(samples: tuple[DraftSample, ...], comma: Commas) -> tuple[DraftSample, ...]:
    """The samples, with doubt at each reading whose comma can be read in two ways."""
    if not (comma.open or comma.clash):
        return samples
    pattern = _OPEN_BOTH if comma.clash else _OPEN

    def marked(sample: DraftSample) -> Iterator[Mark]:
        for result, mark in zip(sample.sample.results, sample.marks, strict=True):
            is_open = pattern.search(result.reading.text.strip())
            yield mark._replace(doubts=(*mark.doubts, "comma")) if is_open else mark

    return tuple(replace(sample, marks=tuple(marked(sample))) for sample in samples)


def with_doubt(samples: tuple[DraftSample, ...], doubt: str) -> tuple[DraftSample, ...]:
    """The samples, with one doubt more at each reading."""
    return tuple(
        replace(
            sample,
            marks=tuple(mark._replace(doubts=(*mark.doubts, doubt)) for mark in sample.marks),
        )
        for sample in samples
    )


def say_guess(table: Table, log: Log) -> None:
    """Say which column was taken for the results by what stands in it alone."""
    if table.guessed and table.rows:
        text = _("Only the figures tell that “{column}” holds the results: look at it.").format(
            column=table.guessed
        )
        log.add(Trouble("guessed_column", text))


def which_columns(samples: Sequence[DraftSample], left: Sequence[NotTaken]) -> Iterator[Finding]:
    """That nothing tells which columns of a table are the household's water."""
    if samples or not left:
        return
    heads = dict.fromkeys(one.why.partition(":")[0] for one in left if one.why.startswith("“"))
    named = ", ".join(list(heads)[:_NAMED])
    text = _(
        "Nothing tells which of these columns are your water: {columns}. Say so "
        "(--column NAME), or write a day, a point or a number over it."
    ).format(columns=named)
    yield Finding(WHICH_COLUMNS, text, severity=Severity.STOP)


def all_aside(left: Sequence[NotTaken]) -> bool:
    """Whether there are readings, and each of them is left aside as none of the household's."""
    return bool(left) and all(one.is_aside for one in left)


def none_of_ours(samples: Sequence[DraftSample], left: Sequence[NotTaken]) -> Iterator[Finding]:
    """That every reading of a file is left aside, where no column is asked about."""
    if samples or left:
        return
    text = _(
        "No reading of this file is taken as one of your water: it says that they are of other "
        "samples, such as a blank of the lab. Each is listed with the reason."
    )
    yield Finding(NOT_OURS, text, severity=Severity.STOP)


def mostly_words(samples: Sequence[DraftSample]) -> Iterator[Finding]:
    """That most results are no readings: a column beside the results was taken for them."""
    kinds = [result.reading.kind for sample in samples for result in sample.sample.results]
    words = kinds.count(Kind.TEXT)
    if len(kinds) >= _FEW and words * 2 > len(kinds):
        text = _(
            "{n} of {all} results are no readings: the column of the results was not found. Give "
            "it the heading Result."
        ).format(n=words, all=len(kinds))
        yield Finding("no_readings", text, severity=Severity.STOP)


def with_hidden_doubts(
    samples: tuple[DraftSample, ...], sheets: Iterable[Sheet]
) -> tuple[DraftSample, ...]:
    """The samples, with doubt at each reading that its sheet hides, or strikes through."""
    struck = {sheet.name: sheet.struck for sheet in sheets if sheet.struck}
    rows = {sheet.name: sheet.hidden for sheet in sheets if sheet.hidden}
    columns = {sheet.name: sheet.hidden_columns for sheet in sheets if sheet.hidden_columns}
    if not (rows or columns or struck):
        return samples

    def marked(mark: Mark) -> Mark:
        place = mark.place
        is_in_row = place.row in rows.get(place.sheet, ())
        is_in_column = place.column in columns.get(place.sheet, ())
        found = [HIDDEN_ROW] * is_in_row + [HIDDEN_COLUMN] * is_in_column
        found += [STRUCK] * (place.row in struck.get(place.sheet, ()))
        return mark._replace(doubts=(*mark.doubts, *found)) if found else mark

    return tuple(replace(one, marks=tuple(map(marked, one.marks))) for one in samples)


def hidden_parts(samples: Sequence[DraftSample]) -> Iterator[Finding]:
    """Which readings come from rows and columns that are not shown, or are struck through."""
    marks = [mark for sample in samples for mark in sample.marks]
    struck = _(
        "Something is struck through in rows {rows}. Each reading in them is asked about: what "
        "was struck out may no longer be true."
    )
    rows = _(
        "The workbook hides rows ({rows}). Each reading in them is asked about: who hid a row "
        "may have hidden what is no longer true."
    )
    columns = _(
        "The workbook hides columns ({columns}). Each reading in them is asked about: who hid "
        "a column may have hidden what is no longer true."
    )
    for doubt, text in ((STRUCK, struck), (HIDDEN_ROW, rows), (HIDDEN_COLUMN, columns)):
        places = [mark.place for mark in marks if doubt in mark.doubts]
        if places:
            at_rows = sorted({place.row for place in places})[:_NAMED]
            at_columns = sorted({place.column for place in places})[:_NAMED]
            told = {"rows": ", ".join(map(str, at_rows))}
            told |= {"columns": ", ".join(map(letters, at_columns))}
            yield Finding(doubt, text.format(**told), severity=Severity.ASK)
