"""What a book holds comes back in its order, as far as it counts, up to the day that is asked."""

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from tests import household
from wellbook.book import Book, readings
from wellbook.book.check import check
from wellbook.book.journal import differences
from wellbook.book.record import Newest
from wellbook.book.rows import Event, NewDocument, NewResult, NewSample, Plan, Service
from wellbook.support import translation
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading

CATALOGUE = read_catalogue(resources())
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook", now=lambda: NOW) as made:
        made.add_point(made.add_well("Home"), "Tank")
        yield made


def result(key, text="0.1", name="", **more):
    kind = Kind.NUMBER if text else Kind.NONE
    reading = Reading(text, kind, Decimal(text) if text else None, "mg/L")
    return NewResult(key, name or key, reading, **more)


def keep(book, day, *results, point=1, **more):
    return book.add_sample(NewSample(point, LocalTime.parse(day), results=results, **more))


def test_rows_come_in_the_order_of_the_flow_of_days_and_of_names(book):
    barn = book.add_well("Barn", construction={"depth": "90 ft", "casing": "6 in"})
    for well, name, place in ((barn, "Trough", 1), (1, "Tap", 3), (1, "Bath", 2), (1, "Sink", 2)):
        book.add_point(well, name, place=place)
    for name, place, day in (("Lamp", 2, "2020"), ("Filter", 1, "2022"), ("Old", 1, "2019")):
        book.add_unit(1, name, place=place, installed=day)
    for day in ("2021-05", "2020", "2021-02-03"):
        book.add_event(1, "repair", day)
    for name in ("Hollin", "Ash"):
        book.add_lab(name)
    assert [point.name for point in book.points()] == ["Tank", "Bath", "Sink", "Tap", "Trough"]
    assert [point.name for point in book.points(barn)] == ["Trough"]
    assert [unit.name for unit in book.units()] == ["Old", "Filter", "Lamp"]
    assert [event.day for event in book.events()] == ["2020", "2021-02-03", "2021-05"]
    assert [lab.name for lab in book.labs()] == ["Ash", "Hollin"]
    home, second = book.wells()
    assert (home.construction, second.name) == ({}, "Barn")
    assert list(second.construction.items()) == [("depth", "90 ft"), ("casing", "6 in")]
    assert book.point(3).name == "Tap"


def test_a_day_of_which_the_month_or_year_is_known_is_no_day_when_it_is_read(book):
    for day in ("2019", "2019-04", "2019-04-02", "2019-04-02T07:15"):
        keep(book, day, result("iron"))
    kept = [(sample.collected.iso(), sample.collected.known) for sample in book.samples()]
    assert kept == [(one.collected.iso(), one.collected.known) for one in book.results()]
    assert [known and (known.year, known.month) for _day, known in kept] == [
        (2019, None),
        (2019, 4),
        None,
        None,
    ]
    assert [day[:10] for day, _known in kept][2:] == ["2019-04-02"] * 2


def test_a_result_has_the_lab_and_the_draw_of_its_own_or_of_its_sample(book):
    own = result("lead", lab="Hollin", draw="first draw")
    keep(book, "2024-05-03", own, result("iron"), lab="Ash", draw="flushed")
    keep(book, "2024-05-04", result("iron"))
    assert [(one.lab, one.draw) for one in book.results()] == [
        ("Hollin", "first draw"),
        ("Ash", "flushed"),
        ("", ""),
    ]


@pytest.mark.parametrize("read", [Book.record, lambda book: book.record().loaded()])
def test_what_was_paid_and_what_is_awaited_counts_unless_it_was_struck_out(book, read):
    for number, (cost, awaited) in enumerate([("5", ""), ("5", "iron"), ("", "iron"), ("", "")]):
        money = {"cost": cost, "currency": "USD" if cost else ""}
        keep(book, f"2024-05-0{number + 1}", awaited=awaited, **money)
    record = read(book)
    assert [sample.id for sample in record.tests.paid()] == [1, 2]
    assert [sample.id for sample in record.drawn] == [2, 3]
    book.strike_sample(2, "spilt")
    record = read(book)
    assert [sample.id for sample in record.tests.paid()] == [1]
    assert [sample.id for sample in record.drawn] == [3]
    assert [sample.id for sample in record.samples()] == [1, 3, 4]


