"""How a person arranged a list is kept and recalled; what can't fit leaves it as it is made."""

import json

import pytest

from wellbook.window.widgets.lists.list_columns import ColumnMemory, ListColumns, share

KEPT = ListColumns([2], {0: 12.5, 3: 4.0}, 1, is_falling=True)


@pytest.fixture
def memory(preferences):
    ColumnMemory.store = preferences.lists
    yield preferences.lists
    ColumnMemory.store = None


def as_kept(**other):
    facts = {"hidden": [2], "widths": {"0": 12.5}, "sorted_by": 1, "is_falling": True}
    return json.dumps(facts | other)


def test_what_is_kept_is_recalled_under_its_name_only(memory):
    ColumnMemory.keep("all tests", KEPT)
    assert ColumnMemory.recall("all tests", 4) == KEPT
    assert ColumnMemory.recall("all_tests", 4) == KEPT, "one place of the settings"
    assert ColumnMemory.recall("tests", 4) == ListColumns()
    assert memory.value("list_all_tests") is not None


def test_a_list_without_a_name_keeps_nothing(memory):
    ColumnMemory.keep("", KEPT)
    assert memory.value("list_") is None
    memory.setValue("list_", as_kept())
    assert ColumnMemory.recall("", 4) == ListColumns()


def test_without_settings_nothing_is_kept():
    assert ColumnMemory.store is None
    ColumnMemory.keep("tests", KEPT)
    assert ColumnMemory.recall("tests", 4) == ListColumns()


@pytest.mark.parametrize(
    ("columns", "other"),
    [
        (3, {}),  # the largest place is 2
        (3, {"hidden": [0, 1]}),
        (2, {"hidden": []}),
        (1, {"hidden": [], "sorted_by": 0}),
        (4, {"sorted_by": -1}),
        (4, {"widths": {}}),
        (4, {"widths": {"3": 2}}),
    ],
)
def test_what_fits_the_columns_is_recalled(memory, columns, other):
    memory.setValue("list_tests", as_kept(**other))
    assert ColumnMemory.recall("tests", columns) != ListColumns()


@pytest.mark.parametrize(
    ("columns", "other"),
    [
        (2, {}),  # there is no third column to hide
        (1, {"hidden": []}),  # none to sort by
        (3, {"sorted_by": 3}),
        (3, {"widths": {"3": 2}}),
        (3, {"widths": {"-1": 2}}),
        (3, {"hidden": [-1]}),
        (3, {"hidden": [0, 1, 2]}),  # a list without a column
        (4, {"hidden": "first"}),
        (4, {"hidden": None}),
        (4, {"widths": []}),
        (4, {"widths": {"0": "wide"}}),
        (4, {"sorted_by": None}),
    ],
)
def test_what_doesn_t_fit_leaves_the_list_as_it_is_made(memory, columns, other):
    memory.setValue("list_tests", as_kept(**other))
    assert ColumnMemory.recall("tests", columns) == ListColumns()


@pytest.mark.parametrize("kept", ["", "{", "[]", "7", "null", "{}"])
def test_what_is_no_arrangement_leaves_the_list_as_it_is_made(memory, kept):
    memory.setValue("list_tests", kept)
    assert ColumnMemory.recall("tests", 4) == ListColumns()


def test_a_list_as_it_is_made_hides_nothing_and_is_not_sorted():
    made = ListColumns()
    assert (made.hidden, made.widths, made.sorted_by, made.is_falling) == ([], {}, -1, False)


@pytest.mark.parametrize(
    ("widths", "rest", "got", "widest"),
    [
        ([100, 80, 20], 120, 120, 80),  # there is more room than it wants
        ([100, 80, 20], 100, 100, 80),
        ([100, 80, 20], 98, 98, 80),  # it has more than the widest other one
        ([100, 80, 20], 60, 70, 70),  # no more than half of what it has more
        ([100, 80, 20], 61, 70, 71),
        ([100, 80, 20], 80, 80, 80),
        ([100, 80, 20], 78, 79, 79),
        ([100, 81, 20], -10, 30, 41),
        ([100, 80, 20], -10, 30, 40),
        ([100, 80, 20], 0, 40, 40),
        ([10, 80, 20], 4, 10, 74),  # no more than it lacks
    ],
)
def test_a_column_gets_of_the_widest_what_its_words_lack(widths, rest, got, widest):
    held = dict(enumerate(widths))
    assert share(held, 0, rest, ()) == got
    assert held == {0: widths[0], 1: widest, 2: widths[2]}


def test_columns_of_a_set_width_give_nothing():
    held = {0: 100, 1: 80, 2: 60}
    assert share(held, 0, 20, {1}) == 40
    assert held == {0: 100, 1: 80, 2: 40}
    assert share({0: 100, 1: 80}, 0, 20, {1}) == 20
    assert share({0: 100}, 0, 20, ()) == 20
