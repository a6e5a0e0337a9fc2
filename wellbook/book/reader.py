"""Reading a book: rows of the tables into the values of `rows` and `water.values.results`."""

import sqlite3
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache
from typing import Any, Generic, TypeVar, get_type_hints

from wellbook.book.journal import Entry
from wellbook.book.record import Newest
from wellbook.book.rows import (
    Document,
    Event,
    Expense,
    InspectionAnswer,
    Lab,
    Plan,
    Point,
    Price,
    Sample,
    Service,
    TreatmentUnit,
    UpkeepInterval,
    Well,
)
from wellbook.book.schema import FACTS
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

_Row = TypeVar("_Row")
_DAY_ENDS = "U"  # every moment of a day sorts before this: behind the day stands at most a T
Conditions = dict[str, int | str | None]


def _where(conditions: Conditions) -> tuple[str, list[int | str]]:
    given = {column: value for column, value in conditions.items() if value is not None}
    text = " AND ".join(f"{column} = ?" for column in given)
    return (f" WHERE {text}" if text else ""), list(given.values())


@lru_cache(maxsize=8192)  # the readings of a sample share their moments, and so do histories
def _moment(text: str) -> LocalTime | None:
    return LocalTime.parse(text) if text else None


@lru_cache(maxsize=64)
def _flags(text: str) -> frozenset[Flag]:
    return frozenset(map(Flag, text.split(", "))) if text else frozenset()


# What becomes of a column for a field of a kind; of any other kind it is what the column holds.
_CONVERTERS: dict[object, Callable[[Any], object]] = {
    bool: bool,
    Kind: Kind,
    Decimal | None: lambda text: None if text is None else Decimal(text),
    frozenset[Flag]: _flags,
    LocalTime: _moment,
    LocalTime | None: _moment,
}


class _Reader(Generic[_Row]):
    """Makes values of a kind from rows that hold its fields in their order, from `start` on."""

    def __init__(self, kind: type[_Row], *, apart: Container[str] = (), start: int = 0) -> None:
        """Make a reader.

        Args:
            kind: A dataclass of the record.
            apart: Fields that are no column.
            start: Place of the first field in a row.
        """
        hints = get_type_hints(kind)
        self.kind = kind
        self.names = [name for name in hints if name not in apart]
        self._slice = slice(start, start + len(self.names))
        self._apart = [(place, name) for place, name in enumerate(hints) if name in apart]
        self._converted = [
            (place, _CONVERTERS[hints[name]])
            for place, name in enumerate(self.names)
            if hints[name] in _CONVERTERS
        ]

    def columns(self, table: str, **other: str) -> str:
        """What to select: the columns of a table by the names of the fields, or what is given."""
        return ", ".join(other.get(name, f"{table}.{name}") for name in self.names)

    def value(self, row: Sequence[Any], **apart: object) -> _Row:
        """The value that a row stands for."""
        values = list(row[self._slice])
        for place, convert in self._converted:
            values[place] = convert(values[place])
        for place, name in self._apart:
            values.insert(place, apart[name])
        return self.kind(*values)


# A day of which only the month or the year is known is read as that.
_COLLECTED = (
    "CASE sample.known_to WHEN '' THEN sample.collected WHEN 'year'"
    " THEN substr(sample.collected, 1, 4) ELSE substr(sample.collected, 1, 7) END"
)
_WELL = _Reader(Well, apart={"construction"})
_SAMPLE = _Reader(Sample)
_READING = _Reader(Reading)
_RESULT = _Reader(Result, apart={"reading"}, start=len(_READING.names))
_DOCUMENT = _Reader(Document)


def _rows(
    connection: sqlite3.Connection,
    kind: type[_Row],
    table: str,
    conditions: Conditions,
    order: str,
) -> list[_Row]:
    """Rows of a table whose columns have the names of the fields."""
    where, values = _where(conditions)
    reader = _Reader(kind)
    text = f"SELECT {reader.columns(table)} FROM {table}{where} ORDER BY {order}"
    return [reader.value(row) for row in connection.execute(text, values)]


def wells(connection: sqlite3.Connection) -> list[Well]:
    """All wells in the order in which they were entered, each with its construction."""
    logs: dict[int, dict[str, str]] = {}
    for well, item, text in connection.execute(
        "SELECT well, item, text FROM construction ORDER BY id"
    ):
        logs.setdefault(well, {})[item] = text
    rows = connection.execute(f"SELECT {_WELL.columns('well')} FROM well ORDER BY id")
    return [_WELL.value(row, construction=logs.get(row[0], {})) for row in rows]


def points(connection: sqlite3.Connection, conditions: Conditions) -> list[Point]:
    """Sampling points, those of one well in the order of the flow."""
    return _rows(connection, Point, "point", conditions, "well, place, id")


def units(connection: sqlite3.Connection, conditions: Conditions) -> list[TreatmentUnit]:
    """Treatment units in the order of the flow."""
    order = "well, place, installed, id"
    return _rows(connection, TreatmentUnit, "treatment_unit", conditions, order)


def services(connection: sqlite3.Connection, conditions: Conditions) -> list[Service]:
    """What was done to treatment units, by day."""
    return _rows(connection, Service, "service", conditions, "day, id")


def labs(connection: sqlite3.Connection) -> list[Lab]:
    """Labs by name."""
    return _rows(connection, Lab, "lab", {}, "name")