@pytest.mark.parametrize("loaded", [False, True], ids=["from the file", "in memory"])
def test_a_first_draw_and_a_flushed_result_of_one_sample_are_one_test(book, loaded):
    pair = (result("lead", draw="first draw"), result("lead", draw="flushed"))
    keep(book, "2024-05-03", *pair)
    keep(book, "2024-05-04T07:00", *pair, result("iron"))
    keep(book, "2024-05-04T07:00", *pair)
    keep(book, "2024-05-05", result("lead", ""))
    record = book.record().loaded() if loaded else book.record()
    assert record.tests.newest(1, date(2024, 6, 1)).counts == {"lead": 3, "iron": 1}


@pytest.mark.parametrize("loaded", [False, True], ids=["from the file", "in memory"])
def test_the_newest_two_days_of_each_parameter_are_told_up_to_a_day(book, loaded):
    for day in ("2019-04-02", "2020-04-02", "2021-04-02T07:15", "2021-04-02T09:00"):
        keep(book, day, result("iron"))
    keep(book, "2018-01-02", result("lead"), result("", name="Sparkle"))
    keep(book, "2022-01-02", result("lead", ""), result("", name="Glow"))
    keep(book, "2023-01-02", result("iron"))
    book.strike_sample(keep(book, "2022-06-01", result("iron")), "spilt")
    record = book.record().loaded() if loaded else book.record()
    found = record.tests.newest(1, date(2022, 12, 31))
    assert found == Newest(
        {"iron": 4, "lead": 1, "": 2},
        frozenset(map(date.fromisoformat, ["2021-04-02", "2020-04-02", "2018-01-02",
                                           "2022-01-02"])),
        ("Sparkle", "Glow"), date(2022, 1, 2), has_later=True,
    )  # fmt: skip
    on_the_day = record.tests.newest(1, date(2021, 4, 2))
    assert (on_the_day.counts, on_the_day.last) == (
        {"iron": 4, "lead": 1, "": 1},
        date(2021, 4, 2),
    )
    whole = record.tests.newest(1, date(2023, 1, 2))
    assert (whole.has_later, whole.counts["iron"]) == (False, 5)
    assert record.tests.newest(1, date(2017, 1, 1)) == Newest(has_later=True)
    days = {date(2021, 4, 2), date(2018, 1, 2), date(2022, 6, 1), date(2001, 1, 1)}
    assert [one.collected.iso() for one in record.tests.results_on(1, days)] == [
        "2018-01-02",
        "2018-01-02",
        "2021-04-02T07:15",
        "2021-04-02T09:00",
    ]
    assert list(record.tests.results_on(2, days)) == []


def test_documents_are_those_of_a_sample_or_a_well(book):
    for name, of in (("a", {"well": 1}), ("b", {"sample": keep(book, "2024-05-03")})):
        book.add_document(NewDocument(name, "image/png", name.encode(), "photo"), **of)
    assert [one.name for one in book.documents()] == ["a", "b"]
    assert [one.name for one in book.documents(well=1)] == ["a"]
    assert [one.name for one in book.documents(sample=1)] == ["b"]
    assert [one.size for one in book.documents()] == [1, 1]


def test_days_numbers_and_digests_of_the_journal_are_none_in_a_new_book(tmp_path):
    with Book.create(tmp_path / "new.wellbook", now=lambda: NOW) as book:
        assert (book.last_entry(), book.journal_day(), book.begun()) == (0, None, None)
        assert (book.identity(), book.digest(), book.to_redo()) == ("", "0" * 64, [])
        book.add_well("Home")
        first = book.journal()[0].digest
        assert (book.last_entry(), book.identity(), book.digest()) == (1, first, first)
        book.add_well("Barn")
        assert book.journal_day() == book.begun() == NOW.astimezone().date()
        assert (book.last_entry(), book.identity()) == (2, first)
        assert book.digest() == book.journal()[1].digest
        assert book.record().digest == book.digest()
        assert book.record().begun == book.begun()


def test_what_can_be_entered_again_is_told_in_its_order_until_something_is_new(book):
    book.add_event(1, "flood", "2020")
    assert book.to_redo() == []
    book.undo()
    book.undo()
    assert [step.cause.action for step in book.to_redo()] == ["add a point", "add an event"]
    book.redo()
    assert [step.cause.action for step in book.to_redo()] == ["add an event"]
    assert book.to_undo().cause.action == "add a point"
    book.add_lab("Ash")
    assert book.to_redo() == []


