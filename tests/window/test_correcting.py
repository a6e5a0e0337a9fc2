"""Correcting keeps the first entry; documents are added, kept whole, verified."""

import sqlite3
from datetime import date, time
from decimal import Decimal

import pytest

from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.window.common.typed_days import (
    read_day,
    read_drawn,
    read_moment,
    read_partial,
    written,
)


def pick_reading(page, name):
    for row, line in enumerate(page.readings_model.rows):
        if line.parameter and line.parameter.name == name:
            page.readings.pick(row)
            return line.result
    raise LookupError(name)


@pytest.fixture
def tests(opened):
    opened.do("go_tests")
    page = opened.view.at("tests")
    page.table.pick(1)
    return page


def test_a_reading_is_corrected_with_a_reason_and_the_first_entry_stays(opened, tests):
    before = pick_reading(tests, "Nitrate")
    tests.reading_button.click()
    dialog = opened.view.book_actions.dialog
    dialog.line.result.setText("9.02")
    dialog.accept()
    assert dialog.isVisible()
    assert "with a reason" in dialog.bar.text
    dialog.reason.setPlainText("Digits swapped while typing")
    dialog.accept()
    book = opened.view.household.book
    after = next(r for r in book.results() if r.id == before.id)
    assert after.reading.text == "9.02"
    assert (after.name, after.method, after.lab, after.draw) == (
        before.name,
        before.method,
        before.lab,
        before.draw,
    )
    entry = book.journal()[-1]
    assert entry.reason == "Digits swapped while typing"
    assert '"9.20"' in entry.changes
    assert '"lab"' not in entry.changes, "what was not changed is not journaled"


def test_a_reading_opened_and_kept_as_it_is_changes_nothing(opened, tests):
    book = opened.view.household.book
    kept = book.results(with_struck=True)
    for row in range(tests.readings_model.rowCount()):
        tests.readings.pick(row)
        tests.reading_button.click()
        dialog = opened.view.book_actions.dialog
        assert dialog.reason.placeholderText().startswith("Needed")
        dialog.reason.setPlainText("Looked at it")
        dialog.accept()
        assert not dialog.isVisible(), dialog.bar.text
    assert book.results(with_struck=True) == kept


def test_a_reading_that_was_left_out_is_added_to_its_test_with_a_reason(opened, tests):
    book, test = opened.view.household.book, tests.sample
    before = book.results(sample=test.id)
    tests.add_button.click()
    dialog = opened.view.book_actions.dialog
    dialog.line.parameter.setCurrentText("Bromide")
    dialog.accept()
    assert dialog.bar.text == "Enter a parameter and a result as printed."
    dialog.line.result.setText("0.05")
    dialog.accept()
    assert "with a reason" in dialog.bar.text
    dialog.reason.setPlainText("The second page of the report")
    dialog.accept()
    (added,) = [one for one in book.results(sample=test.id) if one not in before]
    assert (added.parameter, added.reading.text, added.reading.unit) == ("bromide", "0.05", "mg/L")
    assert added.collected == test.collected
    assert opened.bar.text == "The reading is kept: Bromide 0.05 mg/L."
    assert [sample.id for sample in book.samples()].count(test.id) == 1


def test_the_facts_of_a_test_are_corrected_with_a_reason(opened, tests):
    before = tests.sample
    tests.correct_button.click()
    dialog = opened.view.book_actions.dialog
    assert dialog.fields["reason"].placeholderText().startswith("Needed"), "before it is kept"
    dialog.fields["collected"].setText("2025-02-30")
    dialog.fields["reason"].setPlainText("Wrong day on the form")
    dialog.accept()
    assert "is no day" in dialog.bar.text
    dialog.fields["collected"].setText("2025-03-02 07:40")
    dialog.accept()
    after = opened.view.household.book.sample(before.id)
    assert (after.collected.day, after.collected.at) == (date(2025, 3, 2), time(7, 40))
    assert (after.lab, after.purpose, after.standing) == (
        before.lab,
        before.purpose,
        before.standing,
    )


def test_a_test_is_not_put_on_a_day_that_lies_ahead(opened, tests):
    before = tests.sample
    tests.correct_button.click()
    dialog = opened.view.book_actions.dialog
    dialog.fields["collected"].setText("2027-03-02")
    dialog.fields["reason"].setPlainText("Wrong year on the form")
    dialog.accept()
    assert "lies ahead: type the day on which it was drawn" in dialog.bar.text
    assert opened.view.household.book.sample(before.id) == before
    dialog.discard()


def test_a_slip_in_a_correction_is_asked_about_once(opened, tests):
    before = pick_reading(tests, "Nitrate")
    assert before.reading.text == "9.20"
    tests.reading_button.click()
    dialog = opened.view.book_actions.dialog
    dialog.line.result.setText("0.920")  # a point in the wrong place hides what is close to a limit
    dialog.reason.setPlainText("Misread")
    dialog.accept()
    book = opened.view.household.book
    assert "is 6.5 times lower than" in dialog.bar.text
    assert before in book.results()
    dialog.accept()
    assert next(r for r in book.results() if r.id == before.id).reading.text == "0.920"


def test_a_test_kept_as_it_is_changes_nothing(opened, tests):
    book = opened.view.household.book
    kept = book.samples(with_struck=True)
    for row in range(tests.model.rowCount()):
        tests.table.pick(row)
        tests.correct_button.click()
        dialog = opened.view.book_actions.dialog
        dialog.fields["reason"].setPlainText("Looked at it")
        dialog.accept()
        assert not dialog.isVisible(), dialog.bar.text
    assert book.samples(with_struck=True) == kept


