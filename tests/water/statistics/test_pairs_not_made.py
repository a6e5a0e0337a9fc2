"""What is selected without making all pairs is, to the last bit, what all pairs give."""

import os
import random
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.water.statistics import one_by_one
from wellbook.water.statistics import pair_slopes, turnbull
from wellbook.water.statistics.kaplan_meier import kaplan_meier
from wellbook.water.statistics.mann_kendall import kendall_score
from wellbook.water.statistics.pair_slopes import PairSlopes
from wellbook.water.statistics.series import DAYS_A_YEAR, CensoredValue
from wellbook.water.statistics.theil_sen import slope_of

EXAMPLES = int(os.environ.get("WELLBOOK_PAIRS", "60"))
MOST = settings(max_examples=EXAMPLES, deadline=None)

# Figures as labs print them, with many that are alike, and figures of any size.
FIGURES = st.one_of(
    st.integers(0, 6).map(lambda figure: figure / 10),
    st.integers(0, 400).map(lambda figure: figure / 100),
    st.floats(-1e6, 1e6, allow_nan=False),
    st.floats(0, 1e-9, allow_nan=False),
)
TIMES = st.one_of(
    st.integers(725_000, 738_000).map(lambda day: day / DAYS_A_YEAR),
    st.integers(0, 8).map(float),
    st.floats(-20, 20, allow_nan=False).map(lambda at: round(at, 7)),
)


@st.composite
def spans_of(draw, most=40):
    spans = []
    for at, figure, kind, reach in draw(
        st.lists(st.tuples(TIMES, FIGURES, st.integers(0, 7), st.floats(0.001, 5)), max_size=most)
    ):
        bounds = {5: (-inf, figure), 6: (figure, inf), 7: (figure, figure + reach)}
        spans.append(CensoredValue(at, *bounds.get(kind, (figure, figure))))
    return spans


@pytest.fixture(autouse=True)
def _made_only_if_few(monkeypatch):
    """So that small histories are selected from, too."""
    monkeypatch.setattr(pair_slopes, "ALL_UP_TO", 6)
    monkeypatch.setattr(pair_slopes, "_A_TEST", 0)
    monkeypatch.setattr(pair_slopes, "_DRAWN", 20)


@MOST
@given(st.lists(spans_of(), min_size=1, max_size=3))
def test_each_slope_by_its_place_is_that_of_all_pairs_sorted(groups):
    lows, highs = one_by_one.bounds(groups)
    found = PairSlopes(groups)
    assert (found.lows, found.highs, len(found)) == (len(lows), len(highs), len(lows + highs))
    places = list(range(len(found)))
    random.Random(0).shuffle(places)
    assert [found[at] for at in places] == [sorted(lows + highs)[at] for at in places]


@MOST
@given(st.lists(spans_of(), min_size=1, max_size=3), st.floats(0, 90))
def test_slope_and_interval_are_those_of_counting_at_every_bound(groups, critical):
    assert slope_of(PairSlopes(groups), critical, 0.9) == one_by_one.slope(groups, critical, 0.9)


@MOST
@given(spans_of(most=80))
def test_the_score_is_that_of_comparing_every_pair(spans):
    assert kendall_score(spans) == one_by_one.score(spans)


@MOST
@given(spans_of(most=80))
def test_the_shares_are_those_of_counting_for_each_figure(spans):
    kept = [span for span in spans if span.high != inf]
    assert kaplan_meier(kept) == one_by_one.shares(kept)


@MOST
@given(spans_of(most=25))
def test_shares_of_bounds_from_both_sides_are_those_passed_round_one_by_one(spans):
    ends = [turnbull._ends(span) for span in spans]
    places = turnbull._smallest(ends)
    if not places:
        return
    allowed = [[k for k, p in enumerate(places) if a <= p[0] and p[1] <= b] for a, b in ends]
    expected = one_by_one.passed_round(len(places), allowed)
    kept = [share for share in expected if share > 1e-10]
    assert [mass.share for mass in turnbull.turnbull(spans)] == pytest.approx(kept, abs=1e-9)


@pytest.mark.parametrize("digits", [1, 2, 15])
@pytest.mark.parametrize("undetected", [0, 0.4])
def test_hundreds_of_tests_are_as_their_pairs_would_have_them(digits, undetected, monkeypatch):
    for name, usual in (("ALL_UP_TO", 5_000), ("_A_TEST", 8), ("_DRAWN", 600)):
        monkeypatch.setattr(pair_slopes, name, usual)
    chance = random.Random(digits)
    spans = []
    for month in range(400):
        figure = round(max(0.0, 3 + month / 300 + chance.gauss(0, 1)), digits)
        low = -inf if chance.random() < undetected else figure
        spans.append(
            CensoredValue((730_000 + month * 30 + chance.randrange(9)) / 365.25, low, figure)
        )
    groups = [spans[quarter::4] for quarter in range(4)]
    for many in ([spans], groups):
        found = slope_of(PairSlopes(many), 900.5, 0.9)
        assert found == one_by_one.slope(many, 900.5, 0.9)


def test_tests_on_one_line_have_the_slope_of_the_line():
    spans = [CensoredValue(float(k), 2.0 + 0.1 * k, 2.0 + 0.1 * k) for k in range(60)]
    assert slope_of(PairSlopes([spans]), 30, 0.9) == one_by_one.slope([spans], 30, 0.9)
