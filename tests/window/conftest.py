"""A real window on a copy of an invented household, with the file dialogs answered in advance."""

import shutil

import lent_books
import pytest
from household import furnished
from packet_fixtures import TODAY
from PySide6.QtCore import QSettings, QStandardPaths, QThreadPool
from PySide6.QtWidgets import QApplication

from wellbook.book import Book
from wellbook.support import examples, paths
from wellbook.window.app.main_window import Frame
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.reference import read_reference
from wellbook.window.common.theme import apply_theme

lent_books.watch_connections()
lent_books.watch_lending()


class Answers(Chooser):
    """A chooser whose answers are set by the test instead of by a person."""

    def __init__(self, folder):
        super().__init__(folder)
        self.path = None
        self.paths = []
        self.shown = []

    def book_to_open(self, _parent):
        return self.path

    def book_to_make(self, _parent, _name):
        return self.path

    def lab_files(self, _parent):
        return self.paths

    def packet_to_read(self, _parent):
        return self.path

    def documents(self, _parent):
        return self.paths

    def file_to_write(self, _parent, _name, _kinds):
        return self.path

    def folder_for_copies(self, _parent):
        return self.path

    def folder_to_write(self, _parent):
        return self.path

    def show(self, path):
        self.shown.append(path)


@pytest.fixture(autouse=True)
def lent_books_are_asked_by_their_borrower_alone():
    yield
    assert not lent_books.take()


@pytest.fixture(scope="session")
def reference():
    QStandardPaths.setTestModeEnabled(True)
    return read_reference(paths.resources())


@pytest.fixture
def preferences(tmp_path):
    return Preferences(QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat))


@pytest.fixture
def answers(tmp_path):
    return Answers(tmp_path)


@pytest.fixture
def frame(qapp, qtbot, reference, preferences, answers):
    apply_theme(qapp, "light")
    made = Frame(reference, preferences, answers, examples.known, lambda: TODAY)
    made.resize(1280, 720)
    with qtbot.waitActive(made):  # shortcuts go to an active window only
        made.show()
        made.activateWindow()
    yield made
    made.close()
    QThreadPool.globalInstance().waitForDone()
    made.deleteLater()
    QApplication.processEvents()


@pytest.fixture
def household(tmp_path):
    """A copy of the invented household with a file of its lab that was not taken in yet."""

    def copy(name="alder-hollow"):
        path = tmp_path / f"{name}.wellbook"
        shutil.copyfile(paths.sample_wells() / f"{name}.wellbook", path)
        return path

    return copy


@pytest.fixture(scope="session")
def furnished_once(tmp_path_factory):
    path = tmp_path_factory.mktemp("furnished") / "home.wellbook"
    furnished(path).close()
    return path


@pytest.fixture
def home(furnished_once, reference, tmp_path):
    """A furnished household without a window."""
    path = tmp_path / "home.wellbook"
    shutil.copyfile(furnished_once, path)
    with Book.open(path) as book:
        yield reference.household(book, lambda: TODAY, "")


@pytest.fixture
def opened(frame, household, qtbot):
    """The window with the first household open, its trends worked out."""
    frame.open_book(household())
    qtbot.waitUntil(lambda: not frame.view.look.is_pending, timeout=60000)
    return frame
