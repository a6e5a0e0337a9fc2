"""A well at a glance: its section, the way of the water, and what happened, the newest first."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wellbook.book.rows import Point, TreatmentUnit, Well
from wellbook.planning import flow_test
from wellbook.planning.overview import cases
from wellbook.sharing.event_marks import middle
from wellbook.support.translation import _, ngettext
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.theme import em
from wellbook.window.common.words import partial_words
from wellbook.window.pages.well.well_drawing import WellDrawing, not_known
from wellbook.window.widgets.layouts import SUBTITLE, clear_layout, words
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.giving_way import GivingWay
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import dates, vocabulary

if TYPE_CHECKING:
    from wellbook.planning.cases import CaseFacts

Happened = tuple[str, str, str]  # day as written, kind, words
_KIND, _WHAT = 1, 2  # places of columns


class WellGlance(QWidget):
    """What a person wants to see of a well first; nothing is changed here.

    Attributes:
        loader: Works the cases out, which takes all tests, on a thread of its own.
    """

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self.loader = Loader(self)
        self.drawing = WellDrawing()
        self.missing = words(quiet=True)
        self.way = words(_("The way of the water"), factor=SUBTITLE, bold=True)
        self.flow = QVBoxLayout()
        self.flow.setSpacing(em(self) // 4)
        self.table = Table(_("What happened, the newest first"))
        self.model = RowsModel(
            (
                Column(_("Day"), lambda row: partial_words(row[0]), sort=lambda row: row[0]),
                Column(_("Kind"), lambda row: row[1]),
                Column(_("What"), lambda row: row[2]),
            ),
            lambda row: row,
            self,
        )
        self.table.setModel(self.model)
        self.table.fit(stretch=_WHAT)
        self._giving_way = GivingWay(self.table, (_KIND,), stretch=_WHAT)
        said = _(
            "Nothing is written down yet. Events, tests, service and papers come to stand here."
        )
        self.empty = EmptyWords(self.table, self.model, said)
        self.table.arrange("what happened")
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        left = QVBoxLayout()
        left.addWidget(self.drawing, 1)
        left.addWidget(self.missing)
        right = QVBoxLayout()
        right.setSpacing(unit // 2)
        right.addWidget(self.way)
        right.addLayout(self.flow)
        right.addWidget(words(_("What happened"), factor=SUBTITLE, bold=True))
        right.addWidget(self.table, 1)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(unit)
        across.addLayout(left)
        across.addLayout(right, 1)

    def show_well(self, number: int) -> None:
        """Show a well as it is now; 0 for none."""
        record = self._household.record
        well = next((one for one in record.wells if one.id == number), None)
        log = well.construction if well else {}
        self.drawing.show_log(log)
        self.missing.setText("\n".join(not_known(self.drawing.section)) if well else "")
        self.missing.setVisible(bool(self.missing.text()))
        clear_layout(self.flow)
        self.way.setVisible(well is not None)
        for line in self._way(number) if well else ():
            self.flow.addWidget(words(line))
        self.loader.drop()
        if well is None:
            self._show(())
            return
        known = (*self._events(well), *self._documents(well))
        self._show(_newest_first(known))
        self.loader.ask(_cases_of(self._household), partial(self._add_cases, well, known))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the kind out where there is no room for it."""
        super().resizeEvent(event)
        self._giving_way.start()

    def _show(self, rows: tuple[Happened, ...]) -> None:
        self.model.show(rows)
        self._giving_way.start()

    def _way(self, number: int) -> Iterator[str]:
        """Points and units in the order in which the water passes them."""
        record = self._household.record
        yield _("The well")
        units = [u for u in record.units_of(number) if not u.removed]
        # A unit treats the points further on: one at its own place stands before it.
        stops = [(unit.place, 1, _unit(unit)) for unit in units]
        stops += [
            (point.place, 0, _point(point, len(record.samples(point.id))))
            for point in record.points_of(number)
        ]
        for _place, _kind, told in sorted(stops):
            yield f"↓ {told}"

    def _events(self, well: Well) -> Iterator[Happened]:
        record = self._household.record
        for event in record.events_of(well.id):
            kind = vocabulary.event(event.kind)
            yield event.day, _("event"), ": ".join(filter(None, (kind, flow_test.words(event))))
        for unit in record.units_of(well.id):
            for day, told in ((unit.installed, _("{unit} in")), (unit.removed, _("{unit} out"))):
                if day:
                    yield day, _("treatment"), told.format(unit=unit.name)
            for service in record.services_of(unit.id):
                what = ": ".join(filter(None, (vocabulary.service(service.kind), service.text)))
                yield service.day, _("service"), f"{unit.name}, {what}"

    def _documents(self, well: Well) -> Iterator[Happened]:
        """The reports and other papers of the tests, on the day of their sample."""
        days = {
            sample.id: sample.collected.day.isoformat()
            for point in self._household.record.points_of(well.id)
            for sample in self._household.record.samples(point.id)
        }
        for document in self._household.book.documents():
            if document.sample in days:
                yield days[document.sample], _("document"), document.name

    def _add_cases(
        self, well: Well, known: tuple[Happened, ...], found: "tuple[CaseFacts, ...]"
    ) -> None:
        told = tuple(
            (
                case.opened.isoformat(),
                _("case"),
                _("{point}: {why}").format(point=case.point.name, why=case.why),
            )
            for case in found
            if case.well == well.name
        )
        self._show(_newest_first((*known, *told)))


def _cases_of(household: Household) -> "Callable[[Tell], tuple[CaseFacts, ...]]":
    record, catalogue, today = household.record, household.catalogue, household.today
    return lambda _tell: cases(record, catalogue, today)


def _newest_first(rows: Iterable[Happened]) -> tuple[Happened, ...]:
    return tuple(sorted(dict.fromkeys(rows), key=lambda row: _order(row[0]), reverse=True))


def _order(day: str) -> str:
    known = middle(day)
    return known.isoformat() if known else dates.loose_day(day)


def _unit(unit: TreatmentUnit) -> str:
    if not unit.installed:
        return unit.name
    return _("{unit}, since {day}").format(unit=unit.name, day=partial_words(unit.installed))


def _point(point: Point, n: int) -> str:
    kind = _("treated") if point.treated else _("untreated")
    said = ngettext(
        "{name}, a sampling point ({kind}; {n:,} test)",
        "{name}, a sampling point ({kind}; {n:,} tests)",
        n,
    )
    return said.format(name=point.name, kind=kind, n=n)
