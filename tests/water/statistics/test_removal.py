"""Raw against treated water, with non-detects on either side.

The rules for non-detects and breakthrough are common practice, no source; medians and the sign
test are checked against scipy.
"""

import math
from datetime import date
from decimal import Decimal

import pytest
from in_words import said
from scipy import stats

from wellbook.support import paths
from wellbook.water.statistics.removal import Outcome, compare, removal
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

CATALOGUE = read_catalogue(paths.resources())
ARSENIC = CATALOGUE.parameters["arsenic"]
DAY = date(2024, 5, 6)


def span(word):
    number = float(word.strip("<>"))
    return CensoredValue(
        0, -math.inf if word[0] == "<" else number, math.inf if word[0] == ">" else number
    )


def results(words, point):
    kinds = {"<": Kind.BELOW, ">": Kind.ABOVE}
    return [
        Result(
            0, 0, "arsenic", "Arsenic",
            Reading(word, kinds.get(word[0], Kind.NUMBER), Decimal(word.strip("<>")), "µg/L"),
            LocalTime(date(2015 + k, 3, 4)), point,
        )
        for k, word in enumerate(words.split())
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("raw", "treated", "outcome", "share"),
    [
        ("20", "5", Outcome.REMOVED, 0.75),
        ("20", "<2", Outcome.AT_LEAST, 0.9),
        ("20", "20", Outcome.REMOVED, 0),
        ("20", "25", Outcome.BREAKTHROUGH, -0.25),
        ("<2", "<2", Outcome.NOTHING_BEFORE, None),
        ("<2", "1", Outcome.NOTHING_BEFORE, None),
        ("<2", "3", Outcome.BREAKTHROUGH, None),
        ("<2", "2", Outcome.BREAKTHROUGH, None),
        ("5", "<10", Outcome.OVERLAP, None),
        (">100", "5", Outcome.AT_LEAST, 0.95),
        (">100", "<1", Outcome.AT_LEAST, 0.99),
        ("100", ">50", Outcome.AT_MOST, 0.5),
        (">100", ">50", Outcome.OVERLAP, None),
        ("0", "0", Outcome.NOTHING_BEFORE, None),
    ],
)
def test_each_pair_of_readings_has_its_outcome(raw, treated, outcome, share):
    found = compare(DAY, span(raw), span(treated))
    assert found.outcome is outcome
    assert found.share == (None if share is None else pytest.approx(share))


def test_no_germ_in_a_hundred_millilitres_is_fewer_than_one_and_a_least_removal():
    """0 per 100 mL is <1 (common practice, no source)."""
    raw, treated = (
        [
            Result(k, k, "total_coliform", "Total coliform",
                   Reading(word, Kind.NUMBER, Decimal(word), "CFU/100 mL"),
                   LocalTime(date(2020 + k, 5, 4)), point)
            for k in range(3)
        ]
        for word, point in (("200", 1), ("0", 2))
    )  # fmt: skip
    found = removal(raw, treated, CATALOGUE.parameters["total_coliform"])
    assert [pair.outcome for pair in found.pairs] == [Outcome.AT_LEAST] * 3
    assert said(found).startswith("At least 99.5 % removed (middle of 3 pairs of the same day, too")


def test_germs_are_told_in_powers_of_ten():
    assert compare(DAY, span("2000"), span("<2")).logs == pytest.approx(3)


def test_only_samples_of_the_same_day_are_paired():
    raw, treated = results("20 20 20", 1), results("5 5", 2)
    assert len(removal(raw, treated, ARSENIC).pairs) == 2
    late = [
        Result(0, 0, "arsenic", "Arsenic", r.reading, LocalTime(date(1999, 1, 1)), 2)
        for r in treated
    ]
    assert "No raw and treated samples" in said(removal(raw, late, ARSENIC))


def test_non_detects_after_treatment_make_the_median_a_least_share():
    found = removal(results("20 20 20 20 20", 1), results("<2 <1 <2 <2 1", 2), ARSENIC)
    assert (found.n, found.censored, found.share, found.at_least) == (5, 4, 0.9, True)
    assert said(found).startswith("At least 90 % removed (middle of 5 pairs")


def test_the_sign_test_and_the_median_are_those_of_scipy():
    found = removal(results("20 22 19 25 21 20 23", 1), results("5 6 30 4 7 3 8", 2), ARSENIC)
    theirs = stats.binomtest(6, 7)
    assert (found.statistic, found.p) == (6, pytest.approx(theirs.pvalue))
    # Order statistics of the median: with seven pairs the 1st and 7th hold 90 % (scipy: 98.4 %).
    assert stats.binom.cdf(0, 7, 0.5) <= 0.05 < stats.binom.cdf(1, 7, 0.5)
    shares = sorted(
        1 - t / r for r, t in zip((20, 22, 19, 25, 21, 20, 23), (5, 6, 30, 4, 7, 3, 8), strict=True)
    )
    assert (found.low, found.share, found.high) == pytest.approx((shares[0], shares[3], shares[6]))
    assert "1 of them with more after treatment than before" in said(found)


def test_few_pairs_have_no_interval():
    found = removal(results("20 20 20", 1), results("5 6 7", 2), ARSENIC)
    assert (found.low, found.high) == (None, None)
    assert found.share == pytest.approx(0.7)
