"""Where the first test of a book was drawn: its well and point are named with it."""

from typing import NamedTuple

from PySide6.QtWidgets import QCheckBox, QFormLayout, QLineEdit

from wellbook.support.errors import Fault
from wellbook.support.translation import _


class Named(NamedTuple):
    """A well and a point as they were named."""

    well: str
    point: str
    is_treated: bool


class FirstPlace:
    """The fields that name a well and a point in a book that has no point yet."""

    def __init__(self) -> None:
        self.well = QLineEdit(_("Our well"))
        self.point = QLineEdit(_("At the pressure tank"))
        self.treated = QCheckBox(_("The water here has passed &treatment (softener, filter, UV …)"))

    def add_rows(self, form: QFormLayout) -> None:
        """Set the fields into a form."""
        form.addRow(_("&Well"), self.well)
        form.addRow(_("&Point"), self.point)
        form.addRow("", self.treated)

    def named(self) -> Named:
        """What was typed."""
        well, point = self.well.text().strip(), self.point.text().strip()
        return Named(well, point, self.treated.isChecked())

    def require_names(self) -> None:
        """See that both are named.

        Raises:
            Fault: One of them is not.
        """
        named = self.named()
        if not named.well or not named.point:
            raise Fault(_("Give the well and the point a name each."))
