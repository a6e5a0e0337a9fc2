"""The long-run level with non-detects, against worked examples of handbooks and other programs.

EPA's Unified Guidance (530/R-09-007, 2009), examples 15-1 and 15-2 (manganese, 25 tests); survreg
of R's package survival; scipy.
"""

import math
import random
import shutil
import subprocess
from dataclasses import replace
from statistics import fmean, stdev

import pytest
from scipy import stats

from wellbook.water.statistics.level.lognormal import lognormal
from wellbook.water.statistics.level.long_run import long_run
from wellbook.water.statistics.level.robust_ros import plotting_positions, ros_figures
from wellbook.water.statistics.outcomes import Method, Stands
from wellbook.water.statistics.series import CensoredValue
from wellbook.wording.consulting import levels

MANGANESE = (
    "<5 12.1 16.9 21.6 <2 <5 7.7 53.6 9.5 45.9 <5 5.3 12.6 106.3 34.5 6.3 11.9 10 <2 77.2 17.9 "
    "22.7 3.3 8.4 <2"
)


def spans_of(words):
    spans = []
    for k, word in enumerate(words.split()):
        figure = float(word.strip("<>"))
        low = -math.inf if word[0] == "<" else figure
        spans.append(CensoredValue(float(k), low, math.inf if word[0] == ">" else figure))
    return spans


def spaced(spans):
    """The spans at tests that fall into all seasons."""
    return [replace(span, at=span.at * 1.27) for span in spans]


def test_the_plotting_positions_are_those_of_the_handbook():
    """Example 15-2 prints them to three decimals."""
    seen, _ = plotting_positions(spans_of(MANGANESE))
    assert [round(place, 3) for place in seen] == [
        0.245, 0.318, 0.356, 0.394, 0.432, 0.469, 0.507, 0.545, 0.583, 0.621, 0.659, 0.697,
        0.735, 0.773, 0.811, 0.848, 0.886, 0.924, 0.962,
    ]  # fmt: skip


def test_regression_on_order_statistics_gives_the_handbook_s_mean_and_spread():
    """Example 15-2, and EnvStats and NADA alike: logs 2.277175 and 1.261431, mean 19.82767."""
    figures = ros_figures(spans_of(MANGANESE))
    logs = [math.log(figure) for figure in figures]
    assert (fmean(logs), stdev(logs)) == pytest.approx((2.277175, 1.261431), abs=1e-6)
    assert (fmean(figures), stdev(figures)) == pytest.approx((19.82767, 25.86966), abs=1e-5)


def test_too_few_detected_figures_make_no_line():
    assert ros_figures(spans_of("<1 <1 <1 2 2 3")) is None
    assert ros_figures(spans_of("<1 <1 0 2 3 4")) is None


def test_regression_takes_no_off_scale_figures():
    with pytest.raises(ValueError, match="off-scale"):
        ros_figures(spans_of("1 2 3 >4"))


@pytest.mark.skipif(not shutil.which("Rscript"), reason="R is not installed")
def test_maximum_likelihood_is_that_of_r():
    """`survreg` of R's survival package, left-censored, on the handbook's manganese."""
    words = MANGANESE.split()
    figures = ",".join(word.strip("<") for word in words)
    seen = ",".join(str(int(word[0] != "<")) for word in words)
    script = (
        f"library(survival); f <- survreg(Surv(c({figures}), c({seen}), type='left') ~ 1, "
        "dist='lognormal'); cat(sprintf('%.9f %.9f', coef(f), f$scale))"
    )
    said = subprocess.run(["Rscript", "-e", script], capture_output=True, text=True, check=True)
    mean, spread = map(float, said.stdout.split())
    found = lognormal(spans_of(MANGANESE))
    assert (found.log_mean, found.log_spread) == pytest.approx((mean, spread), abs=1e-5)


def test_maximum_likelihood_gives_the_published_mean_and_spread():
    """The manganese of example 15-1 by EnvStats, whose manual prints them for `elnormCensored`.

    The guidance itself prints no likelihood estimate for it. The mean of the figures follows from
    the two by the lognormal law.
    """
    found = lognormal(spans_of(MANGANESE))
    assert (found.log_mean, found.log_spread) == pytest.approx((2.215905, 1.356291), abs=1e-6)
    assert found.mean == pytest.approx(math.exp(2.215905 + 1.356291**2 / 2), abs=1e-4)


def test_without_non_detects_the_likeliest_spread_is_that_of_the_logarithms():
    found = lognormal(spans_of("1 2 4 8"))
    assert found.median == pytest.approx(math.sqrt(8))
    assert found.log_spread == pytest.approx(math.log(2) * math.sqrt(1.25))
    assert found.mean == pytest.approx(found.median * math.exp(found.log_spread**2 / 2))


def test_a_spread_needs_two_figures_above_zero():
    assert lognormal(spans_of("<1 <1 2 2")) is None
    assert lognormal(spans_of("0 1 2")) is None


@pytest.mark.parametrize(
    ("words", "method"),
    [
        ("1 2 3 4", Method.MEAN),
        ("<1 2 3 4", Method.KAPLAN_MEIER),
        ("<1 <1 <1 2 <1 3 4", Method.ROS),
        ("<1 <1 <1 2 <1 3 4 " * 8, Method.LIKELIHOOD),
        ("<1 " * 9 + "2", Method.NONE),
        ("1 2 3 >4", Method.NONE),
    ],
)
def test_the_method_is_chosen_by_the_share_of_non_detects_and_the_tests(words, method):
    """Helsel 2012, table 6.11 (from memory)."""
    assert long_run(spans_of(words)).method is method


