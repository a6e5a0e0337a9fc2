"""Changes of lab, method or treatment that may be the reason of what looks like a trend.

Where all tests before a day are by other labs than those after it, only tests of one side can tell
the water from the labs. So the tests of each side are compared among themselves, and all sides
summed up as the seasonal Kendall test sums up seasons. Whether that is needed is read from
the circumstances alone; a lab that was there on both sides of a day is no such change.
"""

from bisect import bisect_right
from collections.abc import Collection, Hashable, Iterator, Sequence
from datetime import date
from itertools import accumulate
from operator import or_

from wellbook.water.statistics.mann_kendall import LEVEL
from wellbook.water.statistics.outcomes import TrendTest
from wellbook.water.statistics.season.circumstances import Circumstance, Switch
from wellbook.water.statistics.season.guarded_test import Guarded
from wellbook.water.statistics.seasonal_kendall import seasonal_kendall
from wellbook.water.statistics.series import Series, quarter

# Of the share of pairs that go one way. Of steps beside steady water at 10 to 30 tests 1 to 11 %
# are called trends so (27 % where 2 or 3 of 10 stand against the rest), of 7 or 8 up to 29 %.
_AS_STRONG = 0.8


def switches(found: Series, outcome: Guarded, treatment: Collection[date]) -> tuple[Switch, ...]:
    """The changes without which the trend of a series does not show.

    Args:
        found: The series.
        outcome: Its trend.
        treatment: Days on which the treatment before the point changed.
    """
    cuts = {
        Circumstance.LAB: tuple(_cuts(found.labs)),
        Circumstance.METHOD: tuple(_cuts(found.methods)),
        Circumstance.TREATMENT: tuple(_cuts_at(sorted(treatment), found.days)),
    }
    return tuple(
        Switch(of, tuple(found.days[cut] for cut in made))
        for of, made in cuts.items()
        if made and not _shows_within(found, outcome, made)
    )


def parted(before: frozenset[str], after: frozenset[str]) -> bool:
    """Whether what is known of both sides has nothing in common."""
    return bool(before and after) and not before & after


def _cuts(printed: Sequence[frozenset[str]]) -> Iterator[int]:
    """Numbers of the tests before which everything changed, by what was printed with each test.

    Tests that don't say lie between two cuts: they may belong to either side.
    """
    before = list(accumulate(printed, or_))
    after = list(accumulate(reversed(printed), or_))[::-1]
    for k in range(1, len(printed)):
        if parted(before[k - 1], after[k]) and (printed[k - 1] or printed[k]):
            yield k


def _cuts_at(changed: Sequence[date], days: Sequence[date]) -> Iterator[int]:
    made = [bisect_right(changed, day) for day in days]
    return (k for k in range(1, len(made)) if made[k] != made[k - 1])


def _shows_within(found: Series, outcome: Guarded, cuts: Sequence[int]) -> bool:
    """Whether the trend shows where only tests between the same two changes are compared.

    So few of them may show nothing at the level; then it is enough that they go the same way
    nearly as often as all tests do.
    """
    groups: list[Hashable] = [bisect_right(cuts, k) for k in range(len(found.days))]
    if outcome.test is TrendTest.SEASONAL:
        groups = list(zip(groups, map(quarter, found.days), strict=True))
    within = seasonal_kendall(found.spans, groups)
    whole = seasonal_kendall(found.spans, [None] * len(groups))
    same_way = within.s * outcome.statistic > 0
    return same_way and (within.p <= LEVEL or abs(within.tau) >= _AS_STRONG * abs(whole.tau))
