"""What is drawn together, on which day, in which bottles; and putting a test off."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.overview import due
from wellbook.planning.postponing import find_due, postponed
from wellbook.planning.rounds import rounds, wanted
from wellbook.planning.visits import visits
from wellbook.support.errors import Fault
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.timetable import Task
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 3)


def put_off(book, point, one, **how):
    book.set_plans(postponed(book.record(), CATALOGUE, TODAY, point, one, **how))


EAST = ZoneInfo("America/New_York")


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        well = made.add_well("Thistle Lane")
        made.add_point(well, "Tank tap")
        made.add_point(well, "Kitchen tap", treated=True, place=3)
        yield made


def sampled(book, day, *keys, point=1, text="0.1", **more):
    results = tuple(
        NewResult(
            key,
            CATALOGUE.parameters[key].name,
            read_reading("Absent" if "coli" in key else text, unit=CATALOGUE.parameters[key].unit),
            analysed=LocalTime.parse(more["analysed"]) if "analysed" in more else None,
        )
        for key in keys
    )
    return book.add_sample(NewSample(point, LocalTime.parse(day), results=results))


def names(panels):
    return [one.panel.name for one in panels]


def planned(book, today=TODAY):
    return {point.name: names(panels) for _, point, panels in due(book.record(), CATALOGUE, today)}


def test_a_new_book_plans_bacteria_and_nitrate_for_raw_water(book):
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert one.point.name == "Tank tap"
    assert names(one.panels) == ["Bacteria", "Nitrate"]


def test_a_well_with_treated_taps_alone_is_not_left_without_a_plan(tmp_path):
    with Book.create(tmp_path / "flat.wellbook") as book:
        well = book.add_well("Thistle Lane")
        book.add_point(well, "Kitchen tap", treated=True)
        book.add_point(well, "Bathroom", treated=True, place=2)
        assert planned(book) == {"Kitchen tap": ["Bacteria", "Nitrate"], "Bathroom": []}
        book.add_point(well, "Tank tap", place=3)
        assert planned(book)["Tank tap"] == ["Bacteria", "Nitrate"]
        assert planned(book)["Kitchen tap"] == []


def test_a_round_has_day_hour_slack_and_bottles(book):
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert one.search.limit == timedelta(hours=30)
    assert one.search.journey.draw == datetime(2026, 6, 10, 16, 30, tzinfo=EAST)
    assert one.search.slack == timedelta(hours=7, minutes=30)
    assert [bottle.key for bottle, _ in one.bottles] == ["bacteria", "large"]
    assert [step.task for step in one.steps][:2] == [Task.PREPARE, Task.FLUSH]
    assert "7 h 30 min are to spare" in one.search.told


def test_what_is_due_soon_is_drawn_along(book):
    sampled(book, "2025-06-03", "total_coliform", "e_coli")
    sampled(book, "2025-06-24", "nitrate")
    sampled(book, "2025-05-13", "arsenic")
    book.set_plan(1, "bacteria", 12)
    book.set_plan(1, "nitrate", 12)
    book.set_plan(1, "arsenic", 60)
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert names(one.panels) == ["Bacteria", "Nitrate"]


def test_a_point_behind_treatment_is_drawn_on_the_same_day(book):
    unit = {"kind": "ion exchange", "place": 2, "installed": "2025-01-07", "target": "hardness"}
    book.add_unit(1, "Softener", **unit)
    for point in (1, 2):
        sampled(book, "2025-06-03", "hardness", "sodium", point=point)
    first, second = rounds(book.record(), CATALOGUE, TODAY)
    assert {first.point.name, second.point.name} == {"Tank tap", "Kitchen tap"}
    assert first.search.day == second.search.day
    assert all("Softener" in " ".join(names(one.panels)) for one in (first, second))


def test_lead_is_a_first_draw_at_the_tap_that_people_drink_from(book):
    for point in (1, 2):
        book.set_plan(point, "lead_copper", 36)
    raw, kitchen = sorted(rounds(book.record(), CATALOGUE, TODAY), key=lambda one: one.point.id)
    assert Task.FIRST_DRAW not in raw.fills
    assert Task.FIRST_DRAW in kitchen.fills
    assert kitchen.steps[1].task is Task.LAST_USE
    assert [bottle.aerator for bottle, _ in kitchen.bottles] == ["on", "off"], "and its partner"


def test_what_keeps_for_weeks_is_no_question_of_hours(book):
    sampled(book, "2026-05-05", "total_coliform", "e_coli", "nitrate")
    book.set_plan(1, "metals", 60)
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert one.search.limit > timedelta(days=100)
    assert "to spare" not in one.search.told
    assert one.search.day == date(2026, 6, 10)


def test_where_no_day_works_the_round_says_what_would(book):
    book.set_setting("round_transit_days", "3")
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert (one.search.day, one.steps) == (None, ())
    assert "By car it would work" in one.search.told


def test_an_open_case_goes_first(book):
    sampled(book, "2026-05-05", "nitrate")
    book.add_sample(
        NewSample(
            1,
            LocalTime.parse("2026-06-01"),
            results=(NewResult("total_coliform", "Total coliform", read_reading("Present")),),
        )
    )
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert one.panels[0].panel.name == "Bacteria found on 1 June 2026: second sample"
    assert one.search.day == date(2026, 6, 8)


def test_nitrate_that_is_due_is_drawn_with_the_sample_that_cannot_wait(book):
    """Only nitrate tells whether boiled water serves an infant: CDC, nitrate in private wells.

    Bottles for the urgent sample are fetched, so those for nitrate are at hand as well.
    """
    result = NewResult("e_coli", "E. coli", read_reading("Present"))
    book.add_sample(NewSample(1, LocalTime.parse("2026-06-01"), results=(result,)))
    (one,) = rounds(book.record(), CATALOGUE, TODAY)
    assert names(one.panels)[0] == "Bacteria found on 1 June 2026: second sample"
    assert "Nitrate" in names(one.panels)
    assert one.search.day - TODAY < timedelta(days=7)
    (first, *_later) = visits(due(book.record(), CATALOGUE, TODAY))
    assert (first.day, len(first.tasks)) == (one.search.day, len(one.panels))


def test_a_flood_is_asked_about_before_the_usual_panels(book):
    sampled(book, "2026-05-05", "total_coliform", "e_coli", "nitrate")
    assert planned(book)["Tank tap"][0] != "After a flood (1 June 2026)"
    book.add_event(1, "flood", "2026-06-01")
    assert planned(book)["Tank tap"][0] == "After a flood (1 June 2026)"
    sampled(book, "2026-06-08", "total_coliform", "e_coli")
    assert planned(book, date(2026, 6, 9))["Tank tap"][0] != "After a flood (1 June 2026)"


def test_what_is_about_people_is_private_whether_or_not_it_was_ticked(book):
    book.add_event(1, "pregnancy", "2026-05-20")
    found = [one for _, _, panels in due(book.record(), CATALOGUE, TODAY) for one in panels]
    assert [one.private for one in found if "pregnant" in one.panel.name] == [True]


def test_an_open_case_leaves_no_room_for_the_same_bottle_twice(book):
    book.add_event(1, "repair", "2026-06-02")
    book.add_sample(
        NewSample(
            1,
            LocalTime.parse("2026-06-01"),
            results=(NewResult("e_coli", "E. coli", read_reading("Present")),),
        )
    )
    asked = planned(book)["Tank tap"]
    assert asked[0].startswith("Bacteria found on 1 June 2026")
    assert not any(name.startswith("After a repair") for name in asked)


def found_in_june(book):
    """E. coli in June 2025, and clean samples since: one of the wet season is still wanted."""
    book.add_sample(
        NewSample(
            1,
            LocalTime.parse("2025-06-01"),
            results=(NewResult("e_coli", "E. coli", read_reading("Present")),),
        )
    )
    for day in ("2025-07-01", "2025-07-03", "2025-09-03"):
        sampled(book, day, "total_coliform", "e_coli")


def test_a_flood_is_asked_about_though_a_case_waits_for_another_season(book):
    found_in_june(book)
    waiting = planned(book, date(2025, 11, 12))["Tank tap"]
    assert "Bacteria found on 1 June 2025: test in the wet season" in waiting
    book.add_event(1, "flood", "2025-11-10")
    asked = planned(book, date(2025, 11, 12))["Tank tap"]
    assert asked[0] == "After a flood (10 November 2025)"
    assert set(waiting) <= set(asked)


def test_a_case_in_place_of_a_follow_up_is_tested_for_all_that_this_asks_for(book):
    """Turbidity and nitrate beside bacteria after a flood: see `triggers.csv`."""
    book.add_event(1, "flood", "2026-06-02")
    (flood, *_rest) = next(panels for _, _, panels in due(book.record(), CATALOGUE, TODAY))
    results = (NewResult("e_coli", "E. coli", read_reading("Present")),)
    book.add_sample(NewSample(1, LocalTime.parse("2026-06-01"), results=results))
    (case, *_rest) = next(panels for _, _, panels in due(book.record(), CATALOGUE, TODAY))
    assert case.panel.name.startswith("Bacteria found on 1 June 2026")
    assert {*flood.panel.core, *flood.panel.also} <= {*case.panel.core, *case.panel.also}


def test_a_test_held_too_long_does_not_put_the_next_one_off(book):
    sampled(book, "2025-05-06T09:00", "total_coliform", "e_coli", analysed="2025-05-07T09:00")
    sampled(book, "2026-05-05T09:00", "total_coliform", "e_coli", analysed="2026-05-07T09:00")
    first, *others = next(
        panels for _, point, panels in due(book.record(), CATALOGUE, TODAY) if panels
    )
    assert first.panel.name == "Bacteria: a new sample for that of 5 May 2026"
    bacteria = next(one for one in others if one.panel.key == "bacteria")
    assert bacteria.last == date(2025, 5, 6)


def test_what_was_struck_out_asks_for_nothing(book):
    number = book.add_sample(
        NewSample(
            1,
            LocalTime.parse("2026-06-01"),
            results=(NewResult("total_coliform", "Total coliform", read_reading("Present")),),
        )
    )
    book.strike_sample(number, "another well's bottle")
    assert planned(book)["Tank tap"] == ["Bacteria", "Nitrate"]


def test_a_test_is_put_off_with_its_reason(book):
    point, one = find_due(book.record(), CATALOGUE, TODAY, "nitrate")
    why = "The tap is being moved."
    put_off(book, point, one, until=date(2026, 9, 1), why=why)
    _, later = find_due(book.record(), CATALOGUE, TODAY, "Nitrate", point="Tank tap")
    assert later.due == date(2026, 9, 1)
    (plan,) = (plan for plan in book.plans() if plan.panel == "nitrate")
    assert (plan.postponed, plan.postponed_why) == ("2026-09-01", why)


def test_putting_one_off_leaves_the_usual_others_planned_and_is_one_entry(book):
    before = planned(book)
    point, one = find_due(book.record(), CATALOGUE, TODAY, "nitrate")
    entries = len(book.journal())
    put_off(book, point, one, until=date(2026, 9, 1), why="away")
    assert planned(book)["Tank tap"] == before["Tank tap"]
    assert len(book.journal()) > entries
    while book.plans():
        book.undo()
    assert planned(book) == before


def test_a_follow_up_is_put_off_without_touching_the_plans(book):
    book.add_event(1, "repair", "2026-06-01")
    before = planned(book)["Tank tap"]
    point, one = find_due(book.record(), CATALOGUE, TODAY, "After a repair (1 June 2026)")
    put_off(book, point, one, until=date(2026, 9, 1), why="chlorine left")
    _, later = find_due(book.record(), CATALOGUE, TODAY, "After a repair (1 June 2026)")
    assert later.due == date(2026, 9, 1)
    (plan,) = book.plans()
    assert (plan.is_follow_up, plan.months) == (True, 0)
    assert sorted(planned(book)["Tank tap"]) == sorted(before)


def test_putting_off_wants_a_day_to_come_and_a_reason(book):
    point, one = find_due(book.record(), CATALOGUE, TODAY, "nitrate")
    with pytest.raises(Fault, match="no day to come"):
        put_off(book, point, one, until=TODAY, why="later")
    with pytest.raises(Fault, match="with a reason"):
        put_off(book, point, one, until=date(2026, 9, 1), why=" ")
    with pytest.raises(Fault, match="What is planned: Bacteria, Nitrate"):
        find_due(book.record(), CATALOGUE, TODAY, "plutonium")
    with pytest.raises(Fault, match="'nitrate', nor under any other"):
        find_due(book.record(), CATALOGUE, TODAY, "nitrate", point="no such tap")
    assert book.plans() == []


def test_an_empty_book_has_no_round(tmp_path):
    with Book.create(tmp_path / "empty.wellbook") as empty:
        assert rounds(empty.record(), CATALOGUE, TODAY) == ()


@pytest.mark.parametrize("text", ["rejected", "0.4 R", ""])
def test_a_result_that_says_nothing_is_no_test(book, text):
    book.set_plan(1, "fluoride", 12)
    before = planned(book)["Tank tap"]
    assert "Fluoride" in before
    reading = read_reading(text.removesuffix(" R"), unit="mg/L", qualifier="R" * ("R" in text))
    result = NewResult("fluoride", "Fluoride", reading)
    book.add_sample(NewSample(1, LocalTime.parse("2026-05-28"), results=(result,)))
    assert planned(book)["Tank tap"] == before


def test_what_is_drawn_first_is_wanted_first_and_only_at_its_well(book):
    other = book.add_well("Barn")
    trough = book.add_point(other, "Trough")
    sampled(book, "2026-05-01", "nitrate", "e_coli", "total_coliform", point=trough)
    found = rounds(book.record(), CATALOGUE, TODAY)
    assert {one.well.name for one in found} == {"Thistle Lane", "Barn"}
    first = [one for one in found if one.well.id == found[0].well.id]
    assert [point.name for point, _keys in wanted(found)] == [one.point.name for one in first]
    ((point, keys),) = wanted(found, record_point(book, trough))
    assert point.name == "Trough"
    assert keys
    assert wanted([], None) == []


def record_point(book, number):
    return next(one for one in book.record().points if one.id == number)
