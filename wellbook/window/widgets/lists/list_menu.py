"""The context menus of a list: what can be done with its rows, and how its columns are set."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu, QPushButton

from wellbook.support.translation import _

if TYPE_CHECKING:
    from wellbook.window.widgets.tables import Table


def show_menu(table: "Table", at: QPoint, deeds: Sequence[QPushButton]) -> None:
    """Show what can be done with the chosen row, at a place on the screen."""
    menu = QMenu(table)
    for button in deeds:
        if button.isEnabled() and button.isVisible():
            menu.addAction(button.text(), button.click)
    menu.addSeparator()
    copy = menu.addAction(_("&Copy"), table.copy)
    copy.setShortcut(QKeySequence(QKeySequence.StandardKey.Copy))
    menu.addAction(_("Copy with &heading"), partial(table.copy, with_head=True))
    menu.addAction(_("Select &all"), table.selectAll)
    if table.is_arranged:
        menu.addSeparator()
        _add_columns(menu, table)
    menu.aboutToHide.connect(menu.deleteLater)
    menu.popup(at)


def show_column_menu(table: "Table", at: QPoint) -> None:
    """Show how the columns can be set, at a place on the screen."""
    menu = QMenu(table)
    _add_columns(menu, table)
    menu.aboutToHide.connect(menu.deleteLater)
    menu.popup(at)


def _add_columns(menu: QMenu, table: "Table") -> None:
    titles = table.column_titles()
    by = menu.addMenu(_("&Sort by"))
    for column, title in titles.items():
        entry = by.addAction(title, partial(table.sort_by, column))
        entry.setCheckable(True)
        entry.setChecked(table.sorted_by == column)
    by.addSeparator()
    by.addAction(_("Order of the page"), partial(table.sort_by, -1))
    shown = menu.addMenu(_("C&olumns"))
    is_last = sum(not table.isColumnHidden(column) for column in titles) == 1
    for column, title in titles.items():
        entry = shown.addAction(title)
        entry.setCheckable(True)
        is_shown = not table.isColumnHidden(column)
        entry.setChecked(is_shown)
        entry.setEnabled(not (is_last and is_shown))
        entry.toggled.connect(partial(table.show_column, column))
    menu.addAction(_("Columns as at &first"), table.reset_columns)
