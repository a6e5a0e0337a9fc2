"""A list to tick: what it is of, how much is ticked, perhaps a field that narrows what is shown."""

from collections.abc import Collection, Mapping

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.layouts import named, words

_KEY = Qt.ItemDataRole.UserRole
_FOUND_BY = Qt.ItemDataRole.UserRole + 1


class _Items(QListWidget):
    """A click on a name ticks it, as one on its box does."""

    def __init__(self) -> None:
        super().__init__()
        self._pressed = -1

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Remember what the click begins on."""
        self._pressed = self._row_at(event)
        super().mousePressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """The second of two quick clicks counts like any other."""
        self._pressed = self._row_at(event)
        super().mouseDoubleClickEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tick where Qt has not, which it does on the box only."""
        row = self._row_at(event)
        item = self.item(row) if row == self._pressed and row >= 0 else None
        before = item.checkState() if item else None
        super().mouseReleaseEvent(event)
        if item and item.checkState() is before:
            item.setCheckState(_state(is_ticked=before is Qt.CheckState.Unchecked))

    def _row_at(self, event: QMouseEvent) -> int:
        is_left = event.button() is Qt.MouseButton.LeftButton
        return self.indexAt(event.position().toPoint()).row() if is_left else -1


class TickList(QWidget):
    """Shows names, each with a box to tick.

    Signals:
        changed: Something was ticked or unticked.
    """

    changed = Signal()

    def __init__(
        self, label: str, none: str, *, lines: int = 5, search: str = "", grows: bool = False
    ) -> None:
        """Make the list.

        Args:
            label: What it is of, with an underlined letter.
            none: What is said where nothing is ticked, e.g. that all count.
            lines: How many are shown at most without scrolling.
            search: Words in the empty field that narrows the list; without them there is none.
            grows: Whether it takes all the height there is.
        """
        super().__init__()
        self._none, self._lines, self._grows = none, lines, grows
        self.items = _Items()
        self.items.setAccessibleName(label.replace("&", ""))
        self.items.setSelectionMode(QListWidget.SelectionMode.NoSelection)
        self.items.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.items.setSpacing(em(self) // 10)
        policies = QSizePolicy.Policy  # the height is ours to tell, not the list's own guess
        height = policies.Ignored if grows else policies.Fixed
        self.items.setSizePolicy(policies.Expanding, height)
        self.items.itemChanged.connect(self._on_changed)
        self.search = QLineEdit()
        self.search.setPlaceholderText(search)
        self.search.setAccessibleName(search)
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._on_search)
        self.told = words(quiet=True)
        self.told.setWordWrap(False)
        self._lay_out(label, self.search if search else self.items)
        self.search.setVisible(bool(search))

    def _lay_out(self, label: str, first: QWidget) -> None:
        head = QHBoxLayout()
        head.addWidget(named(label, first))
        head.addStretch(1)
        head.addWidget(self.told)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(em(self) // 4)
        column.addLayout(head)
        column.addWidget(self.search)
        column.addWidget(self.items, 1)

    def fill(
        self,
        names: Mapping[str, str],
        ticked: Collection[str] = (),
        more: Mapping[str, str] | None = None,
    ) -> None:
        """Show names by key.

        Args:
            names: From top to bottom.
            ticked: Keys of those that are ticked at first.
            more: Further words by which a name is found, shown when the mouse rests on it.
        """
        with QSignalBlocker(self.items):
            self.items.clear()
            for key, name in names.items():
                item = QListWidgetItem(name)
                item.setData(_KEY, key)
                beside = (more or {}).get(key, "")
                set_tip(item, beside)
                item.setData(_FOUND_BY, f"{name} {beside}".casefold())
                item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsUserCheckable)
                item.setCheckState(_state(is_ticked=key in ticked))
                self.items.addItem(item)
        self._set_height()
        self._on_search(self.search.text())
        self._tell()

    def _set_height(self) -> None:
        line = self.items.sizeHintForRow(0) + 2 * self.items.spacing()
        shown = self._lines if self._grows else min(self.items.count(), self._lines)
        frame = 2 * self.items.frameWidth() + 2 * self.items.spacing()
        self.items.setMinimumHeight(max(line, em(self)) * max(shown, 1) + frame)
        if not self._grows:
            self.items.setMaximumHeight(self.items.minimumHeight())

    def ticked(self) -> tuple[str, ...]:
        """Keys of what is ticked, in the order of the list, whether it is shown now or not."""
        return tuple(
            str(item.data(_KEY))
            for item in self._items()
            if item.checkState() is Qt.CheckState.Checked
        )

    def tick(self, keys: Collection[str]) -> None:
        """Tick these and no others."""
        before = self.ticked()
        with QSignalBlocker(self.items):
            for item in self._items():
                item.setCheckState(_state(is_ticked=item.data(_KEY) in keys))
        self.items.viewport().update()
        if self.ticked() != before:
            self._on_changed()

    def _items(self) -> list[QListWidgetItem]:
        return [self.items.item(row) for row in range(self.items.count())]

    def _on_search(self, text: str) -> None:
        wanted = text.casefold().split()
        for item in self._items():
            found_by = item.data(_FOUND_BY)
            item.setHidden(not all(word in found_by for word in wanted))
        first = next((item for item in self._items() if not item.isHidden()), None)
        if first is not None:
            self.items.setCurrentItem(first)  # so that the focus is seen on coming here

    def _on_changed(self) -> None:
        self._tell()
        self.changed.emit()

    def _tell(self) -> None:
        n = len(self.ticked())
        said = _("{n} of {all} ticked").format(n=n, all=self.items.count())
        self.told.setText(said if n else self._none)


def _state(*, is_ticked: bool) -> Qt.CheckState:
    return Qt.CheckState.Checked if is_ticked else Qt.CheckState.Unchecked
