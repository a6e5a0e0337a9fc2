"""One process that opens a book, looks at everything, enters and takes back, many times over.

    python tests/bench/soak.py sample_wells/alder-hollow.wellbook --cycles 2000

Prints memory, open files, threads, widgets and Python objects as it goes: all of them have to
stay flat.
"""

import argparse
import gc
import os
import shutil
import sys
import tempfile
import threading
import time
from functools import partial
from pathlib import Path

_AFRESH = 20  # the journal grows by two entries a cycle
PAGES = ("go_tests", "go_events", "go_well", "go_changes", "go_limits", "go_overview")
KEPT = ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME")


def private_memory() -> float:
    """Memory that is this process's own, MB."""
    text = Path("/proc/self/smaps_rollup").read_text()
    lines = (line.split() for line in text.splitlines()[1:])
    return sum(int(line[1]) for line in lines if line[0].startswith("Private_")) / 1024


class Soak:
    """A window on a book that is opened and closed many times over."""

    def __init__(self, book: Path) -> None:
        from PySide6.QtCore import QSettings
        from PySide6.QtWidgets import QApplication

        from wellbook.support import examples, paths
        from wellbook.window.app.main_window import Frame
        from wellbook.window.common.choosing import Chooser
        from wellbook.window.common.preferences import Preferences
        from wellbook.window.common.reference import read_reference

        self.book, self.errors = book, []
        self.app = QApplication([])
        kept = Preferences(QSettings(str(book.with_suffix(".ini")), QSettings.Format.IniFormat))
        reference = read_reference(paths.resources())
        self.frame = Frame(reference, kept, Chooser(), examples.known)
        self.frame.show()
        sys.excepthook = lambda _kind, error, _trace: self.errors.append(error)

    def wait(self) -> None:
        """Until nothing is worked out any more."""
        view = self.frame.view
        while view is not None and (view.ahead.running or view.look.is_pending):
            self.app.processEvents()
            time.sleep(0.001)
        self.app.processEvents()

    def cycle(self, number: int) -> None:
        """Open, look at every page and a chart, enter, take back, close."""
        frame = self.frame
        frame.open_book(self.book)
        self.wait()
        view = frame.view
        for key in PAGES:
            frame.actions_by_key[key][1].trigger()
            self.app.processEvents()
        view.step(number)
        self.app.processEvents()
        book, well = view.household.book, view.well
        for deed in (partial(book.add_event, well, "repair", "2024-05-04"), book.undo):
            view.household.apart(deed)
            view.refresh()
            self.wait()
        frame.close_book()
        self.app.processEvents()
        if number % _AFRESH == 0:
            shutil.copyfile(self.book.with_suffix(".first"), self.book)

    def tell(self, number: int) -> None:
        """Print what the process holds."""
        gc.collect()
        self.app.processEvents()
        files, threads = len(list(Path("/proc/self/fd").iterdir())), threading.active_count()
        widgets, objects = len(self.app.allWidgets()), len(gc.get_objects())
        told = f"{number:7}{private_memory():8.0f}{files:7}{threads:9}{widgets:9}{objects:9}"
        sys.stdout.write(told + "\n")
        sys.stdout.flush()


def soak(book: Path, cycles: int, seconds: float) -> None:
    """Go through the cycles, or as many of them as fit into so many seconds."""
    begun, soaked = time.monotonic(), Soak(book)
    sys.stdout.write("  cycle      MB  files  threads  widgets  objects\n")
    for number in range(1, cycles + 1):
        soaked.cycle(number)
        is_last = number == cycles or time.monotonic() - begun > seconds
        if number in {1, 5, 10, 20, 50} or number % 100 == 0 or is_last:
            soaked.tell(number)
        if is_last:
            break
    sys.stdout.write(f"{len(soaked.errors)} uncaught errors {soaked.errors[:3]}\n")
    soaked.frame.close()


def main() -> None:
    """Read the arguments, and soak in a home of its own."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("book", type=Path)
    parser.add_argument("--cycles", type=int, default=2000)
    parser.add_argument("--seconds", type=float, default=480, help="ends after so many at most")
    chosen = parser.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as home:
        os.environ.update(dict.fromkeys(KEPT, home))
        book = Path(home) / "soaked.wellbook"
        for name in (book, book.with_suffix(".first")):
            shutil.copyfile(chosen.book, name)
        soak(book, chosen.cycles, chosen.seconds)


if __name__ == "__main__":
    main()
