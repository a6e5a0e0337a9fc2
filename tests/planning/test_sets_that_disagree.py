"""A reading above the strictest chosen limit is never told milder for another set beside it."""

from collections import defaultdict
from datetime import date, timedelta
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import ADVISED_KINDS, Limit, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline, judge_all

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 28)
# Above a limit by more than any set's rounding takes off.
OVER = Decimal("1.6")
# The limit is on a part of what a lab prints: more than the limit of all need not be more of it.
OF_A_PART = {"free", "inorganic", "net of uranium and radon"}
BY_PARAMETER: dict[str, list[Limit]] = defaultdict(list)
for one in CATALOGUE.limits:
    if CATALOGUE.sets[one.set].standing == "in force" and one.kind in ADVISED_KINDS:
        BY_PARAMETER[one.parameter].append(one)


def may_hold(limit: Limit, day: date) -> bool:
    """By the letters of its dates: a month or a year may begin and end on any of its days."""
    told = day.isoformat()
    begun = told[: len(limit.start)] >= limit.start
    return begun and (not limit.end or told[: len(limit.end)] <= limit.end)


def days_of_change(limits: list[Limit]) -> set[date]:
    """The days around each start and end, and one in the midst of those that are vague."""
    days = {TODAY}
    for told in {bound for limit in limits for bound in (limit.start, limit.end)} - {""}:
        first = date.fromisoformat(told + "-01-01"[len(told) - 4 :])
        days |= {first - timedelta(1), first}
        if len(told) < len("2026-11-28"):
            days.add(first + timedelta(14))
    return days


@pytest.mark.parametrize("family", sorted({p.family for p in CATALOGUE.parameters.values()}))
def test_over_a_limit_that_may_hold_no_other_set_makes_it_milder(family: str):
    milder = []
    for key, limits in BY_PARAMETER.items():
        parameter = CATALOGUE.parameters[key]
        if parameter.family != family:
            continue
        of_set = {one.set: [limit for limit in limits if limit.set == one.set] for one in limits}
        days = {name: days_of_change(of_set[name]) for name in of_set}
        for limit in limits:
            if limit.rule is not Rule.MAX or not limit.high:
                continue
            reading = read_reading(f"{limit.high * OVER:f}", unit=limit.unit, basis=limit.basis)
            result = Result(1, 1, key, parameter.name, reading, LocalTime(TODAY), point=1)
            judged: dict[int, Judgement] = {}
            right = {Verdict.OUTSIDE}
            if limit.condition in OF_A_PART:
                right.add(Verdict.UNDECIDABLE)
            for other in of_set:
                changes = {*days[limit.set], *days[other]}
                for day in (day for day in changes if may_hold(limit, day)):
                    chosen = (other, limit.set)
                    told = judge_all(result, CATALOGUE, chosen, day, beside=(), judged=judged)
                    if headline(told).verdict not in right:
                        milder.append((key, limit.set, other, day, headline(told).verdict))
    assert milder == []
