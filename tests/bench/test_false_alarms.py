"""How often a steady well is called rising or falling, by chance alone.

Made-up steady histories (lognormal figures, a test every 14 months, two reporting limits) go
through `trend`. A change is said at the 10 % level, so `rising` and `falling` may each come up in
5 % of them, and both together in 10 %; few tests give less, as their exact levels come in steps.
Run with `pytest -m bench tests/bench/test_false_alarms.py`; it prints its table.
"""

import math
import random
import sys
from datetime import date
from decimal import Decimal
from statistics import NormalDist

import pytest
from scipy import stats

from wellbook.support import paths
from wellbook.water.statistics.trend import trend
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import add_months

pytestmark = pytest.mark.bench
NITRATE = read_catalogue(paths.resources()).parameters["nitrate"]
RUNS = 2000
FIRST = date(1985, 3, 10)
# How the higher of the two limits lies in time, and how many times the lower one it is.
LIMITS = (("mixed", 3), ("fell", 3), ("fell", 10))


def lower_limit(share, ratio):
    """The lower of two limits with which so large a share of figures is not detected."""
    low, high = 1e-9, 1e9
    for _ in range(100):
        middle = math.sqrt(low * high)
        normal = NormalDist()
        undetected = (normal.cdf(math.log(middle)) + normal.cdf(math.log(middle * ratio))) / 2
        low, high = (middle, high) if undetected < share else (low, middle)
    return low


def history(chance, n, limit, limits):
    order, ratio = limits
    results = []
    for k in range(n):
        figure = chance.lognormvariate(0, 1)
        high = chance.random() < 0.5 if order == "mixed" else k < n / 2
        bound = limit * ratio if high else limit
        kind = Kind.BELOW if figure < bound else Kind.NUMBER
        number = Decimal(repr(max(figure, bound)))
        reading = Reading(str(number), kind, number, "mg/L", "as N")
        day = add_months(FIRST, 14 * k)
        results.append(Result(k, k, "nitrate", "Nitrate", reading, LocalTime(day), 1))
    return results


CASES = [
    (n, share, limits)
    for n in (6, 10, 20)
    for share in (0, 0.3, 0.6)
    for limits in (LIMITS if share else LIMITS[:1])
]


@pytest.mark.timeout(600)
def test_steady_wells_are_seldom_called_rising(capsys):
    table = [
        f"{RUNS} steady histories each, with 95 % intervals",
        " n  non-detects  limits        rising (of 5 %)       rising or falling (of 10 %)",
    ]
    for n, share, limits in CASES:
        chance = random.Random(n)
        limit = lower_limit(share, limits[1]) if share else 1e-9
        says = [trend(history(chance, n, limit, limits), NITRATE).says for _ in range(RUNS)]
        kind = f"{limits[0]} ×{limits[1]}" if share else "none"
        row = [f"{n:2}  {share:11.0%}  {kind:9}"]
        for words, level in (({"rising"}, 0.05), ({"rising", "falling"}, 0.10)):
            count = sum(word in words for word in says)
            outcome = stats.binomtest(count, RUNS)
            interval = outcome.proportion_ci()
            row.append(f"{count / RUNS:6.1%} ({interval.low:.1%} to {interval.high:.1%})")
            # Many rows are looked at, so the bound that must hold is wider than the one shown.
            assert outcome.proportion_ci(0.999).low <= level, row
        table.append("  ".join(row))
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")
