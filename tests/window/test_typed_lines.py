"""Lines of a paper report as they are typed: what each field takes over, asks and hands on."""

from decimal import Decimal

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QScrollArea
from waters import CATALOGUE

from wellbook.support.errors import Fault
from wellbook.water.values.readings import Kind
from wellbook.window.dialogs.draft.hand_rows import (
    BASES,
    NOT_PRINTED,
    HandRow,
    HandRows,
    Offered,
    heads,
    last_test,
    units_of,
)

STOPS, CLICKS = Qt.FocusPolicy.StrongFocus, Qt.FocusPolicy.ClickFocus


@pytest.fixture
def rows(qtbot):
    made = HandRows(CATALOGUE)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def row(rows):
    return rows.rows[0]


def typed(row, name="", result="", **more):
    row.parameter.setCurrentText(name)
    row.result.setText(result)
    if "unit" in more:
        row.unit.setEditText(more["unit"])
    if "basis" in more:
        row.say_basis(more["basis"])
    if "limit" in more:
        row.limit.setText(more["limit"])
    return row


def policies(row):
    return [field.focusPolicy() for field in row.fields]


def test_a_known_parameter_brings_its_units_and_the_keyboard_passes_over_what_is_filled(row):
    typed(row, "Lead", "1.2")
    assert [row.unit.itemText(n) for n in range(row.unit.count())] == ["µg/L", "mg/L", "ng/L"]
    assert (row.unit.currentText(), row.basis.currentData()) == ("µg/L", "")
    assert policies(row)[2:] == [CLICKS, CLICKS, CLICKS]
    assert row.unit.lineEdit().focusPolicy() == CLICKS
    new = row.new_result()
    assert (new.parameter, new.name, new.reporting_limit) == ("lead", "Lead", "")
    assert (new.reading.kind, new.reading.number) == (Kind.NUMBER, Decimal("1.2"))
    assert (new.reading.unit, new.reading.basis) == ("µg/L", "")
    assert row.understood.text() == "1.2 µg/L"


def test_a_usual_basis_that_nobody_confuses_is_taken_over(row):
    typed(row, "Hardness", "120")
    assert row.basis.currentData() == "as CaCO3"
    assert row.is_whole


def test_a_basis_without_which_a_figure_means_little_is_asked_for(row):
    typed(row, "Nitrate", "3.1")
    assert row.basis.currentIndex() == 0
    assert row.basis.focusPolicy() == STOPS
    assert not row.is_whole
    with pytest.raises(Fault, match=r"^Line 1: what does the report count Nitrate as\?"):
        row.new_result()
    row.say_basis("")
    assert BASES[row.basis.currentIndex()] == NOT_PRINTED
    assert row.is_whole
    assert row.new_result().reading.basis == ""
    row.say_basis("as N")
    assert row.new_result().reading.basis == "as N"
    there = row.basis.count()
    row.say_basis("as something else")
    assert row.basis.currentText() == row.new_result().reading.basis == "as something else"
    assert row.basis.count() == there + 1


def test_a_name_that_is_not_known_is_kept_as_typed_and_said(row):
    typed(row, " Unobtainium ", "<0.5", unit=" mg/L ", limit=" 0.5 ")
    new = row.new_result()
    assert (new.parameter, new.name, new.reporting_limit) == ("", "Unobtainium", "0.5")
    assert (new.reading.kind, new.reading.unit) == (Kind.BELOW, "mg/L")
    assert row.understood.text() == "not detected, below 0.5 mg/L; the name is not known"
    assert not row.is_whole
    typed(row, "", "3")
    assert "not known" not in row.understood.text()


