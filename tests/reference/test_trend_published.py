"""Mann-Kendall and Theil-Sen against published examples, open data and general libraries.

EPA QA/G-9S (EPA/240/B-06/003, 2006); EPA Unified Guidance (530/R-09-007, 2009), examples 17-5 to
17-7, 14-8 and 14-10; U.S. Geological Survey data in tests/data/trends; scipy; pymannkendall.
"""

import csv
from datetime import date
from pathlib import Path

import pymannkendall
import pytest
from scipy import stats

from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import mann_kendall, normal_p, score_distribution
from wellbook.water.statistics.seasonal_kendall import (
    chi_square_p,
    seasonal_kendall,
    seasonal_slope,
)
from wellbook.water.statistics.series import CensoredValue, span_on
from wellbook.water.statistics.theil_sen import theil_sen
from wellbook.water.statistics.turnbull import shares_of

DATA = Path(__file__).parent.parent / "data" / "trends"


def numbers(text):
    return [float(word) for word in text.split()]


def exact(times, figures):
    return [CensoredValue(at, y, y) for at, y in zip(times, figures, strict=True)]


WITH_TIES = exact(range(11), numbers("10 10 10 5 10 20 18 17 15 24 15"))
SULFATE = exact(
    numbers(
        "89.6 89.8 90.1 90.3 90.6 90.8 91.1 91.3 91.6 91.8 92.1 92.6 93.1 93.6 94.1 94.6 95.1 95.6 "
        "95.8 96.1 96.3 96.6 96.8"
    ),
    numbers(
        "480 450 490 520 485 510 510 530 510 560 560 540 590 550 600 700 570 610 650 620 830 720 "
        "590"
    ),
)
SODIUM = exact(
    numbers("89.6 90.1 90.8 91.1 92.1 93.1 94.1 95.6 96.1 96.3"),
    numbers("56 53 51 55 52 60 62 59 61 63"),
)
CHLORIDE = exact(
    numbers("76 133 233 407 513 594 688 779 846 940 1043 1150 1260 1330 1385 1499 1577 1682 1759"),
    numbers(
        "11.5 12.6 13.8 12.3 12.8 13.2 14.1 13.3 13.1 13.2 15.3 15.0 15.2 15.8 16.1 15.1 16.4 17.7 "
        "17.7"
    ),
)
ONE_OUTLIER = exact(range(1, 8), numbers("1 2 3 4 5 16 7"))
# Made up with uneven dates; a slope by position in the series would be 0.36 a test.
UNEVEN = exact(
    numbers("1994.3 1996.4 1999.2 2003.5 2004.5 2009.4 2012.5 2016.3 2019.4 2023.6 2025.4"),
    numbers("2.1 2.4 2.2 3.0 3.3 3.1 4.2 4.0 5.1 5.6 5.4"),
)


