"""How many further tests would tell."""

import pytest
from in_words import said
from test_trends import NITRATE, yearly

from wellbook.water.statistics import trend_power
from wellbook.water.statistics.outcomes import FURTHEST
from wellbook.water.statistics.trend import trend


def outlook(history, parameter):
    return trend_power.outlook(history, parameter, trend(history, parameter))


def test_a_trend_that_shows_needs_no_further_test():
    assert outlook(yearly("1 2 3 4 5 6 7"), NITRATE).further == 0


def test_a_steady_rise_of_four_tests_shows_with_the_least_number():
    found = outlook(yearly("1.0 2.1 3.0 4.1"), NITRATE)
    assert found.further == 2
    assert found.years == pytest.approx(2, abs=0.1)


def test_the_weaker_the_slope_the_more_tests_it_takes():
    scatter = (0, 3, 1, 4, 0, 2, 1)
    further = [
        outlook(
            yearly(" ".join(f"{10 + rise * k + e:.2f}" for k, e in enumerate(scatter))), NITRATE
        ).further
        for rise in (0.4, 0.1)
    ]
    assert 0 < further[0] < further[1]


def test_the_answer_is_the_same_each_time_and_said_with_its_chance():
    history = yearly("2 3 2.5 3.5 2.2 2.9 2.4")
    assert outlook(history, NITRATE) == outlook(history, NITRATE)
    assert "with a chance of four in five" in said(outlook(history, NITRATE))


def test_going_on_as_foretold_does_show_the_trend():
    words = "2.0 2.6 2.1 2.9"
    further = outlook(yearly(words), NITRATE).further
    slope = trend(yearly(words + " 2.5 2.9"), NITRATE).slope_per_year
    more = " ".join(f"{2.2 + slope * (4 + k):.2f}" for k in range(further + 2))
    assert trend(yearly(f"{words} {more}"), NITRATE).says == "rising"


@pytest.mark.parametrize("words", ["3 3 3 3 3", "<1 <1 <1 <1", "2", ""])
def test_no_change_or_no_figures_can_not_be_foretold(words):
    assert outlook(yearly(words), NITRATE).further is None


def test_next_to_no_slope_never_shows():
    found = outlook(yearly("2 9 1 8 2.01 9.01 1.01 8.01"), NITRATE)
    assert found.further is None
    assert f"within {FURTHEST} more tests" in said(found)
