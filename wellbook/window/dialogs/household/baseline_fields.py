"""What is tested how often at the well, each with its reason."""

from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QSpinBox, QVBoxLayout, QWidget

from wellbook.planning.frequencies import baseline
from wellbook.planning.settings import Settings
from wellbook.support.translation import _, pgettext
from wellbook.water.values.triggers import asked_by
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import named, words

OWNER = "owner"  # the kind of event that asks for a first look
_LONGEST = 240  # months, as a plan allows


class BaselineFields(QWidget):
    """Shows a first look, and how often each panel comes again."""

    def __init__(self, household: Household) -> None:
        super().__init__()
        self._household = household
        record = household.record
        self.point = next((one for one in record.points if not one.treated), None)
        plans = record.plans_of(self.point.id) if self.point else ()
        self._own = {plan.panel: plan.months for plan in plans}
        self._follows: dict[str, int] = {}
        self.months: dict[str, QSpinBox] = {}
        self._reasons: dict[str, QLabel] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.first_look = QCheckBox(_("A &first look for a new owner, once and soon"))
        self.first_look.setVisible(self.is_new)
        column.addWidget(self.first_look)
        look = asked_by(OWNER, "", household.catalogue.triggers)[0]
        if self.is_new:
            names = [household.catalogue.parameters[key].name for key in look.core]
            column.addWidget(words(f"{', '.join(names)}. {look.why} ({look.source})", quiet=True))
        column.addWidget(words(_("After that it comes again, unless you want it otherwise:")))
        self._grid = QGridLayout()
        self._grid.setColumnStretch(2, 1)
        for row in baseline({}, {}, household.catalogue):
            if self._own.get(row.panel.key) == 0:
                continue  # let go, with a reason
            self._add(row.panel.key, row.panel.name)
        column.addLayout(self._grid)

    def _add(self, key: str, name: str) -> None:
        box, reason = QSpinBox(), words(quiet=True)
        box.setRange(1, _LONGEST)
        box.setMinimumWidth(em(self) * 9)
        box.setSuffix(" " + pgettext("after a number", "months"))
        at = 2 * len(self.months)
        self._grid.addWidget(named(_("{panel}: every").format(panel=name), box), at, 0)
        self._grid.addWidget(box, at, 1)
        self._grid.addWidget(reason, at + 1, 0, 1, 3)
        self.months[key], self._reasons[key] = box, reason

    @property
    def is_new(self) -> bool:
        """Whether nothing is known of the water yet, and no first look was asked for."""
        record = self._household.record
        asked = any(event.kind in {OWNER, "new well"} for event in record.events)
        return not asked and not any(True for _unused in record.samples())

    @property
    def wants_first_look(self) -> bool:
        """Whether a first look is asked for now."""
        return self.is_new and self.first_look.isChecked()

    def follow(self, settings: Settings) -> None:
        """Show what kind of well and place ask for; what was chosen stays."""
        wells = self._household.record.wells
        log = {**(wells[0].construction if wells else {}), "kind": settings.get("well_kind", "")}
        for row in baseline(settings, log, self._household.catalogue):
            key = row.panel.key
            if key not in self.months:
                continue
            box, own = self.months[key], self._own.get(key)
            if key not in self._follows:
                box.setValue(own or row.months)
            elif own is None and box.value() == self._follows[key]:
                box.setValue(row.months)  # nobody chose another
            self._follows[key] = row.months
            self._reasons[key].setText(" ".join(row.why))

    def chosen(self) -> dict[str, int]:
        """Panels with an interval of the household's own, other than what is kept."""
        return {
            key: box.value()
            for key, box in self.months.items()
            if box.value() != self._own.get(key, self._follows.get(key))
        }
