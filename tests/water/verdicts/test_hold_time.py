"""Samples held too long. Thirty hours to the start of the test: EPA on 40 CFR 141.21(f)(3)."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.hold_time import age_at_test, is_late, least_age
from wellbook.water.verdicts.judge import Verdict, judge
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
NONE_ALLOWED = Limit(
    "us-epa-primary", "total_coliform", LimitKind.HEALTH, Rule.ABSENT, None, None, "per 100 mL",
    "", "", "", "1990-12-31", "", "", "", checked=True, note="",
)  # fmt: skip


def coliform(text, collected, analysed="", received=""):
    return Result(
        1, 1, "total_coliform", "Total coliform", read_reading(text, unit="per 100 mL"),
        LocalTime.parse(collected), 1,
        analysed=LocalTime.parse(analysed) if analysed else None,
        received=LocalTime.parse(received) if received else None,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("collected", "later", "hours"),
    [
        ("2026-11-30T15:30", "2026-12-01T11:00", 19.5),
        ("2026-11-30T07:00-05:00", "2026-12-01T10:30-05:00", 27.5),
        ("2026-11-30T15:00-05:00", "2026-12-01T15:00-07:00", 26),  # a lab two zones west
        ("2026-03-07T15:00-05:00", "2026-03-08T21:00-04:00", 29),  # clocks go forward
        ("2026-10-31T15:00-04:00", "2026-11-01T21:00-05:00", 31),  # clocks go back
        ("2026-11-30", "2026-12-01", 0),  # may have been drawn at midnight
        ("2026-11-30", "2026-12-02T06:00", 30),
        ("2026-11-30T18:00", "2026-12-02", 30),
        ("2026-11-30T10:00", "2026-11-29T10:00", 0),  # a slip of dates is not an age
    ],
)
def test_the_least_age_is_what_the_written_times_allow(collected, later, hours):
    found = least_age(LocalTime.parse(collected), LocalTime.parse(later))
    assert found == timedelta(hours=hours)


@given(
    st.datetimes(datetime(2026, 1, 1), datetime(2026, 12, 1)),
    st.integers(0, 100 * 60),
    st.sampled_from(["America/New_York", "America/Phoenix", "Europe/Berlin"]),
)
def test_with_offsets_the_age_is_the_time_that_passed(drawn, minutes, zone):
    drawn = drawn.replace(second=0, microsecond=0).astimezone(ZoneInfo("America/Chicago"))
    later = drawn.astimezone(ZoneInfo("UTC")) + timedelta(minutes=minutes)
    moments = [LocalTime.parse(at.isoformat()) for at in (drawn, later.astimezone(ZoneInfo(zone)))]
    assert least_age(*moments) == timedelta(minutes=minutes)


def test_exactly_thirty_hours_are_allowed():
    assert not is_late(coliform("Absent", "2026-11-30T09:00", "2026-12-01T15:00"))
    assert is_late(coliform("Absent", "2026-11-30T09:00", "2026-12-01T15:01"))


def test_where_the_start_is_not_printed_the_receipt_tells_the_least():
    late = coliform("Absent", "2026-11-30T09:00", received="2026-12-02T10:00")
    assert age_at_test(late) == timedelta(hours=49)
    assert is_late(late)
    assert not is_late(coliform("Absent", "2026-11-30T09:00", received="2026-12-01T10:00"))
    assert not is_late(coliform("Absent", "2026-11-30T09:00"))


def test_nothing_found_in_an_old_sample_proves_nothing_but_a_finding_counts():
    old = {"collected": "2026-11-30T09:00", "analysed": "2026-12-02T10:00"}
    parameter = CATALOGUE.parameters["total_coliform"]
    absent = judge(coliform("Absent", **old), NONE_ALLOWED, parameter, beside=())
    assert absent.verdict is Verdict.UNDECIDABLE
    assert "held too long (49 h)" in why(absent)
    assert (
        judge(coliform("Present", **old), NONE_ALLOWED, parameter, beside=()).verdict
        is Verdict.OUTSIDE
    )
    fresh = coliform("Absent", "2026-11-30T09:00", "2026-12-01T10:00")
    assert judge(fresh, NONE_ALLOWED, parameter, beside=()).verdict is Verdict.UNDETECTED


def test_the_labs_own_word_is_enough():
    flagged = read_reading("Absent", unit="per 100 mL", qualifier="HT")
    fresh = coliform("Absent", "2026-11-30T09:00", "2026-12-01T10:00")
    assert is_late(replace(fresh, reading=flagged))


def test_metals_do_not_spoil_in_days():
    iron = Result(
        1, 1, "iron", "Iron", read_reading("0.2", unit="mg/L"),
        LocalTime(date(2026, 11, 1), time(9)), 1, analysed=LocalTime(date(2026, 11, 20), time(9)),
    )  # fmt: skip
    limit = replace(NONE_ALLOWED, rule=Rule.MAX, high=iron.reading.number, unit="mg/L")
    judged = judge(iron, limit, CATALOGUE.parameters["iron"], beside=())
    assert judged.verdict is not Verdict.UNDECIDABLE
    assert "held" not in why(judged)


@pytest.mark.parametrize(
    ("keys", "hours"),
    [
        (("total_coliform", "e_coli"), 30),  # EPA on 40 CFR 141.21(f)(3)
        (("nitrate",), 48),  # 40 CFR 141.23(k)(2), from memory
        (("arsenic",), 180 * 24),  # six months: Wis. Adm. Code NR 809.113 table B
        (("radon_222",), 96),  # Standard Methods 7500-Rn, from memory
        (("lead", "copper"), 14 * 24),  # to the acid: EPA on 40 CFR 141.86(b)(2)
        (("ph", "alkalinity"), 14 * 24),  # pH is measured at the tap
        (("arsenic", "nitrate", "total_coliform"), 30),
        ((), 180 * 24),
    ],
)
def test_a_set_of_parameters_keeps_as_long_as_the_most_perishable(keys, hours):
    assert CATALOGUE.hold(keys) == timedelta(hours=hours)
