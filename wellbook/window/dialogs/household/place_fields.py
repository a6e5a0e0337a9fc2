"""Where the well lies, of what kind it is, who drinks from it, and which lab tests it."""

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import QLocale, QSignalBlocker, Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QFormLayout, QHBoxLayout, QLineEdit, QWidget

from wellbook.planning.advice import people_of_events
from wellbook.planning.frequencies import FLOOD_PRONE, KARST, kinds_of_wells, standings
from wellbook.planning.lab.lab_route import read_habits, states_of
from wellbook.planning.place.places import ELSEWHERE, known_places
from wellbook.planning.settings import HOME, Settings, well_kind
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
from wellbook.window.common.household import Household
from wellbook.window.widgets.layouts import named, words

_UNION = "EUR"  # countries that share a row are called by their own names


class PlaceFields(QWidget):
    """Asks for facts; what follows from them is shown elsewhere.

    Signals:
        changed: Something that others follow from is another now.
    """

    changed = Signal()

    def __init__(self, household: Household) -> None:
        super().__init__()
        self._household = household
        settings = household.record.settings
        self.country, self.state = _box(), _box()
        for code, name in countries().items():
            self.country.addItem(name, code)
        _choose(self.country, settings.get("country", ""))
        self._offer_states()
        _choose(self.state, settings.get("subdivision", ""))
        self.kind = QComboBox()
        self.kind.addItem(_("not known"), "")
        for kind, name in kinds_of_wells().items():
            self.kind.addItem(_(name), kind)
        log = household.record.wells[0].construction if household.record.wells else {}
        self.kind.setCurrentIndex(max(0, self.kind.findData(well_kind(settings, log))))
        self.ground = {key: QCheckBox(text) for key, text in _ground_words().items()}
        self.well = QLineEdit(_("Our well"))
        self.point = QLineEdit(_("At the pressure tank"))
        self.lab = _box()
        self.lab.addItems([lab.name for lab in household.record.labs])
        self.lab.setCurrentText(read_habits(settings).lab)
        self.people = {key: QCheckBox(text) for key, text in _people_words().items()}
        self._lay_out()
        self._tick(settings)
        self._tick_ground(settings, log)
        for offers in (self.country, self.state):
            line = offers.lineEdit()
            if line is not None:
                line.editingFinished.connect(partial(_show_whole, offers))
        self.country.currentTextChanged.connect(self._on_country)
        self.state.currentTextChanged.connect(lambda _unused: self.changed.emit())
        self.kind.currentIndexChanged.connect(lambda _unused: self.changed.emit())
        for box in self.ground.values():
            box.toggled.connect(lambda _unused: self.changed.emit())

    def _lay_out(self) -> None:
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.addRow(named(_("&Country"), self.country), self.country)
        form.addRow(named(_("State or &province"), self.state), self.state)
        form.addRow(named(_("Kind of &well"), self.kind), self.kind)
        stands = QHBoxLayout()
        for box in self.ground.values():
            stands.addWidget(box)
        stands.addStretch()
        form.addRow(_("It stands"), stands)
        if self.is_first:
            form.addRow(named(_("The well is ca&lled"), self.well), self.well)
            form.addRow(named(_("Samples are &drawn"), self.point), self.point)
        form.addRow(named(_("Tested &by the lab"), self.lab), self.lab)
        form.addRow(
            _("Who drinks it"),
            words(
                _("Private: changes the cautions shown here and is never handed on."), quiet=True
            ),
        )
        for box in self.people.values():
            form.addRow("", box)

    def _tick(self, settings: Settings) -> None:
        """Tick who was told of; whom an event tells of is told of by it."""
        self._ticked = settings.get("people", "").split()
        self._told = people_of_events(self._household.record, self._household.today)
        for key, box in self.people.items():
            box.setChecked(key in self._ticked or key in self._told)
            if key in self._told:
                box.setEnabled(False)
                box.setText(_("{who} (by an event)").format(who=box.text()))

    def _tick_ground(self, settings: Settings, log: Mapping[str, str]) -> None:
        """Tick what was said of the ground; what the log tells holds without a tick."""
        chosen, told = settings.get("ground", "").split(), standings({}, log)
        for key, box in self.ground.items():
            box.setChecked(key in chosen or key in told)
            if key in told and key not in chosen:
                box.setEnabled(False)
                box.setText(_("{what} (by the log)").format(what=box.text()))

    @property
    def is_first(self) -> bool:
        """Whether the book has no sampling point yet."""
        return not self._household.record.points

    def typed(self) -> dict[str, str]:
        """What is chosen, by the keys of the settings."""
        return {
            "country": _code(self.country),
            "state": _code(self.state) if _code(self.country) else "",
            "well-kind": str(self.kind.currentData()),
            "ground": " ".join(
                key for key, box in self.ground.items() if box.isChecked() and box.isEnabled()
            ),
        }

    def who(self) -> str:
        """Who is ticked, as the book keeps it."""
        return " ".join(
            key
            for key, box in self.people.items()
            if (key in self._ticked if key in self._told else box.isChecked())
        )

    def _on_country(self) -> None:
        self._offer_states()
        self.changed.emit()

    def _offer_states(self) -> None:
        country = _code(self.country)
        found = states(country)
        with QSignalBlocker(self.state):
            self.state.clear()
            self.state.addItem("", "")
            for state, name in found.items():
                self.state.addItem(name, state)
        self.state.setEnabled(bool(found))


