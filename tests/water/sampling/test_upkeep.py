"""What units and wells need at intervals comes due, and the longer it waits the louder it is."""

import shutil
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.upkeep import (
    WELL,
    Behind,
    Done,
    Only,
    Own,
    of_kind,
    read_tasks,
    upkeep_due,
)
from wellbook.water.sampling.use import Amount
from wellbook.wording.vocabulary import event_choices, log_items, services, treatments

RESOURCES = Path(__file__).parents[3] / "resources"
TASKS = read_tasks(RESOURCES)
TODAY = date(2026, 11, 28)
USUAL = [task for task in TASKS if not task.only or task.asked_after]
KINDS = sorted({task.of for task in TASKS})
DAYS = st.dates(date(2010, 1, 1), TODAY)


def due(of, since="", done=(), today=TODAY, own=None, tasks=USUAL):
    return {one.task.key: one for one in upkeep_due(tasks, of, since, done, today, own)}


def test_a_lamp_is_due_a_year_after_it_was_changed():
    # EPA-430/9-74-007, Manual of Individual Water Supply Systems: lamps are replaced yearly.
    lamp = due("ultraviolet lamp", "2020-03", [Done("lamp", "2025-11-01")])["uv_lamp"]
    assert (lamp.last, lamp.due, lamp.overdue_days) == (date(2025, 11, 1), date(2026, 11, 1), 27)
    assert lamp.was_done


def test_what_was_never_done_counts_from_the_day_the_unit_came():
    lamp = due("ultraviolet lamp", "2026-03-15")["uv_lamp"]
    assert (lamp.due, lamp.was_done) == (date(2027, 3, 15), False)


def test_a_unit_of_an_unknown_day_is_asked_about_and_never_called_overdue():
    lamp = due("ultraviolet lamp")["uv_lamp"]
    assert (lamp.last, lamp.due, lamp.overdue_days) == (None, None, 0)


def test_a_day_known_to_the_year_counts_from_its_start():
    assert due("ultraviolet lamp", "2025")["uv_lamp"].due == date(2026, 1, 1)


def test_a_tank_of_carbon_is_not_asked_for_a_cartridge():
    assert "carbon_cartridge" in due("carbon filter", "2025")
    tank = due("carbon filter", "2025", [Done("media", "2026-01-10")])
    assert "carbon_media" in tank
    assert "carbon_cartridge" not in tank


def test_the_household_s_own_interval_goes_before_and_nought_is_never():
    own = {"uv_lamp": Own(9), "uv_sleeve": Own(0)}
    found = due("ultraviolet lamp", "2026-01-31", own=own)
    assert found["uv_lamp"].due == date(2026, 10, 31)
    assert "uv_sleeve" not in found


def by_use(installed="2026-01-01", done=(), months=12, of="1000 gal", a_day="", today=TODAY):
    """A carbon cartridge that the household changes after so many months or gallons."""
    own = Own(months, Amount.parse(of), Amount.read(a_day))
    return due("carbon filter", installed, done, today, {"carbon_cartridge": own})[
        "carbon_cartridge"
    ]


def meter(day, shown, kind="meter"):
    return Done(kind, day, Amount.parse(shown))


def test_a_cartridge_is_due_when_time_or_its_rated_volume_is_over_whichever_comes_first():
    """A rated volume holds for health claims: Univ. of Kentucky IP-6, activated carbon filters."""
    slow, fast = by_use(a_day="1 gal"), by_use(a_day="10 gal")
    assert (slow.due, slow.overdue_days) == (date(2027, 1, 1), 0)
    assert fast.due == date(2026, 4, 11)  # 100 days
    assert fast.overdue_days == (TODAY - date(2026, 4, 11)).days
    assert by_use(a_day="37.8541 L").due == fast.due  # ten US gallons, by definition


