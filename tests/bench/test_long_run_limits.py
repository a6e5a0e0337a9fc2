"""How often the one-sided 90 % limit of a long-run median lies above the true median.

Made-up steady histories, a test every 14 months, 30 % of them non-detects below one limit, with a
yearly cycle and with successive tests that resemble each other. The limit takes tests as
independent, as its sentence says. Run with `pytest -m bench tests/bench/test_long_run_limits.py`;
it prints its table.
"""

import random
import sys

import pytest
from made_up_histories import days_of, made_up
from scipy import stats

from wellbook.water.statistics.level.long_run import long_run

pytestmark = pytest.mark.bench
RUNS = 1000
COUNTS = (4, 6, 8, 12, 16, 20, 30, 40)


def held(n, **made):
    chance = random.Random(f"{n} {made}")
    return sum(
        long_run(made_up(days_of("14 months", n, chance), chance, undetected=0.3, **made).spans)
        .upper >= 0
        for _ in range(RUNS)
    )  # fmt: skip


@pytest.mark.timeout(600)
def test_the_limit_of_a_long_run_median_holds_it(capsys):
    table = [f"{RUNS} histories a cell: the limit lies at or above the median; n = {COUNTS}"]
    for cycle in (0, 2):
        for correlation in (0, 0.3, 0.5):
            counts = [held(n, cycle=cycle, correlation=correlation) for n in COUNTS]
            shares = " ".join(f"{count / RUNS:6.1%}" for count in counts)
            table.append(f"cycle {cycle}, correlation {correlation}: {shares}")
            if not correlation:
                assert all(
                    stats.binomtest(count, RUNS).proportion_ci(0.999).high >= 0.9
                    for count in counts
                )
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")
