"""Intervals and the walk of 14-month steps through the seasons.

The counts (six months, five or six tests, four with grace) are arithmetic: 14 mod 12 is 2.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from way_to_the_lab import way

from wellbook.water.sampling.intervals import Cadence, _tests_left, panel_due
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, add_months, season_of, wet_and_dry
from wellbook.wording.dues import worded

METALS = Panel("metals", "Metals", ("arsenic", "lead"), (), 14, "", "")
BACTERIA = Panel("bacteria", "Bacteria", ("total_coliform",), (), 12, "", "")
ONE = Panel("one", "One", ("nitrate",), (), 14, "", "")
OPEN = way()
TODAY = date(2026, 11, 25)

starts = st.dates(date(1990, 1, 1), date(2060, 12, 31))


def due(panel, days, today=TODAY, months=None, **more):
    months = panel.months if months is None else months
    found = panel_due(panel, months, days, today, NORTHERN, more.pop("calendar", OPEN), **more)
    return found and worded(found)


@pytest.mark.parametrize(
    ("day", "n", "expected"),
    [
        (date(2024, 12, 31), 14, date(2026, 2, 28)),
        (date(2022, 12, 31), 14, date(2024, 2, 29)),  # 2024 is a leap year
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2024, 1, 31), 3, date(2024, 4, 30)),
        (date(2024, 5, 15), -5, date(2023, 12, 15)),
        (date(2024, 3, 31), -1, date(2024, 2, 29)),
    ],
)
def test_a_step_of_months_ends_in_the_months_last_day_if_it_is_shorter(day, n, expected):
    assert add_months(day, n) == expected


@given(starts, st.integers(-200, 200))
def test_a_step_of_months_lands_in_the_right_month(day, n):
    landed = add_months(day, n)
    assert (landed.year * 12 + landed.month) - (day.year * 12 + day.month) == n
    assert landed.day <= day.day
    assert landed.day == day.day or (landed + timedelta(days=1)).day == 1


@given(starts)
def test_strict_steps_visit_six_months_in_seven_years(start):
    visited = [add_months(start, 14 * k) for k in range(12)]
    assert len({day.month for day in visited}) == 6
    assert add_months(start, 14 * 6).year - start.year == 7
    assert visited[6].month == start.month


@given(starts)
def test_strict_steps_need_five_tests_or_six_from_a_seasons_first_month(start):
    needed, seen = 0, set()
    while len(seen) < 4:
        seen.add(season_of(add_months(start, 14 * needed), NORTHERN))
        needed += 1
    if start.month % 3 == 0:  # March, June, September, December
        assert needed == 6
    else:
        assert needed <= 5


@given(starts, st.sampled_from([NORTHERN, SOUTHERN]), st.integers(0, 40))
def test_following_the_suggestions_four_tests_meet_four_seasons(start, scheme, late):
    days = [start]
    for _ in range(3):
        today = add_months(days[-1], 6) + timedelta(days=late)
        suggested = panel_due(ONE, 14, {"nitrate": days}, today, scheme, OPEN)
        assert 13 <= months_between(days[-1], suggested.day) <= 15
        days.append(suggested.day)
    assert len({season_of(day, scheme) for day in days}) == 4


@pytest.mark.parametrize(
    ("months", "first", "last"),
    [
        (3, date(2026, 9, 1), date(2026, 9, 30)),  # no grace: the month in which it falls due
        (12, date(2027, 5, 1), date(2027, 5, 31)),  # one month, back to spring
        (24, date(2028, 4, 1), date(2028, 4, 30)),  # two months, back to spring
    ],
)
def test_the_grace_grows_with_the_interval(months, first, last):
    # Tested in June; summer is known, so any other season within the grace is wanted.
    found = due(ONE, {"nitrate": [date(2026, 6, 9)]}, date(2026, 6, 20), months)
    assert found.window == (first, last)


def test_between_months_that_serve_as_well_the_nearest_to_the_due_day_wins():
    tested = [date(2024, month, 9) for month in range(1, 13)]
    early = due(ONE, {"nitrate": [*tested, date(2025, 7, 8)]}, date(2026, 6, 1))
    assert early.due == date(2026, 9, 8)
    assert early.window == (date(2026, 9, 1), date(2026, 9, 30))


def test_fourteen_months_walk_forward_through_the_year():
    # From March by 14 months: May, July. Backward it would be January, November, September, July.
    summer = frozenset({season_of(date(2026, 7, 1), NORTHERN)})
    assert _tests_left(Cadence(14, 0), 3, NORTHERN, summer) == 2
    assert _tests_left(Cadence(14, 0), 7, NORTHERN, summer) == 0
    assert _tests_left(Cadence(12, 0), 3, NORTHERN, summer) == 24  # never


def test_without_any_test_no_month_is_better_than_another():
    found = due(ONE, {}, date(2026, 12, 1))
    assert "December is as good a start as any." in found.why
    assert found.window == (date(2026, 12, 8), date(2026, 12, 31))


def test_a_panel_may_be_drawn_along_from_the_month_before():
    tested = [date(2024, month, 9) for month in range(1, 13)]
    found = due(ONE, {"nitrate": [*tested, date(2026, 6, 9)]}, date(2026, 6, 20), 36)
    assert found.due == date(2029, 6, 9)
    assert found.earliest == date(2029, 5, 1)


def test_a_panel_may_be_drawn_along_from_the_start_of_its_own_stretch():
    found = due(ONE, {"nitrate": [date(2026, 6, 9)]}, date(2026, 6, 20), 36)
    assert found.due == date(2029, 6, 9)
    assert found.earliest == found.window[0] == date(2029, 3, 1)


def ways_to_meet(month, missing, steps):
    """By trying every way: how many more tests, after one in a month, meet every season."""
    ways = {(month, missing - {season_of(date(2026, month, 1), NORTHERN)})}
    for tests in range(30):
        if any(not left for _unused, left in ways):
            return tests
        ways = {
            (at, left - {season_of(date(2026, at, 1), NORTHERN)})
            for before, left in ways
            for step in steps
            for at in [(before + step - 1) % 12 + 1]
        }
    return 30


@settings(max_examples=25)
@given(
    st.lists(st.dates(date(2020, 1, 1), date(2026, 6, 1)), min_size=1, max_size=4),
    st.sampled_from([6, 12, 14, 24, 36]),
    st.integers(0, 800),
)
def test_what_is_drawn_along_early_meets_the_missing_seasons_as_soon(days, months, late):
    today = max(days) + timedelta(days=late)
    found = panel_due(ONE, months, {"nitrate": days}, today, NORTHERN, OPEN)
    missing = {season_of(date(2026, month, 1), NORTHERN) for month in (1, 4, 7, 10)}
    missing = frozenset(missing - {season_of(day, NORTHERN) for day in days})
    grace = 3 if months >= 36 else 2 if months >= 24 else 1
    steps = range(months - grace, months + grace + 1)
    own = ways_to_meet(found.window[0].month, missing, steps)
    start = found.wanted.replace(day=1)
    while start < found.window[0]:
        assert ways_to_meet(start.month, missing, steps) <= own
        start = add_months(start, 1)


@pytest.mark.parametrize("months", [6, 12, 14, 18, 24, 36, 60])
@pytest.mark.parametrize("month", range(1, 13))
def test_no_walk_within_the_grace_meets_four_seasons_with_fewer_tests(month, months):
    grace = next(grace for least, grace in ((36, 3), (24, 2), (6, 1)) if months >= least)
    days = [OPEN.first_day(date(2020, month, 5), date(2020, month, 28))]
    while len({season_of(day, NORTHERN) for day in days}) < 4:
        today = add_months(days[-1], months) - timedelta(days=120)
        days.append(panel_due(ONE, months, {"nitrate": days}, today, NORTHERN, OPEN).day)
    assert len(days) == fewest(month, months, grace)


def fewest(month, months, grace):
    """The least number of tests, by trying every step that the grace allows."""
    seasons = {n: season.key for n, season in enumerate(NORTHERN.of_month, 1)}
    reached, n = {(month, frozenset({seasons[month]}))}, 1
    while all(len(seen) < 4 for _, seen in reached):
        n += 1
        steps = range(months - grace, months + grace + 1)
        landed = {((at + step - 1) % 12 + 1, seen) for at, seen in reached for step in steps}
        reached = {(at, seen | {seasons[at]}) for at, seen in landed}
    return n


def months_between(one, other):
    return (other.year * 12 + other.month) - (one.year * 12 + one.month)


def test_a_bacteria_test_does_not_put_off_arsenic():
    days = {
        "arsenic": [date(2025, 9, 30)],
        "lead": [date(2025, 9, 30)],
        "total_coliform": [date(2025, 9, 30), date(2026, 10, 6)],
    }
    assert due(METALS, days).due == date(2026, 11, 30)
    assert due(BACTERIA, days).due == date(2027, 10, 6)


def test_the_oldest_of_a_panels_core_parameters_counts():
    days = {"arsenic": [date(2026, 5, 5)], "lead": [date(2025, 3, 3), date(2024, 1, 1)]}
    found = due(METALS, days)
    assert found.last == date(2025, 3, 3)
    assert found.due == date(2026, 5, 3)
    assert found.overdue_days == (TODAY - date(2026, 5, 3)).days


def test_a_panel_never_wholly_tested_is_due_today():
    found = due(METALS, {"arsenic": [date(2026, 5, 5)]})
    assert (found.last, found.due, found.overdue_days) == (None, TODAY, 0)
    assert found.why.startswith("Not all of this was ever tested here.")
    assert due(METALS, {}).why.startswith("Nothing of this was ever tested here.")


def test_a_panel_wanted_once_goes_quiet_once_done():
    assert due(ONE, {"nitrate": [date(2003, 5, 5)]}, months=0) is None
    assert due(ONE, {}, months=0).due == TODAY


def test_the_suggested_month_is_in_a_season_never_tested():
    # Tested in May and July; due in September, the last chance for autumn within the grace.
    days = {"nitrate": [date(2024, 5, 7), date(2025, 7, 8)]}
    found = due(ONE, days, today=date(2026, 3, 1))
    assert found.due == date(2026, 9, 8)
    assert found.window == (date(2026, 10, 1), date(2026, 10, 31))
    assert "first test in autumn" in found.why


def test_between_equal_seasons_the_month_farthest_from_any_test_wins():
    days = {"nitrate": [date(2024, 1, 9), date(2024, 4, 9), date(2024, 7, 9), date(2025, 10, 7)]}
    found = due(ONE, days, today=date(2026, 9, 1))
    assert found.due == date(2026, 12, 7)
    assert found.window[0].month in {11, 12}
    assert "1 month from" in found.why


def test_a_long_overdue_panel_is_suggested_as_soon_as_bottles_can_be_had():
    found = due(ONE, {"nitrate": [date(2020, 1, 7)]})
    assert found.window[0] == date(2026, 12, 2)
    assert found.day == date(2026, 12, 2)  # a Wednesday
    assert found.overdue_days == (TODAY - date(2021, 3, 7)).days


def test_a_postponed_test_is_not_suggested_earlier():
    days = {"nitrate": [date(2025, 9, 30)]}
    found = due(ONE, days, postponed=date(2027, 2, 10))
    assert found.due == date(2027, 2, 10)
    assert found.window[0] >= date(2027, 2, 10)
    assert found.overdue_days == 0


def test_without_a_day_that_can_be_shipped_none_is_suggested():
    shut = way(frozenset(date(2026, 11, 1) + timedelta(days=k) for k in range(400)))
    found = due(ONE, {"nitrate": [date(2025, 9, 30)]}, calendar=shut)
    assert found.day is None
    assert "ask the lab" in found.why


def test_no_sample_is_shipped_before_a_holiday_or_at_the_end_of_a_week():
    thanksgiving = date(2026, 11, 26)  # the fourth Thursday of November 2026
    calendar = way(frozenset({thanksgiving, thanksgiving + timedelta(days=1)}))
    week = [date(2026, 11, 23) + timedelta(days=k) for k in range(7)]
    assert [day.strftime("%a") for day in week if calendar.suits(day)] == ["Mon"]
    assert [day.strftime("%a") for day in week if OPEN.suits(day)] == ["Mon", "Tue", "Wed"]


@given(starts, st.sets(st.integers(0, 900)), st.integers(1, 60), st.integers(0, 800))
def test_a_suggested_day_lies_in_its_window_and_can_be_shipped(start, shut, months, later):
    calendar = way(frozenset(start + timedelta(days=k) for k in shut))
    today = start + timedelta(days=later)
    found = panel_due(ONE, months, {"nitrate": [start]}, today, wet_and_dry([4, 5]), calendar)
    assert found.window[0] <= found.window[1]
    assert found.window[0] >= today
    if found.day is not None:
        assert found.window[0] <= found.day <= found.window[1]
        assert calendar.suits(found.day)
    assert worded(found).why.endswith(".")
