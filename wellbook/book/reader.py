"""Reading a book: rows of the tables into the values of `rows` and `water.values.results`."""

import sqlite3
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from typing import Any

from wellbook.book.rows import (
    Document,
    Entry,
    Event,
    Lab,
    Plan,
    Point,
    Sample,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.book.schema import FACTS
from wellbook.water.values.local_time import Moment
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

Conditions = dict[str, int | str | None]


def _where(conditions: Conditions) -> tuple[str, list[int | str]]:
    given = {column: value for column, value in conditions.items() if value is not None}
    text = " AND ".join(f"{column} = ?" for column in given)
    return (f" WHERE {text}" if text else ""), list(given.values())


@lru_cache(maxsize=1024)  # the readings of a sample share their moments
def _moment(text: str) -> Moment | None:
    return Moment.parse(text) if text else None


def wells(connection: sqlite3.Connection) -> list[Well]:
    """All wells in the order in which they were entered, each with its construction."""
    logs: dict[int, dict[str, str]] = {}
    for well, item, text in connection.execute(
        "SELECT well, item, text FROM construction ORDER BY id"
    ):
        logs.setdefault(well, {})[item] = text
    rows = connection.execute(
        "SELECT id, name, note, address, coordinates, replaces FROM well ORDER BY id"
    )
    return [
        Well(i, name, note, address, place, replaces, logs.get(i, {}))
        for i, name, note, address, place, replaces in rows
    ]


def points(connection: sqlite3.Connection, conditions: Conditions) -> list[Point]:
    """Sampling points, those of one well in the order of the flow."""
    where, values = _where(conditions)
    rows = connection.execute(
        f"SELECT id, well, name, treated, place, note FROM point{where} ORDER BY well, place, id",
        values,
    )
    return [Point(i, w, name, bool(t), place, note) for i, w, name, t, place, note in rows]


def units(connection: sqlite3.Connection, conditions: Conditions) -> list[TreatmentUnit]:
    """Treatment units in the order of the flow."""
    where, values = _where(conditions)
    rows = connection.execute(
        "SELECT id, well, name, kind, place, installed, removed, target, note"
        f" FROM treatment_unit{where} ORDER BY well, place, installed, id",
        values,
    )
    return [TreatmentUnit(*row) for row in rows]


def services(connection: sqlite3.Connection, conditions: Conditions) -> list[Service]:
    """What was done to treatment units, by day."""
    where, values = _where(conditions)
    rows = connection.execute(
        f"SELECT id, unit, day, kind, until, text FROM service{where} ORDER BY day, id", values
    )
    return [Service(*row) for row in rows]


def labs(connection: sqlite3.Connection) -> list[Lab]:
    """Labs by name."""
    rows = connection.execute(
        "SELECT id, name, accreditation, valid_from, valid_to, note FROM lab ORDER BY name"
    )
    return [Lab(*row) for row in rows]


# Field of `Sample` to the column that holds it.
_SAMPLE = {
    "id": "sample.id",
    "point": "point",
    "collected": "collected",
    "lab": "coalesce(lab.name, '')",
    "lab_number": "lab_number",
    "dispatched": "dispatched",
    "received": "received",
    "reported": "reported",
    "purpose": "purpose",
    "sampler": "sampler",
    "standing": "standing",
    "draw": "draw",
    "temperature": "temperature",
    "rain": "rain",
    "note": "sample.note",
    "struck": "struck",
}


def samples(
    connection: sqlite3.Connection, conditions: Conditions, *, with_struck: bool
) -> list[Sample]:
    """Samples by day and time of collection."""
    where, values = _where(conditions)
    if not with_struck:
        where += (" AND " if where else " WHERE ") + "struck = ''"
    columns = ", ".join(f"{column} AS {name}" for name, column in _SAMPLE.items())
    rows = connection.execute(
        f"SELECT {columns} FROM sample LEFT JOIN lab ON lab.id = sample.lab{where}"
        " ORDER BY collected, sample.id",
        values,
    )
    return [_sample(dict(zip(_SAMPLE, row, strict=True))) for row in rows]


def _sample(row: dict[str, Any]) -> Sample:
    moments = {
        "collected": Moment.parse(row["collected"]),
        "dispatched": _moment(row["dispatched"]),
        "received": _moment(row["received"]),
    }
    return Sample(**(row | moments))


_RESULTS = """
SELECT result.id, sample, parameter, result.name, text, kind, number, unit, basis, fraction,
       flags, collected, point, method, reporting_limit, detection_limit, qualifier,
       coalesce(own.name, lab.name, ''), analysed, coalesce(nullif(result.draw, ''), sample.draw),
       received
FROM result
JOIN sample ON sample.id = result.sample
LEFT JOIN lab AS own ON own.id = result.lab
LEFT JOIN lab ON lab.id = sample.lab
"""


def results(
    connection: sqlite3.Connection, conditions: Conditions, *, with_struck: bool
) -> Iterator[Result]:
    """Results by day and time of collection, those of struck samples left out unless asked for."""
    where, values = _where(conditions)
    if not with_struck:
        where += (" AND " if where else " WHERE ") + "struck = ''"
    moments: dict[str, Moment] = {}
    for row in connection.execute(
        f"{_RESULTS}{where} ORDER BY collected, sample, result.id", values
    ):
        collected = moments.get(row[11]) or moments.setdefault(row[11], Moment.parse(row[11]))
        yield Result(
            id=row[0],
            sample=row[1],
            parameter=row[2],
            name=row[3],
            reading=_reading(row[4:11]),
            collected=collected,
            point=row[12],
            method=row[13],
            reporting_limit=row[14],
            detection_limit=row[15],
            qualifier=row[16],
            lab=row[17],
            analysed=_moment(row[18]),
            draw=row[19],
            received=_moment(row[20]),
        )


def _reading(row: tuple[str, ...]) -> Reading:
    text, kind, number, unit, basis, fraction, flags = row
    return Reading(
        text=text,
        kind=Kind(kind),
        number=None if number is None else Decimal(number),
        unit=unit,
        basis=basis,
        fraction=fraction,
        flags=frozenset(map(Flag, flags.split(", "))) if flags else frozenset(),
    )


def documents(connection: sqlite3.Connection, conditions: Conditions) -> list[Document]:
    """Documents with what they belong to, once for each sample or well they belong to."""
    where, values = _where(conditions)
    rows = connection.execute(
        "SELECT document.id, sample, well, kind, name, media_type, size, sha256"
        f" FROM attachment JOIN document ON document.id = attachment.document{where}"
        " ORDER BY attachment.id",
        values,
    )
    return [Document(*row) for row in rows]


def events(connection: sqlite3.Connection, conditions: Conditions) -> list[Event]:
    """Events by day."""
    where, values = _where(conditions)
    rows = connection.execute(
        f"SELECT id, well, kind, day, until, text, private FROM event{where} ORDER BY day, id",
        values,
    )
    return [
        Event(i, well, kind, day, until, text, bool(private))
        for i, well, kind, day, until, text, private in rows
    ]


def plans(connection: sqlite3.Connection, conditions: Conditions) -> list[Plan]:
    """Plans in the order in which they were made."""
    where, values = _where(conditions)
    rows = connection.execute(
        "SELECT id, point, panel, months, reason, postponed, postponed_why"
        f" FROM plan{where} ORDER BY id",
        values,
    )
    return [Plan(*row) for row in rows]


def settings(connection: sqlite3.Connection) -> dict[str, str]:
    """Choices of the household, by key."""
    return dict(connection.execute("SELECT key, value FROM setting ORDER BY id"))


def entries(connection: sqlite3.Connection) -> Iterator[Entry]:
    """The journal in order."""
    for row in connection.execute(
        "SELECT seq, at, action, reason, undoes, changes, digest FROM journal ORDER BY seq"
    ):
        yield Entry(*row)


def facts(connection: sqlite3.Connection) -> dict[str, dict[int, dict[str, str | int | None]]]:
    """Every fact by table and row without empty columns, as `journal.replay` gives it."""
    record: dict[str, dict[int, dict[str, str | int | None]]] = {}
    for table in FACTS:
        cursor = connection.execute(f"SELECT * FROM {table}")
        names = [column[0] for column in cursor.description]
        for row in cursor:
            kept = {k: v for k, v in zip(names, row, strict=True) if v not in ("", None)}
            record.setdefault(table, {})[row[0]] = kept
    return record
