"""Intervals of slopes and shifts hold just what the test would not refuse, no more and no less.

Referees: exact and normal tests of scipy (kendalltau, mannwhitneyu) and pymannkendall on what is
left when the end of an interval is taken off; binomial probabilities of scipy.
"""

import math
import random
from itertools import permutations

import pymannkendall
import pytest
from scipy import stats

from wellbook.water.statistics import removal
from wellbook.water.statistics.mann_kendall import (
    EXACT_UP_TO,
    deviate,
    kendall_score,
    mann_kendall,
    score_distribution,
)
from wellbook.water.statistics.pair_slopes import PairSlopes
from wellbook.water.statistics.seasonal_kendall import (
    chi_square_p,
    seasonal_kendall,
    seasonal_slope,
)
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.statistics.step_change import rank_sum
from wellbook.water.statistics.theil_sen import critical_score, theil_sen

ALMOST = 1e-7


def exact(times, figures):
    return [CensoredValue(at, y, y) for at, y in zip(times, figures, strict=True)]


def made_up(seed, n):
    chance = random.Random(seed)
    times = [k + chance.uniform(0, 0.5) for k in range(n)]
    return times, [round(chance.gauss(10 + 0.3 * at, 2), 3) for at in times]


def left(times, figures, slope):
    return [y - slope * at for at, y in zip(times, figures, strict=True)]


@pytest.mark.parametrize("n", [5, 6, 7, 9, EXACT_UP_TO])
@pytest.mark.parametrize("seed", range(3))
def test_few_tests_the_interval_ends_where_the_exact_test_refuses(seed, n):
    times, figures = made_up(seed, n)
    found = theil_sen(exact(times, figures), 0.9)

    def p(slope):
        return stats.kendalltau(times, left(times, figures, slope), method="exact").pvalue

    assert p(found.low - ALMOST) <= 0.1 < p(found.low + ALMOST)
    assert p(found.high + ALMOST) <= 0.1 < p(found.high - ALMOST)
    assert found.rate == pytest.approx(stats.theilslopes(figures, times).slope)


@pytest.mark.parametrize("n", [EXACT_UP_TO + 1, 17, 30])
@pytest.mark.parametrize("level", [0.8, 0.9, 0.95])
def test_many_tests_the_interval_ends_where_the_normal_test_refuses(n, level):
    times, figures = made_up(n, n)
    found = theil_sen(exact(times, figures), level)

    def p(slope):
        return pymannkendall.original_test(left(times, figures, slope)).p

    assert p(found.low - ALMOST) <= 1 - level < p(found.low + ALMOST)
    assert p(found.high + ALMOST) <= 1 - level < p(found.high - ALMOST)


@pytest.mark.parametrize("seed", range(6))
def test_with_bounds_the_score_left_passes_its_critical_value_at_each_end(seed):
    chance = random.Random(seed)
    spans = []
    for k in range(14):
        y = chance.gauss(5 + 0.2 * k, 2)
        low = -math.inf if y < 5 else min(y, 9)
        spans.append(CensoredValue(float(k), low, math.inf if y > 9 else max(y, 5)))
    found, critical = theil_sen(spans, 0.9), critical_score(spans, 0.9)

    def score(slope):
        return kendall_score(
            [CensoredValue(s.at, s.low - slope * s.at, s.high - slope * s.at) for s in spans]
        )

    assert score(found.rate - ALMOST) >= 0 >= score(found.rate + ALMOST)
    if found.low is not None:
        assert score(found.low - ALMOST) > critical >= score(found.low + ALMOST)
    if found.high is not None:
        assert score(found.high + ALMOST) < -critical <= score(found.high - ALMOST)
    assert found.low is not None or found.high is not None


def scores_of_all_orders(figures):
    spans = [exact(range(len(figures)), order) for order in permutations(figures)]
    return [abs(kendall_score(order)) for order in spans]


@pytest.mark.parametrize("figures", [(1, 2, 3, 4, 5), (1, 1, 2, 3, 3), (1, 1, 1, 2, 3, 4)])
def test_every_order_is_counted_once(figures):
    ways = score_distribution(exact(range(len(figures)), figures))
    total, scores = sum(ways.values()), scores_of_all_orders(figures)
    for least in set(scores):
        share = sum(n for s, n in ways.items() if abs(s) >= least) / total
        assert share == pytest.approx(sum(s >= least for s in scores) / len(scores))


