"""Which limits of a household's sets a reading is held against on a day."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Force, Limit

IN_FORCE = "in force"
_PENDING = "-pending"  # the set of a set's limits from their adoption until their start


def limits_in_force(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """The limits on a parameter that held, or may have held, on a day."""
    return tuple(
        limit
        for limit in catalogue.limits_of(parameter)
        if limit.set in sets and catalogue.sets[limit.set].standing == IN_FORCE
        if limit.in_force(on) is not Force.NO
    )


def limits_adopted(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """The limits on a parameter that were adopted on a day and start later.

    A set's limits to come count once a row of the set of adopted limits covers the day.
    """
    limits = catalogue.limits_of(parameter)
    adopted = {
        (limit.set, limit.high)
        for limit in limits
        if limit.set.endswith(_PENDING) and limit.in_force(on) is not Force.NO
    }
    return tuple(
        limit
        for limit in limits
        if limit.set in sets and (f"{limit.set}{_PENDING}", limit.high) in adopted
        if (start := limit.period.start) and start.first > on
    )


def as_adopted(judgement: Judgement) -> Judgement | None:
    """What a comparison with a limit to come amounts to; None if the limit would be met."""
    if judgement.verdict is Verdict.OUTSIDE:
        return replace(judgement, verdict=Verdict.ADOPTED)
    return judgement if judgement.verdict is Verdict.UNDECIDABLE else None
