"""What `budgets.py` measures in a process of its own: `budget_works.py NAME [FILE…]`."""

import csv
import shutil
import sqlite3
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

_SIZE = (9.0, 4.2)  # inches, as on a page


def csv_sql(target: str, *tables: str) -> None:
    """The rows of tables into SQLite, by the standard library alone."""
    Path(target).unlink(missing_ok=True)
    connection = sqlite3.connect(target)
    connection.execute("CREATE TABLE row (sample TEXT, day TEXT, name TEXT, text TEXT, unit TEXT)")
    for table in tables:
        with Path(table).open(newline="") as file:
            rows = csv.reader(file)
            next(rows)
            connection.executemany("INSERT INTO row VALUES (?, ?, ?, ?, ?)", rows)
        connection.commit()


def csv_tables(empty: str, target: str, *tables: str) -> None:
    """The same rows as a plain program keeps them for good, in the tables of an empty book.

    Samples and results apart, with keys, checks, indexes and foreign keys, in one transaction; no
    name is looked up, nothing is judged, no journal is written.
    """
    shutil.copyfile(empty, target)
    connection = sqlite3.connect(target)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("INSERT INTO well (id, name) VALUES (1, 'well')")
    connection.execute("INSERT INTO point (id, well, name) VALUES (1, 1, 'tap')")
    for table in tables:
        with Path(table).open(newline="") as file:
            rows = csv.reader(file)
            next(rows)
            _samples_and_results(connection, rows)
    connection.commit()


def _samples_and_results(connection: sqlite3.Connection, rows: "Iterable[list[str]]") -> None:
    samples: dict[tuple[str, str], int] = {}
    results = []
    for place, (sample, day, name, text, unit) in enumerate(rows, 2):
        number = samples.setdefault((sample, day), len(samples) + 1)
        kind, figure = ("below", text[1:]) if text[0] == "<" else ("number", text)
        results.append((number, name, name, text, kind, figure, unit, f"row {place}; column 4"))
    connection.executemany(
        "INSERT INTO sample (id, point, collected, lab_number) VALUES (?, 1, ?, ?)",
        ((number, day, sample) for (sample, day), number in samples.items()),
    )
    connection.executemany(
        "INSERT INTO result (sample, parameter, name, text, kind, number, unit, place)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        results,
    )


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
        assert frame.view.overview.model.rowCount() > 10
        os._exit(0)

    QApplication.exec = paint
    window.run(Path(book))


def window_chart(book: str) -> None:
    """Our window on a book once a chart is drawn in it."""
    import os

    from wellbook import window

    window.load_without_qt()
    from PySide6.QtWidgets import QApplication

    def look(*_arguments: object) -> None:
        app = QApplication.instance()
        frame = next(w for w in app.topLevelWidgets() if hasattr(w, "actions_by_key"))
        view = frame.view
        while view.ahead.running or view.look.is_pending:
            app.processEvents()
            time.sleep(0.002)
        view.show_parameter(view.overview.order[0])
        frame.grab()
        app.processEvents()
        os._exit(0)

    QApplication.exec = look
    window.run(Path(book))


def bare_window_chart() -> None:
    """A window of the same toolkit with one chart of matplotlib in it."""
    from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
    from matplotlib.figure import Figure
    from PySide6.QtWidgets import QApplication, QMainWindow

    app = QApplication([])
    figure = Figure(figsize=_SIZE)
    figure.add_subplot().plot(range(120), marker="o")
    window = QMainWindow()
    window.setCentralWidget(FigureCanvasQTAgg(figure))
    window.resize(1180, 720)
    window.show()
    window.grab()
    app.processEvents()


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


def charts(book: str, many: str) -> None:
    """The chart of a parameter that is shown already, so many times: described and drawn anew."""
    from datetime import date

    from wellbook.book import Book
    from wellbook.charts.draw.drawing import draw
    from wellbook.charts.layout import backend
    from wellbook.charts.layout.theme import LIGHT
    from wellbook.charts.model.describe import chart
    from wellbook.planning.overview import point_record
    from wellbook.planning.settings import scheme, yardsticks
    from wellbook.planning.standings import standings
    from wellbook.support import paths
    from wellbook.water.values.catalogue import read_catalogue

    today, catalogue = date(2025, 12, 1), read_catalogue(paths.resources())
    with Book.open(Path(book), readonly=True) as opened:
        record = opened.record().loaded()
        shown = standings(record, catalogue, today)[0].points[0]
        known = point_record(record, shown.point.id, today)
        by, seasons = yardsticks(record.settings, catalogue), scheme(record.settings)
        figure = backend.new_figure(*_SIZE, LIGHT)
        canvas = _canvas(figure)
        for n in range(int(many)):
            standing = shown.standings[n % len(shown.standings)]
            described = chart(
                known, standing.parameter, *by, (), seasons, today, known=[standing]
            )  # fmt: skip
            draw(described, figure, LIGHT)
            canvas.draw()