def test_a_comma_that_can_be_two_things_is_asked_and_settled(row):
    typed(row, "Lead", "1,234")
    assert not row.comma.isHidden()
    assert [row.comma.itemText(n) for n in range(row.comma.count())] == ["choose", "1.234", "1234"]
    assert row.understood.text() == "1.234 or 1234?"
    assert not row.is_whole
    with pytest.raises(Fault, match=r"^Line 1: is it 1.234 or 1234\? Choose at the end of the"):
        row.new_result()
    row.settle(Decimal(1234))
    assert (row.comma.currentIndex(), row.new_result().reading.number) == (2, Decimal(1234))
    row.settle(Decimal("1.234"))
    assert (row.comma.currentIndex(), row.new_result().reading.number) == (1, Decimal("1.234"))
    row.result.setText("5,678")
    assert row.comma.currentIndex() == 0, "asked anew"
    row.result.setText("5.6")
    assert (row.comma.isHidden(), row.comma.count()) == (True, 0)
    assert row.is_whole


def test_a_comma_in_the_reporting_limit_is_asked_and_settled_too(row):
    typed(row, "Lead", "2", limit="1,500")
    assert row.understood.text() == "1.500 or 1500?"
    row.settle(Decimal(1500))
    assert row.new_result().reporting_limit == "1,500", "as it was printed"
    row.settle(Decimal("1.5"))
    assert row.new_result().reporting_limit == "1.500", "a point says which it is"


def test_a_whole_line_typed_as_the_parameter_is_given_to_every_field(row):
    row.parameter.lineEdit().setText("Nitrate 3.1 mg/L as N")
    row.part()
    assert (row.parameter.currentText(), row.result.text()) == ("Nitrate", "3.1")
    assert (row.unit.currentText(), row.basis.currentData()) == ("mg/L", "as N")
    row.parameter.lineEdit().setText("Lead 7")
    row.part()
    assert row.result.text() == "3.1", "a result that stands there is never written over"


def test_an_earlier_line_is_taken_over_and_only_its_figure_waits_to_be_typed(row):
    row.offer(Offered("Nitrate", "mg/L", "as N"))
    assert (row.is_offered, row.is_empty, row.is_whole) == (True, True, False)
    assert (row.unit.currentText(), row.basis.currentData()) == ("mg/L", "as N")
    assert policies(row) == [CLICKS, row.result.focusPolicy(), CLICKS, CLICKS, CLICKS]
    row.result.setText("3.3")
    assert (row.is_empty, row.is_whole) == (False, True)


def test_an_earlier_line_without_a_basis_says_that_none_was_printed_only_where_it_is_asked(rows):
    nitrate, lead = rows.rows[:2]
    nitrate.offer(Offered("Nitrate", "mg/L", ""))
    lead.offer(Offered("Lead", "µg/L", ""))
    assert BASES[nitrate.basis.currentIndex()] == NOT_PRINTED
    assert lead.basis.currentIndex() == 0
    lead.say_basis("")
    lead.say_basis("as N")
    assert lead.basis.count() == len(BASES), "what is there is not offered twice"


def test_a_line_is_empty_until_its_name_or_its_figure_is_typed(row):
    assert row.is_empty
    assert typed(row, "  ", "  ").is_empty
    assert not typed(row, "Lead").is_empty
    assert not typed(row, "", "3").is_empty
    assert row.understood.text() == "3", "the unit came with the name"


def test_three_lines_stand_there_and_a_new_one_comes_when_the_last_is_begun(rows, qtbot):
    assert len(rows.rows) == 3
    typed(rows.rows[0], "Lead", "1")
    assert len(rows.rows) == 3
    with qtbot.waitSignals([rows.grown, rows.edited]):
        rows.rows[2].result.setText("1")
    assert len(rows.rows) == 4
    names = [field.accessibleName() for field in rows.rows[3].fields]
    assert names == [f"{head}, line 4" for head in heads()]
    assert rows.rows[3].comma.accessibleName() == "Which figure is meant, line 4"


def test_heads_stand_once_above_the_lines_on_one_line_each_and_words_have_the_most_room(rows):
    grid = rows.layout()
    above = [grid.itemAtPosition(0, column).widget() for column in range(6)]
    assert [one.text() for one in above] == [*heads(), "Understood as"]
    assert not any(one.wordWrap() for one in above), "a second line would be cut"
    assert grid.itemAtPosition(1, 0).widget() is rows.rows[0].parameter
    shares = [grid.columnStretch(column) for column in range(6)]
    assert max(shares[1:5]) < shares[0] < shares[5]
    inside = rows.rows[0].unit.lineEdit().accessibleName()
    assert inside == "Unit, line 1", "what has the keyboard is named"


