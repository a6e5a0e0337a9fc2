"""The hours of a sampling day. Six hours of standing: 40 CFR 141.86, from memory."""

from datetime import UTC, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.sampling.timetable import Task, timetable
from wellbook.wording.sampling_day import text

EASTERN = ZoneInfo("America/New_York")
LEAD_TOO = frozenset({Task.FIRST_DRAW, Task.BACTERIA, Task.LARGE_BOTTLE})


def at(month, day, hour, minute=0):
    return datetime(2026, month, day, hour, minute, tzinfo=EASTERN)


def when(steps, task):
    (found,) = (step.at for step in steps if step.task is task)
    return found


def test_every_kind_of_bottle_has_its_step_in_order():
    steps = timetable(at(11, 30, 7), at(11, 30, 9), fills=frozenset(Task))
    assert [step.task for step in steps] == list(Task)


def test_the_bottles_follow_one_another_around_the_draw():
    steps = timetable(at(11, 30, 16, 30), at(11, 30, 17), fills=frozenset(Task))
    minutes = {step.task: (step.at - at(11, 30, 16, 30)) // timedelta(minutes=1) for step in steps}
    assert minutes == {
        Task.PREPARE: -21 * 60 - 30,
        Task.LAST_USE: -16 * 60,
        Task.FIRST_DRAW: -10 * 60,
        Task.FLUSH: -15,
        Task.VIALS: -5,
        Task.BACTERIA: 0,
        Task.OTHERS: 5,
        Task.LARGE_BOTTLE: 10,
        Task.PACK: 20,
        Task.HAND_IN: 30,
    }


def test_an_early_draw_needs_one_visit_to_the_tap():
    steps = timetable(at(11, 30, 7), at(11, 30, 9), fills=LEAD_TOO)
    assert when(steps, Task.FIRST_DRAW) == at(11, 30, 6, 45)
    assert when(steps, Task.LAST_USE) == at(11, 30, 0, 45)
    assert when(steps, Task.PREPARE) == at(11, 29, 19)


def test_with_a_late_draw_the_first_draw_has_its_own_visit_in_the_morning():
    steps = timetable(at(11, 30, 16, 30), at(11, 30, 17), fills=LEAD_TOO)
    assert when(steps, Task.FIRST_DRAW) == at(11, 30, 6, 30)
    assert when(steps, Task.LAST_USE) == at(11, 30, 0, 30)
    assert when(steps, Task.FLUSH) == at(11, 30, 16, 20)


def test_without_lead_there_is_no_standing():
    steps = timetable(at(11, 30, 16, 30), at(11, 30, 17))
    assert [step.task for step in steps] == [
        Task.PREPARE,
        Task.FLUSH,
        Task.BACTERIA,
        Task.LARGE_BOTTLE,
        Task.PACK,
        Task.HAND_IN,
    ]


def test_six_hours_pass_in_the_night_in_which_clocks_go_forward():
    steps = timetable(at(3, 8, 7), at(3, 8, 9), fills=LEAD_TOO)
    assert when(steps, Task.LAST_USE) == at(3, 7, 23, 45)


def test_the_aerator_is_on_for_the_first_draw_and_off_for_bacteria():
    told = {
        step.task: text(step.task) for step in timetable(at(6, 1, 8), at(6, 1, 9), fills=LEAD_TOO)
    }
    assert "aerator on" in told[Task.FIRST_DRAW]
    assert "Take aerator and screens off" in told[Task.FLUSH]
    assert "Never rinse" in told[Task.BACTERIA]
    assert "100 mL line and no further" in told[Task.BACTERIA]
    assert "three times with a third of its volume" in told[Task.LARGE_BOTTLE]


@given(
    st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1)).filter(lambda d: 6 <= d.hour <= 20),
    st.sets(st.sampled_from(list(Task))),
    st.times(time(5), time(9)),
)
def test_nothing_runs_before_the_first_draw_and_steps_follow_in_time(day, fills, rises):
    draw = day.replace(tzinfo=EASTERN)
    steps = timetable(draw, draw + timedelta(minutes=30), fills=fills, rises=rises)
    times = [step.at.astimezone(UTC) for step in steps]
    assert all(one <= other for one, other in pairwise(times))
    assert [step.task for step in steps] == sorted(
        (step.task for step in steps), key=list(Task).index
    )
    if Task.FIRST_DRAW in fills:
        waited = when(steps, Task.FIRST_DRAW).astimezone(UTC) - when(steps, Task.LAST_USE)
        assert waited == timedelta(hours=6)
