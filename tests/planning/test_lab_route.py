"""The lab's days and hours and the way to it, as a household keeps them.

Holidays: 5 USC 6103 (Labor Day is the first Monday of September); Patriots' Day is the third
Monday of April in Massachusetts (Mass. Gen. Laws chapter 4 section 7, from memory).
"""

from dataclasses import asdict, replace
from datetime import date, time, timedelta
from zoneinfo import available_timezones

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.book import Book
from wellbook.planning.lab.lab_route import (
    CAR,
    RoundHabits,
    calendar_of,
    changed,
    checked,
    holidays_of,
    read_habits,
    states_of,
    to_keep,
    written,
)
from wellbook.support.errors import Fault
from wellbook.water.sampling.shipping import Drive, Parcel

TODAY = date(2026, 6, 10)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        yield made


def keep(book, habits):
    book.set_settings(to_keep(read_habits(book.record().settings), habits))


def test_a_new_book_has_the_usual_habits(book):
    assert read_habits(book.record().settings) == RoundHabits()


def test_a_household_that_said_nothing_sends_a_parcel_overnight_to_a_usual_lab():
    """All of it is common practice, no source."""
    usual = {key: written(value) for key, value in asdict(RoundHabits()).items()}
    of_lab = {key.removeprefix("lab_"): usual[key] for key in usual if key.startswith("lab_")}
    assert of_lab == {
        "zone": "America/New_York",
        "takes_on": "0 1 2 3",  # Monday to Thursday
        "open_on": "0 1 2 3 4",
        "opens": "08:00",
        "cut_off": "13:00",
        "starts": "15:00",
        "closures": "",
    }
    assert {key: usual[key] for key in usual if key not in {f"lab_{one}" for one in of_lab}} == {
        "lab": "",
        "hold_hours": "30",
        "home_zone": "America/New_York",
        "way": "parcel",
        "pickup": "17:00",
        "delivered": "10:30",
        "transit_days": "1",
        "drive_minutes": "60",
        "earliest": "06:00",
        "latest": "20:00",
        "rises": "06:30",
        "lead_days": "7",
        "country": "US",
        "subdivision": "",
        "sampler": "",
    }


def test_habits_are_kept_and_read_back(book):
    own = RoundHabits(
        lab="Hollin Ridge Analytical",
        lab_zone="America/Denver",
        lab_takes_on=frozenset({0, 1, 2}),
        lab_cut_off=time(14, 30),
        lab_closures="2026-07-03 2026-12-24..2027-01-01",
        hold_hours=24,
        way=CAR,
        drive_minutes=95,
        country="US",
        subdivision="MA",
        sampler="A. Example",
    )
    keep(book, own)
    assert read_habits(book.record().settings) == own


def test_only_what_changed_is_written_and_at_once(book):
    keep(book, replace(RoundHabits(), lead_days=10, pickup=time(16)))
    settings = [e for e in book.journal() if "setting" in e.changes]
    assert sum(entry.changes.count('"setting"') for entry in settings) == 2
    before = len(book.journal())
    keep(book, read_habits(book.record().settings))
    assert len(book.journal()) == before


@pytest.fixture(scope="module")
def kept_on(tmp_path_factory):
    with Book.create(tmp_path_factory.mktemp("book") / "home.wellbook") as book:
        yield book


