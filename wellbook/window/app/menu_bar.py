"""The menus of the main window, made of the table of actions in the language of now."""

from collections.abc import Callable
from functools import partial

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QMenuBar

from wellbook.window.common.actions import Action, menus


def fill(
    bar: QMenuBar, do: Callable[[str], None], before_shown: Callable[[], None]
) -> tuple[list[QMenu], dict[str, tuple[Action, QAction]]]:
    """Put the menus into a bar, in place of those it has.

    Args:
        bar: The bar, which owns them.
        do: Called with the key of the action that was chosen.
        before_shown: Called before a menu is shown.

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
            item = QAction(action.text, menu)
            item.setShortcut(action.keys())
            item.setToolTip(action.help)
            item.triggered.connect(partial(_do, do, action.key))
            made[action.key] = (action, item)
            menu.addAction(item)
        menu.aboutToShow.connect(before_shown)
        bar.addMenu(menu)
        filled.append(menu)
    return filled, made


def _do(do: Callable[[str], None], key: str, _is_checked: bool = False) -> None:  # noqa: FBT001, FBT002  Qt passes it
    do(key)
