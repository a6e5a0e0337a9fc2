"""A chart tells each mark, is looked at closer, chosen otherwise, and taken along."""

import csv
import io
import threading
from dataclasses import replace

import pytest
from matplotlib.colors import to_hex
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QWheelEvent
from PySide6.QtWidgets import QApplication, QDialog, QMenu, QToolTip

from wellbook.charts.model.parts import Shape
from wellbook.water.values.judgement import Verdict
from wellbook.window.app.book_pages import Page
from wellbook.window.common.theme import apply_theme
from wellbook.window.pages.parameter import time_chart
from wellbook.window.widgets import chart_view
from wellbook.wording import dates


@pytest.fixture
def page(opened, qtbot):
    opened.view.show_parameter("nitrate")
    page = opened.view.at("parameter")
    qtbot.waitUntil(lambda: bool(page.figure.drawn.spots), timeout=30000)
    return page


def test_a_chart_waits_for_what_draws_it_to_be_loaded_on_another_thread(opened, qtbot, monkeypatch):
    qtbot.waitUntil(lambda: chart_view.Drawing.is_loaded, timeout=30000)  # since the opening
    threads, load = [], chart_view._load_drawing
    monkeypatch.setattr(chart_view.Drawing, "is_loaded", False)
    monkeypatch.setattr(
        chart_view,
        "_load_drawing",
        lambda tell: (threads.append(threading.current_thread()), load(tell)),
    )
    opened.view.show_parameter("nitrate")
    chart = opened.view.at("parameter").figure
    qtbot.waitUntil(lambda: bool(chart.drawn.spots), timeout=30000)
    assert len(threads) == 1
    assert threads[0] is not threading.main_thread()


def test_a_chart_is_put_together_once_and_painted_once_in_a_later_turn_of_the_loop(
    opened, qtbot, monkeypatch
):
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    done = []
    put, paint = time_chart.draw, FigureCanvasAgg.draw
    monkeypatch.setattr(time_chart, "draw", lambda *a, **k: (done.append("put"), put(*a, **k))[1])
    monkeypatch.setattr(
        FigureCanvasAgg, "draw", lambda canvas: (done.append("paint"), paint(canvas))[1]
    )
    opened.view.show_parameter("nitrate")
    chart = opened.view.at("parameter").figure
    qtbot.waitUntil(lambda: "put" in done, timeout=30000)
    assert "paint" not in done, "nobody waits for both at once"
    qtbot.waitUntil(lambda: "paint" in done and not chart.is_to_be_drawn, timeout=5000)
    assert done == ["put", "paint"]


def wheel(chart, modifiers):
    place = QPointF(chart.rect().center())
    turned = QWheelEvent(
        place,
        QPointF(chart.mapToGlobal(place.toPoint())),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        modifiers,
        Qt.ScrollPhase.NoScrollPhase,
        False,  # noqa: FBT003  as Qt calls it
    )
    QApplication.sendEvent(chart, turned)
    return turned.isAccepted()


def test_a_mark_under_the_pointer_is_told_with_its_verdict_and_lab(page, qtbot):
    last = page.figure.shown.marks[-1]
    qtbot.mouseMove(page.figure, page.figure.place(last).toPoint())
    qtbot.waitUntil(lambda: "9.20 mg/L as N" in QToolTip.text(), timeout=5000)
    assert "within, but close" in QToolTip.text()
    assert "Quillfeather Environmental Testing" in QToolTip.text()


def test_the_wheel_scrolls_the_page_and_looks_closer_only_with_ctrl(page):
    whole = page.figure.days
    assert not wheel(page.figure, Qt.KeyboardModifier.NoModifier)
    assert page.figure.days == whole
    assert wheel(page.figure, Qt.KeyboardModifier.ControlModifier)
    first, last = page.figure.days
    assert whole[0] < first < last < whole[1]


