"""A change of lab, method or treatment amid a history is no trend of the water.

Labs of one sample differ by more than their scatter (common practice, no source), so figures of two
labs on either side of a day tell of the labs as well. The referee compares pairs within a lab.
"""

import random
from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations

import pytest
from in_words import said

from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.statistics.step_change import step_change
from wellbook.water.statistics.trend import trend
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result

NITRATE = read_catalogue(paths.resources()).parameters["nitrate"]
STEP_UP = "2.1 2.3 2.0 2.2 2.1 2.3 5.2 5.0 5.3 5.1 5.2 5.0"
RISE = "1.0 1.6 2.1 2.7 3.0 3.6 4.1 4.4 5.0 5.6 6.1 6.4"


def history(words, labs="", methods=""):
    """Tests in May of successive years, with a letter for the lab or method of each."""
    labs, methods = labs or " " * 60, methods or " " * 60
    return [
        Result(
            k, k, "nitrate", "Nitrate", read_reading(word, unit="mg/L", basis="as N"),
            LocalTime(date(2000 + k, 5, 1)), 1,
            method=f"{methods[k]} 300" * (methods[k] != " "),
            lab=f"{labs[k]} Lab" * (labs[k] != " "),
        )
        for k, word in enumerate(words.split())
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("words", "says"),
    [(STEP_UP, "higher since a change"), (" ".join(STEP_UP.split()[::-1]), "lower since a change")],
)
@pytest.mark.parametrize("labs", ["AAAAAABBBBBB", "AAACAABBBBBB", "AAAAA  BBBBB"])
def test_a_step_where_the_lab_changed_is_no_trend(words, says, labs):
    found = trend(history(words, labs), NITRATE)
    assert found.says == says
    assert (found.slope_per_year, found.line, found.course) == (None, None, None)
    sentence = said(found)
    assert sentence.startswith(says.split()[0].capitalize())
    assert "12 tests from May 2000 to May 2011 (p" in sentence
    assert "another lab from May 200" in sentence
    assert "nothing is foretold from it" in sentence


def test_a_step_of_the_method_or_the_treatment_is_no_trend_either():
    by_method = trend(history(STEP_UP, methods="AAAAAABBBBBB"), NITRATE)
    assert "another method from May 2006 on" in said(by_method)
    bare = history(STEP_UP)
    assert trend(bare, NITRATE).says == "rising"
    unit = trend(bare, NITRATE, [date(2005, 9, 1)])
    assert "other treatment from May 2006 on" in said(unit)
    assert trend(bare, NITRATE, [date(1999, 1, 1), date(2012, 1, 1)]) == trend(bare, NITRATE)


@pytest.mark.parametrize("labs", ["AAAAAABBBBBB", "ABABABABABAB", "AAAAAA  BBBB", "AAAABBBBCCCC"])
def test_a_rise_that_each_lab_sees_stays_a_rise(labs):
    with_labs, bare = trend(history(RISE, labs), NITRATE), trend(history(RISE), NITRATE)
    assert with_labs == bare
    assert bare.says == "rising"


def test_a_lab_by_turns_hides_nothing_and_one_name_may_be_written_in_two_ways():
    assert trend(history(STEP_UP, "ABABABABABAB"), NITRATE).says == "rising"
    mixed = [
        replace(one, lab="Larch Lab" if k < 6 else "LARCH LAB.")
        for k, one in enumerate(history(STEP_UP))
    ]
    assert trend(mixed, NITRATE).says == "rising"


def test_what_is_called_a_trend_shows_between_tests_of_one_lab():
    chance, moving = random.Random(5), 0
    for _unused in range(60):
        cut, step, rise = chance.randint(2, 10), chance.uniform(-4, 4), chance.uniform(-0.4, 0.4)
        figures = [9 + chance.gauss(0, 1) + step * (k >= cut) + rise * k for k in range(12)]
        words = " ".join(f"{figure:.2f}" for figure in figures)
        found = trend(history(words, "A" * cut + "B" * (12 - cut)), NITRATE)
        within = sum(
            (figures[b] > figures[a]) - (figures[b] < figures[a])
            for a, b in combinations(range(12), 2)
            if (a < cut) is (b < cut)
        )
        if found.says in {"rising", "falling"}:
            moving += 1
            assert (within > 0) is (found.says == "rising")
    assert moving > 5


def test_before_and_after_an_event_by_other_labs_says_so():
    event = date(2005, 9, 1)
    told = said(step_change(history(STEP_UP, "AAAAAABBBBBB", "AAAAAABBBBBB"), NITRATE, event))
    assert "by other labs, which may be the reason" in told
    assert "by other methods, which may be the reason" in told
    assert "may be the reason" not in said(
        step_change(history(STEP_UP, "AAAAABBBBBBB"), NITRATE, event)
    )
    later = event + timedelta(days=700)
    assert "may be the reason" not in said(
        step_change(history(STEP_UP, "AAAAAABBBBBB"), NITRATE, later)
    )
