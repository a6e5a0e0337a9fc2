from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest
from chart_examples import (
    FLOOD,
    RISING,
    TODAY,
    arsenic,
    catalogue,
    coliform,
    days,
    default_sets,
    describe,
    history,
    nitrate,
    ph,
    result,
)
from scipy.stats import theilslopes

from wellbook.charts.model.parts import EventMark, Scale, Shape, Sort
from wellbook.water.statistics.outcomes import PENDING
from wellbook.water.statistics.trend import trend
from wellbook.water.values.readings import Flag, Kind
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, wet_and_dry
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import stand


def shapes(chart):
    return [mark.shape for mark in chart.marks]


def test_every_figure_is_a_mark_at_its_value_and_day():
    chart = nitrate()
    assert [mark.value for mark in chart.marks] == [float(text) for text in RISING]
    assert [mark.day for mark in chart.marks] == list(days(date(2011, 3, 8), len(RISING)))
    assert chart.marks[0].label == "3.1 mg/L as N"
    assert chart.title == "Nitrate"
    assert chart.unit == "mg/L as N"


def test_marks_are_in_order_of_time_whatever_the_order_given():
    rows = history("nitrate", date(2015, 1, 5), ["1", "2", "3"], "mg/L", basis="as N")
    assert describe(rows[::-1], "nitrate").series == describe(rows, "nitrate").series


def test_a_figure_is_drawn_in_the_usual_unit_and_labelled_as_reported():
    # 44.3 mg/L as nitrate is 10.0 mg/L as nitrogen: molar masses 62.005 and 14.007 g/mol (IUPAC
    # standard atomic weights, abridged, from memory).
    row = result("nitrate", date(2020, 1, 1), "44.3", "mg/L", basis="as NO3")
    (mark,) = describe([row], "nitrate").marks
    assert mark.value == pytest.approx(44.3 * 14.007 / 62.005, rel=1e-3)
    assert mark.label == "44.3 mg/L as NO3"


def test_a_nondetect_stands_open_at_its_limit_and_is_never_zero_or_half():
    (mark,) = describe([result("arsenic", date(2020, 1, 1), "<10", "µg/L")], "arsenic").marks
    assert (mark.shape, mark.value) == (Shape.BELOW, 10.0)


def test_an_off_scale_reading_points_up_at_its_bound():
    (mark,) = describe([result("iron", date(2020, 1, 1), ">20", "mg/L")], "iron").marks
    assert (mark.shape, mark.value) == (Shape.ABOVE, 20.0)


@pytest.mark.parametrize(
    ("flag", "seen"), [(Flag.ESTIMATED, (True, False)), (Flag.HELD_TOO_LONG, (False, True))]
)
def test_what_the_lab_doubts_shows_on_the_mark(flag, seen):
    (mark,) = describe([result("iron", date(2020, 1, 1), "2", "mg/L", flags=[flag])], "iron").marks
    assert (mark.estimated, mark.late) == seen
    assert mark.label == f"2 mg/L ({flag})"


@pytest.mark.parametrize(
    ("row", "note"),
    [
        ({"text": "3", "unit": ""}, "1 result without a usable unit or basis is not drawn."),
        ({"text": "<", "unit": "mg/L"}, "1 result without a figure is not drawn."),
        ({"text": "n/a", "kind": Kind.NONE}, "1 result not analysed is not drawn."),
        (
            {"text": "3", "unit": "mg/L", "flags": [Flag.REJECTED]},
            "rejected by the lab is not drawn",
        ),
    ],
)
def test_what_can_not_be_drawn_is_said(row, note):
    chart = describe([result("iron", date(2020, 1, 1), **row)], "iron")
    assert chart.marks == ()
    assert any(note in said for said in chart.notes)


def test_an_assumed_basis_is_said():
    # Sulfate without a basis is taken as SO4: common practice, no source.
    chart = describe([result("sulfate", date(2020, 1, 1), "30", "ppm")], "sulfate")
    assert any("dilute water" in note for note in chart.notes)


