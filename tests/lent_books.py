"""Notices who asks the connection of an open book while the book is lent to another thread.

SQLite lets one of two threads wait for the other, and Python's sqlite3 waits with the lock that
all of Python needs: a painted line could so keep a write waiting for a reader that can't go on.
"""

import sqlite3
import threading
import traceback
from contextlib import contextmanager
from types import ModuleType

from wellbook.book import opening

asked = []  # where the thread that had lent a book asked it all the same


class Connection(sqlite3.Connection):
    """A connection that knows which thread has lent it away."""

    lender = None

    def execute(self, *words):
        if self.lender == threading.get_ident():
            asked.append("".join(traceback.format_stack(limit=12)))
        return super().execute(*words)


def _connect(*words, **more):
    return sqlite3.connect(*words, factory=Connection, **more)


def watch_connections():
    """Have the books that this process opens from now on watched."""
    watched = ModuleType("sqlite3")
    watched.__dict__.update(sqlite3.__dict__, connect=_connect)
    opening.sqlite3 = watched


def watch_lending():
    """Notice from now on when a watched book is lent."""
    from wellbook.window.common.household import RecordReader

    lent = RecordReader.lent

    @contextmanager
    def noticed(reader):
        connection = reader._book._connection
        connection.lender = threading.get_ident()
        try:
            with lent(reader):
                yield
        finally:
            connection.lender = None

    RecordReader.lent = noticed


def take():
    """Where a lent book was asked since this was last called."""
    taken = asked[:]
    asked.clear()
    return taken
