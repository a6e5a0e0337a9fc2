"""What is said of trends, changes and removal, word for word, and the lines that are drawn."""

import random
import re
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from in_words import said

from wellbook.support import paths
from wellbook.water.statistics import trend_power
from wellbook.water.statistics.outcomes import FURTHEST
from wellbook.water.statistics.removal import Outcome, compare, removal
from wellbook.water.statistics.series import CensoredValue, quarter
from wellbook.water.statistics.step_change import step_change
from wellbook.water.statistics.trend import trend
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.wording.trends import months

PARAMETERS = read_catalogue(paths.resources()).parameters
NITRATE, COLIFORM = PARAMETERS["nitrate"], PARAMETERS["total_coliform"]
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}
INFINITE = float("inf")
EVENT = date(2010, 6, 1)


def result(word, day, parameter=NITRATE):
    number = Decimal(word.strip("<>"))
    kind = KINDS.get(word[0], Kind.NUMBER)
    reading = Reading(word, kind, number, parameter.unit, parameter.basis)
    return Result(0, 0, parameter.key, parameter.name, reading, LocalTime(day), 1)


def outlook(history, parameter):
    return trend_power.outlook(history, parameter, trend(history, parameter))


def yearly(words, start=2000):
    return [result(word, date(start + k, 5, 1)) for k, word in enumerate(words.split())]


def around(before, after, step=365):
    """Tests at even steps before and after the event."""
    back = [result(w, EVENT - timedelta(step * (k + 1))) for k, w in enumerate(before.split())]
    on = [result(w, EVENT + timedelta(step * (k + 1))) for k, w in enumerate(after.split())]
    return back + on


def test_the_four_quarters_are_those_of_the_seasons():
    """December to February, March to May, and so on: the usual meteorological seasons."""
    quarters = [quarter(date(2024, month, 15)) for month in range(1, 13)]
    assert quarters == [0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 0]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ("", "No test with a usable figure yet; a trend needs at least 6."),
        (
            "1",
            "Too few tests to tell: 1 test of May 2000; at least 6 are needed, so 5 more tests.",
        ),
        (
            "1 2 3 4 5",
            (
                "Too few tests to tell: 5 tests from May 2000 to May 2004; at least 6 are needed, "
                "so 1 more test."
            ),
        ),
        ("<1", "Never detected in 1 test of May 2000."),
        ("<1 <2", "Never detected in 2 tests from May 2000 to May 2001."),
    ],
)
def test_few_tests_are_told_in_full(words, sentence):
    assert said(trend(yearly(words), NITRATE)) == sentence


@pytest.mark.parametrize(
    ("words", "bounds"),
    [
        ("1 <2 3 4 5 6", ", 1 of them a non-detect,"),
        ("1 <2 <3 4 5 6 7", ", 2 of them non-detects,"),
        ("1 2 3 4 5 6 >7", ", 1 of them off scale,"),
        ("1 <2 <3 4 5 6 7 >8", ", 2 of them non-detects, 1 of them off scale,"),
        ("1 2 3 4 5 6", " to May 2005, by"),
    ],
)
def test_bounds_are_counted_by_their_kind(words, bounds):
    assert bounds in said(trend(yearly(words), NITRATE))


def test_what_matters_only_as_found_or_not_has_no_trend():
    found = trend([result("1", EVENT, COLIFORM)], COLIFORM)
    assert (found.n, found.censored, found.slope_per_year, found.line) == (0, 0, None, None)
    assert said(found).startswith("A trend is not worked out")


def test_a_rise_without_a_sure_rate_says_so():
    found = trend(yearly("<1 <1 <1 <1 >5 >5 >5 >5"), NITRATE)
    assert (found.says, found.slope_per_year) == ("rising", None)
    assert ", but too many figures are equal or only bounds for a yearly rate (p" in said(found)
    assert found.line is None


def test_no_clear_trend_has_its_chance_and_no_rate():
    found = trend(yearly("2 3 2.5 3.5 2.2 2.9 2.4"), NITRATE)
    assert said(found) == (
        "No clear trend in 7 tests from May 2000 to May 2006 (p = 1; exact Mann-Kendall test)."
    )


def test_an_interval_open_on_one_side_says_so():
    found = trend(yearly("<5 <5 <5 6 7 8"), NITRATE)
    assert (found.says, found.low is None or found.high is None) == ("rising", True)
    assert f"(90 % interval {found.low:.2g} or more; p = {found.p:.2g}; " in said(found)


