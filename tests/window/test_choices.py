"""Settings of the book and the person, and the cautions that follow from them."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog

from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common import advice


def asked(frame, what):
    frame.do(what)
    return next(d for d in frame.findChildren(QDialog) if d.isVisible())


def household_of(frame):
    return asked(frame, "household")


def tick(dialog, key, state):
    items = dialog.choices.sets.items
    rows = [items.item(row) for row in range(items.count())]
    next(i for i in rows if i.data(Qt.ItemDataRole.UserRole) == key).setCheckState(state)


def limits_shown(frame):
    model, table = frame.view.overview.model, frame.view.overview.table
    for row in reversed(range(model.rowCount())):
        if model.rows[row].is_open is False:
            table.clicked.emit(model.index(row, 0))
    return {
        model.index(row, 0).data(): model.index(row, 4).data() for row in range(model.rowCount())
    }


def test_taking_a_limit_set_away_changes_what_is_compared(opened):
    assert "250 mg/L" in limits_shown(opened)["Chloride"]
    dialog = household_of(opened)
    tick(dialog, "us-epa-secondary", Qt.CheckState.Unchecked)
    dialog.accept()
    assert limits_shown(opened)["Chloride"] == ""
    assert "10 mg/L as N" in limits_shown(opened)["Nitrate"]


def test_at_least_one_limit_set_is_kept(opened):
    dialog = household_of(opened)
    dialog.choices.sets.tick(())
    dialog.accept()
    assert dialog.isVisible()
    assert "at least one limit set" in dialog.bar.text
    dialog.discard()


def test_settings_that_were_not_changed_write_nothing(opened):
    book = opened.view.household.book
    before = book.digest()
    household_of(opened).accept()
    assert book.digest() == before


def test_wet_months_of_one_s_own_are_kept_and_checked(opened):
    book = opened.view.household.book
    dialog = household_of(opened)
    assert not dialog.choices.months[0].isEnabled()
    seasons = dialog.choices.boxes["seasons"]
    seasons.setCurrentIndex(seasons.findData("wet"))
    dialog.accept()
    assert "Tick the wet months" in dialog.bar.text
    for number in (11, 12, 1):
        dialog.choices.months[number - 1].setChecked(True)
    dialog.accept()
    assert book.setting("seasons") == "wet 1 11 12"
    again = household_of(opened)
    assert [box.isChecked() for box in again.choices.months].count(True) == 3
    again.reject()


def test_without_a_book_only_the_page_is_chosen(frame, preferences):
    dialog = asked(frame, "settings")
    dialog.page.setCurrentIndex(dialog.page.findData("dark"))
    dialog.accept()
    assert preferences.page == "dark"


@pytest.fixture
def typed(opened):
    """Enter results by hand, whatever is asked about them."""

    def enter(*results):
        opened.do("add_by_hand")
        dialog = opened.view.book_actions.dialog
        dialog.day.setText("2026-11-25")
        for (name, text), row in zip(results, dialog.lines.rows, strict=False):
            row.parameter.setCurrentText(name)
            row.result.setText(text)
            if name == "Nitrate":
                row.basis.setCurrentText("as N")
        dialog.accept()
        if dialog.isVisible():
            dialog.accept()
        return opened.view

    return enter


def test_an_urgent_finding_stands_above_everything_else(typed):
    view = typed(("E. coli", "present"))
    assert view.overview.care.isVisible()
    assert "E. coli" in view.overview.care.lines[0]
    view.show_parameter("e_coli")
    assert view.at("parameter").verdict.text.startswith("Present where it must be absent.")
    assert "boil" in " ".join(view.at("parameter").cautions.lines)


def test_advice_to_boil_gives_way_where_boiling_makes_it_worse(typed):
    """Boiling kills bacteria and concentrates nitrate (CDC and EPA advice to well owners)."""
    view = typed(("E. coli", "present"), ("Nitrate", "14"))
    [first, *_] = advice.advice(view.point, (view.point,), view.household)
    assert set(first.names) >= {"E. coli", "Nitrate"}
    view.show_parameter("e_coli")
    assert "Nitrate" in view.at("parameter").cautions.lines[0]


def test_who_drinks_the_water_adds_to_the_caution_and_is_kept_in_the_book(opened, typed):
    view = typed(("E. coli", "present"))
    before = view.overview.care.lines
    dialog = household_of(opened)
    dialog.place.people["infant"].setChecked(True)
    dialog.accept()
    assert view.household.book.setting("people") == "infant"
    assert len(" ".join(view.overview.care.lines)) > len(" ".join(before))


def test_a_parameter_within_its_limits_has_no_caution(opened):
    opened.view.show_parameter("arsenic")
    assert opened.view.at("parameter").cautions.lines == ()
    assert not opened.view.at("parameter").cautions.isVisible()


def test_the_limits_stand_with_source_and_dates(opened):
    view = opened.view
    view.show_parameter("nitrate")
    said = [
        view.at("parameter").limits.itemAt(n).widget().text()
        for n in range(view.at("parameter").limits.count())
    ]
    assert any("10 mg/L as N (health)" in line for line in said)
    assert any("In force since 30 Jul 1992" in line and "40 CFR 141.62" in line for line in said)
    assert "yardsticks" in said[-1]


def test_a_limit_to_come_is_not_called_in_force_and_past_ones_stand_last(frame, household, qtbot):
    # 40 CFR 141.80(c): 0.015 mg/L now; 89 FR 86418: 0.010 mg/L to be met from 1 November 2027
    frame.open_book(household("first-year"))
    qtbot.waitUntil(lambda: not frame.view.look.is_pending, timeout=60000)
    frame.view.show_parameter("lead")
    column = frame.view.at("parameter").limits
    said = [column.itemAt(n).widget().text() for n in range(column.count() - 1)]
    assert [line.rpartition(": ")[2].split(" (")[0] for line in said[::2]] == [
        "0.015 mg/L",
        "0.010 mg/L",
        "0.010 mg/L",  # struck out in 2024, before it was to be met
        "0.05 mg/L",
    ]
    assert "In force from 7 Dec 1992 to 31 Oct 2027" in said[1]
    assert said[3].startswith("Not in force yet: from 1 Nov 2027")


def test_a_second_point_can_stand_beside_the_first(opened):
    view = opened.view
    view.show_parameter("sodium")
    page = view.at("parameter")
    assert len(page.chart.series) == 1
    assert [page.beside.itemText(place) for place in range(2)] == [
        "this point alone",
        "with Kitchen tap",
    ]
    page.beside.setCurrentIndex(1)
    page.beside.activated.emit(1)
    assert [series.second for series in page.chart.series] == [False, True]


def test_the_time_of_a_test_typed_by_hand_is_optional(opened):
    opened.do("add_by_hand")
    dialog = opened.view.book_actions.dialog
    dialog.lines.rows[0].parameter.setCurrentText("Iron")
    dialog.lines.rows[0].result.setText("0.2")
    for typed in ("2026-11-25", "2026-11-25 08:00", "2026-11", "2019"):
        dialog.day.setText(typed)
        assert dialog.new_sample().collected == LocalTime.parse(typed.replace(" ", "T"))
    for typed, said in (("", "Say when it was drawn"), ("2026-12-01", "lies ahead")):
        dialog.day.setText(typed)
        with pytest.raises(Fault, match=said):
            dialog.new_sample()
    dialog.discard()
