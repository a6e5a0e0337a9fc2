"""What `budgets.py` measures in a process of its own: `budget_works.py NAME [FILE…]`."""

import csv
import sqlite3
import sys
import time
from collections.abc import Callable
from pathlib import Path

CHARTS = 20


def csv_sql(table: str, target: str) -> None:
    """The rows of a table into SQLite, by the standard library alone."""
    Path(target).unlink(missing_ok=True)
    connection = sqlite3.connect(target)
    connection.execute("CREATE TABLE row (sample TEXT, day TEXT, name TEXT, text TEXT, unit TEXT)")
    with Path(table).open(newline="") as file:
        rows = csv.reader(file)
        next(rows)
        connection.executemany("INSERT INTO row VALUES (?, ?, ?, ?, ?)", rows)
    connection.commit()


def sql(book: str) -> None:
    """Every column of every result that counts, read and thrown away."""
    connection = sqlite3.connect(book)
    query = (
        "SELECT result.*, sample.*, lab.name FROM result JOIN sample ON sample.id = result.sample"
        " LEFT JOIN lab ON lab.id = sample.lab WHERE struck = '' ORDER BY collected, result.id"
    )
    for _row in connection.execute(query):
        pass


def bare_window() -> None:
    """A window of the same toolkit with one line in it."""
    from PySide6.QtWidgets import QApplication, QLabel, QMainWindow

    app = QApplication([])
    window = QMainWindow()
    window.setCentralWidget(QLabel("bare"))
    window.resize(1180, 720)
    window.show()
    window.grab()
    app.processEvents()


def window(book: str) -> None:
    """Our window on a book, until its overview is painted with its lines."""
    import os

    from wellbook import window

    window.load_without_qt()
    from PySide6.QtWidgets import QApplication

    def paint(*_arguments: object) -> None:
        frame = next(w for w in QApplication.topLevelWidgets() if hasattr(w, "actions_by_key"))
        frame.grab()
        assert frame.view.overview.model.rowCount() > 20
        os._exit(0)

    QApplication.exec = paint
    window.run(Path(book))


def freezes(book: str, lab_file: str) -> None:
    """How long the window's loop stands still in each deed: processor and clock, milliseconds.

    A timer asks to be called each millisecond. What lies between two calls is a block.
    """
    import os

    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from wellbook import window

    def drive(*_arguments: object) -> None:
        app = QApplication.instance()
        frame = next(w for w in app.topLevelWidgets() if hasattr(w, "actions_by_key"))
        longest = [0.0, 0.0, time.thread_time(), time.perf_counter()]

        def look() -> None:
            busy, clock = time.thread_time(), time.perf_counter()
            longest[:] = (
                max(longest[0], busy - longest[2]),
                max(longest[1], clock - longest[3]),
                busy,
                clock,
            )

        timer = QTimer()
        timer.timeout.connect(look)

        def deed(name: str, do: Callable[[], object], is_done: Callable[[], bool]) -> None:
            longest[:] = 0.0, 0.0, time.thread_time(), time.perf_counter()
            do()
            until = time.perf_counter() + 120
            quiet = 0
            while quiet < 60 and time.perf_counter() < until:
                look()
                app.processEvents()
                look()
                time.sleep(0.002)
                quiet = quiet + 1 if is_done() else 0
            sys.stdout.write(f"  {name:28}{longest[0] * 1000:8.0f}{longest[1] * 1000:8.0f}\n")

        timer.start(1)
        view = frame.view

        def idle() -> bool:
            return not (view.ahead.running or view.look.is_pending)

        def go(key: str) -> Callable[[], object]:
            return frame.actions_by_key[key][1].trigger

        def is_open() -> bool:
            return view.book_actions.dialog is not None and view.book_actions.dialog.isVisible()

        sys.stdout.write(f"  {'deed':28}{'CPU ms':>8}{'clock':>8}\n")
        deed("first look after opening", lambda: None, idle)
        for key in ("tests", "events", "well", "changes"):
            if f"go_{key}" in frame.actions_by_key:
                deed(f"page {key}", go(f"go_{key}"), idle)
        deed("first chart", lambda: view.show_parameter(view.overview.order[0]), idle)
        deed("next chart", lambda: view.step(1), idle)
        deed("back to the overview", go("go_overview"), idle)
        deed("read a file", lambda: view.book_actions.read_files([Path(lab_file)]), is_open)
        deed(
            "keep it",
            view.book_actions.dialog.keep_button.click,
            lambda: idle() and not is_open(),
        )
        deed("undo", go("undo"), idle)
        deed("redo", go("redo"), idle)
        deed("undo again", go("undo"), idle)
        sys.stdout.flush()
        os._exit(0)

    QApplication.exec = drive
    window.run(Path(book))


WORKS: dict[str, Callable[..., None]] = {
    "csv-sql": csv_sql,
    "sql": sql,
    "bare-window": bare_window,
    "window": window,
    "freezes": freezes,
}

if __name__ == "__main__":
    WORKS[sys.argv[1]](*sys.argv[2:])
