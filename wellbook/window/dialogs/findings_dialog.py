"""What was found when the book was looked over, one finding a line."""

from collections.abc import Sequence

from PySide6.QtWidgets import QDialogButtonBox, QListWidget, QWidget

from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words


class FindingsDialog(Dialog):
    """A list of findings: what is broken first, then what is only odd."""

    def __init__(self, found: Sequence[Finding], parent: QWidget) -> None:
        title = _("What was found in the book")
        super().__init__(title, parent, width=44, height=22)
        self.list = QListWidget()
        self.list.setAccessibleName(title)
        self.list.setWordWrap(True)
        self.list.setAlternatingRowColors(True)
        is_broken = any(one.severity is Severity.STOP for one in found)
        for one in sorted(found, key=lambda one: one.severity is not Severity.STOP):
            self.list.addItem(one.text)
        self.list.setCurrentRow(0)
        advice = (
            _(
                "Facts that are not as the journal tells were changed outside Wellbook or by a "
                "broken disk. Compare them with the lab’s report, or go back to a copy (menu "
                "File, “Copies”)."
            )
            if is_broken
            else _("The file is whole; these facts are odd and want a look.")
        )
        self.rows.addWidget(words(advice))
        self.rows.addWidget(self.list, 1)
        buttons = QDialogButtonBox(self)
        buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)
