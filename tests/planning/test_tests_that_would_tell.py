"""How many more tests would tell a trend: asked where it is open, told only with a pace."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.consulting import consulted, hints_of, powers
from wellbook.planning.overview import overview, point_record
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


@pytest.fixture
def told(tmp_path):
    """What a tap tells a consultant, for readings of one sample in mg/L."""

    def consult(*, treated=False, **texts):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            tap = book.add_point(book.add_well("Home"), "Tap", treated=treated)
            results = tuple(
                NewResult(key, key, read_reading(text, unit="mg/L")) for key, text in texts.items()
            )
            day = LocalTime.parse("2026-05-02")
            book.add_sample(NewSample(tap, day, results=results))
            record = book.record()
            (well,) = overview(record, CATALOGUE, TODAY)
            return consulted(well.points[0], point_record(record, tap, TODAY), CATALOGUE)

    return consult


def test_raw_water_tells_where_salt_may_come_from_what_serves_and_what_is_missing(told):
    # A ratio of chloride to bromide of 10 000 by mass is that of road salt: Davis and others 1998,
    # Ground Water 36; from memory.
    found = told(chloride="1000", bromide="0.1", arsenic="0.05", iron="0.1")
    assert [day for day, _hint in found.hints] == [date(2026, 5, 2)]
    (hint,) = hints_of(found, "chloride")
    assert hint is found.hints[0][1]
    assert hints_of(found, "arsenic") == ()
    assert "arsenic" in {one.key for fit in found.fits for one in fit.found}
    missing = {one.key for one in found.missing}
    assert {"silica", "ph", "manganese"} <= missing
    assert not missing & {"chloride", "arsenic", "iron"}


def test_of_treated_water_nothing_is_told_as_a_unit_has_changed_it(told):
    found = told(treated=True, chloride="1000", bromide="0.1", arsenic="0.05")
    assert (found.hints, found.fits, found.missing) == ((), (), ())
