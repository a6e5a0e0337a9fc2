"""Bringing a book of an older version up to this one, with a checked copy made first."""

import sqlite3
from datetime import date
from pathlib import Path

from wellbook.book import copies, opening
from wellbook.book.schema import STEPS, VERSION
from wellbook.support.errors import Fault
from wellbook.support.translation import _


def is_older(connection: sqlite3.Connection) -> bool:
    """Whether a book was written by an older version."""
    return bool(connection.execute("PRAGMA user_version").fetchone()[0] < VERSION)


def migrate(path: Path, today: date) -> None:
    """Bring the file up to date: all steps in one transaction, after a copy of it was checked.

    Raises:
        Fault: The copy or a step failed; the file is as it was.
    """
    copies.make_copy(path, today)
    connection, _unused = opening.connect(path)
    try:
        _run(connection)
    except sqlite3.Error as error:
        raise Fault(
            _(
                "{path} is of an older version and could not be brought up to date: it is as it "
                "was. "
                "A copy lies in {folder_of}. Open it with the older Wellbook."
            ).format(path=path, folder_of=copies.folder_of(path))
        ) from error
    finally:
        connection.close()


def in_memory(connection: sqlite3.Connection) -> sqlite3.Connection:
    """A copy in memory, brought up to date, for a file that may only be read."""
    memory = sqlite3.connect(":memory:", isolation_level=None)
    connection.backup(memory)
    _run(memory)
    memory.execute("PRAGMA query_only = ON")
    return memory


def _run(connection: sqlite3.Connection) -> None:
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    steps = "".join(STEPS[step] for step in sorted(STEPS) if step > version)
    try:
        connection.executescript(
            f"BEGIN IMMEDIATE; {steps} PRAGMA user_version = {VERSION}; COMMIT;"
        )
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
