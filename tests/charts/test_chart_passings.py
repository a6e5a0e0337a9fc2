"""Marks say how a result stands, and the first one outside a limit is named in place.

40 CFR 141.62(b): nitrate 10 mg/L as N, since 30 July 1992. 40 CFR 141.63: E. coli absent.
"""

from datetime import date, timedelta

import pytest
from chart_examples import TODAY, describe, history, result

from wellbook.charts.layout import backend
from wellbook.charts.layout.sheet import lay_out
from wellbook.charts.layout.theme import LIGHT
from wellbook.charts.model.parts import Shape
from wellbook.charts.model.stretch import LEAST_DAYS, stretch
from wellbook.water.values.judgement import Verdict

RISING = ["3", "6.9", "8.4", "10.2", "9.6", "11"]


def nitrate(texts=RISING):
    return describe(history("nitrate", date(2018, 5, 4), texts, "mg/L", basis="as N"), "nitrate")


def test_each_mark_carries_the_verdict_of_its_result():
    within, near, over = Verdict.WITHIN, Verdict.NEAR, Verdict.OUTSIDE
    assert [mark.verdict for mark in nitrate().marks] == [within, within, near, over, near, over]


def test_the_first_result_outside_a_limit_is_said_and_named_in_place():
    chart = nitrate()
    assert chart.passing == chart.marks[3]
    said = "Outside a limit in 2 of 6 results, first on 4 Nov 2021: 10.2 mg/L as N."
    assert said in chart.sentence
    with backend.settings():
        sheet = lay_out(chart, (9, 5), LIGHT, with_words=False)
    assert "10.2 on 4 Nov 2021: first outside a limit" in [tag.text for tag in sheet.tags]


def test_of_water_within_its_limit_no_passing_is_said():
    chart = nitrate(["3", "4", "5"])
    assert chart.passing is None
    assert "Outside" not in chart.sentence


def test_present_where_it_must_be_absent_is_a_passing_too():
    found = ((date(2019, 4, 1), "absent"), (date(2021, 7, 3), "present"))
    chart = describe([result("e_coli", day, text) for day, text in found], "e_coli")
    assert (chart.passing.day, chart.passing.shape) == (date(2021, 7, 3), Shape.PRESENT)
    assert "first on 3 Jul 2021: present." in chart.sentence


@pytest.mark.parametrize("more", ["10.1", "12", "900"])
def test_a_worse_result_never_moves_the_first_passing_to_a_later_day(more):
    for place in range(len(RISING)):
        worse = nitrate([*RISING[:place], more, *RISING[place + 1 :]])
        assert worse.passing.day <= nitrate().passing.day


def test_a_stretch_shows_its_days_only_and_keeps_the_figures_up_the_side():
    whole = nitrate()
    part = stretch(whole, date(2021, 1, 1), date(2023, 1, 1))
    assert [mark.day.year for mark in part.marks] == [2021]
    assert (part.low, part.high) == (whole.low, whole.high)
    for line in part.limits:
        assert all(part.first <= step.first <= step.last <= part.last for step in line.steps)
    assert all(part.first <= shade.first <= shade.last <= part.last for shade in part.shades)


def test_a_stretch_stays_within_the_chart_and_has_a_least_length():
    whole = nitrate()
    assert stretch(whole, date.min + timedelta(days=1), date(9000, 1, 1)) == whole
    short = stretch(whole, TODAY, TODAY)
    assert (short.last - short.first).days == LEAST_DAYS
    assert short.last <= whole.last
