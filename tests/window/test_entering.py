"""Entering a test from a file and by hand, an event, and taking it back."""

from datetime import date

import pytest
from PySide6.QtCore import QDate, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QPushButton

from wellbook.support import paths


def lab_file(name):
    return next((paths.sample_wells() / name / "to-add").iterdir())


def review(frame, qtbot):
    qtbot.waitUntil(lambda: frame.view.book_actions.dialog is not None, timeout=20000)
    return frame.view.book_actions.dialog


def cells(model, column):
    return [model.index(row, column).data() for row in range(model.rowCount())]


@pytest.fixture
def salted(frame, household):
    frame.open_book(household("salt-lane"))
    return frame


def test_a_lab_file_is_looked_over_then_kept_and_stands_on_the_chart(salted, answers, qtbot):
    view = salted.view
    answers.paths = [lab_file("salt-lane")]
    salted.do("add_file")
    dialog = review(salted, qtbot)
    assert "Chloride" in cells(dialog.readings_model, 0)
    before = len(view.household.book.samples())
    drawn = {(s.sample.collected.day, s.point_name) for s in dialog.draft.samples}
    assert before == len(view.household.book.samples()), "nothing is kept before it is accepted"
    dialog.accept()
    assert len(view.household.book.samples()) == before + len(dialog.draft.samples)
    assert "kept" in salted.bar.text
    for day, _ in drawn:
        assert day.strftime("%-d %b %Y") in " ".join(cells(view.at("tests").model, 0))
    view.show_parameter("chloride")
    assert max(mark.day for mark in view.at("parameter").chart.marks) == max(
        day for day, _ in drawn
    )


def test_a_file_dropped_on_the_window_is_read(salted, qtbot):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(lab_file("salt-lane")))])
    nothing, no_key = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    drop = QDropEvent(QPointF(9, 9), Qt.DropAction.CopyAction, data, nothing, no_key)
    salted.dropEvent(drop)
    dialog = review(salted, qtbot)
    assert dialog.draft.samples
    dialog.reject()
    assert salted.view.book_actions.dialog is None


def test_a_copied_table_is_read_like_a_file(salted, qtbot, qapp):
    table = "Sample Date\tAnalyte\tResult\tUnits\n2026-10-02\tChloride\t301\tmg/L\n"
    qapp.clipboard().setText(table)
    salted.do("paste")
    dialog = review(salted, qtbot)
    assert "copied table" in dialog.windowTitle()  # as the menu calls it
    [field] = dialog.places.fields.values()
    dialog.accept()
    assert "Choose the point" in dialog.bar.text
    field.setCurrentIndex(0)
    dialog.accept()
    assert "301 mg/L" in cells(salted.view.overview.model, 1)


def test_a_printed_point_of_another_name_is_matched_by_hand(salted, answers, qtbot, tmp_path):
    strange = tmp_path / "two.csv"
    strange.write_text(
        "Location,Sample Date,Analyte,Result,Units\n"
        "Tap A,2026-10-02,Chloride,302,mg/L\n"
        "Tap B,2026-10-02,Chloride,5.5,mg/L\n"
    )
    answers.paths = [strange]
    salted.do("add_file")
    dialog = review(salted, qtbot)
    assert list(dialog.places.fields) == ["Tap A", "Tap B"]
    for place, field in enumerate(dialog.places.fields.values()):
        field.setCurrentIndex(place)
        field.activated.emit(place)
    assert cells(dialog.samples_model, 1) == ["Tap A", "Tap B"]
    dialog.accept()
    book = salted.view.household.book
    latest = [book.results(point.id, "chloride")[-1].reading.text for point in book.points()]
    assert latest == ["302", "5.5"]


@pytest.mark.parametrize(
    ("country", "is_asked", "read", "other"),
    [
        ("", True, "5 Mar 2024", "3 May 2024"),
        ("US", False, "5 Mar 2024", "3 May 2024"),
        ("IE", False, "3 May 2024", "5 Mar 2024"),
    ],
)
def test_a_date_that_can_be_read_two_ways_is_asked_or_told_and_turned(
    salted, answers, qtbot, tmp_path, country, is_asked, read, other
):
    """Ireland writes the day first, the United States the month: Unicode locale data."""
    salted.view.household.book.set_setting("country", country)
    strange = tmp_path / "dates.csv"
    strange.write_text("Sample Date,Analyte,Result,Units\n03/05/2024,Chloride,200,mg/L\n")
    answers.paths = [strange]
    salted.do("add_file")
    dialog = review(salted, qtbot)
    assert dialog.keep_button.isEnabled() is not is_asked
    assert dialog.order.isVisible()
    assert dialog.order.currentIndex() == (country == "IE")
    assert cells(dialog.samples_model, 0) == [read]
    turned = 1 - dialog.order.currentIndex()
    dialog.order.setCurrentIndex(turned)
    dialog.order.activated.emit(turned)
    qtbot.waitUntil(lambda: cells(dialog.samples_model, 0) == [other], timeout=5000)
    assert dialog.keep_button.isEnabled()
    dialog.discard()