def test_results_are_those_of_the_lines_that_hold_something_from_the_top(rows):
    typed(rows.rows[0], "Lead", "1")
    typed(rows.rows[2], "Iron", "0.2")
    assert [new.parameter for new in rows.results()] == ["lead", "iron"]
    typed(rows.rows[1], "Nitrate", "3")
    assert [new.parameter for new in rows.whole()] == ["lead", "iron"], "a basis is asked there"
    rows.rows[3].parameter.lineEdit().setText("Zinc 0.4 mg/L")
    rows.rows[1].say_basis("as N")
    assert [new.parameter for new in rows.results()] == ["lead", "nitrate", "iron", "zinc"]


def test_earlier_lines_go_where_nothing_was_typed_and_as_many_come_as_are_needed(rows, qtbot):
    typed(rows.rows[1], "Lead", "1")
    names = ("Iron", "Zinc", "Copper", "Nickel")
    with qtbot.waitSignal(rows.grown):
        rows.offer([Offered(name, "mg/L", "") for name in names])
    shown = [one.parameter.currentText() for one in rows.rows]
    assert shown[:5] == ["Iron", "Lead", "Zinc", "Copper", "Nickel"]


def test_return_leads_from_the_figure_to_the_next_line_and_to_its_figure_where_it_was_offered(rows):
    first, second, third = rows.rows
    assert rows.after(first.result) is second.parameter
    assert rows.after(first.limit) is second.parameter
    assert rows.after(first.parameter) is None, "its figure comes first"
    second.offer(Offered("Lead", "µg/L", ""))
    assert rows.after(first.unit) is second.result
    first.parameter.lineEdit().setText("Iron 0.2 mg/L")
    assert rows.after(first.parameter) is second.result, "the whole line was typed"
    assert rows.after(third.result) is None


def test_units_are_those_in_which_it_is_usually_reported():
    assert units_of(CATALOGUE.parameters["nitrate"]) == ["mg/L", "µg/L", "ng/L"]
    assert units_of(CATALOGUE.parameters["ph"]) == ["pH units"]
    bare = [one for one in CATALOGUE.parameters.values() if one.unit == "1"]
    assert all(units_of(one) == [""] for one in bare)


def test_the_lines_of_the_latest_test_of_a_lab_are_offered_as_it_printed_them(home):
    assert last_test(home, " larkspur LABORATORY ") == [
        Offered("Hardness", "gpg", ""), Offered("pH", "pH units", ""),
    ]  # fmt: skip
    assert last_test(home, "Fenmoor") == last_test(home, "") == []


def test_lines_that_are_too_wide_are_folded_so_that_nothing_lies_sideways(qtbot):
    """WCAG 2.2, 1.4.10 Reflow: what is enlarged is read without scrolling in two directions."""
    area, lines = QScrollArea(), HandRows(CATALOGUE)
    qtbot.addWidget(area)
    area.setWidgetResizable(True)
    area.setWidget(lines)
    typed(lines.rows[0], "Total coliform", "not detected")
    with qtbot.waitExposed(area):
        area.resize(435, 320)
        area.show()
    for wide, is_folded in ((435, True), (1200, False), (435, True)):
        area.resize(wide, 320)
        QApplication.processEvents()
        assert lines.is_folded is is_folded
        assert area.horizontalScrollBar().maximum() == 0
        said = lines.rows[0].understood
        assert said.mapTo(area, said.rect().topRight()).x() <= area.viewport().width()
        feet = [one.mapTo(lines, QPoint(0, 0)).y() for one in lines.rows[0].fields]
        assert len(set(feet[:3])) <= 2
        assert (feet[3] > feet[0] + 10) is is_folded


def test_a_line_tells_each_time_something_is_typed(qtbot):
    alone = HandRow(7, CATALOGUE)
    told = []
    alone.edited.connect(told.append)
    typed(alone, "Lead", "1")
    assert told
    assert set(map(id, told)) == {id(alone)}
    for field in (*alone.fields, alone.said):
        qtbot.addWidget(field)
