"""Shares of figures under bounds: where they lie, and what is read from them."""

import math
from datetime import date
from decimal import Decimal

import pytest
from in_words import said

from wellbook.support import paths
from wellbook.water.statistics.kaplan_meier import Mass, kaplan_meier, mean, quantile
from wellbook.water.statistics.series import CensoredValue
from wellbook.water.statistics.summary import spread
from wellbook.water.statistics.turnbull import shares_of, turnbull
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

NITRATE = read_catalogue(paths.resources()).parameters["nitrate"]


def spans(words):
    made = []
    for word in words.split():
        number = float(word.strip("<>"))
        low = -math.inf if word[0] == "<" else number
        made.append(CensoredValue(0, low, math.inf if word[0] == ">" else number))
    return made


def test_what_lies_below_every_detected_figure_is_unplaced_below_the_lowest_of_them():
    (rest, two, three) = kaplan_meier(spans("<1 2 3"))
    assert (rest.low, rest.high, rest.share) == (-math.inf, 2, pytest.approx(1 / 3))
    assert (two.high, three.high) == (2, 3)


def test_without_any_detection_all_lies_below_the_lowest_limit():
    assert kaplan_meier(spans("<5 <1 <2")) == (Mass(-math.inf, 1, 1.0),)
    assert kaplan_meier([]) == (Mass(-math.inf, math.inf, 1.0),)


def test_off_scale_readings_are_not_for_kaplan_meier():
    with pytest.raises(ValueError, match="turnbull"):
        kaplan_meier(spans("1 2 >3"))
    assert shares_of(spans(">5 >5")) == (Mass(5, math.inf, 1.0),)
    assert shares_of(spans("1 2 4 >3"))[-1].high == 4


def test_figures_between_bounds_lie_where_the_bounds_overlap():
    (only,) = turnbull([CensoredValue(0, 1, 5), CensoredValue(0, 2, 6)])
    assert (only.low, only.high, only.share) == (2, 5, pytest.approx(1))


@pytest.mark.parametrize(
    ("words", "share", "figure"),
    [
        ("1 2 3 4", 0.5, 2.5),
        ("1 2 3 4 5", 0.5, 3),
        ("1 2 3 4", 0.25, 1.5),
        ("1 2 3 4", 0.26, 2),
        ("1 2 3 4", 1.0, 4),
        ("1 2 3 4", 0.01, 1),
        ("<1 2", 0.5, None),
        ("<1 2 3", 0.3, None),
        ("<1 2 3", 0.5, 2),
    ],
)
def test_a_quantile_is_a_figure_or_halfway_between_two(words, share, figure):
    assert quantile(kaplan_meier(spans(words)), share) == figure


def test_nothing_has_no_quantile_and_no_mean():
    assert quantile((), 0.5) is None
    assert mean((), 1) is None
    assert mean((Mass(3, math.inf, 1.0),), 1) is None
    assert mean((Mass(1, 3, 0.5), Mass(4, 4, 0.5)), 1) == 3


def history(words):
    kinds = {"<": Kind.BELOW, ">": Kind.ABOVE}
    made = []
    for k, word in enumerate(words):
        number, kind = Decimal(word.strip("<>")), kinds.get(word[0], Kind.NUMBER)
        reading = Reading(word, kind, number, "mg/L", "as N")
        made.append(Result(0, 0, "nitrate", "Nitrate", reading, LocalTime(date(1990 + k, 5, 1)), 1))
    return made


def test_quartiles_of_many_tests_are_those_of_the_counts():
    found = spread(history([str(k) for k in range(1, 21)]), NITRATE)
    assert (found.lower_quartile, found.median, found.upper_quartile) == (5.5, 10.5, 15.5)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            "1.2345 2.3456 3.4567 4.5678 5.6789",
            (
                "Half of 5 tests lay at or below 3.46 mg/L as N, and the middle half from 2.35 to "
                "4.57."
            ),
        ),
        ("3 3 3 3", "Half of 4 tests lay at or below 3 mg/L as N."),
        ("1 >2 >2 >2", "In 4 tests, half or more were off scale."),
        (
            "<1 <1 <1 2.3456 3",
            "In 5 tests (3 non-detects among them), half or more lay below 2.35 mg/L as N.",
        ),
        ("<1 >9", "In 2 tests (1 non-detect among them), half or more lay below 9 mg/L as N."),
    ],
)
def test_the_middle_is_told_in_full(words, sentence):
    assert said(spread(history(words.split()), NITRATE)) == sentence


def test_without_non_detects_the_mean_needs_no_limit():
    assert spread(history(["1", "2", "6"]), NITRATE).mean == 3
