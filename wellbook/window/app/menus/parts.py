"""What the tables of the menus are written with."""

from typing import TYPE_CHECKING

from PySide6.QtGui import QKeySequence

from wellbook.window.app.book_pages import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from wellbook.window.app.book_view import BookView
    from wellbook.window.app.main_window import Frame

Key = QKeySequence.StandardKey


def in_book(run: "Callable[[BookView], object]") -> "Callable[[Frame], object]":
    """What is done in the book that is open; nothing where none is."""
    return lambda frame: run(frame.view) if frame.view is not None else None


def to(page: Page) -> "Callable[[Frame], object]":
    """What goes to a page."""
    return in_book(lambda view: view.go(page))