@pytest.mark.parametrize(
    ("refused", "largest"),
    [
        # Of the 120 orders of five figures 2 have a score of 10, 8 one of 8, 18 one of 6.
        (1.5, 10),
        (2, 8),
        (9.5, 8),
        (10, 6),
        (12, 6),
        (27.5, 6),
        (28, 4),
        (120, 0),
    ],
)
def test_the_critical_score_is_the_largest_that_is_not_refused(refused, largest):
    five = exact(range(5), (3, 1, 4, 2, 5))
    assert critical_score(five, 1 - refused / 120) == largest


def test_at_ten_tests_orders_are_still_counted_and_beyond_the_normal_curve_serves():
    """Kendall's variance n(n-1)(2n+5)/18 and a continuity correction of one."""
    ten = exact(range(10), random.Random(1).sample(range(99), 10))
    assert isinstance(critical_score(ten, 0.9), int)
    for n in (11, 25):
        many = exact(range(n), random.Random(n).sample(range(99), n))
        deviation = math.sqrt(n * (n - 1) * (2 * n + 5) / 18)
        assert critical_score(many, 0.9) == pytest.approx(1 + stats.norm.ppf(0.95) * deviation)


def test_two_tests_have_a_slope_and_three_no_interval():
    assert theil_sen(exact((0, 2), (1, 2))).rate == 0.5
    three = theil_sen(exact((0, 1, 2), (1, 3, 2)), 0.9)
    assert (three.rate, three.low, three.high) == (0.5, None, None)


@pytest.mark.parametrize(
    "spans",
    [
        [CensoredValue(0, 3, 3), CensoredValue(1, -math.inf, 5)],
        [CensoredValue(0, -math.inf, 5), CensoredValue(1, 3, 3)],
        [CensoredValue(0, 3, math.inf), CensoredValue(1, 5, 5)],
        [],
    ],
)
def test_a_pair_open_on_one_side_has_no_slope(spans):
    assert theil_sen(spans).rate is None


def test_a_pair_of_bounds_bounds_its_slope_from_both_sides():
    pairs = PairSlopes([[CensoredValue(0, 1, 3), CensoredValue(2, 5, 9)]])
    assert (pairs.lows, pairs.highs, list(pairs)) == (1, 1, [1.0, 4.0])


def test_tests_of_one_time_make_no_pair():
    pairs = PairSlopes([[CensoredValue(0, 1, 1), CensoredValue(0, 5, 5), CensoredValue(1, 5, 5)]])
    assert (pairs.lows, pairs.highs, list(pairs)) == (2, 2, [0.0, 0.0, 4.0, 4.0])


def shifted(before, after, level):
    found = rank_sum(exact([0] * len(before), before), exact([1] * len(after), after), level)
    return found, found.shift.low, found.shift.high


@pytest.mark.parametrize(
    ("before", "after", "method"),
    [
        (3, 3, "exact"),
        (5, 7, "exact"),
        (10, 10, "exact"),
        (10, 11, "asymptotic"),
        (12, 13, "asymptotic"),
        (15, 17, "asymptotic"),
        (20, 25, "asymptotic"),
        (21, 24, "asymptotic"),
    ],
)
def test_a_shift_ends_where_the_rank_sum_test_refuses(before, after, method):
    chance = random.Random(before)
    ours = [round(chance.gauss(10, 2), 4) for _ in range(before)]
    theirs = [round(chance.gauss(13, 2), 4) for _ in range(after)]
    found, low, high = shifted(ours, theirs, 0.9)

    def p(shift):
        moved = [y - shift for y in theirs]
        return stats.mannwhitneyu(moved, ours, method=method, use_continuity=True).pvalue

    assert found.exact is (method == "exact")
    assert p(low - ALMOST) <= 0.1 + 1e-12 < p(low + ALMOST)
    assert p(high + ALMOST) <= 0.1 + 1e-12 < p(high - ALMOST)


