"""Copy, paste and select all, done where the focus is."""

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QTextEdit, QWidget

from wellbook.window.widgets.tables import Table

if TYPE_CHECKING:
    from wellbook.window.app.main_window import Frame

_WRITTEN = (QLineEdit, QPlainTextEdit, QTextEdit)


def copy() -> None:
    """Copy what is chosen in the field, the table or the chart that has the focus."""
    _ask(QApplication.focusWidget(), "copy")


def copy_with_head() -> None:
    """Copy the chosen rows of a table under its head; words of a field as they are."""
    at = QApplication.focusWidget()
    if isinstance(at, Table):
        at.copy(with_head=True)
    else:
        _ask(at, "copy")


def select_all() -> None:
    """Choose all of what has the focus."""
    _ask(QApplication.focusWidget(), "selectAll")


def paste(frame: "Frame") -> None:
    """Paste into the field that has the focus; on a page read what was copied as a test."""
    at = QApplication.focusWidget()
    if isinstance(at, _WRITTEN) and not at.isReadOnly():
        at.paste()
    elif frame.view is not None and not frame.view.household.why_readonly:
        frame.view.book_actions.paste()
    elif frame.view is not None:
        frame.bar.say(frame.view.household.why_readonly)


def _ask(widget: QWidget | None, deed: str) -> None:
    do = getattr(widget, deed, None)
    if callable(do):
        do()
