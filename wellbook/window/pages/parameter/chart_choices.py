"""What is chosen for the picture of a parameter: points, days, unit, limits, a second parameter."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QMenu, QPushButton, QWidget

from wellbook.book.rows import Point
from wellbook.planning.settings import sets, unit_choices, yardsticks
from wellbook.support.translation import _, ngettext
from wellbook.water.units import conversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing, stand
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.wording.facts import with_unit

_SPANS = (None, 10, 5, 2)  # years before the end of the chart; None for all
_TWINS = (("mg/L", "ug/L"), ("ug/L", "ng/L"))
_NARROW = 62  # ems


class ChartChoices(QWidget):
    """One line of fields, two where there is no room; each says what it shows.

    Signals:
        changed: The chart is to be described anew.
        span_chosen: Other days are wanted; `span` tells how many years, None for all.
        point_wanted: Another point alone is wanted; carries its number.
    """

    changed = Signal()
    span_chosen = Signal()
    point_wanted = Signal(int)

    def __init__(self, household: Household, deeds: QMenu, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._parameter: Parameter | None = None
        self._sets: tuple[str, ...] = ()
        self.beside = _box(_("Points that are shown"), self)
        self.span = _box(_("Years that are shown"), self)
        self.unit = _box(_("Unit of the picture"), self)
        self.together = _box(_("Another parameter on the same years"), self)
        self.limits = QPushButton(self)
        set_tip(self.limits, _("Whose limits are drawn and compared with here; kept nowhere"))
        self._limits_menu = QMenu(self)
        self.limits.setMenu(self._limits_menu)
        self.deeds = QPushButton(_("Copy or save"), self)
        self.deeds.setMenu(deeds)
        for years in _SPANS:
            said = ngettext("the last {n} year", "the last {n} years", years or 0)
            self.span.addItem(said.format(n=years) if years else _("all years"), years)
        self.beside.activated.connect(self._on_point)
        self.span.activated.connect(self.span_chosen)
        self.unit.activated.connect(self.changed)
        self.together.activated.connect(self.changed)
        self._fields = (
            self.beside, self.span, self.unit, self.limits, self.together, self.deeds,
        )  # fmt: skip
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(em(self) // 2)
        self.lay_out(wide=True)

    def lay_out(self, *, wide: bool) -> None:
        """Set what there is to choose in one line or in two, without holes."""
        self._is_wide = wide
        across = len(self._fields) if wide else 3
        shown = [field for field in self._fields if not _is_put_away(field)]
        for place, field in enumerate(shown):
            self._grid.addWidget(field, place // across, place % across)

    def offer(
        self, others: Sequence[Point], parameter: Parameter, tested: Iterable[Parameter]
    ) -> None:
        """Offer what there is to choose for a parameter; choices start anew."""
        self._parameter = parameter
        self._sets = sets(self._household.record.settings, self._household.catalogue)
        self.beside.clear()
        self.beside.addItem(_("this point alone"), None)
        for other in others:
            self.beside.addItem(_("with {name}").format(name=other.name), other)
        for other in others:
            self.beside.addItem(_("{point} alone").format(point=other.name), other.id)
        self.beside.setVisible(bool(others))
        self.span.setCurrentIndex(0)
        self._offer_units(parameter)
        self.together.clear()
        self.together.addItem(_("no other parameter"), "")
        for one in sorted(tested, key=lambda one: one.name.casefold()):
            if one.key != parameter.key:
                self.together.addItem(_("with {name}").format(name=one.name), one.key)
        self._offer_limits()
        self.lay_out(wide=self._is_wide)

    def _offer_units(self, parameter: Parameter) -> None:
        self.unit.clear()
        for unit in units_of(parameter, self._household.catalogue):
            self.unit.addItem(_("in {unit}").format(unit=with_unit("", *unit)), unit)
        self.unit.setVisible(self.unit.count() > 1)

    def _offer_limits(self) -> None:
        catalogue, parameter = self._household.catalogue, self._parameter
        self._limits_menu.clear()
        keys = {limit.set for limit in catalogue.limits_of(parameter.key)} if parameter else set()
        for key, known in catalogue.sets.items():
            if key in keys:
                action = self._limits_menu.addAction(known.name)
                action.setCheckable(True)
                action.setChecked(key in self._sets)
                action.toggled.connect(lambda on, key=key: self._on_set(key, on=on))
        self.limits.setVisible(bool(keys))
        self._name_limits(keys)

    def _on_set(self, key: str, *, on: bool) -> None:
        known = self._household.catalogue.sets
        chosen = {*self._sets, key} if on else set(self._sets) - {key}
        own = sets(self._household.record.settings, self._household.catalogue)
        order = [*own, *(one for one in known if one not in own)]
        self._sets = tuple(one for one in order if one in chosen)
        parameter = self._parameter
        catalogue = self._household.catalogue
        self._name_limits({limit.set for limit in catalogue.limits_of(parameter.key)}
                          if parameter else set())  # fmt: skip
        self.changed.emit()

    def _name_limits(self, keys: set[str]) -> None:
        n = len(keys & set(self._sets))
        said = ngettext("limits of {n} set", "limits of {n} sets", n)
        self.limits.setText(said.format(n=n))

    def _on_point(self) -> None:
        chosen = self.beside.currentData()
        if isinstance(chosen, int):
            self.point_wanted.emit(chosen)
        else:
            self.changed.emit()

    @property
    def other(self) -> Point | None:
        """The point that is drawn beside the first."""
        chosen = self.beside.currentData()
        return chosen if isinstance(chosen, Point) else None

    @property
    def sets(self) -> tuple[str, ...]:
        """Keys of the limit sets, the household's first."""
        return self._sets

    def judged(self, own: Standing, record: PointRecord) -> Standing:
        """A standing by the sets that are chosen here, `own` where they are the household's."""
        household = self._household
        catalogue, chosen = yardsticks(household.record.settings, household.catalogue)
        if self._sets == chosen:
            return own
        return stand(record, own.parameter, catalogue, self._sets, household.today)

    @property
    def second(self) -> str:
        """Key of the parameter that is drawn below; empty for none."""
        return str(self.together.currentData() or "")

    def in_unit(self, parameter: Parameter) -> Parameter:
        """The parameter as it is to be shown."""
        unit = self.unit.currentData()
        is_usual = not unit or tuple(unit) == parameter.shown_in
        return parameter if is_usual else replace(parameter, shown=tuple(unit))


def units_of(parameter: Parameter, catalogue: Catalogue) -> list[tuple[str, str]]:
    """Units and bases in which a parameter can be shown, the household's first."""
    found = [parameter.shown_in, (parameter.unit, parameter.basis)]
    found += [one for choice in unit_choices(catalogue) if (one := choice.units.get(parameter.key))]
    for pair in _TWINS:
        if parameter.unit in pair:
            found += [(unit, parameter.basis) for unit in pair]
    return [unit for unit in dict.fromkeys(found) if _can_be(unit, parameter)]


def _can_be(unit: tuple[str, str], parameter: Parameter) -> bool:
    try:
        conversion.convert(Decimal(1), parameter.unit, parameter.basis, *unit, parameter)
    except conversion.NoConversion:
        return False
    return parameter.scale != "presence"


def _is_put_away(field: QWidget) -> bool:
    """Whether a field was hidden; one that was never shown yet counts as hidden to Qt, too."""
    return field.isHidden() and field.testAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide)


def _box(name: str, parent: QWidget) -> QComboBox:
    box = QComboBox(parent)
    box.setAccessibleName(name)
    set_tip(box, name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(8)
    return box