@settings(max_examples=50)
@given(
    st.builds(
        RoundHabits,
        lab=st.text(max_size=20).map(str.strip),
        lab_takes_on=st.frozensets(st.integers(0, 6)),
        lab_zone=st.sampled_from(sorted(available_timezones())),
        lead_days=st.integers(0, 60),
        hold_hours=st.integers(1, 48),
        transit_days=st.integers(2, 10),  # later than the pickup in every zone
        rises=st.times().map(lambda at: at.replace(second=0, microsecond=0)),
    )
)
def test_any_habits_that_go_together_survive_those_before_them(kept_on, own):
    if "\x00" in own.lab or any("\ud800" <= sign <= "\udfff" for sign in own.lab):
        return
    keep(kept_on, own)
    assert read_habits(kept_on.record().settings) == own


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"lab_cut_off": time(16)}, "before its cut-off"),
        ({"lab_opens": time(14)}, "before it opens"),
        ({"earliest": time(21)}, "before the earliest"),
        ({"way": "pigeon"}, "parcel or car"),
        ({"hold_hours": 0}, "1 to 48"),
        ({"home_zone": "America/Nowhere"}, "America/Nowhere"),
        ({"lab_zone": "../etc/passwd"}, "No time zone"),
        ({"country": "ZZ"}, "ZZ"),
        ({"subdivision": "XX"}, "US XX"),
        ({"lab_closures": "christmas"}, "christmas"),
        ({"lab_closures": "2027-01-01..2026-12-24"}, "ends before it starts"),
        ({"lab_closures": "2027-01-01..2026-12-31"}, "ends before it starts"),
        ({"lab_closures": "2026-01-01..2027-02-06"}, "longer than a year"),  # 401 days on
        ({"transit_days": 99}, "0 to 10"),
        ({"transit_days": 11}, "0 to 10"),
        ({"hold_hours": 49}, "1 to 48"),
        ({"drive_minutes": 1441}, "up to 24 hours"),
        ({"drive_minutes": -1}, "up to 24 hours"),
        ({"lead_days": 61}, "within 60 days"),
    ],
)
def test_habits_that_do_not_go_together_are_refused_with_words(book, change, said):
    with pytest.raises(Fault, match=said):
        keep(book, replace(RoundHabits(), **change))
    assert read_habits(book.record().settings) == RoundHabits()


@pytest.mark.parametrize(
    "change",
    [
        {"lab_opens": time(13), "lab_starts": time(13)},  # opening, cut-off and start in one
        {"earliest": time(9), "latest": time(9)},
        {"hold_hours": 1, "drive_minutes": 0, "lead_days": 0},
        {"transit_days": 0, "delivered": time(17, 15)},
        {"hold_hours": 48, "transit_days": 10, "drive_minutes": 1440, "lead_days": 60},
        {"lab_closures": "2026-12-24..2026-12-24 2026-01-01..2027-02-05"},  # 400 days on
    ],
)
def test_bounds_of_habits_are_allowed(change):
    habits = replace(RoundHabits(), **change)
    assert checked(habits) == habits


def test_habits_are_changed_by_name_from_text():
    changes = {"lab_takes_on": "0 1 2", "lab_cut_off": "12:00", "lead_days": "3"}
    kept = changed(RoundHabits(), changes)
    assert (kept.lab_takes_on, kept.lab_cut_off, kept.lead_days) == ({0, 1, 2}, time(12), 3)


@pytest.mark.parametrize(
    ("name", "text"), [("lab_cut_off", "noon"), ("lead_days", "few"), ("lab_takes_on", "Mon")]
)
def test_text_that_is_no_such_habit_is_refused_with_an_example(name, text):
    with pytest.raises(Fault, match="write it like"):
        changed(RoundHabits(), {name: text})
    with pytest.raises(Fault, match="There is no habit"):
        changed(RoundHabits(), {"lab_dog": "Rex"})


def test_a_setting_that_another_program_spoiled_does_not_close_the_book(book):
    book.set_setting("round_pickup", "teatime")
    book.set_setting("country", "ZZ")
    habits = read_habits(book.record().settings)
    assert habits.pickup == RoundHabits().pickup
    assert holidays_of(habits, TODAY) == frozenset()


def test_holidays_are_those_of_country_and_subdivision():
    country = holidays_of(RoundHabits(), TODAY)
    assert date(2026, 9, 7) in country
    assert date(2026, 4, 20) not in country
    assert date(2026, 4, 20) in holidays_of(RoundHabits(subdivision="MA"), TODAY)
    assert holidays_of(RoundHabits(country=""), TODAY) == frozenset()
    assert date(2026, 10, 3) in holidays_of(RoundHabits(country="DE"), TODAY)


