"""Which panels are planned at a tap, how often, and what is said of how often; by `panels.csv`."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer, NewResult, NewSample
from wellbook.planning.due import happenings, planned
from wellbook.planning.overview import due
from wellbook.planning.rounds import rounds
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.due import Because
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(paths.resources())
TODAY = date(2026, 6, 3)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Tank")
        yield made


def keep(book, day, point, *keys, text="0.001"):
    results = tuple(NewResult(key, key, read_reading(text, unit="mg/L")) for key in keys)
    book.add_sample(NewSample(point, LocalTime.parse(day), results=results))


def dues(book, today=TODAY):
    (_well, _point, found), *_others = due(book.record(), CATALOGUE, today)
    return {one.panel.key: one for one in found}


def months(book, point=0, **tested):
    days = {key: [date.fromisoformat(day)] for key, day in tested.items()}
    found = planned(book.record(), CATALOGUE, book.record().points[point], days)
    return {plan.panel: plan.months for plan in found}


@pytest.mark.parametrize(("own", "is_said"), [(59, False), (60, False), (61, True)])
def test_a_plan_that_waits_longer_than_is_advised_says_what_is_advised(book, own, is_said):
    """Arsenic every five years, 60 months."""
    book.set_plan(1, "arsenic", own)
    keep(book, "2026-05-20", 1, "arsenic")
    of_arsenic = dues(book)["arsenic"]
    codes = {reason.code for reason in of_arsenic.reasons}
    assert (Because.ADVISED_INTERVAL in codes) is is_said
    assert ("60 months" in of_arsenic.why) is is_said


def test_what_is_tested_once_is_planned_until_it_was_tested(book):
    book.set_plan(1, "radon", 0)
    assert Because.ADVISED_INTERVAL not in {one.code for one in dues(book)["radon"].reasons}
    keep(book, "2026-05-20", 1, "radon_222")
    assert "radon" not in dues(book)


def test_what_was_tested_whole_comes_again_as_slowly_as_it_is_advised_or_as_is_usual(book):
    assert months(book) == {"bacteria": 14, "nitrate": 14}
    assert months(book, arsenic="2026-01-01") == {"bacteria": 14, "nitrate": 14, "arsenic": 60}
    assert months(book, lead="2026-01-01").keys() == {"bacteria", "nitrate"}, "copper is missing"
    assert months(book, lead="2026-01-01", copper="2025-01-01")["lead_copper"] == 36
    assert "radon" not in months(book, radon_222="2026-01-01"), "it is tested once"
    book.set_setting("interval", "37")
    assert months(book, lead="2026-01-01", copper="2025-01-01") == {
        "bacteria": 37,
        "nitrate": 37,
        "lead_copper": 37,
    }


def test_salt_is_planned_only_near_a_road_that_is_salted(book):
    tested = dict.fromkeys(CATALOGUE.panels["salt"].core, "2026-01-01")
    assert "salt" not in months(book, **tested)
    book.add_event(1, "road salt", "2020")
    assert months(book, **tested)["salt"] == 14
    assert "salt" not in months(book), "it was never tested whole"


def test_what_is_not_nearby_keeps_no_other_panel_from_its_plan(book):
    tested = dict.fromkeys(CATALOGUE.panels["corrosion"].core, "2026-01-01")
    assert "corrosion" in months(book, **tested)


def test_a_usual_plan_has_no_number_as_it_stands_in_no_book(book):
    book.set_plan(1, "bacteria", 24)
    plans = planned(book.record(), CATALOGUE, book.record().points[0], {})
    assert {plan.panel: plan.id for plan in plans} == {"bacteria": 1, "nitrate": 0}


def test_a_plan_of_the_household_stands_in_place_of_the_usual_one(book):
    book.set_plan(1, "bacteria", 24)
    assert months(book) == {"bacteria": 24, "nitrate": 14}
    book.change_well(1, construction={"kind": "dug"})
    (of_bacteria, of_nitrate) = months(book).values()
    assert of_bacteria == 24, "however often it is advised"
    assert of_nitrate < 14


def test_more_often_than_once_a_year_is_said_to_be_advised_only_where_it_is_followed(book):
    book.change_well(1, construction={"kind": "dug"})
    advised = months(book)["bacteria"]
    assert f"every {advised} months is advised" in dues(book)["bacteria"].why
    book.set_plan(1, "bacteria", advised)
    assert "is advised" in dues(book)["bacteria"].why
    book.set_plan(1, "bacteria", advised - 1)
    assert "is advised" not in dues(book)["bacteria"].why


def test_a_month_to_which_a_test_was_put_off_counts_to_its_last_day(book):
    book.set_plan(1, "nitrate", 14, postponed="2026-09", postponed_why="away")
    assert dues(book)["nitrate"].due == date(2026, 9, 30)
    assert dues(book)["bacteria"].due < date(2026, 9, 30)


def told(book, today=TODAY):
    (well,) = book.record().wells
    return [(one.kind, one.first) for one in happenings(book.record(), well) if one.first <= today]


def test_units_services_and_inspections_ask_for_tests_as_events_do(book):
    unit = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2026-02-01")
    for kind, day in (("lamp", "2026-03-01"), ("salt", "2026-03-02"), ("failed", "2026-04-01")):
        book.add_service(unit, kind, day)
    cap, slope = InspectionAnswer(0, 0, "cap", "bad"), InspectionAnswer(0, 0, "slope", "good")
    book.add_inspection(1, "2026-04-10", [cap, slope])
    assert told(book) == [
        ("inspection", date(2026, 4, 10)),
        ("unit installed", date(2026, 2, 1)),
        ("unit in use", date(2026, 2, 1)),
        ("unit serviced", date(2026, 3, 1)),
        ("unit failed", date(2026, 4, 1)),
        ("found bad", date(2026, 4, 10)),
    ]
    (bad,) = (one.id for one in book.record().answers if one.answer == "bad")
    book.mend(bad, "2026-05-01")
    assert told(book)[-1] == ("put right", date(2026, 5, 1))
    book.change_unit(unit, removed="2026-05-20")
    kinds = [kind for kind, _day in told(book)]
    assert kinds == ["inspection", "unit installed", "found bad", "put right"]


def test_of_a_treated_tap_bacteria_and_nitrate_are_not_asked_unless_it_is_all_there_is(tmp_path):
    with Book.create(tmp_path / "two.wellbook") as book:
        well = book.add_well("Home")
        book.add_point(well, "Kitchen", treated=True, place=2)
        book.add_point(well, "Bath", treated=True, place=3)
        assert [months(book, at) for at in (0, 1)] == [{"bacteria": 14, "nitrate": 14}, {}]
        book.add_point(well, "Tank", place=1)
        of_points = {point.name: months(book, at) for at, point in enumerate(book.record().points)}
        assert {name for name, plans in of_points.items() if plans} == {"Tank"}


def test_a_softener_in_use_is_told_to_whoever_draws(book):
    assert not rounds(book.record(), CATALOGUE, TODAY)[0].softens
    softener = book.add_unit(1, "Softener", kind="ion exchange softener")
    book.add_unit(1, "Lamp", kind="ultraviolet lamp")
    assert rounds(book.record(), CATALOGUE, TODAY)[0].softens
    book.change_unit(softener, removed="2026-01-01")
    assert not rounds(book.record(), CATALOGUE, TODAY)[0].softens
