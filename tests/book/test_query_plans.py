"""What a household waits for never walks through every result of every well."""

import sqlite3
from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime

LARGE = ("result", "sample", "document_body")


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    with Book.create(tmp_path_factory.mktemp("plans") / "home.wellbook") as made:
        for name in ("Hill", "Creek"):
            made.add_point(made.add_well(name), "Pressure tank")
        reading = read_reading("4", unit="mg/L", basis="as N")
        for point in (1, 2):
            for year in range(2000, 2020):
                results = (NewResult("nitrate", "Nitrate", reading),)
                made.add_sample(NewSample(point, LocalTime.parse(f"{year}-05-04"), results=results))
        yield made


@pytest.fixture
def walks(book):
    """Walks through whole large tables, as SQLite plans each query that is asked meanwhile."""
    asked = []
    connection = book._connection
    connection.set_trace_callback(asked.append)
    with sqlite3.connect(book.path) as other:

        def found():
            connection.set_trace_callback(None)
            plans = [
                step
                for text in asked
                if text.lstrip().startswith("SELECT")
                for *_numbers, step in other.execute(f"EXPLAIN QUERY PLAN {text}")
            ]
            assert plans
            return [
                step for step in plans if any(step.startswith(f"SCAN {table}") for table in LARGE)
            ]

        yield found


HOT = {
    "the newest tests of a point": lambda book: book.newest(1, date(2026, 1, 1)),
    "the tests of some days": lambda book: book.results_on(1, {date(2010, 5, 4)}),
    "the history of a parameter": lambda book: book.results(1, "nitrate"),
    "the tests of a point": lambda book: book.results(1),
    "the results of a sample": lambda book: book.results(sample=3),
    "the samples of a point": lambda book: book.samples(1),
    "one sample": lambda book: book.sample(3),
    "the state of the book": lambda book: book.digest(),
    "the identity of the book": lambda book: book.identity(),
    "the day of the last entry": lambda book: book.journal_day(),
    "the last entry": lambda book: book.last_entry(),
    "the documents of a sample": lambda book: book.documents(sample=3),
}


@pytest.mark.parametrize("ask", HOT.values(), ids=HOT)
def test_no_large_table_is_walked_through_for(ask, book, walks):
    ask(book)
    assert walks() == []


def test_a_walk_through_all_results_is_noticed(book, walks):
    book._connection.execute("SELECT count(*) FROM result WHERE text = '4'").fetchone()
    assert walks() == ["SCAN result"]
