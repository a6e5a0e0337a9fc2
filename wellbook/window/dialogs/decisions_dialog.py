"""What was decided about the files of labs: looked at, and forgotten one by one."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QWidget

from wellbook.intake.decisions import (
    Decision,
    decisions_in,
    forget,
    of_lab,
    said_source,
)
from wellbook.support.translation import _
from wellbook.water.values.signs import normal_name
from wellbook.window.common.household import Household
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.section_view import Section, SectionView
from wellbook.window.widgets.table_model import Column


def section(household: Household, lab: str | None = None) -> Section:
    """The decisions of the whole book, lab by lab, or those about one lab."""
    book = household.book

    def decisions(_unused: int) -> list[Decision]:
        every = decisions_in(book, household.catalogue)
        return [one for one in every if lab is None or normal_name(one.lab) == normal_name(lab)]

    def remove(_unused: int, decision: Decision) -> str:
        forget(book, decision)
        said = _("Forgotten: {said}. It is asked again at the lab’s next file.")
        return said.format(said=decision.said)

    return Section(
        _("Files of labs"),
        _(
            "What you decided when lab files were looked over. It is used at the next file of the "
            "same lab, and said there."
        ),
        (
            Column(_("Lab"), lambda row: said_source(row.lab)),
            Column(_("What you said"), lambda row: row.said),
        ),
        decisions,
        lambda row: (row.lab, row.kind, row.key),
        None,
        remove,
        stretch=1,
        take_out=_("Forget it"),
    )


class DecisionsDialog(Dialog):
    """What was decided about the files of one lab, while one of them is looked over.

    Attributes:
        forgotten: How many decisions were forgotten in it.
    """

    def __init__(self, household: Household, lab: str, parent: QWidget) -> None:
        super().__init__(_("What you said before"), parent, width=54, height=26)
        self.forgotten = 0
        self.view = SectionView(section(household, lab), household.why_readonly)
        self.view.make()
        self.view.removal_wanted.connect(self._on_removal)
        self.view.show_well(1)
        self.rows.addWidget(self.view, 1)
        buttons = QDialogButtonBox()
        self.close_button = buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def _on_removal(self, deed: Callable[[], str]) -> None:
        if self.bar.attempt(deed):
            self.forgotten += 1
            self.view.show_well(1)


class BeforeButton(QPushButton):
    """Shows what was decided about the files of one lab; not there where nothing was.

    Signals:
        forgotten: Something of it was forgotten, so that it is to be asked again.
    """

    forgotten = Signal()

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(_("What you said &before…"), parent)
        set_tip(self, _("See, and forget, what you decided at earlier files of this lab"))
        self._household, self._lab = household, ""
        self.clicked.connect(self._on_clicked)

    def show_lab(self, lab: str) -> None:
        """Show it for the files of a lab, as `decisions.source_of` tells it."""
        self._lab = lab
        self.setVisible(bool(of_lab(self._household.book, lab).count))

    def _on_clicked(self) -> None:
        dialog = DecisionsDialog(self._household, self._lab, self.window())
        dialog.finished.connect(lambda _unused: self._on_closed(dialog.forgotten))
        dialog.open()

    def _on_closed(self, forgotten: int) -> None:
        if forgotten:
            self.forgotten.emit()
