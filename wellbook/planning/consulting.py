"""What a consultant asks: where it may come from, what serves, what more tests would tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import TYPE_CHECKING

from wellbook.book.record import Record
from wellbook.planning.overview import PointOverview, WellOverview, point_record
from wellbook.support import paths
from wellbook.water.statistics.outcomes import Direction, Outlook
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing

if TYPE_CHECKING:
    from wellbook.water.cautions.treatment_fit import Fit, Methods
    from wellbook.water.chemistry.salt_sources import SourceHint

OPEN = frozenset({Direction.FEW, Direction.MAYBE_SEASON})


@dataclass(frozen=True, slots=True)
class Consulted:
    """What the record of one point of raw water tells a consultant.

    Attributes:
        hints: Where salt and nitrate may come from, each with the day of its sample.
        fits: What serves for what is over a limit, the most urgent first.
        missing: What a treatment is sized by and was never tested here.
    """

    hints: "tuple[tuple[date, SourceHint], ...]"
    fits: "tuple[Fit, ...]"
    missing: tuple[Parameter, ...]


def consulted(point: PointOverview, record: PointRecord, catalogue: Catalogue) -> Consulted:
    """What one point tells; of treated water nothing, as a unit has changed it."""
    from wellbook.water.cautions.treatment_fit import SIZING_INPUTS, fits, latest_of
    from wellbook.water.chemistry.salt_sources import latest_hints

    if point.point.treated:
        return Consulted((), (), ())
    latest = latest_of(record.histories, catalogue)
    return Consulted(
        latest_hints(map(tuple, record.samples.values()), catalogue),
        fits(point.by_urgency, latest, _methods(), catalogue),
        tuple(catalogue.parameters[key] for key in SIZING_INPUTS if key not in latest),
    )


def hints_of(found: Consulted, key: str) -> "tuple[SourceHint, ...]":
    """The hints that are about one parameter."""
    return tuple(hint for _day, hint in found.hints if key in hint.about)


def power(standing: Standing, record: PointRecord) -> Outlook | None:
    """How many more tests would tell a trend that too few tests, or the season, leave open.

    Only of what has a limit, and None where nothing can be foretold.
    """
    if standing.trend.says not in OPEN or standing.now.limit is None:
        return None
    from wellbook.water.statistics.trend_power import outlook

    found = outlook(record.history(standing.parameter.key), standing.parameter, standing.trend)
    return found if found.pace is not None else None


def powers(
    record: Record, wells: Sequence[WellOverview], today: date
) -> dict[tuple[int, str], Outlook]:
    """How many more tests would tell, by point and parameter, wherever that is open."""
    found = {}
    for point in (one for well in wells for one in well.points):
        if not any(one.trend.says in OPEN and one.now.limit for one in point.standings):
            continue
        known = point_record(record, point.point.id, today)
        for standing in point.standings:
            more = power(standing, known)
            if more:
                found[point.point.id, standing.parameter.key] = more
    return found


@cache
def _methods() -> "Methods":
    from wellbook.water.cautions.treatment_fit import read_methods

    return read_methods(paths.resources())
