"""How often steady wells with a yearly cycle are called rising or falling, and rising ones found.

Made-up histories on the days of several plans go through `guarded_test`: figures of spread one
about a yearly cycle of amplitude 0 to 4 whose top lies anywhere in the year; some of the lowest are
non-detects. A change is said at the 10 % level. `may be the season` is counted apart. Run with
`pytest -m bench tests/bench/test_seasons_and_trends.py`; `WELLBOOK_RUNS=2000` sets the histories
per cell, `WELLBOOK_PLANS="13 months,14 months"` picks plans.
"""

import os
import random
import sys

import pytest
from made_up_histories import PLANS, days_of, made_up
from scipy import stats

from wellbook.water.statistics.season.guarded_test import guarded_test

pytestmark = pytest.mark.bench
RUNS = int(os.environ.get("WELLBOOK_RUNS", "100"))
CHOSEN = os.environ.get("WELLBOOK_PLANS", ",".join(PLANS)).split(",")
COUNTS = (6, 8, 10, 12, 16, 20, 28, 40)
CYCLES = (0, 1, 2, 4)
CORRELATIONS = (0, 0.3, 0.5)
RISE = 3.5  # from the first test to the last, in standard deviations of what else scatters


def shares(plan, n, **made):
    """Histories called rising or falling, and those that may be the season, of one."""
    chance = random.Random(f"{plan} {n} {made}")
    said = seasons = 0
    for _ in range(RUNS):
        found = guarded_test(made_up(days_of(plan, n, chance), chance, **made))
        said += found.p <= 0.10
        seasons += found.maybe_season
    return said / RUNS, seasons / RUNS


@pytest.mark.timeout(3600)
@pytest.mark.parametrize("undetected", [0, 0.3, 0.6])
@pytest.mark.parametrize("plan", CHOSEN)
def test_a_yearly_cycle_makes_no_trend(plan, undetected, capsys):
    table = [
        f"{plan}, {undetected:.0%} non-detects, {RUNS} histories a cell: trend (may be season)",
        " n"
        + "".join(f"   amplitude {c}" for c in CYCLES)
        + f"   rising by {RISE}, amplitude 0, 2",
    ]
    for n in COUNTS:
        steady = [shares(plan, n, cycle=c, undetected=undetected) for c in CYCLES]
        rising = [shares(plan, n, cycle=c, undetected=undetected, rise=RISE) for c in (0, 2)]
        cells = [f"{said:6.1%} ({season:4.0%})" for said, season in (*steady, *rising)]
        table.append(f"{n:2}  " + "  ".join(cells))
        for said, _ in steady:
            # Many cells are looked at, so the bound that must hold is a wide one.
            assert stats.binomtest(round(said * RUNS), RUNS).proportion_ci(0.999).low <= 0.10
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")


def dependent(n, **made):
    """Histories called rising or falling, and those of them with a word on dependence."""
    chance = random.Random(f"dependent {n} {made}")
    said = warned = 0
    for _ in range(RUNS):
        found = guarded_test(made_up(days_of("12 months", n, chance), chance, **made))
        said += found.p <= 0.10
        warned += found.maybe_dependence
    return said / RUNS, warned / RUNS


@pytest.mark.timeout(3600)
def test_dependence_makes_no_trend_without_a_word_on_it(capsys):
    table = [
        f"12 months, {RUNS} histories a cell: trend without a word (with one)",
        " n" + "".join(f"   correlation {r}" for r in CORRELATIONS) + "   the same, rising by 3.5",
    ]
    for n in (8, 12, 16, 20, 28, 40):
        steady = [dependent(n, correlation=r) for r in CORRELATIONS]
        rising = [dependent(n, correlation=r, rise=RISE) for r in CORRELATIONS]
        cells = [f"{said - warned:6.1%} ({warned:5.1%})" for said, warned in (*steady, *rising)]
        table.append(f"{n:2}  " + "  ".join(cells))
        for said, warned in steady[:2]:
            shown = round((said - warned) * RUNS)
            assert stats.binomtest(shown, RUNS).proportion_ci(0.999).low <= 0.10
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")
