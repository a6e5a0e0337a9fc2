"""How a book stands on a day: each point, each parameter, and what is due."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from wellbook.book.record import Record
from wellbook.book.rows import Point, Well
from wellbook.planning.settings import yardsticks
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing, stand
from wellbook.water.verdicts.sum_status import SumStanding, by_urgency, stand_sums

if TYPE_CHECKING:
    from wellbook.planning.cases import CaseFacts
    from wellbook.water.sampling.due import PanelDue

_BYPASSED = "bypass"  # kind of a service

Known = Mapping[int, PointRecord]  # by point
Planner = Callable[[Well, Known], "dict[int, tuple[PanelDue, ...]]"]


@dataclass(frozen=True, slots=True)
class PointOverview:
    """One sampling point: a standing for each parameter ever tested there, and what is due.

    Attributes:
        unknown: Names, as printed, of what the catalogue does not know; kept, never judged.
        sums: Sums over the latest samples that hold their parts, where a limit is on the sum.
    """

    point: Point
    standings: tuple[Standing, ...]
    due: "tuple[PanelDue, ...]"
    unknown: tuple[str, ...] = ()
    sums: tuple[SumStanding, ...] = ()

    @property
    def by_urgency(self) -> tuple[Standing | SumStanding, ...]:
        """All that was held against limits here, what needs attention first."""
        return tuple(sorted((*self.standings, *self.sums), key=by_urgency))


@dataclass(frozen=True, slots=True)
class WellOverview:
    """One well with its points in the order of the flow."""

    well: Well
    points: tuple[PointOverview, ...]


def overview(
    record: Record, catalogue: Catalogue, today: date, *, with_due: bool = True
) -> tuple[WellOverview, ...]:
    """Everything that is known of each well, as it stands on a day.

    Tests drawn after that day are left out, so that an earlier day shows the record of then.
    What is due needs the holidays of years and can be left for later (`with_due`).
    """
    planner = _planner(record, catalogue, today) if with_due else None
    catalogue, chosen = yardsticks(record.settings, catalogue)
    found = []
    for well in record.wells:
        points = record.points_of(well.id)
        known = {point.id: point_record(record, point.id, today) for point in points}
        dues = planner(well, known) if planner else {}
        found.append(
            WellOverview(
                well,
                tuple(
                    PointOverview(
                        point,
                        _standings(known[point.id], catalogue, chosen, today),
                        dues.get(point.id, ()),
                        _unknown(known[point.id]),
                        stand_sums(known[point.id], catalogue, chosen, today),
                    )
                    for point in points
                ),
            )
        )
    return tuple(found)


def due(
    record: Record, catalogue: Catalogue, today: date
) -> "tuple[tuple[Well, Point, tuple[PanelDue, ...]], ...]":
    """What is due at each point: what is urgent first, then by day."""
    planner = _planner(record, catalogue, today)
    found = []
    for well in record.wells:
        points = record.points_of(well.id)
        known = {point.id: point_record(record, point.id, today) for point in points}
        dues = planner(well, known)
        found += [(well, point, dues[point.id]) for point in points]
    return tuple(found)


def cases(
    record: Record, catalogue: Catalogue, today: date, *, with_personal: bool = True
) -> "tuple[CaseFacts, ...]":
    """Every case of every well, open ones first.

    Without what is personal those are left out that only people's needs open, and what is next.
    """
    from wellbook.planning.advice import people
    from wellbook.planning.cases import case_facts
    from wellbook.planning.due import outlook

    ahead, planner = outlook(record, catalogue, today), _planner(record, catalogue, today)
    who = people(record, today) if with_personal else frozenset()
    found: list[CaseFacts] = []
    for well in record.wells:
        points = record.points_of(well.id)
        known = {point.id: point_record(record, point.id, today) for point in points}
        dues = planner(well, known) if with_personal else {}
        found += case_facts(record, well, known, ahead, dues, who)
    return tuple(sorted(found, key=lambda one: one.closed is not None))


def _planner(record: Record, catalogue: Catalogue, today: date) -> Planner:
    from wellbook.planning.due import outlook, well_dues

    ahead = outlook(record, catalogue, today)
    return lambda well, known: well_dues(record, well, known, ahead)


def point_record(record: Record, point: int, today: date) -> PointRecord:
    """All results at a point, named by its number, up to a day."""
    results = (result for result in record.results(point) if result.collected.day <= today)
    return PointRecord.of(results, treatment_changes(record, point))


def treatment_changes(record: Record, point: int) -> tuple[date, ...]:
    """Days on which a treatment unit before a point came, went or was bypassed.

    Of a month or year both ends: tests between them may lie on either side.
    """
    found: set[date] = set()
    for place in (one for one in record.points if one.id == point and one.treated):
        for unit in record.units_of(place.well):
            if unit.place >= place.place:
                continue
            bypassed = (one for one in record.services_of(unit.id) if one.kind == _BYPASSED)
            written = (
                unit.installed,
                unit.removed,
                *(d for b in bypassed for d in (b.day, b.until)),
            )
            for day in filter(None, map(read_partial_date, written)):
                found |= {day.first, day.last}
    return tuple(sorted(found))


def _standings(
    record: PointRecord,
    catalogue: Catalogue,
    chosen: Sequence[str],
    today: date,
) -> tuple[Standing, ...]:
    return tuple(
        stand(record, parameter, catalogue, chosen, today)
        for key, parameter in catalogue.parameters.items()
        if key in record.histories
    )


def _unknown(record: PointRecord) -> tuple[str, ...]:
    return tuple(dict.fromkeys(result.name for result in record.history("")))
