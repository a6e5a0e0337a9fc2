"""A book keeps what it is given, as it was given, whole or not at all."""

import sqlite3
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading

NITRATE = NewResult(
    "nitrate",
    "Nitrate-N",
    Reading("5.10", Kind.NUMBER, Decimal("5.10"), "mg/L", "as N", "total"),
    method="EPA 300.0",
    reporting_limit="0.05",
)
SCAN = NewDocument("report.pdf", "application/pdf", b"%PDF-1.4 a lab's own report")


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        yield made


@pytest.fixture
def point(book):
    return book.add_point(book.add_well("Home", construction={"depth": "185 ft"}), "Kitchen tap")


def sample(point, **more):
    given = {"lab": "Brook Lab", "results": (NITRATE,), "documents": (SCAN,)} | more
    return NewSample(point, LocalTime.parse("2024-05-03T07:15-04:00"), **given)


def test_a_sample_comes_out_as_it_went_in(book, point):
    number = book.add_sample(sample(point, lab_number="A-7", temperature="4 °C"))
    kept = book.sample(number)
    assert (kept.lab, kept.lab_number, kept.temperature) == ("Brook Lab", "A-7", "4 °C")
    assert kept.collected.iso() == "2024-05-03T07:15-04:00"
    (result,) = book.results(sample=number)
    assert result.reading == NITRATE.reading
    assert str(result.reading.number) == "5.10", "the digits that the lab printed stay"
    assert (result.name, result.method, result.reporting_limit) == (
        "Nitrate-N",
        "EPA 300.0",
        "0.05",
    )


def test_a_report_of_many_lines_is_kept_whole_and_in_order(book, point):
    # SQLite before 3.32 takes no more values in one statement: sqlite.org/limits.html.
    book._connection.setlimit(sqlite3.SQLITE_LIMIT_VARIABLE_NUMBER, 999)
    lines = tuple(replace(NITRATE, name=f"Nitrate {n}", place=f"row {n}") for n in range(300))
    number = book.add_sample(sample(point, results=lines))
    kept = book.results(sample=number)
    assert [(one.name, one.place) for one in kept] == [(one.name, one.place) for one in lines]
    assert [one.id for one in kept] == list(range(1, 301))
    assert book.doubts() == ()


def test_a_day_without_a_time_stays_a_day(book, point):
    number = book.add_sample(NewSample(point, LocalTime.parse("1998-06-01")))
    assert book.sample(number).collected == LocalTime.parse("1998-06-01")


def test_a_document_is_kept_once_however_often_it_is_added(book, point):
    first = book.add_sample(sample(point))
    second = book.add_sample(sample(point))
    assert {d.id for d in book.documents()} == {1}
    assert [d.sample for d in book.documents()] == [first, second]
    assert book.content(1) == SCAN.content


def test_a_document_too_large_is_refused_and_nothing_of_its_sample_stays(book, point):
    large = NewDocument("scan.pdf", "application/pdf", bytes(25_000_001))
    entries = len(book.journal())
    with pytest.raises(Fault, match=r"scan\.pdf has 25 MB"):
        book.add_sample(sample(point, documents=(large,)))
    assert not book.samples()
    assert not book.labs()
    assert len(book.journal()) == entries


def test_one_bad_sample_of_several_keeps_all_of_them_out(book, point):
    with pytest.raises(sqlite3.IntegrityError):
        book.add_samples([sample(point), sample(99)])
    assert not book.samples()
    assert not book.documents()


def test_a_struck_test_stays_but_is_not_counted(book, point):
    number = book.add_sample(sample(point))
    book.strike_sample(number, "bottle opened before sampling")
    assert not book.samples()
    assert not book.results()
    assert book.samples(with_struck=True)[0].struck == "bottle opened before sampling"
    book.restore_sample(number)
    assert len(book.results()) == 1


def test_striking_out_and_correcting_need_a_reason(book, point):
    number = book.add_sample(sample(point))
    with pytest.raises(Fault, match="say why"):
        book.strike_sample(number, "  ")
    with pytest.raises(Fault, match="say what was wrong"):
        book.correct_result(1, NITRATE, "")


def test_the_database_itself_refuses_what_is_no_fact(book, point):
    store = book._connection
    for statement in (
        "INSERT INTO point (well, name) VALUES (99, 'nowhere')",
        f"INSERT INTO sample (point, collected) VALUES ({point}, '2024-02-30')",
        f"INSERT INTO sample (point, collected) VALUES ({point}, 'last spring')",
        "INSERT INTO result (sample, name, text, kind) VALUES (1, 'x', '1', 'guess')",
        "INSERT INTO well (name) VALUES ('')",
        "UPDATE point SET treated = 2",
        "UPDATE journal SET reason = 'no reason'",
        "DELETE FROM journal",
    ):
        with pytest.raises(sqlite3.IntegrityError):
            store.execute(statement)


def test_plans_and_settings_are_changed_in_place(book, point):
    book.set_plan(point, "bacteria", 12, reason="the county asks for it")
    book.set_plan(point, "bacteria", 14)
    (plan,) = book.plans(point)
    assert (plan.months, plan.reason) == (14, "the county asks for it")
    book.set_setting("seasons", "south")
    book.set_setting("seasons", "north")
    assert book.setting("seasons") == "north"
    assert book.setting("country", "US") == "US"


TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=40)
READING = st.builds(
    Reading,
    text=TEXT,
    kind=st.sampled_from(Kind),
    number=st.decimals(allow_nan=False, allow_infinity=False),
    unit=TEXT,
    basis=TEXT,
    fraction=TEXT,
    flags=st.frozensets(st.sampled_from(Flag)),
)
RESULT = st.builds(NewResult, parameter=TEXT, name=TEXT.filter(bool), reading=READING, method=TEXT)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(RESULT, max_size=6))
def test_any_reading_is_kept_to_the_letter(book, point, results):
    number = book.add_sample(
        NewSample(point, LocalTime.parse("2024-05-03"), results=tuple(results))
    )
    kept = book.results(sample=number)
    assert [(r.parameter, r.name, r.reading, r.method) for r in kept] == [
        (r.parameter, r.name, r.reading, r.method) for r in results
    ]
