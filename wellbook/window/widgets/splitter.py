"""Parts of a page with a bar between them that a person may move; remembered."""

from collections.abc import Sequence

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtWidgets import QSplitter, QWidget

from wellbook.window.common.theme import em
from wellbook.window.widgets.lists.list_columns import ColumnMemory


class Splitter(QSplitter):
    """Parts beside or below each other, none of which can be moved out of sight."""

    def __init__(self, name: str, direction: Qt.Orientation, parts: Sequence[QWidget]) -> None:
        """Make it.

        Args:
            name: What it is remembered by.
            direction: How its parts lie.
            parts: The parts, from the left or from the top.
        """
        super().__init__(direction)
        self._key = f"splitter_{name}"
        for part in parts:
            self.addWidget(part)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(max(self.handleWidth(), em(self) // 3))
        self.splitterMoved.connect(self._keep)

    def share(self, *ems: int) -> None:
        """Give the parts what they were given last, else so many ems each."""
        store = ColumnMemory.store
        kept = store.value(self._key) if store is not None else None
        if not (isinstance(kept, QByteArray) and self.restoreState(kept)):
            self.setSizes([one * em(self) for one in ems])

    def _keep(self) -> None:
        if ColumnMemory.store is not None:
            ColumnMemory.store.setValue(self._key, self.saveState())
