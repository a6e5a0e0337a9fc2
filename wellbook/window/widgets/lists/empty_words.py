"""What an empty list says: why nothing stands there, and what leads on."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QPalette

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import Words
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table


class EmptyWords(Words):
    """A sentence in the middle of a list, while no row stands there.

    It goes with the list, and is told of it to a screen reader as well.
    """

    def __init__(self, table: Table, model: RowsModel, said: str) -> None:
        super().__init__(parent=table.viewport())
        self._table, self._model, self._empty = table, model, said
        self.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
        self.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setMargin(em(self))
        table.viewport().installEventFilter(self)
        model.arranged.connect(self._look)
        self._look()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep the width of the list."""
        if event.type() is QEvent.Type.Resize:
            self._lie()
        return super().eventFilter(watched, event)

    def say(self, said: str) -> None:
        """What is said from now on where nothing stands."""
        self._empty = said
        self._look()

    def _look(self) -> None:
        is_empty = not self._model.rows
        said = _("No line holds these words.") if self._model.is_narrowed else self._empty
        self.setText(said)
        self.setVisible(is_empty)
        self._table.setAccessibleDescription(said if is_empty else "")
        self._lie()

    def _lie(self) -> None:
        wide = self._table.viewport().width()
        self.setGeometry(0, 0, wide, max(self.heightForWidth(wide), em(self) * 3))