def test_keys_look_closer_move_on_and_show_all_again(page, qtbot):
    whole = page.figure.days
    qtbot.keyClick(page.figure, Qt.Key.Key_Plus)
    closer = page.figure.days
    assert closer[1] - closer[0] < whole[1] - whole[0]
    qtbot.keyClick(page.figure, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert page.figure.days[0] < closer[0]
    qtbot.keyClick(page.figure, Qt.Key.Key_0)
    assert page.figure.days == whole


def test_a_mark_leads_to_where_it_comes_from(page, opened, qtbot):
    first = page.figure.shown.marks[0]
    place = page.figure.place(first).toPoint()
    qtbot.mouseDClick(page.figure, Qt.MouseButton.LeftButton, pos=place)
    report = QApplication.activeModalWidget()
    assert report is not None or opened.view.page == Page.TESTS
    if report is not None:
        report.reject()


def test_another_unit_other_limits_and_a_second_parameter_are_shown(page, qtbot):
    units = [page.choices.unit.itemText(n) for n in range(page.choices.unit.count())]
    choose(page.choices.unit, next(n for n, text in enumerate(units) if "NO3" in text))
    assert page.chart.unit == "mg/L as NO3"
    assert page.chart.marks[-1].value == pytest.approx(40.7, abs=0.1)  # 9.20 × 62.0049 / 14.0067
    for action in page.choices.limits.menu().actions():
        action.setChecked(False)
    assert page.chart.limits == ()
    with_iron = page.choices.together.findData("iron")
    choose(page.choices.together, with_iron)
    qtbot.waitUntil(lambda: bool(page.below.drawn.spots), timeout=30000)
    assert page.below.days == page.figure.days
    assert page.below.drawn.left == pytest.approx(page.figure.drawn.left)
    qtbot.keyClick(page.figure, Qt.Key.Key_Plus)
    assert page.below.days == page.figure.days


def test_limits_chosen_on_the_page_change_picture_and_words_alike(page):
    """40 CFR 141.62(b): nitrate 10 mg/L as N; 9.20 is close to it."""
    assert "10 mg/L as N" in page.verdict.text
    for action in page.choices.limits.menu().actions():
        action.setChecked(False)
    said = [page.limits.itemAt(n).widget().text() for n in range(page.limits.count())]
    verdicts = {
        cell
        for row in range(page.model.rowCount())
        for column in range(page.model.columnCount())
        if "lose" in (cell := page.model.index(row, column).data() or "")
    }
    assert (page.chart.limits, verdicts) == ((), set())
    assert "limit: 10 mg/L" not in page.verdict.text
    assert "by those of the household: " in page.verdict.text  # the milder page tells of the other
    assert said[0] == "The chosen limit sets have none for it."
    assert "10 mg/L" not in page.short.text()


def test_the_wheel_over_a_picture_that_scrolls_nothing_is_left_to_the_page(opened, page):
    opened.do("go_limits")
    QApplication.processEvents()
    pictures = (opened.view.at("limits").chart, page.months, opened.view.overview.wheel)
    assert [wheel(one, Qt.KeyboardModifier.NoModifier) for one in pictures] == [False] * 3


def test_every_picture_has_a_menu_that_copies_it_and_that_of_a_limit_tells_its_words(
    opened, page, qtbot
):
    choose(page.choices.together, page.choices.together.findData("iron"))
    qtbot.waitUntil(lambda: bool(page.below.drawn.spots), timeout=30000)
    for key in ("go_limits", "go_well"):
        opened.do(key)
    glance = opened.view.at("well").glance.drawing
    limit = opened.view.at("limits").chart
    for picture in (page.below, page.months, opened.view.overview.wheel, limit, glance):
        QGuiApplication.clipboard().clear()
        offered = menu_of(picture)
        assert [entry.text() for entry in offered.actions()] == ["Copy picture"]
        offered.actions()[0].trigger()
        assert not QGuiApplication.clipboard().image().isNull()
        offered.close()
    assert "Alachlor" in limit.accessibleDescription()
    assert "Alachlor" in limit.toolTip()


@pytest.mark.parametrize("kind", ["light", "dark", "contrast", "dark contrast"])
def test_a_chart_lies_on_the_page_without_a_ground_of_another_colour(page, qapp, qtbot, kind):
    try:
        apply_theme(qapp, kind)
        qtbot.waitUntil(lambda: not page.figure.is_to_be_drawn, timeout=5000)
        ground = page.figure.palette().base().color().name()
        assert to_hex(page.figure._canvas.figure.get_facecolor()) == ground
    finally:
        apply_theme(qapp, "light")


def menu_of(picture):
    asked = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(), QPoint())
    QApplication.sendEvent(picture, asked)
    return next(menu for menu in picture.findChildren(QMenu) if menu.isVisible())


