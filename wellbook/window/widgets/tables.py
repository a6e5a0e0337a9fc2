"""A quiet table view: rows to read and choose, no grid, no keyboard trap."""

from collections.abc import Collection, Iterable, Sequence

from PySide6.QtCore import (
    QAbstractItemModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QSize,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import (
    QContextMenuEvent,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QPushButton,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from wellbook.sharing.formula_guard import formula_guarded
from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.theme import em, inks_of
from wellbook.window.widgets.layouts import SheetEdge
from wellbook.window.widgets.lists.list_columns import ColumnMemory, ListColumns, share
from wellbook.window.widgets.lists.list_menu import show_column_menu, show_menu
from wellbook.window.widgets.lists.plain_head import PlainHead
from wellbook.window.widgets.table_model import ROW_ROLE, VERDICT_ROLE, RowsModel
from wellbook.window.widgets.verdict_icons import mark

_MEASURED = 100  # rows that a column's width is taken from
_WIDEST = 20  # lines' heights; longer words end in dots, whole in the tip
LEAST = 8  # lines' heights that the column which gets the rest keeps


class MarkDelegate(QStyledItemDelegate):
    """Sets the mark of a verdict before its word."""

    def initStyleOption(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Add the mark to what is painted."""
        super().initStyleOption(option, index)
        verdict = index.data(VERDICT_ROLE)
        if verdict:
            side = option.fontMetrics.height()
            option.features |= QStyleOptionViewItem.ViewItemFeature.HasDecoration
            inks = inks_of(option.palette)
            option.icon = mark(
                Verdict(verdict), side, inks.verdicts[Verdict(verdict)], inks.on_accent
            )
            option.decorationSize = option.icon.availableSizes()[0]

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """As wide as the words, with air before the next column."""
        size = super().sizeHint(option, index)
        return QSize(size.width() + option.fontMetrics.height(), size.height())


class Table(QTableView):
    """A table of rows.

    Attributes:
        is_arranged: Whether the person may sort it and set its columns.

    Signals:
        chosen: A row was chosen with Return or a double click; carries the row.
        picked: The current row changed; carries the row, or None.
    """

    chosen = Signal(object)
    picked = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        SheetEdge(self)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setCornerButtonEnabled(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        rows = self.verticalHeader()
        rows.hide()
        rows.setDefaultSectionSize(round(em(self) * 1.75))
        self._head = PlainHead(self)
        self.setHorizontalHeader(self._head)
        self._delegate = MarkDelegate(self)
        self.setItemDelegate(self._delegate)
        self.doubleClicked.connect(self._on_chosen)
        self._stretch, self._key, self.is_arranged = -1, "", False
        self._deeds: tuple[QPushButton, ...] = ()
        self._columns = ListColumns()
        self._held: dict[int, int] = {}
        self._is_fitting = False
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.fit_columns)
        self._head.sectionResized.connect(self._on_resized)

    def setModel(self, model: QAbstractItemModel | None) -> None:
        """Show a model; remember to tell which row is current.

        Its head asks for room before it has all its columns; these are fitted afterwards.
        """
        stretch, self._stretch = self._stretch, -1
        super().setModel(model)
        self._stretch = stretch
        self.selectionModel().currentRowChanged.connect(self._on_current)
        if isinstance(model, RowsModel):
            model.arranged.connect(self._on_arranged)

    def arrange(self, key: str, *deeds: QPushButton) -> None:
        """Let the person sort by a head, set the columns, choose several rows and ask for a menu.

        Args:
            key: What the columns are remembered by.
            deeds: Buttons of the page that do something with the chosen row, the one that changes
                it first; the menu offers them, and F2 presses the first.
        """
        if not self.is_arranged:
            self.is_arranged = True
            self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
            self._head.setSectionsClickable(True)
            self._head.sectionClicked.connect(self._on_head)
            self._head.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
            self._head.customContextMenuRequested.connect(
                lambda at: show_column_menu(self, self._head.mapToGlobal(at))
            )
        self._deeds = deeds
        self._key, self._columns = key, ColumnMemory.recall(key, self._head.count())
        self._hide(self._columns.hidden)
        self._sort()
        self.fit_columns()

    def remember(self, key: str) -> None:
        """Keep the widths that the person gives the columns; for a list that stays as it is."""
        self._key, self._columns = key, ColumnMemory.recall(key, self._head.count())
        self.fit_columns()

    # columns

    def fit(self, stretch: int) -> None:
        """Make every column as wide as its words, and give what is left to one of them."""
        self._stretch = stretch
        self._head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self._head.setStretchLastSection(False)
        self.fit_columns()

    def fit_columns(self) -> None:
        """Give every column the width of its words, or the one that the person gave it."""
        shown = [one for one in range(self._head.count()) if not self.isColumnHidden(one)]
        if self._stretch < 0 or self.model() is None or not shown:
            return
        self._later.stop()
        self._is_fitting = True
        given = {place: round(ems * em(self)) for place, ems in self._columns.widths.items()}
        widths = {one: given.get(one) or self._wanted(one) for one in shown}
        flexible = self._stretch if self._stretch in shown else shown[-1]
        if flexible not in given:
            rest = self.viewport().width() - sum(widths.values()) + widths[flexible]
            rest = share(widths, flexible, rest, {*given, *self._held})
            widths[flexible] = max(rest, min(widths[flexible], em(self) * LEAST))
        for one, width in widths.items():
            self._head.resizeSection(one, width)
        self._is_fitting = False

    def hold(self, column: int, ems: int) -> None:
        """Keep a column that is drawn, not written, at a width."""
        self._held[column] = ems

    def leave_out(self, columns: Collection[int]) -> None:
        """Leave columns out for want of room; what the person hid stays hidden.

        The others are fitted once: when the table takes its new width, else right after.
        """
        hidden = {*columns, *self._columns.hidden}
        if any(self.isColumnHidden(one) != (one in hidden) for one in range(self._head.count())):
            self._hide(hidden)
            self._later.start(0)

    def _hide(self, columns: Collection[int]) -> None:
        """Qt tells of a column that comes or goes as of one that the person made narrow."""
        self._is_fitting = True
        for column in range(self._head.count()):
            self.setColumnHidden(column, column in columns)
        self._is_fitting = False

    def _wanted(self, column: int) -> int:
        if column in self._held:
            return self._held[column] * em(self)
        return max(self.sizeHintForColumn(column), self._head.sectionSizeHint(column))

    def _on_resized(self, column: int, _before: int, width: int) -> None:
        if not self._is_fitting and width:
            self._columns.widths[column] = width / em(self)
            ColumnMemory.keep(self._key, self._columns)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give one column what is left of the new width."""
        super().resizeEvent(event)
        self.fit_columns()

    def sizeHintForColumn(self, column: int) -> int:
        """Wide enough for the words of the first rows, measured without styling each cell."""
        model = self.model()
        if not isinstance(model, RowsModel):
            return super().sizeHintForColumn(column)
        metrics, side = self.fontMetrics(), em(self)
        shown = model.texts(column, _MEASURED)
        wide = max(map(metrics.horizontalAdvance, shown), default=0)
        wide = min(wide, side * _WIDEST)
        return wide + side + (side * 3 // 2 if model.has_marks(column) else 0)

    def column_titles(self) -> dict[int, str]:
        """Every column with the words of its head, in the order of the page."""
        model, across = self.model(), Qt.Orientation.Horizontal
        return {one: str(model.headerData(one, across)) for one in range(self._head.count())}

    def show_column(self, column: int, is_shown: bool) -> None:  # noqa: FBT001  Qt passes it
        """Show or hide a column."""
        others = [one for one in self._columns.hidden if one != column]
        self._columns.hidden = others if is_shown else sorted((*others, column))
        self._hide(self._columns.hidden)
        ColumnMemory.keep(self._key, self._columns)
        self.fit_columns()

    def reset_columns(self) -> None:
        """Show all columns as wide as their words, and the rows in the order of the page."""
        self._columns = ListColumns()
        self._hide(())
        self._sort()
        ColumnMemory.keep(self._key, self._columns)
        self.fit_columns()

    # order and choice

    @property
    def sorted_by(self) -> int:
        """The column that the rows are sorted by; -1 for the order of the page."""
        return self._columns.sorted_by

    def sort_by(self, column: int, is_falling: bool = False) -> None:  # noqa: FBT001, FBT002  Qt passes whether it was ticked
        """Sort by a column; -1 for the order of the page."""
        self._columns.sorted_by, self._columns.is_falling = column, is_falling and column >= 0
        ColumnMemory.keep(self._key, self._columns)
        self._sort()

    def _on_head(self, column: int) -> None:
        """Rising at the first click, falling at the second, as the page had it at the third."""
        if column != self.sorted_by:
            self.sort_by(column)
        elif not self._columns.is_falling:
            self.sort_by(column, is_falling=True)
        else:
            self.sort_by(-1)

    def _sort(self) -> None:
        by, is_falling = self._columns.sorted_by, self._columns.is_falling
        self._head.sorted_by, self._head.is_falling = by, is_falling
        order = Qt.SortOrder.DescendingOrder if is_falling else Qt.SortOrder.AscendingOrder
        self.model().sort(by, order)
        self._head.viewport().update()
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def narrow(self, text: str) -> None:
        """Show only the rows that hold these words."""
        model = self.model()
        if isinstance(model, RowsModel):
            model.narrow(text)

    def _on_arranged(self) -> None:
        """Let heads reach over all columns, and columns fit the words that stand there now."""
        model = self.model()
        self.clearSpans()
        if isinstance(model, RowsModel):
            for place in range(model.rowCount()):
                if model.is_head(place):
                    self.setSpan(place, 0, 1, model.columnCount())
        self._later.start(0)

    def enter(self) -> None:
        """Take the focus at the chosen row, else at the first one that can be chosen."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        places = [one for one in range(self.model().rowCount()) if self._takes(one)]
        if places and self.currentIndex().row() not in places:
            self.pick(places[0])

    def row(self) -> object:
        """The current row, or None."""
        return self.currentIndex().data(ROW_ROLE) if self.currentIndex().isValid() else None

    def pick(self, place: int) -> None:
        """Make a row the current one."""
        self.setCurrentIndex(self.model().index(place, 0))

    def _takes(self, place: int) -> bool:
        """Whether a row can be chosen: a head can't."""
        first = self.model().index(place, 0)
        return bool(first.flags() & Qt.ItemFlag.ItemIsSelectable)

    def moveCursor(
        self, action: QAbstractItemView.CursorAction, keys: Qt.KeyboardModifier
    ) -> QModelIndex:
        """Go on over heads to the next row that can be chosen."""
        index = super().moveCursor(action, keys)
        last = self.model().rowCount() - 1
        step = 1 if index.row() >= self.currentIndex().row() else -1
        place = index.row()
        while 0 <= place <= last and not self._takes(place):
            place += step
        if 0 <= place <= last:
            return index if place == index.row() else self.model().index(place, index.column())
        return QModelIndex(self.currentIndex())

    def _on_chosen(self, index: QModelIndex) -> None:
        self.chosen.emit(index.data(ROW_ROLE))

    def _on_current(self, index: QModelIndex, _: QModelIndex) -> None:
        self.picked.emit(index.data(ROW_ROLE) if index.isValid() else None)

    # keys, menus, copies

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return chooses the row, F2 changes it, the copy key takes its words along."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self.currentIndex().isValid():
            self._on_chosen(self.currentIndex())
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.key() == Qt.Key.Key_F2 and self._deeds and self._deeds[0].isEnabled():
            self._deeds[0].click()
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Show what can be done with the chosen row, from the mouse or the menu key."""
        at = event.globalPos()
        if event.reason() is QContextMenuEvent.Reason.Keyboard and self.currentIndex().isValid():
            cell = self.visualRect(self.currentIndex())
            at = self.viewport().mapToGlobal(QPoint(cell.left() + em(self), cell.bottom()))
        show_menu(self, at, self._deeds)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel with Ctrl to the window: it makes text larger."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            event.ignore()
        else:
            super().wheelEvent(event)

    def copy(self, *, with_head: bool = False) -> None:
        """Copy the chosen rows as words between tabs, perhaps under their head."""
        chosen = {index.row() for index in self.selectionModel().selectedIndexes()}
        model = self.model()
        is_head = model.is_head if isinstance(model, RowsModel) else lambda _place: False
        places = sorted(place for place in chosen if not is_head(place))
        heads, rows = self.words(places)
        if places:
            copy_cells([heads, *rows] if with_head else rows)

    def words(self, places: Sequence[int] | None = None) -> tuple[list[str], list[list[str]]]:
        """Heads and rows of the columns that are shown, all rows or those at some places."""
        model, titles = self.model(), self.column_titles()
        shown = [one for one in titles if not self.isColumnHidden(one)]
        wanted = range(model.rowCount()) if places is None else places
        rows = [[_in_a_cell(model.index(place, one).data()) for one in shown] for place in wanted]
        return [titles[one] for one in shown], rows


def copy_cells(rows: Iterable[Sequence[str]]) -> None:
    """Put cells between tabs on the clipboard, so that no spreadsheet runs one of them."""
    lines = ("\t".join(formula_guarded(_in_a_cell(cell)) for cell in row) for row in rows)
    QGuiApplication.clipboard().setText("\n".join(lines))


def _in_a_cell(words: object) -> str:
    """Words without what would begin another cell."""
    return " ".join(str(words or "").split())
