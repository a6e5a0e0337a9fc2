"""Before and after an event: rank sums against scipy, and what is said."""

import math
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from in_words import said
from scipy import stats

from wellbook.support import paths
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.statistics.step_change import rank_sum, step_change
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

PARAMETERS = read_catalogue(paths.resources()).parameters
CHLORIDE = PARAMETERS["chloride"]
EVENT = date(2010, 6, 1)


def exact(figures):
    return [CensoredValue(0, y, y) for y in figures]


def history(before, after, months=7):
    days = [EVENT - timedelta(days=30 * months * (k + 1)) for k in range(len(before.split()))]
    days += [EVENT + timedelta(days=30 * months * (k + 1)) for k in range(len(after.split()))]
    return [
        Result(
            0, 0, "chloride", "Chloride",
            Reading(
                word,
                Kind.BELOW if word[0] == "<" else Kind.NUMBER,
                Decimal(word.strip("<")),
                "mg/L",
            ),
            LocalTime(day), 1,
        )
        for word, day in zip(before.split() + after.split(), days, strict=True)
    ]  # fmt: skip


figures = st.lists(st.integers(0, 200), min_size=3, max_size=9, unique=True)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.integers(0, 500), min_size=7, max_size=18, unique=True), st.integers(3, 4))
def test_exact_p_without_ties_is_that_of_scipy(values, size):
    before, after = values[:size], values[size:]
    ours = rank_sum(exact(before), exact(after))
    theirs = stats.mannwhitneyu(after, before, method="exact")
    assert ours.exact
    assert ours.score == 2 * theirs.statistic - len(before) * len(after)
    assert ours.p == pytest.approx(theirs.pvalue)


def test_many_figures_with_ties_give_scipys_normal_p():
    before = [k % 7 for k in range(20)]
    after = [k % 5 + 2 for k in range(25)]
    ours = rank_sum(exact(before), exact(after))
    theirs = stats.mannwhitneyu(after, before, method="asymptotic", use_continuity=True)
    assert not ours.exact
    assert ours.p == pytest.approx(theirs.pvalue, rel=1e-9)


def test_the_shift_is_the_median_of_all_differences():
    before, after = [1.0, 2.0, 4.0], [5.0, 9.0, 6.0, 10.0]
    differences = sorted(b - a for a in before for b in after)
    assert rank_sum(exact(before), exact(after)).shift.rate == (differences[5] + differences[6]) / 2


def test_exact_p_with_non_detects_counts_every_split():
    # Four detections all after, four non-detects all before: one split of 70, and its mirror.
    before = [CensoredValue(0, -math.inf, 1.0)] * 4
    ours = rank_sum(before, exact([2, 3, 4, 5]))
    assert ours.p == pytest.approx(2 / 70)


def test_a_softer_limit_before_the_event_makes_no_change():
    before = [CensoredValue(0, -math.inf, 10.0)] * 5
    after = [CensoredValue(0, -math.inf, 1.0)] * 5
    assert rank_sum(before, after).p == 1


@settings(max_examples=40, deadline=None)
@given(figures, figures)
def test_swapping_before_and_after_turns_the_sign_only(one, other):
    there, back = rank_sum(exact(one), exact(other)), rank_sum(exact(other), exact(one))
    assert there.score == -back.score
    assert there.p == pytest.approx(back.p)
    assert there.shift.rate == pytest.approx(-back.shift.rate)


def test_road_salt_after_the_event_is_said_with_its_shift():
    found = step_change(history("20 22 19 24", "60 75 58 66 71"), CHLORIDE, EVENT)
    assert (found.says, found.before, found.after) == ("higher", 4, 5)
    assert found.low < found.shift < found.high
    assert said(found).startswith("Higher afterwards in 4 tests before and 5 after, by about ")


def test_two_tests_after_are_too_few():
    found = step_change(history("20 22 19 24", "60 75"), CHLORIDE, EVENT)
    assert (found.says, found.p) == ("too few tests", None)
    assert "4 tests before and 2 after" in said(found)


def test_the_day_of_the_event_counts_for_neither_side():
    results = history("20 22 19", "21 20 23")
    results.append(history("", "999", months=0)[0])
    found = step_change(results, CHLORIDE, EVENT)
    assert (found.before, found.after) == (3, 3)


def test_winter_before_and_summer_after_gets_a_caution():
    results = history("20 22 19", "60 75 58", months=10)
    assert "different seasons" not in said(step_change(results, CHLORIDE, EVENT))
    moved = [
        Result(0, 0, "chloride", "Chloride", r.reading, LocalTime(day), 1)
        for r, day in zip(
            results,
            [date(y, 1, 9) for y in (2007, 2008, 2009)]
            + [date(y, 7, 9) for y in (2010, 2011, 2012)],
            strict=True,
        )
    ]
    assert "different seasons" in said(step_change(moved, CHLORIDE, EVENT))
