"""Every key that does something, and what the marks mean."""

from collections.abc import Sequence

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialogButtonBox, QGridLayout, QPushButton, QWidget

from wellbook.support.translation import _
from wellbook.window.common.actions import Action
from wellbook.window.common.theme import em
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, VerdictLine, words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import verdicts


class KeysDialog(Dialog):
    """A page of keys and marks."""

    def __init__(self, actions: Sequence[Action], parent: QWidget) -> None:
        super().__init__(_("Keys and marks"), parent, width=60, height=40)
        unit, page = em(self), self.area
        page.add(words(_("Marks"), factor=SUBTITLE, bold=True))
        page.rows.addLayout(_marks())
        page.add(words(_("Keys"), factor=SUBTITLE, bold=True))
        self.table = Table(_("Keys"))
        self.model = RowsModel(_columns(), lambda action: action.key, self)
        self.model.show(actions)
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        self.table.arrange("keys")
        rows = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight(rows * (len(actions) + 1) + unit)
        page.add(self.table)
        page.add(words(_table_keys(), quiet=True))
        buttons = QDialogButtonBox()
        self._close = buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def default_button(self) -> QPushButton:
        """Return closes it: there is nothing else to do."""
        return self._close


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("Key"), _key),
        Column(_("In the menu"), lambda action: action.plain),
        Column(_("What it does"), lambda action: action.help),
    )


def _key(action: Action) -> str:
    return action.keys().toString(QKeySequence.SequenceFormat.NativeText)


def _marks() -> QGridLayout:
    grid = QGridLayout()
    for place, (verdict, meaning) in enumerate(verdicts.meanings().items()):
        line = VerdictLine(bold=False)
        line.say(verdict, meaning.full)
        grid.addWidget(line, place, 0)
    return grid


def _table_keys() -> str:
    return _(
        "In a table: arrow keys move, Shift with them chooses several rows, Return opens a row, F2 "
        "changes it, the copy key takes rows along, the menu key shows what else can be done. In a "
        "field that finds: Return or Down goes into the list, Escape clears it. On a chart: arrow "
        "keys step from result to result. Ctrl and the wheel change the size of text. Tab leaves "
        "every table and chart."
    )
