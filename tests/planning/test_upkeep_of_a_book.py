"""What a book's units and wells need is asked for until it is entered, and money is added up."""

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer, NewResult, NewSample
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.amounts import read_amount, read_use
from wellbook.planning.upkeep.costs import PaidFor, by_year, usual_currency
from wellbook.planning.upkeep.due import due_now, upkeep_items
from wellbook.planning.upkeep.mending import mended_by, unmended
from wellbook.support.errors import Fault
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.upkeep import read_upkeep
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag

UPKEEP = read_upkeep(resources())
TODAY = date(2026, 11, 28)
CAP = InspectionAnswer(0, 0, "cap", "bad", text="cracked rim")


@pytest.fixture
def book(tmp_path):
    now = datetime(2026, 1, 2, 12, tzinfo=UTC)
    with Book.create(tmp_path / "home.wellbook", now=lambda: now) as made:
        made.add_well("Home")
        yield made


def items(book, today=TODAY):
    return {
        (item.unit.name if item.unit else "", item.key): item
        for item in upkeep_items(book.record(), UPKEEP, today)
    }


def test_a_well_of_which_nothing_was_written_down_is_to_be_looked_at_since_the_book_began(book):
    # CDC and EPA: each spring; National Ground Water Association: a check-up each year.
    found = items(book)
    assert found.keys() == {("", "wellhead"), ("", "check_up")}
    wellhead = found["", "wellhead"]
    assert (wellhead.due, wellhead.is_dated, wellhead.overdue_days) == (
        date(2026, 1, 2), False, 0,
    )  # fmt: skip


def test_an_inspection_and_a_check_up_put_themselves_off_for_a_year(book):
    book.add_event(1, "check-up", "2026-03")
    book.add_inspection(1, "2026-04-10", [])
    found = items(book)
    assert found["", "wellhead"].due == date(2027, 4, 10)
    assert found["", "check_up"].due == date(2027, 3, 1)
    assert not due_now(found.values(), TODAY)


def test_a_unit_is_asked_for_from_its_installation_and_a_service_puts_it_off(book):
    lamp = book.add_unit(1, "Lamp", kind="Ultraviolet lamp", installed="2025-05-20")
    assert items(book)["Lamp", "uv_lamp"].due == date(2026, 5, 20)
    book.add_service(lamp, "lamp", "2026-11-20")
    assert items(book)["Lamp", "uv_lamp"].due == date(2027, 11, 20)


def test_a_service_without_a_day_is_none(book):
    lamp = book.add_unit(1, "Lamp", kind="ultraviolet lamp")
    before = items(book)["Lamp", "uv_lamp"]
    book.add_service(lamp, "lamp", "")
    assert items(book)["Lamp", "uv_lamp"] == before
    assert before.due <= TODAY


def test_a_removed_unit_needs_nothing_and_one_that_will_be_removed_does(book):
    unit = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2025", removed="2027-02")
    assert ("Lamp", "uv_lamp") in items(book)
    book.change_unit(unit, removed="2026-10")
    assert ("Lamp", "uv_lamp") not in items(book)


def test_the_household_s_own_interval_holds_for_its_unit_alone_and_nought_is_never(book):
    for name in ("Lamp", "Barn lamp"):
        book.add_unit(1, name, kind="ultraviolet lamp", installed="2026-06-01")
    book.set_interval(1, "uv_lamp", 3, unit=1)
    book.set_interval(1, "uv_sleeve", 0, unit=1)
    found = items(book)
    assert found["Lamp", "uv_lamp"].due == date(2026, 9, 1)
    assert found["Barn lamp", "uv_lamp"].due == date(2027, 6, 1)
    assert ("Lamp", "uv_sleeve") not in found
    assert ("Barn lamp", "uv_sleeve") in found
    book.set_interval(1, "check_up", 0)
    assert ("", "check_up") not in items(book)


def test_a_replaced_well_is_not_looked_at_but_what_is_left_of_its_treatment_is(book):
    book.add_well("New", replaces=1)
    book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2020")
    found = upkeep_items(book.record(), UPKEEP, TODAY)
    assert [(item.well.name, item.key) for item in found if item.unit is None] == [
        ("New", "wellhead"),
        ("New", "check_up"),
    ]
    assert any(item.key == "uv_lamp" for item in found)


