"""What to say about the water of a point, worked out over all its latest readings together."""

from collections.abc import Sequence

from wellbook.planning.overview import PointOverview
from wellbook.planning.settings import sets
from wellbook.water.verdicts.cautions import DIET, INFANT, PREGNANCY, Advice, Judged, resolve
from wellbook.window.common.household import Household

PEOPLE = (INFANT, PREGNANCY, DIET)


def people(household: Household) -> frozenset[str]:
    """Who of those that need more care drinks the water. Private."""
    return frozenset(household.record.settings.get("people", "").split()) & frozenset(PEOPLE)


def advice(point: PointOverview, household: Household) -> tuple[Advice, ...]:
    """The cautions that apply at a point, urgent ones first."""
    judged = [Judged(s.parameter, s.latest.reading, s.now) for s in point.standings]
    chosen = sets(household.record.settings, household.catalogue)
    return resolve(judged, household.catalogue, chosen, household.cautions, people(household))


def lines(advices: Sequence[Advice], household: Household, parameter: str = "") -> tuple[str, ...]:
    """The cautions in lines, those about one parameter only if it is named."""
    meant = [one for one in advices if not parameter or parameter in one.names]
    said = [f"{', '.join(one.names)}: {one.text}" for one in meant]
    return (*said, " ".join(household.cautions.general)) if said else ()
