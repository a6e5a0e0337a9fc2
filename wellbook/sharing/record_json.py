"""The whole record as one JSON text, from which another household can go on.

`FORM` names the layout; a reader refuses a layout with a greater number. Documents are told by
name, size and SHA-256; their bytes travel beside the text.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from decimal import Decimal
from enum import StrEnum
from typing import Any

from wellbook import __version__
from wellbook.book import Book
from wellbook.book.rows import Well
from wellbook.sharing.redaction import Privacy, privacy
from wellbook.water.values.local_time import Moment
from wellbook.water.values.results import Result

FORM = 1
NAME = "record.json"
SETTINGS = ("limit_sets", "seasons", "interval", "country", "subdivision")

Facts = dict[str, Any]


def extract(
    book: Book,
    *,
    with_personal: bool,
    named: dict[int, str],
    with_journal: bool,
    told: Mapping[str, Any],
) -> bytes:
    """The record as JSON; facts about people are left out unless wanted.

    Args:
        book: The record.
        with_personal: Whether facts about people are in it.
        named: File names of the documents that travel along, by number.
        with_journal: Whether the journal is in it: it can only be checked whole, and tells all.
        told: What is said beside the rows: of the packet itself, of corrections and sources.
    """
    cover = privacy(book, with_personal=with_personal)
    results: dict[int, list[Result]] = {}
    for result in book.results(with_struck=True):
        results.setdefault(result.sample, []).append(result)
    facts: Facts = {
        "form": FORM,
        "made_with": f"Wellbook {__version__}",
        "head": book.digest(),
        "personal": with_personal,
        **told,
        "settings": {key: value for key in SETTINGS if (value := book.setting(key))},
        "wells": [_well(one, cover, with_personal=with_personal) for one in book.wells()],
        "points": _plain(book.points(), cover, "name", "note"),
        "units": _plain(book.units(), cover, "name", "note"),
        "services": _plain(book.services(), cover, "text"),
        "labs": _plain(book.labs(), cover, "note"),
        "plans": _plain(
            (one for one in book.plans() if not one.is_follow_up), cover, "reason", "postponed_why"
        ),
        "events": _plain(
            (one for one in book.events() if with_personal or not one.is_about_people),
            cover,
            "text",
        ),
        "samples": [
            {**sample, "results": [_result(one) for one in results.get(sample["id"], ())]}
            for sample in _plain(
                (
                    one if with_personal else replace(one, sampler="")
                    for one in book.samples(with_struck=True)
                ),
                cover,
                "note",
                "struck",
            )
        ],
        "documents": _documents(book, named, with_personal=with_personal),
        "journal": [_shallow(entry) for entry in book.journal()] if with_journal else [],
    }
    text = json.dumps(facts, ensure_ascii=False, indent=1, default=_plain_value)
    return f"{text}\n".encode()


def _shallow(row: Any) -> Facts:
    """A row's fields, what is in them left as it is."""
    return {field.name: getattr(row, field.name) for field in fields(row)}


def _plain(rows: Iterable[Any], cover: Privacy, *free: str) -> list[Facts]:
    """Rows as dictionaries, private words covered in the columns of free text."""
    made = []
    for row in rows:
        facts = _shallow(row)
        made.append({**facts, **{key: cover.cover(facts[key]) for key in free}})
    return made


def _well(one: Well, cover: Privacy, *, with_personal: bool) -> Facts:
    return {
        **_shallow(one),
        "name": cover.cover(one.name),
        "note": cover.cover(one.note),
        "address": one.address if with_personal else "",
        "coordinates": one.coordinates if with_personal else "",
        "construction": {
            cover.cover(item): cover.cover(text) for item, text in one.construction.items()
        },
    }


def _result(one: Result) -> Facts:
    said = one.reading
    return {
        "parameter": one.parameter,
        "name": one.name,
        "reading": {
            "text": said.text,
            "kind": said.kind,
            "number": None if said.number is None else str(said.number),
            "unit": said.unit,
            "basis": said.basis,
            "fraction": said.fraction,
            "flags": sorted(said.flags),
        },
        "method": one.method,
        "reporting_limit": one.reporting_limit,
        "detection_limit": one.detection_limit,
        "qualifier": one.qualifier,
        "lab": one.lab,
        "analysed": one.analysed.iso() if one.analysed else "",
        "draw": one.draw,
    }


def _documents(book: Book, named: dict[int, str], *, with_personal: bool) -> list[Facts]:
    return [
        {
            **_shallow(one),
            "name": one.name if with_personal or one.id in named else "",
            "file": named.get(one.id, ""),
        }
        for one in book.documents()
    ]


def _plain_value(value: object) -> object:
    """What JSON has no form for, as text."""
    if isinstance(value, Moment):
        return value.iso()
    if isinstance(value, Decimal | StrEnum):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no JSON form here")
