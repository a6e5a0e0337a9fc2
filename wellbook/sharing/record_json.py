"""The whole record as one JSON text, from which another household can go on.

`FORM` names the layout; a reader refuses a layout with a greater number. Documents are told by
name, size and SHA-256; their bytes travel beside the text.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from decimal import Decimal
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from wellbook import __version__
from wellbook.book.record import Record
from wellbook.book.rows import NewResult, Well
from wellbook.sharing import record_fields as declared
from wellbook.sharing.fields import Table
from wellbook.sharing.redaction import Privacy, privacy, redacted
from wellbook.sharing.tables import answers_of
from wellbook.sharing.upkeep_fields import ANSWERS, EXPENSES, INTERVALS
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Reading
from wellbook.water.values.results import Result

FORM = 1
SETTINGS = (
    "limit_sets",
    "seasons",
    "interval",
    "country",
    "subdivision",
    "well_kind",
    "ground",
)

Facts = dict[str, Any]


def extract(
    record: Record,
    *,
    with_personal: bool,
    named: dict[int, str],
    with_journal: bool,
    told: Mapping[str, Any],
) -> bytes:
    """The record as JSON; facts about people are left out unless wanted.

    Args:
        record: The record.
        with_personal: Whether facts about people are in it.
        named: File names of the documents that travel along, by number.
        with_journal: Whether the journal is in it: it can only be checked whole, and tells all.
        told: What is said beside the rows: of the packet itself, of corrections and sources.
    """
    shown = _Shown(privacy(record, with_personal=with_personal), with_personal)
    results: dict[int, list[Result]] = {}
    for result in record.results(with_struck=True):
        results.setdefault(result.sample, []).append(result)
    events = [event for event in record.events if with_personal or not event.is_about_people]
    facts: Facts = {
        "form": FORM,
        "made_with": f"Wellbook {__version__}",
        "head": record.digest,
        "personal": with_personal,
        **told,
        "settings": {key: value for key in SETTINGS if (value := record.settings.get(key, ""))},
        "wells": [_well(well, shown) for well in record.wells],
        "points": shown.rows(declared.POINTS, record.points),
        "units": shown.rows(declared.UNITS, record.units),
        "services": shown.rows(declared.SERVICES, record.services),
        "labs": shown.rows(declared.LABS, record.labs),
        "prices": shown.rows(declared.PRICES, record.prices),
        "plans": shown.rows(
            declared.PLANS, (plan for plan in record.plans if not plan.is_follow_up)
        ),
        "events": shown.rows(declared.EVENTS, events),
        "answers": shown.rows(ANSWERS, answers_of(record, events)),
        "intervals": shown.rows(INTERVALS, record.intervals),
        "expenses": shown.rows(EXPENSES, record.expenses if with_personal else ()),
        "samples": [
            {
                **shown.row(declared.SAMPLES, sample),
                "results": [_result(result) for result in results.get(sample.id, ())],
            }
            for sample in record.samples(with_struck=True)
        ],
        "documents": _documents(record, named, with_personal=with_personal),
        "journal": [_shallow(entry) for entry in record.archive.journal()] if with_journal else [],
    }
    text = json.dumps(facts, ensure_ascii=False, indent=1, default=_plain_value)
    return f"{text}\n".encode()


def _shallow(row: Any) -> Facts:
    """A row's fields, what is in them left as it is."""
    return {field.name: getattr(row, field.name) for field in fields(row)}


@dataclass(frozen=True, slots=True)
class _Shown:
    """Rows as dictionaries: private words covered, facts about people empty unless wanted."""

    cover: Privacy
    with_personal: bool

    def rows(self, table: Table, rows: Iterable[object]) -> list[Facts]:
        return [self.row(table, row) for row in rows]

    def row(self, table: Table, row: object) -> Facts:
        return _shallow(redacted(table, row, self.cover, with_personal=self.with_personal))


def _well(well: Well, shown: _Shown) -> Facts:
    cover = shown.cover.cover
    log = {cover(item): cover(text) for item, text in well.construction.items()}
    return {**shown.row(declared.WELLS, well), "construction": log}


def _result(result: Result) -> Facts:
    """What a lab said; where and when it was drawn stands with its sample."""
    facts = {field.name: getattr(result, field.name) for field in fields(NewResult)}
    reading = _shallow(result.reading)
    return {
        **facts,
        "reading": {**reading, "flags": sorted(result.reading.flags)},
        "analysed": result.analysed or "",
    }


def _documents(record: Record, named: dict[int, str], *, with_personal: bool) -> list[Facts]:
    events = {event.id for event in record.events if with_personal or not event.is_about_people}
    return [
        {
            **_shallow(document),
            "event": document.event if document.event in events else None,
            "name": document.name if with_personal or document.id in named else "",
            "file": named.get(document.id, ""),
        }
        for document in record.documents
    ]


def _plain_value(value: object) -> object:
    """What JSON has no form for, as text."""
    if isinstance(value, LocalTime):
        return value.iso()
    if isinstance(value, Decimal | StrEnum):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no JSON form here")


def given(table: Table, facts: Mapping[str, Any]) -> Facts:
    """What a row of a record says, by the names that `Book` and the values of the record take.

    Left out are numbers, which each book gives itself, and what stays with the former household.

    Raises:
        LookupError, TypeError, ValueError, ArithmeticError: It is not such a row.
    """
    kinds = _kinds(table.row)
    since = {field.key: field.since for field in table.fields if not field.is_number}
    staying = {field.key for field in table.fields if field.stays_behind}
    return {
        key: _value(kinds[key], facts[key])
        for key in since.keys() & kinds.keys() - staying
        if key in facts or since[key] == 1
    }


@cache
def _kinds(row: type) -> Facts:
    return get_type_hints(row)


def _value(kind: Any, said: Any) -> Any:
    """A value of a kind that rows of the record have, from what JSON says."""
    wanted = [one for one in get_args(kind) if one is not NoneType]
    if get_origin(kind) is UnionType:
        return _value(wanted[0], said) if said not in (None, "") else None
    if get_origin(kind) is frozenset:
        return frozenset(_value(wanted[0], one) for one in said)
    if kind is LocalTime:
        return LocalTime.parse(said)
    if kind is Reading:
        return Reading(**{key: _value(kind, said[key]) for key, kind in _kinds(Reading).items()})
    if kind is Decimal or issubclass(kind, StrEnum):
        return kind(said)
    if type(said) is not kind:
        raise TypeError(f"{said!r} is no {kind.__name__}")
    return said
