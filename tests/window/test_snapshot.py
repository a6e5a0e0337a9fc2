"""The table model: honest to Qt, and exact about what changed."""

from dataclasses import dataclass

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt
from PySide6.QtTest import QAbstractItemModelTester, QSignalSpy

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.widgets.table_model import ROW_ROLE, VERDICT_ROLE, Column, RowsModel
from wellbook.window.widgets.tables import Table


@dataclass(frozen=True)
class Fact:
    key: int
    text: str


def model_of(*facts):
    made = RowsModel(
        [
            Column("Text", lambda fact: fact.text, tip=lambda fact: f"more on {fact.text}"),
            Column("Key", lambda fact: str(fact.key), verdict=lambda _: Verdict.NEAR),
        ],
        lambda fact: fact.key,
    )
    made.show(facts)
    return made


def shown(model):
    return [model.index(row, 0).data() for row in range(model.rowCount())]


@pytest.mark.parametrize("force_py", [False, True])
def test_the_model_keeps_qt_s_rules(qtmodeltester, force_py):
    model = model_of(Fact(1, "a"), Fact(2, "b"))
    qtmodeltester.check(model, force_py=force_py)
    model.show((Fact(2, "b"), Fact(3, "c"), Fact(1, "changed")))
    qtmodeltester.check(model, force_py=force_py)


@pytest.mark.usefixtures("qapp")
def test_a_row_has_no_rows_below_it():
    model = model_of(Fact(1, "a"))
    assert model.rowCount(model.index(0, 0)) == 0
    assert model.columnCount(model.index(0, 0)) == 0
    assert model.rowCount(QModelIndex()) == 1


facts = st.lists(
    st.builds(Fact, st.integers(0, 12), st.sampled_from("abc")),
    max_size=10,
    unique_by=lambda fact: fact.key,
)


@given(before=facts, after=facts)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@pytest.mark.usefixtures("qapp")
def test_any_snapshot_follows_any_other_and_no_reset_is_told(before, after):
    model = model_of(*before)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Warning)
    resets = QSignalSpy(model.modelReset)
    model.show(after)
    assert list(model.rows) == after
    assert resets.count() == 0
    del tester


def test_the_chosen_row_stays_chosen_while_others_come_and_go(qtbot):
    table = Table("facts")
    qtbot.addWidget(table)
    model = model_of(*(Fact(n, str(n)) for n in range(5)))
    table.setModel(model)
    table.pick(2)
    model.show((Fact(9, "new"), Fact(4, "4"), Fact(2, "2 corrected")))
    assert table.row() == Fact(2, "2 corrected")
    assert table.selectionModel().isRowSelected(2, QModelIndex())
    flags = QItemSelectionModel.SelectionFlag.Clear
    table.selectionModel().select(table.currentIndex(), flags)


@pytest.mark.usefixtures("qapp")
def test_only_the_changed_row_is_told():
    model = model_of(Fact(1, "a"), Fact(2, "b"))
    changes = QSignalSpy(model.dataChanged)
    model.show((Fact(1, "a"), Fact(2, "B")))
    assert changes.count() == 1
    assert changes.at(0)[0].row() == 1


@pytest.mark.usefixtures("qapp")
def test_cells_speak_to_a_screen_reader_and_carry_their_row():
    model = model_of(Fact(1, "a"))
    index = model.index(0, 0)
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == "a"
    assert index.data(Qt.ItemDataRole.AccessibleDescriptionRole) == "more on a"
    assert "more on a" in index.data(Qt.ItemDataRole.ToolTipRole)
    assert index.data(ROW_ROLE) == Fact(1, "a")
    assert model.index(0, 1).data(VERDICT_ROLE) == "near"
    assert model.headerData(0, Qt.Orientation.Horizontal) == "Text"


def test_tab_leaves_a_table_and_return_chooses_a_row(qtbot):
    table = Table("facts")
    qtbot.addWidget(table)
    table.setModel(model_of(Fact(1, "a"), Fact(2, "b")))
    assert not table.tabKeyNavigation()
    table.pick(1)
    with qtbot.waitSignal(table.chosen) as caught:
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert caught.args == [Fact(2, "b")]


def test_the_copy_key_takes_a_row_along(qtbot, qapp):
    table = Table("facts")
    qtbot.addWidget(table)
    table.setModel(model_of(Fact(7, "seven")))
    table.pick(0)
    qtbot.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert qapp.clipboard().text() == "seven\t7"
