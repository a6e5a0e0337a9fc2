"""A yearly cycle must not make a trend, and must not hide one.

Referees: least squares, Student's t and normal scores of scipy; made-up histories whose truth is
known. The whole tables are made on demand by `tests/bench/test_seasons_and_trends.py`.
"""

import math
import random
from datetime import date

import numpy as np
import pytest
from made_up_histories import days_of, made_up
from scipy import optimize, stats

from wellbook.water.statistics.season.beside_season import beside_season, normal_scores
from wellbook.water.statistics.season.censored_fit import completed
from wellbook.water.statistics.season.guarded_test import guarded_test
from wellbook.water.statistics.season.serial_dependence import (
    next_test_correlation,
    raised,
    variance_factor,
)
from wellbook.water.statistics.season.student_t import student_p, student_t
from wellbook.water.statistics.season.time_of_year import false_alarms, times_of, yearly_cycle
from wellbook.water.statistics.series import CensoredValue, Series, span_on


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 7, 8, 25, 40])
@pytest.mark.parametrize("t", [0.0, 0.3, 1.0, 2.5, 9.0])
def test_students_t_is_that_of_scipy(freedom, t):
    assert student_p(t, freedom) == pytest.approx(2 * stats.t.sf(t, freedom), abs=1e-12)
    assert student_p(-t, freedom) == student_p(t, freedom)


@pytest.mark.parametrize("freedom", [1, 2, 5, 30])
def test_the_critical_t_is_that_of_scipy(freedom):
    assert student_t(0.1, freedom) == pytest.approx(stats.t.isf(0.05, freedom))


def test_students_t_needs_a_degree_of_freedom():
    with pytest.raises(ValueError, match="degree of freedom"):
        student_p(1, 0)


def design(times):
    turns = [math.tau * at for at in times]
    return np.column_stack([np.ones(len(times)), np.cos(turns), np.sin(turns)])


def test_the_cycle_is_taken_off_as_least_squares_do():
    chance = random.Random(2)
    times = tuple(sorted(chance.uniform(2000, 2012) for _ in range(11)))
    figures = [chance.gauss(5, 2) for _ in times]
    waves = design(times)
    fitted = waves @ np.linalg.lstsq(waves, np.array(figures), rcond=None)[0]
    assert yearly_cycle(times).without(figures) == pytest.approx(figures - fitted)


def test_time_that_walks_half_round_the_year_is_nearly_all_season():
    """Six tests thirteen months apart meet six months in a row; six of a same day meet one."""
    walked = yearly_cycle(tuple(2000 + k * 13 / 12 for k in range(6)))
    stayed = yearly_cycle(tuple(2000.0 + k for k in range(6)))
    assert walked.share > 0.95
    assert (stayed.share, stayed.pull) == pytest.approx((0, 0), abs=1e-6)


def test_false_alarms_tell_days_that_mislead_from_days_that_do_not():
    """A steady well with a large cycle is called rising in half of the thirteen-month histories."""
    assert max(false_alarms(tuple(2000 + k * 13 / 12 for k in range(8)), 0)) > 0.4
    assert max(false_alarms(tuple(2000.0 + k for k in range(8)), 0)) < 0.12


def test_normal_scores_are_blom_scores_of_the_ranks():
    """Blom (1958): the normal quantile of (rank - 3/8) / (n + 1/4)."""
    spans = [CensoredValue(k, y, y) for k, y in enumerate((3.0, 1.0, 2.0))]
    expected = stats.norm.ppf((np.array([3, 1, 2]) - 0.375) / 3.25)
    assert normal_scores(spans) == pytest.approx(list(expected))


def test_bounds_are_filled_in_where_the_censored_likelihood_is_highest():
    """scipy maximises the likelihood of the same model; the fitted cycle must be its."""
    days = days_of("14 months", 24, random.Random(1))
    spans = made_up(days, random.Random(4), cycle=2, undetected=0.3).spans
    cycle = yearly_cycle(times_of(spans))
    matrix = np.column_stack([design(times_of(spans)), cycle.rest])
    lows, highs = (np.array([getattr(s, end) for s in spans]) for end in ("low", "high"))
    exact = lows == highs

    def unlikely(x):
        line, spread = matrix @ x[:-1], math.exp(x[-1])
        seen = stats.norm.logpdf(lows[exact], line[exact], spread).sum()
        return -seen - stats.norm.logcdf((highs - line)[~exact] / spread).sum()

    best = optimize.minimize(unlikely, np.zeros(5), method="BFGS").x
    ours = completed(spans, cycle)
    line = np.array(ours) - cycle.without(ours)
    theirs = matrix[:, :3] @ best[:3]
    assert np.ptp(line - theirs) < 0.15 * np.ptp(theirs)


def test_beside_a_cycle_a_clean_slope_is_found_whatever_the_cycle():
    days = days_of("14 months", 12, random.Random(1))
    quiet = [span_on(d, y, y) for d, y in zip(days, (0.3 * k for k in range(12)), strict=True)]
    loud = [
        CensoredValue(
            s.at, s.low + 9 * math.sin(math.tau * s.at), s.low + 9 * math.sin(math.tau * s.at)
        )
        for s in quiet
    ]
    yearly = 0.3 * 12 / 14
    assert beside_season(loud).slope.rate == pytest.approx(yearly, rel=0.05)
    assert beside_season(quiet).slope.rate == pytest.approx(yearly, rel=0.05)


