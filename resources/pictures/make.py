"""Grab the window's screens for the README, light and dark."""  # noqa: INP001  a script

import os
import shutil
import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QEventLoop, QSettings, QTimer
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QWidget

from wellbook.book import Book
from wellbook.support import examples, paths
from wellbook.window.app.main_window import Frame
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.reference import read_reference
from wellbook.window.common.theme import apply_theme

HERE = Path(__file__).resolve().parent
TODAY = date(2026, 11, 25)  # the same pictures on every run
SETTLED_MS = 1200
HOUSEHOLD, PARAMETER = "salt-lane", "chloride"


def main() -> None:
    """Write `overview-light.png` and so on beside this file."""
    app = QApplication([])
    with tempfile.TemporaryDirectory() as folder:
        for page in ("light", "dark"):
            book = Path(folder) / f"{page}.wellbook"
            shutil.copyfile(paths.sample_wells() / f"{HOUSEHOLD}.wellbook", book)
            leave_out_private(book)
            store = QSettings(f"{folder}/{page}.ini", QSettings.Format.IniFormat)
            preferences = Preferences(store)
            preferences.page = page
            apply_theme(app, page)
            frame = Frame(
                read_reference(paths.resources()),
                preferences,
                Chooser(Path(folder)),
                examples.known,
                lambda: TODAY,
            )
            grab_screens(frame, book, page)
            frame.close()


def leave_out_private(path: Path) -> None:
    """Take private events out of the copy, as every history that is handed on leaves them out."""
    with Book.open(path) as book:
        for event in book.events():
            if event.is_about_people:
                book.remove("event", event.id)


def grab_screens(frame: Frame, book: Path, page: str) -> None:
    """Walk through the screens of one window."""
    frame.resize(1280, 720)
    frame.show()
    frame.open_book(book)
    view = frame.view
    if view is None:
        raise SystemExit(frame.bar.text)
    grab(frame, f"overview-{page}")
    view.show_parameter(PARAMETER)
    grab(frame, f"parameter-{page}")
    frame.do("go_tests")
    grab(frame, f"tests-{page}")
    frame.do("go_overview")
    view.book_actions.read_files(sorted((paths.sample_wells() / HOUSEHOLD / "to-add").iterdir()))
    grab_dialog(frame, f"add-{page}")
    frame.do("export_packet")
    grab_dialog(frame, f"export-{page}")


def grab_dialog(frame: Frame, name: str) -> None:
    """Grab the dialog that is open, then close it."""
    actions = frame.view.book_actions if frame.view else None
    settle(lambda: actions is not None and actions.dialog is not None)
    if actions and actions.dialog:
        grab(actions.dialog, name)
        actions.dialog.reject()


def grab(widget: QWidget, name: str) -> None:
    """Save what a widget shows once it has settled."""
    settle()
    path = HERE / f"{name}.png"
    opaque = widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
    opaque.save(str(path))
    with Image.open(path) as picture:  # a screen needs no more than 256 colours
        few = picture.quantize(
            256, method=Image.Quantize.MAXCOVERAGE, kmeans=2, dither=Image.Dither.NONE
        )  # so that a colour of few pixels, as that of a mark, stays what it is
    few.save(path, optimize=True)
    print(path.name)  # noqa: T201  the script's only answer


def settle(is_there: Callable[[], bool] = lambda: True) -> None:
    """Let the window work until something is there, at most ten times the usual time."""
    for _ in range(10):
        loop = QEventLoop()
        QTimer.singleShot(SETTLED_MS, loop.quit)
        loop.exec()
        if is_there():
            return


if __name__ == "__main__":
    main()
