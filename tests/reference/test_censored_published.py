"""Non-detects against published examples, open data and general libraries.

EPA Unified Guidance (530/R-09-007, 2009), example 15-1; scores and taus of the R package NADA
1.6-1.1 on U.S. Geological Survey data (tests/data/trends); lifelines.
"""

import csv
import math
import random
from datetime import date
from itertools import accumulate
from pathlib import Path

import lifelines
import pytest
from scipy import stats

from wellbook.water.statistics.kaplan_meier import kaplan_meier, mean, quantile
from wellbook.water.statistics.mann_kendall import mann_kendall, normal_p
from wellbook.water.statistics.series import CensoredValue, span_on
from wellbook.water.statistics.theil_sen import theil_sen
from wellbook.water.statistics.turnbull import turnbull

DATA = Path(__file__).parent.parent / "data" / "trends"
_MANGANESE = """<5 12.1 16.9 21.6 <2 <5 7.7 53.6 9.5 45.9 <5 5.3 12.6 106.3 34.5 6.3 11.9 10 <2 77.2
17.9 22.7 3.3 8.4 <2"""
MANGANESE = _MANGANESE.split()


def spans_of(words, scale=float):
    return [
        CensoredValue(k, -math.inf, scale(float(word[1:])))
        if word[0] == "<"
        else CensoredValue(k, scale(float(word)), scale(float(word)))
        for k, word in enumerate(words)
    ]


def stream(name):
    with (DATA / f"{name}.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    return [
        span_on(
            date.fromisoformat(row["sample_dt"]),
            -math.inf if row["remark_cd"] == "<" else float(row["result_va"]),
            float(row["result_va"]),
        )
        for row in rows
    ]


def test_kaplan_meier_of_the_unified_guidance():
    # Example 15-1: mean of the logarithms 2.309289, with what is left at the lowest limit. The
    # mean of the figures in the same way 19.867, the median 10.0 (EnvStats, NADA, lifelines).
    assert mean(kaplan_meier(spans_of(MANGANESE, math.log)), math.log(2)) == pytest.approx(
        2.309289, abs=1e-6
    )
    masses = kaplan_meier(spans_of(MANGANESE))
    assert mean(masses, 2) == pytest.approx(19.867, abs=1e-6)
    assert quantile(masses, 0.5) == 10.0


def test_the_other_convention_puts_the_rest_at_the_lowest_detected_figure():
    # NADA's convention: 20.14, and 2.414452 of the logarithms. Ours is the lower of the two.
    assert mean(kaplan_meier(spans_of(MANGANESE)), 3.3) == pytest.approx(20.14, abs=1e-6)
    logs = kaplan_meier(spans_of(MANGANESE, math.log))
    assert mean(logs, math.log(3.3)) == pytest.approx(2.414452, abs=1e-6)


@pytest.mark.parametrize("seed", range(5))
def test_kaplan_meier_is_that_of_lifelines(seed):
    chance = random.Random(seed)
    figures = [round(chance.lognormvariate(1, 1), 2) for _ in range(40)]
    limits = [chance.choice((0.5, 2, 5)) for _ in figures]
    spans = [
        CensoredValue(k, y if y >= limit else -math.inf, max(y, limit))
        for k, (y, limit) in enumerate(zip(figures, limits, strict=True))
    ]
    fit = lifelines.KaplanMeierFitter().fit_left_censoring(
        [span.high for span in spans], [span.exact for span in spans]
    )
    masses = kaplan_meier(spans)
    sums = accumulate(mass.share for mass in masses)
    detected = [
        (mass.high, total) for mass, total in zip(masses, sums, strict=True) if mass.low > 0
    ]
    theirs = fit.cumulative_density_at_times([figure for figure, _ in detected])
    assert [total for _, total in detected] == pytest.approx(list(theirs), abs=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_shares_are_plain_counts_where_each_side_has_one_bound(seed):
    chance = random.Random(seed)
    spans = []
    for k in range(30):
        y = round(chance.uniform(1, 9), 1)
        spans.append(
            CensoredValue(k, -math.inf if y < 3 else min(y, 7), math.inf if y > 7 else max(y, 3))
        )
    masses = turnbull(spans)
    for mass in masses:
        here = sum((span.low, span.high) == (mass.low, mass.high) for span in spans)
        assert mass.share == pytest.approx(here / 30, abs=1e-8)


CENSORED = [
    # Name, n, non-detects, S, tau by NADA.
    ("arsenic_01000", 73, 44, -587, -0.2233638),
    ("lead_01049", 46, 32, 30, 0.0289855),
    ("copper_01040", 41, 11, -57, -0.0695122),
]


@pytest.mark.parametrize(("name", "n", "censored", "s", "tau"), CENSORED)
def test_scores_with_non_detects_are_nadas(name, n, censored, s, tau):
    kendall = mann_kendall(stream(name))
    assert (kendall.n, kendall.censored, kendall.s) == (n, censored, s)
    assert kendall.tau == pytest.approx(tau, abs=1e-7)


def test_conclusions_with_non_detects_are_nadas():
    # NADA's p: arsenic 0.0012, lead 0.77, copper 0.52. Its variance is another one, so only what
    # follows from the p is compared.
    p = {name: mann_kendall(stream(name)).p for name, *_ in CENSORED}
    assert p["arsenic_01000"] == pytest.approx(0.0012250, abs=0.0005)
    assert p["lead_01049"] > 0.3
    assert p["copper_01040"] > 0.3


def test_half_the_limit_would_have_made_leads_limits_a_rise():
    half = [
        span if span.exact else CensoredValue(span.at, span.high / 2, span.high / 2)
        for span in stream("lead_01049")
    ]
    assert mann_kendall(half).s == 150
    assert mann_kendall(stream("lead_01049")).s == 30


def test_limits_that_fell_over_the_years_make_no_trend():
    falling = spans_of(["<5", "<5", "<5", "<2", "<2", "<2", "<1", "<1", "<0.5", "<0.5"])
    kendall = mann_kendall(falling)
    assert (kendall.s, kendall.variance, kendall.p) == (0, 0, 1)
    assert theil_sen(falling).rate is None
    half = [CensoredValue(span.at, span.high / 2, span.high / 2) for span in falling]
    false = mann_kendall(half)
    assert false.s == -37
    assert false.variance == pytest.approx(115.667, abs=1e-3)
    assert normal_p(false.z) == pytest.approx(8.159e-4, abs=1e-7)


@pytest.mark.parametrize("order", ["mixed", "fell"])
def test_steady_figures_under_two_limits_seldom_look_like_a_trend(order):
    # At the 10 % level chance alone may claim a trend in one of ten; 400 made-up series of 20
    # with about 60 % non-detects, so at most 58 at a probability of 0.1 % (binomial).
    chance = random.Random(20)
    claims = 0
    for _ in range(400):
        spans = []
        for k in range(20):
            figure = chance.lognormvariate(0, 1)
            high = chance.random() < 0.5 if order == "mixed" else k < 10
            limit = 4.0 if high else 0.8
            low = -math.inf if figure < limit else figure
            spans.append(CensoredValue(k, low, max(figure, limit)))
        claims += mann_kendall(spans).p <= 0.10
    assert claims <= stats.binom.ppf(0.999, 400, 0.10)
