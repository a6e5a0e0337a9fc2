"""Hand-worked journeys from the tap to the start of the bacteria test.

Thirty hours: EPA's answer on 40 CFR 141.21(f)(3). Clock changes of 2026 in the United States: 8
March and 1 November (Energy Policy Act of 2005). Labor Day 2026: Monday, 7 September; Thanksgiving:
Thursday, 26 November (5 USC 6103). Hours of pickup, delivery and cut-off: common practice, no
source. Every age was worked out by hand, from the clock times and the hours between the zones.
"""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from wellbook.water.sampling.shipping import Drive, Hours, LabHours, Parcel, find, journey
from wellbook.water.verdicts.hold_time import LIMIT

EAST, DENVER, COAST, ARIZONA = (
    ZoneInfo(f"America/{name}") for name in ("New_York", "Denver", "Los_Angeles", "Phoenix")
)
LABOR_DAY, THANKSGIVING = date(2026, 9, 7), date(2026, 11, 26)
SUNDAY = date(2026, 11, 29)
EVERY_DAY = frozenset(range(7))
TO_SATURDAY = frozenset(range(6))


def desk(**more):
    usual = {"zone": EAST, "cut_off": time(13), "starts": time(15)}
    return LabHours(**(usual | more))


def parcel(**more):
    usual = {"zone": EAST, "pickup": time(17), "delivered": time(10, 30)}
    return Parcel(**(usual | more))


SUNDAY_LAB = desk(cut_off=time(14), starts=time(21), takes_on=EVERY_DAY)
SUNDAY_PARCEL = parcel(delivered=time(12), serves_on=EVERY_DAY)

