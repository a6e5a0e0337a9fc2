"""What can be done from a menu or a key: its line, its key, what it needs, what it does."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, auto
from typing import Any

from PySide6.QtGui import QKeySequence


class Needs(Enum):
    """What must be open for an action."""

    NOTHING = auto()
    BOOK = auto()
    WRITING = auto()  # a book that may be written to


@dataclass(frozen=True, slots=True)
class Action:
    """Something that can be done.

    Attributes:
        key: Its name, by which buttons and tests find it.
        text: Its line in the menu.
        help: One sentence for the page of keys and the status tip.
        shortcut: The key, a standard one where there is one.
        needs: What must be open.
        run: Does it in the main window that it is given.
        begins_group: Whether a line is drawn above it in its menu.
        also: Further keys, for those that differ from one platform to the other.
    """

    key: str
    text: str
    help: str
    shortcut: QKeySequence.StandardKey | str
    needs: Needs
    run: Callable[[Any], object]
    begins_group: bool = False
    also: tuple[str, ...] = ()

    @property
    def plain(self) -> str:
        """Its text without the underlined letter and the dots."""
        return self.text.replace("&", "").removesuffix("…")

    def keys(self) -> QKeySequence:
        """The key it is reached with, the one that is named in its menu."""
        return QKeySequence(self.shortcut)

    def all_keys(self) -> list[QKeySequence]:
        """Every key it is reached with: those of the platform, and what people also press."""
        usual = (
            QKeySequence.keyBindings(self.shortcut)
            if isinstance(self.shortcut, QKeySequence.StandardKey)
            else [self.keys()]
        )
        named = [key.toString() for key in usual]
        return [*usual, *(QKeySequence(key) for key in self.also if key not in named)]
