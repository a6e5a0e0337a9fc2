"""How long a person waits for the overview, beside a bare window of the same toolkit.

Processor time up to the first paint is compared, because other programs can't disturb it; the
clock is printed beside it. Both run from compiled modules, as an installed program does.
"""

import os
import shutil
import subprocess
import sys
import time

import pytest

from wellbook.support import paths

BARE = """
import time
from PySide6.QtWidgets import QApplication, QLabel, QMainWindow
app = QApplication([])
window = QMainWindow()
window.setCentralWidget(QLabel("bare"))
window.resize(1180, 720)
window.show()
window.grab()
print(time.process_time(), time.time())
"""
OURS = """
import os, sys, time
from pathlib import Path
import wellbook.planning.overview
import wellbook.water.cautions.cautions
from PySide6.QtWidgets import QApplication
from wellbook import window

def paint(*_):
    frame = next(w for w in QApplication.topLevelWidgets() if hasattr(w, "actions_by_key"))
    frame.grab()
    print(time.process_time(), time.time(), frame.view.overview.model.rowCount(), flush=True)
    os._exit(0)

QApplication.exec = paint
window.run(Path(sys.argv[1]))
"""
ROUNDS = 7
MOST = 3.0  # the aim is 2: what is left is the loading of our own small modules


def measure(code, book, env):
    """Processor time and clock from the start of the process to its first paint, seconds."""
    began = time.time()
    done = subprocess.run(
        [sys.executable, "-c", code, str(book)], capture_output=True, text=True, check=True, env=env
    )
    busy, at, *rows = done.stdout.split()
    assert all(int(row) > 20 for row in rows), "the overview was filled"
    return float(busy), float(at) - began


@pytest.mark.bench
def test_the_overview_is_painted_in_a_small_multiple_of_a_bare_window(tmp_path, capsys):
    book = tmp_path / "alder-hollow.wellbook"
    shutil.copyfile(paths.sample_wells() / book.name, book)
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env |= {"QT_QPA_PLATFORM": "offscreen", "PYTHONPYCACHEPREFIX": str(tmp_path / "compiled")}
    for code in (BARE, OURS):
        measure(code, book, env)
    pairs = [(measure(BARE, book, env), measure(OURS, book, env)) for _ in range(ROUNDS)]
    busy = [min(pair[which][0] for pair in pairs) for which in (0, 1)]
    clock = [min(pair[which][1] for pair in pairs) for which in (0, 1)]
    with capsys.disabled():
        print(  # noqa: T201  the figures are what it is run for
            f"\nfirst paint: processor {busy[1]:.3f} s, bare {busy[0]:.3f} s,"
            f" {busy[1] / busy[0]:.2f} x; clock {clock[1]:.3f} s, {clock[1] / clock[0]:.2f} x"
        )
    assert busy[1] <= MOST * busy[0]
