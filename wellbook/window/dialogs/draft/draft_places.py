"""Which point of the book each printed sampling point of a draft stands for."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QLineEdit, QWidget

from wellbook.book.rows import Point
from wellbook.intake import Draft
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name
from wellbook.window.common.household import Household
from wellbook.window.widgets.layouts import named


class DraftPlaces(QWidget):
    """A line per printed point; in a book without points they are named here.

    Signals:
        changed: Another point was chosen.
    """

    changed = Signal()

    def __init__(
        self,
        household: Household,
        printed: Sequence[str],
        known: Mapping[str, str],
        parent: QWidget | None = None,
    ) -> None:
        """Make a line for each printed point.

        Args:
            household: Whose points are offered.
            printed: Points as a lab printed them.
            known: Points of the book by printed points, as a person chose before.
            parent: What it is shown in.
        """
        super().__init__(parent)
        self._known = {normal_name(name): point for name, point in known.items()}
        self._household, book = household, household.book
        self._results: dict[int, Sequence[Result]] = {}
        self._points = book.points()
        self._wells = {well.id: well.name for well in book.wells()}
        self.well = QLineEdit(next(iter(self._wells.values()), _("Our well")))
        self.fields: dict[str, QComboBox] = {}
        self._form = QFormLayout(self)
        self._form.setContentsMargins(0, 0, 0, 0)
        if not self._points:
            self._form.addRow(_("&Well"), self.well)
        self.add(printed)

    def add(self, printed: Sequence[str]) -> None:
        """Make a line for each printed point that has none yet."""
        for name in dict.fromkeys(printed):
            if name not in self.fields:
                self.fields[name] = self._field(name)
                self._form.addRow(named(_title(name), self.fields[name]), self.fields[name])

    def show_only(self, printed: str, draft: Draft) -> None:
        """Show the line of one printed point, and of those that must still be chosen."""
        there = {one.point_name for one in draft.samples}
        for name, field in self.fields.items():
            is_open = self.is_open(name) and name in there
            self._form.setRowVisible(field, name == printed or is_open)

    def is_open(self, printed: str) -> bool:
        """Whether it must still be chosen at which point of the book a printed one is."""
        return bool(self._points) and self.chosen(printed) is None

    def chosen(self, printed: str) -> Point | None:
        """The point of the book that was chosen for a printed one, if any."""
        field = self.fields.get(printed)
        point = field.currentData() if field is not None else None
        return point if isinstance(point, Point) else None

    def results(self, printed: str) -> Sequence[Result]:
        """Results of the book at the point that was chosen for a printed one."""
        point = self.chosen(printed)
        if point is None:
            return ()
        if point.id not in self._results:
            self._results[point.id] = self._household.record.results(point.id)
        return self._results[point.id]

    def decided(self) -> dict[str, str]:
        """Points of the book by printed ones, where a person chose them."""
        found = {}
        for printed in self.fields:
            point = self.chosen(printed)
            if point and printed and normal_name(point.name) != normal_name(printed):
                found[printed] = point.name
        return found

    def _field(self, printed: str) -> QComboBox:
        field = QComboBox()
        if not self._points:
            field.setEditable(True)
            field.setEditText(printed or _("At the pressure tank"))
            return field
        several = len(self._wells) > 1
        for point in self._points:
            shown = f"{self._wells[point.well]}: {point.name}" if several else point.name
            field.addItem(shown, point)
        names = [normal_name(point.name) for point in self._points]
        wanted = normal_name(self._known.get(normal_name(printed), printed))
        field.setCurrentIndex(names.index(wanted) if wanted in names else -1)
        if len(names) == 1:
            field.setCurrentIndex(0)
        field.setPlaceholderText(_("choose the point"))
        field.activated.connect(lambda _unused: self.changed.emit())
        return field

    def placed(self, draft: Draft) -> tuple[Draft, str]:
        """The draft with the chosen points' names, and the name of their well.

        Raises:
            Fault: A point was not chosen, or they belong to several wells.
        """
        there = {one.point_name for one in draft.samples}
        fields = {printed: box for printed, box in self.fields.items() if printed in there}
        if not self._points:
            names = {printed: box.currentText().strip() for printed, box in fields.items()}
            if not self.well.text().strip() or not all(names.values()):
                raise Fault(_("Give the well and every point a name."))
            return _named(draft, names), self.well.text().strip()
        chosen = {printed: _chosen(printed, box) for printed, box in fields.items()}
        wells = {point.well for point in chosen.values()}
        if len(wells) > 1:
            raise Fault(
                _(
                    "The points belong to several wells: split the file, or choose points of "
                    "one well."
                )
            )
        names = {printed: point.name for printed, point in chosen.items()}
        return _named(draft, names), self._wells[wells.pop()] if wells else ""


def _title(printed: str) -> str:
    if not printed:
        return _("Drawn at")
    return _("“{printed}” is").format(printed=printed.replace("&", "&&"))


def _chosen(printed: str, field: QComboBox) -> Point:
    point = field.currentData()
    if isinstance(point, Point):
        return point
    raise Fault(
        _(
            "Choose the point of the book at which “{printed}” was drawn; a new one is named in "
            "the menu Record."
        ).format(printed=printed)
        if printed
        else _("Choose the point at which it was drawn.")
    )


def _named(draft: Draft, names: dict[str, str]) -> Draft:
    samples = tuple(replace(one, point_name=names[one.point_name]) for one in draft.samples)
    return replace(draft, samples=samples)
