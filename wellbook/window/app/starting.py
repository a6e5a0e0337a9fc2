"""The program with a window: made, dressed, shown, and ended."""

import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QIcon
from PySide6.QtWidgets import QApplication

from wellbook.support import examples, paths
from wellbook.support.errors import Fault
from wellbook.window.app.main_window import Frame
from wellbook.window.app.reminder import tell_lost
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.jobs import unexpected
from wellbook.window.common.languages import speak
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.reference import read_reference
from wellbook.window.common.theme import apply_theme

Hook = Callable[[type[BaseException], BaseException, TracebackType | None], object]


def start(path: Path | None) -> int:
    """Show the window on a book, the last book or the first page, until it is closed."""
    QGuiApplication.setHighDpiScaleFactorRoundingPolicy(
        Qt.HighDpiScaleFactorRoundingPolicy.PassThrough
    )
    app = QApplication(sys.argv[:1])
    app.setApplicationName("wellbook")
    app.setApplicationDisplayName("Wellbook")
    app.setWindowIcon(QIcon(str(paths.resources() / "icons" / "wellbook.svg")))
    preferences = Preferences.of_this_person()
    speak(preferences.language)
    apply_theme(app, preferences.page)
    try:
        reference = read_reference(paths.resources())
    except Fault as fault:
        sys.stderr.write(f"{fault}\n")
        return 1
    frame = Frame(reference, preferences, Chooser(), examples.known)
    sys.excepthook = telling(frame.bar.say)
    app.styleHints().colorSchemeChanged.connect(lambda: apply_theme(app, preferences.page))
    frame.open_first(path or preferences.last_book)
    frame.show()
    tell_lost(frame.bar, frame.view.household.book.identity() if frame.view else "")
    code = app.exec()
    sys.excepthook = sys.__excepthook__
    return code


def telling(say: Callable[[str], object]) -> Hook:
    """A hook for what nobody caught: a sentence on the screen, the trace in a file."""

    def hook(_: type[BaseException], error: BaseException, __: TracebackType | None) -> None:
        if isinstance(error, Fault):
            say(str(error))
        elif not isinstance(error, KeyboardInterrupt):
            say(unexpected(error))

    return hook
