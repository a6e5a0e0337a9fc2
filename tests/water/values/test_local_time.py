"""Days and times as written: ISO 8601, with its own examples of offsets from UTC."""

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.values.local_time import LocalTime

DAY = date(2024, 5, 3)


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("2024-05-03", LocalTime(DAY)),
        (" 2024-05-03 ", LocalTime(DAY)),
        ("2024-05-03T07:15", LocalTime(DAY, time(7, 15))),
        ("2024-05-03T07:15:42.5", LocalTime(DAY, time(7, 15))),
        ("2024-05-03T07:15Z", LocalTime(DAY, time(7, 15), 0)),
        ("2024-05-03T07:15-04:00", LocalTime(DAY, time(7, 15), -240)),
        ("2024-05-03T07:15+05:30", LocalTime(DAY, time(7, 15), 330)),
        ("2024-05-03T07:15-03:30", LocalTime(DAY, time(7, 15), -210)),
        ("2024-05-03T00:00+00:45", LocalTime(DAY, time(0), 45)),
    ],
)
def test_a_moment_is_read_with_its_time_and_offset_if_it_has_them(text, moment):
    assert LocalTime.parse(text) == moment


@pytest.mark.parametrize(
    ("moment", "text"),
    [
        (LocalTime(DAY), "2024-05-03"),
        (LocalTime(DAY, time(7, 5)), "2024-05-03T07:05"),
        (LocalTime(DAY, time(7, 5), 0), "2024-05-03T07:05+00:00"),
        (LocalTime(DAY, time(7, 5), 1), "2024-05-03T07:05+00:01"),
        (LocalTime(DAY, time(7, 5), -1), "2024-05-03T07:05-00:01"),
        (LocalTime(DAY, time(7, 5), -240), "2024-05-03T07:05-04:00"),
        (LocalTime(DAY, time(7, 5), 345), "2024-05-03T07:05+05:45"),
        (LocalTime(DAY, None, 60), "2024-05-03"),
    ],
)
def test_a_moment_is_written_in_full(moment, text):
    assert moment.iso() == text


@pytest.mark.parametrize("text", ["", "3 May 2024", "2024-13-01", "2024-05-03T25:00"])
def test_what_is_no_date_is_refused(text):
    with pytest.raises(ValueError, match=r"."):
        LocalTime.parse(text)


_TIMES = st.times().map(lambda at: at.replace(second=0, microsecond=0))


@given(st.dates(), st.none() | _TIMES, st.none() | st.integers(-1439, 1439))
def test_what_is_written_is_read_back(day, at, offset):
    moment = LocalTime(day, at, offset if at else None)
    assert LocalTime.parse(moment.iso()) == moment


def test_a_day_without_a_time_comes_first_on_its_day():
    moments = [LocalTime(DAY, time(0, 1)), LocalTime(date(2024, 5, 2), time(23)), LocalTime(DAY)]
    ranked = sorted(moments, key=LocalTime.order)
    assert ranked == [moments[1], moments[2], moments[0]]