def test_an_end_at_no_change_is_told_as_more_than_nothing():
    found = trend(yearly("1 1 1 1 1 1 2 2 2 2 2 2"), NITRATE)
    assert (found.says, found.low) == ("rising", 0)
    assert "90 % interval more than 0, up to 0.14" in said(found)
    found = trend(yearly("2 2 2 2 2 2 1 1 1 1 1 1"), NITRATE)
    assert "90 % interval more than 0, up to 0.14" in said(found)


def test_a_rate_beside_a_wide_interval_is_never_about_nothing():
    """A softener's leakage: the interval is so wide that its digits leave none to the rate."""
    found = trend(yearly("<5 5 5 5.5 8 30 30"), NITRATE)
    told = replace(found, slope_per_year=0.3, low=0.0, high=12.0)
    assert "by about 0.3 mg/L as N a year (90 % interval more than 0, up to 12;" in said(told)
    told = replace(found, slope_per_year=0.3, low=0.02, high=12.0)
    assert "by about 0.3 mg/L as N a year (90 % interval more than 0, up to 12;" in said(told)


def test_a_trend_of_few_detected_figures_says_so():
    assert "It rests on 3 detected figures only." in said(trend(yearly("<5 <5 <5 6 7 8"), NITRATE))
    assert "It rests on" not in said(trend(yearly("1 2 3 4 5 6"), NITRATE))


def test_rate_and_interval_of_a_fall_have_the_same_digits_and_no_sign():
    found = step_change(around("247 250 251 249 248", "4 3 2 4 3"), NITRATE, EVENT)
    assert found.says == "lower"
    size, low, high = re.search(r"by about (\S+) .*interval (\S+) to (\S+)\)", said(found)).groups()
    assert float(low) <= float(size) <= float(high)
    assert (len(size), len(low), len(high)) == (3, 3, 3)


@pytest.mark.parametrize(
    "words", ["3 2 3.5 4 5.2 6 7.1", "7 6 5.5 5.9 4 3 2.2", "1 2 4 8 16 32 64"]
)
def test_the_interval_that_is_told_holds_the_rate_that_is_told(words):
    told = said(trend(yearly(words), NITRATE))
    rate, low, high = re.search(r"by about (\S+) .*interval (\S+) to ([0-9.]+)", told).groups()
    assert float(low) <= float(rate) <= float(high)
    assert {len(part.partition(".")[2]) for part in (rate, low, high)} == {
        len(rate.partition(".")[2])
    }


def test_a_softener_gives_sodium_and_takes_none_away():
    found = removal(yearly("10 10 11 10 10"), yearly("100 110 105 100 104"), NITRATE)
    assert said(found).startswith("After treatment 10 times as much as before (middle of 5 pairs")
    assert "90 % interval" in said(found)
    assert "-" not in said(found)
    assert "removed" not in said(found)


@pytest.mark.parametrize("words", ["3 2 3.5 4 5.2 6 7.1", "3 1 2.2 3 4.1 5 6 7", "8 9 6 5 5.5 3 1"])
def test_the_line_goes_through_the_middle_of_what_the_slope_leaves(words):
    history = yearly(words)
    found = trend(history, NITRATE)
    days = [one.collected.day for one in history]
    ages = [(day - days[0]).days / 365.25 for day in days]
    left = [
        float(w) - found.slope_per_year * age for w, age in zip(words.split(), ages, strict=True)
    ]
    (start, low), (end, high) = found.line
    assert (start, end) == (days[0], days[-1])
    assert low == pytest.approx(median(left))
    assert high == pytest.approx(median(left) + found.slope_per_year * ages[-1])


def test_a_line_with_a_non_detect_keeps_the_non_detect_low():
    found = trend(yearly("<1 1 2 3 4 5 6 7"), NITRATE)
    assert found.line[0][1] == pytest.approx(0, abs=0.01)


def in_months(counts):
    """So many tests in the middle month of each quarter, year after year, ever higher."""
    days = sorted(
        date(2000 + year, month, 15)
        for month, number in zip((1, 4, 7, 10), counts, strict=True)
        for year in range(number)
    )
    return [result(f"{k + 1}", day) for k, day in enumerate(days)]


@pytest.mark.parametrize(
    ("counts", "seasonal"),
    [((5, 5, 5, 5), True), ((6, 6, 6, 4), False), ((4, 6, 6, 6), False), ((6, 6, 6, 0), False)],
)
def test_seasons_are_tested_apart_once_each_of_the_four_has_five_tests(counts, seasonal):
    found = trend(in_months(counts), NITRATE)
    assert (found.test == "seasonal Kendall test") is seasonal
    assert "test)." in said(found)


def test_a_change_of_something_only_found_or_not_is_not_worked_out():
    found = step_change([result("1", EVENT, COLIFORM)], COLIFORM, EVENT)
    assert (found.says, found.before, found.after, found.censored) == (
        "not for this parameter",
        0,
        0,
        0,
    )
    assert said(found).startswith("A change is not worked out")