def test_what_an_inspection_found_bad_comes_first_until_it_is_mended(book):
    book.add_inspection(1, "2026-04-10", [CAP])
    first = upkeep_items(book.record(), UPKEEP, TODAY)[0]
    assert (first.key, first.due, first.overdue_days) == ("cap", date(2026, 4, 10), 232)
    assert "contractor" in first.what
    assert "kill" in first.caution
    assert first.text == "cracked rim"
    book.mend(first.faults[0], "2026-05-01")
    assert ("", "cap") not in items(book)


def test_a_line_that_the_checklist_no_longer_has_stays_on_the_list(book):
    book.add_inspection(1, "2026-04-10", [InspectionAnswer(0, 0, "moat", "bad")])
    assert items(book)["", "moat"].part == "moat"


def test_money_is_added_up_by_year_and_never_across_currencies(book):
    usd, cad = {"currency": "USD"}, {"currency": "CAD"}
    point = book.add_point(1, "Tap")
    book.add_sample(NewSample(point, LocalTime.parse("2026-03-02"), cost="85.50", **usd))
    struck = book.add_sample(NewSample(point, LocalTime.parse("2026-03-02"), cost="85.50", **usd))
    book.strike_sample(struck, "entered twice")
    unit = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2025", cost="640", **usd)
    book.add_service(unit, "lamp", "2026-11", cost="49.90", **usd)
    book.add_event(1, "repair", "2026-05-01", cost="200", **cad)
    book.add_expense(1, "bottled water", "2026-01", cost="0.10", **usd)
    book.add_expense(1, "bottled water", "2027-01", cost="9", **usd)
    book.add_unit(1, "Old", cost="10", **usd)
    found = [(one.year, one.currency, one.total, one.n) for one in by_year(book.record(), TODAY)]
    assert found == [
        (2026, "CAD", Decimal(200), 1),
        (2026, "USD", Decimal("135.50"), 3),
        (2025, "USD", Decimal(640), 1),
        (None, "USD", Decimal(10), 1),
    ]
    assert by_year(book.record(), TODAY)[1].parts == {
        PaidFor.TESTS: Decimal("85.50"),
        PaidFor.SERVICES: Decimal("49.90"),
        PaidFor.OTHER: Decimal("0.10"),
    }


def measured(book, point, day, text, parameter="pfoa", unit="ng/L"):
    results = (NewResult(parameter, parameter.upper(), read_reading(text, unit=unit)),)
    book.add_sample(NewSample(point, LocalTime.parse(day), results=results))


def test_what_is_found_between_two_carbon_tanks_makes_the_exchange_of_the_first_due(book):
    """Moving tanks up by a sample between them: Columbia University and NJDEP, on arsenic."""
    for place, name in ((1, "Raw"), (3, "Between"), (5, "Kitchen")):
        book.add_point(1, name, treated=place > 1, place=place)
    for place, name in ((2, "First"), (4, "Second")):
        unit = book.add_unit(
            1, name, kind="carbon filter", place=place, installed="2026-03-01", target="pfoa"
        )
        book.add_service(unit, "media", "2026-03-01")
    measured(book, 1, "2026-06-01", "40")
    measured(book, 2, "2026-06-01", "<2")
    assert items(book)["First", "carbon_media"].due == date(2027, 3, 1)
    measured(book, 2, "2026-09-01", "3")
    found = items(book)
    assert found["First", "carbon_media"].due == date(2026, 9, 1)
    assert found["First", "carbon_media"].overdue_days == 88
    assert found["First", "carbon_media"].is_at_once
    assert "PFOA was found right behind it, at Between" in found["First", "carbon_media"].what
    assert "on 1 September 2026: 3 ng/L." in found["First", "carbon_media"].what
    assert words.standing(found["First", "carbon_media"], TODAY) == (
        "due at once, since 1 Sep 2026"
    ), "no interval asked for it"
    assert found["Second", "carbon_media"].due == date(2027, 3, 1), "nothing came through that one"
    book.add_service(1, "media", "2026-09-20")
    assert items(book)["First", "carbon_media"].due == date(2027, 9, 20)


