"""The fields of a flow test, shown while that is what happened."""

from PySide6.QtWidgets import QComboBox, QFormLayout, QHBoxLayout, QLineEdit, QWidget

from wellbook.book.rows import Event
from wellbook.planning.flow_test import DEPTH_UNITS, FLOW_UNITS, FlowTest, read_flow_test
from wellbook.support.translation import _
from wellbook.window.widgets.layouts import named

NO_TEST: FlowTest = {
    "flow": "",
    "flow_unit": "",
    "hours": "",
    "drawdown": "",
    "drawdown_unit": "",
    "done_by": "",
}


class FlowFields:
    """How much the well gave, for how long, how far its level fell, and who saw to it."""

    def __init__(self) -> None:
        self.flow, self.hours, self.drawdown, self.done_by = (QLineEdit() for _unused in range(4))
        self.flow_unit, self.drawdown_unit = QComboBox(), QComboBox()
        self.flow_unit.addItems(FLOW_UNITS)
        self.flow_unit.setAccessibleName(_("Unit of the flow"))
        self.drawdown_unit.addItems(DEPTH_UNITS)
        self.drawdown_unit.setAccessibleName(_("Unit of the drawdown"))
        self.done_by.setPlaceholderText(_("a trade or firm, such as a licensed well contractor"))
        self._rows: list[QHBoxLayout | QWidget] = []

    def lay_out(self, form: QFormLayout) -> None:
        """Put them into a form."""
        self._rows = [
            _beside(self.flow, self.flow_unit),
            self.hours,
            _beside(self.drawdown, self.drawdown_unit),
            self.done_by,
        ]
        names = (
            named(_("&Flow the well gave"), self.flow),
            named(_("For how many &hours"), self.hours),
            named(_("Water level fell b&y"), self.drawdown),
            named(_("D&one by"), self.done_by),
        )
        for name, row in zip(names, self._rows, strict=True):
            form.addRow(name, row)

    def set_wanted(self, form: QFormLayout, *, wanted: bool) -> None:
        """Show or hide them."""
        for row in self._rows:
            form.setRowVisible(row, wanted)

    def show(self, event: Event) -> None:
        """Fill in what an event says."""
        self.flow.setText(event.flow)
        self.hours.setText(event.hours)
        self.drawdown.setText(event.drawdown)
        self.done_by.setText(event.done_by)
        self.flow_unit.setCurrentText(event.flow_unit)
        self.drawdown_unit.setCurrentText(event.drawdown_unit)

    def typed(self) -> FlowTest:
        """What was typed.

        Raises:
            Fault: It can't be read.
        """
        return read_flow_test(
            self.flow.text(),
            self.flow_unit.currentText(),
            self.hours.text(),
            self.drawdown.text(),
            self.drawdown_unit.currentText(),
            self.done_by.text(),
        )


def _beside(figure: QLineEdit, unit: QComboBox) -> QHBoxLayout:
    row = QHBoxLayout()
    row.addWidget(figure, 1)
    row.addWidget(unit)
    return row
