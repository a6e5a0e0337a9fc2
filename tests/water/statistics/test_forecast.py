"""When a limit is reached: the interval holds the true day, and nothing is told without a trend.

Referees: made-up histories whose true line is known; scipy for least squares on clean lines.
"""

import random
from datetime import date

import pytest
from made_up_histories import days_of, made_up
from scipy import stats

from wellbook.water.statistics.forecast import Way, course, crossing, day_of
from wellbook.water.statistics.season.guarded_test import guarded_test
from wellbook.water.statistics.series import DAYS_A_YEAR, Series, span_on
from wellbook.water.statistics.theil_sen import Slope

DAYS = tuple(date(2010 + k, 5, 4) for k in range(10))


def line_of(figures, days=DAYS):
    spans = tuple(span_on(d, y, y) for d, y in zip(days, figures, strict=True))
    found = guarded_test(Series(spans, tuple(days)))
    return course(found.flat, found.slope)


def scattered(start, step):
    return [start + step * k + (-1) ** k * 0.1 for k in range(10)]


def test_a_clean_line_reaches_its_limit_where_least_squares_do():
    fit = stats.linregress([d.toordinal() for d in DAYS], scattered(5, 0.5))
    found = crossing(line_of(scattered(5, 0.5)), 11)
    expected = (11 - fit.intercept) / fit.slope
    assert found.says is Way.RISES_ABOVE
    assert found.day.toordinal() == pytest.approx(expected, abs=60)
    assert found.earliest < found.day < found.latest


def test_a_falling_line_falls_below_its_limit():
    found = crossing(line_of(scattered(15, -0.5)), 9)
    assert found.says is Way.FALLS_BELOW
    assert found.earliest < found.day < found.latest


def test_nothing_is_told_of_a_limit_that_is_passed_already():
    assert crossing(line_of(scattered(5, 0.5)), 6) is None


def test_nothing_is_told_further_ahead_than_the_tests_look_back():
    line = line_of(scattered(5, 0.5))
    assert crossing(line, 5 + 0.5 * 17) is not None
    assert crossing(line, 5 + 0.5 * 19) is None


def test_seven_tests_tell_no_crossing():
    assert line_of(scattered(5, 0.5)[:7], DAYS[:7]) is None
    assert line_of(scattered(5, 0.5)[:8], DAYS[:8]) is not None


def test_an_open_slope_tells_no_crossing():
    flat = [span_on(d, 1.0, 1.0) for d in DAYS]
    assert course(flat, Slope(0.5, None, 0.7, 0.9)) is None
    assert course(flat, Slope(None, None, None, 0.9)) is None


def test_the_interval_grows_with_the_distance():
    line = line_of(scattered(5, 0.5))
    widths = [line.high(line.last + k) - line.low(line.last + k) for k in range(5)]
    assert widths == sorted(widths)


@pytest.mark.parametrize(("plan", "n", "cycle"), [("12 months", 10, 0), ("14 months", 12, 2)])
def test_the_interval_holds_the_true_day_nine_times_in_ten(plan, n, cycle):
    """Only histories that show a trend are told; the interval must hold for these."""
    chance, held, told = random.Random(f"{plan} {n}"), 0, 0
    for _ in range(120):
        days = days_of(plan, n, chance)
        history = made_up(days, chance, rise=5, cycle=cycle)
        found = guarded_test(history)
        line = course(found.flat, found.slope) if found.p <= 0.1 else None
        reached = crossing(line, 5.8) if line and found.statistic > 0 else None
        if reached:
            told += 1
            first, last = (history.spans[k].at for k in (0, -1))
            true = day_of(first + 5.8 / 5 * (last - first))
            held += reached.earliest <= true and (reached.latest is None or true <= reached.latest)
    assert told > 60
    assert stats.binomtest(held, told, 0.87, "less").pvalue > 0.01


def test_a_day_is_read_back_from_its_time():
    assert day_of(date(2020, 2, 29).toordinal() / DAYS_A_YEAR) == date(2020, 2, 29)
