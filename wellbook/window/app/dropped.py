"""What files that are dropped on the window are: books, packets, or for the book that is open."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Self

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QFrame, QLabel, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em

_HINT = 30  # ems at most

if TYPE_CHECKING:
    from wellbook.window.app.main_window import Frame


@dataclass(frozen=True, slots=True)
class Dropped:
    """Files by what is done with them, each in the order of the drop."""

    books: tuple[Path, ...]
    packets: tuple[Path, ...]
    files: tuple[Path, ...]

    @classmethod
    def of(cls, paths: Sequence[Path]) -> Self:
        """Tell books and packets from lab files and documents."""
        from wellbook.packet.receive.packet_file import may_be_packet

        books = tuple(path for path in paths if path.suffix == ".wellbook")
        packets = tuple(path for path in paths if path not in books and may_be_packet(path))
        files = tuple(path for path in paths if path not in books and path not in packets)
        return cls(books, packets, files)

    @property
    def others(self) -> tuple[Path, ...]:
        """All but the first book, which is opened."""
        return (*self.books[1:], *self.packets, *self.files)


def names(paths: Sequence[Path]) -> str:
    """The files' names in a row."""
    return ", ".join(path.name for path in paths)


def one_by_one(packets: Sequence[Path]) -> str:
    """What is said where packets were dropped among other files."""
    said = _("Histories are taken in one by one; drop each alone: {names}.")
    return said.format(names=names(packets))


def _paths(event: QDropEvent) -> list[Path]:
    return [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]


class DropHint(QLabel):
    """Says over the window what will be taken, while files are dragged over it."""

    def __init__(self, around: QWidget) -> None:
        super().__init__(around)
        self._around = around
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.setFrameShape(QFrame.Shape.Box)
        self.setLineWidth(2)
        self.setAutoFillBackground(True)
        self.setMargin(em(self))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()

    def show_names(self, paths: Sequence[Path]) -> None:
        """Name the files, in the middle of the window."""
        wide = em(self) * _HINT
        said = _("Drop it here: {names}").format(names=names(paths))
        self.setText(self.fontMetrics().elidedText(said, Qt.TextElideMode.ElideRight, wide))
        self.adjustSize()
        self.move(self._around.rect().center() - self.rect().center())
        self.show()
        self.raise_()


class Drops:
    """Does what a window can do with what was dropped on it.

    Without a book, files of a lab, reports, photos and folders wait for the book they belong to.
    """

    def __init__(self, frame: "Frame") -> None:
        self._frame = frame
        self.hint = DropHint(frame)
        self._waiting: tuple[Path, ...] = ()

    def enter(self, event: QDragEnterEvent) -> None:
        """Take files from this computer, unless a dialog waits for its answer."""
        paths = _paths(event)
        if paths and QApplication.activeModalWidget() is None:
            event.acceptProposedAction()
            self.hint.show_names(paths)

    def fall(self, event: QDropEvent) -> None:
        """Let the file manager go on first, then read what was dropped."""
        paths = _paths(event)
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        QTimer.singleShot(0, lambda: self.take(Dropped.of(paths)))

    def take(self, dropped: Dropped) -> None:
        """Open a book, look at a packet, read files into the book that is open."""
        frame = self._frame
        self.hint.hide()
        if dropped.books:
            self._take_book(dropped.books[0], dropped.others)
        elif len(dropped.packets) == 1 and not dropped.files:
            frame.bar.attempt(lambda: frame.take_in(dropped.packets[0]))
        elif frame.view is None:
            self._wait(dropped.others)
        elif frame.view.household.why_readonly:
            frame.bar.say(frame.view.household.why_readonly)
        else:
            if dropped.packets:
                frame.view.book_actions.also_tell(one_by_one(dropped.packets))
            frame.view.book_actions.read_files(dropped.files)

    def _wait(self, files: tuple[Path, ...]) -> None:
        """Keep files in mind until a book is open that they can be read into."""
        frame, recent = self._frame, self._frame.recent
        self._waiting = files
        new, begin = _("Read into a new book"), frame.new_books.begin
        if not recent:
            said = _("Start a new book, or open one, and these are read into it: {names}.")
            frame.bar.say(said.format(names=names(files)), new, begin)
            return
        said = _("Into which book? Open one and these are read into it: {names}.")
        then = _("Open {book}").format(book=recent[0].stem.replace("&", "&&"))
        deed = partial(frame.open_or_mend, recent[0])
        frame.bar.say(said.format(names=names(files)), then, deed, (new, begin))

    def go_on(self) -> None:
        """Read what waited for a book, once one is open that can be written to."""
        view, waiting = self._frame.view, self._waiting
        if view is not None and waiting and not view.household.why_readonly:
            self._waiting = ()
            self.take(Dropped.of(waiting))

    def _take_book(self, book: Path, others: Sequence[Path]) -> None:
        """Open a book that was dropped; name what was dropped with it."""
        frame = self._frame
        frame.bar.clear()
        if frame.bar.attempt(lambda: frame.open_or_mend(book)) and others:
            said = _("{book} is open. Not taken: {names}; drop them on it now.")
            said = said.format(book=book.name, names=names(others))
            frame.bar.say(" ".join(filter(None, (frame.bar.text, said))))