def test_three_tests_on_each_side_can_just_show_a_change():
    """All of three above all of three: 2 of 20 ways, p = 0.1."""
    found = step_change(around("20 22 19", "60 75 58"), NITRATE, EVENT)
    assert (found.says, found.p) == ("higher", pytest.approx(0.1))
    assert said(found) == (
        "Higher afterwards in 3 tests before and 3 after, by about 40 mg/L as N (90 % interval 36 "
        "to 56) (p = 0.1; rank-sum test)."
    )
    found = step_change(around("60 75 58", "20 22 19"), NITRATE, EVENT)
    assert (found.says, found.shift) == ("lower", -40)


def test_no_change_is_told_with_its_chance_only():
    found = step_change(around("20 22 19", "21 20 23 <25"), NITRATE, EVENT)
    assert said(found) == (
        "No clear change in 3 tests before and 4 after, 1 of them a non-detect or off scale "
        f"(p = {found.p:.2g}; rank-sum test)."
    )


def test_a_change_between_bounds_only_has_no_interval():
    found = step_change(around("<5 <5 <5 <5", "6 7 8 9"), NITRATE, EVENT)
    assert found.says == "higher"
    assert "interval" not in said(found)


def test_the_day_of_the_event_is_of_no_season():
    winters = [result(w, date(year, 1, 9)) for w, year in (("1", 2007), ("2", 2008), ("3", 2009))]
    summers = [result(w, date(year, 7, 9)) for w, year in (("4", 2011), ("5", 2012), ("6", 2013))]
    for day in (date(2010, 7, 9), date(2010, 1, 20)):
        found = step_change([*winters, result("9", day), *summers], NITRATE, day)
        assert "fall into different seasons" in said(found)


def span(word):
    number = float(word.strip("<>"))
    low = -INFINITE if word[0] == "<" else number
    return CensoredValue(0, low, INFINITE if word[0] == ">" else number)


@pytest.mark.parametrize(
    ("raw", "treated", "outcome", "share", "logs"),
    [
        ("0.5", "0.1", Outcome.REMOVED, 0.8, 0.699),
        ("20", "20", Outcome.REMOVED, 0, 0),
        ("20", "0", Outcome.REMOVED, 1, None),
        ("100", ">0.5", Outcome.AT_MOST, 0.995, 2.301),
        (">20", "<20", Outcome.OVERLAP, None, None),
        (">20", "<30", Outcome.OVERLAP, None, None),
        ("20", "<19", Outcome.AT_LEAST, 0.05, 0.0223),
    ],
)
def test_removal_by_share_and_by_powers_of_ten(raw, treated, outcome, share, logs):
    found = compare(EVENT, span(raw), span(treated))
    assert found.outcome is outcome
    assert found.share == (None if share is None else pytest.approx(share))
    assert found.logs == (None if logs is None else pytest.approx(logs, abs=0.001))


@pytest.mark.parametrize(
    ("raw", "treated", "share"),
    [
        ("20", "3", "85 %"),
        ("1000", "146", "85 %"),
        ("1000", "3", "99.7 %"),
        ("10000", "14", "99.9 %"),
    ],
)
def test_a_share_has_decimals_only_where_they_tell(raw, treated, share):
    assert said(compare(EVENT, span(raw), span(treated))) == f"{share} removed."


def paired(raw, treated):
    return removal(yearly(raw), yearly(treated), NITRATE)


def test_as_many_pairs_up_as_down_are_pure_chance():
    found = paired("20 20", "10 30")
    assert (found.statistic, found.p) == (1, 1)


def test_removal_is_told_with_its_interval_and_the_latest_pair():
    assert said(paired("10 10 10 10 10 10", "1 2 3 4 5 6")) == (
        "65 % removed (middle of 6 pairs of the same day, 90 % interval 40 % to 90 %). "
        "Latest, May 2005: 40 % removed."
    )
    assert said(paired("<1 <1", "<1 <2")) == (
        "In 2 pairs of raw and treated water of the same day, removal can’t be told. "
        "Latest, May 2001: Nothing was detected before treatment, so removal is undefined."
    )
    assert "in 1 pair of" in said(paired("<1", "<1")).casefold()


def test_a_pair_off_scale_after_treatment_may_have_removed_nothing():
    found = paired("100 100 100", "10 20 >50")
    assert (found.share, found.at_least, found.censored) == (pytest.approx(0.8), False, 1)


