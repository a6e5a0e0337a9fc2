"""A table model over an immutable tuple of rows.

A new tuple is compared with the shown one, and only what differs is told to the view, so that
selection, scrolling and a reader's place survive.
"""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QFont, QGuiApplication

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.tips import tip

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole
VERDICT_ROLE = int(Role.UserRole) + 1
SORT_ROLE = int(Role.UserRole) + 2
ROW_ROLE = int(Role.UserRole) + 3
_NOWHERE = QModelIndex()


@dataclass(frozen=True, slots=True)
class Column:
    """One column: how its head reads and how it is filled from a row.

    Attributes:
        title: Head of the column.
        text: What stands in it.
        tip: More words on the same, for the pointer and the screen reader.
        verdict: The verdict whose mark stands before the text.
        sort: What to sort by, if not the text.
    """

    title: str
    text: Callable[[Any], str]
    tip: Callable[[Any], str] | None = None
    verdict: Callable[[Any], Verdict | None] | None = None
    sort: Callable[[Any], Any] | None = None

    def more(self, row: Any) -> str:
        """The tip on a row; where there is none, the text, which may be cut off on the screen."""
        return self.tip(row) if self.tip else self.text(row)


def bold_font() -> QFont:
    """The program's font in bold."""
    font = QGuiApplication.font()
    font.setBold(True)
    return font


class RowsModel(QAbstractTableModel):
    """Rows of any frozen kind, shown by columns that know how to read them."""

    def __init__(
        self,
        columns: Sequence[Column],
        identity: Callable[[Any], Hashable],
        parent: QObject | None = None,
        *,
        is_head: Callable[[Any], bool] = lambda _row: False,
    ) -> None:
        super().__init__(parent)
        self._columns = tuple(columns)
        self._is_head = is_head
        self._identity = identity
        self._rows: list[Any] = []

    @property
    def rows(self) -> tuple[Any, ...]:
        """The rows that are shown."""
        return tuple(self._rows)

    def texts(self, column: int, most: int) -> list[str]:
        """What stands in a column of the first rows, without the heads that span all columns."""
        text = self._columns[column].text
        return [text(row) for row in self._rows[:most] if not self._is_head(row)]

    def has_marks(self, column: int) -> bool:
        """Whether marks stand before the words of a column."""
        return self._columns[column].verdict is not None

    def show(self, rows: Sequence[Any]) -> None:
        """Show these rows from now on, each with an identity of its own."""
        wanted = {self._identity(row): row for row in rows}
        gone = [i for i, row in enumerate(self._rows) if self._identity(row) not in wanted]
        if len(gone) == len(self._rows):
            self._fill(list(wanted.values()))
            return
        for place in reversed(gone):
            self.beginRemoveRows(_NOWHERE, place, place)
            del self._rows[place]
            self.endRemoveRows()
        stay = {self._identity(row) for row in self._rows}
        for place, (key, row) in enumerate(wanted.items()):
            self._bring(place, key, row, is_new=key not in stay)

    def _fill(self, rows: list[Any]) -> None:
        if self._rows:
            self.beginRemoveRows(_NOWHERE, 0, len(self._rows) - 1)
            self._rows = []
            self.endRemoveRows()
        if rows:
            self.beginInsertRows(_NOWHERE, 0, len(rows) - 1)
            self._rows = rows
            self.endInsertRows()

    def _bring(self, place: int, key: Hashable, row: Any, *, is_new: bool) -> None:
        if is_new:
            self.beginInsertRows(_NOWHERE, place, place)
            self._rows.insert(place, row)
            self.endInsertRows()
            return
        if self._identity(self._rows[place]) != key:
            old = next(
                i for i in range(place + 1, len(self._rows)) if self._identity(self._rows[i]) == key
            )
            self.beginMoveRows(_NOWHERE, old, old, _NOWHERE, place)
            self._rows.insert(place, self._rows.pop(old))
            self.endMoveRows()
        if self._rows[place] != row:
            self._rows[place] = row
            self.dataChanged.emit(self.index(place, 0), self.index(place, len(self._columns) - 1))

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """Number of rows; none below a row."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        """Number of columns; none below a row."""
        return 0 if parent.isValid() else len(self._columns)

    def data(self, index: Index, role: int = int(Role.DisplayRole)) -> Any:
        """What a cell shows."""
        if not index.isValid():
            return None
        row, column = self._rows[index.row()], self._columns[index.column()]
        found: Any
        match role:
            case Role.DisplayRole | Role.AccessibleTextRole:
                found = column.text(row)
            case Role.ToolTipRole:
                found = tip(column.more(row))
            case Role.AccessibleDescriptionRole:
                found = column.more(row)
            case Role.FontRole if self._is_head(row):
                found = bold_font()
            case _:
                found = self._own(column, row, role)
        return found

    def _own(self, column: Column, row: Any, role: int) -> Any:
        if role == VERDICT_ROLE:
            return column.verdict(row) if column.verdict else None
        if role == SORT_ROLE:
            return column.sort(row) if column.sort else column.text(row).casefold()
        return row if role == ROW_ROLE else None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = int(Role.DisplayRole)
    ) -> Any:
        """Heads of the columns."""
        is_head = orientation is Qt.Orientation.Horizontal and role == int(Role.DisplayRole)
        return self._columns[section].title if is_head else None