@pytest.mark.parametrize("seed", range(30))
def test_the_interval_beside_a_cycle_agrees_with_its_test(seed):
    chance = random.Random(seed)
    days = days_of("14 months, late", 9 + seed % 8, chance)
    found = beside_season(
        made_up(days, chance, cycle=1, rise=seed % 4, undetected=0.3 * (seed % 2)).spans
    )
    low = -math.inf if found.slope.low is None else found.slope.low
    high = math.inf if found.slope.high is None else found.slope.high
    assert (found.p > 0.1) == (low < 0 < high or low == 0 == high or (low <= 0 <= high))
    if found.slope.rate is not None:
        assert low <= found.slope.rate <= high


def told(plan, n, runs, **made):
    """Shares of made-up histories with a trend, and with one that may be the season."""
    chance = random.Random(f"{plan} {n} {made}")
    trends = seasons = 0
    for _ in range(runs):
        found = guarded_test(made_up(days_of(plan, n, chance), chance, **made))
        trends += found.p <= 0.10
        seasons += found.maybe_season
    return trends / runs, seasons / runs


@pytest.mark.parametrize("n", [8, 10])
@pytest.mark.parametrize("cycle", [2, 4])
def test_at_thirteen_months_a_cycle_makes_no_trend_but_may_be_the_season(n, cycle):
    """The plain test called 45 to 58 % of these steady histories rising or falling."""
    runs = 150
    trends, seasons = told("13 months", n, runs, cycle=cycle)
    assert stats.binomtest(round(trends * runs), runs, 0.10, "greater").pvalue > 0.01
    assert seasons > 0.25


def test_at_fourteen_months_a_cycle_hides_no_trend():
    """The plain test found next to none of these: the cycle drowned them."""
    trends, _ = told("14 months", 12, 80, cycle=2, rise=3.5)
    assert trends > 0.7


def test_at_twelve_months_nothing_changes():
    """The same day each year: the plain exact test, whatever the cycle."""
    days = tuple(date(2000 + k, 5, 4) for k in range(8))
    found = guarded_test(made_up(days, random.Random(3), cycle=4, rise=4))
    assert found.test == "exact Mann-Kendall test"


def test_few_tests_fourteen_months_apart_keep_the_exact_test():
    found = guarded_test(made_up(days_of("14 months", 8, random.Random(1)), random.Random(3)))
    assert found.test == "exact Mann-Kendall test"


def test_a_correlation_is_found_about_as_strong_as_it_was_made():
    chance = random.Random(8)
    days = days_of("12 months", 40, chance)
    found = [
        next_test_correlation(made_up(days, chance, correlation=0.5).spans) for _ in range(100)
    ]
    assert np.mean(found) == pytest.approx(0.5, abs=0.08)


def test_the_factor_is_the_variance_of_a_weighted_sum_of_an_autoregression():
    weights = [k - 9.5 for k in range(20)]
    lags = np.abs(np.subtract.outer(range(20), range(20)))
    expected = np.array(weights) @ 0.4**lags @ np.array(weights) / np.dot(weights, weights)
    assert variance_factor(weights, 0.4) == pytest.approx(expected)
    assert variance_factor(weights, 0.0) == 1


def test_from_twenty_tests_on_dependence_makes_fewer_trends():
    """Without allowing for it 30 % of these were called a trend (correlation 0.5, n = 20)."""
    trends, _ = told("12 months", 20, 150, correlation=0.5)
    assert trends < 0.17


def test_fewer_than_twenty_tests_allow_for_no_dependence_and_say_so():
    for n, known in ((19, False), (20, True)):
        days = tuple(date(2000 + k, 5, 4) for k in range(n))
        found = guarded_test(made_up(days, random.Random(1)))
        assert (found.correlation is not None) is known


def test_an_estimate_of_few_tests_is_raised_by_more_of_its_error():
    """The standard error of a lag-one correlation is sqrt((1 - r²) / n); shares are our choice."""
    assert raised(0.0, 16) == pytest.approx(0.25)
    assert raised(0.6, 25) == pytest.approx(0.6 + 0.5 * 0.8 / 5)
    assert raised(-0.9, 40) == 0.0
    assert raised(0.9, 12) == 0.9


def test_a_trend_that_likeness_may_explain_is_told_apart_with_few_tests():
    """Three years up, three down, three up again is no evidence of a line; a straight rise is."""
    days = tuple(date(2000 + k, 5, 4) for k in range(12))
    waves = (1.0, 2.0, 3.1, 2.6, 2.1, 1.7, 3.0, 4.1, 5.0, 4.2, 3.3, 2.9)
    straight = (1.0, 2.2, 2.9, 4.3, 4.8, 6.2, 6.9, 8.1, 9.2, 9.7, 11.3, 11.8)
    for figures, maybe in ((waves, True), (straight, False)):
        spans = tuple(span_on(d, y, y) for d, y in zip(days, figures, strict=True))
        found = guarded_test(Series(spans, days))
        assert found.p <= 0.10
        assert found.maybe_dependence is maybe


def test_dependence_makes_fewer_trends_without_a_word_on_it():
    """Without the word 26 % of these were called a trend (correlation 0.5, n = 12)."""
    chance, runs, bare = random.Random(5), 150, 0
    for _ in range(runs):
        found = guarded_test(made_up(days_of("12 months", 12, chance), chance, correlation=0.5))
        bare += found.p <= 0.10 and not found.maybe_dependence
    assert stats.binomtest(bare, runs, 0.14, "greater").pvalue > 0.01