def test_results_of_the_filtered_part_are_counted_in_a_note():
    rows = history("iron", date(2015, 1, 5), ["1", "2"], "mg/L")
    rows.append(result("iron", date(2020, 1, 1), "1", "mg/L", fraction="dissolved"))
    assert (
        "1 of 3 results is of the dissolved (filtered) part only." in describe(rows, "iron").notes
    )


def test_neighbours_are_joined_but_not_over_a_gap_of_more_than_two_intervals():
    rows = history("iron", date(2010, 1, 5), ["1"] * 4, "mg/L", months=12)
    rows += history("iron", date(2020, 1, 5), ["1"] * 3, "mg/L", months=12)
    assert describe(rows, "iron").series[0].runs == ((0, 3), (4, 6))


def test_a_nondetect_is_never_joined():
    rows = history("iron", date(2010, 1, 5), ["1", "2", "<1", "3", "2"], "mg/L")
    assert describe(rows, "iron").series[0].runs == ((0, 1), (3, 4))


def test_two_figures_are_not_joined():
    rows = history("iron", date(2010, 1, 5), ["1", "2"], "mg/L")
    assert describe(rows, "iron").series[0].runs == ()


def test_a_second_point_is_a_series_of_its_own():
    treated = history("nitrate", date(2019, 6, 8), ["0.9", "<0.5"], "mg/L", basis="as N")
    chart = nitrate(other_history=treated, names=("tank", "tap"))
    assert [(s.name, s.second, len(s.marks)) for s in chart.series] == [
        ("tank", False, len(RISING)),
        ("tap", True, 2),
    ]


def test_each_of_two_points_has_its_own_sentence_and_its_own_trend():
    behind = [f"{float(figure) / 4:.1f}" for figure in reversed(RISING)]
    treated = history("nitrate", date(2010, 3, 8), behind, "mg/L", basis="as N")
    chart = nitrate(other_history=treated, names=("tank", "tap"))
    tank, tap = chart.sentence.split(" tap: ")
    assert tank.startswith("tank: Latest, ")
    assert f"{RISING[-1]} mg/L as N" in tank
    assert f"{behind[-1]} mg/L as N" in tap
    assert [word for word in ("Rising in", "Falling in") if word in tank] == ["Rising in"]
    assert [word for word in ("Rising in", "Falling in") if word in tap] == ["Falling in"]
    assert [(line.name, line.second) for line in chart.trends] == [("tank", False), ("tap", True)]


def lead(*drawn):
    """Results of lead: day, figure, how the sample was drawn."""
    return [
        replace(result("lead", day, text, "µg/L", id=number), draw=draw)
        for number, (day, text, draw) in enumerate(drawn, 1)
    ]


def test_first_draw_flushed_and_untold_are_series_of_their_own_and_never_joined():
    days = [date(year, 5, 2) for year in range(2016, 2022)]
    rows = lead(
        *((day, "12", "first draw") for day in days),
        *((day, "1.3", "flushed") for day in days),
        (date(2015, 5, 2), "6", ""),
    )
    chart = describe(rows, "lead")
    assert [(series.marks[0].sort, len(series.marks)) for series in chart.series] == [
        (Sort.FIRST, 6),
        (Sort.FLUSHED, 6),
        (Sort.UNTOLD, 1),
    ]
    assert [series.runs for series in chart.series] == [((0, 5),), ((0, 5),), ()]


def test_the_sentence_says_which_draw_is_the_latest_and_what_the_other_one_held():
    day = date(2025, 9, 23)
    chart = describe(lead((day, "1.31", "flushed"), (day, "18.3", "first draw")), "lead")
    assert "Latest, 23 Sep 2025, first draw: 18.3 µg/L." in chart.sentence
    assert "Latest flushed, 23 Sep 2025: 1.31 µg/L." in chart.sentence
    assert "over the action level of 15 µg/L, published as 0.015 mg/L" in chart.sentence


