"""Dates known to the day, the month or the year, and periods between two of them."""

from datetime import date, timedelta
from itertools import product

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from wellbook.water.values.partial_date import PartialDate, Period, read_partial_date

DAYS = st.dates(date(1, 1, 1), date(9999, 12, 31))
NEAR_DAYS = st.dates(date(2023, 11, 1), date(2025, 2, 28))  # a leap year and its neighbours


def _cut(day, length):
    return PartialDate.parse(day.isoformat()[:length])


def _partial_dates(days):
    return st.builds(_cut, days, st.sampled_from((len("2024"), len("2024-05"), len("2024-05-03"))))


def _meant(partial):
    """All days whose ISO text begins with that of the partial date."""
    start = date(partial.year, 1, 1)
    every = (start + timedelta(days=n) for n in range(366))
    return [day for day in every if day.isoformat().startswith(str(partial))]


@given(_partial_dates(DAYS))
@example(PartialDate(9999))
@example(PartialDate(1, 1, 1))
def test_its_text_is_read_back_as_the_same(partial):
    assert PartialDate.parse(str(partial)) == partial
    assert read_partial_date(str(partial)) == partial


@given(DAYS)
def test_a_whole_day_means_that_day_only_and_is_written_as_iso_8601_has_it(day):
    partial = PartialDate.parse(day.isoformat())
    assert (partial.first, partial.middle, partial.last) == (day, day, day)
    assert str(partial) == day.isoformat()
    assert not partial.is_vague


@given(_partial_dates(NEAR_DAYS))
def test_first_and_last_bound_all_days_that_it_may_mean(partial):
    meant = _meant(partial)
    assert partial.first <= partial.middle <= partial.last
    assert (partial.first, partial.last) == (meant[0], meant[-1])
    assert partial.is_vague is (len(meant) > 1)


@given(_partial_dates(NEAR_DAYS), _partial_dates(NEAR_DAYS))
def test_one_is_before_another_only_where_that_is_certain(one, other):
    certain = all(a < b for a, b in product(_meant(one), _meant(other)))
    assert (one < other) is certain
    assert (other > one) is certain


@given(
    st.none() | _partial_dates(NEAR_DAYS),
    st.none() | _partial_dates(NEAR_DAYS),
    NEAR_DAYS,
)
@example(PartialDate(2024), PartialDate(2024), date(2024, 6, 1))
@example(PartialDate(2024, 2), None, date(2024, 2, 29))
def test_a_period_covers_a_day_as_all_readings_of_its_ends_say(start, end, day):
    starts = _meant(start) if start else [date.min]
    ends = _meant(end) if end else [date.max]
    said = {first <= day <= last for first in starts for last in ends}
    expected = said.pop() if len(said) == 1 else None
    assert Period(start, end).covers(day) is expected


@pytest.mark.parametrize(
    "text",
    [
        *("", "24", "2024-5", "2024-13", "2024-02-30", "2024-00", "2023-02-29", "0000"),
        *("20240503", "2024-W05-1", "2024-05-03 ", "2024-05-03T07:00", "２０２４", "spring 2024"),
    ],
)
def test_anything_else_is_refused(text):
    with pytest.raises(ValueError, match=r"ISO|day|month|year"):
        PartialDate.parse(text)
    assert read_partial_date(text) is None


def test_a_day_without_its_month_is_refused():
    with pytest.raises(ValueError, match="month"):
        PartialDate(2024, None, 3)


def test_an_empty_text_leaves_a_side_of_a_period_open():
    assert Period.parse("", "2024-05") == Period(None, PartialDate(2024, 5))
    assert Period.parse("", "").covers(date(1900, 1, 1)) is True
    with pytest.raises(ValueError, match="spring"):
        Period.parse("2024", "spring")
