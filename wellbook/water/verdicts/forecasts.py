"""When a rising or falling parameter reaches the limits of a household's sets."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.water.statistics.outcomes import Crossing, Trend, Way
from wellbook.water.units import conversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import Force, Limit, LimitKind, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.judge import IN_FORCE

_RANK = tuple(LimitKind)


@dataclass(frozen=True, slots=True)
class Forecast:
    """When a line reaches one limit.

    Attributes:
        crossing: What it does there and when, with its interval.
        limit: The limit.
        unit: Unit and basis of `crossing.limit`.
        n: Tests it rests on.
    """

    crossing: Crossing
    limit: Limit
    unit: str
    n: int


def forecasts(
    found: Trend, parameter: Parameter, catalogue: Catalogue, sets: Sequence[str], today: date
) -> tuple[Forecast, ...]:
    """Each limit in force today that the trend's line reaches, the weightiest first.

    There are none without a trend, under eight tests, where season or dependence may be the
    reason, and further ahead than the tests look back.
    """
    if found.course is None:
        return ()
    from wellbook.water.statistics.forecast import crossing

    told = []
    for limit in catalogue.limits_of(parameter.key):
        if limit.set not in sets or catalogue.sets[limit.set].standing != IN_FORCE:
            continue
        if limit.in_force(today) is not Force.YES:
            continue
        for figure, is_floor in ends_of(limit, parameter):
            reached = crossing(found.course, figure)
            if reached and _tells(reached, is_floor=is_floor):
                told.append(Forecast(reached, limit, found.unit, found.n))
    told.sort(key=lambda one: (_RANK.index(one.limit.kind), one.crossing.day))
    return tuple(told)


def _tells(reached: Crossing, *, is_floor: bool) -> bool:
    """A floor is left by falling; rising to it from below is good news that a range tells too."""
    return not is_floor or reached.says is Way.FALLS_BELOW


def highest_end(limit: Limit | None, parameter: Parameter) -> float | None:
    """The highest figure that a limit allows, in the unit of the trend; None where it has none."""
    ends = ends_of(limit, parameter) if limit else ()
    return max((figure for figure, is_floor in ends if not is_floor), default=None)


def ends_of(limit: Limit, parameter: Parameter) -> Iterator[tuple[float, bool]]:
    """The ends of a limit in the unit of the trend, and whether each is a lower end."""
    if limit.rule is Rule.ABSENT:
        return
    ends = [(limit.high, False)]
    if limit.rule is Rule.RANGE:
        ends.append((limit.low, True))
    for number, is_floor in ends:
        if number is None:
            continue
        try:
            figure = conversion.convert(
                number, limit.unit, limit.basis, *parameter.shown_in, parameter
            ).number
        except conversion.NoConversion:
            continue
        yield float(figure), is_floor