def test_a_document_is_added_to_a_test_and_verified(opened, tests, answers, tmp_path):
    photo = tmp_path / "bottle.jpg"
    photo.write_bytes(b"\xff\xd8 a photo")
    answers.paths = [photo]
    tests.documents.add_button.click()
    assert opened.bar.text == "bottle.jpg is kept."
    tests.documents.list.setCurrentRow(tests.documents.list.count() - 1)
    tests.documents.verify_button.click()
    assert "byte for byte" in opened.bar.text
    raw = sqlite3.connect(opened.view.household.path)
    raw.execute("UPDATE document_body SET content = ? WHERE length(content) = 10", (b"0" * 10,))
    raw.commit()
    raw.close()
    tests.documents.verify_button.click()
    assert "bottle.jpg" in opened.bar.text
    assert "damaged" in opened.bar.text


def test_a_document_that_was_added_by_mistake_is_taken_out_and_comes_back(
    opened, tests, answers, tmp_path
):
    book, box = opened.view.household.book, tests.documents
    before = [one.name for one in book.documents()]
    letter = tmp_path / "clinic.jpg"
    letter.write_bytes(b"\xff\xd8 a letter")
    answers.paths = [letter]
    box.add_button.click()
    box.list.setCurrentRow(box.list.count() - 1)
    box.remove_button.click()
    assert [one.name for one in book.documents()] == before
    assert opened.bar.text.startswith("clinic.jpg is taken out: no list and no packet has it")
    opened.do("undo")
    assert opened.bar.text == "Undone: document taken out (clinic.jpg)."
    assert [one.name for one in book.documents()] == [*before, "clinic.jpg"]
    assert book.content(book.documents()[-1].id) == b"\xff\xd8 a letter"


def test_a_report_stays_beside_the_readings_that_were_taken_from_it(opened, tests):
    book, box = opened.view.household.book, tests.documents
    iron = NewResult(
        "iron", "Iron", Reading("0.3", Kind.NUMBER, Decimal("0.3"), "mg/L"), place="page 1; line 7"
    )
    scans = [NewDocument(name, "image/jpeg", name.encode()) for name in ("a.jpg", "b.jpg")]
    read = NewSample(1, LocalTime(date(2026, 5, 4)), results=(iron,), documents=tuple(scans))
    number = book.add_sample(read)
    opened.view.refresh()
    tests.show_test(number)
    box.remove_button.click()
    assert "1 reading was taken from a.jpg, so it stays beside it." in opened.bar.text
    box.list.setCurrentRow(1)
    box.remove_button.click()
    assert [one.name for one in book.documents(sample=number)] == ["a.jpg"]


def test_a_scan_of_60_mb_is_refused_before_it_is_read(opened, tests, answers, tmp_path):
    scan = tmp_path / "scan.tif"
    with scan.open("wb") as file:
        file.truncate(60_000_000)
    scan.chmod(0o000)  # reading it would fail with another sentence (unless we are root)
    answers.paths = [scan]
    count = tests.documents.list.count()
    tests.documents.add_button.click()
    assert "60 MB" in opened.bar.text
    assert "smaller scan" in opened.bar.text
    assert tests.documents.list.count() == count


@pytest.mark.parametrize("text", ["2019", "2019-05", "2019-05-31", ""])
@pytest.mark.usefixtures("qapp")
def test_a_day_may_be_known_to_the_month_or_the_year(text):
    assert read_partial(f" {text} ") == text


@pytest.mark.parametrize(
    "text", ["2019-13", "2019-02-30", "31.13.2019", "5/31/19", "spring", "0000", "２０１９"]
)
@pytest.mark.usefixtures("qapp")
def test_what_is_no_day_is_said_with_how_to_write_one(text):
    with pytest.raises(Fault, match="is no day: write 2019, 2019-05 or 2019-05-31"):
        read_partial(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("10/17/2025", "2025-10-17"),
        ("17.10.2025", "2025-10-17"),
        ("7 Oct 2025", "2025-10-07"),  # as every page writes it
        ("Oct 7, 2025", "2025-10-07"),
        ("5/5/2025", "2025-05-05"),
        ("7 oct 2025, 3:45 PM", "2025-10-07 15:45"),
        ("June 2009", "2009-06"),
    ],
)
@pytest.mark.usefixtures("qapp")
def test_a_day_is_taken_as_people_write_it_where_it_means_one_day(text, said):
    assert written(read_drawn(text)) == said
    if " " not in said:
        assert read_partial(text) == said


@pytest.mark.parametrize("read", [read_drawn, read_moment, read_partial, read_day])
@pytest.mark.usefixtures("qapp")
def test_a_day_that_can_be_two_is_asked_for(read):
    with pytest.raises(Fault, match="7 Oct 2025 or 10 Jul 2025: write 2025-10-07 or 2025-07-10"):
        read("10/7/2025")


@pytest.mark.parametrize("read", [read_drawn, read_moment, read_partial, read_day])
@pytest.mark.usefixtures("qapp")
def test_a_day_that_no_book_can_hold_is_a_slip_of_its_year(read):
    with pytest.raises(Fault, match="“0202-05-03” lies outside the years 1000 to 2999"):
        read("0202-05-03")
    assert read("1000-05-03")
    assert read("2999-05-03")


@pytest.mark.usefixtures("qapp")
def test_a_moment_keeps_its_offset_and_a_day_stays_a_day():
    moment = LocalTime(date(2025, 3, 2), time(7, 40), -300)
    assert read_moment(written(moment), moment) == moment
    assert read_moment("2025-03-02") == LocalTime(date(2025, 3, 2))
    assert read_moment("") is None
    with pytest.raises(Fault, match="is no day"):
        read_moment("2025-03-02 25:00")
