"""What every list shows: rows narrowed down, sorted, with heads over groups and nothing last."""

from dataclasses import dataclass

import pytest
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtTest import QSignalSpy

from wellbook.water.values.judgement import Verdict
from wellbook.window.widgets.table_model import (
    ROW_ROLE,
    SORT_ROLE,
    VERDICT_ROLE,
    Column,
    RowsModel,
    natural,
)

pytestmark = pytest.mark.usefixtures("qapp")
UP, DOWN = Qt.SortOrder.AscendingOrder, Qt.SortOrder.DescendingOrder
ROLE = Qt.ItemDataRole


@dataclass(frozen=True)
class Row:
    name: str
    figure: int | None = None
    is_head: bool = False
    opens: bool = False


FIRST, REST = Row("Look at these", is_head=True), Row("The rest", is_head=True, opens=True)
LEAD, IRON, ZINC, TIN = Row("Lead 2", 12), Row("iron", None), Row("Zinc", 9), Row("lead 10", 100)
ROWS = (FIRST, LEAD, IRON, REST, ZINC, TIN)


@pytest.fixture
def model():
    made = RowsModel(
        [
            Column("Name", lambda row: row.name),
            Column(
                "Figure",
                lambda row: "" if row.figure is None else f"{row.figure} mg/L",
                tip=lambda row: f"more on {row.name}",
                verdict=lambda row: Verdict.NEAR if row.figure else None,
                sort=lambda row: row.figure,
            ),
        ],
        lambda row: row.name,
        is_head=lambda row: row.is_head,
        opens=lambda row: row.opens,
    )
    made.show(ROWS)
    return made


def test_rows_stand_as_they_were_given_under_their_heads(model):
    assert model.rows == ROWS
    assert (model.rowCount(), model.columnCount()) == (6, 2)
    assert [model.is_head(place) for place in range(6)] == [r.is_head for r in ROWS]
    assert [model.has_marks(column) for column in (0, 1)] == [False, True]
    titles = [model.headerData(n, Qt.Orientation.Horizontal) for n in (0, 1)]
    assert titles == ["Name", "Figure"]
    assert model.headerData(0, Qt.Orientation.Vertical) is None
    assert model.headerData(0, Qt.Orientation.Horizontal, int(ROLE.ToolTipRole)) is None


def test_only_rows_that_hold_every_word_in_some_column_are_shown_and_no_head_over_nothing(model):
    assert not model.is_narrowed
    model.narrow("  LEAD ")
    assert model.rows == (FIRST, LEAD, REST, TIN)
    assert model.is_narrowed
    model.narrow("mg/l lead 12")
    assert model.rows == (FIRST, LEAD)
    model.narrow("iron mg/L")
    assert model.rows == ()
    model.narrow("zinc")
    assert model.rows == (REST, ZINC)
    model.narrow("   ")
    assert model.rows == ROWS
    assert not model.is_narrowed


def test_words_are_not_found_across_two_columns(model):
    model.show((Row("a", 1), Row("ab", 12)))
    model.narrow("a1")
    assert model.rows == ()


def test_sorted_rows_have_no_heads_and_what_has_nothing_stands_last_either_way(model):
    model.sort(1)
    assert model.rows == (ZINC, LEAD, TIN, IRON)
    model.sort(1, DOWN)
    assert model.rows == (TIN, LEAD, ZINC, IRON)
    model.sort(-1)
    assert model.rows == ROWS


def test_words_are_sorted_with_figures_as_numbers_and_without_regard_to_case(model):
    model.sort(0)
    assert model.rows == (IRON, LEAD, TIN, ZINC)
    model.sort(0, DOWN)
    assert model.rows == (ZINC, TIN, LEAD, IRON)
    model.narrow("lead")
    assert model.rows == (TIN, LEAD)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        (" Lead 2.5 ", ((True, 0.0, "lead "), (False, 2.5, ""))),
        ("10 mg", ((False, 10.0, ""), (True, 0.0, " mg"))),
        ("", ()),
    ],
)
def test_a_figure_in_words_comes_before_letters(text, key):
    assert natural(text) == key


def test_sorting_as_it_is_sorted_tells_nothing_and_another_way_tells_once(model):
    model.show((LEAD, ZINC, TIN))
    told, moved = QSignalSpy(model.arranged), QSignalSpy(model.layoutChanged)
    ahead = QSignalSpy(model.layoutAboutToBeChanged)
    model.sort(-1)
    assert told.count() == 0, "it is not sorted at first"
    model.sort(1)
    assert (told.count(), moved.count(), ahead.count()) == (1, 1, 1)
    model.sort(1)
    assert (told.count(), moved.count()) == (1, 1)
    model.sort(1, DOWN)
    assert told.count() == 2
    model.narrow("lead")
    model.show((LEAD,))
    assert told.count() == 4


