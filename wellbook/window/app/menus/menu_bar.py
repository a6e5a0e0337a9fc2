"""Everything that can be done from a menu or a key, and the menus made from it.

Shortcuts, buttons and the page of keys come from the same tables, in the language of now.
"""

from collections.abc import Callable, Mapping
from functools import partial

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QMenuBar

from wellbook.support.translation import _
from wellbook.window.app.menus import (
    edit_menu,
    file_menu,
    help_menu,
    record_menu,
    share_menu,
    view_menu,
)
from wellbook.window.common.actions import Action

_ROLES = {
    "settings": QAction.MenuRole.PreferencesRole,
    "leave": QAction.MenuRole.QuitRole,
    "about": QAction.MenuRole.AboutRole,
}


def menus() -> tuple[tuple[str, tuple[Action, ...]], ...]:
    """Every menu with its actions, in the person's language."""
    return (
        (_("&File"), file_menu.actions()),
        (_("&Edit"), edit_menu.actions()),
        (_("&View"), view_menu.actions()),
        (_("&Record"), record_menu.actions()),
        (_("&Share"), share_menu.actions()),
        (_("&Help"), help_menu.actions()),
    )


def fill(
    bar: QMenuBar,
    do: Callable[[str], None],
    before_shown: Callable[[], None],
    below: Mapping[str, QMenu],
) -> tuple[list[QMenu], dict[str, tuple[Action, QAction]]]:
    """Put the menus into a bar, in place of those it has.

    Args:
        bar: The bar, which owns them.
        do: Called with the key of the action that was chosen.
        before_shown: Called before a menu is shown.
        below: The menus that open beside an entry, by the key of its action.

    Returns:
        The menus; each action, and what stands for it in its menu, by its key.
    """
    for old in bar.actions():
        bar.removeAction(old)
        old.menu().deleteLater()
    filled: list[QMenu] = []
    made: dict[str, tuple[Action, QAction]] = {}
    for title, actions in menus():
        menu = QMenu(title, bar)
        menu.setToolTipsVisible(True)
        for action in actions:
            if action.begins_group:
                menu.addSeparator()
            made[action.key] = (action, _entry(menu, action, do, below.get(action.key)))
        menu.aboutToShow.connect(before_shown)
        bar.addMenu(menu)
        filled.append(menu)
    return filled, made


def _entry(menu: QMenu, action: Action, do: Callable[[str], None], below: QMenu | None) -> QAction:
    """Put an action into a menu."""
    if below is not None:
        below.setTitle(action.text)
        item = menu.addMenu(below)
    else:
        item = QAction(action.text, menu)
        item.setShortcuts(action.all_keys())
        item.triggered.connect(partial(_do, do, action.key))
        menu.addAction(item)
    item.setToolTip(action.help)
    item.setMenuRole(_ROLES.get(action.key, QAction.MenuRole.NoRole))
    return item


def _do(do: Callable[[str], None], key: str, _is_checked: bool = False) -> None:  # noqa: FBT001, FBT002  Qt passes it
    do(key)
