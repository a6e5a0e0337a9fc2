"""Looking a whole book over: does the file hold, do the facts agree with the journal.

What it proves: the file is not damaged, and no fact was changed outside Wellbook since it was
written down. What it can't: that a lab's figure is right, or that nobody rebuilt the journal.
"""

import hashlib
import sqlite3
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path

from wellbook.book import journal, opening, reader
from wellbook.book.rows import Lab, Sample, covers
from wellbook.book.schema import FACTS
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity


def check(path: Path, catalogue: Catalogue, today: date) -> tuple[Finding, ...]:
    """Everything that is wrong with a book, in plain words; nothing if all is well.

    A book of an older version is looked over as it will be once it is brought up to date.

    Raises:
        Fault: It can't even be opened as a book.
    """
    connection, _unused = opening.connect(path, readonly=True)
    if opening.is_older(connection):
        connection = opening.in_memory(connection, path)
    parts: tuple[Iterator[Finding], ...] = (
        _file(connection),
        _facts(connection),
        _documents(connection),
        _samples(connection, today),
        _names(connection, catalogue),
        _labs(connection),
    )
    try:
        return tuple(finding for part in parts for finding in _guarded(part))
    finally:
        connection.close()


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
        yield Finding(
            "file",
            _("A part of the file can't be read: {error}.").format(error=error),
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
    if opening.tables(connection) != opening.own_tables():
        text = _("The tables of the file are not those of a book of this version.")
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
    entries = list(reader.entries(connection))
    for line in journal.broken_links(entries):
        yield Finding("journal", line, severity=Severity.STOP)
    for line in journal.differences(journal.replay(entries), reader.facts(connection)):
        yield Finding("fact", line[0].upper() + line[1:], severity=Severity.STOP)


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
        where = _("test of {day}").format(day=sample.collected.day.isoformat())
        if sample.collected.day > today:
            yield Finding("date", _("The {where} lies in the future.").format(where=where), where)
        if sample.received and sample.received.day < sample.collected.day:
            text = _("The {where} was received by the lab before it was drawn.").format(where=where)
            yield Finding("date", text, where)


def _names(connection: sqlite3.Connection, catalogue: Catalogue) -> Iterator[Finding]:
    for (key,) in connection.execute("SELECT DISTINCT parameter FROM result ORDER BY parameter"):
        if key and key not in catalogue.parameters:
            text = _(
                "Results are kept for '{key}', which this Wellbook's catalogue does not know."
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