def test_a_place_that_was_kept_goes_with_its_row_when_others_come_first(model):
    model.show((LEAD, ZINC, TIN))
    kept = QPersistentModelIndex(model.index(0, 1))
    model.sort(1)
    assert (kept.row(), kept.column()) == (1, 1)
    model.sort(-1)
    model.show((ZINC, TIN, LEAD))
    assert (kept.row(), kept.column()) == (2, 1)


def test_rows_that_come_go_and_move_are_told_as_such_with_their_places(model):
    spies = {
        name: QSignalSpy(getattr(model, name))
        for name in ("rowsInserted", "rowsRemoved", "rowsMoved")
    }
    changed = QSignalSpy(model.dataChanged)

    def told(*rows):
        before = {name: spy.count() for name, spy in spies.items()}
        model.show(rows)
        return {
            name: spy.at(spy.count() - 1)[1:3]
            for name, spy in spies.items()
            if spy.count() > before[name]
        }

    told(LEAD, ZINC)
    assert told(LEAD, ZINC) == {}
    assert told(ZINC, LEAD) == {"rowsMoved": [1, 1]}
    assert told(ZINC, IRON, LEAD) == {"rowsInserted": [1, 1]}
    assert told(ZINC, LEAD) == {"rowsRemoved": [1, 1]}
    assert changed.count() == 0
    assert told(ZINC, Row("Lead 2", 13)) == {}
    assert changed.count() == 1
    first, last, *_roles = changed.at(0)
    assert [(one.row(), one.column()) for one in (first, last)] == [(1, 0), (1, 1)]
    assert told(IRON, TIN, FIRST) == {"rowsRemoved": [0, 1], "rowsInserted": [0, 2]}, "all at once"
    assert told() == {"rowsRemoved": [0, 2]}
    assert model.rows == ()
    assert told() == {}


def test_a_cell_says_its_words_and_on_asking_more(model):
    cell = model.index(1, 1)
    assert cell.data() == cell.data(ROLE.AccessibleTextRole) == "12 mg/L"
    assert cell.data(ROLE.AccessibleDescriptionRole) == "more on Lead 2"
    assert "more on Lead 2" in cell.data(ROLE.ToolTipRole)
    assert model.index(1, 0).data(ROLE.AccessibleDescriptionRole) == "Lead 2", "its own words"
    assert cell.data(VERDICT_ROLE) == Verdict.NEAR
    assert model.index(1, 0).data(VERDICT_ROLE) is None
    assert model.index(2, 1).data(VERDICT_ROLE) is None
    assert cell.data(SORT_ROLE) == 12
    assert model.index(1, 0).data(SORT_ROLE) == natural("Lead 2")
    assert cell.data(ROW_ROLE) == LEAD
    assert cell.data(ROLE.CheckStateRole) is None
    assert model.data(QModelIndex()) is None


def test_a_head_is_bold_and_chosen_only_where_it_opens_what_is_below(model):
    assert model.index(0, 0).data(ROLE.FontRole).bold()
    assert model.index(1, 0).data(ROLE.FontRole) is None
    enabled, chosen = Qt.ItemFlag.ItemIsEnabled, Qt.ItemFlag.ItemIsSelectable
    assert model.flags(model.index(0, 0)) == enabled
    assert model.flags(model.index(3, 0)) & chosen
    assert model.flags(model.index(1, 0)) & chosen
    assert not model.flags(QModelIndex()) & enabled


def test_the_words_of_a_column_are_those_of_its_first_rows_without_heads(model):
    assert model.texts(0, 3) == ["Lead 2", "iron"]
    assert model.texts(1, 6) == ["12 mg/L", "", "9 mg/L", "100 mg/L"]
    assert model.texts(0, 3) is model.texts(0, 3), "asked again and again while it is painted"
    model.show((ZINC,))
    assert model.texts(0, 3) == ["Zinc"]


def test_a_list_without_heads_takes_no_row_for_one():
    made = RowsModel([Column("Name", lambda row: row.name)], lambda row: row.name)
    made.narrow("lead")
    assert made.rows == (), "nothing was given yet"
    made.show((LEAD,))
    assert not made.is_head(0)
    assert made.flags(made.index(0, 0)) & Qt.ItemFlag.ItemIsSelectable


def test_what_a_cell_tells_besides_has_places_beyond_those_of_qt():
    own = {VERDICT_ROLE, SORT_ROLE, ROW_ROLE}
    assert len(own) == 3
    assert min(own) > int(ROLE.UserRole)
