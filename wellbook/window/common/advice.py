"""What to say about the water of a point, worked out over all its latest readings together."""

from collections.abc import Sequence

from wellbook.book.rows import NewSample
from wellbook.planning.advice import advice_at, advice_on, people, situations
from wellbook.planning.overview import PointOverview
from wellbook.planning.place.whom_to_ask import of_the_place
from wellbook.support.translation import _
from wellbook.water.cautions.advice import Advice
from wellbook.water.cautions.findings import Finding
from wellbook.water.sampling.due import PanelDue
from wellbook.window.common.household import Household
from wellbook.window.common.words import day_words
from wellbook.wording.reference import listed


def advice(
    point: PointOverview, points: Sequence[PointOverview], household: Household
) -> tuple[Advice, ...]:
    """The cautions that apply at a point, one of the `points` of its well; urgent ones first."""
    who = people(household.outline, household.today)
    return advice_at(point, points, household.cautions, who, household.today)


def pressing(
    point: PointOverview, points: Sequence[PointOverview], household: Household
) -> tuple[str, ...]:
    """What stands first on the overview: what happened, and what the water asks of people."""
    happened = situations(
        household.outline, point.point.well, (point,), household.cautions, household.today
    )
    said = filter(_presses, advice(point, points, household))
    return (
        *(" ".join((one.text, *one.steps)) for one in happened),
        *map(_line, said),
        *(_next_step(one) for one in point.due if one.case),
    )


def of_sample(sample: NewSample, household: Household) -> tuple[str, ...]:
    """What a sample that is about to be kept asks of people."""
    said = advice_on(
        sample, household.record, household.catalogue, household.cautions, household.today
    )
    return tuple(_line(one) for one in said if _presses(one))


def _line(one: Advice) -> str:
    """What is said with what it is about, which is named once."""
    if one.text.startswith(f"{listed(one.names)}: "):
        return one.text
    return f"{', '.join(one.names)}: {one.text}"


def _presses(one: Advice) -> bool:
    return one.urgent or bool(one.people) or one.finding >= Finding.ADOPTED


def _next_step(due: PanelDue) -> str:
    """What an open case asks for, and by when."""
    return _("What to do next: {step}, by {day}.").format(
        step=due.panel.name, day=day_words(due.due)
    )


def lines(advices: Sequence[Advice], household: Household, parameter: str = "") -> tuple[str, ...]:
    """The cautions in lines, those about one parameter only if it is named."""
    meant = [one for one in advices if not parameter or parameter in one.names]
    said = [_line(one) for one in meant]
    cautions = of_the_place(household.cautions, household.record.settings)
    return (*said, " ".join(cautions.general)) if said else ()
