"""A table model over an immutable tuple of rows.

A new tuple is compared with the shown one, and only what differs is told to the view, so that
selection, scrolling and a reader's place survive.
"""

import re
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QGuiApplication

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.tips import tip

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole
VERDICT_ROLE = int(Role.UserRole) + 1
SORT_ROLE = int(Role.UserRole) + 2
ROW_ROLE = int(Role.UserRole) + 3
_NOWHERE = QModelIndex()
_FIGURE = re.compile(r"(\d+(?:\.\d+)?)")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: how its head reads and how it is filled from a row.

    Attributes:
        title: Head of the column.
        text: What stands in it.
        tip: More words on the same, for the pointer and the screen reader.
        verdict: The verdict whose mark stands before the text.
        sort: What to sort by, if not the text; None where there is nothing, which comes last.
    """

    title: str
    text: Callable[[Any], str]
    tip: Callable[[Any], str] | None = None
    verdict: Callable[[Any], Verdict | None] | None = None
    sort: Callable[[Any], Any] | None = None

    def more(self, row: Any) -> str:
        """The tip on a row; where there is none, the text, which may be cut off on the screen."""
        return self.tip(row) if self.tip else self.text(row)


def natural(text: str) -> tuple[tuple[bool, float, str], ...]:
    """What words are sorted by: figures in them as numbers, letters large or small alike."""
    return tuple(
        (False, float(part), "") if place % 2 else (True, 0.0, part)
        for place, part in enumerate(_FIGURE.split(text.casefold().strip()))
        if part
    )


def bold_font() -> QFont:
    """The program's font in bold."""
    font = QGuiApplication.font()
    font.setBold(True)
    return font


class RowsModel(QAbstractTableModel):
    """Rows of any frozen kind, shown by columns that know how to read them.

    They can be narrowed down to those that hold some words, and sorted by a column; heads that span
    all columns stand only in the order in which the rows were given.

    Signals:
        arranged: Other rows stand there now, or the same in another order.
    """

    arranged = Signal()

    def __init__(
        self,
        columns: Sequence[Column],
        identity: Callable[[Any], Hashable],
        parent: QObject | None = None,
        *,
        is_head: Callable[[Any], bool] = lambda _row: False,
        opens: Callable[[Any], bool] = lambda _row: False,
    ) -> None:
        super().__init__(parent)
        self._columns = tuple(columns)
        self._is_head, self._opens = is_head, opens
        self._identity = identity
        self._rows: list[Any] = []
        self._given: tuple[Any, ...] = ()
        self._words: tuple[str, ...] = ()
        self._by, self._is_falling = -1, False
        self._texts: dict[tuple[int, int], list[str]] = {}

    @property
    def rows(self) -> tuple[Any, ...]:
        """The rows that are shown."""
        return tuple(self._rows)

    def texts(self, column: int, most: int) -> list[str]:
        """What stands in a column of the first rows, without the heads that span all columns."""
        if (column, most) not in self._texts:
            text = self._columns[column].text
            shown = [text(row) for row in self._rows[:most] if not self._is_head(row)]
            self._texts[column, most] = shown
        return self._texts[column, most]

    def _tell(self) -> None:
        self._texts.clear()
        self.arranged.emit()

    def has_marks(self, column: int) -> bool:
        """Whether marks stand before the words of a column."""
        return self._columns[column].verdict is not None

    def is_head(self, place: int) -> bool:
        """Whether a row is a head that spans all columns."""
        return self._is_head(self._rows[place])

    def show(self, rows: Sequence[Any]) -> None:
        """Show these rows from now on, each with an identity of its own."""
        self._given = tuple(rows)
        self._put_in(self._arranged())
        self._tell()

    @property
    def is_narrowed(self) -> bool:
        """Whether only rows with some words are shown."""
        return bool(self._words)

    def narrow(self, text: str) -> None:
        """Show only the rows that hold each of these words in some column."""
        self._words = tuple(text.casefold().split())
        self._put_in(self._arranged())
        self._tell()

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; -1 for the order in which the rows were given."""
        is_falling = order is Qt.SortOrder.DescendingOrder
        if (column, is_falling) == (self._by, self._is_falling):
            return
        self._by, self._is_falling = column, is_falling
        arranged = self._arranged()
        if len(arranged) != len(self._rows):  # heads come or go
            self._put_in(arranged)
        else:
            self._reorder(arranged)
        self._tell()

    def _reorder(self, rows: list[Any]) -> None:
        """Put the rows that are shown into another order in one go."""
        self.layoutAboutToBeChanged.emit()
        places = {self._identity(row): place for place, row in enumerate(rows)}
        before = self.persistentIndexList()
        moved = [
            self.index(places[self._identity(self._rows[one.row()])], one.column())
            for one in before
        ]
        self._rows = rows
        self.changePersistentIndexList(before, moved)
        self.layoutChanged.emit()

    def _arranged(self) -> list[Any]:
        """The rows that are to be shown, in their order."""
        rows = [row for row in self._given if self._is_head(row) or self._fits(row)]
        if self._by >= 0:
            plain = [row for row in rows if not self._is_head(row)]
            return sorted(plain, key=self._sort_key, reverse=self._is_falling)
        if not self._words:
            return rows
        after = [*rows[1:], None]
        return [
            row
            for row, following in zip(rows, after, strict=False)
            if not (self._is_head(row) and (following is None or self._is_head(following)))
        ]

    def _fits(self, row: Any) -> bool:
        if not self._words:
            return True
        said = "\n".join(column.text(row) for column in self._columns).casefold()
        return all(word in said for word in self._words)

    def _sort_key(self, row: Any) -> tuple[bool, Any]:
        """What has nothing to sort by stands behind all that has."""
        column = self._columns[self._by]
        found = column.sort(row) if column.sort else natural(column.text(row))
        is_missing = found in {None, "", ()}
        return (is_missing is not self._is_falling, () if is_missing else found)

    def _put_in(self, rows: Sequence[Any]) -> None:
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
            return column.sort(row) if column.sort else natural(column.text(row))
        return row if role == ROW_ROLE else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """A head that spans all columns is read, not chosen, unless it opens what is below."""
        row = self._rows[index.row()] if index.isValid() else None
        if index.isValid() and self._is_head(row) and not self._opens(row):
            return Qt.ItemFlag.ItemIsEnabled
        return super().flags(index)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = int(Role.DisplayRole)
    ) -> Any:
        """Heads of the columns."""
        is_head = orientation is Qt.Orientation.Horizontal and role == int(Role.DisplayRole)
        return self._columns[section].title if is_head else None
