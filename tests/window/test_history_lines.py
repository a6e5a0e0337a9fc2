"""The small line of a parameter and the share of its limit: what is drawn where, in which ink."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from made_standings import judged, limit, result, standing
from PySide6.QtCore import QRect
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QStyle, QStyleOptionViewItem
from waters import CATALOGUE, TODAY

from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Rule
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window.common.theme import em, inks_of
from wellbook.window.pages.overview.history_lines import (
    HistoryDelegate,
    HistoryLine,
    ShareDelegate,
    Spot,
    history_line,
    share_of_limit,
    share_words,
)
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table

FIRST = date(2025, 11, 25)  # a year before today


def of_day(number, key, day, text, unit="mg/L", **more):
    return result(key, text, unit, day=day, number=number, **more)


def drawn(*rows, key="nitrate", against=None, verdict=Verdict.WITHIN, first=FIRST, today=TODAY):
    """The line of results, each a day and a text."""
    record = PointRecord.of(of_day(n, key, *row) for n, row in enumerate(rows))
    return history_line(record, standing(key, verdict, against), first, today)


def spots(line):
    return [(round(spot.x, 3), round(spot.y, 3)) for spot in line.spots]


def test_time_runs_from_the_first_test_to_today_and_height_from_nothing_to_the_limit():
    line = drawn((TODAY, "5"), (FIRST, "2.5"))
    assert spots(line) == [(0.0, 0.25), (1.0, 0.5)], "in order of time"
    assert line.limit == 1.0
    assert line.is_joined


def test_what_is_over_the_limit_stands_over_its_line():
    line = drawn((FIRST, "10"), (TODAY, "20"))
    assert [(spot.y, spot.is_over) for spot in line.spots] == [(0.5, False), (1.0, True)]
    assert line.limit == 0.5


def test_the_limit_is_drawn_in_the_usual_unit_and_figures_too():
    against = limit("lead", "15", unit="µg/L")
    usual = CATALOGUE.parameters["lead"].unit
    assert usual == "µg/L"
    line = drawn((FIRST, "0.030", "mg/L"), key="lead", against=against)
    assert (line.spots[0].y, line.limit, line.spots[0].is_over) == (1.0, 0.5, True)


def test_without_a_limit_the_highest_figure_fills_the_height_and_nothing_is_over():
    line = drawn((FIRST, "0.4"), (TODAY, "0.8"), verdict=Verdict.NO_LIMIT)
    assert [spot.y for spot in line.spots] == [0.5, 1.0]
    assert line.limit is None
    assert not any(spot.is_over for spot in line.spots)


def test_a_limit_in_a_unit_that_does_not_convert_is_not_drawn():
    line = drawn((FIRST, "4"), against=limit("nitrate", "10", unit="pCi/L"))
    assert (line.limit, line.spots[0].y) == (None, 1.0)


@pytest.mark.parametrize("rule", [Rule.ABSENT, Rule.RANGE])
def test_a_range_is_drawn_at_its_upper_end_and_that_none_may_be_is_not(rule):
    low, high = ("6", "8") if rule is Rule.RANGE else (None, "8")
    line = drawn((FIRST, "4"), against=limit("nitrate", high, low=low, rule=rule))
    assert line.limit == (1.0 if rule is Rule.RANGE else None)


def test_a_non_detect_is_open_and_never_over_whatever_its_reporting_limit():
    """A bound of 50 says nothing of a limit of 10."""
    line = drawn((FIRST, "<50"), (TODAY, ">50"))
    assert [(spot.is_open, spot.is_over) for spot in line.spots] == [(True, False), (False, True)]
    assert [spot.y for spot in line.spots] == [1.0, 1.0]


def test_bacteria_are_there_or_not():
    rows = ((FIRST, "absent", ""), (FIRST, "present", ""), (FIRST, "0", "CFU/100 mL"),
            (FIRST, "1", "CFU/100 mL"), (FIRST, "<1", "CFU/100 mL"))  # fmt: skip
    line = drawn(*rows, key="e_coli", against=limit("e_coli", None, rule=Rule.ABSENT))
    assert [spot.y for spot in line.spots] == [0.0, 1.0, 0.0, 1.0, 0.0]
    assert [spot.is_open for spot in line.spots] == [True, False, False, False, True]
    assert [spot.is_over for spot in line.spots] == [False, True, False, True, False]


def test_a_plate_that_was_overgrown_has_a_mark_that_is_neither_found_nor_absent():
    """Too many to count: 40 CFR 141.852(a)(5)(iii) calls for another sample (from memory)."""
    rows = ((FIRST, "TNTC", "/100 mL"), (TODAY, ">200.5", "MPN/100 mL"))
    line = drawn(
        *rows, key="total_coliform", against=limit("total_coliform", None, rule=Rule.ABSENT)
    )
    assert [(s.y, s.is_over, s.is_unsure) for s in line.spots] == [
        (1.0, False, True),
        (1.0, True, False),
    ]


def test_ph_is_seen_from_half_a_unit_below_its_lowest():
    against = limit("ph", "8.5", low="6.5", rule=Rule.RANGE, unit="pH units")
    line = drawn((FIRST, "7", "pH units"), (TODAY, "7.5", "pH units"), key="ph", against=against)
    assert spots(line) == [(0.0, 0.25), (1.0, 0.5)]  # from 6.5 to 8.5
    off = drawn((FIRST, "6.1", "pH units"), (TODAY, "8.6", "pH units"), key="ph", against=against)
    assert [spot.is_over for spot in off.spots] == [True, True], "at both ends of the range"


def test_a_figure_below_zero_lowers_the_foot():
    line = drawn((FIRST, "-5"), (TODAY, "5"), verdict=Verdict.NO_LIMIT)
    assert [spot.y for spot in line.spots] == [0.0, 1.0]
    both = drawn((FIRST, "-4"), (TODAY, "-2"), verdict=Verdict.NO_LIMIT)
    assert [spot.y for spot in both.spots] == [0.0, 0.5], "nothing is the top"


def test_a_book_begun_today_and_a_test_that_says_nothing_are_drawn_all_the_same():
    line = drawn((TODAY, "5"), first=TODAY)
    assert spots(line) == [(0.0, 0.5)]
    assert drawn((FIRST, "not analysed", "")).spots == ()
    zero = drawn((FIRST, "0"), verdict=Verdict.NO_LIMIT)
    assert spots(zero) == [(0.0, 0.0)]
    yesterday = drawn((TODAY, "5"), first=TODAY - timedelta(days=1))
    assert spots(yesterday) == [(1.0, 0.5)]
    tomorrow = drawn((TODAY, "5"), first=TODAY - timedelta(days=2))
    assert spots(tomorrow) == [(1.0, 0.5)]


@pytest.mark.parametrize(
    ("more", "is_joined"),
    [({}, True), ({"draw": "flushed"}, False), ({"fraction": "dissolved"}, False)],
)
def test_a_line_joins_tests_of_one_sort_of_water_only(more, is_joined):
    record = PointRecord.of(
        (of_day(1, "nitrate", FIRST, "5"), of_day(2, "nitrate", TODAY, "4", **more))
    )
    line = history_line(record, standing("nitrate"), FIRST, TODAY)
    assert line.is_joined is is_joined


def year_by_day(n, high_at=()):
    days = [FIRST + timedelta(days=one) for one in range(n)]
    texts = ("12" if one in high_at else f"{one / 1000:.3f}" for one in range(n))
    return drawn(*zip(days, texts, strict=True), today=days[-1])


def test_eighty_marks_are_drawn_and_of_more_the_highest_of_each_stretch_and_the_last():
    assert len(year_by_day(80).spots) == 80
    line = year_by_day(81, high_at=(40,))
    assert len(line.spots) == 41  # each of two, and the last
    assert [spot.x for spot in line.spots if spot.is_over] == [0.5]
    assert line.spots[0].x == pytest.approx(1 / 80)
    assert line.spots[-1] == Spot(1.0, pytest.approx(0.080 / 12), is_open=False, is_over=False)
    assert len(year_by_day(160).spots) == 81
    assert len(year_by_day(161).spots) == 55  # each of three, and the last


def test_what_is_over_is_kept_where_a_bound_lies_higher():
    """A thinned line never hides a result that is over its limit."""
    rows = [(FIRST + timedelta(days=n), "1") for n in range(80)]
    rows[10:12] = [(rows[10][0], "12"), (rows[11][0], "<50")]
    line = drawn(*rows, (TODAY, "1"))
    assert [spot.is_over for spot in line.spots].count(True) == 1


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("0", "0 %"), ("0.0001", "<1 %"), ("0.004", "<1 %"), ("0.006", "1 %"), ("0.5", "50 %"),
        ("0.994", "99 %"), ("0.999", "99 %"), ("1", "100 %"), ("1.001", "101 %"), ("2.5", "250 %"),
    ],
)  # fmt: skip
def test_a_share_is_whole_percent_and_never_100_for_what_is_not_just_the_limit(value, said):
    assert share_words(Decimal(value)) == said


def test_there_is_a_share_of_a_maximum_only_and_of_a_figure_that_was_measured():
    against = limit("nitrate", "8")
    assert share_of_limit(judged(Verdict.WITHIN, against, "2")) == Decimal("0.25")
    assert share_of_limit(judged(Verdict.OUTSIDE, against, "16")) == 2
    assert share_of_limit(judged(Verdict.NO_LIMIT)) is None
    assert share_of_limit(judged(Verdict.WITHIN, against)) is None
    for unseen in (Verdict.UNDETECTED, Verdict.UNDECIDABLE):
        assert share_of_limit(judged(unseen, against, "2")) is None
    nothing = limit("nitrate", "0")
    assert share_of_limit(judged(Verdict.OUTSIDE, nothing, "2")) is None
    between = limit("nitrate", "8", low="6", rule=Rule.RANGE)
    assert share_of_limit(judged(Verdict.WITHIN, between, "7")) is None
    assert share_words(None) == ""


WIDE, HIGH = 220, 40


@pytest.fixture
def table(qtbot):
    made = Table("Lines")
    qtbot.addWidget(made)
    model = RowsModel([Column("Line", lambda _row: "words that are not painted")], str, made)
    model.show(["row"])
    made.setModel(model)
    return made


def painted(table, delegate, *, is_selected=False):
    """The picture of one cell, and the painter's state after it."""
    image = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    option = QStyleOptionViewItem()
    option.initFrom(table)
    option.widget, option.rect = table, QRect(0, 0, WIDE, HIGH)
    option.state |= QStyle.StateFlag.State_Enabled | QStyle.StateFlag.State_Active
    if is_selected:
        option.state |= QStyle.StateFlag.State_Selected
    painter = QPainter(image)
    before = (painter.pen(), painter.brush(), painter.renderHints())
    delegate.paint(painter, option, table.model().index(0, 0))
    assert (painter.pen(), painter.brush(), painter.renderHints()) == before
    painter.end()
    return image


