"""The hours of a sampling day. Six hours of standing: 40 CFR 141.86, from memory."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.timetable import Task, timetable

EASTERN = ZoneInfo("America/New_York")


def at(month, day, hour, minute=0):
    return datetime(2026, month, day, hour, minute, tzinfo=EASTERN)


def when(steps, task):
    (found,) = (step.at for step in steps if step.task is task)
    return found


def test_an_early_draw_needs_one_visit_to_the_tap():
    steps = timetable(at(11, 30, 7), at(11, 30, 9), first_draw=True)
    assert [step.task for step in steps] == list(Task)
    assert when(steps, Task.FIRST_DRAW) == at(11, 30, 6, 45)
    assert when(steps, Task.LAST_USE) == at(11, 30, 0, 45)


def test_with_a_late_draw_the_first_draw_has_its_own_visit_in_the_morning():
    steps = timetable(at(11, 30, 16, 30), at(11, 30, 17), first_draw=True)
    assert when(steps, Task.FIRST_DRAW) == at(11, 30, 6, 30)
    assert when(steps, Task.LAST_USE) == at(11, 30, 0, 30)
    assert when(steps, Task.FLUSH) == at(11, 30, 16, 20)


def test_without_lead_there_is_no_standing():
    steps = timetable(at(11, 30, 16, 30), at(11, 30, 17), first_draw=False)
    assert steps[0].task is Task.FLUSH


def test_six_hours_pass_in_the_night_in_which_clocks_go_forward():
    steps = timetable(at(3, 8, 7), at(3, 8, 9), first_draw=True)
    assert when(steps, Task.LAST_USE) == at(3, 7, 23, 45)


def test_the_aerator_is_on_for_the_first_draw_and_off_for_bacteria():
    told = {step.task: step.text for step in timetable(at(6, 1, 8), at(6, 1, 9), first_draw=True)}
    assert "aerator on" in told[Task.FIRST_DRAW]
    assert "aerator off" in told[Task.FLUSH]
    assert "Never rinse" in told[Task.BACTERIA]


@given(st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1)).filter(lambda d: 6 <= d.hour <= 20))
def test_nothing_runs_before_the_first_draw_and_steps_follow_in_time(day):
    draw = day.replace(tzinfo=EASTERN)
    steps = timetable(draw, draw + timedelta(minutes=30), first_draw=True)
    times = [step.at.astimezone(UTC) for step in steps]
    assert all(one <= other for one, other in pairwise(times))
    assert times[1] - times[0] == timedelta(hours=6)
