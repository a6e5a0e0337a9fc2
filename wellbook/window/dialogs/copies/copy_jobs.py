"""What is done with copies of a book on another thread."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.book.copies import Copy, Preview, copies_of, make_copy, preview
from wellbook.support.translation import _
from wellbook.window.common.jobs import Tell

Work = Callable[[Tell], object]
OnDone = Callable[..., object]


def copies(book: Path, folder: Path | None) -> list[Copy]:
    """The copies in the book's own folder and in one more, newest first."""
    found = [*copies_of(book), *(copies_of(book, folder) if folder else ())]
    return sorted({copy.path: copy for copy in found}.values(), key=_newest_last, reverse=True)


def _newest_last(copy: Copy) -> tuple[date, str]:
    return copy.day, str(copy.path)


def compare(book: Path, shown: Book | None, copy: Path, tell: Tell) -> Preview:
    """What going back to a copy would do; `shown` is the book if it is open.

    Raises:
        Fault: Another file lies in the place of the book that is shown.
    """
    tell(0, 0, copy.name)
    if shown is not None and book.exists():  # a copy is just what a book that is gone needs
        shown.require_in_place()
    return preview(book, copy)


def make(shown: Book, today: date, folder: Path | None, tell: Tell) -> Path:
    """Make a copy and read it back.

    Raises:
        Fault: Another file lies in the place of the book, or the copy can't be made.
    """
    tell(0, 0, shown.path.name)
    shown.require_in_place()
    return make_copy(shown.path, today, folder)


def save_readable(damaged: Path, target: Path, tell: Tell) -> str:
    """Build a new book from what can be read; the sentence on what was saved."""
    from wellbook.book.rescue import rescue

    tell(0, 0, damaged.name)
    saved = rescue(damaged, target)
    said = _(
        "{entries} entries were saved into {path}. Not saved: {lost} entries, {documents} "
        "documents. The damaged file is as it was."
    )
    return said.format(
        entries=saved.entries,
        path=target,
        lost=saved.lost_entries,
        documents=len(saved.lost_documents),
    )