def room(table):
    side = em(table)
    return side * 0.5, side * 0.4, WIDE - side * 0.9, HIGH - side * 0.4


def at(image, table, x, y):
    """The colour at shares of the room, from the left and from the foot."""
    left, top, right, bottom = room(table)
    px, py = left + x * (right - left), bottom - y * (bottom - top)
    return image.pixelColor(min(int(px), WIDE - 1), min(int(py), HIGH - 1))


def is_like(one, other):
    pairs = ((one.red(), other.red()), (one.green(), other.green()), (one.blue(), other.blue()))
    return all(abs(a - b) < 60 for a, b in pairs)


LINE = HistoryLine(
    (Spot(0.2, 0.9, is_open=False, is_over=True), Spot(0.5, 0.5, is_open=False, is_over=False),
     Spot(0.8, 0.5, is_open=True, is_over=False)), 0.1,
)  # fmt: skip


def colours(image, rows=range(HIGH)):
    """How often a colour is met."""
    found = {}
    for y in rows:
        for x in range(WIDE):
            name = image.pixelColor(x, y).name()
            found[name] = found.get(name, 0) + 1
    return found


def within(image, table, x, y, colour):
    """How many pixels round a mark are of a colour, across and in all."""
    left, top, right, bottom = room(table)
    px, py, side = left + x * (right - left), bottom - y * (bottom - top), em(table) / 2
    found = [
        (one, row)
        for one in range(int(px - side), int(px + side) + 1)
        for row in range(max(int(py - side), 0), min(int(py + side) + 1, HIGH))
        if is_like(image.pixelColor(one, row), colour)
    ]
    return len({one for one, _row in found}), len(found)