def test_what_was_empty_before_another_program_changed_it_is_told_in_every_language():
    spanish = translation.read_language(resources() / "languages", "es")
    with translation.using(spanish):
        (line,) = differences({"sample": {1: {}}}, {"sample": {1: {"sampler": "Sam"}}})
    assert "nada" in line
    assert "nothing" not in line


def test_facts_changed_by_another_program_are_told_at_each_opening(tmp_path, monkeypatch):
    path = tmp_path / "home.wellbook"
    with household.furnished(path) as book:
        assert book.doubts() == ()
    with closing(sqlite3.connect(path)) as other:
        other.executescript("UPDATE point SET name = 'Sink' WHERE id = 2")
    with Book.open(path) as book:
        (line,) = book.doubts()
        assert "row 2 of point was changed outside Wellbook: name Kitchen tap became name" in line
        size = sum(len(entry.changes) for entry in book.journal())
        for largest, n in ((size, 1), (size - 1, 0)):
            monkeypatch.setattr(readings, "LARGEST_JOURNAL", largest)
            assert len(book.doubts()) == n


@pytest.mark.parametrize(
    ("drawn", "received", "said"),
    [
        ("2026-11-25", "2026-11-25", []),
        ("2026-11-24", "2026-11-25", []),
        ("2026-11-25", "2026-11-24", ["was received by the lab before it was drawn"]),
        ("2026-11-26", "2026-11-26", ["lies in the future"]),
    ],
)
def test_days_that_can_not_be_are_asked_about(book, drawn, received, said):
    keep(book, drawn, received=LocalTime.parse(received))
    found = check(book.path, CATALOGUE, date(2026, 11, 25))
    assert [said for said, one in zip(said, found, strict=True) if said in one.text] == said


def test_a_parameter_that_the_catalogue_does_not_know_is_named_and_one_without_a_key_is_not(book):
    keep(book, "2026-11-01", result("iron"), result("", name="Sparkle"), result("phlogiston"))
    (one,) = check(book.path, CATALOGUE, date(2026, 11, 25))
    assert "Results are kept for 'phlogiston'" in one.text


@pytest.mark.parametrize(
    ("kind", "private", "is_about_people"),
    [
        ("birth", False, True),
        ("Pregnancy", False, True),
        ("illness", False, True),
        ("flood", False, False),
        ("flood", True, True),
    ],
)
def test_events_about_people_are_told_by_their_kind_or_were_ticked(kind, private, is_about_people):
    assert Event(1, 1, kind, "2026", private=private).is_about_people is is_about_people


def test_a_plan_by_a_number_of_the_book_only_puts_a_follow_up_off():
    assert Plan(1, 1, "event 3 flood", 0).is_follow_up
    assert not Plan(1, 1, "lead_copper", 36).is_follow_up


def test_an_event_is_private_only_if_that_was_ticked(book):
    book.add_event(1, "flood", "2020")
    book.add_inspection(1, "2021", [])
    book.add_event(1, "repair", "2022", private=True)
    assert [event.private for event in book.events()] == [False, False, True]
    book.change_event(3, private=False)
    assert [event.private for event in book.events()] == [False] * 3


def test_what_was_not_said_of_a_point_a_unit_or_a_price_is_not_made_up(book):
    tank = book.point(1)
    assert (tank.treated, tank.place, tank.note) == (False, 1, "")
    book.add_unit(1, "Lamp")
    (lamp,) = book.units()
    assert (lamp.place, lamp.kind, lamp.installed, lamp.removed) == (1, "", "", "")
    book.set_interval(1, "check_up", 6)
    (own,) = book.record().intervals
    assert (own.unit, own.reason, own.use, own.a_day) == (None, "", "", "")
    assert Service(1, 1, "2026", "lamp") == Service(1, 1, "2026", "lamp", "", "", "", "", "")


def test_why_a_book_can_only_be_read_is_said_and_of_others_nothing(book):
    assert (book.is_readonly, book.why_readonly()) == (False, "")
    with Book.open(book.path, readonly=True) as same:
        assert same.is_readonly
        assert "is open for reading only" in same.why_readonly()
