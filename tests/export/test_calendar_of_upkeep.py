"""Upkeep in a calendar file, as another program reads it: RFC 5545, read back with `icalendar`."""

from datetime import UTC, date, datetime, timedelta
from itertools import count

import icalendar
import pytest

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer
from wellbook.export.calendar_file import content
from wellbook.planning.reminder import sentence
from wellbook.planning.upkeep.due import upkeep_items
from wellbook.support.paths import resources
from wellbook.water.sampling.upkeep import read_upkeep

UPKEEP = read_upkeep(resources())
TODAY = date(2026, 6, 10)
CAP = InspectionAnswer(0, 0, "cap", "bad", text="Otto hit it with the mower")


@pytest.fixture
def book(tmp_path):
    minutes = count()
    start = datetime(2026, 6, 1, 8, tzinfo=UTC)
    path = tmp_path / "home.wellbook"
    with Book.create(path, now=lambda: start + timedelta(minutes=next(minutes))) as made:
        made.add_well("Home")
        made.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2025-03-01")
        made.add_inspection(1, "2026-04-10", [CAP])
        made.add_event(1, "check-up", "2026-04-10")
        yield made


def items(book, today=TODAY):
    return upkeep_items(book.record(), UPKEEP, today)


def exported(book, today=TODAY):
    return content(book.journal(), (), items(book, today))


def events(data):
    found = icalendar.Calendar.from_ical(data).walk("VEVENT")
    return {(str(one["summary"]), one["dtstart"].dt): one for one in found}


def test_what_is_due_together_is_one_event_on_a_day(book):
    # Since the book was begun: the cap, the lamp and its sleeve; next spring: the yearly look.
    assert list(events(exported(book))) == [
        ("Upkeep of Home: cap, Lamp, sleeve, Lamp, lamp", date(2026, 6, 1)),
        (
            "Upkeep of Home: wellhead and surroundings, well, pump and pressure tank",
            date(2027, 4, 10),
        ),
    ]


def test_only_what_is_next_comes_again_and_each_rings_the_evening_before(book):
    first, second = events(exported(book)).values()
    assert first["rrule"].to_ical() == b"FREQ=WEEKLY;INTERVAL=4"
    assert "rrule" not in second
    for event in (first, second):
        (alarm,) = event.walk("VALARM")
        assert alarm["trigger"].dt == timedelta(hours=-6)


def test_the_caution_stands_in_it_and_the_household_s_words_do_not(book):
    first = next(iter(events(exported(book)).values()))
    assert "electricity at a wellhead can kill" in first["description"]
    assert b"Otto" not in exported(book)


def test_the_same_state_of_the_book_gives_the_same_bytes_on_another_day(book):
    assert exported(book) == exported(book, TODAY + timedelta(days=30))


def test_what_was_done_moves_its_event_under_the_same_name_with_a_higher_number(book):
    def marks(data):
        return {str(e["uid"]): int(e["sequence"]) for e in events(data).values()}

    before = marks(exported(book))
    book.mend(1, "2026-06-02")
    book.add_service(1, "lamp", "2026-06-02")
    after = marks(exported(book))
    assert before.keys() <= after.keys()
    assert min(after.values()) > max(before.values())


def test_the_reminder_names_it_and_asks_not_each_day_for_what_has_no_day(book):
    said = sentence((), TODAY, items(book))
    assert said == "Upkeep is due: cap; Lamp, sleeve; Lamp, lamp."
    book.mend(1, "2026-06-02")
    book.change_unit(1, installed="")
    assert sentence((), TODAY, items(book)) == ""
