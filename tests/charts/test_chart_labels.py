from dataclasses import replace
from datetime import date, timedelta

from chart_examples import dense, describe, history, nitrate
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.charts.layout.labels import place_events
from wellbook.charts.layout.paper import Box, Pen
from wellbook.charts.layout.plot import Plot, day_ticks, figure_ticks
from wellbook.charts.layout.sheet import lay_out
from wellbook.charts.layout.theme import LIGHT
from wellbook.charts.model.parts import EventMark

PEN = Pen("condensed", 7.5)
CHART = nitrate()
PLOT = Plot(Box(0.5, 1.0, 8.9, 4.0), CHART)

unhurried = settings(deadline=None)  # the first run loads matplotlib
events = st.lists(
    st.builds(
        EventMark,
        st.dates(CHART.first, CHART.last),
        st.sampled_from(["flood", "new pump", "a treatment unit with a very long name, installed"]),
    ),
    max_size=30,
).map(lambda found: sorted(found, key=lambda event: event.day))


def boxes(flags):
    return [Box(f.left, float(f.row), f.left + PEN.width(f.text), f.row + 1.0) for f in flags.flags]


@unhurried
@given(events)
def test_no_event_label_lies_on_another_or_beyond_the_plot(found):
    placed = boxes(place_events(found, PLOT, PEN, numbers_only=False))
    for n, box in enumerate(placed):
        assert box.left >= PLOT.box.left
        assert box.right <= PLOT.box.right + 0.2
        assert not any(box.meets(other) for other in placed[n + 1 :])


@unhurried
@given(events)
def test_no_event_line_runs_through_a_label(found):
    flags = place_events(found, PLOT, PEN, numbers_only=False)
    for one, box in zip(flags.flags, boxes(flags), strict=True):
        for other in flags.flags:
            if other is not one and other.row >= one.row:
                assert not box.left < other.x < box.right


@unhurried
@given(events)
def test_every_event_is_labelled_or_listed(found):
    flags = place_events(found, PLOT, PEN, numbers_only=False)
    if flags.listed:
        assert len(flags.listed) == len(found)
        assert flags.flags[0].text.split("–")[0] == "1"
        assert flags.flags[-1].text.split("–")[-1] == str(len(found))
    else:
        said = ", ".join(flag.text for flag in flags.flags)
        assert all(event.label[:4] in said for event in found)


def test_few_events_carry_their_words_and_many_their_numbers():
    day = date(2015, 6, 1)
    few = [EventMark(day + timedelta(days=900 * n), f"repair {n}") for n in range(3)]
    many = [EventMark(day + timedelta(days=3 * n), f"repair {n}") for n in range(40)]
    assert [f.text for f in place_events(few, PLOT, PEN, numbers_only=False).flags] == [
        "repair 0",
        "repair 1",
        "repair 2",
    ]
    placed = place_events(many, PLOT, PEN, numbers_only=False)
    assert [flag.text for flag in placed.flags] == ["1–40"]
    assert placed.listed[0] == "1 repair 0, 1 Jun 2015"


@unhurried
@given(st.floats(0.001, 90000), st.integers(2, 12))
def test_ticks_are_few_round_and_within_the_scale(top, most):
    rows = history("chloride", date(2015, 1, 5), [f"{top:.4f}"], "mg/L")
    chart = describe(rows, "chloride", sets=())
    ticks = figure_ticks(chart, most)
    assert 2 <= len(ticks) <= most + 1
    assert all(chart.low <= value <= chart.high for value, _ in ticks)
    assert len({words for _, words in ticks}) == len(ticks)


@unhurried
@given(st.dates(date(1980, 1, 1), CHART.last), st.integers(1, 12))
def test_days_named_along_the_foot_are_no_more_than_fit(first, most):
    chart = replace(CHART, first=first - timedelta(days=300))
    ticks = day_ticks(chart, most)
    assert len(ticks) <= most + 1
    assert all(chart.first < day <= chart.last for day, _ in ticks)


def test_events_of_one_week_share_a_label():
    day = date(2019, 7, 17)
    week = [
        EventMark(day, "flood"),
        *[EventMark(day + timedelta(n), "repair") for n in (2, 3, 4, 5)],
    ]
    (flag,) = place_events(
        week, Plot(Box(0.5, 1.0, 2.2, 4.0), CHART), PEN, numbers_only=False
    ).flags
    assert flag.text == "flood, repair"


def test_text_is_wrapped_to_the_room_and_loses_no_word():
    text = "Rising in 15 tests from March 2009 to July 2025, by about 0.36 mg/L as N a year."
    lines = PEN.wrapped(text, 1.5)
    assert " ".join(lines) == text
    assert all(PEN.width(line) <= 1.5 for line in lines)


def test_a_word_wider_than_the_room_is_cut():
    assert PEN.shortened("perfluorooctanesulfonic", 0.5).endswith("…")
    assert PEN.width(PEN.shortened("perfluorooctanesulfonic", 0.5)) <= 0.5


def test_seasons_too_thin_to_tell_apart_are_not_shaded():
    assert lay_out(dense(), (9, 5), LIGHT, with_words=False).shades
    assert lay_out(dense(), (3, 2), LIGHT, with_words=False).shades == ()


def test_seasons_are_named_in_the_longest_words_that_fit():
    year = replace(CHART, first=CHART.last - timedelta(days=500))
    year = replace(year, shades=tuple(s for s in CHART.shades if s.first >= year.first))
    assert lay_out(year, (9, 5), LIGHT, with_words=False).season_names["winter"] == "winter"
    some = replace(CHART, first=CHART.last - timedelta(days=5200))
    some = replace(some, shades=tuple(s for s in CHART.shades if s.first >= some.first))
    assert lay_out(some, (9, 5), LIGHT, with_words=False).season_names == {
        "winter": "W",
        "summer": "S",
    }


def test_a_limit_s_label_stands_clear_of_the_trend_s_line():
    # A rise that reaches the limit at its end, the readings well off the line itself.
    texts = [str(74 + 10 * year + (55 if year % 2 else -55)) for year in range(20)]
    chart = describe(history("chloride", date(2008, 4, 5), texts, "mg/L", months=12), "chloride")
    (line,) = chart.trends
    sheet = lay_out(chart, (9.0, 5.0), LIGHT, with_words=False)
    first, last = sheet.plot.x(line.first), sheet.plot.x(line.last)
    start, end = sheet.plot.y(line.start), sheet.plot.y(line.end)
    assert sheet.tags
    for tag in sheet.tags:
        for step in range(201):
            x = first + (last - first) * step / 200
            y = start + (end - start) * step / 200
            inside = tag.box.left < x < tag.box.right and tag.box.bottom < y < tag.box.top
            assert not inside, tag.text
