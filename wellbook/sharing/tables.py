"""The record as tables of text, one after the other, and the dictionary of their columns."""

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from operator import attrgetter
from types import MappingProxyType
from typing import Any

from wellbook.book.record import Record
from wellbook.book.rows import Document, Event, InspectionAnswer
from wellbook.sharing import record_fields as declared
from wellbook.sharing.fields import Field, Table
from wellbook.sharing.formula_guard import RULE, formula_guarded
from wellbook.sharing.redaction import Privacy, privacy
from wellbook.sharing.rounding import usual_number
from wellbook.sharing.upkeep_fields import ANSWERS, EXPENSES, INTERVALS
from wellbook.support.translation import N_
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

Maker = Callable[[Any], object]
NONE_MADE: Mapping[str, Maker] = MappingProxyType({})
_LONGEST_NAME = 120
_COMPARATORS = {Kind.BELOW: "<", Kind.ABOVE: ">"}


_DICTIONARY = Table(
    "",
    "dictionary.csv",
    N_("One row for each column of each table"),
    (
        Field("file", "Name of the table's file"),
        Field("column", "Name of the column; empty where the row speaks of the whole file"),
        Field("meaning", "What stands in it"),
        Field("unit", "Unit or notation"),
    ),
)


@dataclass(frozen=True, slots=True)
class TableFile:
    """One table as a file: what one row is, its columns and its rows.

    Its bytes are UTF-8 with a byte order mark: without one the usual spreadsheets read `µg/L`
    wrongly.
    """

    file: str
    meaning: str
    fields: tuple[Field, ...]
    rows: Sequence[Sequence[str]]

    def content(self) -> bytes:
        """The file's bytes."""
        text = io.StringIO(newline="")
        writer = csv.writer(text)  # commas, CRLF, quotes where needed: RFC 4180
        writer.writerow([field.name for field in self.fields])
        writer.writerows([formula_guarded(cell) for cell in row] for row in self.rows)
        return text.getvalue().encode("utf-8-sig")


@dataclass(frozen=True, slots=True)
class _Item:
    """One item of a well's log."""

    well: int
    item: str
    text: str


def tables(
    record: Record,
    catalogue: Catalogue,
    *,
    with_personal: bool,
    named: dict[int, str],
    more: Sequence[TableFile] = (),
) -> list[TableFile]:
    """Every table of the record, the data dictionary last.

    Args:
        record: The record.
        catalogue: Parameters, for the figures in usual units.
        with_personal: Whether facts about people are in them.
        named: Where each document's file lies beside the tables; names of others are left out
            unless facts about people are in.
        more: Tables that are made elsewhere; the dictionary tells of them, too.
    """
    cover = privacy(record, with_personal=with_personal)
    wells = record.wells
    log = [_Item(well.id, *item) for well in wells for item in well.construction.items()]
    plans = [plan for plan in record.plans if with_personal or not plan.is_follow_up]
    events = [event for event in record.events if with_personal or not event.is_about_people]
    made = [
        _file(declared.WELLS, wells, cover),
        _file(declared.CONSTRUCTION, log, cover),
        _file(declared.POINTS, record.points, cover),
        _file(declared.UNITS, record.units, cover),
        _file(declared.SERVICES, record.services, cover),
        _file(declared.LABS, record.labs, cover),
        _file(declared.PRICES, record.prices, cover),
        _file(declared.PLANS, plans, cover),
        _file(declared.EVENTS, events, cover),
        _file(ANSWERS, answers_of(record, events), cover),
        _file(INTERVALS, record.intervals, cover),
        *([_file(EXPENSES, record.expenses, cover)] if with_personal else []),
        _file(declared.SAMPLES, record.samples(with_struck=True), cover),
        _results(record, catalogue, cover),
        _documents(record, named, cover, with_personal=with_personal),
        *more,
    ]
    kept = made if with_personal else [_impersonal(table) for table in made]
    return [*kept, _dictionary(kept)]