def test_holidays_are_known_as_far_ahead_as_the_longest_plan_looks():
    """Thanksgiving is the fourth Thursday of November (5 U.S.C. 6103)."""
    beyond = date(TODAY.year + 20, 11, 1)  # 240 months
    thanksgiving = beyond + timedelta(days=(3 - beyond.weekday()) % 7 + 21)
    assert not calendar_of(RoundHabits(), TODAY).suits(thanksgiving - timedelta(days=1))
    assert calendar_of(RoundHabits(country=""), TODAY).suits(thanksgiving - timedelta(days=1))


@pytest.mark.parametrize(("days", "zone"), [("0", "America/New_York"), ("1", "Pacific/Honolulu")])
def test_no_parcel_arrives_before_it_is_picked_up(days, zone):
    """In Hawaii 17:00 is 14:00 of the next day in Sydney."""
    early = {"transit_days": days, "delivered": "10:30", "home_zone": zone}
    if days == "1":
        early["lab_zone"] = "Australia/Sydney"
    habits = changed(RoundHabits(country=""), early)
    with pytest.raises(Fault, match="before it is picked up"):
        checked(habits)
    week = TODAY, TODAY + timedelta(days=7)
    assert calendar_of(habits, TODAY).find(*week).best is None  # kept before that was refused
    later = changed(habits, {"delivered": "18:00"})
    best = calendar_of(checked(later), TODAY).find(*week).best
    assert best.hand_in < best.arrival <= best.start


def test_the_labs_own_closures_close_the_lab_and_not_the_courier():
    calendar = calendar_of(RoundHabits(lab_closures="2026-08-10..2026-08-12"), TODAY)
    assert not calendar.lab_hours.takes(date(2026, 8, 11))
    assert not calendar.suits(date(2026, 8, 10))
    assert calendar.suits(date(2026, 8, 12))  # it arrives on Thursday
    assert isinstance(calendar.route, Parcel)
    assert date(2026, 8, 11) not in calendar.route.closed


def test_by_car_some_minutes_are_kept_for_the_road():
    calendar = calendar_of(RoundHabits(way=CAR, drive_minutes=60), TODAY)
    assert calendar.route == Drive(timedelta(minutes=90))
    found = calendar.find(date(2026, 8, 3), date(2026, 8, 3))
    assert found.best.draw.time() == time(11)


def test_a_stricter_lab_is_kept_to():
    strict = calendar_of(RoundHabits(hold_hours=20), TODAY)
    assert strict.find(date(2026, 8, 3), date(2026, 8, 9)).best is None
    assert checked(RoundHabits(hold_hours=24)).hold_hours == 24


# Zones: IANA time zone database, zone.tab. Arizona keeps no summer time, 49 CFR 71 (from memory).
@pytest.mark.parametrize(
    ("country", "state", "zone"),
    [
        ("NZ", "", "Pacific/Auckland"),
        ("DE", "BY", "Europe/Berlin"),
        ("PT", "", "Europe/Lisbon"),
        ("US", "AZ", "America/Phoenix"),
        ("US", "OH", "America/New_York"),
        ("CA", "NB", "America/Halifax"),
        ("AU", "WA", "Australia/Perth"),
        ("", "", "America/New_York"),
    ],
)
def test_a_household_that_wrote_down_no_time_zone_has_that_of_its_place(country, state, zone):
    settings = {"country": country, "subdivision": state}
    habits = read_habits(settings)
    assert (habits.home_zone, habits.lab_zone) == (zone, zone)
    moved = read_habits({**settings, "round_home_zone": "America/Denver"})
    assert (moved.home_zone, moved.lab_zone) == ("America/Denver", zone)
    assert to_keep(habits, habits) == {}


def test_parts_of_a_country_are_called_by_their_names():
    # ISO 3166-2.
    assert (states_of("US") or {})["OH"] == "Ohio"
    assert (states_of("CA") or {})["NB"] == "New Brunswick"
    assert (states_of("NZ") or {})["CAN"] == "Canterbury"
    assert states_of("MX") == {}
    assert states_of("ZZ") is None
