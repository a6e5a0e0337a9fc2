"""Every key that does something, and what the marks and words mean."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialogButtonBox, QGridLayout, QPushButton, QWidget

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.actions import Action
from wellbook.window.common.theme import em
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, VerdictLine, words
from wellbook.window.widgets.table_model import Column, SnapshotModel
from wellbook.window.widgets.tables import Table

translate = QCoreApplication.translate


class KeysDialog(Dialog):
    """A page of keys, marks and words."""

    def __init__(self, actions: Sequence[Action], parent: QWidget) -> None:
        super().__init__(translate("Keys", "Keys and words"), parent, width=60, height=40)
        unit, page = em(self), self.area
        page.add(words(translate("Keys", "Marks"), factor=SUBTITLE, bold=True))
        page.rows.addLayout(_marks())
        page.add(words(translate("Keys", "Keys"), factor=SUBTITLE, bold=True))
        self.table = Table(translate("Keys", "Keys"))
        self.model = SnapshotModel(_columns(), lambda action: action.key, self)
        self.model.show(actions)
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        rows = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight(rows * (len(actions) + 1) + unit)
        page.add(self.table)
        page.add(words(_table_keys(), quiet=True))
        buttons = QDialogButtonBox()
        self._close = buttons.addButton(
            translate("Keys", "Close"), QDialogButtonBox.ButtonRole.RejectRole
        )
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def default_button(self) -> QPushButton:
        """Return closes it: there is nothing else to do."""
        return self._close


def _columns() -> tuple[Column, ...]:
    return (
        Column(translate("Keys", "Key"), _key),
        Column(translate("Keys", "In the menu"), lambda action: action.plain),
        Column(translate("Keys", "What it does"), lambda action: action.help),
    )


def _key(action: Action) -> str:
    return action.keys().toString(QKeySequence.SequenceFormat.NativeText)


def _marks() -> QGridLayout:
    meanings = {
        Verdict.OUTSIDE: translate(
            "Keys", "Outside: over a limit, off a range, or present where it must be absent."
        ),
        Verdict.NEAR: translate("Keys", "Near: allowed by the limit, but close to it."),
        Verdict.WITHIN: translate("Keys", "Within: measured, and allowed by the limit."),
        Verdict.UNDETECTED: translate("Keys", "Not detected, by a method that sees low enough."),
        Verdict.UNDECIDABLE: translate(
            "Keys",
            "Can’t tell: the lab’s method did not see low enough, or the sample was not sound.",
        ),
        Verdict.NO_LIMIT: translate("Keys", "No limit in the limit sets that this book uses."),
    }
    grid = QGridLayout()
    for place, (verdict, meaning) in enumerate(meanings.items()):
        line = VerdictLine(bold=False)
        line.say(verdict, meaning)
        grid.addWidget(line, place, 0)
    return grid


def _table_keys() -> str:
    return translate(
        "Keys",
        "In a table: arrow keys move, Return opens a row, the copy key takes a row along. On a "
        "chart: arrow keys step from result to result. Tab leaves every table and chart.",
    )
