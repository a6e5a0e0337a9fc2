"""The record as values: read once in one state, the same in memory, and cheap to plan from."""

import threading
from datetime import date

import pytest

from tests import household
from wellbook.book import Book
from wellbook.planning.overview import due, overview
from wellbook.planning.rounds import rounds
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

TODAY = date(2026, 11, 25)
CATALOGUE = read_catalogue(paths.resources())


@pytest.fixture
def book(tmp_path):
    with household.furnished(tmp_path / "home.wellbook") as made:
        yield made


def queries(book, ask):
    statements = []
    book._connection.set_trace_callback(statements.append)
    ask()
    book._connection.set_trace_callback(None)
    return statements


def test_a_record_holds_what_the_book_says(book):
    record = book.record()
    assert list(record.wells) == book.wells()
    assert list(record.points_of(1)) == book.points(1)
    assert list(record.units_of(1)) == book.units(1)
    assert list(record.services_of(1)) == book.services(1)
    assert list(record.events_of(1)) == book.events(1)
    assert list(record.plans_of(1)) == book.plans(1)
    assert list(record.labs) == book.labs()
    assert list(record.documents) == book.documents()
    assert record.digest == book.digest()


def test_tests_in_memory_are_those_of_the_book(book):
    lazily, loaded = book.record(), book.record().loaded()
    for point in (None, 1, 2, 99):
        for with_struck in (False, True):
            how = {"with_struck": with_struck}
            assert list(loaded.samples(point, **how)) == list(lazily.samples(point, **how))
            assert list(loaded.results(point, **how)) == list(lazily.results(point, **how))


def test_a_struck_test_counts_for_nothing_unless_it_is_asked_for(book):
    book.strike_sample(1, "wrong bottle")
    for record in (book.record(), book.record().loaded()):
        assert 1 not in {sample.id for sample in record.samples()}
        assert 1 not in {result.sample for result in record.results()}
        assert 1 in {sample.id for sample in record.samples(with_struck=True)}


def test_a_record_is_read_in_one_state_of_the_book(book):
    statements = queries(book, book.record)
    assert (statements[0], statements[-1]) == ("BEGIN", "ROLLBACK")
    assert not book._connection.in_transaction


def test_a_record_stays_as_it_was_read(book):
    record = book.record()
    book.add_well("Barn")
    assert [well.name for well in record.wells] == ["Tamarack Hill"]


@pytest.mark.parametrize("ask", [overview, due, rounds])
def test_planning_asks_no_more_of_a_book_with_more_plans_units_and_events(book, ask):
    few = len(queries(book, lambda: ask(book.record(), CATALOGUE, TODAY)))
    for month in range(1, 13):
        book.set_plan(1, f"panel {month}", month)
        unit = book.add_unit(1, f"Filter {month}", kind="sediment filter")
        book.add_service(unit, "cartridge", f"2024-{month:02}-03")
        book.add_event(1, "repair", f"2025-{month:02}-03")
    assert len(queries(book, lambda: ask(book.record(), CATALOGUE, TODAY))) == few


def test_another_thread_plans_from_a_loaded_record_without_the_file(book):
    record, found = book.record().loaded(), []
    asked = threading.Thread(target=lambda: found.append(due(record, CATALOGUE, TODAY)))
    statements = queries(book, lambda: (asked.start(), asked.join()))
    assert statements == []
    assert found == [due(book.record(), CATALOGUE, TODAY)]


def test_a_book_opened_for_reading_gives_the_same_record(book, tmp_path):
    with Book.open(tmp_path / "home.wellbook", readonly=True) as same:
        assert same.record() == book.record()