@pytest.mark.parametrize("n", range(61))
def test_the_rank_that_bounds_a_median_is_that_of_the_binomial(n):
    rank = removal._rank(n)
    if rank:
        assert stats.binom.cdf(rank - 1, n, 0.5) <= 0.05
    assert stats.binom.cdf(rank, n, 0.5) > 0.05


@pytest.mark.parametrize("level", [0.8, 0.9])
def test_a_seasonal_interval_ends_where_the_seasonal_test_refuses(level):
    _, figures = made_up(3, 32)
    seasons = [k % 4 for k in range(32)]
    spans = exact([float(k) for k in range(32)], figures)
    found = seasonal_slope(spans, seasons, level)

    def p(slope):
        return pymannkendall.seasonal_test(left(range(32), figures, slope), period=4).p

    assert p(found.low - ALMOST) <= 1 - level < p(found.low + ALMOST)
    assert p(found.high + ALMOST) <= 1 - level < p(found.high - ALMOST)
    assert found.rate == pytest.approx(pymannkendall.seasonal_test(figures, period=4).slope / 4)


@pytest.mark.parametrize("freedom", range(9))
@pytest.mark.parametrize("value", [0, 0.01, 0.5, 2.0, 7.81, 30.0])
def test_chances_of_disagreement_are_those_of_chi_square(value, freedom):
    expected = stats.chi2.sf(value, freedom) if freedom and value else 1
    assert chi_square_p(value, freedom) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("score", "variance", "z"),
    [(0, 4, 0), (1, 4, 0), (-1, 4, 0), (3, 4, 1), (-3, 4, -1), (3, 0, 0)],
)
def test_a_deviate_is_one_step_nearer_to_zero(score, variance, z):
    assert deviate(score, variance) == z


def test_one_test_or_two_still_have_a_score():
    none, one, two = (mann_kendall(exact(range(n), range(n))) for n in range(3))
    assert (none.tau, none.variance, none.p) == (0, 0, 1)
    assert (one.tau, one.variance, one.p) == (0, 0, 1)
    assert (two.s, two.tau, two.variance, two.p) == (1, 1, 1, 1)


def test_the_seasonal_test_tells_its_counts():
    spans = exact(range(8), (1, 5, 2, 6, 3, 7, 4, 8))
    spans[0] = CensoredValue(0, -math.inf, 1.0)
    found = seasonal_kendall(spans, [k % 2 for k in range(8)])
    assert (found.n, found.censored, found.s, found.tau, found.freedom) == (8, 1, 12, 1, 1)
    assert found.heterogeneity == pytest.approx(0, abs=1e-9)
    lone = seasonal_kendall(spans[:2], [0, 1])
    assert (lone.s, lone.tau, lone.freedom, lone.p, lone.p_agree) == (0, 0, 0, 1, 1)
    mixed = seasonal_kendall(exact(range(8), (1, 8, 2, 7, 3, 6, 4, 5)), [k % 2 for k in range(8)])
    # Scores 6 and -6 with variance 26/3 each: twice 36 over it, less nothing for their mean.
    assert mixed.heterogeneity == pytest.approx(2 * 36 / (26 / 3))


def test_one_season_alone_can_not_disagree():
    found = seasonal_kendall(exact(range(4), (1, 2, 3, 4)), [0] * 4)
    assert (found.heterogeneity, found.freedom, found.p_agree) == (pytest.approx(0), 0, 1)
    pair = seasonal_kendall(exact(range(2), (1, 2)), [0, 0])
    assert (pair.s, pair.tau) == (1, 1)


def test_a_disagreement_rounded_below_zero_is_none():
    assert chi_square_p(-1e-12, 3) == chi_square_p(-1e-12, 2) == 1


def test_an_interval_is_one_of_90_percent_unless_said_otherwise():
    _, figures = made_up(3, 32)
    spans, seasons = exact([float(k) for k in range(32)], figures), [k % 4 for k in range(32)]
    assert seasonal_slope(spans, seasons) == seasonal_slope(spans, seasons, 0.9)
    assert theil_sen(spans) == theil_sen(spans, 0.9)
    before, after = spans[:9], spans[9:20]
    assert rank_sum(before, after).shift == rank_sum(before, after, 0.9).shift
