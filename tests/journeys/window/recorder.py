"""Notes what must never happen while somebody uses the window.

That is: an exception nobody caught, one the program caught and put into words, a warning of Qt.
"""

import sqlite3
import sys
import traceback

from PySide6.QtCore import QtMsgType, qInstallMessageHandler

ACCEPTED = ("This plugin does not support", "propagateSizeHints")


class Recorder:
    def __init__(self):
        self.seen = []

    def watch_traces(self):
        """Before the window's modules are imported: they take the name of what we wrap along."""
        from wellbook.support import crash_log

        kept = crash_log.write_trace

        def write_trace(error):
            self.seen.append("caught and worded: " + _told(error))
            return kept(error)

        crash_log.write_trace = write_trace

    def watch_qt(self):
        qInstallMessageHandler(self._on_message)

    def watch_hook(self):
        """After the program put its own hook in place."""
        theirs = sys.excepthook

        def hook(kind, error, trace):
            self.seen.append("uncaught: " + _told(error))
            theirs(kind, error, trace)

        sys.excepthook = hook

    def _on_message(self, kind, _context, text):
        if kind is not QtMsgType.QtDebugMsg and not any(known in text for known in ACCEPTED):
            self.seen.append(f"Qt: {text}")

    def take(self):
        taken, self.seen = self.seen, []
        return taken


def _told(error):
    return "".join(traceback.format_exception(error)[-3:])


def entries(path):
    """How many entries the journal of a book holds."""
    book = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    try:
        return book.execute("SELECT count(*) FROM journal").fetchone()[0]
    finally:
        book.close()
