"""What follows from the place, each of it changeable: limit sets, seasons, dates, paper, units."""

from collections.abc import Mapping, Sequence

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QGridLayout,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from wellbook.planning import settings as chosen
from wellbook.planning.place.choices import SETTINGS
from wellbook.planning.place.places import Place
from wellbook.planning.place.whom_to_ask import of_labs
from wellbook.planning.settings import Settings
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES
from wellbook.support.translation import LANGUAGES, _
from wellbook.water.values.limits import NEAR_SHARE
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, YEAR, read_scheme, wet_and_dry
from wellbook.water.values.unit_choices import USUAL, read_unit_choices
from wellbook.window.common.household import Household
from wellbook.window.widgets.layouts import named, words
from wellbook.window.widgets.tick_list import TickList
from wellbook.wording.facts import short_month

_OWN = "wet"
_COLUMNS = 6
_TYPED = frozenset({"currency", "ask", "emergency"})  # anything can be typed


class ChoiceFields(QWidget):
    """Shows what holds; the first choice of each is what the place suggests."""

    def __init__(self, household: Household) -> None:
        super().__init__()
        self._household = household
        self._kept = household.record.settings
        self._of_place: tuple[str, ...] = ()
        self._wet_there: frozenset[int] = frozenset()
        catalogue = household.catalogue
        self.told = words(quiet=True)
        self.sets = TickList(_("&Limit sets of this book"), _("none"), lines=4)
        self._offer_sets(chosen.sets(self._kept, catalogue))
        self._names = _names(household)
        self.boxes = {key: QComboBox() for key in self._names}
        self.months = [QCheckBox(short_month(n)) for n in range(1, YEAR + 1)]
        self.near = QSpinBox()
        self.near.setRange(10, 95)
        self.near.setSuffix(" %")
        self.near.setValue(round(chosen.near(self._kept) * 100))
        self._lay_out()
        self._fill()
        self._of_place = chosen.sets(_alone(self._kept), catalogue)
        self.follow(self._kept)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.told)
        column.addWidget(self.sets)
        labels = {
            "seasons": _("&Seasons"),
            "dates": _("&Days in lab files"),
            "decimal": _("Decimal si&gn in lab files"),
            "units": _("&Units of charts and packets"),
            "paper": _("Pa&per"),
            "language": _("Lan&guage of what is printed"),
            "currency": _("Curr&ency of costs"),
            "ask": _("Whom to as&k about health"),
            "emergency": _("Num&ber for emergencies"),
        }
        form = QFormLayout()
        for key, label in labels.items():
            form.addRow(named(label, self.boxes[key]), self.boxes[key])
            if key == "seasons":
                grid = QGridLayout()
                for place, month in enumerate(self.months):
                    grid.addWidget(month, place // _COLUMNS, place % _COLUMNS)
                form.addRow(_("Wet months"), grid)
        form.addRow(named(_("Close &to a limit from"), self.near), self.near)
        column.addLayout(form)

    def _offer_sets(self, ticked: Sequence[str]) -> None:
        """Offer all limit sets, those of the place first."""
        known = self._household.catalogue.sets
        order = sorted(known, key=lambda key: key not in (*self._of_place, *ticked))
        in_force = [key for key in order if known[key].standing == "in force"]
        self.sets.fill(
            {key: known[key].name for key in in_force},
            ticked,
            {key: known[key].note for key in in_force},
        )

    def _fill(self) -> None:
        for key, names in self._names.items():
            box = self.boxes[key]
            box.setEditable(key in _TYPED)
            box.setSizeAdjustPolicy(
                QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            box.setMinimumContentsLength(20)
            box.addItem("", "")
            for value, name in names.items():
                box.addItem(name, value)
            kept = self._kept.get(key, "")
            place = box.findData(kept.split()[0] if key == "seasons" and kept else kept)
            if place < 0:
                box.addItem(kept, kept)
                place = box.count() - 1
            box.setCurrentIndex(place)
        wet = self._kept.get("seasons", "").split()
        for number in map(int, wet[1:]):
            self.months[number - 1].setChecked(True)
        self.boxes["seasons"].currentIndexChanged.connect(self._on_seasons)
        self._on_seasons()

    def follow(self, settings: Settings) -> None:
        """Say what a place suggests, and tick its limit sets unless others were chosen."""
        catalogue, place = self._household.catalogue, chosen.place(settings)
        alone = _alone(settings)
        name = _(place.name) if settings.get("country", "") else ""
        self.told.setText(
            f"{_usual_there(place, name)} {of_labs(settings)}".strip()
            if name
            else _("Say the country, and what is usual there is chosen here.")
        )
        before, self._of_place = self._of_place, chosen.sets(alone, catalogue)
        ticked = self.sets.ticked()
        is_left = before and set(ticked) == set(before)
        self._offer_sets(self._of_place if is_left else ticked)
        for key, box in self.boxes.items():
            usual = _usual(key, alone, self._household)
            said = self._names[key].get(usual) or (_rains(usual) if key == "seasons" else _(usual))
            text = _("{what}, as usual there") if name else _("{what}, as usual")
            box.setItemText(0, text.format(what=said) if said else _("not chosen"))
            if line := box.lineEdit():
                line.setCursorPosition(0)  # a long word shows its beginning
        self._wet_there = chosen.scheme(alone).wet_months
        self._on_seasons()

    def _on_seasons(self) -> None:
        """Only the household's own months can be ticked; those of the place are shown."""
        is_own = self.boxes["seasons"].currentData() == _OWN
        is_there = self.boxes["seasons"].currentData() == ""
        for number, month in enumerate(self.months, 1):
            month.setEnabled(is_own)
            if not is_own:
                month.setChecked(is_there and number in self._wet_there)

    def typed(self) -> dict[str, str]:
        """What is chosen, by the keys of the settings; empty where the place is followed.

        Raises:
            Fault: No limit set is chosen, or no wet month.
        """
        ticked = self.sets.ticked()
        if not ticked:
            raise Fault(_("Choose at least one limit set to compare results with."))
        kept = self._kept.get("limit_sets", "").split()
        own = "" if set(ticked) == set(self._of_place) and not kept else ",".join(ticked)
        found = {key: _value(box) for key, box in self.boxes.items()}
        near = self.near.value()
        return {
            **found,
            "seasons": self._scheme(),
            "limit-sets": ",".join(kept) if set(kept) == set(ticked) else own,
            "near": "" if near == round(NEAR_SHARE * 100) else f"{near} %",
        }

    def _scheme(self) -> str:
        box = self.boxes["seasons"]
        if box.currentData() != _OWN:
            return str(box.currentData() or "")
        wet = [number for number, box in enumerate(self.months, 1) if box.isChecked()]
        try:
            return wet_and_dry(wet).key
        except ValueError as error:
            raise Fault(_("Tick the wet months: at least one and at most eleven.")) from error


def _alone(settings: Settings) -> Settings:
    """The place alone, without what was chosen."""
    return {key: settings.get(key, "") for key in ("country", "subdivision")}


def _usual_there(place: Place, name: str) -> str:
    return _("{place}: what is usual there ({source}). Who can say more: {ask}.").format(
        place=name, source=place.source, ask=_(place.ask)
    )


def _rains(scheme: str) -> str:
    """The wet months of a scheme, those that follow one another from the first to the last."""
    wet = read_scheme(scheme).wet_months
    first = [month for month in sorted(wet) if (month - 2) % YEAR + 1 not in wet]
    runs = []
    for month in first:
        last = month
        while last % YEAR + 1 in wet:
            last = last % YEAR + 1
        names = [short_month(number) for number in dict.fromkeys((month, last))]
        runs.append("–".join(names))
    return _("wet: {months}").format(months=", ".join(runs)) if runs else ""


def _value(box: QComboBox) -> str:
    place = box.findText(box.currentText())
    return str(box.itemData(place) or "") if place >= 0 else box.currentText().strip()


def _usual(key: str, place: Settings, household: Household) -> str:
    """What a place suggests for one of the choices."""
    setting = next(one for one in SETTINGS if one.key == key)
    value = setting.now(place, household.catalogue)
    return value if isinstance(value, str) else ""


def _names(household: Household) -> Mapping[str, Mapping[str, str]]:
    """Words for each value of each choice."""
    choices = read_unit_choices(paths.resources() / "unit_choices.csv", household.catalogue)
    return {
        "seasons": {
            NORTHERN.key: _("of the northern half of the earth"),
            SOUTHERN.key: _("of the southern half of the earth"),
            _OWN: _("our own wet and dry months"),
        },
        "dates": {
            "month-first": _("month first"),
            "day-first": _("day first"),
            "asked": _("ask each time"),
        },
        "decimal": {"point": _("a point, 0.5"), "comma": _("a comma, 0,5")},
        "units": {
            USUAL: _("As labs report them"),
            **{key: _(one.name) for key, one in choices.items()},
        },
        "paper": {"letter": _("Letter (8.5 × 11 in)"), "a4": _("A4 (210 × 297 mm)")},
        "language": dict(LANGUAGES),
        "currency": {code: code for code in CURRENCIES},
        "ask": {},
        "emergency": {},
    }
