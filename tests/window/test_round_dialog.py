"""The next round on the screen: its day, its sheet, reminders, putting off, the lab's hours."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QTimeZone
from PySide6.QtWidgets import QApplication, QLabel, QSystemTrayIcon

from wellbook.planning import reminder as reminding
from wellbook.planning.lab.lab_route import read_habits
from wellbook.support import sign_in
from wellbook.water.verdicts.hold_time import is_late
from wellbook.window.app import tray
from wellbook.window.app.reminder import Reminder
from wellbook.window.dialogs.fields_dialog import FieldsDialog
from wellbook.window.dialogs.round import time_zones


@pytest.fixture
def dialog(frame, household, qtbot):
    frame.open_book(household("first-year"))
    frame.do("next_round")
    made = frame.view.book_actions.dialog
    qtbot.waitUntil(lambda: made.round is not None, timeout=20000)
    yield made
    made.reject()


def inner(dialog, qtbot):
    qtbot.waitUntil(lambda: any(d.isVisible() for d in dialog.findChildren(FieldsDialog)))
    return next(d for d in dialog.findChildren(FieldsDialog) if d.isVisible())


@pytest.fixture
def nowhere(monkeypatch):
    """A computer that was never told where it stands."""
    zone = QTimeZone(b"Etc/UTC")
    monkeypatch.setattr(QTimeZone, "systemTimeZone", staticmethod(lambda: zone))


def choose(box, value):
    box.setCurrentIndex(box.findData(value))


def names(dialog):
    return [dialog.model.index(row, 0).data() for row in range(dialog.model.rowCount())]


def spoken(dialog):
    return " ".join(label.text() for label in dialog.view.findChildren(QLabel))


def test_it_shows_day_hour_panels_and_bottles(dialog):
    assert "Wednesday, 2 December, at 16:30" in dialog.told.text()
    assert {"Bacteria", "Nitrate", "Arsenic"} <= set(names(dialog))
    for words in ("06:30", "First draw", "aerator ON, NEVER rinse", "100 mL line"):
        assert words in spoken(dialog)


def test_each_panel_has_its_reason_and_who_says_so(dialog):
    dialog.table.pick(names(dialog).index("Bacteria"))
    assert "63 days overdue" in dialog.why.text()
    assert "CDC and EPA advice" in dialog.why.text()


def test_the_field_sheet_is_written_and_offered(dialog, answers, tmp_path):
    answers.path = tmp_path / "sheet.pdf"
    dialog.sheet_button.click()
    assert len(PdfReader(answers.path).pages) == 2
    dialog.bar._then.click()
    assert answers.shown == [answers.path]


def test_labels_for_the_bottles_are_written_and_offered(dialog, answers, tmp_path):
    answers.path = tmp_path / "labels.pdf"
    dialog.labels_button.click()
    said = "".join(page.extract_text() for page in PdfReader(answers.path).pages)
    assert dialog.round.point.name in said
    dialog.bar._then.click()
    assert answers.shown == [answers.path]


def test_the_calendar_file_is_written(dialog, answers, tmp_path):
    answers.path = tmp_path / "water.ics"
    dialog.calendar_button.click()
    assert answers.path.read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_a_folder_that_is_not_there_is_said(dialog, answers, tmp_path):
    answers.path = tmp_path / "no" / "water.ics"
    dialog.calendar_button.click()
    assert "can’t be written" in dialog.bar.text
    answers.path = None
    dialog.sheet_button.click()


def test_a_test_is_put_off_with_a_reason(dialog, frame, qtbot):
    dialog.table.pick(names(dialog).index("Nitrate"))
    dialog.off_button.click()
    form = inner(dialog, qtbot)
    form.fields["until"].setText("2027-02-15")
    form.accept()
    assert "with a reason" in form.bar.text
    form.fields["why"].setPlainText("The tap is being moved.")
    form.accept()
    qtbot.waitUntil(lambda: dialog.round is not None and "Nitrate" not in names(dialog))
    (plan,) = (p for p in frame.view.household.book.plans() if p.panel == "nitrate")
    assert (plan.postponed, plan.postponed_why) == ("2027-02-15", "The tap is being moved.")
    assert "Nitrate is put off to" in dialog.bar.text


def test_a_day_that_is_none_is_asked_for_again(dialog, qtbot):
    dialog.off_button.click()
    form = inner(dialog, qtbot)
    form.fields["until"].setText("soon")
    form.accept()
    assert form.isVisible()
    assert "2027-01-31" in form.bar.text
    form.discard()


def test_the_lab_and_the_way_are_kept_and_move_the_hour(dialog, frame, qtbot):
    dialog.habits_button.click()
    form = inner(dialog, qtbot)
    form.fields["lab"].setText("Ashgrove County Health Bench")
    form.fields["lab_takes_on"].setText("mon, tue wed")
    choose(form.fields["home_zone"], "America/New_York")
    choose(form.fields["way"], "car")
    assert form.fields["drive_minutes"].isVisible()
    assert not form.fields["pickup"].isVisible()
    form.accept()
    kept = read_habits(frame.view.household.record.settings)
    assert kept.lab == "Ashgrove County Health Bench"
    assert kept.lab_takes_on == {0, 1, 2}
    qtbot.waitUntil(lambda: "at 11:00" in dialog.told.text(), timeout=20000)


def test_hours_that_can_not_be_stay_in_the_form_with_words(dialog, qtbot):
    dialog.habits_button.click()
    form = inner(dialog, qtbot)
    for key, text, said in (
        ("lab_takes_on", "someday", "no weekday"),
        ("lab_cut_off", "noon", "Can’t read lab_cut_off"),
    ):
        before = form.fields[key].text()
        form.fields[key].setText(text)
        form.accept()
        assert said in form.bar.text
        form.fields[key].setText(before)
    form.reject()


# Names of zones and the cities that stand for them: Unicode CLDR, `metaZones` and `windowsZones`.
@pytest.mark.parametrize(
    ("country", "first", "usual"),
    [
        ("US", "Eastern Standard Time (New York)", "America/New_York"),
        ("DE", "Central European Standard Time (Berlin)", "Europe/Berlin"),
        ("MX", "Eastern Standard Time (Cancun)", "America/Mexico_City"),
        ("", "Eastern Standard Time (New York)", "America/New_York"),
    ],
)
@pytest.mark.usefixtures("nowhere", "qapp")
def test_time_zones_are_chosen_by_what_people_call_them_the_own_country_first(
    country, first, usual
):
    found = time_zones.offered(country, time_zones.usual(country))
    assert time_zones.usual(country) == usual
    assert next(iter(found.values())) == first
    assert not [name for name in found.values() if "/" in name or "Etc" in name]
    assert len(set(found.values())) == len(found)


@pytest.mark.usefixtures("qapp")
def test_a_zone_that_is_kept_stands_for_those_that_tell_the_same_time():
    found = time_zones.offered("US", "America/Detroit", "Etc/UTC", "Moon")
    assert next(iter(found)) == "America/Detroit"
    assert "America/New_York" not in found
    assert found["Etc/UTC"] == "Coordinated Universal Time"
    assert found["Moon"] == "Moon"


@pytest.mark.usefixtures("nowhere")
def test_the_lab_is_thought_to_lie_in_the_zone_of_the_well(dialog, frame, qtbot):
    frame.view.household.book.set_settings({"country": "DE"})
    dialog.habits_button.click()
    form = inner(dialog, qtbot)
    chosen = [form.fields[key].currentText() for key in ("lab_zone", "home_zone")]
    assert chosen == ["Central European Standard Time (Berlin)"] * 2
    assert form.fields["country"].currentText().endswith("(DE)")
    form.reject()


def test_one_switch_makes_and_removes_what_runs_at_sign_in(dialog, monkeypatch, tmp_path):
    monkeypatch.setattr(sign_in, "place", lambda: tmp_path / "autostart" / "wellbook-due.desktop")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    book, path = dialog._household.book, dialog._household.path
    dialog.signin.setChecked(True)
    assert sign_in.is_on(path, book.identity())
    assert book.setting("reminders") == "sign-in"
    dialog.signin.setChecked(False)
    assert not sign_in.is_on(path, book.identity())
    assert book.setting("reminders") == ""


def test_a_switch_that_can_not_be_set_goes_back(dialog, monkeypatch, tmp_path):
    (tmp_path / "file").touch()
    monkeypatch.setattr(sign_in, "place", lambda: tmp_path / "file" / "wellbook-due.desktop")
    dialog.signin.setChecked(True)
    assert not dialog.signin.isChecked()
    assert "nothing runs at sign-in" in dialog.bar.text


def test_the_banner_leads_to_the_round(opened, qtbot):
    opened.view.overview.due.round_button.click()
    shown = opened.view.book_actions.dialog
    qtbot.waitUntil(lambda: shown.round is not None, timeout=20000)
    assert shown.places.count() == 2
    shown.places.setCurrentIndex(1)
    shown.places.activated.emit(1)
    assert "Kitchen tap" in shown.places.currentText()
    shown.reject()


def test_an_empty_book_has_nothing_to_print(frame, tmp_path, answers, qtbot):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    frame.view.book_actions.dialog.reject()
    frame.view.book_actions.dialog.reject()
    frame.do("next_round")
    shown = frame.view.book_actions.dialog
    qtbot.waitUntil(lambda: "Nothing is planned" in shown.told.text(), timeout=20000)
    assert not shown.sheet_button.isEnabled()
    shown.reject()


@pytest.fixture
def told(monkeypatch):
    said = []

    def tell(_self, text, _milliseconds=0, **_more):
        said.append(text)
        return True

    monkeypatch.setattr(tray.Tray, "tell", tell)
    monkeypatch.setattr(reminding, "_note", lambda book: book.with_suffix(".told"))
    return said


def test_who_does_not_see_the_window_is_told_once_a_day(opened, qtbot, told):
    view = opened.view
    qtbot.waitUntil(lambda: bool(view.overview.due.lines), timeout=20000)
    told.clear()
    view.household.path.with_suffix(".told").unlink(missing_ok=True)
    opened.hide()
    QApplication.processEvents()
    for _ in range(3):
        view.reminder.tell(view._wells)
    assert len(told) == 1
    assert told[0].startswith(
        "Due at Tap at the pressure tank: Uranium and radioactivity, Bacteria, Nitrate"
    )


def test_a_new_day_is_noticed(opened, qtbot):
    today = [date(2026, 11, 25)]
    household = replace(opened.view.household, clock=lambda: today[0])
    reminder = Reminder(household, opened)
    with qtbot.assertNotEmitted(reminder.day_began):
        reminder.look()
    today[0] += timedelta(days=1)
    with qtbot.waitSignal(reminder.day_began):
        reminder.look()
    with qtbot.assertNotEmitted(reminder.day_began):
        reminder.look()
    reminder.stop()


def test_a_desktop_without_a_tray_is_no_trouble():
    if QSystemTrayIcon.isSystemTrayAvailable():
        pytest.skip("this desktop has one")
    assert tray.tell_and_end("Due at Kitchen tap: Bacteria.", 10) is False


def test_times_from_the_field_sheet_go_back_into_the_test_and_are_judged(opened):
    opened.do("go_tests")
    page = opened.view.at("tests")
    page.table.pick(1)
    page.correct_button.click()
    form = opened.view.book_actions.dialog
    drawn = page.sample.collected.day - timedelta(days=1)
    form.fields["collected"].setText(f"{drawn} 08:00")
    form.fields["dispatched"].setText(f"{drawn} 17:00")
    form.fields["rain"].setText("1.2 in")
    form.fields["reason"].setPlainText("The times on the field sheet")
    form.accept()
    assert not form.isVisible(), form.bar.text
    book = opened.view.household.book
    kept = next(one for one in book.samples() if one.rain == "1.2 in")
    assert (kept.collected.day, kept.dispatched.at.hour) == (drawn, 17)
    bacteria = [r for r in book.results(sample=kept.id) if r.parameter == "total_coliform"]
    assert bacteria
    assert all(is_late(one) for one in bacteria)
