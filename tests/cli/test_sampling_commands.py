"""The commands about the next test, run as a person runs them."""

import json
import os

import commands
import icalendar
import pytest
from pypdf import PdfReader

DAY = "2026-11-25"
DUE_KEYS = {"well", "point", "panel", "parameters", "case", "last", "due", "overdue_days"}
DUE_KEYS |= {"suggested"}
UPKEEP_KEYS = (DUE_KEYS - {"panel"}) | {"upkeep", "unit", "item", "done_as", "what", "who"}
UPKEEP_KEYS |= {"caution", "source", "used"}


def run(*words, code=0):
    env = {k: v for k, v in os.environ.items() if k not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    done = commands.run(*words, env=env)
    assert done.returncode == code, done.stderr + done.stdout
    assert "Traceback" not in done.stderr
    return done


@pytest.fixture
def book(tmp_path):
    path = tmp_path / "home.wellbook"
    run("sample", "first-year", path)
    return path


def test_round_tells_day_hours_and_bottles_and_writes_the_sheet(book, tmp_path):
    before = book.read_bytes()
    sheet = tmp_path / "sheet.pdf"
    said = run("round", book, "--on", DAY, "-o", sheet).stdout
    assert "Draw the sample on Wednesday, 2 December, at 16:30." in said
    assert "2026-12-02 06:30  First draw: " in said
    assert "aerator on; rinse: never" in said
    assert len(PdfReader(sheet).pages) == 2
    assert book.read_bytes() == before


def test_round_answers_in_json(book):
    facts = json.loads(run("round", book, "--json", "--on", DAY).stdout)
    assert facts.keys() == {"on", "rounds"}
    (one,) = facts["rounds"]
    assert one["draw"] == "2026-12-02T16:30:00-05:00"
    assert one["hand_in"] == "2026-12-02T17:00:00-05:00"
    assert (one["age_hours"], one["slack_hours"], one["limit_hours"]) == (22.5, 7.5, 30.0)
    assert one["bottles"][0]["aerator"] == "on"
    assert {"at", "task", "text"} == one["steps"][0].keys()


def test_round_of_an_empty_book_says_so(tmp_path):
    empty = tmp_path / "empty.wellbook"
    run("new", empty)
    assert "Nothing is planned yet" in run("round", empty).stdout
    assert "no field sheet" in run("round", empty, "-o", tmp_path / "s.pdf", code=1).stderr
    assert "Attic" in run("round", empty, "--point", "Attic", code=1).stderr


def test_calendar_writes_reminders_that_other_programs_read(book, tmp_path):
    file = tmp_path / "water.ics"
    said = run("calendar", book, "-o", file, "--on", DAY).stdout
    calendar = icalendar.Calendar.from_ical(file.read_bytes())
    written = len(calendar.walk("VEVENT"))
    assert written > 1
    assert f"{written} reminders" in said
    first = file.read_bytes()
    run("calendar", book, "-o", file, "--on", DAY)
    assert file.read_bytes() == first


def test_habits_are_shown_and_changed(book):
    assert "lab_cut_off: 13:00" in run("habits", book).stdout
    run("habits", book, "--set", "way=car", "--set", "drive_minutes=45")
    kept = json.loads(run("habits", book, "--json").stdout)
    assert (kept["way"], kept["drive_minutes"]) == ("car", "45")
    assert "driven to an open lab" in run("due", book, "--on", DAY, code=3).stdout


def test_habits_that_can_not_be_are_one_line(book):
    for words in ("lab_cut_off=noon", "lab_zone=Moon", "lab_cut_off=16:00", "cat=Tom"):
        (line,) = run("habits", book, "--set", words, code=1).stderr.strip().splitlines()
        assert line.startswith("Error: ")
    run("habits", book, "--set", "nothing", code=2)


def test_a_test_is_put_off_with_a_reason(book):
    why = "The tap is being moved."
    run("postpone", book, "nitrate", "--until", "2027-01-15", "--because", why, "--on", DAY)
    due = json.loads(run("due", book, "--json", "--on", DAY, code=3).stdout)["due"]
    assert "Nitrate" not in [one.get("panel") for one in due]
    said = run("postpone", book, "nitrate", "--until", "2027-01-15", "--on", DAY, code=1).stderr
    assert "with a reason" in said


def test_due_keeps_its_contract_with_follow_ups_and_cases(book):
    due = json.loads(run("due", book, "--json", "--on", DAY, code=3).stdout)["due"]
    for one in due:
        assert one.keys() == (UPKEEP_KEYS if "upkeep" in one else DUE_KEYS)
        assert one["suggested"].keys() == {"from", "to", "day", "why"}
        assert one["due"] <= DAY
    assert any("September 2026" in one.get("panel", "") for one in due)
    kinds = ["upkeep" in one for one in due]
    assert kinds == sorted(kinds)  # tests come before upkeep
    assert True in kinds


def test_a_case_is_told_as_it_stood_then(tmp_path):
    book = tmp_path / "home.wellbook"
    run("sample", "alder-hollow", book)
    said = {
        day: run("due", book, "--on", day, code=3).stdout
        for day in ("2021-07-20", "2021-08-02", "2021-08-20", "2021-09-01", "2021-09-10")
    }
    assert "After a flood" in said["2021-07-20"]
    assert "Bacteria found on 27 July 2021: second sample" in said["2021-08-02"]
    assert "mend the cause, then test" in said["2021-08-20"]
    assert "Last work on the well: 25 August 2021" in said["2021-09-01"]
    assert "The sample of 8 September 2021 found nothing" in said["2021-09-10"]
    assert "Bacteria found" not in run("due", book, "--on", "2022-04-13", code=3).stdout