def test_a_click_on_the_wheel_of_the_year_changes_nothing(opened, qtbot):
    before = (opened.view.page, opened.view.household.book.digest(), opened.bar.text)
    qtbot.mouseClick(opened.view.overview.wheel, Qt.MouseButton.LeftButton)
    assert (opened.view.page, opened.view.household.book.digest(), opened.bar.text) == before
    assert [d for d in opened.findChildren(QDialog) if d.isVisible()] == []


def choose(box, number):
    box.setCurrentIndex(number)
    box.activated.emit(number)


def test_picture_and_table_are_taken_along_without_what_is_private_or_runs(
    page, opened, answers, tmp_path
):
    deeds = {action.text(): action for action in page.menu.actions()}
    deeds["Copy picture"].trigger()
    assert not QGuiApplication.clipboard().image().isNull()
    deeds["Copy table"].trigger()
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0].startswith("Sampled\tAs reported")
    assert len(lines) == 1 + page.model.rowCount()
    for name, start in (("chart.svg", b"<?xml"), ("table.csv", b"\xef\xbb\xbfSampled")):
        answers.path = tmp_path / name
        deeds["Save picture…" if name.endswith("svg") else "Save table…"].trigger()
        assert answers.path.read_bytes().startswith(start)
    book = opened.view.household.book
    for sample in book.samples():
        book.correct_sample(sample.id, "tried", lab='=HYPERLINK("x")')
    opened.view.refresh()
    deeds["Save table…"].trigger()
    cells = {cell for row in csv.reader(io.StringIO(answers.path.read_text("utf-8-sig")))
             for cell in row}  # fmt: skip
    assert {cell for cell in cells if "HYPER" in cell} == {'\'=HYPERLINK("x")'}
    assert "owner" not in [event.label for event in page.described(is_private=False).events]
    assert "Moved in." not in (tmp_path / "chart.svg").read_text(encoding="utf-8")


def test_the_marks_by_month_say_what_those_of_the_chart_and_the_tables_say(page):
    series = page.chart.series[0]

    def seen(verdict, shape=Shape.VALUE):
        mark = replace(series.marks[0], verdict=verdict, shape=shape)
        page.months.show_chart(replace(page.chart, series=(replace(series, marks=(mark,)),)))
        return page.months.grab().toImage()

    drawn = [seen(verdict) for verdict in (*Verdict, None)]
    for place, one in enumerate(drawn[:-2]):  # no limit and not judged look alike
        assert all(one != other for other in drawn[place + 1 :])
    assert seen(Verdict.OUTSIDE, Shape.ABOVE) == seen(Verdict.OUTSIDE), "off the scale is over"
    assert seen(None, Shape.ABOVE) != seen(None, Shape.BELOW)


def test_an_event_of_a_month_is_told_of_with_its_month_on_the_chart(page):
    drawn = {event.label: dates.day(event.day) for event in page.chart.events}
    assert drawn["Moved in."] == "Jun 2009"
    assert drawn["Pump and drop pipe replaced."] == "21 May 2013"
