"""What every list can do: find, sort, copy, choose columns, show a menu; by keys and mouse."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QMenu

from wellbook.book import Book
from wellbook.window.widgets.lists.empty_words import EmptyWords
from wellbook.window.widgets.lists.list_columns import ColumnMemory
from wellbook.window.widgets.table_model import Column, RowsModel, natural
from wellbook.window.widgets.tables import Table, copy_cells

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
LEFT, PLAIN = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
ROWS = (("10 mg/L", "Well"), ("9 mg/L", "Kitchen tap"), ("", "Tank"), ("100 mg/L", "Well"))


@pytest.fixture
def table(qtbot, preferences):
    ColumnMemory.store = preferences.lists
    made = filled(qtbot)
    yield made
    ColumnMemory.store = None


def test_leaving_out_what_is_left_out_already_measures_no_column(table, monkeypatch):
    table.leave_out([0])
    QApplication.processEvents()
    measured, measure = [], table.sizeHintForColumn
    monkeypatch.setattr(
        table, "sizeHintForColumn", lambda column: (measured.append(column), measure(column))[1]
    )
    table.leave_out([0])
    QApplication.processEvents()
    assert (table.isColumnHidden(0), measured) == (True, [])


def test_a_column_whose_words_are_cut_gets_of_the_widest_other_one(qtbot):
    made = Table("Entries")
    qtbot.addWidget(made)
    long = "x" * 60
    model = RowsModel([Column(n, lambda _row: long) for n in ("What", "Reason")], str, made)
    model.show(["row"])
    made.setModel(model)
    made.fit(stretch=0)
    made.resize(400, 200)
    made.show()
    assert abs(made.columnWidth(0) - made.columnWidth(1)) <= 1
    assert made.columnWidth(0) + made.columnWidth(1) == made.viewport().width()


def filled(qtbot):
    made = Table("Results")
    qtbot.addWidget(made)
    columns = (Column("Figure", lambda row: row[0]), Column("Point", lambda row: row[1]))
    model = RowsModel(columns, lambda row: row, made)
    model.show(ROWS)
    made.setModel(model)
    made.fit(stretch=1)
    made.arrange("results")
    made.resize(400, 300)
    made.show()
    made.pick(0)
    return made


def column(table, place=0):
    model = table.model()
    return [model.index(row, place).data() for row in range(model.rowCount())]


def click_head(table, place):
    head = table.horizontalHeader()
    at = QPoint(head.sectionViewportPosition(place) + 12, head.height() // 2)
    QTest.mouseClick(head.viewport(), LEFT, pos=at)


def copied():
    return QGuiApplication.clipboard().text()


def test_a_click_on_a_head_sorts_figures_as_numbers_with_nothing_last_and_the_third_sorts_no_more(
    table,
):
    click_head(table, 0)
    assert column(table) == ["9 mg/L", "10 mg/L", "100 mg/L", ""]
    click_head(table, 0)
    assert column(table) == ["100 mg/L", "10 mg/L", "9 mg/L", ""]
    assert table.row() == ROWS[0]  # the chosen row stays chosen
    click_head(table, 0)
    assert column(table) == [row[0] for row in ROWS]


def test_the_next_list_of_the_same_name_is_arranged_as_this_one_was(table, qtbot):
    click_head(table, 0)
    table.show_column(1, is_shown=False)
    table.horizontalHeader().resizeSection(0, 177)
    again = filled(qtbot)
    assert column(again)[0] == "9 mg/L"
    assert again.isColumnHidden(1)
    assert abs(again.columnWidth(0) - 177) <= 1
    again.reset_columns()
    assert not again.isColumnHidden(1)
    assert column(again) == [row[0] for row in ROWS]


@pytest.mark.parametrize(
    "kept", ["", "{", "[]", '{"hidden": [0, 1], "widths": {}, "sorted_by": 7, "is_falling": 1}']
)
@pytest.mark.usefixtures("table")
def test_what_can_t_be_remembered_leaves_the_list_as_it_is_made(preferences, kept, qtbot):
    preferences.lists.setValue("list_results", kept)
    again = filled(qtbot)
    assert column(again) == [row[0] for row in ROWS]
    assert not again.isColumnHidden(0)


def test_words_that_no_row_holds_leave_none_and_all_come_back(table):
    table.narrow("no such words")
    assert column(table) == []
    table.narrow("")
    assert column(table) == [row[0] for row in ROWS]


def test_several_rows_are_copied_with_and_without_their_head(table):
    QTest.keyClick(table, Qt.Key.Key_Down, SHIFT)
    QTest.keyClick(table, Qt.Key.Key_C, CONTROL)
    assert copied() == "10 mg/L\tWell\n9 mg/L\tKitchen tap"
    table.copy(with_head=True)
    assert copied().splitlines()[0] == "Figure\tPoint"


def test_the_menu_key_shows_what_can_be_done_with_a_row(table):
    QApplication.sendEvent(
        table, QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(), QPoint())
    )
    (menu,) = [one for one in table.findChildren(QMenu) if one.isVisible()]
    said = [entry.text().replace("&", "") for entry in menu.actions() if entry.text()]
    assert said == [
        "Copy",
        "Copy with heading",
        "Select all",
        "Sort by",
        "Columns",
        "Columns as at first",
    ]
    QTest.keyClick(menu, Qt.Key.Key_Escape)


def test_what_a_spreadsheet_would_run_is_copied_with_a_guard_and_a_figure_without(qtbot):
    """A cell that starts so is run as a formula (common practice, no source)."""
    rows = [["=1+1", "-0.5", "plain"], ["+SUM(A1)", "@name", "two\tcells\nand lines"]]
    copy_cells(rows)
    assert copied() == "'=1+1\t-0.5\tplain\n'+SUM(A1)\t'@name\ttwo cells and lines"
    table = filled(qtbot)
    table.model().show((("=HYPERLINK(1)", "Well"),))
    table.pick(0)
    QTest.keyClick(table, Qt.Key.Key_C, CONTROL)
    assert copied() == "'=HYPERLINK(1)\tWell"


def test_a_list_says_why_it_is_empty_and_that_no_line_holds_the_words(table):
    said = EmptyWords(table, table.model(), "Nothing is noted here yet.")
    assert not said.isVisible()
    table.narrow("no such words")
    assert (said.isVisible(), said.text()) == (True, "No line holds these words.")
    assert table.accessibleDescription() == said.text()
    table.narrow("")
    assert not said.isVisible()
    table.model().show(())
    assert said.isVisible()
    assert said.text() == "Nothing is noted here yet."
    assert table.viewport().rect().contains(said.geometry())


@pytest.mark.parametrize("key", ["show_keys", "show_help", "about", "show_copies", "next_round"])
def test_the_width_of_a_column_in_a_dialog_is_remembered(opened, key):
    def dialog():
        opened.do(key)
        QApplication.processEvents()
        return next(d for d in opened.findChildren(QDialog) if d.isVisible())

    shown = dialog()
    shown.table.horizontalHeader().resizeSection(1, 133)
    shown.reject()
    shown.deleteLater()
    QApplication.processEvents()
    again = dialog()
    assert abs(again.table.columnWidth(1) - 133) <= 1
    again.reject()


@pytest.mark.parametrize(
    ("one", "other"), [("9 mg/L", "10 mg/L"), ("Lead 2", "lead 10"), ("<0.5", "<5"), ("a", "B")]
)
def test_figures_in_words_are_sorted_as_numbers(one, other):
    assert natural(one) < natural(other)


@pytest.mark.parametrize(
    ("page", "wanted"),
    [("overview", "nitr"), ("tests", "kitchen"), ("events", "pump"), ("limits", "lead")],
)
def test_find_leads_into_the_list_of_each_page_and_escape_lets_go(opened, page, wanted):
    opened.do(f"go_{page}")
    opened.do("find")
    field, shown = QApplication.focusWidget(), opened.view.at(page)
    table = shown.table
    before = table.model().rowCount()
    QTest.keyClicks(field, wanted)
    assert 0 < table.model().rowCount() < before
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert QApplication.focusWidget() is table
    assert table.row() is not None
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert table.model().rowCount() == before


def test_what_was_let_go_of_in_a_find_field_does_not_come_before_what_the_book_can_undo(opened):
    opened.do("find")
    field, window = QApplication.focusWidget(), opened.windowHandle()
    for let_go, held in ((Qt.Key.Key_Z, CONTROL), (Qt.Key.Key_Escape, PLAIN)):
        QTest.keyClick(window, "n")
        assert field.text() == "n"
        QTest.keyClick(window, let_go, held)
        assert (field.text(), opened.bar.text) == ("", "")
    QTest.keyClick(window, Qt.Key.Key_Z, CONTROL)
    assert field.text() == ""
    assert "Before that comes" in opened.bar.text


def test_heads_are_passed_over_unless_they_open_their_group_and_never_copied(opened):
    table, model = opened.view.overview.table, opened.view.overview.model
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_Home, CONTROL)
    met = []
    for _ in range(model.rowCount()):
        met.append(table.currentIndex().row())
        QTest.keyClick(table, Qt.Key.Key_Down)
    heads = [row for row in range(model.rowCount()) if model.is_head(row)]
    assert heads
    read_only = {row for row in heads if model.rows[row].is_open is None}
    assert set(met) == set(range(model.rowCount())) - read_only
    table.selectAll()
    table.copy()
    assert len(copied().splitlines()) == model.rowCount() - len(heads)
    click_head(table, 2)  # by day: no groups
    assert not any(model.is_head(row) for row in range(model.rowCount()))
    days = [
        model.rows[row].standing.day
        if not hasattr(model.rows[row].standing, "latest")
        else model.rows[row].standing.latest.collected.day
        for row in range(model.rowCount())
    ]
    assert days == sorted(days)
    table.reset_columns()


def test_f2_changes_the_chosen_event(opened):
    opened.do("go_events")
    table = opened.view.at("events").table
    table.pick(0)
    QTest.keyClick(table, Qt.Key.Key_F2)
    dialog = opened.view.book_actions.dialog
    assert dialog is not None
    dialog.reject()


def test_lists_of_a_book_that_is_empty_say_so_and_no_title_stands_above_nothing(frame, tmp_path):
    with Book.create(tmp_path / "new.wellbook") as book:
        path = book.path
    frame.open_book(path)
    said = {}
    for page in ("tests", "events", "well", "changes"):
        frame.do(f"go_{page}")
        QApplication.processEvents()
        shown = frame.view.at(page).findChildren(EmptyWords)
        said[page] = [words.text() for words in shown if words.isVisible()]
    assert [len(words) for words in said.values()] == [1, 1, 1, 1]
    assert "a flood" in said["events"][0].casefold()
    assert frame.view.at("well").glance.way.isHidden()