def test_the_outlook_is_told_in_full():
    shows = outlook(yearly("1 2 3 4 5 6 7"), NITRATE)
    assert (shows.further, shows.years, shows.unit) == (0, 0, "mg/L as N")
    few = outlook(yearly("1.0 2.1 3.0 4.1"), NITRATE)
    assert said(few) == (
        "If it goes on by 1 mg/L as N a year, with tests every 12 months, the trend would show "
        "after about 2 more tests (with a chance of four in five)."
    )
    two = outlook(yearly("1 2"), NITRATE)
    assert (two.further, two.slope_per_year) == (None, pytest.approx(1, abs=0.01))
    assert said(two).startswith("How many more tests it would take can’t be told")


def test_tests_twice_a_year_take_half_as_long():
    history = [result(f"{1 + k}", date(2000, 1, 1) + timedelta(183 * k)) for k in range(4)]
    found = outlook(history, NITRATE)
    assert (found.further, found.years) == (2, pytest.approx(1.0, abs=0.01))
    assert "with tests every 6 months" in said(found)


@pytest.mark.parametrize("words", ["10 12.5 10.6 13 10.4 12.6 11.5", "5 4 5.2 3.9 4.4 3.6"])
def test_the_foretold_number_of_tests_shows_the_trend_in_about_four_of_five(words):
    """Played through here in another way: figures scattered about the line as in the past."""
    history = yearly(words)
    found = outlook(history, NITRATE)
    slope, n = found.slope_per_year, len(history)
    start = history[0].collected.day.year
    left = sorted(float(w) - slope * k for k, w in enumerate(words.split()))
    chance = random.Random(7)

    def shows(further):
        more = []
        for k in range(n, n + further):
            place = chance.random() * (n - 1)
            at = min(int(place), n - 2)
            scatter = left[at] + (place - at) * (left[at + 1] - left[at])
            figure = f"{max(0.0, scatter + slope * k):.4f}"
            more.append(result(figure, date(start + k, 5, 1)))
        return trend([*history, *more], NITRATE).says == ("rising" if slope > 0 else "falling")

    assert 0 < found.further < FURTHEST
    at_last = sum(shows(found.further) for _ in range(100))
    much_before = sum(shows(max(1, found.further // 2)) for _ in range(100))
    assert at_last >= 65
    assert much_before < 80


def test_a_share_of_a_reading_that_is_not_a_number_is_left_out():
    words = replace(yearly("1")[0], reading=Reading("see note", Kind.TEXT))
    assert removal([words], yearly("1"), NITRATE).pairs == ()


def test_a_change_with_one_open_end_says_so():
    found = step_change(around("1 <5 <5 <5", "6 7 8 9"), NITRATE, EVENT)
    assert (found.says, found.low is None or found.high is None) == ("higher", True)
    assert "(90 % interval 2 or more)" in said(found)
    assert "by about" in said(found)


def test_a_chance_of_11_in_100_is_not_yet_a_trend():
    """Kendall's table: of eight in a row a score of 14 or more has 5.4 % on either side."""
    found = trend(yearly("8 1 2 3 4 5 6 7"), NITRATE)
    assert (found.statistic, found.says) == (14, "no clear trend")
    assert found.p == pytest.approx(0.108, abs=0.001)


def test_the_pace_of_tests_is_told_in_whole_months():
    told = [months(years) for years in (0.01, 1 / 12, 0.17, 1, 1.2)]
    assert told == ["1 month", "1 month", "2 months", "12 months", "14 months"]


def test_a_trend_that_likeness_may_explain_says_so_and_foretells_nothing():
    waves = "1.0 2.0 3.1 2.6 2.1 1.7 3.0 4.1 5.0 4.2 3.3 2.9"
    found = trend(yearly(waves), NITRATE)
    assert found.says == "rising"
    assert found.course is None
    assert "Successive tests resemble each other, and 12 tests are too few" in said(found)
    straight = trend(yearly("1.0 2.2 2.9 4.3 4.8 6.2 6.9 8.1 9.2 9.7 11.3 11.8"), NITRATE)
    assert straight.course is not None
    assert "resemble" not in said(straight)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 400), min_size=6, max_size=14), st.booleans())
def test_rate_and_interval_never_carry_a_sign_and_agree_in_their_digits(tenths, rises):
    ranked = sorted(tenths, reverse=not rises)
    told = said(trend(yearly(" ".join(f"{one / 10:.1f}" for one in ranked)), NITRATE))
    found = re.search(r"by about (\S+) .*interval (\S+) to ([0-9.]+)", told)
    assert not re.search(r"[-−]\d", told.replace("p < ", ""))
    if found:
        rate, low, high = found.groups()
        assert float(low) <= float(rate) <= float(high)
        assert len({len(part.partition(".")[2]) for part in found.groups()}) == 1
    elif "90 % interval" in told:
        assert "more than 0, up to" in told or "or more" in told
