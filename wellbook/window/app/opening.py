"""Opening a book for the window: who has it open already, and what helps a damaged one.

SQLite's own lock keeps two writers on one machine apart. A lock file beside the book tells people
what it can't see: another computer with the same synced folder, and a second window that should
only read.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLockFile, QSysInfo, QTimer, Signal
from PySide6.QtWidgets import QApplication, QWidget

from wellbook.book import Book
from wellbook.book.opening import damaged
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.clock_words import since_words
from wellbook.window.common.household import Household
from wellbook.window.common.preferences import Preferences

if TYPE_CHECKING:
    from wellbook.window.app.main_window import Frame

_LOOK_EVERY = 2000  # milliseconds


class FileWatch(QTimer):
    """Notices that the file of an open book was written or replaced, by whatever program.

    It looks at place, size and time of the file, which tells on network drives, too, and waits
    while the book is lent to another thread or a dialog is open.

    Signals:
        changed: The file is another than before, and has settled.
    """

    changed = Signal()

    def __init__(self, household: Household, parent: QWidget) -> None:
        super().__init__(parent)
        self._household = household
        self._told = self._seen = self._state()
        self.setInterval(_LOOK_EVERY)
        self.timeout.connect(self.look)
        self.start()

    def look(self) -> None:
        """Look at the file; what is different twice alike is told."""
        if self._household.reader.is_lent or QApplication.activeModalWidget() is not None:
            return
        state = self._state()
        has_settled = state == self._seen
        self._seen = state
        if has_settled and state != self._told:
            self._told = state
            self.changed.emit()

    def _state(self) -> tuple[int, int, int] | None:
        try:
            found = self._household.path.stat()
        except OSError:
            return None
        return found.st_ino, found.st_size, found.st_mtime_ns


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a book open.

    Attributes:
        computer: Name of the computer.
        since: Local time from which on it is open, ISO 8601.
    """

    computer: str
    since: str

    @property
    def is_elsewhere(self) -> bool:
        """Whether it is another computer, so that nobody can tell whether it still runs."""
        return self.computer != QSysInfo.machineHostName()


class OpenMarks:
    """The lock files of the books that are open in this window."""

    def __init__(self) -> None:
        self._held: dict[Path, QLockFile] = {}

    def open(self, path: Path) -> tuple[Book, Holder | None]:
        """Open a book and mark it as open here; for reading only if somebody else has it open.

        Returns:
            The book, and who else has it open.

        Raises:
            Fault: It can't be opened.
        """
        was_held = path.absolute() in self._held
        holder = self.hold(path) if path.is_file() else None
        try:
            return Book.open(path, readonly=holder is not None), holder
        except Fault:
            if not was_held:
                self.release(path)
            raise

    def hold(self, path: Path) -> Holder | None:
        """Mark a book as open here.

        A mark whose window ended without closing, or that can't be read, does not count.

        Returns:
            None if it is ours now; who has it open if somebody else does. If the folder can't be
            written there is nothing to mark, and the book can't be written either.
        """
        if path.absolute() in self._held:
            return None
        lock = _lock(path)
        if not lock.tryLock(0):
            if lock.error() is not QLockFile.LockError.LockFailedError:
                return None
            holder = _holder(path)
            if holder is not None:
                return holder
            lock.removeStaleLockFile()
            if not lock.tryLock(0):
                return None
        self._held[path.absolute()] = lock
        return None

    def take_over(self, path: Path) -> Holder | None:
        """Mark a book as open here though another computer's mark was left behind; see `hold`.

        A window that is open on this computer keeps its mark: it can be closed instead.
        """
        holder = _holder(path)
        if holder is not None and holder.is_elsewhere:
            _lock(path).removeStaleLockFile()
        return self.hold(path)

    def release(self, path: Path) -> None:
        """Take the mark away if it is ours."""
        lock = self._held.pop(path.absolute(), None)
        if lock is not None:
            lock.unlock()


def _lock(book: Path) -> QLockFile:
    lock = QLockFile(str(_place(book)))
    lock.setStaleLockTime(0)  # a window may be open for weeks
    return lock


def _place(book: Path) -> Path:
    return book.with_name(f".{book.name}.open")


def _holder(book: Path) -> Holder | None:
    """Who marked a book as open; None if nobody did, this process did, or it can't be read."""
    process, computer, _program = _lock(book).getLockInfo()
    here = computer == QSysInfo.machineHostName()
    if not process or (here and process == os.getpid()):
        return None
    try:
        since = datetime.fromtimestamp(_place(book).stat().st_mtime).astimezone()
    except OSError:  # taken away meanwhile
        return None
    return Holder(computer, since.isoformat(timespec="minutes"))