def test_what_is_over_is_a_mark_of_the_ink_of_what_is_outside_and_all_else_of_what_is_within(table):
    inks = inks_of(table.palette())
    image = painted(table, HistoryDelegate(lambda _row: LINE, table))
    over, blue = (QColor(inks.verdicts[one]) for one in (Verdict.OUTSIDE, Verdict.WITHIN))
    assert is_like(at(image, table, 0.2, 0.9), over)
    assert is_like(at(image, table, 0.5, 0.5), blue)
    assert is_like(at(image, table, 0.8, 0.5), table.palette().base().color()), "open: a ring"
    across, _all = within(image, table, 0.2, 0.9, over)
    assert abs(across - em(table) * 4 / 7) <= 2, "larger than a round one"
    assert within(image, table, 0.5, 0.5, over) == within(image, table, 0.8, 0.5, over) == (0, 0)
    assert within(image, table, 0.8, 0.5, blue)[0] > 2
    alone = HistoryLine(LINE.spots[:1], None)
    image = painted(table, HistoryDelegate(lambda _row: alone, table))
    left, top, right, bottom = map(int, room(table))
    drawn_in = {
        one.hue() for x in range(left, right) for y in range(top, bottom)
        if (one := image.pixelColor(x, y)).saturation() > 80
    }  # fmt: skip
    assert all(abs(hue - blue.hue()) > 40 for hue in drawn_in), "its edge, too"
    assert len(colours(image)) > 8, "with smooth edges"


