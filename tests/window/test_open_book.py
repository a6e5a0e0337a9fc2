"""Opening, looking round, and what is said when a file is no book."""

import os
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from wellbook.window.app.book_pages import Page
from wellbook.window.dialogs.round.round_dialog import RoundDialog


def texts(model, column):
    return [model.index(row, column).data() for row in range(model.rowCount())]


def test_the_first_page_offers_the_invented_households(frame):
    names = [frame.first_page._samples.item(row).text() for row in range(3)]
    assert [name.split(":")[0] for name in names] == ["Alder Hollow", "First Year", "Salt Lane"]
    assert frame.windowTitle() == "Start page"


def test_an_invented_household_is_copied_to_the_place_chosen(frame, answers, tmp_path):
    answers.path = tmp_path / "mine.wellbook"
    frame.first_page.sample_wanted.emit("salt-lane")
    assert answers.path.is_file()
    assert frame.view.household.path == answers.path
    assert frame.windowTitle() == "mine"


def test_the_overview_shows_what_needs_a_look_first(opened, qtbot):
    qtbot.waitUntil(lambda: not opened.view.look.is_pending, timeout=20000)
    names = texts(opened.view.overview.model, 0)
    assert names[0] == "Look at these first"
    assert names[1:3] == ["Nitrate + nitrite", "Nitrate"]  # the sum is nearer to its limit
    assert names.index("Within the limits") < names.index("Arsenic")
    row = names.index("Nitrate")
    assert [opened.view.overview.model.index(row, c).data() for c in (1, 2, 3, 5)] == [
        "9.20 mg/L as N",
        "7 Oct 2025",
        "close",
        "rising",
    ]


def test_what_is_due_is_said_with_its_day_and_a_day_that_suits(opened, qtbot):
    qtbot.waitUntil(lambda: bool(opened.view.overview.due.lines), timeout=20000)
    longest, line, *_ = opened.view.overview.due.lines
    assert longest.startswith("Uranium and radioactivity: due since 10 Mar 2020")
    assert line.startswith("Bacteria, Nitrate: due since 7 Oct 2026")
    assert "; a good day: " in line


def test_the_search_narrows_down_and_shows_all_again(opened):
    page = opened.view.overview
    everything = page.model.rowCount()
    page.search.setText("nitra")
    assert "Nitrate" in texts(page.model, 0)
    assert "Arsenic" not in texts(page.model, 0)
    page.search.setText("no such thing")
    assert page.model.rowCount() == 0
    assert "No parameter of that name" in page.notes.text()
    page.search.clear()
    assert page.model.rowCount() == everything


def test_another_point_is_another_water(opened):
    view = opened.view
    points = view.head.points
    assert points.count() == 2
    other = 1 - points.currentIndex()
    points.setCurrentIndex(other)
    points.activated.emit(other)
    assert view.point.point.treated
    assert "Sodium" in texts(view.overview.model, 0)


def test_points_are_offered_only_on_pages_that_show_one(opened):
    head = opened.view.head
    place = head.links[Page.TESTS].pos()
    head.points.setFocus()
    opened.do("go_events")
    assert head.links[Page.EVENTS].hasFocus()
    for action, is_by_point in (
        ("go_tests", False),
        ("go_well", False),
        ("next_parameter", True),
        ("go_limits", False),
        ("go_overview", True),
    ):
        opened.do(action)
        QApplication.processEvents()
        assert head.points.isVisible() is is_by_point, action
        assert head.links[Page.TESTS].pos() == place


def test_pages_are_reached_and_left_by_key(opened):
    view = opened.view
    opened.do("go_tests")
    assert view.page == Page.TESTS
    opened.do("go_events")
    assert view.page == Page.EVENTS
    opened.do("next_parameter")
    assert view.page == Page.PARAMETER
    first = view.at("parameter").title.text()
    opened.do("next_parameter")
    assert view.at("parameter").title.text() != first
    opened.do("previous_parameter")
    assert view.at("parameter").title.text() == first
    opened.do("go_back")
    assert view.page == Page.OVERVIEW


def test_a_file_that_is_no_book_is_said_in_one_sentence_and_the_open_book_stays(opened, tmp_path):
    foreign = tmp_path / "letter.wellbook"
    foreign.write_text("Dear neighbour")
    before = opened.view
    opened.open_first(foreign)
    assert "is not a book" in opened.bar.text
    assert opened.view is before


def test_a_book_that_was_moved_is_opened_from_where_it_is_now(frame, tmp_path, household, answers):
    frame.open_first(tmp_path / "gone.wellbook")
    assert "gone.wellbook is no longer in" in frame.bar.text
    assert "'new'" not in frame.bar.text, "a word of the command line"
    assert frame.view is None
    answers.path = household()
    (button,) = [one for one in frame.findChildren(QPushButton) if one.text() == "Open a book…"
                 and one.parent() is frame.bar]  # fmt: skip
    button.click()
    assert frame.view.household.path == answers.path


def test_a_book_that_vanished_is_noticed(opened):
    opened.view.household.path.unlink()
    opened.bar.attempt(opened.view.refresh_if_changed)
    assert "it is gone" in opened.bar.text


def test_what_another_window_wrote_is_shown(opened):
    from wellbook.book import Book

    with Book.open(opened.view.household.path) as other:
        other.add_event(1, "flood", "2026-11-20", text="Creek over the bank")
    opened.view.refresh_if_changed()
    assert "Creek over the bank" in texts(opened.view.at("events").model, 3)