def test_the_kaplan_meier_mean_is_the_handbook_s():
    """Example 15-1, raw figures with the rest at the lowest limit: 19.867 (EnvStats too)."""
    found = long_run(spans_of(MANGANESE))
    assert found.mean == pytest.approx(19.867, abs=5e-4)
    assert found.median == 10


def test_three_tests_bound_no_median_and_four_do():
    """Four of four on one side: 1 in 16, less than the 1 in 10 allowed; three: 1 in 8."""
    assert long_run(spans_of("1 2 3")).upper is None
    found = long_run(spans_of("1 2 3 4"))
    assert (found.lower, found.upper) == (1, 4)


@pytest.mark.parametrize("n", [5, 9, 16, 30, 3000])
def test_the_ranks_of_the_bounds_are_binomial(n):
    found = long_run(spans_of(" ".join(str(k) for k in range(1, n + 1))))
    rank = int(found.lower)
    assert stats.binom.cdf(rank - 1, n, 0.5) <= 0.1 < stats.binom.cdf(rank, n, 0.5)
    assert found.upper == n + 1 - rank


def test_the_bounds_hold_the_median_nine_times_in_ten_with_non_detects():
    chance, runs = random.Random(5), 600
    above = 0
    for _ in range(runs):
        figures = [chance.lognormvariate(0, 1) for _unused in range(11)]
        words = " ".join(f"<{0.6}" if figure < 0.6 else f"{figure}" for figure in figures)
        above += long_run(spans_of(words)).upper >= 1
    assert stats.binomtest(above, runs, 0.9, "less").pvalue > 0.01


def test_a_level_stands_below_above_or_open():
    found = long_run(spans_of("3 4 5 6 7 8"))
    assert [found.stands(limit) for limit in (10, 5, 1)] == [
        Stands.BELOW, Stands.OPEN, Stands.ABOVE,
    ]  # fmt: skip


def test_non_detects_above_the_limit_never_stand_below_it():
    assert long_run(spans_of("<20 <20 <20 <20 <20")).stands(10) is Stands.OPEN


def test_the_level_is_said_with_its_bounds_and_its_method():
    found = long_run(spans_of("<1 2 3 4 5 6 7"))
    assert levels.median(found) == "4 (2 to 6)"
    assert levels.mean(found) == "4 (Kaplan-Meier)"
    assert levels.stands(found, 6, "mg/L") == "Below 6 mg/L, with 90 % confidence."
    assert levels.stands(found, 1, "mg/L") == "Above 1 mg/L, with 90 % confidence."
    assert levels.stands(found, 4, "mg/L") == "Below or above 4 mg/L: 7 tests can’t tell."


@pytest.mark.parametrize(
    ("limit", "sentence"),
    [
        (
            6,
            (
                "The long-run median is below 6 mg/L with 90 % confidence: ENDS mg/L (HOW). A "
                "limit is meant for each sample: that excuses no reading over it."
            ),
        ),
        (1, "The long-run median is above 1 mg/L with 90 % confidence: ENDS mg/L (HOW)."),
        (
            4,
            (
                "Whether the long-run median is below 4 mg/L can’t be told: ENDS mg/L by 90 % "
                "limits (HOW)."
            ),
        ),
        (None, "The long-run median is ENDS mg/L, by 90 % limits (HOW)."),
    ],
)
def test_a_level_beside_a_limit_is_a_sentence_with_n_and_method(limit, sentence):
    how = "7 tests, taken as independent; order statistics, non-detects at their reporting limits"
    said = levels.long_run(long_run(spaced(spans_of("<1 2 3 4 5 6 7"))), limit, "mg/L")
    assert said == sentence.replace("HOW", how).replace("ENDS", "at least 2 and at most 6")


def test_tests_of_one_season_say_that_others_are_not_known():
    found = long_run(spans_of("1 2 3 4"))
    assert levels.long_run(found, None, "mg/L").endswith(
        " All these tests fall into one season; the level of others is not known."
    )
    assert not long_run(spaced(spans_of("1 2 3 4"))).one_season


def test_a_level_that_is_open_upwards_tells_its_lower_end_alone():
    said = levels.long_run(long_run(spaced(spans_of("1 2 3 >4"))), 2, "mg/L")
    assert said.startswith("Whether the long-run median is below 2 mg/L can’t be told: at least 1 ")


def test_what_was_never_found_has_no_median_and_no_mean():
    found = long_run(spans_of("<1 <2 <1 <1"))
    assert levels.median(found) == "below all found (open to 2)"
    assert levels.mean(found) == ""


@pytest.mark.parametrize("worse", ["8", "12", "<30", ">50"])
def test_a_worse_last_figure_never_turns_above_or_open_into_below(worse):
    """Worse never sounds milder."""
    words = "3 4 5 6 7"
    before = long_run(spans_of(f"{words} 5")).stands(7)
    after = long_run(spans_of(f"{words} {worse}")).stands(7)
    assert before is Stands.BELOW or after is not Stands.BELOW
