"""No suggested day breaks a hold time, falls on a closed day or lies outside its window.

The referee walks the clock: every half hour of every day, from the draw over the pickup and the
delivery to the start of the test, by the habits as a person would read them.
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.planning.lab.lab_route import CAR, PARCEL, RoundHabits, calendar_of, holidays_of
from wellbook.support.paths import resources
from wellbook.water.sampling.intervals import panel_due
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.seasons import NORTHERN

CATALOGUE = read_catalogue(resources())
HALF_HOUR = timedelta(minutes=30)
PACKING = timedelta(minutes=30)
ROAD = timedelta(minutes=30)


def age_by_the_clock(draw, habits, closed_lab, holidays):
    """The age of a sample at the start of its test; None if it never starts."""
    if habits.way == CAR:
        there = (draw.astimezone(UTC) + PACKING + ROAD).astimezone(ZoneInfo(habits.lab_zone))
        there += timedelta(minutes=habits.drive_minutes)
        open_days = habits.lab_open_on | habits.lab_takes_on
        if there.date() in closed_lab or there.weekday() not in open_days:
            return None
        if there.time() > habits.lab_cut_off or there.date() != draw.date():
            return None
    else:
        ready = draw.astimezone(UTC) + PACKING
        pickup = datetime.combine(draw.date(), habits.pickup, draw.tzinfo)
        if ready > pickup or not is_served(draw.date(), holidays):
            return None
        day, left = draw.date(), habits.transit_days
        while left:
            day += timedelta(days=1)
            left -= is_served(day, holidays)
        if (day - draw.date()).days > habits.transit_days:
            return None  # it would lie over a day without service
        if day in closed_lab or day.weekday() not in habits.lab_open_on | habits.lab_takes_on:
            return None
        there = datetime.combine(day, habits.delivered, ZoneInfo(habits.lab_zone))
    return start_after(there, habits, closed_lab) - draw.astimezone(UTC)


def is_served(day, holidays):
    return day.weekday() < 5 and day not in holidays


def start_after(there, habits, closed):
    """The lab's next start, half an hour after half an hour."""
    for step in range(48 * 40):
        day = there.date() + timedelta(days=step // 48)
        if step % 48 or (step == 0 and there.time() > habits.lab_cut_off):
            continue
        tomorrow = day + timedelta(days=1)
        if day.weekday() in habits.lab_takes_on and not {day, tomorrow} & closed:
            return datetime.combine(day, habits.lab_starts, there.tzinfo).astimezone(UTC)
    return datetime.max.replace(tzinfo=UTC)


def draws(day, habits):
    at = datetime.combine(day, habits.earliest)
    while at.date() == day and at.time() <= habits.latest:
        yield at.replace(tzinfo=ZoneInfo(habits.home_zone))
        at += HALF_HOUR


def works(day, habits, closed_lab, holidays, limit):
    ages = (age_by_the_clock(draw, habits, closed_lab, holidays) for draw in draws(day, habits))
    return any(age is not None and age <= limit for age in ages)


halves = st.sampled_from([0, 30])
everyone = st.frozensets(st.integers(0, 6), min_size=1)


@st.composite
def habits(draw):
    cut_off = draw(st.integers(10, 16))
    zone = draw(st.sampled_from(["America/New_York", "America/Denver", "America/Phoenix"]))
    return RoundHabits(
        lab_zone=zone if draw(st.booleans()) else "America/New_York",
        home_zone=zone,
        lab_takes_on=draw(everyone),
        lab_open_on=draw(everyone),
        lab_cut_off=time(cut_off, draw(halves)),
        lab_starts=time(draw(st.integers(cut_off + 1, 20))),
        lab_closures=draw(st.sampled_from(["", "2026-03-09..2026-03-11", "2026-11-02"])),
        way=draw(st.sampled_from([PARCEL, CAR])),
        pickup=time(draw(st.integers(9, 19)), draw(halves)),
        delivered=time(draw(st.integers(8, 15)), draw(halves)),
        transit_days=draw(st.integers(1, 2)),
        drive_minutes=draw(st.sampled_from([0, 30, 120, 300])),
        hold_hours=draw(st.integers(18, 48)),
        country=draw(st.sampled_from(["US", ""])),
    )


todays = st.one_of(
    st.dates(date(2026, 1, 1), date(2026, 12, 1)),
    # Clock changes, Memorial Day, Labor Day, Thanksgiving and the turn of the year are in reach.
    st.sampled_from(
        [
            date(2026, 2, 26),
            date(2026, 10, 22),
            date(2026, 5, 18),
            date(2026, 8, 28),
            date(2026, 11, 17),
            date(2026, 12, 18),
        ]
    ),
)


@settings(max_examples=60, deadline=None)
@given(habits(), todays, st.integers(1, 700), st.sampled_from(["bacteria", "nitrate", "arsenic"]))
def test_the_referee_agrees_with_every_suggested_day(own, today, days_ago, key):
    panel = CATALOGUE.panels[key]
    limit = CATALOGUE.hold(panel.core)
    if key == "bacteria":
        limit = min(limit, timedelta(hours=own.hold_hours))
    calendar = calendar_of(own, today).within(limit)
    tested = {core: [today - timedelta(days=days_ago)] for core in panel.core}
    found = panel_due(panel, 12, tested, today, NORTHERN, calendar)
    first, last = found.window
    holidays = holidays_of(own, today)
    closed = calendar.lab_hours.closed
    assert closed >= holidays
    assert today < first <= last
    in_window = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    before = [day for day in in_window if found.day is None or day < found.day]
    assert not any(works(day, own, closed, holidays, limit) for day in before)
    if found.day is None:
        return
    assert first <= found.day <= last
    assert works(found.day, own, closed, holidays, limit)
    best = calendar.find(found.day, found.day).best
    assert best.age <= limit
    assert best.hand_in.astimezone(best.draw.tzinfo).date() == found.day
