"""Columns of a list that can be missed make room before words of the others are cut."""

from collections.abc import Sequence

from PySide6.QtCore import QTimer

from wellbook.window.common.theme import em
from wellbook.window.widgets.tables import LEAST, Table


class GivingWay(QTimer):
    """Leaves out as many columns as there is no room for, once the list has its new width."""

    def __init__(self, table: Table, order: Sequence[int], *, stretch: int) -> None:
        """Give it a list.

        Args:
            table: The list.
            order: Places of the columns that can be missed, the first to go first.
            stretch: Place of the column that gets the rest.
        """
        super().__init__(table)
        self._table, self._order, self._stretch = table, order, stretch
        self.setSingleShot(True)
        self.timeout.connect(self.look)

    def look(self) -> None:
        """Leave out what there is no room for now."""
        table, head = self._table, self._table.horizontalHeader()
        wide = [
            max(table.sizeHintForColumn(column), head.sectionSizeHint(column))
            for column in range(head.count())
        ]
        wide[self._stretch] = min(wide[self._stretch], em(table) * LEAST)
        needed, room, left_out = sum(wide), table.viewport().width(), []
        for column in self._order:
            if needed > room:
                left_out.append(column)
                needed -= wide[column]
        table.leave_out(left_out)
