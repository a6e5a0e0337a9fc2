"""What is done with copies of a book on another thread."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from wellbook.book.copies import Copy, Preview, copies_of, make_copy, preview
from wellbook.window.work import Tell

translate = QCoreApplication.translate
Work = Callable[[Tell], object]
OnDone = Callable[..., object]


def copies(book: Path, folder: Path | None) -> list[Copy]:
    """The copies in the book's own folder and in one more, newest first."""
    found = [*copies_of(book), *(copies_of(book, folder) if folder else ())]
    return sorted({copy.path: copy for copy in found}.values(), key=_newest_last, reverse=True)


def _newest_last(copy: Copy) -> tuple[date, str]:
    return copy.day, str(copy.path)


def compare(book: Path, copy: Path, tell: Tell) -> Preview:
    """What going back to a copy would do."""
    tell(0, 0, copy.name)
    return preview(book, copy)


def make(book: Path, today: date, folder: Path | None, tell: Tell) -> Path:
    """Make a copy and read it back."""
    tell(0, 0, book.name)
    return make_copy(book, today, folder)


def save_readable(damaged: Path, target: Path, tell: Tell) -> str:
    """Build a new book from what can be read; the sentence on what was saved."""
    from wellbook.book.rescuing import rescue

    tell(0, 0, damaged.name)
    saved = rescue(damaged, target)
    said = translate(
        "Copies",
        "{entries} entries were saved into {path}. Not saved: {lost} entries, {documents} "
        "documents. The damaged file is as it was.",
    )
    return said.format(
        entries=saved.entries,
        path=target,
        lost=saved.lost_entries,
        documents=len(saved.lost_documents),
    )