def countries() -> Mapping[str, str]:
    """Countries that something is known of, by their codes; others can be typed."""
    found = {"": ""}
    for code, place in known_places().items():
        if code == ELSEWHERE or "-" in code:
            continue
        alone = sum(one.name == place.name for one in known_places().values()) == 1
        name = _(place.name) if alone else _own_name(code)
        found[code] = f"{name} ({code})"
    return dict(sorted(found.items(), key=lambda one: one[1].casefold()))


def states(country: str) -> Mapping[str, str]:
    """The parts of a country that have holidays of their own, by their codes."""
    found = (states_of(country) or {}) if len(country) == len(HOME) else {}
    places = known_places()
    names = {
        code: _(places[known].name) if (known := f"{country}-{code}") in places else name
        for code, name in found.items()
    }
    said = {code: f"{name} ({code})" if name else code for code, name in names.items()}
    return dict(sorted(said.items(), key=lambda one: one[1].casefold()))


def _own_name(code: str) -> str:
    """What a country calls itself."""
    territory = QLocale.codeToTerritory(code)
    anything = QLocale.Language.AnyLanguage, QLocale.Script.AnyScript
    locales = QLocale.matchingLocales(*anything, territory)
    usual = QLocale(QLocale.Language.AnyLanguage, territory)
    names = (usual.nativeTerritoryName(), *(one.nativeTerritoryName() for one in locales))
    return next(filter(None, names), code)


def _box() -> QComboBox:
    made = QComboBox()
    made.setEditable(True)
    made.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)  # Return adds nothing to what is offered
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    made.setMinimumContentsLength(18)
    return made


def _choose(box: QComboBox, code: str) -> None:
    place = box.findData(code)
    if place >= 0:
        box.setCurrentIndex(place)
    else:
        box.setEditText(code)


def _code(box: QComboBox) -> str:
    """The code of what is chosen or typed."""
    text = box.currentText().strip()
    place = _place(box, text)
    return str(box.itemData(place) or "") if place >= 0 else text.upper()


def _place(box: QComboBox, text: str) -> int:
    """Where what was typed stands: as it is offered, as a name or a code alone; else -1."""
    typed = text.casefold()
    for place in range(box.count()):
        offered = box.itemText(place).casefold()
        if typed in {offered, offered.rpartition(" (")[0], box.itemData(place).casefold()}:
            return place
    return -1


def _show_whole(box: QComboBox) -> None:
    """Show what was typed short as it is offered."""
    place = _place(box, box.currentText().strip())
    if place >= 0:
        box.setCurrentIndex(place)
        box.setEditText(box.itemText(place))


def _ground_words() -> dict[str, str]:
    return {
        KARST: _("in &karst or broken rock"),
        FLOOD_PRONE: _("where &floods reach it"),
    }


def _people_words() -> dict[str, str]:
    return {
        INFANT: _("an &infant, or formula is mixed with it"),
        PREGNANCY: _("someone who is pre&gnant"),
        CHILD: _("a child under &nine"),
        DIET: _("someone on a low-sodium d&iet"),
        IMMUNE: _("someone with a weak i&mmune system"),
        DIALYSIS: _("someone on dial&ysis at home"),
        ANIMALS: _("cattle, horses or other &animals"),
    }
