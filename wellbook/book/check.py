"""Looking a whole book over: does the file hold, do the facts agree with the journal.

What it proves: the file is not damaged, and no fact was changed outside Wellbook since it was
written down. What it can't: that a lab's figure is right, or that nobody rebuilt the journal.
"""

import hashlib
import json
import sqlite3
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path

from wellbook.book import journal, opening, reader
from wellbook.book.record import covers
from wellbook.book.rows import Lab, Sample
from wellbook.book.schema import FACTS
from wellbook.book.writer import Row, is_interrupted, readers
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity


def check(path: Path, catalogue: Catalogue, today: date) -> tuple[Finding, ...]:
    """Everything that is wrong with a book, in plain words; nothing if all is well.

    A book of an older version is looked over as it will be once it is brought up to date. When this
    program begins to write the book, it steps aside, and begins anew after that.

    Raises:
        Fault: It can't even be opened as a book.
    """
    while True:
        connection, _unused = opening.connect(path, readonly=True)
        try:
            if opening.is_older(connection):
                connection = opening.in_memory(connection, path)
            with readers.stepping_aside(path, connection):
                return _look_over(connection, catalogue, today)
        except sqlite3.OperationalError as error:
            if not is_interrupted(error):
                raise
        finally:
            connection.close()


def _look_over(
    connection: sqlite3.Connection, catalogue: Catalogue, today: date
) -> tuple[Finding, ...]:
    parts: tuple[Iterator[Finding], ...] = (
        _file(connection),
        _facts(connection),
        _documents(connection),
        _samples(connection, today),
        _names(connection, catalogue),
        _labs(connection),
    )
    return tuple(finding for part in parts for finding in _guarded(part))


def damage(connection: sqlite3.Connection) -> Iterator[Finding]:
    """What is wrong with the file itself and what its journal tells, without the catalogue."""
    for part in (_file(connection), _facts(connection), _documents(connection)):
        yield from _guarded(part)


def _guarded(part: Iterator[Finding]) -> Iterator[Finding]:
    """Go on with the other parts when one meets something that can't be read at all."""
    try:
        yield from part
    except (
        sqlite3.Error,
        ValueError,
        ArithmeticError,
        LookupError,
        TypeError,
        AttributeError,
    ) as error:
        if is_interrupted(error):
            raise
        yield Finding(
            "file",
            _("A part of the file can’t be read: {error}.").format(error=error),
            severity=Severity.STOP,
        )


def _file(connection: sqlite3.Connection) -> Iterator[Finding]:
    for (line,) in connection.execute("PRAGMA integrity_check"):
        if line != "ok":
            yield Finding(
                "file", _("The file is damaged: {line}.").format(line=line), severity=Severity.STOP
            )
    for table, number, parent, _unused in connection.execute("PRAGMA foreign_key_check"):
        text = _("Row {number} of {table} points to a row of {parent} that is not there.").format(
            number=number, table=table, parent=parent
        )
        yield Finding("reference", text, severity=Severity.STOP)
    if names := opening.foreign(connection):
        text = _("The tables of the file are not those of a book of this version ({names}).")
        text = text.format(names=names)
        yield Finding("schema", text, severity=Severity.STOP)
    yield from _numbers(connection)


def _numbers(connection: sqlite3.Connection) -> Iterator[Finding]:
    """A table's next number must be free."""
    for table in FACTS:
        last, used = connection.execute(
            f"SELECT (SELECT max(seq) FROM sqlite_sequence WHERE name = '{table}'), max(id)"
            f" FROM {table}"
        ).fetchone()
        if used is not None and (last is None or last < used):
            text = _("The next number of a row of {table} is taken already.").format(table=table)
            yield Finding("number", text, severity=Severity.STOP)


def _facts(connection: sqlite3.Connection) -> Iterator[Finding]:
    comparison = _Comparison(connection)
    entries = comparison.passing(reader.entries(connection))
    for line in journal.broken_links(entries):
        yield Finding("journal", line, severity=Severity.STOP)
    for _entry in entries:  # those behind one that is missing
        pass
    for line in journal.differences(*comparison.rest()):
        yield Finding("fact", line[0].upper() + line[1:], severity=Severity.STOP)