def test_total_and_dissolved_are_series_of_their_own():
    rows = history("iron", date(2010, 1, 5), ["1", "2", "3", "2"], "mg/L")
    rows += [
        replace(one, id=one.id + 9, reading=replace(one.reading, fraction="dissolved"))
        for one in history("iron", date(2010, 1, 5), ["0.1", "0.2", "0.1", "0.3"], "mg/L")
    ]
    chart = describe(rows, "iron")
    assert [series.marks[0].sort for series in chart.series] == [Sort.TOTAL, Sort.DISSOLVED]
    assert all(len({mark.sort for mark in series.marks}) == 1 for series in chart.series)


def test_bacteria_stand_in_rows_of_words():
    chart = coliform()
    absent, present, unclear = Shape.ABSENT, Shape.PRESENT, Shape.UNCLEAR
    assert chart.scale is Scale.STRIP
    assert shapes(chart) == [absent, present, absent, absent, present, unclear, absent, present]
    assert chart.unit == ""
    assert not chart.trends


def test_growth_too_numerous_to_count_is_not_read_as_present():
    # Confluent growth hides whether coliforms are in it: the sample is invalid without a word on
    # them (40 CFR 141.853(c), as of 2016; from memory).
    row = result("total_coliform", date(2020, 1, 1), "TNTC", kind=Kind.ABOVE)
    assert shapes(describe([row], "total_coliform")) == [Shape.UNCLEAR]


def test_the_trend_line_is_the_one_of_a_reference_library():
    chart = nitrate()
    x = [(mark.day - chart.marks[0].day).days for mark in chart.marks]
    y = [mark.value for mark in chart.marks]
    slope, intercept, *_ = theilslopes(y, x, method="joint")
    # The tests walk through the year, so a small yearly cycle is taken off before the line is laid.
    (line,) = chart.trends
    assert line.start == pytest.approx(intercept, abs=0.05)
    assert line.end == pytest.approx(intercept + slope * x[-1], abs=0.05)
    assert (line.first, line.last) == (chart.marks[0].day, chart.marks[-1].day)


def test_there_is_no_trend_line_where_no_trend_was_found():
    rng = np.random.default_rng(3)
    level = [f"{v:.2f}" for v in 5 + rng.normal(0, 1, 12)]
    assert not describe(history("iron", date(2010, 1, 5), level, "mg/L"), "iron").trends
    assert not describe(history("iron", date(2010, 1, 5), ["1", "2", "3"], "mg/L"), "iron").trends


@pytest.mark.parametrize(
    ("texts", "unit"),
    [
        (["<5"] * 5 + ["6", "7", "8", "9", "10"], "µg/L"),
        (["<1"] * 8 + ["2", "3", "4", "5", "6"], "µg/L"),
        (["0.2", "1.1", "1.9", "3.2", "3.9", "5.2", "6.1", "7.3"], "µg/L"),
        (["9", "7.1", "5.2", "3.3", "1.2", "<1", "<1", "<1"], "µg/L"),
    ],
)
def test_the_line_that_is_drawn_is_the_tested_one_and_stays_above_zero(texts, unit):
    past = history("arsenic", date(2008, 1, 5), texts, unit)
    told = trend(past, catalogue().parameters["arsenic"])
    (drawn,) = describe(past, "arsenic").trends
    (first, start), (last, end) = told.line
    assert (drawn.first, drawn.last, drawn.start, drawn.end) == (first, last, start, end)
    assert min(drawn.start, drawn.end) >= 0
    assert past[0].collected.day <= drawn.first < drawn.last <= past[-1].collected.day
    slope = (drawn.end - drawn.start) / ((drawn.last - drawn.first).days / 365.25)
    assert slope == pytest.approx(told.slope_per_year, rel=0.01)


