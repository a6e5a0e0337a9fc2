"""Reading a book: what the record holds, as values."""

import hashlib
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import date, datetime
from pathlib import Path

from wellbook.book import journal, opening, reader
from wellbook.book.journal import Entry, Step
from wellbook.book.record import Newest, Record
from wellbook.book.rows import (
    Document,
    Event,
    Lab,
    Plan,
    Point,
    Price,
    Sample,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.book.writer import FIRST_DIGEST
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.results import Result

LARGEST_JOURNAL = 5_000_000  # characters; about half a second to read


class ReadBook:
    """Reads what an open book holds. Nothing here changes it.

    Attributes:
        path: The file.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self.path = path
        self._connection = connection

    def record(self) -> Record:
        """What the book holds, as values of one state of it; tests are read when asked for."""
        with self._reading() as connection, self._one_state():
            return Record(
                wells=tuple(reader.wells(connection)),
                points=tuple(reader.points(connection, {})),
                units=tuple(reader.units(connection, {})),
                services=tuple(reader.services(connection, {})),
                labs=tuple(reader.labs(connection)),
                events=tuple(reader.events(connection, {})),
                plans=tuple(reader.plans(connection, {})),
                documents=tuple(reader.documents(connection, {})),
                expenses=tuple(reader.expenses(connection)),
                intervals=tuple(reader.intervals(connection)),
                answers=tuple(reader.answers(connection)),
                settings=reader.settings(connection),
                setting_keys=reader.setting_keys(connection),
                digest=self.digest(),
                tests=self,
                archive=self,
                begun=self.begun(),
                prices=tuple(reader.prices(connection)),
                drawn=tuple(reader.samples(connection, {}, with_struck=False, only_awaited=True)),
            )

    def wells(self) -> list[Well]:
        """All wells in the order in which they were entered."""
        with self._reading() as connection:
            return reader.wells(connection)

    def points(self, well: int | None = None) -> list[Point]:
        """Sampling points, those of one well in the order of the flow."""
        with self._reading() as connection:
            return reader.points(connection, {"well": well})

    def point(self, number: int) -> Point:
        """One sampling point.

        Raises:
            LookupError: There is none with that number.
        """
        with self._reading() as connection:
            found = reader.points(connection, {"id": number})
        if not found:
            raise LookupError(f"no point {number}")
        return found[0]

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> list[Sample]:
        """Samples by day of collection; struck ones only when asked for."""
        with self._reading() as connection:
            return reader.samples(connection, {"point": point}, with_struck=with_struck)

    def paid(self) -> list[Sample]:
        """Samples that count and whose cost was entered, by day of collection."""
        with self._reading() as connection:
            return reader.samples(connection, {}, with_struck=False, only_paid=True)

    def sample(self, number: int) -> Sample:
        """One sample, struck or not.

        Raises:
            LookupError: There is none with that number.
        """
        with self._reading() as connection:
            found = reader.samples(connection, {"sample.id": number}, with_struck=True)
        if not found:
            raise LookupError(f"no sample {number}")
        return found[0]

    def results(
        self,
        point: int | None = None,
        parameter: str | None = None,
        sample: int | None = None,
        *,
        with_struck: bool = False,
    ) -> list[Result]:
        """Results by day of collection; those of struck samples only when asked for."""
        conditions: reader.Conditions = {
            "point": point,
            "parameter": parameter,
            "sample": sample,
        }
        with self._reading() as connection:
            return list(reader.results(connection, conditions, with_struck=with_struck))

    def newest(self, point: int, until: date) -> Newest:
        """Where the newest results of a point lie that count and were drawn up to a day."""
        with self._reading() as connection:
            return reader.newest(connection, point, until)

    def results_on(self, point: int, days: Iterable[date]) -> list[Result]:
        """Results that count and were drawn at a point on any of some days, by day."""
        with self._reading() as connection:
            return list(reader.results_on(connection, point, days))

    def documents(self, sample: int | None = None, well: int | None = None) -> list[Document]:
        """Documents kept beside a sample or a well, or all of them."""
        with self._reading() as connection:
            return reader.documents(connection, {"sample": sample, "well": well})

    def content(self, document: int) -> bytes:
        """The bytes of a document, checked against its SHA-256.

        Raises:
            LookupError: There is no such document.
            Fault: The bytes are not those that were put in.
        """
        with self._reading() as connection:
            row = connection.execute(
                "SELECT content, sha256, name FROM document LEFT JOIN document_body"
                " USING (sha256)"
                " WHERE id = ?",
                (document,),
            ).fetchone()
        if row is None:
            raise LookupError(f"no document {document}")
        content = row[0]
        if not isinstance(content, bytes) or hashlib.sha256(content).hexdigest() != row[1]:
            raise Fault(
                _(
                    "The document {row} in {path} is damaged: its content is not what was "
                    "put in. Take it from a copy of the book."
                ).format(row=row[2], path=self.path)
            )
        return content

    def events(self, well: int | None = None) -> list[Event]:
        """Events by day."""
        with self._reading() as connection:
            return reader.events(connection, {"well": well})

    def units(self, well: int | None = None) -> list[TreatmentUnit]:
        """Treatment units in the order of the flow."""
        with self._reading() as connection:
            return reader.units(connection, {"well": well})

    def services(self, unit: int | None = None) -> list[Service]:
        """What was done to the treatment units, by day."""
        with self._reading() as connection:
            return reader.services(connection, {"unit": unit})

    def labs(self) -> list[Lab]:
        """Labs by name."""
        with self._reading() as connection:
            return reader.labs(connection)

    def prices(self) -> list[Price]:
        """Prices of labs, in the order of each list."""
        with self._reading() as connection:
            return reader.prices(connection)

    def plans(self, point: int | None = None) -> list[Plan]:
        """Plans: which panel is to be tested how often at which point."""
        with self._reading() as connection:
            return reader.plans(connection, {"point": point})

    def setting(self, key: str, default: str = "") -> str:
        """A choice of the household, such as its limit sets."""
        with self._reading() as connection:
            row = connection.execute("SELECT value FROM setting WHERE key = ?", (key,)).fetchone()
        return str(row[0]) if row else default

    def journal(self) -> list[Entry]:
        """Every write that was ever made, in order."""
        with self._reading() as connection:
            return list(reader.entries(connection))

    def last_entry(self) -> int:
        """Number of the journal's last entry; 0 for a new book."""
        with self._reading() as connection:
            row = connection.execute("SELECT max(seq) FROM journal").fetchone()
        return int(row[0] or 0)

    def to_undo(self) -> Step | None:
        """What `undo` would take back; None if nothing is left."""
        entries = self.journal()
        entry = journal.to_undo(entries)
        return Step(entry.seq, journal.first_cause(entries, entry)) if entry else None

    def to_redo(self) -> list[Step]:
        """What `redo` can enter again, in the order in which it would, until something is new."""
        with self._reading() as connection:
            last = connection.execute(
                "SELECT undoes FROM journal ORDER BY seq DESC LIMIT 1"
            ).fetchone()
        if last is None or last[0] is None:  # the usual case, told without the whole journal
            return []
        entries = self.journal()
        undone = reversed(journal.all_to_redo(entries))
        return [Step(entry.seq, journal.first_cause(entries, entry)) for entry in undone]

    def journal_day(self) -> date | None:
        """Local day of the last write; None for a new book."""
        with self._reading() as connection:
            row = connection.execute("SELECT at FROM journal ORDER BY seq DESC LIMIT 1").fetchone()
        return datetime.fromisoformat(row[0]).astimezone().date() if row else None

    def begun(self) -> date | None:
        """Local day of the first write; None for a new book."""
        with self._reading() as connection:
            row = connection.execute("SELECT at FROM journal ORDER BY seq LIMIT 1").fetchone()
        return datetime.fromisoformat(row[0]).astimezone().date() if row else None

    def identity(self) -> str:
        """Digest of the first entry: it goes with the record wherever the file is moved."""
        with self._reading() as connection:
            row = connection.execute("SELECT digest FROM journal ORDER BY seq LIMIT 1").fetchone()
        return str(row[0]) if row else ""

    def changes(self, first: date, last: date) -> list[Entry]:
        """What was written between two local days, both included."""
        return [
            entry
            for entry in self.journal()
            if first <= datetime.fromisoformat(entry.at).astimezone().date() <= last
        ]

    def doubts(self) -> tuple[str, ...]:
        """Where facts are not as the journal tells, in words; quick, so asked at each opening.

        A book whose journal is larger than `LARGEST_JOURNAL` is not looked over here; `check`
        looks over any book, and its documents too.
        """
        with self._reading() as connection:
            row = connection.execute("SELECT sum(length(changes)) FROM journal").fetchone()
            if (row[0] or 0) > LARGEST_JOURNAL:
                return ()
            entries = list(reader.entries(connection))
            told = journal.replay(entries)
            found = reader.facts(connection)
        return (*journal.broken_links(entries), *journal.differences(told, found))

    def digest(self) -> str:
        """Digest of the journal's last entry: it names this state of the record."""
        with self._reading() as connection:
            row = connection.execute(
                "SELECT digest FROM journal ORDER BY seq DESC LIMIT 1"
            ).fetchone()
        return str(row[0]) if row else FIRST_DIGEST

    @contextmanager
    def _one_state(self) -> Iterator[None]:
        """Several reads of one state, whoever else writes meanwhile."""
        if self._connection.in_transaction:
            yield
            return
        self._connection.execute("BEGIN")
        try:
            yield
        finally:
            self._connection.execute("ROLLBACK")

    @contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        try:
            with opening.faults(self.path):
                yield self._connection
        except (
            ValueError, ArithmeticError, TypeError, AttributeError, LookupError, RecursionError,
        ) as error:  # fmt: skip
            # STRICT and the constraints let no such value in: a broken disk put it there.
            raise Fault(opening.damaged(self.path)) from error
