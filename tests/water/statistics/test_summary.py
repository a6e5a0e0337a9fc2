"""Middle and spread of a history, and the shares they come from."""

import math
from datetime import date
from decimal import Decimal
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from in_words import said

from wellbook.support import paths
from wellbook.water.statistics.kaplan_meier import kaplan_meier, quantile
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.statistics.summary import spread
from wellbook.water.statistics.turnbull import turnbull
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

NITRATE = read_catalogue(paths.resources()).parameters["nitrate"]
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}


def history(words):
    return [
        Result(
            0, 0, "nitrate", "Nitrate",
            Reading(
                word, KINDS.get(word[0], Kind.NUMBER), Decimal(word.strip("<>")), "mg/L", "as N"
            ),
            LocalTime(date(2000 + k, 5, 1)), 1,
        )
        for k, word in enumerate(words.split())
    ]  # fmt: skip


figures = st.lists(st.integers(1, 30), min_size=1, max_size=15)
censored = st.lists(st.tuples(st.booleans(), st.integers(1, 30)), min_size=1, max_size=15)


@given(figures)
def test_without_non_detects_the_middle_is_the_median(values):
    assert quantile(kaplan_meier([CensoredValue(0, y, y) for y in values]), 0.5) == pytest.approx(
        median(values)
    )


@settings(max_examples=60, deadline=None)
@given(censored)
def test_turnbull_is_kaplan_meier_where_there_are_only_non_detects(pairs):
    spans = [CensoredValue(0, -math.inf if below else y, y) for below, y in pairs]
    theirs = [mass for mass in turnbull(spans) if mass.share > 1e-6]
    ours = [mass for mass in kaplan_meier(spans) if mass.share > 1e-6]
    assert [mass.share for mass in theirs] == pytest.approx([m.share for m in ours], abs=1e-4)
    assert [m.high for m in theirs if m.low > 0] == [m.high for m in ours if m.low > 0]


@given(censored)
def test_shares_add_up_to_the_whole(pairs):
    spans = [CensoredValue(0, -math.inf if below else y, y) for below, y in pairs]
    assert sum(mass.share for mass in kaplan_meier(spans)) == pytest.approx(1)


def test_quartiles_are_said():
    found = spread(history("1 2 3 4 5 6 7"), NITRATE)
    assert (found.lower_quartile, found.median, found.upper_quartile) == (2, 4, 6)
    assert said(found) == (
        "Half of 7 tests lay at or below 4 mg/L as N, and the middle half from 2 to 6."
    )


def test_a_middle_below_everything_detected_is_not_made_up():
    found = spread(history("<1 <1 <1 2 3"), NITRATE)
    assert found.median is None
    assert said(found) == (
        "In 5 tests (3 non-detects among them), half or more lay below 2 mg/L as N."
    )


def test_the_mean_puts_the_rest_at_the_lowest_limit():
    assert spread(history("<1 <2 3 5"), NITRATE).mean == pytest.approx((1 + 1 + 3 + 5) / 4)


def test_never_detected_has_no_mean():
    found = spread(history("<1 <2"), NITRATE)
    assert (found.mean, said(found)) == (None, "Never detected in 2 tests.")


def test_off_scale_readings_leave_the_mean_open_but_not_the_middle():
    found = spread(history("1 2 3 >9"), NITRATE)
    assert (found.mean, found.median) == (None, 2.5)


def test_no_test_says_so():
    assert said(spread([], NITRATE)) == "No test with a usable figure yet."
