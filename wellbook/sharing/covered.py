"""A record as it is seen by whoever is not to know people: private words covered in every column.

What is made of it, whatever it is, can't hold what this does not show.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from functools import cache
from typing import Any, TypeVar

from wellbook.book.record import Loaded, Record
from wellbook.sharing import record_fields as declared
from wellbook.sharing.fields import Table
from wellbook.sharing.redaction import Privacy
from wellbook.sharing.tables import answers_of
from wellbook.sharing.upkeep_fields import ANSWERS, INTERVALS
from wellbook.support.translation import N_, _
from wellbook.water.values.results import Result

_Row = TypeVar("_Row")

# What is read by the program: keys, days, fingerprints; and what is left out whole, not covered.
_EXACT = frozenset(
    {"parameter", "sha256", "media_type", "panel", "target", "day", "until", "installed", "removed",
     "reported", "valid_from", "valid_to", "postponed", "address", "coordinates", "sampler", "cost",
     "currency", "draw", "purpose", "standing", "item", "answer", "mended", "task", "awaited",
     "cooling", "parcel", "amount", "parameters"}
)  # fmt: skip


_FIGURES = frozenset({"text", "reporting_limit", "detection_limit"})  # of a result
_TABLES = {
    "well": N_("Well"),
    "point": N_("Sampling point"),
    "treatment_unit": N_("Treatment unit"),
    "service": N_("Service"),
    "lab": N_("Lab"),
    "price": N_("Price"),
    "plan": N_("Plan"),
    "event": N_("Event"),
    "inspection_answer": N_("Inspection"),
    "upkeep_interval": N_("Interval of upkeep"),
    "sample": N_("Test"),
    "result": N_("Reading"),
}
_LONGEST = 120  # letters of a text that are shown


@dataclass(frozen=True, slots=True)
class Hit:
    """A place in which private words stand.

    Attributes:
        table: The rows it is one of.
        row: Number of the row in the book.
        column: Its column.
        text: What stands there.
        words: What of it is private.
    """

    table: Table
    row: int
    column: str
    text: str
    words: tuple[str, ...]


def covered_record(record: Record, cover: Privacy) -> Record:
    """The same record with private words covered, its tests in memory.

    Events about people are left out elsewhere, whole; documents are searched on their own, and what
    is told of the journal is covered where it is told.
    """

    def rows(found: Iterable[_Row]) -> tuple[_Row, ...]:
        return tuple(covered(row, cover) for row in found)

    wells = [
        replace(
            covered(well, cover),
            construction={
                cover.cover(item): cover.cover(text) for item, text in well.construction.items()
            },
        )
        for well in record.wells
    ]
    points = rows(record.points)
    return replace(
        record,
        wells=tuple(_apart(wells, [0] * len(wells))),
        points=tuple(_apart(points, [point.well for point in points])),
        units=rows(record.units),
        services=rows(record.services),
        labs=rows(record.labs),
        prices=rows(record.prices),
        drawn=rows(record.drawn),
        events=rows(record.events),
        plans=rows(record.plans),
        expenses=rows(record.expenses),
        intervals=rows(record.intervals),
        answers=rows(record.answers),
        documents=rows(record.documents),
        tests=Loaded(
            rows(record.samples(with_struck=True)),
            tuple(_covered_result(one, cover) for one in record.results(with_struck=True)),
        ),
        whole=record.whole or record,
        cover=cover,
    )


def _covered_result(result: Result, cover: Privacy) -> Result:
    """A reading with private words covered; a figure stays as it is."""
    reading = result.reading
    seen = covered(result, cover)
    limits = [cover.cover_reading(one) for one in (result.reporting_limit, result.detection_limit)]
    if limits != [seen.reporting_limit, seen.detection_limit]:
        seen = replace(seen, reporting_limit=limits[0], detection_limit=limits[1])
    words = [cover.cover_reading(word) for word in (reading.text, reading.unit, reading.basis)]
    if words == [reading.text, reading.unit, reading.basis]:
        return seen
    text, unit, basis = words
    return replace(seen, reading=replace(reading, text=text, unit=unit, basis=basis))


def covered(row: _Row, cover: Privacy) -> _Row:
    """A row with private words covered in every column that is text."""
    changed: dict[str, Any] = {
        name: seen
        for name in _names(type(row))  # type: ignore[arg-type]  # a class has a hash
        if isinstance(value := getattr(row, name), str) and (seen := cover.cover(value)) != value
    }
    return replace(row, **changed) if changed else row  # type: ignore[type-var]  # a dataclass, too


@cache
def _names(kind: type) -> tuple[str, ...]:
    """The columns that may hold private words."""
    return tuple(field.name for field in fields(kind) if field.name not in _EXACT)


def hits(record: Record, cover: Privacy) -> list[Hit]:
    """Every place of a record in which something is covered, in order.

    Args:
        record: The record or an excerpt of it, nothing covered.
        cover: What is private.
    """
    events = [event for event in record.events if not event.is_about_people]
    tables: list[tuple[Table, list[Any]]] = [
        (declared.WELLS, list(record.wells)),
        (declared.POINTS, list(record.points)),
        (declared.UNITS, list(record.units)),
        (declared.SERVICES, list(record.services)),
        (declared.LABS, list(record.labs)),
        (declared.PRICES, list(record.prices)),
        (declared.PLANS, [one for one in record.plans if not one.is_follow_up]),
        (declared.EVENTS, events),
        (ANSWERS, list(answers_of(record, events))),
        (INTERVALS, list(record.intervals)),
        (declared.SAMPLES, list(record.samples(with_struck=True))),
        (declared.RESULTS, list(record.results(with_struck=True))),
    ]
    return [
        Hit(table, row.id, column, text, words)
        for table, rows in tables
        for row in rows
        for column, text in _texts(row)
        if not (
            table is declared.RESULTS and column in _FIGURES and cover.cover_reading(text) == text
        )
        and (words := cover.found(text))
    ]


def hit_words(hit: Hit) -> str:
    """A place in words, with what stands there and what of it is covered."""
    labels = {field.column: field.label for field in hit.table.fields if field.label}
    return _("{table} {number}, {column}: “{text}” (covered: {words})").format(
        table=_(_TABLES.get(hit.table.key, hit.table.key)),
        number=hit.row,
        column=_(labels[hit.column]) if hit.column in labels else hit.column,
        text=hit.text if len(hit.text) <= _LONGEST else f"{hit.text[:_LONGEST]}…",
        words=", ".join(hit.words),
    )


def _texts(row: Any) -> Iterator[tuple[str, str]]:
    for field in fields(row):
        value = getattr(row, field.name)
        if isinstance(value, str) and field.name not in _EXACT:
            yield field.name, value
    for item, text in getattr(row, "construction", {}).items():
        yield "construction", f"{item}: {text}"
    reading = getattr(row, "reading", None)
    if reading is not None:
        yield "text", reading.text


def _apart(rows: Sequence[Any], groups: list[int]) -> Iterator[Any]:
    """Rows of one group whose names would be the same, told apart by their number."""
    seen: set[tuple[int, str]] = set()
    for row, group in zip(rows, groups, strict=True):
        name = row.name
        if (group, name) in seen:
            name = _("{name} ({number})").format(name=name, number=row.id)
        seen.add((group, name))
        yield replace(row, name=name)
