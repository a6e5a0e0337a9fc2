"""The search for a sampling day, against a clock that is walked a quarter of an hour at a time.

Thirty hours from draw to the start of the test: EPA's answer on 40 CFR 141.21(f)(3). Clock changes
of 2026 in the United States: second Sunday of March and first of November (Energy Policy Act of
2005). Pickup, delivery and cut-off hours are common practice, no source.
"""

from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.water.sampling.shipping import (
    LIMIT,
    ROAD_RESERVE,
    Drive,
    Hours,
    LabHours,
    Parcel,
    find,
    journey,
)
from wellbook.wording.sampling_day import say

EASTERN = ZoneInfo("America/New_York")
EVERY_DAY = frozenset(range(7))
HOME = Hours(EASTERN)
LAB = LabHours(EASTERN, cut_off=time(13), starts=time(15))
OVERNIGHT = Parcel(EASTERN, pickup=time(17), delivered=time(10, 30))
QUARTER = timedelta(minutes=15)


def at(day, hour, minute=0, zone=EASTERN):
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=zone)


def hours_of(span):
    return span / timedelta(hours=1)


def test_a_sample_shipped_in_the_afternoon_is_a_day_old_when_its_test_starts():
    monday = date(2026, 11, 30)
    way = journey(at(monday, 15), HOME, OVERNIGHT, LAB)
    assert way.arrival == at(date(2026, 12, 1), 10, 30)
    assert hours_of(way.age) == 24


def test_a_morning_draw_that_is_shipped_is_too_old():
    way = journey(at(date(2026, 11, 30), 7), HOME, OVERNIGHT, LAB)
    assert hours_of(way.age) == 32
    assert way.age > LIMIT


def test_shipping_asks_for_the_latest_draw_that_still_meets_the_pickup():
    found = find(date(2026, 11, 30), date(2026, 12, 4), HOME, OVERNIGHT, LAB)
    assert found.best.draw == at(date(2026, 11, 30), 16, 30)
    assert hours_of(found.slack) == 7.5


def test_driving_needs_no_courier_and_ends_at_the_cut_off():
    found = find(date(2026, 11, 30), date(2026, 12, 4), HOME, Drive(timedelta(minutes=90)), LAB)
    assert found.best.draw == at(date(2026, 11, 30), 11)
    assert found.best.arrival == at(date(2026, 11, 30), 13)
    assert hours_of(found.best.age) == 4


def test_a_lab_that_takes_bacteria_to_thursday_gets_no_parcel_drawn_from_thursday_on():
    thursday, sunday = date(2026, 12, 3), date(2026, 12, 6)
    found = find(thursday, sunday, HOME, OVERNIGHT, LAB)
    assert found.best is None
    assert found.slack < timedelta()


def test_the_day_before_a_holiday_is_taken_neither_by_the_lab_nor_by_the_search():
    thanksgiving = date(2026, 11, 26)
    desk = LabHours(EASTERN, time(13), time(15), closed=frozenset({thanksgiving}))
    assert not desk.takes(thanksgiving)
    assert not desk.takes(date(2026, 11, 25))  # its test would be read on the holiday
    courier = Parcel(EASTERN, time(17), time(10, 30), closed=frozenset({thanksgiving}))
    found = find(date(2026, 11, 24), date(2026, 12, 1), HOME, courier, desk)
    assert found.best.draw.date() == date(2026, 11, 30)


@pytest.mark.parametrize(
    ("saturday", "hours"),
    [
        (date(2026, 3, 7), 29),  # clocks go forward in the night
        (date(2026, 3, 14), 30),
        (date(2026, 10, 31), 31),  # clocks go back
    ],
)
def test_age_is_time_that_passes_and_not_time_on_the_wall(saturday, hours):
    desk = LabHours(EASTERN, time(14), time(21), takes_on=EVERY_DAY)
    courier = Parcel(EASTERN, time(17), time(12), serves_on=EVERY_DAY)
    way = journey(at(saturday, 15), HOME, courier, desk)
    assert way.start == at(saturday + timedelta(days=1), 21)
    assert hours_of(way.age) == hours


def test_a_lab_in_another_zone_starts_by_its_own_clock():
    desk = LabHours(ZoneInfo("America/Denver"), time(13), time(15))
    way = journey(at(date(2026, 11, 30), 15), HOME, OVERNIGHT, desk)
    assert hours_of(way.age) == 26


def test_a_stricter_lab_leaves_less_slack():
    day = date(2026, 11, 30)
    lax = find(day, day, HOME, OVERNIGHT, LAB)
    strict = find(day, day, HOME, OVERNIGHT, LAB, limit=timedelta(hours=24))
    assert lax.slack - strict.slack == timedelta(hours=6)


def test_the_answer_names_day_hour_age_and_slack():
    days = (date(2026, 11, 30), date(2026, 12, 4))
    text = say(find(*days, HOME, OVERNIGHT, LAB), *days, HOME, LAB)
    assert text == (
        "Draw the sample on Monday, 30 November, at 16:30. The lab starts the test by Tuesday, "
        "1 December, at 15:00, 22 h 30 min after the draw; 7 h 30 min are to spare."
    )


def test_where_no_day_works_the_answer_says_what_would():
    slow = Parcel(EASTERN, time(17), time(10, 30), days=2)
    days = (date(2026, 11, 30), date(2026, 12, 1))
    text = say(find(*days, HOME, slow, LAB), *days, HOME, LAB)
    assert "16 h 30 min shorter" in text
    assert "By car it would work if the drive takes no more than 6 h:" in text
    # Which is true: at the longest drive named it works, with a quarter more it does not.
    longest = timedelta(hours=6) + ROAD_RESERVE  # which is kept of every drive
    assert find(*days, HOME, Drive(longest), LAB).best.draw == at(days[0], 6)
    later = find(days[0], days[0], HOME, Drive(longest + QUARTER), LAB)
    assert later.best is None or later.best.draw.date() != later.best.start.date()


