from dataclasses import replace
from datetime import date, timedelta

import pytest
from chart_examples import TODAY, arsenic, catalogue, coliform, describe, history, nitrate, ph

from wellbook.charts.model.limit_lines import DayRange, limit_lines
from wellbook.water.values.limits import LimitKind

PRIMARY = ("us-epa-primary",)


def lines(parameter, sets, first, last=TODAY):
    parameter = catalogue().parameters[parameter]
    return limit_lines(parameter, catalogue(), sets, DayRange(first, last))


def test_the_limit_of_arsenic_steps_down_on_its_day():
    # 0.05 mg/L until 22 January 2006, 0.010 mg/L from 23 January 2006: 40 CFR 141.62(b) and
    # 66 FR 6976 (22 January 2001).
    (line,) = lines("arsenic", PRIMARY, date(1995, 1, 1))
    before, after = line.steps
    assert (before.value, before.last) == (50.0, date(2006, 1, 22))
    assert (after.value, after.first) == (10.0, date(2006, 1, 23))
    assert line.kind is LimitKind.HEALTH
    assert line.label == "10 µg/L"


def test_a_step_before_the_days_shown_is_left_out():
    (line,) = lines("arsenic", PRIMARY, date(2010, 1, 1))
    assert [step.value for step in line.steps] == [10.0]
    assert line.steps[0].first == date(2010, 1, 1)


def test_between_limits_known_to_the_month_the_line_is_uncertain_in_that_month():
    # Guidelines for Canadian Drinking Water Quality, arsenic, May 2006: 0.025 to 0.010 mg/L.
    (line,) = lines("arsenic", ("canada-gcdwq",), date(2000, 1, 1))
    loose = [step for step in line.steps if not step.certain]
    assert {(s.first, s.last) for s in loose} == {(date(2006, 5, 1), date(2006, 5, 31))}
    assert {step.value for step in loose} == {10.0}  # the newer figure judges the month
    sure = [step for step in line.steps if step.certain]
    assert [(s.value, s.first, s.last) for s in sure] == [
        (25.0, date(2000, 1, 1), date(2006, 4, 30)),
        (10.0, date(2006, 6, 1), TODAY),
    ]


@pytest.mark.parametrize(
    ("start", "end", "drawn"),
    [
        ("2006", "2006-03", [("2006-01-01", "2006-03-31")]),
        ("2006", "2006-03-31", [("2006-01-01", "2006-03-31")]),
        ("2006-05-01", "2006", [("2006-05-01", "2006-12-31")]),
        ("2006-03", "2006", [("2006-03-01", "2006-03-31"), ("2006-04-01", "2006-12-31")]),
    ],
)
def test_a_line_of_vague_dates_never_leaves_the_days_on_which_the_limit_may_hold(start, end, drawn):
    held = replace(catalogue().limits_of("arsenic")[0], start=start, end=end)
    loose = replace(catalogue(), _limits_of={"arsenic": (held,)})
    parameter = catalogue().parameters["arsenic"]
    (line,) = limit_lines(parameter, loose, (held.set,), DayRange(date(2000, 1, 1), TODAY))
    assert [(str(step.first), str(step.last)) for step in line.steps] == drawn
    assert not any(step.certain for step in line.steps)


def test_a_limit_in_another_basis_is_drawn_in_the_usual_one():
    # 50 mg/L as nitrate (directive 98/83/EC, Annex I B) is about 11.3 mg/L as nitrogen.
    (line,) = lines("nitrate", ("eu-dwd",), date(2015, 1, 1))
    assert line.steps[0].value == pytest.approx(11.3, abs=0.05)
    assert "50 mg/L as NO3" in line.text


def test_a_range_is_two_lines():
    # pH 6.5 to 8.5: 40 CFR 143.3.
    low, high = sorted(ph().limits, key=lambda line: line.steps[0].value)
    assert (low.steps[0].value, low.lower) == (6.5, True)
    assert (high.steps[0].value, high.lower) == (8.5, False)


def test_absence_is_words_and_no_line():
    chart = coliform()
    assert all(line.steps == () for line in chart.limits)
    assert any("must be absent" in line.label for line in chart.limits)


def test_health_comes_before_taste():
    chart = describe(history("manganese", date(2015, 1, 5), ["0.1"], "mg/L"), "manganese")
    kinds = [line.kind for line in chart.limits]
    assert kinds == sorted(kinds, key=list(LimitKind).index)
    assert len(set(kinds)) > 1


def test_only_chosen_sets_are_drawn_and_none_that_is_only_proposed():
    assert lines("nitrate", (), date(2015, 1, 1)) == ()
    assert lines("radon_222", ("us-epa-proposed",), date(2000, 1, 1)) == ()


def test_a_limit_to_come_is_a_note():
    # Lead action level 0.010 mg/L from 1 November 2027: 89 FR 86418 (30 October 2024).
    chart = describe(history("lead", date(2026, 1, 5), ["4"], "µg/L"), "lead")
    assert any("0.010 mg/L from 1 Nov 2027" in note for note in chart.notes)
    assert {step.value for line in chart.limits for step in line.steps} == {15.0}


def test_the_limit_is_in_view_though_the_data_lie_far_below():
    rows = history("nitrate", date(2015, 5, 8), ["0.5", "0.6"], "mg/L", basis="as N")
    chart = describe(rows, "nitrate")
    assert chart.limits[0].in_view
    assert chart.high > 10


def test_a_limit_out_of_all_proportion_is_a_note_instead():
    rows = history("nitrate", date(2015, 5, 8), ["0.05", "0.06"], "mg/L", basis="as N")
    chart = describe(rows, "nitrate")
    assert not chart.limits[0].in_view
    assert chart.high < 1
    assert any("10 mg/L as N" in note and "lies above" in note for note in chart.notes)


def test_steps_follow_each_other_and_stay_within_the_chart():
    for chart in (arsenic(), nitrate()):
        for line in chart.limits:
            assert line.steps[0].first >= chart.first
            assert line.steps[-1].last == chart.last
            for one, following in zip(line.steps, line.steps[1:], strict=False):
                assert following.first == one.last + timedelta(days=1)
