"""Which file or folder: the questions that the system's own dialogs ask."""

from itertools import chain, count
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QWidget

from wellbook import intake
from wellbook.support.translation import _


class Chooser:
    """Asks for files and folders with the system's dialogs, starting where it was last."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder or documents_folder()

    def book_to_open(self, parent: QWidget) -> Path | None:
        """A book that exists."""
        kinds = _("Books (*.wellbook);;All files (*)")
        title = _("Open a book")
        found, _unused = QFileDialog.getOpenFileName(parent, title, str(self._folder), kinds)
        return self._remember(found)

    def book_to_make(self, parent: QWidget, name: str) -> Path | None:
        """A place for a new book; the dialog has asked before an existing file is named."""
        kinds = _("Books (*.wellbook)")
        title = _("Where to keep the new book")
        found, _unused = QFileDialog.getSaveFileName(parent, title, str(self._folder / name), kinds)
        return self._remember(found, ".wellbook")

    def book_to_begin(self, name: str) -> Path:
        """A free place for a new book in the documents folder; nobody is asked."""
        first = documents_folder() / name
        others = (first.with_stem(f"{first.stem}-{number}") for number in count(2))
        return first if not first.exists() else next(path for path in others if not path.exists())

    def lab_files(self, parent: QWidget) -> list[Path]:
        """Files from a lab."""
        every = chain.from_iterable(intake.ENDINGS.values())
        ends = [one for end in every for one in (end, end.upper())]
        endings = " ".join(f"*.{end}" for end in ends)
        kinds = _("Lab files ({endings});;All files (*)").format(endings=endings)
        title = _("Choose the lab’s file")
        found, _unused = QFileDialog.getOpenFileNames(parent, title, str(self._folder), kinds)
        return [path for path in map(self._remember, found) if path]

    def price_list(self, parent: QWidget) -> Path | None:
        """A lab's price list."""
        kinds = _("Price lists (*.csv *.tsv *.txt);;All files (*)")
        title = _("Choose the price list")
        found, _unused = QFileDialog.getOpenFileName(parent, title, str(self._folder), kinds)
        return self._remember(found)

    def packet_to_read(self, parent: QWidget) -> Path | None:
        """A packet that somebody handed on."""
        kinds = _("Packets (*.pdf);;All files (*)")
        title = _("Choose the packet, a PDF")
        found, _unused = QFileDialog.getOpenFileName(parent, title, str(self._folder), kinds)
        return self._remember(found)

    def documents(self, parent: QWidget) -> list[Path]:
        """Files to keep beside a test: the report, a photo."""
        kinds = _("All files (*)")
        title = _("Choose the report, a photo or another document")
        found, _unused = QFileDialog.getOpenFileNames(parent, title, str(self._folder), kinds)
        return [path for path in map(self._remember, found) if path]

    def file_to_write(self, parent: QWidget, name: str, kinds: str) -> Path | None:
        """A place for a file."""
        title = _("Where to write the file")
        found, _unused = QFileDialog.getSaveFileName(parent, title, str(self._folder / name), kinds)
        return self._remember(found, Path(name).suffix)

    def folder_to_write(self, parent: QWidget) -> Path | None:
        """A folder to write files into."""
        title = _("Where to write the files")
        found = QFileDialog.getExistingDirectory(parent, title, str(self._folder))
        return Path(found) if found else None

    def folder_for_copies(self, parent: QWidget) -> Path | None:
        """A stick or another folder to put a copy of the book on."""
        title = _("Choose the stick or folder for the copy")
        found = QFileDialog.getExistingDirectory(parent, title, str(self._folder))
        return Path(found) if found else None

    def show(self, path: Path) -> None:
        """Open a file or folder with the program that the system keeps for it."""
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))

    def _remember(self, found: str, suffix: str = "") -> Path | None:
        if not found:
            return None
        path = Path(found)
        if suffix and not path.suffix:
            path = path.with_suffix(suffix)
        self._folder = path.parent
        return path


def documents_folder() -> Path:
    """The person's documents folder, or their home if there is none."""
    place = QStandardPaths.StandardLocation.DocumentsLocation
    found = Path(QStandardPaths.writableLocation(place) or Path.home())
    return found if found.is_dir() else Path.home()
