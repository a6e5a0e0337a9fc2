"""The one write path: a transaction that changes facts and journals every change of them.

Which calls commit: each public write of `Book` is exactly one `writing` block, and the block is
exactly one SQLite transaction, begun IMMEDIATE. Nothing else in the program writes to a book.

Every entry of the journal carries the SHA-256 digest of the entry before it. The chain shows
that the entries are whole and in order, and, compared with the tables, that no fact was changed
by something that is not Wellbook. It can't show that a lab's figure is genuine, and somebody who
rebuilds the whole chain by program leaves no trace unless an earlier digest is kept elsewhere.
"""

import hashlib
import json
import sqlite3
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import lru_cache
from itertools import chain, islice
from json.encoder import encode_basestring as _quoted
from pathlib import Path
from threading import Condition
from typing import TYPE_CHECKING, Any

from wellbook.book.schema import FACTS

if TYPE_CHECKING:
    from sqlite_utils.db import Database, Table

Value = str | int | None
Row = dict[str, Value]
Change = tuple[str, int, Row | None, Row | None]  # table, id, before, after

_BOUND = 900  # cells of one statement; any SQLite takes 999
FIRST_DIGEST = "0" * 64
_STEPS = 1000  # of SQLite's machine, after which a reader looks whether it is to step aside
_ASK_AGAIN = 0.01  # seconds
_LONGEST = 60.0  # seconds that a write waits for readers of this program
_plain = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
_canonical = json.JSONEncoder(sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode


def digest_of(previous: str, fields: Mapping[str, object]) -> str:
    """SHA-256 over the previous digest and the entry's fields as canonical JSON."""
    return hashlib.sha256(f"{previous}\n{_canonical(fields)}".encode()).hexdigest()


# What a table wants said although it may be empty, as the text of a result that was not analysed.
_MAY_BE_EMPTY = {
    "result": ("text",),
    "construction": ("text",),
    "setting": ("value",),
    "plan": ("panel",),
}


def with_empty(table: str, kept: Row) -> Row:
    """A row as a table takes it again; the journal leaves out what is empty."""
    return {**dict.fromkeys(_MAY_BE_EMPTY.get(table, ()), ""), **kept}


def told(columns: Iterable[str], cells: Iterable[Value]) -> str:
    """The cells of a row that are not empty as the journal has them, behind those before them."""
    return "".join(
        [
            f',"{column}":{_quoted(value) if isinstance(value, str) else _plain(value)}'
            for column, value in zip(columns, cells, strict=True)
            if value or value == 0
        ]
    )


def _added(table: str, number: int, told: str) -> str:
    """A new row as the journal has it."""
    return f'["{table}",{number},null,{{"id":{number}{told}}}]'


@lru_cache(maxsize=128)
def _into(table: str, columns: tuple[str, ...], rows: int = 1) -> str:
    marks = f"({', '.join('?' * len(columns))})"
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES {', '.join([marks] * rows)}"


@dataclass(slots=True)
class Writer:
    """Changes facts inside one transaction and remembers what it changed.

    Attributes:
        connection: To the book.
        now: Tells the time.
        as_one: What the whole transaction is, if it is to be one entry of the journal.
    """

    connection: sqlite3.Connection
    now: Callable[[], datetime]
    as_one: str = ""
    _changes: list[str] = field(default_factory=list)  # each as the journal has it
    # Known once they were read: nobody else writes before the transaction ends.
    _next: dict[str, int] = field(default_factory=dict)
    _last: tuple[int, str] | None = None
    _empty: dict[str, dict[str, str | None]] = field(default_factory=dict)  # by table and column
    _database: "Database | None" = None

    def insert(self, table: str, values: Row) -> int:
        """Add one row and return its number."""
        number, empty = self._next_id(table), self._empty_cells(table)
        filled = {k: v for k, v in values.items() if k not in empty or v != empty[k]}
        into = _into(table, ("id", *filled))
        self.connection.execute(into, (number, *filled.values()))
        self._changes.append(_added(table, number, told(values, values.values())))
        self._next[table] = number + 1
        return number

    def insert_all(self, table: str, rows: Iterable[Row]) -> list[int]:
        """Add rows, all with the same columns, and return their numbers."""
        given = list(rows)
        columns = tuple(given[0]) if given else ()
        return self.insert_cells(table, columns, [tuple(row.values()) for row in given])

    def insert_cells(
        self, table: str, columns: Sequence[str], rows: Iterable[tuple[Value, ...]]
    ) -> list[int]:
        """Add rows whose values stand in the order of some columns, and return their numbers."""
        given = list(rows)
        return self.insert_told(table, columns, given, [told(columns, row) for row in given])

    def insert_told(
        self,
        table: str,
        columns: Sequence[str],
        rows: Sequence[tuple[Value, ...]],
        changes: Iterable[str],
    ) -> list[int]:
        """The same; `changes` has what is `told` of each row, which rows may share."""
        first = self._next_id(table)
        numbers = range(first, first + len(rows))
        if not rows:
            return []
        # The library's insert_all looks at every cell: most of the time, for a large file.
        by_column = list(zip(*rows, strict=True))
        filled = self._filled(table, columns, by_column)
        names = ("id", *(columns[i] for i in filled))
        cells = zip(numbers, *(by_column[i] for i in filled), strict=True)
        # Rows that go in by one statement take SQLite half as long as one by one.
        while some := list(islice(cells, max(1, _BOUND // len(names)))):
            into = _into(table, names, len(some))
            self.connection.execute(into, list(chain.from_iterable(some)))
        self._changes += [_added(table, n, row) for n, row in zip(numbers, changes, strict=True)]
        self._next[table] = numbers.stop
        return list(numbers)

    def _filled(
        self, table: str, columns: Sequence[str], by_column: Sequence[tuple[Value, ...]]
    ) -> list[int]:
        """Indexes of the columns in which some row holds more than the table puts there itself.

        To bind and check the other columns takes SQLite as long as these, for a large file.
        """
        empty = self._empty_cells(table)
        return [
            i
            for i, cells in enumerate(by_column)
            if columns[i] not in empty or cells.count(empty[columns[i]]) < len(cells)
        ]

    def _empty_cells(self, table: str) -> dict[str, str | None]:
        """What a table puts into a column itself, where it does."""
        if table not in self._empty:
            info = self.connection.execute(f"PRAGMA table_info({table})").fetchall()
            self._empty[table] = {
                name: "" if default else None
                for _n, name, _type, needed, default, _key in info
                if default == "''" or (default is None and not needed)
            }
        return self._empty[table]

    def update(self, table: str, number: int, values: Row) -> None:
        """Change some columns of one row; columns that stay the same are not journaled."""
        old = self._row(table, number)
        before = {key: old[key] for key, value in values.items() if old[key] != value}
        if before:
            after = {key: values[key] for key in before}
            self._table(table).update(number, after)
            self._changes.append(_plain((table, number, before, after)))

    def remove(self, table: str, number: int) -> None:
        """Take out one row; the journal keeps what it said."""
        old: Row = {k: v for k, v in self._row(table, number).items() if v not in ("", None)}
        self._table(table).delete(number)
        self._changes.append(_plain((table, number, old, None)))

    def body(self, sha256: str, content: bytes) -> None:
        """Keep the bytes of a document; the journal knows them by their SHA-256."""
        held = self.connection.execute(
            "SELECT 1 FROM document_body WHERE sha256 = ?", (sha256,)
        ).fetchone()
        if not held:
            into = _into("document_body", ("sha256", "content"))
            self.connection.execute(into, (sha256, content))

    def reverse(self, changes: Sequence[Change]) -> None:
        """Put back what a journal entry changed; the bytes of documents are never removed."""
        for table, number, before, after in reversed(changes):
            if before is None:
                self.remove(table, number)
            elif after is None:
                self._table(table).insert(with_empty(table, before))
                self._changes.append(_plain((table, number, None, before)))
            else:
                self.update(table, number, before)

    def note(self, action: str, reason: str = "", undoes: int | None = None) -> None:
        """Write all changes since the last note into the journal as one entry."""
        if not self._changes or self.as_one:
            return
        before, previous = self._last or self._last_entry()
        seq = before + 1
        fields: dict[str, Any] = {
            "seq": seq,
            "at": self.now().astimezone(UTC).isoformat(timespec="seconds"),
            "action": action,
            "reason": reason,
            "undoes": undoes,
            "changes": f"[{','.join(self._changes)}]",
        }
        digest = digest_of(previous, fields)
        columns, marks = ", ".join(fields), ", ".join("?" * len(fields))
        self.connection.execute(
            f"INSERT INTO journal ({columns}, digest) VALUES ({marks}, ?)",
            (*fields.values(), digest),
        )
        self._last = seq, digest
        self._changes.clear()

    def close(self) -> None:
        """Refuse to end a transaction with changes that no journal entry tells of."""
        if self._changes:
            raise AssertionError("a write ended without a journal entry")

    def _last_entry(self) -> tuple[int, str]:
        """Number and digest of the journal's last entry; 0 in a journal without any."""
        found = self.connection.execute(
            "SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1"
        ).fetchone()
        return (found[0], found[1]) if found else (0, FIRST_DIGEST)

    def _next_id(self, table: str) -> int:
        if table in self._next:
            return self._next[table]
        if table not in FACTS:
            raise AssertionError(f"{table} is not a table of facts")
        row = self.connection.execute(
            "SELECT seq FROM sqlite_sequence WHERE name = ?", (table,)
        ).fetchone()
        return row[0] + 1 if row else 1

    def _table(self, name: str) -> "Table":
        if self._database is None:
            from sqlite_utils import Database  # what only adds rows does without it

            self._database = Database(self.connection, execute_plugins=False)
        return self._database.table(name)

    def _row(self, table: str, number: int) -> Row:
        cursor = self.connection.execute(
            f"SELECT * FROM {table} WHERE id = ?",
            (number,),
        )
        found = cursor.fetchone()
        if found is None:
            raise LookupError(f"no row {number} in {table}")
        names = [column[0] for column in cursor.description]
        return dict(zip(names, found, strict=True))


class Readers:
    """What else in this program reads a file that is written, so that no write fails by it.

    SQLite lets a write in when nobody reads, and no reader can be told from another program's. So
    what can begin anew steps aside when a write begins, and a write waits for the others.
    """

    def __init__(self) -> None:
        self._changed = Condition()
        self._yielding: dict[Path, set[sqlite3.Connection]] = {}
        self._staying: Counter[Path] = Counter()
        self._writes: Counter[Path] = Counter()

    @contextmanager
    def stepping_aside(self, path: Path, connection: sqlite3.Connection) -> Iterator[None]:
        """Read once no write is under way; when one begins, what is read ends interrupted."""
        key = path.resolve()
        with self._changed:
            self._changed.wait_for(lambda: not self._writes[key])
            self._yielding.setdefault(key, set()).add(connection)
        connection.set_progress_handler(lambda: self._writes[key] > 0, _STEPS)
        try:
            yield
        finally:
            connection.set_progress_handler(None, 0)
            with self._changed:
                self._yielding[key].discard(connection)
                self._changed.notify_all()

    def stays(self, path: Path) -> None:
        """Somebody reads a file who can't begin anew; a write waits for that."""
        with self._changed:
            self._staying[path.resolve()] += 1

    def leaves(self, path: Path) -> None:
        """Whoever stayed has closed the file."""
        with self._changed:
            self._staying[path.resolve()] -= 1

    @contextmanager
    def writing(self, path: Path) -> Iterator[None]:
        """Write once all that can step aside have done so."""
        key, until = path.resolve(), time.monotonic() + _LONGEST
        with self._changed:
            self._writes[key] += 1
            while (reading := self._yielding.get(key)) and time.monotonic() < until:
                for connection in reading:
                    connection.interrupt()
                self._changed.wait(_ASK_AGAIN)
        try:
            yield
        finally:
            with self._changed:
                self._writes[key] -= 1
                self._changed.notify_all()

    def commit(self, path: Path, connection: sqlite3.Connection) -> None:
        """Commit, and again while it is this program that reads the file.

        Raises:
            sqlite3.Error: It can't be.
        """
        key, until = path.resolve(), time.monotonic() + _LONGEST
        while True:
            try:
                connection.execute("COMMIT")
            except sqlite3.OperationalError as error:
                is_ours = self._staying[key] > 0 and time.monotonic() < until
                if error.sqlite_errorname != "SQLITE_BUSY" or not is_ours:
                    raise
            else:
                return


readers = Readers()


def is_interrupted(error: Exception) -> bool:
    """Whether a reader was asked to step aside."""
    return getattr(error, "sqlite_errorname", "") == "SQLITE_INTERRUPT"


@contextmanager
def writing(
    connection: sqlite3.Connection, path: Path, now: Callable[[], datetime]
) -> Iterator[Writer]:
    """One transaction: committed whole when the block ends, gone whole when it raises."""
    with readers.writing(path):
        connection.execute("BEGIN IMMEDIATE")
        try:
            writer = Writer(connection, now)
            yield writer
            writer.close()
            readers.commit(path, connection)
        except BaseException:
            if connection.in_transaction:  # a full disk rolls back by itself
                connection.execute("ROLLBACK")
            raise