def test_arsenic_between_two_tanks_makes_the_exchange_due_above_5_micrograms(book):
    """Columbia University with NJDEP: over 5 µg/L at the port between, the first tank goes out."""
    for place, name in ((1, "Raw"), (3, "Between"), (5, "Kitchen")):
        book.add_point(1, name, treated=place > 1, place=place)
    for place, name in ((2, "First"), (4, "Second")):
        book.add_unit(1, name, kind="arsenic filter", place=place, installed="2026-03-01")
    measured(book, 2, "2026-06-01", "0.004", "arsenic", "mg/L")
    assert items(book)["First", "arsenic_media"].due == date(2027, 3, 1)
    measured(book, 2, "2026-09-01", "6.2", "arsenic", "µg/L")
    found = items(book)
    assert found["First", "arsenic_media"].due == date(2026, 9, 1)
    assert found["Second", "arsenic_media"].due == date(2027, 3, 1)


def test_what_is_wanted_at_once_comes_before_what_has_long_been_due(book):
    lamp = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2020")
    book.add_service(lamp, "failed", "2026-11-20")
    first = upkeep_items(book.record(), UPKEEP, TODAY)[0]
    assert first.key == "uv_pipes"
    assert words.head(first, TODAY) == "Lamp, pipes behind it: due at once, since 20 Nov 2026."


def test_a_softener_is_asked_for_a_resin_cleaner_while_the_raw_water_has_iron(book):
    """Dealers' texts on softener care; over about 0.3 mg/L: from memory."""
    for place, name in ((1, "Raw"), (3, "Kitchen")):
        book.add_point(1, name, treated=place > 1, place=place)
    book.add_unit(1, "Softener", kind="ion exchange softener", place=2, installed="2026-01-10")
    asked = ("Softener", "softener_cleaner")
    assert asked not in items(book)
    measured(book, 2, "2026-02-01", "0.9", "iron", "mg/L")
    assert asked not in items(book), "that is the water behind it"
    measured(book, 1, "2026-02-01", "0.9", "iron", "mg/L")
    assert items(book)[asked].due == date(2026, 7, 10)
    book.add_service(1, "cleaned", "2026-08-01")
    assert items(book)[asked].due == date(2026, 7, 10), "the brine tank was cleaned"
    book.add_service(1, "resin cleaned", "2026-08-02")
    assert items(book)[asked].due == date(2027, 2, 2)
    measured(book, 1, "2026-10-01", "120", "iron", "µg/L")
    assert asked not in items(book)
    barn = book.add_point(1, "Barn", place=5)  # raw as well, and told after the treated tap
    measured(book, barn, "2026-10-02", "0.9", "iron", "mg/L")
    assert asked in items(book)


@pytest.mark.parametrize(
    ("kind", "target", "task", "usual"),
    [
        ("carbon tank", "radon_222", "carbon_radon_tank", "carbon_tank"),
        ("carbon filter", "radon_222", "carbon_radon", "carbon_cartridge"),
        ("anion exchange", "uranium", "anion_uranium", "anion_resin"),
        ("ion exchange softener", "radium_226 radium_228", "softener_radium", ""),
    ],
)
def test_a_unit_against_what_gathers_in_it_has_a_task_of_its_own(book, kind, target, task, usual):
    """EPA, Radionuclides in Private Wells (NEPIS P1006AAC); Wisconsin DNR on radium."""
    book.add_unit(1, "Plain", kind=kind, installed="2026-01-01")
    book.add_unit(1, "Against", kind=kind, installed="2026-01-01", target=target)
    found = items(book)
    assert ("Against", task) in found
    assert ("Plain", task) not in found
    assert ("Against", usual) not in found
    assert not usual or ("Plain", usual) in found
    assert found["Against", task].due <= date(2027, 1, 1)


def test_a_lamp_is_due_by_the_hours_of_its_counter_and_says_so(book):
    """About 9,000 hours: EPA-430/9-74-007 and a service firm's text of 2018."""
    lamp = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2025-11-01")
    book.set_interval(1, "uv_lamp", 24, unit=lamp, use="9000 h")
    book.add_service(lamp, "lamp", "2025-11-01", meter="200 h")
    book.add_service(lamp, "meter", "2026-11-01", meter="8960 h")
    item = items(book)["Lamp", "uv_lamp"]
    assert item.due == date(2026, 11, 11)
    assert words.head(item, TODAY) == "Lamp, lamp: used up since about 11 Nov 2026."
    assert "By its meter 8760 of 9000 h were used on 1 Nov 2026" in words.advice(item)
    assert words.standing(item, date(2026, 11, 5)) == "used up about 11 Nov 2026"


def test_what_is_due_today_is_due_and_a_known_day_comes_before_none(book):
    book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2025-11-28")
    keys = [item.key for item in upkeep_items(book.record(), UPKEEP, TODAY)]
    assert keys.index("uv_lamp") < keys.index("wellhead")