def prices(connection: sqlite3.Connection) -> list[Price]:
    """Prices of labs, in the order of each list."""
    return _rows(connection, Price, "price", {}, "lab, id")


def samples(
    connection: sqlite3.Connection,
    conditions: Conditions,
    *,
    with_struck: bool,
    only_paid: bool = False,
    only_awaited: bool = False,
) -> list[Sample]:
    """Samples by day and time of collection."""
    where, values = _where(conditions)
    for is_wanted, condition in (
        (not with_struck, "struck = ''"),
        (only_paid, "cost != ''"),
        (only_awaited, "awaited != ''"),
    ):
        if is_wanted:
            where += (" AND " if where else " WHERE ") + condition
    columns = _SAMPLE.columns("sample", lab="coalesce(lab.name, '')", collected=_COLLECTED)
    rows = connection.execute(
        f"SELECT {columns} FROM sample LEFT JOIN lab ON lab.id = sample.lab{where}"
        " ORDER BY sample.collected, sample.id",
        values,
    )
    return [_SAMPLE.value(row) for row in rows]


_RESULTS = f"""
SELECT {_READING.columns("result")}, {
    _RESULT.columns(
        "result",
        lab="coalesce(own.name, lab.name, '')",
        draw="coalesce(nullif(result.draw, ''), sample.draw)",
        collected=_COLLECTED,
        point="point",
        received="received",
    )
}
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
    for row in connection.execute(
        f"{_RESULTS}{where} ORDER BY sample.collected, sample, result.id", values
    ):
        yield _result(row)


def _result(row: Sequence[Any]) -> Result:
    return _RESULT.value(row, reading=_reading(*row[: len(_READING.names)]))


@lru_cache(maxsize=8192)  # a well has few figures, and a history is made of them over and over
def _reading(*columns: str | None) -> Reading:
    return _READING.value(columns)


def newest(connection: sqlite3.Connection, point: int, until: date) -> Newest:
    """Where the newest results of a point lie that count and were drawn up to a day.

    One walk through the samples of the point, the latest first; nothing is kept of it.
    """
    at_point = (
        "FROM sample CROSS JOIN result ON result.sample = sample.id"
        " WHERE point = ? AND struck = '' AND collected"
    )
    by = (point, f"{until.isoformat()}{_DAY_ENDS}")
    rows = connection.execute(
        f"SELECT parameter, kind != '{Kind.NONE}', substr(collected, 1, 10), sample.id"
        f" {at_point} < ?"
        " ORDER BY collected DESC",
        by,
    )
    day_of = lru_cache(maxsize=64)(date.fromisoformat)
    found = Newest.of(
        (parameter, bool(analysed), day_of(day), sample)
        for parameter, analysed, day, sample in rows
    )
    names = connection.execute(
        f"SELECT name {at_point} < ? AND parameter = '' ORDER BY collected, sample.id, result.id",
        by,
    )
    found.unknown = tuple(dict.fromkeys(name for (name,) in names))
    found.has_later = bool(
        connection.execute(f"SELECT EXISTS (SELECT 1 {at_point} > ?)", by).fetchone()[0]
    )
    return found


def results_on(
    connection: sqlite3.Connection, point: int, days: Iterable[date]
) -> Iterator[Result]:
    """Results that count and were drawn at a point on any of some days, by day of collection."""
    text = (
        f"{_RESULTS} WHERE point = ? AND collected BETWEEN ? AND ? AND struck = ''"
        " ORDER BY collected, sample, result.id"
    )
    for day in sorted(days):
        first = day.isoformat()
        for row in connection.execute(text, (point, first, f"{first}{_DAY_ENDS}")):
            yield _result(row)


def documents(connection: sqlite3.Connection, conditions: Conditions) -> list[Document]:
    """Documents with what they belong to, once for each sample or well they belong to."""
    where, values = _where(conditions)
    rows = connection.execute(
        f"SELECT {_DOCUMENT.columns('document', sample='sample', well='well', event='event')}"
        f" FROM attachment JOIN document ON document.id = attachment.document{where}"
        " ORDER BY attachment.id",
        values,
    )
    return [_DOCUMENT.value(row) for row in rows]


def events(connection: sqlite3.Connection, conditions: Conditions) -> list[Event]:
    """Events by day."""
    return _rows(connection, Event, "event", conditions, "day, id")


def plans(connection: sqlite3.Connection, conditions: Conditions) -> list[Plan]:
    """Plans in the order in which they were made."""
    return _rows(connection, Plan, "plan", conditions, "id")


def expenses(connection: sqlite3.Connection) -> list[Expense]:
    """What else was paid for water, by day."""
    return _rows(connection, Expense, "expense", {}, "day, id")


def intervals(connection: sqlite3.Connection) -> list[UpkeepInterval]:
    """The household's own intervals of upkeep, in the order in which they were set."""
    return _rows(connection, UpkeepInterval, "upkeep_interval", {}, "id")


def answers(connection: sqlite3.Connection) -> list[InspectionAnswer]:
    """What was seen at inspections, in the order in which it was entered."""
    return _rows(connection, InspectionAnswer, "inspection_answer", {}, "id")


def settings(connection: sqlite3.Connection) -> dict[str, str]:
    """Choices of the household, by key."""
    return dict(connection.execute("SELECT key, value FROM setting ORDER BY id"))


def setting_keys(connection: sqlite3.Connection) -> dict[int, str]:
    """Keys of the household's choices, by number."""
    return dict(connection.execute("SELECT id, key FROM setting ORDER BY id"))


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
