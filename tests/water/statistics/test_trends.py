"""What a history says about its trend, in words."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from in_words import said

from wellbook.support import paths
from wellbook.water.statistics.outcomes import LEAST
from wellbook.water.statistics.trend import trend
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

PARAMETERS = read_catalogue(paths.resources()).parameters
NITRATE, LEAD, COLIFORM = (PARAMETERS[key] for key in ("nitrate", "lead", "total_coliform"))


def result(word, day, parameter=NITRATE, **more):
    kind = {"<": Kind.BELOW, ">": Kind.ABOVE}.get(word[0], Kind.NUMBER)
    reading = Reading(word, kind, Decimal(word.strip("<>")), parameter.unit, parameter.basis)
    return Result(0, 0, parameter.key, parameter.name, reading, LocalTime(day), 1, **more)


def yearly(words, parameter=NITRATE, start=2000, **more):
    return [
        result(word, date(start + k, 5, 1 + k), parameter, **more)
        for k, word in enumerate(words.split())
    ]


def test_a_steady_rise_is_said_with_rate_interval_and_test():
    found = trend(yearly("2.0 2.3 2.2 2.8 3.1 3.0 3.4 3.9"), NITRATE)
    assert found.says == "rising"
    assert found.low < found.slope_per_year < found.high
    assert said(found) == (
        "Rising in 8 tests from May 2000 to May 2007, by about 0.27 mg/L as N a year "
        "(90 % interval 0.20 to 0.30; p = 0.0017; exact Mann-Kendall test)."
    )


def test_a_fall_mentions_its_non_detects():
    found = trend(yearly("9 8 <7 6 5 4 <3 2 <1"), NITRATE)
    assert found.says == "falling"
    assert found.censored == 3
    assert "9 tests from May 2000 to May 2008, 3 of them non-detects" in said(found)


def test_up_and_down_is_no_clear_trend_and_draws_no_line():
    found = trend(yearly("2 3 2.5 3.5 2.2 2.9 2.4"), NITRATE)
    assert (found.says, found.line) == ("no clear trend", None)
    assert "p = " in said(found)


@pytest.mark.parametrize("n", range(1, LEAST))
def test_few_tests_say_how_many_more_are_needed(n):
    found = trend(yearly(" ".join(str(k) for k in range(1, n + 1))), NITRATE)
    assert (found.says, found.p, found.n) == ("too few tests", None, n)
    assert f"so {LEAST - n} more test" in said(found)


def test_no_test_at_all_is_too_few():
    assert trend([], NITRATE).says == "too few tests"


def test_limits_that_fell_over_the_years_are_only_non_detects():
    found = trend(yearly("<5 <5 <5 <2 <2 <2 <1 <1 <0.5 <0.5"), NITRATE)
    assert found.says == "only non-detects"
    assert found.slope_per_year is None


def test_one_detection_among_many_non_detects_can_not_show_a_trend():
    found = trend(yearly("<1 <1 <1 <1 <1 <1 1.5"), NITRATE)
    assert found.says == "too few tests"
    assert "too few figures differ" in said(found)


def test_presence_has_no_trend():
    words = [replace(r, reading=Reading("absent", Kind.ABSENT)) for r in yearly("0 0 0", COLIFORM)]
    assert trend(words, COLIFORM).says == "not for this parameter"


def test_words_and_rejected_figures_are_left_out():
    history = yearly("1 2 3 4 5")
    word = replace(history[0], reading=Reading("see note", Kind.TEXT))
    rejected = replace(history[0].reading, flags=frozenset({Flag.REJECTED}))
    odd = [word, replace(history[0], reading=rejected)]
    found = trend(history + odd, NITRATE)
    assert found.n == 5
    assert "2 results are left out" in said(found)


def test_what_was_not_analysed_is_not_even_left_out():
    pending = replace(yearly("1")[0], reading=Reading("pending", Kind.NONE))
    assert "left out" not in said(trend([*yearly("1 2 3 4 5 6"), pending], NITRATE))


def test_several_results_of_a_day_count_once_at_their_median():
    history = yearly("1 2 3 4 5 6")
    same_day = [result(word, history[0].collected.day) for word in ("0.5", "9")]
    assert trend(history + same_day, NITRATE) == trend(history, NITRATE)


def test_nitrate_as_no3_and_as_n_are_one_history():
    history = yearly("1.0 1.2 1.4 1.6 1.8 2.0")
    as_no3 = replace(
        history[5], reading=Reading("8.85", Kind.NUMBER, Decimal("8.85"), "mg/L", "as NO3")
    )
    mixed = trend([*history[:5], as_no3], NITRATE)
    assert mixed.slope_per_year == pytest.approx(trend(history, NITRATE).slope_per_year, rel=0.01)


def test_first_draws_and_flushed_samples_of_lead_are_not_mixed():
    flushed = yearly("1 1.1 0.9 1 1.1 0.9 1", LEAD, draw="flushed")
    first = yearly("9 8 9 8 9", LEAD, start=2010, draw="first draw")
    found = trend(flushed + first, LEAD)
    assert (found.n, found.says) == (7, "no clear trend")


def test_dissolved_and_total_are_not_mixed():
    total = yearly("1 1.1 0.9 1 1.1 0.9 1")
    dissolved = [
        replace(r, reading=replace(r.reading, fraction="dissolved"))
        for r in yearly("0.1 0.1 0.1", start=2010)
    ]
    assert trend(total + dissolved, NITRATE).n == 7


def test_the_line_runs_from_the_first_to_the_last_test_through_the_middle():
    found = trend(yearly("1 2 3 4 5 6 7"), NITRATE)
    (start, low), (end, high) = found.line
    assert (start, end) == (date(2000, 5, 1), date(2006, 5, 7))
    assert (low, high) == (pytest.approx(1, abs=0.1), pytest.approx(7, abs=0.1))


def seasonal(rise):
    """Twenty tests that walk through the quarters, spring high; a rise of so much a year."""
    high = {1: 0.0, 4: 8.0, 7: 2.0, 10: 4.0}
    days = [date(2000 + k // 4, month, 15) for k in range(20) for month in [(1, 4, 7, 10)[k % 4]]]
    return [result(f"{5 + high[d.month] + rise * (d.year - 2000):.3f}", d) for d in days]


def test_five_tests_in_every_quarter_bring_the_seasonal_test():
    found = trend(seasonal(0.3), NITRATE)
    assert (found.test, found.says) == ("seasonal Kendall test", "rising")
    assert found.slope_per_year == pytest.approx(0.3, rel=0.01)


def test_a_season_alone_makes_no_trend():
    steady = trend(seasonal(0.0), NITRATE)
    assert (steady.says, steady.statistic) == ("no clear trend", 0)


def test_seasons_that_go_different_ways_are_said():
    history = [
        result(
            f"{10 + (1 if r.collected.day.month < 6 else -1) * r.collected.day.year % 100}",
            r.collected.day,
        )
        for r in seasonal(0.0)
    ]
    assert "seasons don’t go the same way" in said(trend(history, NITRATE))


def test_a_trend_that_just_misses_leaves_no_change_within_its_interval():
    # Twelve tests, the first seven in falling order: S is 24, and 23 over its deviation 14.58 is
    # 1.58, less than the 1.645 of the 10 % level (1.646 without the correction for continuity).
    found = trend(yearly("7 6 5 4 3 2 1 8 9 10 11 12"), NITRATE)
    assert (found.statistic, found.says) == (24, "no clear trend")
    assert found.low <= 0 <= found.high


words = st.tuples(st.sampled_from(("", "<")), st.integers(1, 40)).map(lambda w: f"{w[0]}{w[1]}")
histories = st.lists(words, min_size=6, max_size=14).map(lambda ws: yearly(" ".join(ws)))


@settings(max_examples=60, deadline=None)
@given(histories, st.randoms(use_true_random=False))
def test_the_order_in_which_results_come_does_not_matter(history, chance):
    shuffled = list(history)
    chance.shuffle(shuffled)
    assert trend(shuffled, NITRATE) == trend(history, NITRATE)


@settings(max_examples=60, deadline=None)
@given(histories)
def test_micrograms_say_the_same_as_milligrams(history):
    thousand = [
        replace(r, reading=replace(r.reading, unit="µg/L", number=r.reading.number * 1000))
        for r in history
    ]
    ours, theirs = trend(history, NITRATE), trend(thousand, NITRATE)
    assert (ours.says, ours.p, ours.statistic) == (theirs.says, theirs.p, theirs.statistic)
    assert ours.slope_per_year == pytest.approx(theirs.slope_per_year)


@settings(max_examples=60, deadline=None)
@given(histories)
def test_time_run_backwards_turns_the_sign_and_nothing_else(history):
    last = date(2030, 1, 1).toordinal() + date(2000, 1, 1).toordinal()
    back = [
        replace(r, collected=LocalTime(date.fromordinal(last - r.collected.day.toordinal())))
        for r in history
    ]
    ours, theirs = trend(history, NITRATE), trend(back, NITRATE)
    assert ours.p == pytest.approx(theirs.p)
    if ours.statistic is not None:
        assert ours.statistic == pytest.approx(-theirs.statistic)
    if ours.slope_per_year is not None:
        assert ours.slope_per_year == pytest.approx(-theirs.slope_per_year)


@settings(max_examples=60, deadline=None)
@given(histories)
def test_a_trend_is_said_exactly_when_the_interval_keeps_away_from_no_change(history):
    found = trend(history, NITRATE)
    if found.says == "rising":
        assert found.low is None or found.low >= 0
    if found.says == "falling":
        assert found.high is None or found.high <= 0
    if found.says == "no clear trend" and found.low is not None and found.high is not None:
        assert found.low <= 0 <= found.high