def test_the_costs_of_a_year_are_a_line_with_their_parts(book):
    for day, cost in (("2026-01", "4.50"), ("2026-03", "2.00"), ("2025", "9")):
        book.add_expense(1, "salt", day, cost=cost, currency="USD")
    assert words.cost_lines(by_year(book.record(), TODAY)) == (
        "2026: 6.50 USD (2 figures: other costs 6.50)",
        "2025: 9 USD (1 figure: other costs 9)",
    )


def test_the_currency_of_the_latest_sum_is_the_usual_one_unless_one_was_chosen(book):
    before = usual_currency(book.record())
    for day, code in (("2024", "CAD"), ("2026-01", "EUR"), ("2025", "NZD")):
        book.add_expense(1, "salt", day, cost="9", currency=code)
    book.add_event(1, "repair", "2026-06-01")  # a day without a sum
    assert (before, usual_currency(book.record())) == ("", "EUR")
    book.set_setting("currency", "GBP")
    assert usual_currency(book.record()) == "GBP"


@pytest.mark.parametrize(
    ("typed", "kept"), [("", ""), ("  ", ""), ("1000 gal", "1000 gal"), (" 40 L ", "40 L")]
)
def test_an_amount_is_a_figure_with_its_measure(typed, kept):
    assert read_amount(typed) == kept


@pytest.mark.parametrize("typed", ["1000", "gal", "1,000 gal", "ten gal", "-5 gal"])
def test_what_is_no_amount_is_told_with_what_helps(typed):
    with pytest.raises(Fault, match="such as 1000 gal"):
        read_amount(typed)


@pytest.mark.parametrize(
    ("of", "a_day", "months", "measured", "said"),
    [
        ("1000 gal", "", 0, "", "never, does not go with that"),
        ("1000 gal", "", 6, "hours", "tell how long it lasts; here the measures are: h\\."),
        ("", "10 gal", 6, "", "Say what it lasts for"),
        ("1000 gal", "2 h", 6, "", "can’t be compared"),
        ("0 gal", "", 6, "", "Nothing lasts for"),
    ],
)
def test_a_use_that_makes_no_sense_is_told(of, a_day, months, measured, said):
    with pytest.raises(Fault, match=said):
        read_use(of, a_day, months, measured)


@pytest.mark.parametrize(
    ("of", "a_day", "months", "measured"),
    [("1000 gal", "10 L", 6, "volume"), ("", "", 0, ""), ("9000 h", "24 h", 1, "hours")],
)
def test_a_use_that_makes_sense_is_kept_as_it_was_typed(of, a_day, months, measured):
    assert read_use(of, a_day, months, measured) == {"use": of, "a_day": a_day}


def test_a_unit_behind_a_removed_one_is_still_asked_for(book):
    book.add_unit(1, "Old lamp", kind="ultraviolet lamp", place=1, removed="2026-11-28")
    book.add_unit(1, "Lamp", kind="ultraviolet lamp", place=2, installed="2020")
    found = items(book)
    assert ("Lamp", "uv_lamp") in found
    assert not any(unit == "Old lamp" for unit, _key in found), "removed today"
    assert ("Old lamp", "uv_lamp") in items(book, date(2026, 11, 27))


def test_a_fault_is_named_by_its_part_and_a_unit_s_need_by_the_unit_too(book):
    book.add_inspection(1, "2026-04-10", [CAP])
    book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2026-11-01")
    found = items(book)
    assert words.place(found["", "cap"]) == found["", "cap"].part
    assert words.head(found["", "cap"], TODAY) == (
        f"{found['', 'cap'].part}: found bad on 10 Apr 2026, not mended yet."
    )
    assert words.head(found["Lamp", "uv_lamp"], TODAY) == "Lamp, lamp: next on 1 Nov 2027."


def test_a_line_is_put_right_on_a_day_on_which_it_was_bad_already(book):
    for day in ("2026-04-10", "2026-06-10"):
        book.add_inspection(1, day, [CAP])
    (well,) = book.record().wells
    seen = unmended(book.record(), well)["cap"]
    assert mended_by(seen, "2026-04-10") == [1]
    assert mended_by(seen, "2026-06-10") == [1, 2]
    with pytest.raises(Fault, match="found bad on 2026-04-10"):
        mended_by(seen, "2026-04-09")


