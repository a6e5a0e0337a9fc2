"""What to do next about the water of a point: cautions, open cases, how each one closes."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox, QWidget

from wellbook.planning.cases import CaseFacts
from wellbook.planning.overview import PointOverview, cases
from wellbook.support.translation import _
from wellbook.window.common import advice
from wellbook.window.common.household import Household
from wellbook.window.common.words import day_words
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, words


class CasesDialog(Dialog):
    """Read only: the deeds are the lab's, the household's, and the next round's.

    Signals:
        round_wanted: The next round is to be shown.
    """

    round_wanted = Signal()

    def __init__(
        self,
        household: Household,
        point: PointOverview,
        neighbours: Sequence[PointOverview],
        parent: QWidget,
    ) -> None:
        super().__init__(_("What to do next"), parent, width=48, height=30)
        said = advice.lines(advice.advice(point, neighbours, household), household)
        self._tell(_("Now"), said or (_("Nothing presses by what was tested here."),))
        today = household.today
        found = cases(household.record, household.catalogue, today)
        names = {one.point.name for one in neighbours}
        here = [case for case in found if case.point.name in names]
        is_open = [case for case in here if case.closed is None]
        self._tell(_("Still open"), [line for case in is_open for line in _lines(case, today)])
        closed = [_("{point}: {why}").format(point=case.point.name, why=case.why)
                  for case in here if case.closed is not None]  # fmt: skip
        self._tell(_("Closed"), closed)
        self.rows.addStretch(1)
        buttons = QDialogButtonBox(self)
        plan = buttons.addButton(_("Plan the day…"), QDialogButtonBox.ButtonRole.ActionRole)
        plan.clicked.connect(self._on_plan)
        buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def _tell(self, title: str, said: Sequence[str]) -> None:
        if said:
            self.rows.addWidget(words(title, factor=SUBTITLE, bold=True))
        for line in said:
            self.rows.addWidget(words(line))

    def _on_plan(self) -> None:
        self.reject()
        self.round_wanted.emit()


def _lines(case: CaseFacts, today: date) -> list[str]:
    """A case with what is next of it, and the rule by which it closes."""
    said = [_("{point}: {why}").format(point=case.point.name, why=case.why)]
    for step, day in case.next:
        next_ = _("Next, by {day}: {step}")
        if day < today:
            next_ = _("Next, due since {day}: {step}")
        said.append(next_.format(step=step, day=day_words(day)))
    return [*said, case.closes_when] if case.closes_when else said
