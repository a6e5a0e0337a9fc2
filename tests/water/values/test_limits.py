"""Which limits held on a day, where some dates are known to the month or year only."""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.water.values.limits import Force, Limit, LimitKind, Rule


def limit(start, end):
    return Limit(
        set="a-set",
        parameter="arsenic",
        kind=LimitKind.HEALTH,
        rule=Rule.MAX,
        low=None,
        high=Decimal("0.05"),
        unit="mg/L",
        basis="",
        fraction="",
        condition="",
        start=start,
        end=end,
        source="made up",
        where="",
        checked=False,
        note="",
    )


@pytest.mark.parametrize(
    ("start", "end", "day", "expected"),
    [
        ("", "", "1900-01-01", Force.YES),
        ("1977-06-24", "2006-01-22", "1977-06-23", Force.NO),
        ("1977-06-24", "2006-01-22", "1977-06-24", Force.YES),
        ("1977-06-24", "2006-01-22", "2006-01-22", Force.YES),
        ("1977-06-24", "2006-01-22", "2006-01-23", Force.NO),
        ("1977-06", "", "1977-05-31", Force.NO),
        ("1977-06", "", "1977-06-01", Force.UNSURE),
        ("1977-06", "", "1977-06-29", Force.UNSURE),
        # On the last day of its first month it has begun, whichever day that was.
        ("1977-06", "", "1977-06-30", Force.YES),
        ("1977-06", "", "1977-07-01", Force.YES),
        ("1977", "", "1976-12-31", Force.NO),
        ("1977", "", "1977-12-30", Force.UNSURE),
        ("1977", "", "1977-12-31", Force.YES),
        ("1977", "", "1978-01-01", Force.YES),
        ("", "2006-01", "2005-12-31", Force.YES),
        # Likewise on the first day of its last month it has not ended: ends are included.
        ("", "2006-01", "2006-01-01", Force.YES),
        ("", "2006-01", "2006-01-02", Force.UNSURE),
        ("", "2006-01", "2006-01-31", Force.UNSURE),
        ("", "2006-01", "2006-02-01", Force.NO),
        ("1977-06-24", "2006", "2006-07-01", Force.UNSURE),
        ("1977-06-24", "2006", "2007-01-01", Force.NO),
    ],
)
def test_a_limit_holds_from_its_first_day_to_its_last(start, end, day, expected):
    assert limit(start, end).in_force(date.fromisoformat(day)) is expected


def test_a_limit_whose_date_cannot_be_read_is_refused():
    with pytest.raises(ValueError, match="spring 1977"):
        limit("spring 1977", "")
