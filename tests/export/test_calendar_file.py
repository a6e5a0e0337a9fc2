"""Reminders as another program reads them: rules of RFC 5545, read back with `icalendar`."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import count

import icalendar
import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.export.calendar_file import content, write
from wellbook.planning.overview import due
from wellbook.planning.upkeep.due import upkeep_items
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.upkeep import read_upkeep
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import Moment

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 10)


@pytest.fixture
def book(tmp_path):
    minutes = count()
    start = datetime(2026, 6, 1, 8, tzinfo=UTC)
    path = tmp_path / "home.wellbook"
    with Book.create(path, now=lambda: start + timedelta(minutes=next(minutes))) as made:
        well = made.add_well("Thistle Lane; the “old” well, by the barn")
        made.add_point(well, "Küchenhahn, left\\right")
        yield made


def sampled(book, day, *keys):
    results = tuple(
        NewResult(key, CATALOGUE.parameters[key].name, read_reading("Absent")) for key in keys
    )
    return book.add_sample(NewSample(1, Moment.parse(day), results=results))


def exported(book, today=TODAY):
    return content(book.journal(), due(book.record(), CATALOGUE, today))


def parts(data, name):
    return icalendar.Calendar.from_ical(data).walk(name)


def by_uid(data):
    found = [*parts(data, "VEVENT"), *parts(data, "VTODO")]
    return {str(part["uid"]): part for part in found}


def test_every_panel_is_an_event_and_a_task(book):
    data = exported(book)
    assert len(parts(data, "VEVENT")) == len(parts(data, "VTODO")) == 2  # bacteria and nitrate
    assert len(by_uid(data)) == 4


def test_it_reads_back_to_the_same_bytes(book):
    data = exported(book)
    assert icalendar.Calendar.from_ical(data).to_ical() == data


def test_lines_end_and_fold_as_the_standard_asks(book):
    data = exported(book)
    lines = data.split(b"\r\n")
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75  # octets, RFC 5545 3.1
    data.decode("utf-8")


def test_text_survives_its_escapes(book):
    (event, *_) = parts(exported(book), "VEVENT")
    assert "Küchenhahn, left\\right" in event["summary"]
    assert "Thistle Lane; the “old” well, by the barn" in event["description"]
    assert "\n" in event["description"]


def test_the_calendar_says_what_made_it(book):
    (calendar,) = parts(exported(book), "VCALENDAR")
    assert calendar["version"] == "2.0"
    assert "Wellbook" in calendar["prodid"]


def test_events_are_whole_days_that_end_on_the_next(book):
    for event in parts(exported(book), "VEVENT"):
        start, end = event["dtstart"].dt, event["dtend"].dt
        assert type(start) is type(end) is date
        assert end - start == timedelta(days=1)
        assert event["dtstamp"].dt.utcoffset() == timedelta()
        assert "duration" not in event


def test_tasks_are_due_after_they_start_and_of_the_same_type(book):
    for task in parts(exported(book), "VTODO"):
        assert type(task["dtstart"].dt) is type(task["due"].dt) is date
        assert task["dtstart"].dt < task["due"].dt
        assert "duration" not in task


def test_alarms_are_complete_and_ring_once_a_day_for_a_well(book):
    alarms = parts(exported(book), "VALARM")
    assert [alarm["trigger"].dt for alarm in alarms] == [timedelta(days=-7), timedelta(hours=-6)]
    assert all(alarm["action"] == "DISPLAY" and alarm["description"] for alarm in alarms)


def test_the_same_state_gives_the_same_bytes(book):
    assert exported(book) == exported(book)


def test_a_test_moves_its_panel_under_the_same_name_with_a_higher_sequence(book):
    before = by_uid(exported(book))
    sampled(book, "2026-06-09", "total_coliform", "e_coli")
    after = by_uid(exported(book))
    assert before.keys() == after.keys()
    moved = [uid for uid in after if before[uid]["dtstart"].dt != after[uid]["dtstart"].dt]
    assert len(moved) == 2
    assert all(after[uid]["sequence"] > before[uid]["sequence"] for uid in after)
    assert all(after[uid]["last-modified"].dt > before[uid]["last-modified"].dt for uid in after)


def test_what_does_not_decide_changes_nothing(book):
    before = exported(book)
    book.add_lab("Mossback Water Laboratory", note="moved")
    assert exported(book) == before


def test_days_that_pass_move_a_panel_on_with_a_higher_sequence(book):
    sampled(book, "2024-05-07", "total_coliform", "e_coli", "nitrate")
    last = by_uid(exported(book))
    for later in range(1, 120):
        found = by_uid(exported(book, TODAY + timedelta(days=later)))
        for uid, part in found.items():
            if part.to_ical() == last[uid].to_ical():
                assert part["sequence"] == last[uid]["sequence"]
            else:
                assert part["sequence"] > last[uid]["sequence"]
        last = found


def test_undoing_raises_the_sequence_too(book):
    before = by_uid(exported(book))
    sampled(book, "2026-06-09", "nitrate")
    middle = by_uid(exported(book))
    book.undo()
    after = by_uid(exported(book))
    for uid in before:
        assert before[uid]["sequence"] < middle[uid]["sequence"] < after[uid]["sequence"]


def test_a_shared_calendar_tells_nothing_about_people(book):
    book.add_event(1, "pregnancy", "2026-06-02", text="due in spring", private=True)
    data = exported(book)
    text = data.replace(b"\r\n ", b"").decode().casefold()
    for word in ("pregnan", "baby", "formula", "spring"):
        assert word not in text.replace("bottle-fed infant", "")
    private = [part for part in parts(data, "VEVENT") if part["class"] == "PRIVATE"]
    assert len(private) == 1
    assert "6 parameters" in private[0]["summary"]


def test_two_books_never_share_a_name(book, tmp_path):
    with Book.create(tmp_path / "other.wellbook") as other:
        other.add_point(other.add_well("Thistle Lane; the “old” well, by the barn"), "Tap")
        assert not by_uid(exported(book)).keys() & by_uid(exported(other)).keys()


def test_an_empty_book_gives_an_empty_calendar(tmp_path):
    with Book.create(tmp_path / "empty.wellbook") as empty:
        assert by_uid(exported(empty)) == {}


def test_a_day_without_a_way_to_the_lab_says_so(book):
    book.set_setting("round_transit_days", "5")
    event = parts(exported(book), "VEVENT")[0]
    assert "ask the lab" in event["description"]


def test_the_file_is_written_whole(book, tmp_path):
    path = tmp_path / "water.ics"
    assert write(book.record(), CATALOGUE, path, today=TODAY) == 3  # two panels, and upkeep
    upkeep = upkeep_items(book.record(), read_upkeep(resources()), TODAY)
    dues = due(book.record(), CATALOGUE, TODAY)
    assert path.read_bytes() == content(book.journal(), dues, upkeep)
    assert [one.name for one in tmp_path.glob(".*")] == []


def test_what_is_long_past_still_has_a_valid_sequence(book):
    sampled(book, "1950-05-07", "nitrate")
    (panels,) = [panels for _, _, panels in due(book.record(), CATALOGUE, TODAY)]
    far = [replace(one, window=(date(2300, 1, 1), date(2300, 1, 2)), day=None) for one in panels]
    well, point = book.wells()[0], book.points()[0]
    for part in by_uid(content(book.journal(), [(well, point, far)])).values():
        assert 0 < part["sequence"] < 2**31