def test_a_meter_tells_what_is_used_and_goes_before_the_household_s_guess():
    new = meter("2026-01-01", "5000 gal", "cartridge")
    read = [new, meter("2026-02-20", "5500 gal")]
    found = by_use(done=read, a_day="1 gal", today=date(2026, 3, 1))
    assert (found.used.measured, found.used.told) == (500, date(2026, 2, 20))
    assert found.due == date(2026, 4, 11)  # 10 gal a day
    over = by_use(done=[*read, meter("2026-03-22", "6400 gal")], today=date(2026, 3, 22))
    assert over.used.measured == 1400
    assert over.due == date(2026, 3, 8)  # 500 gal on 20 Feb, then 30 gal a day: 16 days
    assert over.overdue_days == 14


def test_readings_after_the_change_alone_tell_how_fast_it_is_used():
    read = [
        Done("cartridge", "2026-01-01"),
        meter("2026-02-01", "50 gal"),
        meter("2026-02-11", "150 gal"),
    ]
    assert by_use(done=read, today=date(2026, 3, 1)).due == date(2026, 4, 11)


def test_a_new_meter_begins_at_nought():
    read = [
        meter("2026-01-01", "9900 gal", "cartridge"),
        meter("2026-01-21", "10100 gal"),
        meter("2026-02-10", "200 gal"),
    ]
    assert by_use(done=read, today=date(2026, 2, 10)).used.measured == 400


def test_what_nothing_tells_the_use_of_is_due_by_time_alone():
    for done, a_day in (
        ((), ""),
        ((), "0 gal"),
        ((), "24 h"),
        ([meter("2026-02-01", "50 gal")], ""),
        ([meter("2026-02-01", "50 h"), meter("2026-03-01", "500 h")], ""),
        ([meter("2026-02-01", "50 gal"), meter("2026-03-01", "50 gal")], ""),
    ):
        found = by_use(done=done, a_day=a_day)
        assert (found.used, found.due) == (None, date(2027, 1, 1))


@given(
    st.lists(st.tuples(st.integers(0, 300), st.integers(0, 900)), max_size=6),
    st.integers(0, 900),
    st.integers(1, 60),
)
def test_using_more_never_makes_it_due_later(steps, more, a_day):
    day, shown = date(2026, 1, 1), 100
    read = [meter(day.isoformat(), f"{shown} gal", "cartridge")]
    for wait, used in steps:
        day, shown = day + timedelta(wait), shown + used
        read.append(meter(day.isoformat(), f"{shown} gal"))
    later = by_use(done=read, a_day=f"{a_day} gal", today=date(2040, 1, 1))
    read[-1] = meter(day.isoformat(), f"{shown + more} gal", read[-1].kind)
    sooner = by_use(done=read, a_day=f"{a_day} gal", today=date(2040, 1, 1))
    if len(read) > 1:  # the first reading is where counting begins
        assert sooner.due <= later.due
        assert sooner.overdue_days >= later.overdue_days


@pytest.mark.parametrize(
    ("text", "unit", "is_over"),
    [
        ("5", "µg/L", False),
        ("5.1", "ug/L", True),
        ("0.0051", "mg/L", True),
        ("0.005", "mg/L", False),
        ("6", "ppb", True),
        ("<10", "µg/L", False),
        (">3", "µg/L", False),
        (">6", "µg/L", True),
        ("present", "", True),
        ("6", "", True),
    ],
)
def test_arsenic_between_two_tanks_counts_above_5_micrograms(text, unit, is_over):
    """Columbia University with NJDEP, arsenic treatment questions: over 5 µg/L at the port."""
    (task,) = [task for task in TASKS if task.key == "arsenic_media"]
    assert task.behind == Behind("arsenic", Decimal(5), "µg/L")
    assert task.behind.is_over(read_reading(text, unit=unit)) == is_over


def test_every_well_is_looked_at_yearly_and_the_owner_is_told_not_to_open_it():
    # National Ground Water Association, annual check-up; CDC: each spring.
    wellhead = due(WELL, "", [Done("inspection", "2025-04-10")])["wellhead"]
    assert wellhead.due == date(2026, 4, 10)
    assert "don’t open" in wellhead.task.caution


