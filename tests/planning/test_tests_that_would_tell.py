"""How many more tests would tell a trend: asked where it is open, told only with a pace."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.consulting import powers
from wellbook.planning.overview import overview
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(paths.resources())
TODAY = date(2026, 11, 28)


@pytest.fixture
def asked(tmp_path):
    """What is open, by point and parameter, for readings in mg/L, a year apart."""

    def open_ones(**texts):
        with Book.create(tmp_path / "b.wellbook") as book:
            tap = book.add_point(book.add_well("Home"), "Tap")
            for key, readings in texts.items():
                for number, text in enumerate(readings.split()):
                    result = NewResult(key, key, read_reading(text, unit="mg/L"))
                    day = LocalTime.parse(f"{2020 + number}-05-02")
                    book.add_sample(NewSample(tap, day, results=(result,)))
            record = book.record()
            return powers(record, overview(record, CATALOGUE, TODAY), TODAY)

    return open_ones


def test_too_few_tests_say_how_many_more_would_tell(asked):
    found = asked(arsenic="0.002 0.003 0.0035 0.005", lead="0.002", zinc="0.1 0.12 0.15 0.2")
    assert found.keys() >= {(1, "arsenic")}
    assert (1, "lead") not in found, "one test has no pace"
    assert all(outlook.pace is not None for outlook in found.values())


def test_where_nothing_is_open_nothing_is_asked(asked):
    assert asked(lead="0.002") == {}