def test_the_usual_currency_was_chosen_or_used_last_or_is_that_of_the_place(book):
    assert usual_currency(book.record()) == ""
    book.set_setting("country", "AU")
    assert usual_currency(book.record()) == "AUD"  # ISO 4217
    book.add_expense(1, "salt", "2026-01-02", cost="5", currency="CAD")
    book.add_event(1, "repair", "2026-03-01", cost="9", currency="USD")
    book.add_event(1, "repair", "2026-04-01")  # no cost was entered
    assert usual_currency(book.record()) == "USD"
    book.set_setting("currency", "EUR")
    assert usual_currency(book.record()) == "EUR"


def test_water_with_iron_asks_for_a_resin_cleaner_only_by_a_result_that_counts(book):
    for place, name in ((1, "Raw"), (3, "Kitchen")):
        book.add_point(1, name, treated=place > 1, place=place)
    book.add_unit(1, "Softener", kind="ion exchange softener", place=2, installed="2026-01-10")
    asked = ("Softener", "softener_cleaner")
    reading = replace(read_reading("0.9", unit="mg/L"), flags=frozenset({Flag.REJECTED}))
    results = (NewResult("iron", "Iron", reading),)
    book.add_sample(NewSample(1, LocalTime.parse("2026-02-01"), results=results))
    assert asked not in items(book)
    measured(book, 1, "2026-01-20", "0.9", "iron", "mg/L")
    assert asked in items(book), "the rejected result is not the latest"


def test_what_came_through_before_the_media_were_new_or_lies_ahead_asks_for_nothing(book):
    for place, name in ((1, "Raw"), (3, "Kitchen"), (5, "Bath")):
        book.add_point(1, name, treated=place > 1, place=place)
    unit = book.add_unit(1, "Tank", kind="carbon filter", place=2, target="pfoa")
    measured(book, 2, "2026-03-01", "40")
    measured(book, 2, "2026-12-01", "40")
    book.add_service(unit, "media", "2026-03-01")
    assert not items(book)["Tank", "carbon_media"].is_at_once, "that day it was still the old one"
    measured(book, 3, "2026-05-01", "40")
    assert not items(book)["Tank", "carbon_media"].is_at_once, "only the first tap behind tells"
    for day in ("2026-05-03", "2026-05-02"):
        measured(book, 2, day, "40")
    found = items(book)["Tank", "carbon_media"]
    assert (found.is_at_once, found.due, found.overdue_days) == (True, date(2026, 5, 2), 210)
    assert items(book, date(2026, 12, 1))["Tank", "carbon_media"].due == date(2026, 5, 2)


def test_what_came_through_is_due_since_it_was_found_unless_it_was_due_before(book):
    for place, name in ((1, "Raw"), (3, "Kitchen")):
        book.add_point(1, name, treated=place > 1, place=place)
    more = {"kind": "arsenic filter", "place": 2, "target": "arsenic"}
    undated = book.add_unit(1, "Undated", **more)
    book.add_unit(1, "Old", installed="2024-03-01", **more)
    measured(book, 2, "2026-09-01", "6.2", "arsenic", "µg/L")
    found = items(book)
    assert not book.services(undated)
    assert found["Undated", "arsenic_media"].due == date(2026, 9, 1)
    assert found["Undated", "arsenic_media"].is_dated
    assert found["Old", "arsenic_media"].due == date(2025, 3, 1)


def test_who_does_it_is_said_where_that_is_known(book):
    book.add_inspection(1, "2026-04-10", [CAP, InspectionAnswer(0, 0, "moat", "bad")])
    found = items(book)
    said = words.advice(found["", "cap"])
    assert f" Who does it: {found['', 'cap'].who}. " in said
    assert said.startswith(found["", "cap"].what)
    assert said.endswith(found["", "cap"].caution)
    assert words.advice(found["", "moat"]) == "", "nothing is known of such a line"


def test_a_fault_of_a_day_that_can_t_be_read_is_not_mended_yet_all_the_same(book):
    book.add_inspection(1, "2026-77", [CAP])
    fault = items(book)["", "cap"]
    assert (fault.is_dated, fault.due) == (False, date(2026, 1, 2))
    assert words.standing(fault, TODAY) == "found bad, not mended yet"


def test_what_was_seen_is_said_in_words_and_what_nobody_knows_as_it_stands():
    assert [words.answer(one) for one in ("good", "bad", "not seen", "odd")] == [
        "good",
        "bad",
        "not seen",
        "odd",
    ]