def _impersonal(table: TableFile) -> TableFile:
    places = [i for i, field in enumerate(table.fields) if not field.is_personal]
    return TableFile(
        table.file,
        table.meaning,
        tuple(table.fields[i] for i in places),
        [[row[i] for i in places] for row in table.rows],
    )


def _dictionary(made: Sequence[TableFile]) -> TableFile:
    own = _file(_DICTIONARY, (), Privacy(None))
    rows = [["", "", RULE, ""]]
    for table in (*made, own):
        rows.append([table.file, "", table.meaning, ""])
        rows += [[table.file, field.name, field.meaning, field.unit] for field in table.fields]
    return TableFile(own.file, own.meaning, own.fields, rows)


def _file(
    table: Table, rows: Iterable[object], cover: Privacy, made: Mapping[str, Maker] = NONE_MADE
) -> TableFile:
    """A table's rows as text; `made` holds what makes the columns that a row does not hold."""
    makers = [made.get(field.name) or attrgetter(field.path) for field in table.fields]
    covers = [cover.cover if field.is_free else str for field in table.fields]
    cells = [
        [say(_text(make(row))) for make, say in zip(makers, covers, strict=True)] for row in rows
    ]
    return TableFile(table.file, table.meaning, table.fields, cells)


def _text(value: object) -> str:
    """A value as it stands in a cell."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, LocalTime):
        return value.iso()
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, frozenset):
        return ", ".join(sorted(value))
    return str(value)


def _results(record: Record, catalogue: Catalogue, cover: Privacy) -> TableFile:
    wells = {well.id: well.name for well in record.wells}
    points = {point.id: point for point in record.points}
    struck = {sample.id for sample in record.samples(with_struck=True) if sample.struck}
    known = catalogue.parameters
    made: dict[str, Maker] = {
        "well": lambda result: wells[points[result.point].well],
        "point": lambda result: points[result.point].name,
        "treated": lambda result: points[result.point].treated,
        "comparator": lambda result: _COMPARATORS.get(result.reading.kind, ""),
        "usual_number": lambda result: usual_number(result, known.get(result.parameter)),
        "usual_unit": lambda result: _usual(result, catalogue)[0],
        "usual_basis": lambda result: _usual(result, catalogue)[1],
        "struck": lambda result: result.sample in struck,
    }
    return _file(declared.RESULTS, record.results(with_struck=True), cover, made)


def _usual(result: Result, catalogue: Catalogue) -> tuple[str, str]:
    """Unit and basis that a parameter's figures are told in; empty if this one has no figure."""
    parameter = catalogue.parameters.get(result.parameter)
    if parameter is None or usual_number(result, parameter) is None:
        return "", ""
    return parameter.unit, parameter.basis


def _documents(
    record: Record, named: dict[int, str], cover: Privacy, *, with_personal: bool
) -> TableFile:
    events = {event.id for event in record.events if with_personal or not event.is_about_people}
    made: dict[str, Maker] = {
        "event": lambda kept: kept.event if kept.event in events else None,
        "name": lambda kept: kept.name if with_personal or kept.id in named else "",
        "file": lambda kept: named.get(kept.id, ""),
    }
    return _file(declared.DOCUMENTS, record.documents, cover, made)


def answers_of(record: Record, events: Iterable[Event]) -> list[InspectionAnswer]:
    """What was seen at those inspections that are among some events."""
    shown = {event.id for event in events}
    return [answer for answer in record.answers if answer.event in shown]


def file_names(documents: Iterable[Document]) -> dict[int, str]:
    """A file name under `documents/` for each document: harmless, and each only once."""
    return {one.id: f"documents/{one.id:04d}-{_harmless(one.name)}" for one in documents}


def _harmless(name: str) -> str:
    """A name without folders and without signs that some file system refuses."""
    last = re.split(r"[/\\]", name)[-1]
    kept = re.sub(r"[^\w.() -]", "_", last).strip(" .") or "document"
    stem, dot, ending = kept.rpartition(".")
    return (
        kept
        if len(kept) <= _LONGEST_NAME
        else f"{(stem or kept)[: _LONGEST_NAME - 10]}{dot}{ending[:9]}"
    )