def test_the_sentence_names_latest_limit_source_date_and_n():
    said = arsenic().sentence
    assert "12.4 µg/L" in said
    assert "over the limit of 10 µg/L, published as 0.010 mg/L" in said
    assert "since 23 Jan 2006" in said  # 66 FR 6976, 22 Jan 2001
    assert "in 12 tests" in said


def test_the_sentence_of_bacteria_counts_the_rows():
    said = coliform().sentence
    assert "8 tests, Feb 2014 to Jan 2024: present in 3, absent in 4, unclear in 1." in said
    assert "must be absent" in said


def test_without_any_test_the_chart_says_so():
    chart = describe([], "nitrate")
    assert chart.sentence == "No test yet."
    assert chart.first < TODAY <= chart.last


def test_the_days_shown_hold_every_mark_and_today():
    chart = nitrate()
    assert chart.first < chart.marks[0].day
    assert chart.last > TODAY


def test_a_single_test_is_not_stretched_over_a_day():
    chart = describe([result("lead", TODAY, "4", "µg/L")], "lead")
    assert (chart.last - chart.first).days > 300


def test_an_event_shortly_before_the_first_test_widens_the_chart_and_older_ones_are_counted():
    rows = history("iron", date(2012, 11, 5), ["1", "2"], "mg/L")
    old = EventMark(date(1990, 1, 1), "drilled")
    chart = describe(rows, "iron", events=[FLOOD, old])
    assert chart.events == (FLOOD,)
    assert chart.first < FLOOD.day
    assert "1 event before the first test is left out." in chart.notes


@pytest.mark.parametrize("scheme", [NORTHERN, SOUTHERN, wet_and_dry([11, 12, 1])])
def test_seasons_cover_the_chart_without_a_gap(scheme):
    shades = nitrate(scheme=scheme).shades
    assert shades[0].first == nitrate().first
    assert shades[-1].last == nitrate().last
    for one, following in pairwise(shades):
        assert following.first == one.last + timedelta(days=1)


def test_winter_is_the_darkest_and_spring_left_white():
    # Meteorological winter of the north: December to February (World Meteorological
    # Organization usage; common practice).
    tones = {shade.name: shade.tone for shade in nitrate().shades}
    assert tones == {"winter": 1, "summer": 2, "spring": 0, "autumn": 0}
    winters = [shade for shade in nitrate().shades[1:-1] if shade.name == "winter"]
    assert {shade.first.month for shade in winters} == {12}


def test_ph_is_drawn_free_of_zero():
    chart = ph()
    assert chart.scale is Scale.FREE
    assert 5 < chart.low < 6.3
    assert 8.5 < chart.high < 10


def test_one_outlier_makes_the_scale_logarithmic_and_a_zero_never_is():
    texts = ["0.05", "0.08", "0.06", "0.11", "7.5", "0.09"]
    assert describe(history("iron", date(2012, 5, 8), texts, "mg/L"), "iron").scale is Scale.LOG
    with_zero = [*texts, "0"]
    chart = describe(history("iron", date(2012, 5, 8), with_zero, "mg/L"), "iron")
    assert chart.scale is Scale.FROM_ZERO


@pytest.mark.parametrize("make", [nitrate, arsenic, ph, coliform])
def test_every_mark_lies_within_the_figures_shown(make):
    chart = make()
    assert all(chart.low <= mark.value <= chart.high for mark in chart.marks)


def test_a_chart_of_a_standing_that_is_known_is_the_same_chart():
    rows = history("nitrate", date(2011, 3, 8), RISING, "mg/L", basis="as N")
    by = (catalogue().parameters["nitrate"], catalogue(), default_sets(), TODAY)
    known = stand(PointRecord.of(rows), *by)
    drawn = describe(rows, "nitrate")
    assert drawn.trends
    assert describe(rows, "nitrate", known=[known]) == drawn
    assert describe(rows, "nitrate", known=[replace(known, trend=PENDING)]) == drawn
    parameter = replace(known.parameter, unit="ug/L")
    assert describe(rows, "nitrate", known=[replace(known, parameter=parameter)]) == drawn