CASES = {
    "drawn in the afternoon, shipped overnight": (
        "2026-11-30T15:00", EAST, parcel(), desk(), "2026-12-01T15:00", 24,
    ),
    "drawn before breakfast, shipped overnight: too old": (
        "2026-11-30T07:00", EAST, parcel(), desk(), "2026-12-01T15:00", 32,
    ),
    "exactly thirty hours are allowed": (
        "2026-11-30T09:00", EAST, parcel(), desk(), "2026-12-01T15:00", 30,
    ),
    "the parcel missed by a quarter of an hour: it would spend the night at home": (
        "2026-11-30T16:45", EAST, parcel(), desk(), None, None,
    ),
    "delivered after the cut-off": (
        "2026-11-30T16:30", EAST, parcel(delivered=time(14)), desk(), "2026-12-02T15:00", 46.5,
    ),
    "the night in which clocks go forward": (
        "2026-03-07T15:00", EAST, SUNDAY_PARCEL, SUNDAY_LAB, "2026-03-08T21:00", 29,
    ),
    "the night in which clocks go back": (
        "2026-10-31T15:00", EAST, SUNDAY_PARCEL, SUNDAY_LAB, "2026-11-01T21:00", 31,
    ),
    "clocks go back, drawn an hour later": (
        "2026-10-31T16:00", EAST, SUNDAY_PARCEL, SUNDAY_LAB, "2026-11-01T21:00", 30,
    ),
    "on a Friday: the lab takes bacteria again on Monday": (
        "2026-11-13T16:30", EAST, parcel(), desk(), "2026-11-16T15:00", 70.5,
    ),
    "on a Friday before Labor Day": (
        "2026-09-04T16:30", EAST, parcel(closed=frozenset({LABOR_DAY})),
        desk(closed=frozenset({LABOR_DAY})), "2026-09-08T15:00", 94.5,
    ),
    "on Labor Day itself nobody picks it up": (
        "2026-09-07T16:30", EAST, parcel(closed=frozenset({LABOR_DAY})),
        desk(closed=frozenset({LABOR_DAY})), None, None,
    ),
    "on the Tuesday after Labor Day": (
        "2026-09-08T16:30", EAST, parcel(closed=frozenset({LABOR_DAY})),
        desk(closed=frozenset({LABOR_DAY})), "2026-09-09T15:00", 22.5,
    ),
    "two days before Thanksgiving: it would be read on the holiday": (
        "2026-11-24T16:30", EAST, parcel(closed=frozenset({THANKSGIVING})),
        desk(closed=frozenset({THANKSGIVING})), "2026-11-30T15:00", 142.5,
    ),
    "to a lab that works on Saturday": (
        "2026-11-13T16:30", EAST, parcel(serves_on=TO_SATURDAY), desk(takes_on=TO_SATURDAY),
        "2026-11-14T15:00", 22.5,
    ),
    "to a lab that works on Saturday, by a courier that doesn't": (
        "2026-11-13T16:30", EAST, parcel(), desk(takes_on=TO_SATURDAY), "2026-11-16T15:00", 70.5,
    ),
    "to a lab two zones west": (
        "2026-11-30T15:00", EAST, parcel(), desk(zone=DENVER), "2026-12-01T15:00", 26,
    ),
    "to a lab three zones east": (
        "2026-11-30T16:30", COAST, parcel(zone=COAST), desk(), "2026-12-01T15:00", 19.5,
    ),
    "from Arizona, which keeps its clocks, in the night in which Denver's go forward": (
        "2026-03-07T15:00", ARIZONA, parcel(zone=ARIZONA, delivered=time(12), serves_on=EVERY_DAY),
        desk(zone=DENVER, cut_off=time(14), starts=time(21), takes_on=EVERY_DAY),
        "2026-03-08T21:00", 29,
    ),
    "by car before the cut-off": (
        "2026-12-03T10:30", EAST, Drive(timedelta(hours=2)), desk(), "2026-12-03T15:00", 4.5,
    ),
    "by car a minute after the cut-off": (
        "2026-12-02T10:31", EAST, Drive(timedelta(hours=2)), desk(), None, None,
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_hand_worked_journey(case):
    draw, home, route, lab, start, hours = case
    drawn = datetime.fromisoformat(draw).replace(tzinfo=home)
    way = journey(drawn, Hours(home), route, lab)
    if start is None:
        assert way is None
        return
    assert way.start == datetime.fromisoformat(start).replace(tzinfo=lab.zone)
    assert way.age == timedelta(minutes=round(hours * 60))


def test_whoever_is_early_waits_for_the_door_to_open():
    day = datetime(2026, 12, 3, 6, tzinfo=EAST)
    way = journey(day, Hours(EAST), Drive(timedelta(minutes=20)), desk())
    assert way.arrival == datetime(2026, 12, 3, 8, tzinfo=EAST)


def test_nobody_takes_in_a_bottle_on_a_closed_day_or_a_sunday():
    lab = desk(closed=frozenset({THANKSGIVING}))
    for day, is_open in ((THANKSGIVING, False), (date(2026, 11, 27), True), (SUNDAY, False)):
        assert lab.is_open(day) is is_open
        ready = datetime(day.year, day.month, day.day, 9, tzinfo=EAST)
        there = Drive(timedelta(hours=1)).arrival(ready, lab)
        assert (there is not None) is is_open
    assert desk(takes_on=TO_SATURDAY).is_open(date(2026, 11, 28))


@pytest.mark.parametrize(
    ("first", "last", "expected"),
    [
        (date(2026, 9, 4), date(2026, 9, 12), date(2026, 9, 8)),  # Labor Day on Monday
        (date(2026, 11, 24), date(2026, 12, 4), date(2026, 11, 30)),  # Thanksgiving
        (date(2026, 11, 12), date(2026, 11, 20), date(2026, 11, 16)),  # Thursday to Sunday are out
        (date(2026, 3, 6), date(2026, 3, 12), date(2026, 3, 9)),
        (date(2026, 10, 30), date(2026, 11, 5), date(2026, 11, 2)),
    ],
)
def test_the_search_takes_the_first_day_that_a_hand_finds(first, last, expected):
    closed = frozenset({LABOR_DAY, THANKSGIVING})
    found = find(first, last, Hours(EAST), parcel(closed=closed), desk(closed=closed), LIMIT)
    assert found.best.draw.date() == expected