def test_every_kind_of_unit_that_is_offered_has_its_tasks():
    assert {kind for kind in treatments() if not of_kind(TASKS, kind)} == set()
    assert {task.of for task in TASKS} - {WELL} <= set(treatments())


def test_one_service_puts_off_one_task():
    for kind in KINDS:
        parts = {(task.done_as, task.part) for task in of_kind(TASKS, kind)}
        acts = [done_as for done_as, _part in parts]
        assert len(set(acts)) == len(acts), (kind, sorted(parts))


def test_what_is_done_has_a_word_and_can_be_chosen():
    for task in TASKS:
        known = event_choices() if task.of == WELL else services()
        assert {task.done_as, task.asked_after or task.done_as} <= set(known), task.key
        if task.only and task.only.kind == "log":
            assert set(task.only.names) <= set(log_items()), task.key


def test_a_lamp_that_was_out_asks_for_its_pipes_from_that_day_until_they_are_disinfected():
    out = Done("failed", "2026-11-20")
    pipes = due("ultraviolet lamp", "2026-11-01", [out])["uv_pipes"]
    assert (pipes.due, pipes.overdue_days) == (date(2026, 11, 20), 8)
    clean = Done("pipes disinfected", "2026-11-22")
    assert "uv_pipes" not in due("ultraviolet lamp", "2026-11-01", [out, clean])
    again = Done("failed", "2026-11-25")
    assert "uv_pipes" in due("ultraviolet lamp", "2026-11-01", [out, clean, again])
    vague = Done("failed", "2026-11")  # perhaps after the 22nd
    assert "uv_pipes" in due("ultraviolet lamp", "2026-11-01", [vague, clean])


@pytest.mark.parametrize("cell", ["", "log", "for", "raw", "raw iron", "raw iron 0.3 NTU", "if so"])
def test_what_a_task_needs_is_read_strictly(cell):
    with pytest.raises(ValueError):  # noqa: PT011
        Only.parse(cell)


def test_what_a_dealer_or_contractor_does_is_never_asked_of_the_owner():
    trades = {"treatment dealer", "licensed well contractor", "septic professional"}
    for task in TASKS:
        assert task.who in {"owner", *trades}, task.key
        assert not (task.of == WELL and task.who == "owner" and "pump" in task.part), task.key
        assert task.source, task.key
        assert bool(task.months) != bool(task.asked_after), task.key
        assert task.task.endswith("."), task.key
    assert len({task.key for task in TASKS}) == len(TASKS)


@given(st.sampled_from(KINDS), st.lists(st.tuples(st.sampled_from(TASKS), DAYS)), DAYS, DAYS)
def test_waiting_longer_never_makes_anything_less_overdue(kind, acts, since, today):
    done = [Done(task.done_as, day.isoformat()) for task, day in acts if task.of == kind]
    now = due(kind, since.isoformat(), done, today)
    later = due(
        kind,
        since.isoformat(),
        [d for d in done if d.day <= str(today)],
        today + timedelta(days=90),
    )
    assert now.keys() == later.keys()
    for key, one in now.items():
        assert later[key].overdue_days >= one.overdue_days
        assert (one.due is None) == (later[key].due is None)


@given(st.sampled_from([task for task in TASKS if task.months]), DAYS)
def test_doing_it_today_puts_it_off_by_its_interval(task, day):
    done = [Done(task.done_as, day.isoformat())]
    found = due(task.of, "2001-01-01", done, day, tasks=USUAL if task in USUAL else [task])[
        task.key
    ]
    assert found.overdue_days == 0
    assert found.due is not None
    assert found.due > day


def test_a_row_that_makes_no_sense_is_named(tmp_path: Path):
    shutil.copy(RESOURCES / "upkeep.csv", tmp_path)
    text = (tmp_path / "upkeep.csv").read_text(encoding="utf-8")
    (tmp_path / "upkeep.csv").write_text(text.replace(",12,24,", ",24,12,", 1), "utf-8")
    with pytest.raises(ValueError, match=r"upkeep\.csv, row \d+: 24 to 12 months"):
        read_tasks(tmp_path)
