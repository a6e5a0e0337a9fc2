"""Reminders as another program reads them: rules of RFC 5545, read back with `icalendar`."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import count

import icalendar
import ics
import pytest
import vobject

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer, NewResult, NewSample
from wellbook.export.calendar_file import content, write
from wellbook.planning.overview import due
from wellbook.planning.upkeep.due import upkeep_items
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.upkeep import read_upkeep
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

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
    return book.add_sample(NewSample(1, LocalTime.parse(day), results=results))


def exported(book, today=TODAY):
    return content(book.journal(), due(book.record(), CATALOGUE, today))


def parts(data, name):
    return icalendar.Calendar.from_ical(data).walk(name)


def by_uid(data):
    return {str(part["uid"]): part for part in parts(data, "VEVENT")}


def test_what_is_due_together_is_one_event(book):
    data = exported(book)
    (event,) = parts(data, "VEVENT")
    assert "Bacteria, Nitrate" in event["summary"]
    assert parts(data, "VTODO") == []


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
    assert "Küchenhahn, left\\right" in event["description"]
    assert "Thistle Lane; the “old” well, by the barn" in event["summary"]
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


def test_raw_and_treated_water_of_a_well_are_one_visit(book):
    book.add_point(1, "Kitchen", treated=True, place=2)
    sampled(book, "2024-05-07", "total_coliform", "e_coli", "nitrate")
    book.set_plan(2, "bacteria", 12)
    (event,) = [one for one in parts(exported(book), "VEVENT") if "rrule" in one]
    assert "Küchenhahn" in event["description"]
    assert "Kitchen" in event["description"]


def test_only_the_next_visit_comes_again_every_four_weeks_until_a_later_file(book):
    sampled(book, "2026-06-01", "nitrate")
    first, *later = sorted(parts(exported(book), "VEVENT"), key=lambda one: one["dtstart"].dt)
    assert later
    assert first["rrule"].to_ical() == b"FREQ=WEEKLY;INTERVAL=4"
    assert not any("rrule" in one for one in later)
    assert "comes again until" in first["description"]


def days_in_a_year(data):
    """The days on which a calendar shows the first event, worked out by dateutil."""
    (event,) = vobject.readOne(data.decode()).vevent_list
    start = datetime.combine(TODAY, datetime.min.time())
    return [day.date() for day in event.rruleset.between(start, start + timedelta(days=365))]


def test_a_later_file_ends_the_repetition_of_the_one_before(book):
    before = days_in_a_year(exported(book))
    assert len(before) > 12
    assert {(day - before[0]).days % 28 for day in before} == {0}
    uids = by_uid(exported(book)).keys()
    sampled(book, "2026-06-09", "total_coliform", "e_coli", "nitrate")
    later = exported(book)
    assert by_uid(later).keys() == uids
    assert days_in_a_year(later) == []


def test_upkeep_tells_its_caution_and_not_the_household_s_words(book):
    book.add_inspection(
        1, "2026-04-10", [InspectionAnswer(0, 0, "cap", "bad", text="Otto hit it with the mower")]
    )
    tasks = upkeep_items(book.record(), read_upkeep(resources()), TODAY)
    data = content(book.journal(), (), tasks).replace(b"\r\n ", b"")
    assert b"electricity at a wellhead can kill" in data
    assert b"Otto" not in data


def test_upkeep_is_an_event_on_its_day_until_it_is_done(book):
    """A cartridge of reverse osmosis by `upkeep.csv`: at the latest a year after the last one."""
    upkeep = read_upkeep(resources())
    unit = book.add_unit(1, "RO", kind="reverse osmosis", installed="2025-03-02")

    def cared_for():
        record = book.record()
        tasks = upkeep_items(record, upkeep, TODAY)
        data = content(book.journal(), due(record, CATALOGUE, TODAY), tasks)
        assert icalendar.Calendar.from_ical(data).to_ical() == data
        return [one for one in parts(data, "VEVENT") if "RO" in one["summary"]]

    first = min(cared_for(), key=lambda one: one["dtstart"].dt)
    assert first["rrule"].to_ical() == b"FREQ=WEEKLY;INTERVAL=4"
    assert first["dtstart"].dt <= date(2026, 3, 2)
    assert len(first.walk("VALARM")) == 1
    for task in upkeep_items(book.record(), upkeep, TODAY):
        if task.unit and task.due <= TODAY:
            book.add_service(unit, task.done_as, "2026-06-09")
    assert all(one["dtstart"].dt > TODAY for one in cared_for())


def test_three_independent_parsers_read_the_same(book):
    """icalendar, vobject and ics share no code."""
    sampled(book, "2026-06-01", "nitrate")
    data = exported(book)
    by_icalendar = {
        (str(one["uid"]), str(one["summary"]), one["dtstart"].dt, len(one.walk("VALARM")))
        for one in parts(data, "VEVENT")
    }
    by_vobject = {
        (one.uid.value, one.summary.value, one.dtstart.value, len(one.valarm_list))
        for one in vobject.readOne(data.decode()).vevent_list
    }
    by_ics = {
        (one.uid, one.name, one.begin.date(), len(one.alarms))
        for one in ics.Calendar(data.decode()).events
    }
    assert len(by_icalendar) > 1
    assert by_icalendar == by_vobject == by_ics


def test_alarms_are_complete_and_ring_twice_for_a_visit(book):
    alarms = parts(exported(book), "VALARM")
    assert [alarm["trigger"].dt for alarm in alarms] == [timedelta(days=-7), timedelta(hours=-6)]
    assert all(alarm["action"] == "DISPLAY" and alarm["description"] for alarm in alarms)


def test_the_same_state_gives_the_same_bytes(book):
    assert exported(book) == exported(book)


def test_a_test_moves_the_visit_under_the_same_name_with_a_higher_sequence(book):
    ((uid, before),) = by_uid(exported(book)).items()
    sampled(book, "2026-06-09", "total_coliform", "e_coli", "nitrate")
    after = by_uid(exported(book))[uid]
    assert after["dtstart"].dt > before["dtstart"].dt
    assert after["sequence"] > before["sequence"]
    assert after["last-modified"].dt > before["last-modified"].dt


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
    for uid in before.keys() & middle.keys() & after.keys():
        assert before[uid]["sequence"] < middle[uid]["sequence"] < after[uid]["sequence"]


def test_a_shared_calendar_tells_nothing_about_people(book):
    book.add_event(1, "pregnancy", "2026-06-02", text="due in spring", private=True)
    data = exported(book)
    text = data.replace(b"\r\n ", b"").decode().casefold()
    for word in ("pregnan", "baby", "formula", "spring"):
        assert word not in text.replace("bottle-fed infant", "")
    private = [part for part in parts(data, "VEVENT") if part["class"] == "PRIVATE"]
    assert private
    assert any("6 parameters" in part["summary"] for part in private)


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
    assert write(book.record(), CATALOGUE, path, today=TODAY) == 1
    assert path.read_bytes() == exported(book)
    assert [one.name for one in tmp_path.glob(".*")] == []


def test_what_is_long_past_still_has_a_valid_sequence(book):
    sampled(book, "1950-05-07", "nitrate")
    (panels,) = [panels for _, _, panels in due(book.record(), CATALOGUE, TODAY)]
    far = [replace(one, window=(date(2300, 1, 1), date(2300, 1, 2)), day=None) for one in panels]
    well, point = book.wells()[0], book.points()[0]
    for part in by_uid(content(book.journal(), [(well, point, far)])).values():
        assert 0 < part["sequence"] < 2**31
