"""How a reading stands to a limit, on the sampling day and now.

The way of a verdict: is the reading fit to be compared (`reservations.unfit`), what may it amount
to in the limit's unit (`possible`), what does the plain comparison say (`rules`), and what is left
of that when the draw, the holding time and the filter are weighed (`reservations.reserve`).
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from wellbook.tongue import say
from wellbook.water.basis import NoConversion
from wellbook.water.catalogue import Catalogue
from wellbook.water.judgement import Judgement, Verdict
from wellbook.water.limits import Force, Limit, LimitKind
from wellbook.water.parameters import Parameter
from wellbook.water.possible import Possible, possible
from wellbook.water.reservations import reserve, unfit
from wellbook.water.results import Result
from wellbook.water.rules import HEALTH_KINDS, NEAR_SHARE, badness, compare

__all__ = [
    "NEAR_SHARE",
    "Judgement",
    "Verdict",
    "badness",
    "headline",
    "judge",
    "judge_all",
    "then_and_now",
    "to_come",
]

IN_FORCE = "in force"
_KIND_ORDER = tuple(LimitKind)


def judge(
    result: Result,
    limit: Limit,
    parameter: Parameter,
    *,
    beside: Iterable[Result],
    near_share: Decimal = NEAR_SHARE,
) -> Judgement:
    """Hold one result against one limit, whatever its dates.

    Args:
        result: The result.
        limit: A limit of the same parameter.
        parameter: Their parameter.
        beside: The other results of the same sample; only gross alpha asks them, for uranium.
        near_share: Share of a health limit from which on a reading is called near.
    """
    reason = unfit(result.reading)
    if reason:
        return Judgement(Verdict.UNDECIDABLE, limit, None, reason)
    try:
        found = possible(result, limit, parameter, beside)
    except NoConversion as problem:
        return Judgement(Verdict.UNDECIDABLE, limit, None, str(problem))
    verdict, value, why = _weigh(found, limit, near_share)
    verdict, remarks = reserve(verdict, result, limit, parameter)
    return Judgement(verdict, limit, value, " ".join(filter(None, (why, remarks))))


def judge_all(
    result: Result,
    catalogue: Catalogue,
    sets: Sequence[str],
    on: date,
    *,
    beside: Iterable[Result],
) -> tuple[Judgement, ...]:
    """Hold a result against every limit of the sets that was in force on a day."""
    parameter = catalogue.parameters.get(result.parameter)
    if parameter is None:
        return ()
    others = tuple(beside)
    return tuple(
        _dated(judge(result, limit, parameter, beside=others), force)
        for limit in catalogue.limits_of(result.parameter)
        if limit.set in sets and catalogue.sets[limit.set].standing == IN_FORCE
        if (force := limit.in_force(on)) is not Force.NO
    )


def headline(judgements: Iterable[Judgement]) -> Judgement:
    """The judgement to name first: health before the rest, bad before doubtful before good."""
    return min(judgements, key=_rank, default=Judgement(Verdict.NO_LIMIT))


def then_and_now(
    result: Result,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    *,
    beside: Iterable[Result],
) -> tuple[Judgement, Judgement]:
    """The headline by the limits of the sampling day, and by those of today."""
    others = tuple(beside)
    days = (result.collected.day, today)
    then, now = (headline(judge_all(result, catalogue, sets, day, beside=others)) for day in days)
    if then.limit and not then.limit.start and result.collected.day < today:
        then = _adding(then, say("Since when this limit holds is not known."))
    return then, now


def to_come(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """Limits known to come: of the sets with a later start, and pending or proposed in them."""
    day = on.isoformat()
    return tuple(
        limit
        for limit in catalogue.limits_of(parameter)
        if limit.set in sets
        if limit.start > day
        or (
            catalogue.sets[limit.set].standing in {"pending", "proposed"}
            and limit.in_force(on) is not Force.NO
        )
    )


def _weigh(
    found: Possible, limit: Limit, near_share: Decimal
) -> tuple[Verdict, Decimal | None, str]:
    """The verdict on all that a reading may amount to: outside only if every figure is."""
    weighed = [(*compare(figure, limit, near_share), figure) for figure in found.figures]
    verdict, why, figure = max(weighed, key=lambda one: (badness(one[0]), one[2].value or 0))
    if any(other is not verdict for other, _, __ in weighed) and verdict is Verdict.OUTSIDE:
        return Verdict.UNDECIDABLE, None, found.doubt
    return verdict, figure.value, " ".join(filter(None, (why, figure.assumed)))


def _dated(judgement: Judgement, force: Force) -> Judgement:
    limit = judgement.limit
    if force is Force.YES or limit is None:
        return judgement
    bound = limit.start if len(limit.start) in {4, 7} else limit.end
    said = say(
        "The limit's date is known only as {date}, so it may not have held on that day.", date=bound
    )
    return _adding(judgement, said)


def _adding(judgement: Judgement, sentence: str) -> Judgement:
    return replace(judgement, why=f"{judgement.why} {sentence}".strip())


def _rank(judgement: Judgement) -> tuple[int, int, Decimal]:
    limit = judgement.limit
    if limit is None:
        return (6, 0, Decimal(0))
    health = limit.kind in HEALTH_KINDS
    place = {
        (Verdict.OUTSIDE, True): 0,
        (Verdict.UNDECIDABLE, True): 1,
        (Verdict.NEAR, True): 2,
        (Verdict.OUTSIDE, False): 3,
        (Verdict.UNDECIDABLE, False): 4,
    }.get((judgement.verdict, health), 5)
    return (place, _KIND_ORDER.index(limit.kind), -_share(judgement, limit))


def _share(judgement: Judgement, limit: Limit) -> Decimal:
    if judgement.value is None or not limit.high:
        return Decimal(0)
    return judgement.value / limit.high