def test_what_another_program_wrote_is_shown_without_a_click_but_not_behind_a_dialog(opened, qtbot):
    from wellbook.book import Book

    view = opened.view
    opened.do("go_events")
    view.watch.setInterval(10)
    opened.do("add_event")
    assert QApplication.activeModalWidget() is not None
    with Book.open(view.household.path) as other:
        other.add_event(1, "flood", "2026-11-20", text="Creek over the bank")
    for _look in range(3):
        view.watch.look()
    assert "Creek over the bank" not in texts(view.at("events").model, 3)
    QApplication.activeModalWidget().reject()
    qtbot.waitUntil(lambda: "Creek over the bank" in texts(view.at("events").model, 3))
    view.household.path.unlink()
    qtbot.waitUntil(lambda: "it is gone" in opened.bar.text)


def test_a_page_that_is_not_shown_is_brought_up_to_date_when_it_is_gone_to(opened):
    view = opened.view
    opened.do("go_events")
    opened.do("go_well")
    add = partial(view.household.book.add_event, 1, "flood", "2026-11-20", text="Creek again")
    view.household.apart(add)
    view.refresh()
    assert view.pages.currentWidget() is view.at("well")
    opened.do("go_events")
    assert "Creek again" in texts(view.at("events").model, 3)


def test_a_book_that_can_only_be_read_offers_nothing_that_writes(frame, household):
    path = household()
    path.chmod(0o444)
    path.parent.chmod(0o555)
    try:
        frame.open_book(path)
        if os.geteuid() != 0 or frame.view.household.book.is_readonly:
            assert frame.view.household.book.is_readonly
            assert "reading only" in frame.bar.text
            assert not frame.actions_by_key["add_event"][1].isEnabled()
            assert not frame.view.at("events").add_button.isEnabled()
    finally:
        path.parent.chmod(0o755)


def test_closing_the_book_leads_back_to_the_first_page(opened):
    opened.do("close_book")
    assert opened.view is None
    assert not opened.actions_by_key["add_file"][1].isEnabled()
    assert opened.actions_by_key["open_book"][1].isEnabled()


def test_an_empty_book_shows_the_first_steps_instead_of_empty_tables(
    frame, answers, tmp_path, qtbot
):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    frame.view.book_actions.dialog.reject()
    dialog = frame.view.book_actions.dialog
    overview = frame.view.overview
    assert overview.first_steps.isVisible()
    assert not overview.table.isVisible()
    dialog.well.setEditText("Hill well")
    dialog.name.setText("Kitchen tap")
    dialog.accept()
    qtbot.waitUntil(lambda: frame.view.head.name.text() == "Hill well", timeout=20000)
    assert frame.view.head.points.currentText() == "Kitchen tap (untreated)"
    assert overview.first_steps.isVisible()
    assert not overview.notes.isVisible()


def test_each_first_step_of_an_empty_book_leads_where_it_says(frame, answers, tmp_path, qtbot):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    for _unused in range(2):
        frame.view.book_actions.dialog.reject()
    titles = []
    for button in frame.view.overview.first_steps.findChildren(QPushButton):
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
        dialog = frame.view.book_actions.dialog
        titles.append((button.text(), dialog.windowTitle() if dialog else ""))
        if dialog:
            dialog.reject()
    assert titles == [
        ("Type in a paper report…", "Enter a test by hand"),
        ("From a lab’s file…", ""),  # the person chose no file
        ("The household…", "The household"),
        ("Plan a test…", "A place where samples are drawn"),
    ]


def test_planning_a_first_test_asks_for_the_place_and_shows_the_round(
    frame, answers, tmp_path, qtbot
):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    for _unused in range(2):
        frame.view.book_actions.dialog.reject()
    plan = frame.view.overview.first_steps.findChildren(QPushButton)[-1]
    qtbot.mouseClick(plan, Qt.MouseButton.LeftButton)
    frame.view.book_actions.dialog.accept()
    qtbot.waitUntil(lambda: isinstance(frame.view.book_actions.dialog, RoundDialog), timeout=20000)
    frame.view.book_actions.dialog.reject()


def test_a_first_test_makes_its_book_its_well_and_its_point_and_is_one_entry(frame, qtbot):
    page = frame.first_page
    typed = next(b for b in page.findChildren(QPushButton) if b.text().startswith("Type in"))
    qtbot.mouseClick(typed, Qt.MouseButton.LeftButton)
    dialog, book = frame.view.book_actions.dialog, frame.view.household.book
    assert str(book.path) in frame.bar.text
    dialog.day.setText("2026-10-01")
    first = dialog.lines.rows[0].parameter
    qtbot.keyClicks(first.lineEdit(), "Iron <0.05 mg/L")
    dialog.accept()
    (sample,) = book.samples()
    (reading,) = (one.reading for one in book.results(sample=sample.id))
    assert (reading.text, reading.unit) == ("<0.05", "mg/L")
    assert [(well.name, point.name) for well in book.wells() for point in book.points()] == [
        ("Our well", "At the pressure tank")
    ]
    assert "Say who drinks it" in "".join(
        b.text() for b in frame.bar.findChildren(QPushButton) if b.isVisible()
    )
    assert not frame.view.overview.first_steps.isVisible()
    frame.do("undo")
    assert list(book.samples()) == list(book.points()) == list(book.wells()) == []


def test_a_second_first_test_never_lies_over_the_first_book(frame):
    for _unused in range(2):
        frame.new_books.begin_by_hand()
        frame.view.book_actions.dialog.reject()
        frame.do("close_book")
    names = [path.name for path in frame.recent]
    assert len(set(names)) == 2
    for path in frame.recent:
        path.unlink()