def test_the_limit_is_a_line_of_strokes_across_in_the_second_ink(table):
    muted = QColor(inks_of(table.palette()).muted)
    alone = HistoryLine((), 0.5)
    image = painted(table, HistoryDelegate(lambda _row: alone, table))
    (height,) = [y for y in range(HIGH) if len(colours(image, [y])) > 1][:1]
    assert abs(height - HIGH / 2) <= 1
    across = [image.pixelColor(x, height) for x in range(WIDE)]
    share = sum(one != across[0] for one in across) / WIDE
    assert 0.5 < share < 0.9, "strokes with gaps between"
    strongest = min(across, key=lambda one: abs(one.lightness() - muted.lightness()))
    assert abs(strongest.hue() - muted.hue()) < 30 or muted.hue() < 0
    assert min(one.lightness() for one in across) >= muted.lightness() - 4


def test_marks_of_several_sorts_of_water_are_not_joined(table):
    joined = painted(table, HistoryDelegate(lambda _row: LINE, table))
    apart = HistoryLine(LINE.spots, LINE.limit, is_joined=False)
    loose = painted(table, HistoryDelegate(lambda _row: apart, table))
    ground = QColor(loose.pixelColor(2, 2))
    assert is_like(at(loose, table, 0.65, 0.5), ground)
    near = [at(joined, table, 0.65, y) for y in (0.42, 0.5, 0.58)]
    line = max(near, key=lambda one: abs(one.lightness() - ground.lightness()))
    blue = QColor(inks_of(table.palette()).verdicts[Verdict.WITHIN])
    assert abs(line.hue() - blue.hue()) < 20, "in the ink of the marks"


def test_a_line_without_a_limit_has_no_strokes_and_a_head_has_no_line(table):
    bare = painted(table, HistoryDelegate(lambda _row: None, table))
    (ground,) = colours(bare)
    no_limit = HistoryLine(LINE.spots, None)
    image = painted(table, HistoryDelegate(lambda _row: no_limit, table))
    assert is_like(at(image, table, 0.05, 0.1), QColor(ground))
    with_limit = painted(table, HistoryDelegate(lambda _row: LINE, table))
    assert with_limit != image