def annual(code):
    with (DATA / f"annual_median_{code}.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    return exact([float(r["sample_dt"]) for r in rows], [float(r["median"]) for r in rows])


PUBLISHED = [
    pytest.param(WITH_TIES, 22, 155.3333, 1.68495, 0.4, 1.0, id="EPA G-9S, ties"),
    pytest.param(SULFATE, 194, 1428, 5.107322, 0.7667984, 26.66667, id="EPA 2009, 17-6"),
    pytest.param(SODIUM, 25, 125, 2.146625, 0.5555556, 1.333333, id="EPA 2009, 17-7"),
    pytest.param(CHLORIDE, 131, 815, 4.553701, 0.7660819, 0.003281853, id="EPA 2009, 17-5"),
    pytest.param(ONE_OUTLIER, 19, 44.3333, 2.703381, 0.9047619, 1.0, id="one outlier"),
    pytest.param(UNEVEN, 47, 165, 3.581095, 0.8545455, 0.1176471, id="uneven dates"),
    pytest.param(annual("00618"), 528, 11882.6667, 4.834523, 0.4884366, 0.0095, id="nitrate"),
    pytest.param(annual("00940"), 578, 16007.3333, 4.560541, 0.4358974, 0.0720588, id="chloride"),
    pytest.param(annual("00095"), 383, 21068.3333, 2.631772, 0.2399749, 0.3407317, id="EC"),
]


@pytest.mark.parametrize(("spans", "s", "variance", "z", "tau", "slope"), PUBLISHED)
def test_scores_and_slopes_are_the_published_ones(spans, s, variance, z, tau, slope):
    kendall = mann_kendall(spans)
    assert kendall.s == s
    assert kendall.variance == pytest.approx(variance, abs=1e-4)
    assert kendall.z == pytest.approx(z, abs=1e-5)
    assert kendall.tau == pytest.approx(tau, rel=1e-6)
    assert theil_sen(spans).rate == pytest.approx(slope, rel=1e-4)


@pytest.mark.parametrize(("spans", "s", "variance", "z", "tau", "slope"), PUBLISHED)
def test_two_general_libraries_agree(spans, s, variance, z, tau, slope):
    del s, variance, z, tau, slope
    times, figures = [span.at for span in spans], [span.low for span in spans]
    theirs = pymannkendall.original_test(figures)
    kendall = mann_kendall(spans)
    assert kendall.s == theirs.s
    assert kendall.variance == pytest.approx(theirs.var_s, rel=1e-9)
    assert normal_p(kendall.z) == pytest.approx(theirs.p, rel=1e-6)
    line = stats.theilslopes(figures, times, alpha=0.95, method="joint")
    ours = theil_sen(spans, 0.95)
    assert ours.rate == pytest.approx(line.slope, rel=1e-9)
    rest = [CensoredValue(s.at, s.low - ours.rate * s.at, s.low - ours.rate * s.at) for s in spans]
    assert quantile(shares_of(rest), 0.5) == pytest.approx(line.intercept, rel=1e-9)


@pytest.mark.parametrize(
    ("spans", "low", "high"),
    [
        # Limits at 95 % of EnvStats 3.1.0 (ranks interpolated) and scipy (whole ranks); either
        # rule serves, so the tolerance is 2 % of the slope.
        pytest.param(annual("00618"), 0.0067356, 0.0128192, id="nitrate"),
        pytest.param(annual("00940"), 0.0470644, 0.0972202, id="chloride"),
        pytest.param(annual("00095"), 0.1, 0.5360367, id="conductance"),
        pytest.param(SULFATE, 20.0, 35.71182, id="EPA 2009, 17-6"),
    ],
)
def test_intervals_of_slopes_agree_with_two_rank_rules(spans, low, high):
    ours = theil_sen(spans, 0.95)
    near = 0.02 * ours.rate
    assert ours.low == pytest.approx(low, abs=near)
    assert ours.high == pytest.approx(high, abs=near)


def test_slopes_go_by_real_dates():
    # Example 17-6 prints year.month; on the first of each month scipy gives 26.48997 for 365.25
    # days, with 18.92487 and 35.25579 at 95 %. Example of uneven dates above: by position in the
    # series it would be 0.36 a test and not 0.1176 a year (pymannkendall).
    dated = []
    for span in SULFATE:
        year, month = divmod(round(span.at * 10), 10)
        dated.append(span_on(date(1900 + year, month, 1), span.low, span.high))
    slope = theil_sen(dated, 0.95)
    assert slope.rate == pytest.approx(26.48997, rel=1e-6)
    assert (slope.low, slope.high) == pytest.approx((18.92487, 35.25579), abs=0.02 * slope.rate)
    by_position = pymannkendall.original_test([span.low for span in UNEVEN]).slope
    assert by_position == pytest.approx(0.36)


@pytest.mark.parametrize(
    ("n", "s", "p"),
    [  # One-sided, by counting inversions; Gilbert 1987, table A18, prints the same (from memory).
        (4, 4, 0.16667),
        (4, 6, 0.04167),
        (5, 8, 0.04167),
        (5, 10, 0.00833),
        (6, 11, 0.02778),
        (6, 13, 0.00833),
        (7, 13, 0.03452),
        (8, 16, 0.03051),
        (9, 18, 0.03759),
        (10, 21, 0.03628),
        (10, 25, 0.01430),
    ],
)
def test_exact_probabilities_are_those_of_the_table(n, s, p):
    ways = score_distribution(exact(range(n), range(n)))
    share = sum(count for score, count in ways.items() if score >= s) / sum(ways.values())
    assert share == pytest.approx(p, abs=5e-6)


@pytest.mark.parametrize("spans", [SODIUM, ONE_OUTLIER])
def test_exact_two_sided_p_is_scipys(spans):
    theirs = stats.kendalltau(
        [span.at for span in spans], [span.low for span in spans], method="exact"
    )
    assert mann_kendall(spans).exact
    assert mann_kendall(spans).p == pytest.approx(theirs.pvalue, rel=1e-9)


def test_four_tests_can_never_show_a_trend_at_five_percent():
    # Checked with scipy: two-sided p of four rising figures is 1/12.
    rising = exact(range(4), range(4))
    assert mann_kendall(rising).p == pytest.approx(1 / 12)
    assert stats.kendalltau(range(4), range(4), method="exact").pvalue == pytest.approx(1 / 12)


_MONTHS = """1.99 2.01 2.15, 2.10 2.10 2.17, 2.12 2.17 2.27, 2.12 2.13 2.23, 2.11 2.13 2.24,
2.15 2.18 2.26, 2.19 2.25 2.31, 2.18 2.24 2.32, 2.16 2.22 2.28, 2.08 2.13 2.22, 2.05 2.08 2.19,
2.08 2.16 2.22"""
MONTHS = [numbers(row) for row in _MONTHS.split(",")]


def test_seasonal_kendall_is_that_of_the_unified_guidance():
    # EPA 2009, examples 14-8 and 14-10: months of 1983 to 1985.
    spans = [
        CensoredValue(1983 + k + month / 12, y, y)
        for month, row in enumerate(MONTHS)
        for k, y in enumerate(row)
    ]
    seasons = [month for month, row in enumerate(MONTHS) for _ in row]
    kendall = seasonal_kendall(spans, seasons)
    assert (kendall.n, kendall.s) == (36, 35)
    assert kendall.variance == pytest.approx(43)
    assert kendall.z == pytest.approx(5.184951, abs=1e-6)
    assert kendall.p == pytest.approx(2.160712e-7, rel=1e-6)
    assert kendall.tau == pytest.approx(0.9722222, abs=1e-7)
    assert kendall.heterogeneity == pytest.approx(0.1071882, abs=1e-7)
    assert kendall.freedom == 11
    assert seasonal_slope(spans, seasons).rate == pytest.approx(0.06)
    theirs = pymannkendall.seasonal_test([row[k] for k in range(3) for row in MONTHS], period=12)
    assert (kendall.s, kendall.variance) == pytest.approx((theirs.s, theirs.var_s))


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 7, 11])
@pytest.mark.parametrize("value", [0.1, 1.0, 5.0, 30.0])
def test_chi_square_is_scipys(value, freedom):
    assert chi_square_p(value, freedom) == pytest.approx(stats.chi2.sf(value, freedom), rel=1e-9)
