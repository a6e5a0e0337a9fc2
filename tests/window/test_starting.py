"""What the first paint loads, and what happens when something goes wrong that nobody caught."""

import os
import subprocess
import sys
from time import sleep

import pytest

from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.window.app.starting import telling
from wellbook.window.common.jobs import Job

HEAVY = (
    "matplotlib",
    "numpy",
    "pint",
    "scipy",
    "reportlab",
    "pypdf",
    "openpyxl",
    "python_calamine",
    "sqlite_utils",
)

# What whole histories tell follows after the first paint.
LATER = ("water.statistics.trend", "water.parsing.printed", "water.sampling.shipping")

# What reads files follows after that, off the window's thread; the page of tests needs none of it.
READERS = ("lab_files", "reviewing", "storing", "tables.tables", "words.headings")

FIRST_PAINT = """
import sys
from time import sleep
from pathlib import Path
from PySide6.QtWidgets import QApplication
from wellbook.support import paths, examples
from wellbook.window.common.choosing import Chooser
from wellbook.window.app.main_window import Frame
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.reference import read_reference

app = QApplication([])
frame = Frame(
    read_reference(paths.resources()), Preferences.of_this_person(), Chooser(), examples.known
)
frame.open_first(Path(sys.argv[1]))
frame.show()
frame.grab()
print(frame.view.overview.model.rowCount(), *sys.modules)
frame.view.at("tests")
print(*(name for name in sys.modules if name.startswith("wellbook.intake.")))
"""


def test_the_first_paint_of_an_overview_loads_nothing_heavy(household):
    book = household("first-year")
    done = subprocess.run(
        [sys.executable, "-c", FIRST_PAINT, str(book)], capture_output=True, text=True, check=True
    )
    at_first, after_tests = done.stdout.splitlines()
    rows, *modules = at_first.split()
    assert int(rows) > 5
    loaded = {name.split(".")[0] for name in modules}
    assert loaded.isdisjoint(HEAVY), loaded & set(HEAVY)
    assert not {f"wellbook.{name}" for name in LATER} & set(modules)
    assert "wellbook.intake.files.sheets" in after_tests.split()  # a place in a report has a name
    assert not {f"wellbook.intake.{name}" for name in READERS} & set(after_tests.split())


def test_the_real_program_opens_a_book_and_draws_a_chart(household):
    """pytest-qt has loaded Qt before matplotlib chose its binding; here nothing has."""
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from PySide6.QtCore import QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        "from wellbook.window import run\n"
        "def look(timer):\n"
        "    frame = next(w for w in QApplication.topLevelWidgets() if hasattr(w, 'view'))\n"
        "    if frame.view and frame.view.page != 'parameter':\n"
        "        frame.view.show_parameter('nitrate')\n"
        "    canvas = frame.view.at('parameter').figure._canvas if frame.view else None\n"
        "    if canvas and not canvas._is_drawing:\n"
        "        timer.stop()\n"
        "        print(frame.windowTitle(), frame.view.at('parameter').sentence.text())\n"
        "        frame.close()\n"
        "def go(_app, execute=QApplication.exec):\n"
        "    timer = QTimer(interval=20)\n"
        "    timer.timeout.connect(lambda: look(timer))\n"
        "    timer.start()\n"
        "    return execute()\n"
        "QApplication.exec = go\n"
        "sys.exit(run(Path(sys.argv[1])))\n"
    )
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code, str(household())],
        capture_output=True,
        text=True,
        check=False,
        timeout=600,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("alder-hollow")
    assert "test" in done.stdout


def test_a_fault_that_nobody_caught_is_its_sentence_and_nothing_more(capsys):
    said = []
    telling(said.append)(Fault, Fault("The disk is full."), None)
    assert said == ["The disk is full."]
    assert capsys.readouterr().err == ""


def test_a_bug_is_a_plain_sentence_on_screen_and_a_trace_in_a_file(capsys):
    said = []
    telling(said.append)(ZeroDivisionError, ZeroDivisionError("one by none"), None)
    assert "did not expect" in said[0]
    assert "Traceback" not in said[0]
    trace = paths.data() / "trouble.txt"
    assert str(trace) in said[0]
    assert "one by none" in trace.read_text(encoding="utf-8")
    assert capsys.readouterr().err == ""


def run(qtbot, work, before=lambda _job: None):
    job, heard = Job(), []
    job.done.connect(lambda result: heard.append(("done", result)))
    job.failed.connect(lambda sentence: heard.append(("failed", sentence)))
    job.cancelled.connect(lambda: heard.append(("cancelled", None)))
    before(job)
    job.start(work)
    qtbot.waitUntil(lambda: bool(heard), timeout=5000)
    assert not job.running
    return heard


def test_work_on_another_thread_brings_its_result(qtbot):
    assert run(qtbot, lambda _tell: 7) == [("done", 7)]


def test_a_fault_on_another_thread_brings_its_sentence(qtbot):
    def work(_tell):
        raise Fault("The folder is gone.")

    assert run(qtbot, work) == [("failed", "The folder is gone.")]


def test_a_bug_on_another_thread_is_told_plainly_and_its_trace_kept(qtbot):
    def work(_tell):
        raise ZeroDivisionError

    [(what, sentence)] = run(qtbot, work)
    assert what == "failed"
    assert "did not expect" in sentence
    trace = (paths.data() / "trouble.txt").read_text(encoding="utf-8")
    assert "ZeroDivisionError" in trace


def test_work_that_was_asked_to_stop_stops_at_its_next_step(qtbot):
    def work(tell):
        for step in range(1000):
            tell(step, 1000, "counting")
            sleep(0.01)

    job, heard = Job(), []
    job.cancelled.connect(lambda: heard.append("cancelled"))
    job.done.connect(lambda _: heard.append("done"))
    job.told.connect(lambda *_: job.cancel())
    job.start(work)
    qtbot.waitUntil(lambda: bool(heard), timeout=5000)
    assert heard == ["cancelled"]


@pytest.mark.parametrize("text", ["", "{}", "blue"])
def test_a_strange_settings_file_gives_the_defaults(preferences, text):
    preferences._store.setValue("page", text)
    preferences._store.setValue("last_book", "/nowhere/at/all.wellbook")
    preferences._store.setValue("geometry", text)
    assert preferences.page == "system"
    assert preferences.last_book is None
    assert preferences.geometry.isEmpty()
