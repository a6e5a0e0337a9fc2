"""A sum is said in few digits, and never as a round figure that it is above or below.

Where a limit is 10 mg/L as N (40 CFR 141.62(b)), 10.0012 is over it and must not read as 10.00.
"""

from dataclasses import replace
from decimal import Decimal

import pytest
from made_standings import nitrogen

from wellbook.water.verdicts.sums import Part
from wellbook.wording import facts


@pytest.mark.parametrize(
    ("lows", "said"),
    [
        (("9.20", "0.30"), "9.50 mg/L as N"),
        (("9.950", "0.0512"), "10.001 mg/L as N"),
        (("9.9", "0.0996"), "9.9996 mg/L as N"),
        (("2.07828", "0.1"), "2.178 mg/L as N"),
        (("12345.6", "0"), "12346 mg/L as N"),
    ],
)
def test_a_sum_of_what_was_found_is_one_figure(lows, said):
    assert facts.added(nitrogen(lows=lows).sum) == said


def test_a_part_that_was_not_found_makes_it_two_ends_of_as_many_decimals():
    parts = (
        Part("nitrate", Decimal("9.20"), Decimal("9.20")),
        Part("nitrite", high=Decimal("0.050")),
    )
    found = replace(nitrogen().sum, parts=parts)
    assert facts.added(found) == "9.20 to 9.25 mg/L as N"
