"""What was found bad at a wellhead asks for a test and a caution until both are done.

What is looked at: Cornell Cooperative Extension Sullivan County, annual check-up; that a bad line
asks for a test at once and again when it was put right: common practice, no source.
"""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer, NewResult, NewSample
from wellbook.planning.advice import situations
from wellbook.planning.overview import due
from wellbook.support.paths import resources
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.inspection import KEEPS_OUT, read_checklist
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.triggers import asked_by

CATALOGUE = read_catalogue(resources())
CAUTIONS = read_cautions(resources() / "cautions.toml")
CHECKLIST = read_checklist(resources())
OPEN = CAUTIONS.situations["found_open"]
BACTERIA = {"total_coliform", "e_coli"}


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        well = made.add_well("Home")
        made.add_point(well, "Tank")
        sampled(made, "2026-03-01", "total_coliform", "e_coli", "nitrate")
        yield made


def sampled(book, day, *keys):
    results = tuple(
        NewResult(key, CATALOGUE.parameters[key].name, read_reading("Absent")) for key in keys
    )
    book.add_sample(NewSample(1, LocalTime.parse(day), results=results))


def look(book, day, *bad):
    book.add_inspection(1, day, [InspectionAnswer(0, 0, item, "bad") for item in bad])


def asked(book, today):
    """What inspections ask for on a day: what is tested, and since when."""
    ((_well, _point, dues),) = due(book.record(), CATALOGUE, date.fromisoformat(today))
    return [
        ({*one.panel.core}, one.due.isoformat())
        for one in dues
        if one.panel.key.startswith(("answer", "mended"))
    ]


def is_told(book, today):
    return OPEN in situations(book.record(), 1, (), CAUTIONS, date.fromisoformat(today))


@pytest.mark.parametrize("item", [item for item in CHECKLIST if "test for bacteria" in item.do])
def test_every_line_that_says_to_test_asks_for_just_that(item):
    said = item.do.partition("test for")[2].partition(".")[0]
    wanted = BACTERIA | ({"nitrate"} if "nitrate" in said else set())
    wanted |= {"chloride"} if "chloride" in said else set()
    triggers = asked_by("found bad", item.key, CATALOGUE.triggers)
    assert {key for one in triggers for key in one.core} == wanted


@pytest.mark.parametrize("item", sorted(KEEPS_OUT))
def test_every_way_in_asks_for_bacteria_at_once_and_again_when_it_is_put_right(item):
    for kind in ("found bad", "put right"):
        (trigger,) = asked_by(kind, item, CATALOGUE.triggers)
        assert {*trigger.core} == BACTERIA


def test_a_bad_cap_asks_for_bacteria_from_that_day_until_they_are_tested(book):
    look(book, "2026-05-10", "cap")
    assert asked(book, "2026-05-10") == [(BACTERIA, "2026-05-10")]
    sampled(book, "2026-05-12", "total_coliform", "e_coli")
    assert asked(book, "2026-05-20") == []


def test_the_caution_stands_until_the_cap_is_put_right_and_a_new_test_is_asked_for_then(book):
    look(book, "2026-05-10", "cap")
    sampled(book, "2026-05-12", "total_coliform", "e_coli")
    assert is_told(book, "2026-05-10")
    assert is_told(book, "2028-05-10"), "a clean test does not mend the cap"
    book.mend(book.record().answers[0].id, "2026-06-01")
    assert not is_told(book, "2026-06-02")
    assert asked(book, "2026-06-10") == [(BACTERIA, "2026-06-08")]


def test_three_bad_lines_of_one_look_ask_once(book):
    look(book, "2026-05-10", "cap", "vent", "slope")
    assert len(asked(book, "2026-05-10")) == 1


def test_manure_near_the_well_asks_for_nitrate_too_and_a_line_of_safety_for_none(book):
    look(book, "2026-05-10", "animals", "wiring")
    assert asked(book, "2026-05-10") == [({*BACTERIA, "nitrate"}, "2026-05-10")]
    assert not is_told(book, "2026-05-10")