def bare_charts(book: str, many: str) -> None:
    """The same figures as marks with a line in matplotlib, so many times."""
    import matplotlib.dates
    from matplotlib.figure import Figure

    connection = sqlite3.connect(book)
    figure = Figure(figsize=_SIZE)
    canvas = _canvas(figure)
    text = "SELECT parameter FROM result GROUP BY parameter"
    parameters = [key for (key,) in connection.execute(text)]
    for n in range(int(many)):
        rows = connection.execute(
            "SELECT substr(collected, 1, 10), CAST(number AS REAL) FROM result"
            " JOIN sample ON sample.id = sample WHERE parameter = ? ORDER BY collected",
            (parameters[n % len(parameters)],),
        ).fetchall()
        figure.clear()
        axes = figure.add_subplot()
        days = matplotlib.dates.datestr2num([day for day, _figure in rows])
        axes.plot(days, [figure for _day, figure in rows], marker="o")
        axes.xaxis_date()
        axes.set_title(parameters[n % len(parameters)])
        canvas.draw()


def bare_packet(book: str, target: str) -> None:
    """A chart and a table of each parameter, by matplotlib and reportlab alone."""
    from io import BytesIO

    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure
    from pypdf import PdfReader, PdfWriter
    from reportlab.platypus import LongTable, PageBreak, SimpleDocTemplate

    charts_drawn, tables_set = BytesIO(), BytesIO()
    tables = []
    with PdfPages(charts_drawn) as pages:
        for parameter, rows in _histories(book):
            figure = Figure(figsize=_SIZE)
            axes = figure.add_subplot()
            axes.plot([day for day, _figure, _text in rows], [row[1] for row in rows], marker="o")
            axes.set_title(parameter)
            pages.savefig(figure)
            texts = [(day.isoformat(), parameter, text) for day, _figure, text in rows]
            tables += [LongTable([("day", "parameter", "result"), *texts]), PageBreak()]
    SimpleDocTemplate(tables_set).build(tables)
    writer = PdfWriter()
    for made in (charts_drawn, tables_set):
        writer.append(PdfReader(made))
    writer.write(target)


def spreadsheet(book: str, target: str) -> None:
    """A workbook with a sheet and a line chart of each parameter, as a household makes one."""
    from openpyxl import Workbook
    from openpyxl.chart import LineChart, Reference

    workbook = Workbook(write_only=False)
    for parameter, rows in _histories(book):
        sheet = workbook.create_sheet(parameter[:30])
        sheet.append(("day", parameter))
        for day, figure, _text in rows:
            sheet.append((day, figure))
        chart = LineChart()
        last = len(rows) + 1
        figures = Reference(sheet, min_col=2, min_row=1, max_row=last)
        chart.add_data(figures, titles_from_data=True)
        chart.set_categories(Reference(sheet, min_col=1, min_row=2, max_row=last))
        sheet.add_chart(chart, "D2")
    del workbook["Sheet"]
    workbook.save(target)


def _histories(book: str) -> "Iterator[tuple[str, list[tuple[date, float, str]]]]":
    """Each parameter with day, figure and printed text of its readings."""
    from datetime import date

    connection = sqlite3.connect(book)
    text = "SELECT parameter FROM result GROUP BY parameter"
    for (parameter,) in connection.execute(text).fetchall():
        rows = connection.execute(
            "SELECT substr(collected, 1, 10), CAST(number AS REAL), result.text FROM result"
            " JOIN sample ON sample.id = sample WHERE parameter = ? ORDER BY collected",
            (parameter,),
        )
        yield parameter, [(date.fromisoformat(day), figure, said) for day, figure, said in rows]


def _canvas(figure: "Figure") -> "FigureCanvasAgg":
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    return FigureCanvasAgg(figure)


WORKS: dict[str, Callable[..., None]] = {
    "csv-sql": csv_sql,
    "csv-tables": csv_tables,
    "sql": sql,
    "bare-window": bare_window,
    "window": window,
    "freezes": freezes,
    "window-chart": window_chart,
    "bare-window-chart": bare_window_chart,
    "bare-packet": bare_packet,
    "spreadsheet": spreadsheet,
    "charts": charts,
    "bare-charts": bare_charts,
}

if __name__ == "__main__":
    WORKS[sys.argv[1]](*sys.argv[2:])
