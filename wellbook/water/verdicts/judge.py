"""How a reading stands to a limit, on the sampling day and now.

The way of a verdict: is the reading fit to be compared (`caveats.not_comparable`), what may it
amount to in the limit's unit (`interpretations`), what does the plain comparison say (`compare`),
and what is left of that when draw, holding time and filter are weighed (`caveats.apply_caveats`).
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from operator import attrgetter

from wellbook.support.message import Message, message
from wellbook.water.units.basis import NoConversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import NEAR_SHARE, PENDING, Force, Limit
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.verdicts.caveats import apply_caveats, not_comparable
from wellbook.water.verdicts.compare import badness, compare
from wellbook.water.verdicts.interpretations import Possible, possible
from wellbook.water.verdicts.point_record import Assessed, PointRecord
from wellbook.water.verdicts.reasons import Reason

__all__ = [
    "NEAR_SHARE",
    "Assessed",
    "Judgement",
    "Verdict",
    "assess",
    "assess_today",
    "badness",
    "headline",
    "judge",
    "judge_all",
    "to_come",
]

IN_FORCE = "in force"
NO_LIMIT = Judgement(Verdict.NO_LIMIT)


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
    reason = not_comparable(result.reading)
    if reason:
        return Judgement(Verdict.UNDECIDABLE, limit, None, (reason,))
    try:
        found = possible(result, limit, parameter, beside)
    except NoConversion as problem:
        obstacle = message(problem.obstacle, **problem.facts)
        return Judgement(Verdict.UNDECIDABLE, limit, None, (obstacle,))
    verdict, value, reasons = _weigh(found, limit, near_share)
    verdict, remarks = apply_caveats(verdict, result, limit, parameter)
    return Judgement(verdict, limit, value, (*reasons, *remarks))


def judge_all(
    result: Result,
    catalogue: Catalogue,
    sets: Sequence[str],
    on: date,
    *,
    beside: Collection[Result],
    judged: dict[int, Judgement] | None = None,
) -> tuple[Judgement, ...]:
    """Hold a result against every limit of the sets that was in force or adopted on a day.

    What it is `judged` by a limit of the catalogue is kept there, for another day. What lies
    `beside` it in its sample is gone through only by a limit that asks for it.
    """
    parameter = catalogue.parameters.get(result.parameter)
    if parameter is None:
        return ()
    share = catalogue.near_share
    known = {} if judged is None else judged

    def hold(limit: Limit) -> Judgement:
        if id(limit) not in known:
            known[id(limit)] = judge(result, limit, parameter, beside=beside, near_share=share)
        return known[id(limit)]

    in_force = (
        _dated(hold(limit), on, force)
        for limit, force in _held(result.parameter, catalogue, sets, on)
    )
    adopted = (
        as_adopted(hold(limit))
        for limit in limits_adopted(result.parameter, catalogue, sets, on)
        if result.reading.is_detect
    )
    return (*in_force, *filter(None, adopted))


def limits_in_force(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """The limits on a parameter that held, or may have held, on a day, in the order of the sets."""
    return tuple(limit for limit, _force in _held(parameter, catalogue, sets, on))


def _held(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[tuple[Limit, Force], ...]:
    """The same, each with whether it is sure that it held; found once for a stretch of days."""

    def find() -> tuple[tuple[Limit, Force], ...]:
        held = (
            (limit, force)
            for limit in catalogue.limits_of(parameter)
            if limit.set in sets and catalogue.sets[limit.set].standing == IN_FORCE
            if (force := limit.in_force(on)) is not Force.NO
        )
        return tuple(sorted(held, key=lambda pair: sets.index(pair[0].set)))

    stretch = catalogue.stretch(parameter, on)
    return catalogue.once(("held", parameter, tuple(sets), stretch), find)


def limits_adopted(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """The limits on a parameter that were adopted on a day and start later.

    A set's limits to come count once a row of the set of adopted limits covers the day.
    """

    def find() -> tuple[Limit, ...]:
        limits = catalogue.limits_of(parameter)
        adopted = {
            (limit.set, limit.high)
            for limit in limits
            if limit.set.endswith(PENDING) and limit.in_force(on) is not Force.NO
        }
        coming = (
            limit
            for limit in limits
            if limit.set in sets and (f"{limit.set}{PENDING}", limit.high) in adopted
            if (start := limit.period.start) and start.first > on
        )
        return tuple(sorted(coming, key=lambda limit: sets.index(limit.set)))

    stretch = catalogue.stretch(parameter, on)
    return catalogue.once(("adopted", parameter, tuple(sets), stretch), find)


def as_adopted(judgement: Judgement) -> Judgement | None:
    """What a comparison with a limit to come amounts to; None if the limit would be met."""
    if judgement.verdict is Verdict.OUTSIDE:
        return replace(judgement, verdict=Verdict.ADOPTED)
    return judgement if judgement.verdict is Verdict.UNDECIDABLE else None


def headline(judgements: Iterable[Judgement], none: Judgement = NO_LIMIT) -> Judgement:
    """The judgement to name first, the most urgent of them; `none` where there is none."""
    return min(judgements, key=attrgetter("urgency"), default=none)


def _without_limit(catalogue: Catalogue, sets: Sequence[str]) -> Judgement:
    """What is said without a limit: a set that is kept only in part may have one after all."""
    partial = [catalogue.sets[key].name for key in sets if not catalogue.sets[key].whole]
    if not partial:
        return NO_LIMIT
    return replace(NO_LIMIT, reasons=(message(Reason.PARTIAL_SET, sets=tuple(partial)),))


def assess(
    results: Iterable[Result],
    record: PointRecord,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> tuple[Assessed, ...]:
    """Both verdicts of each result, by the limits of its sampling day and by those of today.

    This and `assess_today` are the only doors to a verdict that people see: each result is judged
    beside its whole sample, because some can't be judged alone (gross alpha needs the sample's
    uranium).

    Args:
        results: Results to judge, all of them in `record`.
        record: Every result of their samples.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
    """
    found, none = [], _without_limit(catalogue, sets)
    for result in results:
        beside, day = record.samples[result.sample], result.collected.day
        judged: dict[int, Judgement] = {}
        all_then, all_now = (
            judge_all(result, catalogue, sets, on, beside=beside, judged=judged)
            for on in (day, today)
        )
        then, now = headline(all_then, none), headline(all_now, none)
        found.append(Assessed(result, _with_unknown_start(then, day, today), now, all_now))
    return tuple(found)


def assess_today(
    results: Iterable[Result],
    record: PointRecord,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> tuple[Judgement, ...]:
    """The second verdict of each result, where nobody asks for the first; arguments as `assess`."""
    none = _without_limit(catalogue, sets)
    judged = (
        judge_all(one, catalogue, sets, today, beside=record.samples[one.sample]) for one in results
    )
    return tuple(headline(all_now, none) for all_now in judged)


def to_come(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], on: date
) -> tuple[Limit, ...]:
    """Limits known to come: of the sets with a later start, and pending or proposed in them."""
    return tuple(
        limit
        for limit in catalogue.limits_of(parameter)
        if limit.set in sets
        if ((start := limit.period.start) and start.first > on)
        or (
            catalogue.sets[limit.set].standing in {"pending", "proposed"}
            and limit.in_force(on) is not Force.NO
        )
    )


def _with_unknown_start(then: Judgement, day: date, today: date) -> Judgement:
    """Say of an earlier day's limit that its start is not known, where it is not."""
    if then.limit and not then.limit.start and day < today:
        return _adding(then, message(Reason.START_NOT_KNOWN))
    return then


def _weigh(
    found: Possible, limit: Limit, near_share: Decimal
) -> tuple[Verdict, Decimal | None, tuple[Message, ...]]:
    """The verdict on all that a reading may amount to: outside only if every figure is."""
    weighed = [(*compare(figure, limit, near_share), figure) for figure in found.figures]
    verdict, reason, figure = max(weighed, key=lambda one: (badness(one[0]), one[2].value or 0))
    if any(other is not verdict for other, _unused, __ in weighed) and verdict is Verdict.OUTSIDE:
        return Verdict.UNDECIDABLE, None, found.doubt
    return verdict, figure.value, (*filter(None, [reason]), *figure.assumed)


def _dated(judgement: Judgement, on: date, force: Force) -> Judgement:
    """Say which date of the limit is too vague to tell that it held on a day, if one is."""
    limit = judgement.limit
    if limit is None or force is Force.YES:
        return judgement
    has_begun = limit.period._replace(end=None).covers(on)
    bound = limit.end if has_begun else limit.start
    return _adding(judgement, message(Reason.VAGUE_DATE, date=bound))


def _adding(judgement: Judgement, reason: Message) -> Judgement:
    return replace(judgement, reasons=(*judgement.reasons, reason))
