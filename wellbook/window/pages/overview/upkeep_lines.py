"""What units and wellhead need, below what is said of the water."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.planning.upkeep.words import advice, head
from wellbook.support.translation import _, ngettext
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.layouts import clear_layout, lock, words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wellbook.planning.upkeep.due import UpkeepItem

_UPKEEP_LINES = 2


class UpkeepLines(QFrame):
    """What is due at units and wellhead, a line each with a button that notes it as done.

    Signals:
        done: It was done; carries the item.
        all_wanted: The page with all of it is to be shown.
    """

    done = Signal(object)
    all_wanted = Signal()

    def __init__(self, why_readonly: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._why = why_readonly
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(em(self) // 4)
        self.buttons: list[QPushButton] = []
        self.lines: tuple[str, ...] = ()

    def show_items(self, items: "Sequence[UpkeepItem]", today: date) -> None:
        """Show the first of what is due; how many more there are is said beside the way there."""
        clear_layout(self._rows)
        shown = items[:_UPKEEP_LINES]
        self.lines = tuple(_sentence(head(item, today)) for item in shown)
        self.buttons = []
        for place, (item, said) in enumerate(zip(shown, self.lines, strict=True), start=1):
            more = len(items) - place if place == len(shown) else 0
            self._rows.addWidget(self._row(item, said, more))
        self.setVisible(bool(items))

    def _row(self, item: "UpkeepItem", said: str, more: int) -> QWidget:
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        line = words(said)
        set_tip(line, advice(item))
        across.addWidget(line, 1)
        if more:
            told = ngettext("{n} more thing to see to…", "{n} more things to see to…", more)
            link = QPushButton(told.format(n=more))
            link.clicked.connect(self.all_wanted)
            across.addWidget(link)
        button = QPushButton(_("Put right…") if item.is_fault else _("Done today…"))
        button.setAccessibleName(f"{button.text()} {said}")
        button.clicked.connect(lambda: self.done.emit(item))
        lock(self._why, button)
        self.buttons.append(button)
        across.addWidget(button)
        return row


def _sentence(said: str) -> str:
    """What is said as a sentence, beginning with a capital."""
    return said[:1].upper() + said[1:]
