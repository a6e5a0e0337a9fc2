"""What the lab sent, beside what was made of it: pages, the cells of a table, or written text."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import (
    QColor,
    QKeySequence,
    QResizeEvent,
    QShortcut,
    QTextCharFormat,
    QTextCursor,
    QTextFormat,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QPlainTextEdit,
    QStackedWidget,
    QTableView,
    QTextEdit,
    QVBoxLayout,
    QWidget,
)

from wellbook.intake import PagePicture, Place, Sheet
from wellbook.intake.said import letters
from wellbook.support.translation import _
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.theme import em, inks_of
from wellbook.window.dialogs.report.page_view import PageView
from wellbook.window.widgets.layouts import words

_WIDEST = 14  # ems of a column
Draw = Callable[[Place, Tell], PagePicture]
_NOWHERE = QModelIndex()
Index = QModelIndex | QPersistentModelIndex


class _Cells(QAbstractTableModel):
    """The cells of one sheet, numbered as a spreadsheet does."""

    def __init__(self, sheet: Sheet, parent: QObject) -> None:
        super().__init__(parent)
        self._rows = sheet.rows
        self._wide = max(map(len, sheet.rows), default=0)

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """Rows of the sheet."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        """Columns of its widest row."""
        return 0 if parent.isValid() else self._wide

    def data(self, index: Index, role: int = int(Qt.ItemDataRole.DisplayRole)) -> Any:
        """The text of a cell."""
        if not index.isValid() or role != Qt.ItemDataRole.DisplayRole:
            return None
        row = self._rows[index.row()]
        return row[index.column()] if index.column() < len(row) else ""

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = int(Qt.ItemDataRole.DisplayRole),
    ) -> Any:
        """Letters above, numbers at the side."""
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        is_column = orientation is Qt.Orientation.Horizontal
        return letters(section + 1) if is_column else str(section + 1)


class SourceView(QWidget):
    """Shows a place of a file and lights it; pressing a place tells what was read there.

    Signals:
        picked: A place of the file was pressed; carries the nearest of the places that are known.
        failed: A page can't be shown; carries the sentence that says why.
        drawn: A page is shown, and the pages are counted.

    Attributes:
        name: What the file is called.
        count: Pages of the document; 0 before one was drawn.
    """

    picked = Signal(object)
    failed = Signal(str)
    drawn = Signal()

    def __init__(self, name: str, draw: Draw, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name, self._draw = name, draw
        self._sheets: Mapping[str, Sheet] = {}
        self._places: Sequence[Place] = ()
        self._shown: tuple[str, int] | None = None
        self._wanted: Place | None = None
        self.count = 0
        self._models: dict[str, _Cells] = {}
        self.title = words(quiet=True)
        self.page = PageView()
        self.page.pressed.connect(self._on_page)
        self.cells = QTableView()
        self.cells.setAccessibleName(_("Cells of the file"))
        self.cells.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.cells.setTabKeyNavigation(False)
        self.cells.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.cells.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.cells.verticalHeader().setDefaultSectionSize(round(em(self) * 1.6))
        self.cells.clicked.connect(self._on_cell)
        self.text = QPlainTextEdit()
        self.text.setAccessibleName(_("Text of the file"))
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.text.cursorPositionChanged.connect(self._on_line)
        self.stack = QStackedWidget()
        for shown in (self.page, self.cells, self.text):
            self.stack.addWidget(shown)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.title)
        column.addWidget(self.stack, 1)
        self._loader = Loader(self)
        self._loader.failed.connect(self._on_failed)
        for key, factor in ((QKeySequence.StandardKey.ZoomIn, 1.25),
                            (QKeySequence.StandardKey.ZoomOut, 0.8)):  # fmt: skip
            QShortcut(QKeySequence(key), self, partial(self.page.zoom, factor))

    def begin(self, name: str) -> None:
        """Take another file, of which nothing is shown yet."""
        self.name, self.count, self._shown = name, 0, None

    def show_file(self, sheets: Sequence[Sheet], places: Sequence[Place]) -> None:
        """Take a file whose places are known; nothing is lit until one is shown."""
        self._sheets = {sheet.name: sheet for sheet in sheets}
        self._places = places
        first = next((place for place in places if place.page or place.row), None)
        if self._shown is None and first is not None:
            self.show_place(first, is_lit=False)
        elif self._shown is None and sheets:
            self.show_place(Place(sheets[0].name, row=1), is_lit=False)

    def show_place(self, place: Place, *, is_lit: bool = True) -> None:
        """Bring a place into sight, and light it."""
        self._wanted = place if is_lit else None
        if place.page:
            self._show_page(place)
            return
        sheet = self._sheets.get(place.sheet)
        if sheet is None or not place.row:
            return
        is_new = self._shown != (place.sheet, 0)
        self._shown = (place.sheet, 0)
        self.title.setText(", ".join(filter(None, (self.name, place.sheet))))
        if sheet.text:
            self._show_line(sheet, place, is_new=is_new)
        else:
            self._show_cell(sheet, place, is_new=is_new)

    def stop(self) -> None:
        """Wait for no page that is still being drawn."""
        self._loader.stop()

    @property
    def is_drawing(self) -> bool:
        """Whether a page is still being drawn."""
        return self._loader.running

    def _show_page(self, place: Place) -> None:
        self.stack.setCurrentWidget(self.page)
        if self._shown == (place.sheet, place.page):
            if not self._loader.running:
                self.page.light(self._wanted.box if self._wanted else None)
            return
        self._shown = (place.sheet, place.page)
        self.title.setText(_("Drawing page {page} …").format(page=place.page))
        self._loader.ask(partial(self._draw, place), partial(self._on_drawn, place))

    def _on_drawn(self, place: Place, page: PagePicture) -> None:
        self.title.setText(
            _("{name}, page {page} of {count}").format(
                name=self.name, page=place.page, count=page.count
            )
        )
        self.count = page.count
        self.page.show_page(page)
        self.page.light(self._wanted.box if self._wanted else None)
        self.drawn.emit()

    def _on_failed(self, sentence: str) -> None:
        self.title.setText(sentence)
        self.failed.emit(sentence)

    def _show_cell(self, sheet: Sheet, place: Place, *, is_new: bool) -> None:
        self.stack.setCurrentWidget(self.cells)
        if is_new:
            model = self._models.setdefault(sheet.name, _Cells(sheet, self))
            self.cells.setModel(model)
            self.cells.horizontalHeader().setMaximumSectionSize(em(self) * _WIDEST)
            self.cells.resizeColumnsToContents()
        if self._wanted is not None:
            model = self._models[sheet.name]
            index = model.index(place.row - 1, max(place.column, 1) - 1)
            self.cells.setCurrentIndex(index)
            self._bring_cell()

    def _bring_cell(self) -> None:
        """Bring the current cell into sight, and what begins its line with it if both fit."""
        index = self.cells.currentIndex()
        centred = QAbstractItemView.ScrollHint.PositionAtCenter
        self.cells.scrollTo(index.siblingAtColumn(0), centred)
        self.cells.scrollTo(index)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the current cell in sight."""
        super().resizeEvent(event)
        if self.cells.currentIndex().isValid():
            QTimer.singleShot(0, self, self._bring_cell)  # its cells are laid out by then

    def _show_line(self, sheet: Sheet, place: Place, *, is_new: bool) -> None:
        self.stack.setCurrentWidget(self.text)
        self.text.blockSignals(True)  # noqa: FBT003  Qt's own
        if is_new:
            self.text.setPlainText("\n".join(sheet.text.splitlines()))
        if self._wanted is not None:
            block = self.text.document().findBlockByNumber(place.row - 1)
            self.text.setTextCursor(QTextCursor(block))
            self.text.centerCursor()
            self.text.setExtraSelections([_line(QTextCursor(block), inks_of(self.palette()).doubt)])
        self.text.blockSignals(False)  # noqa: FBT003  Qt's own

    def _on_cell(self, index: QModelIndex) -> None:
        name = self._shown[0] if self._shown else ""
        row, column = index.row() + 1, index.column() + 1
        own = [p for p in self._places if p.sheet == name and p.row == row]
        if own:
            self.picked.emit(min(own, key=lambda place: abs(place.column - column)))

    def _on_line(self) -> None:
        name, row = self._shown[0] if self._shown else "", self.text.textCursor().blockNumber() + 1
        own = [p for p in self._places if p.sheet == name and p.row == row]
        if own:
            self.picked.emit(own[0])

    def _on_page(self, at: QPointF) -> None:
        own = [p for p in self._places if (p.sheet, p.page) == self._shown and p.box]
        near = [p for p in own if p.box and p.box[1] - 6 <= at.y() <= p.box[3] + 6]
        if near:
            self.picked.emit(min(near, key=lambda p: _beside(p, at.x())))


def _beside(place: Place, across: float) -> float:
    left, _top, right, _bottom = place.box or (0.0, 0.0, 0.0, 0.0)
    return max(left - across, across - right, 0.0)


def _line(cursor: QTextCursor, ink: str) -> QTextEdit.ExtraSelection:
    found = QTextEdit.ExtraSelection()
    look = QTextCharFormat()
    look.setBackground(QColor(ink))
    look.setProperty(int(QTextFormat.Property.FullWidthSelection), True)  # noqa: FBT003  Qt's own
    found.format, found.cursor = look, cursor
    return found
