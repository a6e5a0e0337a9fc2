"""Naming a place where samples are drawn, and its well if it is the first."""

from PySide6.QtWidgets import QCheckBox, QComboBox, QFormLayout, QLineEdit, QWidget

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words


class PointDialog(EntryDialog):
    """Well, name of the point, and whether the water there was treated."""

    def __init__(self, household: Household, parent: QWidget) -> None:
        super().__init__(
            _("A place where samples are drawn"),
            _("Keep the point"),
            parent,
        )
        self._household = household
        self.well = QComboBox()
        self.well.setEditable(True)
        for well in household.book.wells():
            self.well.addItem(well.name, well.id)
        if not self.well.count():
            self.well.setEditText(_("Our well"))
        self.name = QLineEdit(_("At the pressure tank"))
        self.treated = QCheckBox(_("The water here has passed &treatment (softener, filter, UV …)"))
        form = QFormLayout()
        form.addRow(_("&Well"), self.well)
        form.addRow(_("&Point"), self.name)
        form.addRow("", self.treated)
        self.rows.addWidget(
            words(
                _(
                    "Results are compared within one point only: water before treatment and "
                    "water after it are different water."
                ),
                quiet=True,
            )
        )
        self.rows.addLayout(form)
        self.finish()
        self.name.selectAll()
        self.name.setFocus()

    def keep(self) -> str:
        """Write the point, and the well if it is new."""
        well, name = self.well.currentText().strip(), self.name.text().strip()
        if not well or not name:
            raise Fault(_("Give the well and the point a name each."))
        book = self._household.book
        found = next((known.id for known in book.wells() if known.name == well), None)
        number = book.add_well(well) if found is None else found
        if any(point.name == name for point in book.points(number)):
            raise Fault(_("{well} has a point {name} already.").format(well=well, name=name))
        treated = self.treated.isChecked()
        place = len(book.points(number)) + 1
        book.add_point(number, name, treated=treated, place=place)
        return _("Samples can now be entered for {name}.").format(name=name)
