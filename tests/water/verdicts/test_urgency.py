"""One order of what needs attention; worse water never takes a lower place."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import pairwise, product

import pytest
from alone import then_and_now

from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import ADVISED_KINDS, HEALTH_KINDS, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
LIMIT = CATALOGUE.limits_of("copper")[0]
WORST_FIRST = (Verdict.OUTSIDE, Verdict.UNDECIDABLE, Verdict.NEAR, Verdict.WITHIN)
SHARES = [Decimal(share) for share in ("0", "0.1", "0.5", "0.79", "0.8", "1", "1.01", "2", "50")]


def judged(verdict, kind):
    return Judgement(verdict, replace(LIMIT, kind=kind))


@pytest.mark.parametrize("kind", list(LimitKind))
def test_of_one_limit_the_worse_verdict_comes_first(kind):
    for worse, milder in pairwise(WORST_FIRST):
        assert judged(worse, kind).urgency < judged(milder, kind).urgency


@pytest.mark.parametrize("verdict", WORST_FIRST[:3])
def test_of_one_verdict_health_comes_before_taste(verdict):
    for health, other in product(HEALTH_KINDS, set(LimitKind) - HEALTH_KINDS):
        assert judged(verdict, health).urgency < judged(verdict, other).urgency


def test_what_is_over_any_limit_comes_before_what_is_only_close_to_one():
    for over, close in product(LimitKind, LimitKind):
        assert judged(Verdict.OUTSIDE, over).urgency < judged(Verdict.NEAR, close).urgency
        pair = (judged(Verdict.NEAR, close), judged(Verdict.OUTSIDE, over))
        assert headline(pair).verdict is Verdict.OUTSIDE


@pytest.mark.parametrize("kind", sorted(ADVISED_KINDS))
def test_what_is_surely_over_a_level_that_can_harm_comes_before_what_cant_be_told(kind):
    for undecided, other in product(LimitKind, set(LimitKind) - ADVISED_KINDS):
        over = judged(Verdict.OUTSIDE, kind)
        assert over.can_harm
        assert over.urgency < judged(Verdict.UNDECIDABLE, undecided).urgency
        assert over.urgency < judged(Verdict.OUTSIDE, other).urgency
        assert not judged(Verdict.OUTSIDE, other).can_harm


def test_what_must_be_absent_comes_before_any_figure_over_a_limit_of_its_kind():
    bacteria = next(one for one in CATALOGUE.limits_of("e_coli") if one.rule is Rule.ABSENT)
    nitrate = replace(LIMIT, kind=bacteria.kind)
    tenfold = Judgement(Verdict.OUTSIDE, nitrate, nitrate.high * 10)
    assert Judgement(Verdict.OUTSIDE, bacteria).urgency < tenfold.urgency


@pytest.mark.parametrize("milder", ["6.4", "6.0", "5.1"])
def test_the_farther_below_a_range_the_earlier(milder):
    acid = next(one for one in CATALOGUE.limits_of("ph") if one.low == Decimal("6.5"))
    worse, milder = Decimal("4.2"), Decimal(milder)
    assert (
        Judgement(Verdict.OUTSIDE, acid, worse).urgency
        < Judgement(Verdict.OUTSIDE, acid, milder).urgency
    )


def result(parameter, number, limit):
    reading = Reading(
        str(number), Kind.NUMBER, number, limit.unit, limit.basis, limit.fraction, frozenset()
    )
    draw = limit.condition if limit.condition == "first draw" else ""
    return Result(1, 1, parameter, parameter, reading, LocalTime(TODAY), 1, draw=draw)


@pytest.mark.parametrize("parameter", sorted(CATALOGUE.parameters))
def test_a_higher_figure_never_takes_a_lower_place_by_any_choice_of_sets(parameter):
    """Held against each set that limits it alone and against all, at figures about each maximum."""
    limits = CATALOGUE.limits_of(parameter)
    maxima = [limit for limit in limits if limit.rule is Rule.MAX]
    ranged = any(limit.rule is Rule.RANGE for limit in limits)
    choices = [(key,) for key in sorted({limit.set for limit in limits})]
    choices.append(tuple(CATALOGUE.sets))
    for limit, sets in product(maxima, choices):
        figures = [share * (limit.high or 1) for share in SHARES]
        places = [
            then_and_now(result(parameter, figure, limit), CATALOGUE, sets, TODAY)[1].urgency[0]
            for figure in figures
        ]
        if not ranged:  # a range is met again on the way up
            assert places == sorted(places, reverse=True), (sets, limit.high, places)