def test_in_a_chosen_row_everything_is_of_one_ink(table):
    image = painted(table, HistoryDelegate(lambda _row: LINE, table), is_selected=True)
    ink = table.palette().highlightedText().color()
    for x, y in ((0.2, 0.9), (0.5, 0.5), (0.8, 0.5)):
        assert is_like(at(image, table, x, y), ink)
    ground = table.palette().highlight().color()
    assert is_like(image.pixelColor(WIDE // 2, 2), ground)


def bar(image, table, x):
    """The colour in the middle of the bar at a share of its width."""
    left, _top, right, _bottom = room(table)
    return image.pixelColor(int(left + x * (right - left) / 2), HIGH // 2)


@pytest.mark.parametrize(
    ("share", "filled", "verdict"),
    [
        ("0.5", 0.4, Verdict.WITHIN), ("1", 0.8, Verdict.WITHIN),
        ("1.01", 0.8, Verdict.OUTSIDE), ("9", 1.0, Verdict.OUTSIDE),
    ],
)  # fmt: skip
def test_a_bar_is_filled_by_the_share_and_changes_its_ink_beyond_the_limit(
    table, share, filled, verdict
):
    image = painted(table, ShareDelegate(lambda _row: Decimal(share), table))
    ink = QColor(inks_of(table.palette()).verdicts[verdict])
    assert is_like(bar(image, table, filled - 0.06), ink)
    if filled < 1:
        assert not is_like(bar(image, table, filled + 0.06), ink)
    else:
        assert not is_like(bar(image, table, 1.06), ink), "it ends with the bar"
    stroke = bar(image, table, 0.8)
    assert not is_like(stroke, QColor("white"))


def marked(image, rows, columns, but):
    """The places of a range that are of another colour than the ground and `but`."""
    ground = QColor("white")
    return {
        (x, y)
        for x in columns
        for y in rows
        for one in [image.pixelColor(x, y)]
        if not is_like(one, ground) and not (but and is_like(one, but))
    }


def test_a_bar_is_an_edge_half_a_line_high_with_a_stroke_beyond_it_where_the_limit_is(table):
    inks, side = inks_of(table.palette()), em(table)
    image = painted(table, ShareDelegate(lambda _row: Decimal("0.25"), table))
    left, _top, right, _bottom = room(table)
    full = (right - left) / 2
    stroke = int(left + 0.8 * full)
    filled = QColor(inks.verdicts[Verdict.WITHIN])
    edge = {y for _x, y in marked(image, range(HIGH), [int(left + 0.6 * full)], filled)}
    assert edge, "the part that is not taken has an edge"
    assert abs(max(edge) - min(edge) - side / 2) <= 1
    assert abs((max(edge) + min(edge)) / 2 - HIGH / 2) <= 1.5
    assert is_like(image.pixelColor(int(left + 0.6 * full), HIGH // 2), QColor("white"))
    line = min(
        (image.pixelColor(int(left + 0.6 * full), y) for y in range(HIGH)), key=QColor.lightness
    )
    assert line.lightness() >= QColor(inks.edge).lightness() - 4, "in the ink of edges"
    high = {y for _x, y in marked(image, range(HIGH), range(stroke - 1, stroke + 2), None)}
    assert min(high) < min(edge) - 1
    assert max(high) > max(edge) + 1
    darkest = min(
        (image.pixelColor(x, HIGH // 2) for x in range(stroke - 1, stroke + 2)),
        key=QColor.lightness,
    )
    assert is_like(darkest, QColor(inks.text))


def test_the_figure_stands_behind_the_bar_in_the_middle_of_the_line(table):
    image = painted(table, ShareDelegate(lambda _row: Decimal("0.25"), table))
    left, _top, right, _bottom = room(table)
    behind = int(left + (right - left) / 2) + 3
    figure = marked(image, range(HIGH), range(behind, WIDE), None)
    assert figure, "25 %"
    rows, columns = {y for _x, y in figure}, {x for x, _y in figure}
    assert abs((min(rows) + max(rows)) / 2 - HIGH / 2) <= 3
    assert 0 < min(columns) - behind < em(table)
    assert max(columns) < right


def test_the_small_line_has_more_room_than_the_bar():
    assert HistoryDelegate.width > ShareDelegate.width > 0


def test_no_bar_stands_where_there_is_no_share(table):
    bare = painted(table, ShareDelegate(lambda _row: None, table))
    assert len(colours(bare)) == 1
    chosen = painted(table, ShareDelegate(lambda _row: Decimal("0.5"), table), is_selected=True)
    assert is_like(bar(chosen, table, 0.3), table.palette().highlightedText().color())
