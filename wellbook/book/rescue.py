"""Saving what can be read of a damaged book that has no good copy.

The journal tells every fact a second time. As far as its chain is whole, the record can be built
anew from it, whatever happened to the tables; documents are taken over where their bytes are still
those of their SHA-256.
"""

import hashlib
import sqlite3
from collections.abc import Iterator
from dataclasses import astuple, dataclass, fields
from pathlib import Path
from typing import Any

from wellbook.book import journal, opening
from wellbook.book.journal import Entry
from wellbook.book.schema import FACTS
from wellbook.book.writer import with_empty
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import open_regular, require_free


@dataclass(frozen=True, slots=True)
class Rescue:
    """What was saved into the new book, and what was not.

    Attributes:
        entries: Number of journal entries that were whole and in order.
        lost_entries: Number of entries after the first that could not be read.
        lost_documents: Names of documents whose bytes are gone or not what they were.
    """

    entries: int
    lost_entries: int
    lost_documents: tuple[str, ...]


def rescue(damaged: Path, target: Path) -> Rescue:
    """Build a new book from what a damaged one's journal still tells.

    Raises:
        Fault: There is a file at the target, or nothing at all can be read.
    """
    require_free(target)
    try:
        open_regular(damaged).close()
    except OSError as error:
        raise Fault(
            _("{damaged} can’t be read: {problem}.").format(damaged=damaged, problem=error.strerror)
        ) from error
    source = sqlite3.connect(f"{damaged.absolute().as_uri()}?mode=rw", uri=True)
    try:
        source.text_factory = bytes
        entries, lost = _whole(list(_readable(source)))
        if not entries:
            raise Fault(
                _("Nothing can be read of {damaged}: its journal is gone, too.").format(
                    damaged=damaged
                )
            )
        bodies = dict(_bodies(source))
    except sqlite3.Error as error:
        raise Fault(
            _("Nothing can be read of {damaged}: it is damaged from the start.").format(
                damaged=damaged
            )
        ) from error
    finally:
        source.close()
    return _build(target, entries, bodies, lost)


def _readable(source: sqlite3.Connection) -> Iterator[Entry]:
    names = [field.name for field in fields(Entry)]
    number, misses = 1, 0
    while misses < 100:  # noqa: PLR2004  a stretch of damaged pages, then the end
        try:
            row = source.execute(
                f"SELECT {', '.join(names)} FROM journal WHERE seq = ?", (number,)
            ).fetchone()
            if row is None:
                return
            values: list[Any] = [v.decode() if isinstance(v, bytes) else v for v in row]
            yield Entry(**dict(zip(names, values, strict=True)))
        except (sqlite3.Error, UnicodeDecodeError):
            misses += 1
        number += 1


def _whole(entries: list[Entry]) -> tuple[list[Entry], int]:
    """The entries up to the first that is missing or altered, and how many come after."""
    kept = list(journal.unbroken(entries))
    return kept, len(entries) - len(kept)


def _bodies(source: sqlite3.Connection) -> Iterator[tuple[str, bytes]]:
    rows = source.execute("SELECT content FROM document_body")
    while True:
        try:
            row = rows.fetchone()
        except sqlite3.Error:
            return
        if row is None:
            return
        if isinstance(row[0], bytes):
            yield hashlib.sha256(row[0]).hexdigest(), row[0]


def _build(target: Path, entries: list[Entry], bodies: dict[str, bytes], lost: int) -> Rescue:
    from sqlite_utils import Database

    told = journal.replay(entries)
    connection = opening.create(target)
    try:
        database = Database(connection, execute_plugins=False)
        with opening.faults(target), database.atomic():
            for table in FACTS:
                for row in told.get(table, {}).values():
                    database.table(table).insert(with_empty(table, row))
            documents = told.get("document", {}).values()
            wanted = {str(row["sha256"]): str(row["name"]) for row in documents}
            for sha256 in wanted.keys() & bodies.keys():
                body = {"sha256": sha256, "content": bodies[sha256]}
                database.table("document_body").insert(body)
            names = [field.name for field in fields(Entry)]
            for entry in entries:
                database.table("journal").insert(dict(zip(names, astuple(entry), strict=True)))
    finally:
        connection.close()
    gone = tuple(name for sha256, name in wanted.items() if sha256 not in bodies)
    return Rescue(len(entries), lost, gone)
