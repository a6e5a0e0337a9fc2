"""What units and wells need at intervals comes due, and the longer it waits the louder it is."""

import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.sampling.upkeep import WELL, Done, read_tasks, upkeep_due

RESOURCES = Path(__file__).parents[3] / "resources"
TASKS = read_tasks(RESOURCES)
TODAY = date(2026, 11, 28)
KINDS = sorted({task.of for task in TASKS})
DAYS = st.dates(date(2010, 1, 1), TODAY)


def due(of, since="", done=(), today=TODAY, own=None):
    return {one.task.key: one for one in upkeep_due(TASKS, of, since, done, today, own)}


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
    own = {"uv_lamp": 9, "uv_sleeve": 0}
    found = due("ultraviolet lamp", "2026-01-31", own=own)
    assert found["uv_lamp"].due == date(2026, 10, 31)
    assert "uv_sleeve" not in found


def test_every_well_is_looked_at_yearly_and_the_owner_is_told_not_to_open_it():
    # National Ground Water Association, annual check-up; CDC: each spring.
    wellhead = due(WELL, "", [Done("inspection", "2025-04-10")])["wellhead"]
    assert wellhead.due == date(2026, 4, 10)
    assert "don't open" in wellhead.task.caution


def test_what_a_dealer_or_contractor_does_is_never_asked_of_the_owner():
    for task in TASKS:
        assert task.who in {"owner", "treatment dealer", "licensed well contractor"}, task.key
        assert not (task.of == WELL and task.who == "owner" and "pump" in task.part), task.key
        assert task.source, task.key
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


@given(st.sampled_from(TASKS), DAYS)
def test_doing_it_today_puts_it_off_by_its_interval(task, day):
    done = [Done(task.done_as, day.isoformat())]
    found = due(task.of, "2001-01-01", done, day)[task.key]
    assert found.overdue_days == 0
    assert found.due is not None
    assert found.due > day


def test_a_row_that_makes_no_sense_is_named(tmp_path: Path):
    shutil.copy(RESOURCES / "upkeep.csv", tmp_path)
    text = (tmp_path / "upkeep.csv").read_text(encoding="utf-8")
    (tmp_path / "upkeep.csv").write_text(text.replace(",12,24,", ",24,12,", 1), "utf-8")
    with pytest.raises(ValueError, match=r"upkeep\.csv, row \d+: 24 to 12 months"):
        read_tasks(tmp_path)
