"""A quiet table view: rows to read and choose, no grid, no keyboard trap."""

from PySide6.QtCore import (
    QAbstractItemModel,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPalette,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.theme import em, is_dark
from wellbook.window.widgets.table_model import ROW_ROLE, VERDICT_ROLE, RowsModel
from wellbook.window.widgets.verdict_icons import mark

_MEASURED = 100  # rows that a column's width is taken from
_WIDEST = 20  # lines' heights; longer words end in dots, whole in the tip


class PlainHead(QHeaderView):
    """A printed table's head: the second ink, a rule below, no buttons."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.setHighlightSections(False)
        self.setSectionsClickable(False)

    def sizeHint(self) -> QSize:
        """As high as a row."""
        return QSize(super().sizeHint().width(), round(em(self) * 1.9))

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        """Paint the words of one column and the rule below them."""
        colours = self.palette()
        painter.fillRect(rect, colours.base())
        painter.setPen(colours.color(QPalette.ColorRole.Mid))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        title = str(self.model().headerData(section, self.orientation()) or "")
        margin = em(self) // 4
        room = rect.adjusted(margin, 0, -margin, 0)
        text = self.fontMetrics().elidedText(title, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(self.defaultAlignment()), text)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint what lies beside the columns as well."""
        QPainter(self.viewport()).fillRect(self.viewport().rect(), self.palette().base())
        super().paintEvent(event)


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
            option.icon = mark(Verdict(verdict), side, dark=is_dark(option.palette))
            option.decorationSize = option.icon.availableSizes()[0]

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """As wide as the words, with air before the next column."""
        size = super().sizeHint(option, index)
        return QSize(size.width() + option.fontMetrics.height(), size.height())


class Table(QTableView):
    """A table of rows.

    Signals:
        chosen: A row was chosen with Return or a double click; carries the row.
        picked: The current row changed; carries the row, or None.
    """

    chosen = Signal(object)
    picked = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setFrameShape(QFrame.Shape.NoFrame)
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
        self.setHorizontalHeader(PlainHead(self))
        self._delegate = MarkDelegate(self)
        self.setItemDelegate(self._delegate)
        self.doubleClicked.connect(self._on_chosen)

    def setModel(self, model: QAbstractItemModel | None) -> None:
        """Show a model; remember to tell which row is current."""
        super().setModel(model)
        self.selectionModel().currentRowChanged.connect(self._on_current)

    def fit(self, stretch: int) -> None:
        """Make every column as wide as its words, and give what is left to one of them."""
        head = self.horizontalHeader()
        head.setResizeContentsPrecision(100)
        for column in range(head.count()):
            head.setSectionResizeMode(
                column,
                QHeaderView.ResizeMode.Stretch
                if column == stretch
                else QHeaderView.ResizeMode.ResizeToContents,
            )

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

    def row(self) -> object:
        """The current row, or None."""
        return self.currentIndex().data(ROW_ROLE) if self.currentIndex().isValid() else None

    def pick(self, place: int) -> None:
        """Make a row the current one."""
        self.setCurrentIndex(self.model().index(place, 0))

    def _on_chosen(self, index: QModelIndex) -> None:
        self.chosen.emit(index.data(ROW_ROLE))

    def _on_current(self, index: QModelIndex, _: QModelIndex) -> None:
        self.picked.emit(index.data(ROW_ROLE) if index.isValid() else None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return chooses the row, the copy key takes its words along."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self.currentIndex().isValid():
            self._on_chosen(self.currentIndex())
        elif event.matches(QKeySequence.StandardKey.Copy) and self.currentIndex().isValid():
            QGuiApplication.clipboard().setText(self._row_text())
        else:
            super().keyPressEvent(event)

    def _row_text(self) -> str:
        model, row = self.model(), self.currentIndex().row()
        cells = (model.index(row, column).data() for column in range(model.columnCount()))
        return "\t".join(str(cell or "") for cell in cells)
