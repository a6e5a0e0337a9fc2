"""The readings of a draft as a table that is mended in place."""

from typing import Any

from PySide6.QtCore import QEvent, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QKeyEvent,
    QPainter,
    QPalette,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QCompleter,
    QLineEdit,
    QStyleOptionViewItem,
    QWidget,
)

from wellbook.support.translation import _, pgettext
from wellbook.water.parsing.typed import meanings, shown_with_point
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.parameters import Parameter
from wellbook.window.common.theme import inks_of
from wellbook.window.dialogs.draft.draft_rows import (
    DOUBT,
    NAME,
    RESULT,
    UNIT,
    VERDICT,
    ReadingLine,
    reading_columns,
    unit_words,
)
from wellbook.window.dialogs.draft.hand_rows import BASES, units_of
from wellbook.window.widgets.table_model import ROW_ROLE, Index, Role, RowsModel, bold_font
from wellbook.window.widgets.tables import MarkDelegate, Table

_BOLD = 1.12  # width of bold words to others
_MENDABLE = frozenset({NAME, RESULT, UNIT})


class ReadingsModel(RowsModel):
    """Readings, three of whose columns can be typed into.

    Signals:
        typed: Something was typed; carries the line, the column and the text.
    """

    typed = Signal(object, int, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(reading_columns(), lambda line: line.place, parent)
        self.doubt_ink = ""

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Which cells can be typed into."""
        found = super().flags(index)
        return found | Qt.ItemFlag.ItemIsEditable if index.column() in _MENDABLE else found

    def data(self, index: Index, role: int = int(Role.DisplayRole)) -> Any:
        """What a cell shows, and what stands in it while it is mended."""
        if index.isValid():
            line = self.rows[index.row()]
            if role == Role.EditRole:
                return _edited(line, index.column())
            if role == Role.BackgroundRole and self.doubt_ink and not line.mark.is_certain:
                return QBrush(QColor(self.doubt_ink))
            if role == Role.FontRole and _is_loud(line, index.column()):
                return bold_font()
        return super().data(index, role)

    def setData(self, index: Index, value: Any, role: int = int(Role.EditRole)) -> bool:
        """Tell what was typed, if it differs from what stood there or answers a question."""
        line = self.rows[index.row()]
        text = str(value).strip()
        if role != Role.EditRole or (
            text == _edited(line, index.column()) and not line.mark.doubts
        ):
            return False
        self.typed.emit(line, index.column(), text)
        return True


def _edited(line: ReadingLine, column: int) -> str:
    if column == NAME:
        return line.name
    return shown_with_point(line.new.reading) if column == RESULT else unit_words(line)


def _is_loud(line: ReadingLine, column: int) -> bool:
    is_over = column == VERDICT and line.outlook.now.verdict is Verdict.OUTSIDE
    return is_over or (column == DOUBT and not line.mark.is_certain)


class _Mending(MarkDelegate):
    """Fields for the cell that is mended, and a frame round the cell that is current."""

    def __init__(self, catalogue: Catalogue, parent: QWidget) -> None:
        super().__init__(parent)
        self._catalogue = catalogue

    def createEditor(
        self,
        parent: QWidget,
        _option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> QWidget:
        """A list to choose a name or a unit from, a line for a result."""
        line = index.data(ROW_ROLE)
        if index.column() == NAME:
            return self._combo(parent, self._names(), index.column())
        if index.column() == UNIT:
            return self._combo(parent, _units(line.parameter), index.column())
        both = meanings(line.new.reading.text)
        if both:
            return self._combo(parent, list(both), index.column())
        field = QLineEdit(parent)
        field.setAccessibleName(_("Result"))
        return field

    def setEditorData(self, editor: QWidget, index: QModelIndex | QPersistentModelIndex) -> None:
        """Begin with what stands there."""
        text = str(index.data(int(Role.EditRole)) or "")
        if isinstance(editor, QComboBox):
            editor.setCurrentText(text)
            field = editor.lineEdit()
            if field is not None:
                field.selectAll()
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    def setModelData(
        self, editor: QWidget, model: Any, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Hand on what was typed or chosen."""
        text = editor.currentText() if isinstance(editor, QComboBox) else editor.text()  # type: ignore[attr-defined]
        model.setData(index, text, int(Role.EditRole))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint the cell; frame it if it is current."""
        super().paint(painter, option, index)
        view = self.parent()
        if isinstance(view, QAbstractItemView) and view.currentIndex() == index:
            painter.save()
            painter.setPen(QPen(option.palette.color(QPalette.ColorRole.Accent), 2))
            painter.drawRect(option.rect.adjusted(1, 1, -1, -1))
            painter.restore()

    def _combo(self, parent: QWidget, offered: list[str], column: int) -> QComboBox:
        box = QComboBox(parent)
        box.setEditable(True)
        box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        box.addItems(offered)
        titles = {NAME: _("Parameter"), UNIT: pgettext("byhand", "Unit"), RESULT: _("Result")}
        box.setAccessibleName(titles[column])
        completer = box.completer()
        if completer is not None:
            completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
        box.activated.connect(lambda _unused: self._chosen(box))
        return box

    def _chosen(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    def _names(self) -> list[str]:
        known = sorted(one.name for one in self._catalogue.parameters.values())
        return ["", *known]


def _units(parameter: Parameter | None) -> list[str]:
    units = units_of(parameter) if parameter else ["mg/L", "µg/L"]
    if parameter is None or not parameter.basis:
        return units
    element = [basis for basis in BASES if basis]
    return [*units, *(f"{unit} {basis}" for unit in units for basis in element if unit)]


class ReadingsTable(Table):
    """Readings of one sample: Return or typing mends a cell, Space says it is right.

    Signals:
        right: The current reading is right as it stands.
        skip: The current line is no reading.
    """

    right = Signal()
    skip = Signal()

    def __init__(self, catalogue: Catalogue, parent: QWidget | None = None) -> None:
        super().__init__(_("Readings of the chosen test"), parent)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.DoubleClicked | trigger.EditKeyPressed | trigger.AnyKeyPressed)
        self._mending = _Mending(catalogue, self)
        self.setItemDelegate(self._mending)

    def sizeHintForColumn(self, column: int) -> int:
        """Wide enough for words in bold, too."""
        return round(super().sizeHintForColumn(column) * _BOLD)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return mends the cell, Space says that the reading is right, Delete skips the line."""
        index = self.currentIndex()
        if self.state() is QAbstractItemView.State.EditingState:
            event.accept()  # what a field left over is not for the table
        elif not index.isValid():
            super().keyPressEvent(event)
        elif event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            if index.flags() & Qt.ItemFlag.ItemIsEditable:
                self.edit(index)
        elif event.key() == Qt.Key.Key_Space:
            self.right.emit()
        elif event.key() in {Qt.Key.Key_Delete, Qt.Key.Key_Backspace}:
            self.skip.emit()
        else:
            super().keyPressEvent(event)

    def scrollTo(
        self,
        index: QModelIndex | QPersistentModelIndex,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,
    ) -> None:
        """Bring a cell into sight, and the name of its line with it if both fit."""
        super().scrollTo(index.sibling(index.row(), NAME), hint)
        super().scrollTo(index)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the current cell in sight."""
        super().resizeEvent(event)
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def changeEvent(self, event: QEvent) -> None:
        """Take the inks of another page."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange:
            self.take_inks()

    def take_inks(self) -> None:
        """Tint what is to be decided with the ink of the page."""
        model = self.model()
        if isinstance(model, ReadingsModel):
            model.doubt_ink = inks_of(self.palette()).doubt
