"""Opening a book for the window: who has it open already, and what helps a damaged one."""

from datetime import datetime
from pathlib import Path

from wellbook.book import Book
from wellbook.book.opening import damaged
from wellbook.support import lock_file
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.clock_words import since_words


def open_held(path: Path) -> tuple[Book, lock_file.Holder | None]:
    """Open a book and mark it as open here; for reading only if somebody else has it open.

    Returns:
        The book, and who else has it open.

    Raises:
        Fault: It can't be opened.
    """
    holder = hold(path) if path.is_file() else None
    try:
        return Book.open(path, readonly=holder is not None), holder
    except Fault:
        if holder is None:
            release(path)
        raise


def hold(path: Path) -> lock_file.Holder | None:
    """Mark a book as open here; who has it open if somebody else does."""
    return lock_file.hold(path, datetime.now().astimezone())


def take_over(path: Path) -> lock_file.Holder | None:
    """Mark a book as open here though another computer's mark is there."""
    return lock_file.take_over(path, datetime.now().astimezone())


def release(path: Path) -> None:
    """Take the mark away if it is ours."""
    lock_file.release(path, datetime.now().astimezone())


def is_elsewhere(holder: lock_file.Holder) -> bool:
    """Whether another computer has the book open, so that nobody can tell whether it still runs."""
    return holder.computer != lock_file.Holder.here(datetime.now().astimezone()).computer


def held_words(path: Path, holder: lock_file.Holder) -> str:
    """Who has a book open and since when."""
    said = (
        _(
            "{name} has been open on the computer {computer} since {since}. Here it is open for "
            "reading only: close it there, then open it again."
        )
        if is_elsewhere(holder)
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
