"""What goes into a packet: the period, wells, sampling points, parameters, limit sets."""

from collections.abc import Iterable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from wellbook.planning.settings import sets
from wellbook.sharing.excerpt import Scope
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.typed_days import partial_hint, read_first_day, read_last_day
from wellbook.window.common.words import day_words
from wellbook.window.widgets.layouts import named, words
from wellbook.window.widgets.tick_list import TickList

_IN_FORCE = "in force"


class ScopePart(QWidget):
    """Shows the whole history chosen; what is ticked or written narrows it.

    Signals:
        changed: Something was ticked, unticked or written.
    """

    changed = Signal()

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._catalogue = household.catalogue
        self._own_sets = sets(household.record.settings, household.catalogue)
        self._tested: frozenset[str] = frozenset()
        self.since, self.until = QLineEdit(), QLineEdit()
        self.days = words(quiet=True)
        every = _("none ticked: all go in")
        self.parameters = TickList(
            _("Para&meters"),
            every,
            lines=7,
            search=_("Search among those tested"),
            grows=True,
        )
        self.wells = TickList(_("W&ells"), every)
        self.points = TickList(_("Sampling p&oints"), every)
        self.sets = TickList(_("L&imit sets to compare with"), _("none ticked"))
        self.everything = QPushButton(_("Put e&verything in again"))
        self.everything.setAutoDefault(False)
        self.everything.setEnabled(False)
        self._lay_out()
        self._fill(household)
        self.everything.clicked.connect(self.choose_everything)
        self.since.setPlaceholderText(_("the first test"))
        self.until.setPlaceholderText(_("the last test"))
        for field in (self.since, self.until):
            set_tip(field, partial_hint())
            field.textChanged.connect(self._on_changed)
        for ticks in self._lists():
            ticks.changed.connect(self._on_changed)

    def _lists(self) -> tuple[TickList, ...]:
        return (self.parameters, self.wells, self.points, self.sets)

    def _fill(self, household: Household) -> None:
        record, known = household.record, household.catalogue.sets
        wells = {one.id: one.name for one in record.wells}
        self.wells.fill({name: name for name in wells.values()})
        named_so: dict[str, list[str]] = {}
        for point in record.points:
            named_so.setdefault(point.name, []).append(wells[point.well])
        self.points.fill(
            {
                name: f"{name} ({', '.join(at)})" if len(wells) > 1 else name
                for name, at in named_so.items()
            }
        )
        self.wells.setVisible(len(wells) > 1)
        self.points.setVisible(len(named_so) > 1)
        offered = {
            key: one
            for key, one in known.items()
            if one.standing == _IN_FORCE or key in self._own_sets
        }
        self.sets.fill(
            {key: one.name for key, one in offered.items()},
            self._own_sets,
            {key: one.note for key, one in offered.items()},
        )

    def _lay_out(self) -> None:
        unit = em(self)
        period = QHBoxLayout()
        period.setSpacing(unit // 2)
        for label, field in (
            (_("Tests &from"), self.since),
            (_("u&ntil"), self.until),
        ):
            period.addWidget(named(label, field))
            period.addWidget(field, 1)
        left, right = QVBoxLayout(), QVBoxLayout()
        right.setSpacing(unit // 2)
        left.addWidget(self.parameters)
        for ticks in (self.wells, self.points, self.sets):
            right.addWidget(ticks)
        right.addStretch(1)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(unit)
        grid.setVerticalSpacing(unit // 2)
        grid.addLayout(period, 0, 0, 1, 2)
        grid.addWidget(self.days, 1, 0, 1, 2)
        grid.addLayout(left, 2, 0)
        grid.addLayout(right, 2, 1)
        grid.addWidget(self.everything, 3, 0, 1, 2, Qt.AlignmentFlag.AlignLeft)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)

    @property
    def is_filled(self) -> bool:
        """Whether the parameters tested are known."""
        return bool(self._tested)

    def show_tested(self, keys: Iterable[str], days: tuple[date, date] | None) -> None:
        """Offer the parameters that the book holds readings of, and say which days it covers."""
        self._tested = frozenset(keys)
        known = self._catalogue.parameters
        found = sorted(
            (known[key] for key in self._tested if key in known),
            key=lambda one: one.name.casefold(),
        )
        self.parameters.fill(
            {one.key: one.name for one in found},
            self.parameters.ticked(),
            {one.key: ", ".join(one.aliases) for one in found},
        )
        said = _("Write {forms}.").format(forms=partial_hint())
        if days:
            span = _("The tests in the book were drawn from {first} to {last}.")
            span = span.format(first=day_words(days[0]), last=day_words(days[1]))
            said = f"{said} {span}"
        self.days.setText(said)

    def _on_changed(self) -> None:
        lists = (self.parameters, self.wells, self.points)
        self.everything.setEnabled(
            any(ticks.ticked() for ticks in lists)
            or self.sets.ticked() != self._own_sets
            or bool(self.since.text() or self.until.text())
        )
        self.changed.emit()

    def choose_everything(self) -> None:
        """Take back every choice that was made here."""
        for ticks in (self.parameters, self.wells, self.points):
            ticks.tick(())
        self.sets.tick(self._own_sets)
        self.parameters.search.clear()
        self.since.clear()
        self.until.clear()

    def scope(self) -> Scope:
        """What is chosen; where all of a kind are ticked, that kind is not narrowed.

        Raises:
            Fault: A day can't be read, the period ends before it begins, or no set is ticked.
        """
        since, until = read_first_day(self.since.text()), read_last_day(self.until.text())
        if since and until and until < since:
            raise Fault(
                _(
                    "The period ends on {until}, before it begins on {since}: change one of them."
                ).format(until=day_words(until), since=day_words(since))
            )
        chosen = self.sets.ticked()
        if not chosen:
            raise Fault(_("Tick at least one limit set to compare the results with."))
        parameters = self.parameters.ticked()
        return Scope(
            wells=_narrowed(self.wells),
            points=_narrowed(self.points),
            parameters=() if frozenset(parameters) == self._tested else parameters,
            sets=() if chosen == self._own_sets else chosen,
            since=since,
            until=until,
        )


def _narrowed(ticks: TickList) -> tuple[str, ...]:
    ticked = ticks.ticked()
    return () if len(ticked) == ticks.items.count() else ticked