def held_words(path: Path, holder: Holder) -> str:
    """Who has a book open and since when."""
    said = (
        _(
            "{name} has been open on the computer {computer} since {since}. Here it is open for "
            "reading only: close it there, then open it again."
        )
        if holder.is_elsewhere
        else _(
            "{name} has been open in another window on this computer since {since}. Here it is "
            "open for reading only: close that window, then open it again."
        )
    )
    return said.format(name=path.name, computer=holder.computer, since=since_words(holder.since))


def may_be_mended(path: Path, fault: Fault) -> bool:
    """Whether a copy or a rescue may help after a book could not be opened."""
    from wellbook.book.copies import copies_of

    return path.is_file() and (str(fault) == damaged(path) or bool(copies_of(path)))


def offer_help(frame: "Frame", path: Path, fault: Fault) -> bool:
    """Say what helps after a book could not be opened; whether anything does."""
    if may_be_mended(path, fault):
        frame.bar.say(str(fault), _("Its copies…"), lambda: frame.copies.show(path))
        return True
    if path.exists():
        return False
    said = _(
        "{name} is no longer in {folder}. If it was moved or renamed, open it where it is now."
    )
    said = said.format(name=path.name, folder=path.parent)
    frame.bar.say(said, _("Open a book…"), frame.choose_book)
    return True


class NewBooks:
    """Makes empty books in a window, and begins with what they are made for."""

    def __init__(self, frame: "Frame", chooser: Chooser) -> None:
        self._frame, self._chooser = frame, chooser

    def ask(self) -> None:
        """Make an empty book where the person says; ask about household, or a point at least."""
        frame = self._frame
        path = self._chooser.book_to_make(frame, _book_name())
        if path is not None:
            frame.show_book(Book.create(path))
            if frame.view is not None:
                frame.view.book_actions.meet_household(lambda: frame.do("add_point"))

    def begin_by_hand(self) -> None:
        """Type the first test into a new book among the person's documents."""
        self.begin()
        if self._frame.view is not None:
            self._frame.view.book_actions.add_by_hand()

    def begin_with_files(self) -> None:
        """Read a lab's files into a new book among the person's documents."""
        files = self._chooser.lab_files(self._frame)
        if files:
            self.begin()
            if self._frame.view is not None:
                self._frame.view.book_actions.read_files(files)

    def begin(self) -> None:
        """Make an empty book among the person's documents, and say where it lies."""
        frame, path = self._frame, self._chooser.book_to_begin(_book_name())
        frame.show_book(Book.create(path))
        frame.bar.say(_("Your new book is {path}.").format(path=path))


def _book_name() -> str:
    return _("my-well.wellbook")


class OwnCopies:
    """Shows the copies of a book in a window, and puts one in its place."""

    def __init__(
        self,
        frame: "Frame",
        preferences: Preferences,
        chooser: Chooser,
        clock: Callable[[], date],
    ) -> None:
        self._frame, self._preferences = frame, preferences
        self._chooser, self._clock = chooser, clock

    def show(self, path: Path) -> None:
        """Show the copies of a book, open or not."""
        from wellbook.window.dialogs.copies.copies_dialog import CopiesDialog

        frame = self._frame
        book = frame.view.household.book if frame.view else None
        shown = book if book is not None and book.path == path else None
        dialog = CopiesDialog(path, shown, self._preferences, self._chooser, self._clock(), frame)
        dialog.go_back_wanted.connect(
            lambda copy: frame.bar.attempt(lambda: self._go_back(path, copy))
        )
        dialog.open_wanted.connect(lambda saved: frame.bar.attempt(lambda: frame.open_book(saved)))
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def show_own(self) -> None:
        """Show the copies of the book that is open."""
        if self._frame.view is not None:
            self.show(self._frame.view.household.path)

    def _go_back(self, path: Path, copy: Path) -> None:
        """Put a copy in the place of a book and open it; what stays open is the book."""
        from wellbook.book.copies import restore

        frame = self._frame
        if frame.view is not None and frame.view.household.path == path:
            if path.exists():
                frame.view.household.book.require_in_place()
            frame.close_book()
        try:
            aside = restore(path, copy, self._clock())
        finally:
            frame.open_or_mend(path)
        said = _("This is the copy {copy}. The book as it was before lies in {aside}.")
        frame.bar.say(said.format(copy=copy.name, aside=aside))