def test_the_first_file_of_an_empty_book_names_its_well(frame, answers, qtbot, tmp_path):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    frame.view.book_actions.dialog.reject()
    frame.view.book_actions.dialog.reject()
    answers.paths = [lab_file("salt-lane")]
    frame.do("add_file")
    dialog = review(frame, qtbot)
    dialog.places.well.setText("Hill well")
    dialog.accept()
    assert frame.view.head.name.text() == "Hill well"
    assert frame.view.head.points.count() == len(dialog.places.fields)


def test_a_draft_that_is_closed_leaves_no_trace(salted, answers, qtbot):
    book = salted.view.household.book
    before = book.digest()
    answers.paths = [lab_file("salt-lane")]
    salted.do("add_file")
    review(salted, qtbot).reject()
    assert book.digest() == before


def test_the_same_file_again_is_asked_about_and_kept_only_if_wanted(salted, answers, qtbot):
    book = salted.view.household.book
    answers.paths = [lab_file("salt-lane")]
    for _ in range(2):
        salted.do("add_file")
        dialog = review(salted, qtbot)
        dialog.accept()
    assert dialog.isVisible()
    assert "already" in dialog.bar.text
    before = len(book.samples())
    (as_well,) = [b for b in dialog.bar.findChildren(QPushButton) if b.text() == "Keep it as well"]
    assert as_well.isVisible()
    qtbot.mouseClick(as_well, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
    assert len(book.samples()) == before + len(dialog.draft.samples)


def test_a_file_that_is_no_lab_report_is_said_in_one_sentence(salted, answers, qtbot, tmp_path):
    strange = tmp_path / "holiday.csv"
    strange.write_bytes(b"\x00\x01\x02" * 50)
    answers.paths = [strange]
    salted.do("add_file")
    qtbot.waitUntil(lambda: not salted.view.book_actions.job.running, timeout=20000)
    qtbot.waitUntil(
        lambda: "holiday.csv" in salted.bar.text and "Reading" not in salted.bar.text, timeout=5000
    )
    assert salted.view.book_actions.dialog is None


def test_a_test_typed_by_hand_is_kept_as_printed(opened):
    view = opened.view
    opened.do("add_by_hand")
    dialog = view.book_actions.dialog
    dialog.day.setText("2026-11-10")
    row = dialog.lines.rows[0]
    row.parameter.setCurrentText("Nitrate")
    row.result.setText("9.8")
    assert row.unit.currentText() == "mg/L"
    dialog.accept()
    assert "what does the report count Nitrate as?" in dialog.bar.text
    row.basis.setCurrentText("as N")
    assert row.understood.text() == "9.8 mg/L as N"
    second = dialog.lines.rows[1]
    second.parameter.setCurrentText("Lead")
    second.result.setText("<2")
    second.unit.setEditText("ug/L")
    assert second.understood.text() == "not detected, below 2 ug/L"
    dialog.accept()
    if dialog.isVisible():  # something was asked: keep it all the same
        assert dialog.keep_button.text() == "Keep it all the same"
        dialog.accept()
    day = date(2026, 11, 10)
    kept = [r for r in view.household.book.results() if r.collected.day == day]
    assert [(r.parameter, r.reading.text, r.reading.unit) for r in kept] == [
        ("nitrate", "9.8", "mg/L"),
        ("lead", "<2", "ug/L"),
    ]
    assert "9.8 mg/L as N" in cells(view.overview.model, 1)


def test_a_report_is_kept_beside_a_test_typed_by_hand(opened, answers, tmp_path):
    book = opened.view.household.book
    report = tmp_path / "report.pdf"
    report.write_bytes(b"%PDF-1.4 made up")
    opened.do("add_by_hand")
    dialog = opened.view.book_actions.dialog
    answers.paths = [report]
    dialog.attach_button.click()
    assert dialog.attached.text() == "report.pdf"
    dialog.day.setText("2026-11-10")
    dialog.lines.rows[0].parameter.setCurrentText("Iron")
    dialog.lines.rows[0].result.setText("0.31")
    dialog.accept()
    if dialog.isVisible():
        dialog.accept()
    newest = max(book.samples(), key=lambda sample: sample.id)
    [document] = book.documents(sample=newest.id)
    assert (document.name, document.media_type) == ("report.pdf", "application/pdf")
    assert book.content(document.id) == b"%PDF-1.4 made up"


def test_a_report_that_is_gone_is_said_and_nothing_is_kept(opened, answers, tmp_path):
    book = opened.view.household.book
    before = book.digest()
    opened.do("add_by_hand")
    dialog = opened.view.book_actions.dialog
    answers.paths = [tmp_path / "gone.pdf"]
    dialog.attach_button.click()
    dialog.day.setText("2026-11-10")
    dialog.lines.rows[0].parameter.setCurrentText("Iron")
    dialog.lines.rows[0].result.setText("0.31")
    dialog.accept()
    assert "gone.pdf can’t be read" in dialog.bar.text
    assert book.digest() == before
    dialog.discard()


def test_a_new_line_appears_when_the_last_is_begun(opened):
    opened.do("add_by_hand")
    lines = opened.view.book_actions.dialog.lines
    before = len(lines.rows)
    lines.rows[-1].result.setText("1")
    assert len(lines.rows) == before + 1
    opened.view.book_actions.dialog.discard()


def test_a_test_without_results_is_not_kept(opened):
    opened.do("add_by_hand")
    dialog = opened.view.book_actions.dialog
    dialog.accept()
    assert dialog.isVisible()
    assert dialog.bar.text == "Enter at least one result."
    dialog.reject()


def test_an_event_known_to_the_month_is_kept_to_the_month(opened):
    view = opened.view
    opened.do("add_event")
    dialog = view.book_actions.dialog
    dialog.kind.setCurrentIndex(dialog.kind.findData("repair"))
    dialog.known.setCurrentIndex(1)
    dialog.day.setDate(QDate(2025, 4, 1))
    dialog.text.setPlainText("New gasket")
    dialog.private.setChecked(True)
    dialog.accept()
    kept = next(e for e in view.household.book.events() if e.text == "New gasket")
    assert (kept.kind, kept.day, kept.private) == ("repair", "2025-04", True)
    assert "April 2025" in cells(view.at("events").model, 0)


def pick_event(view, text):
    page = view.at("events")
    page.table.pick([event.text for event in page.model.rows].index(text))


def test_an_event_is_changed_in_place_and_keeps_what_was_not_touched(opened):
    view, book = opened.view, opened.view.household.book
    well = book.wells()[0].id
    number = book.add_event(
        well, "flood", "2019-04", until="2019-05-02", text="Creek", private=True
    )
    opened.do("go_events")
    view.at("events").refresh()
    pick_event(view, "Creek")
    view.at("events").change_button.click()
    dialog = view.book_actions.dialog
    assert (dialog.kind.currentData(), dialog.until.text()) == ("flood", "2019-05-02")
    dialog.text.setPlainText("The creek stood over the cap")
    dialog.accept()
    changed = next(event for event in book.events() if event.id == number)
    assert (changed.well, changed.kind, changed.day, changed.until) == (
        well, "flood", "2019-04", "2019-05-02",
    )  # fmt: skip
    assert changed.private
    assert changed.text == "The creek stood over the cap"
    assert book.journal()[-1].action == "change an event"


def test_an_event_can_t_end_before_it_began(opened):
    view = opened.view
    before = view.household.book.events()
    opened.do("add_event")
    dialog = view.book_actions.dialog
    dialog.kind.setCurrentIndex(0)
    dialog.day.setDate(QDate(2025, 4, 10))
    dialog.until.setText("2025-03")
    dialog.accept()
    assert dialog.isVisible()
    assert "ended before it began" in dialog.bar.text
    dialog.until.setText("the next day")
    dialog.accept()
    assert "is no day" in dialog.bar.text
    dialog.discard()
    assert view.household.book.events() == before


def test_an_event_is_taken_out_and_comes_back(opened):
    view, book = opened.view, opened.view.household.book
    book.add_event(book.wells()[0].id, "repair", "2021", text="Wrong well")
    opened.do("go_events")
    view.at("events").refresh()
    pick_event(view, "Wrong well")
    view.at("events").remove_button.click()
    assert "Wrong well" not in cells(view.at("events").model, 3)
    assert "taken out" in opened.bar.text
    opened.do("undo")
    assert "Wrong well" in cells(view.at("events").model, 3)


def test_what_was_entered_can_be_taken_back_and_entered_again(opened):
    view = opened.view
    opened.do("add_event")
    dialog = view.book_actions.dialog
    dialog.kind.setCurrentIndex(0)
    dialog.text.setPlainText("Lightning")
    dialog.accept()
    assert "Lightning" in cells(view.at("events").model, 3)
    opened.do("undo")
    assert "Lightning" not in cells(view.at("events").model, 3)
    opened.do("redo")
    assert "Lightning" in cells(view.at("events").model, 3)


def test_a_point_of_the_same_name_is_refused(opened):
    view = opened.view
    opened.do("add_point")
    dialog = view.book_actions.dialog
    dialog.name.setText(view.household.book.points()[0].name)
    dialog.accept()
    assert dialog.isVisible()
    assert "has a point" in dialog.bar.text
    dialog.discard()