class _Comparison:
    """The facts beside what the journal tells of them, entry by entry.

    A row that is now as it was first entered needs not be remembered; only its number is.
    """

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self._told: journal.Record = {table: {} for table in FACTS}
        self._same = {table: _Numbers() for table in FACTS}
        self._error: Exception | None = None

    def passing(self, entries: Iterable[journal.Entry]) -> Iterator[journal.Entry]:
        """The entries, each heeded once it was looked at."""
        for entry in entries:
            yield entry
            if self._error is None:
                try:
                    for change in json.loads(entry.changes):
                        self._heed(*change)
                except (ValueError, LookupError, TypeError, AttributeError) as error:
                    self._error = error

    def rest(self) -> tuple[journal.Record, journal.Record]:
        """What is told of rows that changed or differ, and what they and untold rows hold.

        Raises:
            Exception: An entry could not be understood.
        """
        if self._error is not None:
            raise self._error
        found: journal.Record = {}
        for table in FACTS:
            told, same = self._told[table], self._same[table]
            ids = self._connection.execute(f"SELECT id FROM {table}")
            wanted = [number for (number,) in ids if number in told or number not in same]
            found[table] = {number: self._row(table, number) or {} for number in wanted}
        return {table: rows for table, rows in self._told.items() if rows}, found

    def _heed(self, table: str, number: int, before: Row | None, after: Row | None) -> None:
        rows, same = self._told.setdefault(table, {}), self._same.get(table)
        if before is not None and same is not None and number in same:
            same.drop(number)
            rows[number] = self._row(table, number) or {}
        if after is None:
            rows.pop(number, None)
        elif before is not None:
            rows[number] = journal.kept({**rows.get(number, {}), **after})
        elif same is not None and self._row(table, number) == after:
            rows.pop(number, None)
            same.add(number)
        else:
            if same is not None:
                same.drop(number)
            rows[number] = after

    def _row(self, table: str, number: int) -> Row | None:
        cursor = self._connection.execute(f"SELECT * FROM {table} WHERE id = ?", (number,))
        row = cursor.fetchone()
        if row is None:
            return None
        names = (column[0] for column in cursor.description)
        return journal.kept(dict(zip(names, row, strict=True)))


class _Numbers:
    """Numbers of rows, most of which follow each other."""

    def __init__(self) -> None:
        self._firsts: list[int] = []
        self._lasts: list[int] = []
        self._single: set[int] = set()
        self._dropped: set[int] = set()

    def __contains__(self, number: int) -> bool:
        if number in self._dropped:
            return False
        place = bisect_right(self._firsts, number) - 1
        return number in self._single or (place >= 0 and number <= self._lasts[place])

    def add(self, number: int) -> None:
        """Put a number in."""
        self._dropped.discard(number)
        if number in self:
            return
        if self._lasts and number == self._lasts[-1] + 1:
            self._lasts[-1] = number
        elif not self._lasts or number > self._lasts[-1]:
            self._firsts.append(number)
            self._lasts.append(number)
        else:
            self._single.add(number)

    def drop(self, number: int) -> None:
        """Take a number out if it is in."""
        if number in self:
            self._single.discard(number)
            self._dropped.add(number)


def _documents(connection: sqlite3.Connection) -> Iterator[Finding]:
    rows = connection.execute(
        "SELECT name, sha256, content FROM document LEFT JOIN document_body USING (sha256)"
    )
    for name, sha256, content in rows:
        if content is None:
            yield Finding(
                "document",
                _("The content of {name} is missing.").format(name=name),
                severity=Severity.STOP,
            )
        elif hashlib.sha256(content).hexdigest() != sha256:
            text = _("The content of {name} is not what was put in.").format(name=name)
            yield Finding("document", text, severity=Severity.STOP)


def _samples(connection: sqlite3.Connection, today: date) -> Iterator[Finding]:
    for sample in reader.samples(connection, {}, with_struck=True):
        where = _("test of {day}").format(day=str(sample.collected.day))
        if sample.collected.day > today:
            yield Finding("date", _("The {where} lies in the future.").format(where=where), where)
        if sample.received and sample.received.day < sample.collected.day:
            text = _("The {where} was received by the lab before it was drawn.").format(where=where)
            yield Finding("date", text, where)


def _names(connection: sqlite3.Connection, catalogue: Catalogue) -> Iterator[Finding]:
    for (key,) in connection.execute("SELECT DISTINCT parameter FROM result ORDER BY parameter"):
        if key and key not in catalogue.parameters:
            text = _(
                "Results are kept for '{key}', which this Wellbook’s catalogue does not know."
            ).format(key=key)
            yield Finding("catalogue", text, severity=Severity.ASK)


def _labs(connection: sqlite3.Connection) -> Iterator[Finding]:
    samples = reader.samples(connection, {}, with_struck=False)
    yield from lab_warnings(reader.labs(connection), samples)


def lab_warnings(labs: Iterable[Lab], samples: Iterable[Sample]) -> Iterator[Finding]:
    """Samples whose lab was not accredited on the day they were drawn, as far as is known."""
    known = {lab.name: lab for lab in labs}
    for sample in samples:
        lab, day = known.get(sample.lab), sample.collected.day
        if lab is not None and covers(lab, day) is False:
            bounds = f"{lab.valid_from or '?'} to {lab.valid_to or 'now'}"
            yield Finding(
                "accreditation",
                _(
                    "The accreditation entered for {lab} ({bounds}) does not cover the test of "
                    "{day}. Ask the lab for its certificate of that day."
                ).format(lab=lab.name, bounds=bounds, day=day.isoformat()),
                where=_("test of {day}").format(day=day.isoformat()),
                severity=Severity.ASK,
            )
