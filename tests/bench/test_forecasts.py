"""How often the interval of a foretold crossing holds the true day, and how often there is none.

Made-up histories that rise by a known line, and steady ones, go through the trend test that a
history gets; where it finds a rise, the crossing of a limit 0.3, 0.8 or 1.5 standard deviations
above the last true level is foretold. Nominal are 90 %; an interval that is open towards later, or
that begins at the last test, covers more. A history whose trend successive tests that resemble each
other may explain gets no forecast. `band` is the plain interval of the line on the true
day, of every history that has one, whether the trend showed or not. Run with
`pytest -m bench tests/bench/test_forecasts.py`; `WELLBOOK_RUNS=2000` sets the histories per cell.
"""

import os
import random
import sys

import pytest
from made_up_histories import days_of, made_up
from scipy import stats

from wellbook.water.statistics.forecast import course, crossing, day_of
from wellbook.water.statistics.season.guarded_test import guarded_test

pytestmark = pytest.mark.bench
RUNS = int(os.environ.get("WELLBOOK_RUNS", "150"))
COUNTS = (8, 10, 12, 17, 25)
CASES = (
    ("12 months", {"rise": 3}),
    ("12 months", {"rise": 5}),
    ("12 months", {"rise": 5, "undetected": 0.3}),
    ("12 months", {"rise": 8, "undetected": 0.3}),
    ("14 months", {"rise": 5, "cycle": 2}),
    ("14 months", {"rise": 8, "cycle": 1, "undetected": 0.3}),
    ("14 months, late", {"rise": 5, "cycle": 2}),
)

STEADY = (
    ("12 months", {"cycle": 2}),
    ("13 months", {"cycle": 2}),
    ("14 months", {"cycle": 2}),
    ("12 months", {"correlation": 0.3}),
    ("12 months", {"correlation": 0.5}),
)


def outcome(plan, n, chance, made):
    """Whether the band holds the true level, and whether a foretold interval holds its day."""
    days = days_of(plan, n, chance)
    history = made_up(days, chance, **made)
    found = guarded_test(history)
    line = None if found.maybe_dependence else course(found.flat, found.slope)
    if line is None:
        return None, None
    limit = made.get("rise", 2) + chance.choice((0.3, 0.8, 1.5))
    if "rise" not in made:
        shows = found.p <= 0.10 and found.statistic > 0
        return None, False if shows and crossing(line, limit) else None
    true = line.first + limit / made["rise"] * (line.last - line.first)
    band = line.low(true) <= limit <= line.high(true)
    told = crossing(line, limit) if found.p <= 0.10 and found.statistic > 0 else None
    if told is None:
        return band, None
    day = day_of(true)
    begins = told.earliest <= day or told.earliest <= days[-1]
    return band, begins and (told.latest is None or day <= told.latest)


@pytest.mark.timeout(3600)
def test_a_foretold_interval_holds_the_true_day(capsys):
    table = [f"{RUNS} histories a cell: foretold, of these held; band held"]
    for plan, made in CASES:
        cells = []
        for n in COUNTS:
            chance = random.Random(f"{plan} {n} {made}")
            found = [outcome(plan, n, chance, made) for _ in range(RUNS)]
            bands = [band for band, _ in found if band is not None]
            told = [held for _, held in found if held is not None]
            cells.append(
                f"{len(told) / RUNS:4.0%} {sum(told) / max(1, len(told)):6.1%} "
                f"({sum(bands) / max(1, len(bands)):6.1%})"
            )
            assert stats.binomtest(sum(told), len(told)).proportion_ci(0.999).high >= 0.87
        table.append(f"{plan:16} {made!s:52} " + "  ".join(cells))
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")


@pytest.mark.timeout(3600)
def test_steady_water_is_seldom_foretold_to_cross(capsys):
    table = [f"{RUNS} steady histories a cell: foretold to rise above a limit"]
    for plan, made in STEADY:
        cells = []
        for n in COUNTS:
            chance = random.Random(f"{plan} {n} {made} steady")
            told = sum(outcome(plan, n, chance, made)[1] is not None for _ in range(RUNS))
            cells.append(f"{told / RUNS:5.1%}")
            assert stats.binomtest(told, RUNS).proportion_ci(0.999).low <= 0.05
        table.append(f"{plan:12} {made!s:24} " + "  ".join(cells))
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")
