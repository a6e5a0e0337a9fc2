"""The household: where it lies, who drinks, and what follows; each part can be skipped."""

from collections.abc import Iterator

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QTabBar, QWidget

from wellbook.planning.place.choices import changed
from wellbook.planning.settings import Settings, sets, wells_described
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.dialogs.household.baseline_fields import OWNER, BaselineFields
from wellbook.window.dialogs.household.choice_fields import ChoiceFields
from wellbook.window.dialogs.household.place_fields import PlaceFields
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words


class _Pages(QTabBar):
    """Names of pages; the one that is shown is underlined in the accent, as in the running head."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw them as the style does, then the line."""
        super().paintEvent(event)
        shown, thick = self.tabRect(self.currentIndex()), max(2, em(self) // 8)
        shown.setTop(shown.bottom() - thick + 1)
        QPainter(self).fillRect(shown, self.palette().accent())


class HouseholdDialog(EntryDialog):
    """Three pages; what is said on the first decides what the others begin with."""

    def __init__(self, household: Household, parent: QWidget, *, is_first: bool = False) -> None:
        super().__init__(_("The household"), _("&Keep"), parent, width=56)
        self._household = household
        self.place = PlaceFields(household)
        self.choices = ChoiceFields(household)
        self.baseline = BaselineFields(household)
        self.baseline.first_look.setChecked(is_first)
        self.pages = (self.place, self.choices, self.baseline)
        self.tabs = _Pages()
        self.tabs.setAccessibleName(_("Pages"))
        self.tabs.setUsesScrollButtons(False)
        for title in (_("&1 Where and who"), _("&2 What is usual there"), _("&3 What to test")):
            self.tabs.addTab(title)
        if is_first:
            told = _(
                "A few words about the well, so that limits, seasons and dates fit. Leave out "
                "what you don’t know: the menu Record shows this again."
            )
            self.rows.addWidget(words(told, quiet=True))
        self.rows.addWidget(self.tabs)
        for page in self.pages:
            self.rows.addWidget(page)
        self.tabs.currentChanged.connect(self._show_page)
        self._show_page(0)
        self.place.changed.connect(self._follow)
        self._follow()
        self.finish()
        self.place.country.setFocus()
        if household.book.is_readonly:
            for page in self.pages:
                page.setEnabled(False)
            self.keep_button.setEnabled(False)

    def _show_page(self, number: int) -> None:
        for place, page in enumerate(self.pages):
            page.setVisible(place == number)
        self.grow()

    def _follow(self) -> None:
        """Show what follows from what is said; what can't be read yet says nothing."""
        household = self._household
        typed = self.place.typed()
        try:
            now = changed({}, household.catalogue, typed.items())
        except Fault:
            now = {}
        kept = {key: value for key, value in household.record.settings.items() if key == "interval"}
        self.choices.follow({**kept, **now})
        self.baseline.follow({**kept, **now})

    def keep(self) -> str:
        """Keep what is said, all of it or nothing."""
        household, book = self._household, self._household.book
        record = household.record
        typed = {**self.place.typed(), **self.choices.typed()}
        is_first = self.place.is_first
        new = changed(record.settings, household.catalogue, typed.items())
        for key, value in (("people", self.place.who()), ("round_lab", self._lab())):
            if value != record.settings.get(key, ""):
                new[key] = value
        is_as_it_was = not new and not self.baseline.chosen() and not is_first
        if is_as_it_was and not self.baseline.wants_first_look:
            return _("Nothing was changed.")
        with book.together("set up the household"):
            book.set_settings(new)
            if self._lab() and self._lab() not in {lab.name for lab in record.labs}:
                book.add_lab(self._lab())
            for well, log in wells_described(record.wells, new.get("well_kind", "")):
                book.change_well(well, construction=log)
            self._keep_plans(self._first_point())
        told = () if is_first else self._other_limits(record.settings, new)
        return " ".join((_("The household is kept."), *told))

    def _other_limits(self, before: Settings, new: Settings) -> Iterator[str]:
        """What results of a book in use are compared with from now on, and no more."""
        catalogue = self._household.catalogue
        had, has = sets(before, catalogue), sets({**before, **new}, catalogue)
        told = (
            (_("Results are now compared with: {names}."), has, had),
            (_("No longer with: {names}."), had, has),
        )
        for said, these, others in told:
            names = [catalogue.sets[key].name for key in these if key not in others]
            if names:
                yield said.format(names="; ".join(names))

    def _lab(self) -> str:
        return self.place.lab.currentText().strip()

    def _first_point(self) -> int | None:
        """Number of the point that is planned for, made now if the book has none."""
        if not self.place.is_first:
            return self.baseline.point.id if self.baseline.point else None
        well, name = self.place.well.text().strip(), self.place.point.text().strip()
        if not well or not name:
            raise Fault(_("Give the well and the point a name each."))
        book = self._household.book
        found = next((one.id for one in book.wells() if one.name == well), None)
        number = book.add_well(well) if found is None else found
        return book.add_point(number, name, place=1)

    def _keep_plans(self, point: int | None) -> None:
        if point is None:
            return
        book, household = self._household.book, self._household
        for panel, months in self.baseline.chosen().items():
            book.set_plan(point, panel, months)
        if self.baseline.wants_first_look:
            well = next(one.well for one in book.points() if one.id == point)
            book.add_event(well, OWNER, household.today.isoformat())
