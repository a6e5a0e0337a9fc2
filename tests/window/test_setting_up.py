"""A new household says where its well lies, and what was found is told with the day asked for."""

from datetime import timedelta

import pytest
from household import result, sample
from packet_fixtures import TODAY
from PySide6.QtWidgets import QLabel

from wellbook.book import Book
from wellbook.window.dialogs.cases_dialog import CasesDialog
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.window.dialogs.household.household_dialog import HouseholdDialog


@pytest.fixture
def new(frame, tmp_path):
    frame.show_book(Book.create(tmp_path / "new.wellbook"))
    return frame


@pytest.fixture
def tap(new):
    """Number of the one tap of a new book."""
    book = new.view.household.book
    return book.add_point(book.add_well("Home"), "Tap")


def shown(qtbot, dialog):
    qtbot.addWidget(dialog, before_close_func=lambda dialog: dialog.discard())
    dialog.show()
    return dialog


@pytest.mark.parametrize(
    ("country", "state"), [("US", "MN"), ("united states", "minnesota"), ("us", "Minnesota (MN)")]
)
def test_a_place_is_known_by_its_name_or_its_code(qtbot, new, country, state):
    """ISO 3166-2: US-MN is Minnesota."""
    fields = shown(qtbot, HouseholdDialog(new.view.household, new, is_first=True)).place
    for box, text in ((fields.country, country), (fields.state, state)):
        box.setEditText(text)
        box.lineEdit().editingFinished.emit()
    assert (fields.typed()["country"], fields.typed()["state"]) == ("US", "MN")
    assert fields.country.currentText() == "United States (US)"
    assert fields.state.currentText() == "Minnesota (MN)"


def test_a_first_household_is_not_told_that_its_limits_changed(qtbot, new):
    dialog = shown(qtbot, HouseholdDialog(new.view.household, new, is_first=True))
    dialog.place.country.setEditText("US")
    dialog.place.state.setEditText("MN")
    assert dialog.keep() == "The household is kept."


@pytest.mark.usefixtures("tap")
def test_an_empty_book_sets_what_is_next_at_its_left(qtbot, new):
    new.view.refresh()
    page = new.view.overview
    qtbot.waitUntil(lambda: page.due.isVisible() and page.due.x() == page.first_steps.x())


@pytest.mark.usefixtures("tap")
def test_an_event_is_entered_on_the_day_of_the_household(qtbot, new):
    dialog = shown(qtbot, EventDialog(new.view.household, new))
    assert dialog.day.date().toPython() == dialog.day.maximumDate().toPython() == TODAY


@pytest.mark.parametrize(("ago", "said"), [(3, "Next, by "), (90, "Next, due since ")])
def test_a_case_says_whether_its_day_is_past(new, tap, ago, said):
    """Nitrate is confirmed within two weeks: `exceedances.csv`."""
    over = result("nitrate", "Nitrate", "12.4", "mg/L", basis="as N")
    day = (TODAY - timedelta(days=ago)).isoformat()
    new.view.household.book.add_sample(sample(tap, day, over))
    new.view.refresh()
    new.view.show_cases()
    dialog = new.findChild(CasesDialog)
    lines = [one.text() for one in dialog.findChildren(QLabel)]
    assert any(one.startswith(said) for one in lines)
    assert not any(".," in one for one in lines)
    dialog.reject()
