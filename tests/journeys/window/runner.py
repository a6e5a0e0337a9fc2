"""Starts the real program in this process, and lets a journey use it.

Usage: runner.py JOURNEY REPORT FOLDER BOOK [BOOK …]; the report is JSON. The first book is opened.
"""

import importlib
import json
import os
import sys
import traceback
from pathlib import Path

import lent_books
import readers
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QApplication
from recorder import Recorder


class Told:
    """What a journey saw.

    Attributes:
        tried: What was pressed, wheeled or opened.
        failures: What went wrong, each with what was done before it.
    """

    def __init__(self, recorder, folder, books):
        self.recorder, self.folder, self.books = recorder, folder, books
        self.tried, self.failures, self.facts = [], [], {}

    def note(self, what):
        """Something was tried; what the recorder noted meanwhile belongs to it."""
        self.tried.append(what)
        self.failures += [f"{what}: {seen}" for seen in (*self.recorder.take(), *lent_books.take())]

    def fail(self, what):
        self.failures.append(what)


def speak_loudly():
    """Before the window's modules are imported: they take the name of what we put in place."""
    from loud import loud

    from wellbook.support import translation

    translation.read_language = lambda _folder, _key: loud()


def main():
    journey, report, folder, *books = sys.argv[1:]
    sys.modules["pandas"] = None  # no household has it; sqlite-utils loads it where it is
    readers.install()
    lent_books.watch_connections()
    recorder = Recorder()
    recorder.watch_traces()
    told = Told(recorder, Path(folder), [Path(book) for book in books])
    module, name = journey.split(":")
    QCoreApplication.setAttribute(Qt.ApplicationAttribute.AA_DontUseNativeDialogs)
    run = QApplication.exec

    def run_with_a_hand(*_):
        recorder.watch_qt()
        recorder.watch_hook()
        lent_books.watch_lending()
        from hand import Driver, Rest

        def journey_of():
            yield Rest()
            yield from getattr(importlib.import_module(module), name)(told)

        def end(error):
            if error is not None:
                told.fail("the journey stopped: " + "".join(traceback.format_exception(error)))
            write()
            QCoreApplication.exit(0)

        def write():
            told.note("the end")
            Path(report).write_text(
                json.dumps(
                    {"tried": told.tried, "failures": told.failures, "facts": told.facts},
                    ensure_ascii=False,
                    indent=1,
                )
            )

        QApplication.instance().driver = Driver(journey_of(), end)
        code = run()
        if not Path(report).exists():  # the program ended before the journey did
            write()
        return code

    QApplication.exec = run_with_a_hand
    if os.environ.get("WELLBOOK_JOURNEY_IS_LOUD"):
        speak_loudly()
    from wellbook.cli.main import main as wellbook

    sys.argv = ["wellbook", books[0]]
    wellbook()


if __name__ == "__main__":
    main()
