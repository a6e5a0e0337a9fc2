"""Choices: light or dark for the person; limit sets, seasons and people for the book."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QGridLayout,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from wellbook.planning.advice import people_of_events
from wellbook.planning.settings import scheme, sets
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.cautions.cautions import (
    ANIMALS,
    CHILD,
    DIALYSIS,
    DIET,
    IMMUNE,
    INFANT,
    PREGNANCY,
)
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, YEAR, wet_and_dry
from wellbook.window.common.household import Household
from wellbook.window.common.languages import SYSTEM, choices
from wellbook.window.common.preferences import PAGES, Preferences
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words
from wellbook.wording.facts import short_month

_OWN = "wet"
_COLUMNS = 4


class SettingsDialog(EntryDialog):
    """Keeps the page in the person's settings, everything else in the book's journal."""

    def __init__(
        self,
        preferences: Preferences,
        household: Household | None,
        parent: QWidget,
    ) -> None:
        super().__init__(_("Settings"), _("Keep"), parent, width=44)
        self._preferences, self._household = preferences, household
        self.page = QComboBox()
        for key, text in zip(PAGES, _page_words(), strict=True):
            self.page.addItem(text, key)
        self.page.setCurrentIndex(PAGES.index(preferences.page))
        self.language = QComboBox()
        self.language.addItem(_("as the system is set"), SYSTEM)
        for key, text in choices():
            self.language.addItem(text, key)
        self.language.setCurrentIndex(self.language.findData(preferences.language))
        form = QFormLayout()
        form.addRow(_("&Page"), self.page)
        form.addRow(_("&Language"), self.language)
        self.rows.addLayout(form)
        self.sets = QListWidget()
        self.sets.setAccessibleName(_("Limit sets of this book"))
        self.seasons = QComboBox()
        self.months = [QCheckBox(short_month(n)) for n in range(1, YEAR + 1)]
        self._told: frozenset[str] = frozenset()
        self.people = {key: QCheckBox(text) for key, text in _people_words().items()}
        if household is not None:
            self._add_book(form, household)
        self.finish()

    def _add_book(self, form: QFormLayout, household: Household) -> None:
        self._fill_sets(household)
        form.addRow(_("&Limit sets of this book"), self.sets)
        self._fill_seasons(household)
        form.addRow(_("&Seasons of this book"), self.seasons)
        grid = QGridLayout()
        for place, month in enumerate(self.months):
            grid.addWidget(month, place // _COLUMNS, place % _COLUMNS)
        form.addRow(_("Wet months"), grid)
        form.addRow(
            _("Who drinks it"),
            words(
                _("Private: changes the cautions shown here and is never handed on."),
                quiet=True,
            ),
        )
        ticked = household.record.settings.get("people", "").split()
        self._told = people_of_events(household.record, household.today)
        for key, box in self.people.items():
            box.setChecked(key in ticked or key in self._told)
            if key in self._told:
                box.setEnabled(False)
                box.setText(_("{who} (by an event)").format(who=box.text()))
            form.addRow("", box)
        if household.book.is_readonly:
            for widget in (self.sets, self.seasons, *self.months, *self.people.values()):
                widget.setEnabled(False)

    def _fill_sets(self, household: Household) -> None:
        chosen = sets(household.record.settings, household.catalogue)
        for key, known in household.catalogue.sets.items():
            if known.standing == "in force":
                item = QListWidgetItem(known.name)
                set_tip(item, known.note)
                item.setData(Qt.ItemDataRole.UserRole, key)
                state = Qt.CheckState.Checked if key in chosen else Qt.CheckState.Unchecked
                item.setCheckState(state)
                self.sets.addItem(item)
        self.sets.setMinimumSize(em(self) * 26, em(self) * 9)

    def _fill_seasons(self, household: Household) -> None:
        kept = scheme(household.record.settings)
        for key, text in (
            (NORTHERN.key, _("of the northern half of the earth")),
            (SOUTHERN.key, _("of the southern half of the earth")),
            (_OWN, _("our own wet and dry months")),
        ):
            self.seasons.addItem(text, key)
        self.seasons.setCurrentIndex(self.seasons.findData(kept.key.split()[0]))
        if kept.key.startswith(_OWN):
            for number in map(int, kept.key.split()[1:]):
                self.months[number - 1].setChecked(True)
        self.seasons.currentIndexChanged.connect(self._on_seasons)
        self._on_seasons()

    def _on_seasons(self) -> None:
        for month in self.months:
            month.setEnabled(self.seasons.currentData() == _OWN)

    def keep(self) -> str:
        """Keep what was changed, and only that."""
        household = self._household
        if household is not None and not household.book.is_readonly:
            for key, value in self._choices(household).items():
                if value != self._kept(household)[key]:
                    household.book.set_setting(key, value)
        self._preferences.page = self.page.currentData()
        self._preferences.language = self.language.currentData()
        return _("The settings are kept.")

    def _kept(self, household: Household) -> dict[str, str]:
        return {
            "limit_sets": " ".join(sets(household.record.settings, household.catalogue)),
            "seasons": scheme(household.record.settings).key,
            "people": household.record.settings.get("people", ""),
        }

    def _people(self, household: Household) -> str:
        """Those who are ticked; whom an event tells of is told of by it."""
        before = household.record.settings.get("people", "").split()
        return " ".join(
            key
            for key, box in self.people.items()
            if (key in before if key in self._told else box.isChecked())
        )

    def _choices(self, household: Household) -> dict[str, str]:
        items = [self.sets.item(row) for row in range(self.sets.count())]
        chosen = [
            str(item.data(Qt.ItemDataRole.UserRole))
            for item in items
            if item.checkState() == Qt.CheckState.Checked
        ]
        if not chosen:
            raise Fault(_("Choose at least one limit set to compare results with."))
        return {
            "limit_sets": " ".join(chosen),
            "seasons": self._scheme(),
            "people": self._people(household),
        }

    def _scheme(self) -> str:
        if self.seasons.currentData() != _OWN:
            return str(self.seasons.currentData())
        wet = [number for number, box in enumerate(self.months, 1) if box.isChecked()]
        try:
            return wet_and_dry(wet).key
        except ValueError as error:
            raise Fault(_("Tick the wet months: at least one and at most eleven.")) from error


def _page_words() -> tuple[str, str, str]:
    return (
        _("like the system"),
        _("light"),
        _("dark"),
    )


def _people_words() -> dict[str, str]:
    return {
        INFANT: _("an &infant, or formula is mixed with it"),
        PREGNANCY: _("someone who is pre&gnant"),
        CHILD: _("a child under &nine"),
        DIET: _("someone on a low-sodium &diet"),
        IMMUNE: _("someone with a weak i&mmune system"),
        DIALYSIS: _("someone on dial&ysis at home"),
        ANIMALS: _("cattle, horses or other a&nimals"),
    }