def test_without_a_day_on_which_the_lab_takes_bacteria_the_answer_says_so():
    never = LabHours(EASTERN, time(13), time(15), takes_on=frozenset())
    days = (date(2026, 11, 30), date(2026, 12, 1))
    found = find(*days, HOME, OVERNIGHT, never)
    assert (found.best, found.nearest, found.slack) == (None, None, None)
    assert "Ask the lab for its days" in say(found, *days, HOME, never)


def walked(draw, hours, parcel, desk):
    """The age of a sample by walking the clock; None if its test never starts."""
    clock = draw.astimezone(UTC)
    ready, picked, arrived = clock + hours.packing, None, None
    for now in islice(iter_quarters(clock), 96 * 16):
        home, lab = now.astimezone(parcel.zone), now.astimezone(desk.zone)
        if picked is None:
            served = home.weekday() in parcel.serves_on and home.date() not in parcel.closed
            if home.date() > draw.date():
                return None  # it would spend the night at home
            if now >= ready and served and home.time() == parcel.pickup:
                picked, due = home.date(), nth_service(home.date(), parcel)
        if picked and arrived is None and (lab.date(), lab.time()) == (due, parcel.delivered):
            arrived = lab
        if arrived and lab.time() == desk.starts and desk.takes(lab.date()):
            in_time = arrived.date() < lab.date() or arrived.time() <= desk.cut_off
            if in_time:
                return now - clock
    return None


def iter_quarters(clock):
    while True:
        yield clock
        clock += QUARTER


def nth_service(day, parcel):
    left = parcel.days
    while left:
        day += timedelta(days=1)
        left -= day.weekday() in parcel.serves_on and day not in parcel.closed
    return day


quarters = st.integers(0, 3)
zones = st.sampled_from(["America/New_York", "America/Phoenix", "Europe/Berlin"]).map(ZoneInfo)
weekdays = st.sets(st.integers(0, 6), min_size=2).map(frozenset)
# The weeks of both clock changes on either side of the Atlantic are in reach.
firsts = st.sampled_from(
    [date(2026, 3, 5), date(2026, 3, 26), date(2026, 10, 22), date(2026, 10, 29)]
)


@st.composite
def plans(draw):
    first = draw(firsts)
    closed = draw(st.sets(st.integers(0, 9), max_size=3))
    shut = frozenset(first + timedelta(days=step) for step in closed)
    home, lab = draw(zones), draw(zones)
    cut_off = time(draw(st.integers(9, 16)), 15 * draw(quarters))
    desk = LabHours(lab, cut_off, time(draw(st.integers(17, 20))), draw(weekdays), shut)
    pickup = time(draw(st.integers(8, 19)), 15 * draw(quarters))
    delivered = time(draw(st.integers(8, 18)), 15 * draw(quarters))
    parcel = Parcel(home, pickup, delivered, draw(st.integers(1, 2)), draw(weekdays), shut)
    return first, Hours(home, time(6), time(20)), parcel, desk


@settings(max_examples=40, deadline=None)
@given(plans(), st.integers(24, 72).map(lambda n: timedelta(hours=n)))
def test_the_search_agrees_with_walking_the_clock(plan, limit):
    first, hours, parcel, desk = plan
    last = first + timedelta(days=1)
    found = find(first, last, hours, parcel, desk, limit)
    by_day = []
    for day in (first, last):
        ages = {draw: walked(draw, hours, parcel, desk) for draw in hours.draws(day)}
        by_day.append({draw: age for draw, age in ages.items() if age is not None})
    works = [ages for ages in by_day if ages and min(ages.values()) <= limit]
    if works:
        assert found.best.age == works[0][found.best.draw] == min(works[0].values())
        assert found.slack == limit - found.best.age
    else:
        assert found.best is None
        every = [age for ages in by_day for age in ages.values()]
        assert (found.nearest.age if found.nearest else None) == min(every, default=None)
    assert say(found, first, last, hours, desk, limit).endswith(".")


@pytest.mark.parametrize("keeps", [timedelta(hours=48), timedelta(days=180)])
def test_however_long_a_sample_keeps_nothing_is_shipped_into_a_weekend(keeps):
    friday = date(2026, 12, 4)
    assert find(friday, friday, HOME, OVERNIGHT, LAB, keeps).best is None
    found = find(friday, date(2026, 12, 9), HOME, OVERNIGHT, LAB, keeps)
    assert found.best.draw.date() == date(2026, 12, 7)
    assert found.best.arrival.date() == date(2026, 12, 8)


def test_two_days_of_service_are_not_shipped_into_a_weekend_either():
    slow = Parcel(EASTERN, pickup=time(17), delivered=time(10, 30), days=2)
    found = find(date(2026, 12, 3), date(2026, 12, 9), HOME, slow, LAB, timedelta(days=180))
    assert found.best.draw.date() == date(2026, 12, 7), "Thursday's parcel would lie over Sunday"


def test_nothing_is_shipped_to_a_lab_that_is_closed_on_the_day_it_arrives():
    shut = LabHours(
        EASTERN, cut_off=time(13), starts=time(15), closed=frozenset({date(2026, 12, 8)})
    )
    monday = date(2026, 12, 7)
    assert find(monday, monday, HOME, OVERNIGHT, shut, timedelta(days=180)).best is None
