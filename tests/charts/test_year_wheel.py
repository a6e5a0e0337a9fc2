from datetime import date
from itertools import pairwise

import pytest

from wellbook.charts.draw.year_wheel import draw_wheel
from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import DARK, LIGHT, PRINT
from wellbook.charts.model.year_wheel import wheel
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, wet_and_dry

TODAY = date(2026, 11, 25)
SPRINGS = [date(2019, 4, 3), date(2020, 5, 17), date(2022, 9, 8), date(2024, 10, 1)]


def test_a_dot_stands_at_its_month_on_its_years_ring():
    found = wheel([date(2024, 7, 1), date(2022, 1, 16)], NORTHERN, TODAY)
    assert found.years == (2022, 2023, 2024, 2025, 2026)
    assert [dot.ring for dot in found.dots] == [0, 2]
    assert found.dots[1].turn == pytest.approx(0.5, abs=0.01)  # 1 July: half the months are over
    assert found.dots[0].turn == pytest.approx(1 / 24, abs=0.01)  # the middle of January


def test_a_day_counts_once():
    assert len(wheel([date(2024, 7, 1)] * 3, NORTHERN, TODAY).dots) == 1


def test_the_gap_is_the_longest_run_of_months_over_new_year():
    gap = wheel(SPRINGS, NORTHERN, TODAY).gap
    assert gap.text == "November to March"
    assert (gap.start, gap.end) == (pytest.approx(10 / 12), pytest.approx(15 / 12))


def test_every_month_or_no_test_leaves_no_gap():
    every = [date(2024, month, 5) for month in range(1, 13)]
    assert wheel(every, NORTHERN, TODAY).gap is None
    assert wheel([], NORTHERN, TODAY).gap is None
    # Steps of 14 months visit every second month: single months left out are no gap yet.
    assert wheel(every[::2], NORTHERN, TODAY).gap is None


def test_the_window_may_run_over_new_year():
    window = wheel(SPRINGS, NORTHERN, TODAY, window=(date(2026, 12, 7), date(2027, 1, 13))).window
    assert window.start < 1 < window.end
    assert window.text == "7 Dec 2026 to 13 Jan 2027"


@pytest.mark.parametrize("scheme", [NORTHERN, SOUTHERN, wet_and_dry([1]), wet_and_dry([2, 7])])
def test_sectors_go_once_round(scheme):
    sectors = wheel([], scheme, TODAY).sectors
    assert sum(arc.end - arc.start for arc in sectors) == pytest.approx(1)
    for arc, following in pairwise(sectors):
        assert arc.end == pytest.approx(following.start)


def test_winter_lies_at_the_top_in_the_north():
    (winter,) = (arc for arc in wheel([], NORTHERN, TODAY).sectors if arc.text == "winter")
    assert (winter.start, winter.end) == (pytest.approx(11 / 12), pytest.approx(14 / 12))


def test_the_sentence_says_what_the_wheel_shows():
    said = wheel(SPRINGS, NORTHERN, TODAY).sentence
    assert said == (
        "4 test days, 2019 to 2024, in 4 of 12 months. Never in winter or summer. "
        "Longest part of the year never tested: November to March."
    )
    assert wheel([], NORTHERN, TODAY).sentence == "No test yet."


FORTY_YEARS = [date(1986 + n * 2 // 3, n * 7 % 12 + 1, 9) for n in range(60)]
WINDOW = (date(2026, 12, 7), date(2027, 1, 13))


@pytest.mark.parametrize("size", [(2.0, 2.0), (4.0, 4.4), (6.0, 3.0), (9.0, 7.0)])
@pytest.mark.parametrize("days", [[], [TODAY], SPRINGS, FORTY_YEARS], ids=["0", "1", "4", "60"])
@pytest.mark.parametrize("theme", [LIGHT, DARK, PRINT], ids=lambda theme: theme.name)
def test_nothing_written_leaves_the_figure_or_lies_on_other_words(size, days, theme):
    figure = backend.new_figure(*size, theme)
    draw_wheel(wheel(days, NORTHERN, TODAY, title="Pressure tank", window=WINDOW), figure, theme)
    figure.draw_without_rendering()
    boxes = [text.get_window_extent() for text in figure.texts if text.get_text()]
    for n, box in enumerate(boxes):
        assert box.x0 >= 0
        assert box.y0 >= 0
        assert box.x1 <= figure.bbox.x1
        assert box.y1 <= figure.bbox.y1
        for other in boxes[n + 1 :]:
            assert not box.padded(-1.5).overlaps(other.padded(-1.5)), days


def test_one_test_or_sixty_give_as_many_dots():
    for days in (SPRINGS[:1], FORTY_YEARS):
        figure = backend.new_figure(4, 4, LIGHT)
        draw_wheel(wheel(days, NORTHERN, TODAY), figure, LIGHT)
        dots = [line for line in figure.artists if line.zorder == 4]
        assert len(dots[0].get_xdata()) == len(set(days))


@pytest.mark.parametrize("side", [200 / 96, 270 / 96, 4.0])
def test_no_dot_lies_on_the_words_in_the_middle_however_many_rings(side):
    # Every month of the oldest year of fifty: dots all round the innermost ring.
    days = [date(1977, month, 15) for month in range(1, 13)]
    figure = backend.new_figure(side, side, LIGHT)
    draw_wheel(wheel(days, NORTHERN, TODAY, title="Kitchen tap"), figure, LIGHT)
    figure.draw_without_rendering()
    (dots,) = (line for line in figure.artists if line.zorder == 4)
    radius = dots.get_markersize() / 2 / 72 * figure.dpi
    spots = [(x * figure.dpi, y * figure.dpi) for x, y in dots.get_xydata()]
    middle = [text for text in figure.texts if text.get_text() in {"12", "test days"}]
    assert middle
    for text in middle:
        box = text.get_window_extent().padded(radius - 3)  # letters are lower than their line
        assert not any(box.contains(x, y) for x, y in spots), text.get_text()


@pytest.mark.parametrize("month", [12, 1, 6])
@pytest.mark.parametrize("scheme", [NORTHERN, SOUTHERN])
def test_no_year_is_written_over_a_dot_while_another_spoke_is_free(month, scheme):
    days = [date(2000 + n, month, 28 if month == 12 else 3) for n in range(27)]
    figure = backend.new_figure(4, 4.4, LIGHT)
    draw_wheel(wheel(days, scheme, TODAY), figure, LIGHT)
    figure.draw_without_rendering()
    (dots,) = (line for line in figure.artists if line.zorder == 4)
    years = [text for text in figure.texts if text.get_text() in {"2005", "2010", "2020", "2025"}]
    assert years
    for text in years:
        box = text.get_window_extent()
        spots = [(x * figure.dpi, y * figure.dpi) for x, y in dots.get_xydata()]
        assert not any(box.contains(x, y) for x, y in spots), text.get_text()
