"""R as an independent referee: base R's Kendall test and the package survival, where installed.

Left-censored Kaplan-Meier is got from a right-censored one by turning the figures round, as the
literature on non-detects does (Helsel, Statistics for Censored Environmental Data).
"""

import json
import math
import random
import shutil
import subprocess
from datetime import date, timedelta
from itertools import accumulate

import pytest

from wellbook.water.statistics.kaplan_meier import kaplan_meier
from wellbook.water.statistics.mann_kendall import mann_kendall
from wellbook.water.statistics.series import CensoredValue, span_on


def r(program):
    """What an R program prints, as numbers; the test is skipped where there is no such R."""
    script = shutil.which("Rscript")
    if script is None:
        pytest.skip("no Rscript (R) here")
    done = subprocess.run([script, "-e", program], capture_output=True, text=True, check=False)
    if "there is no package called" in done.stderr:
        pytest.skip("no package survival in R here")
    assert done.returncode == 0, done.stderr
    return json.loads(f"[{','.join(done.stdout.split())}]")


def vector(values):
    return f"c({','.join(repr(value) for value in values)})"


@pytest.mark.parametrize("seed", range(3))
def test_kaplan_meier_is_that_of_survival_turned_round(seed):
    chance = random.Random(seed)
    figures = [round(chance.lognormvariate(1, 1), 2) for _ in range(40)]
    limits = [chance.choice((0.5, 2, 5)) for _ in figures]
    spans = [
        CensoredValue(k, y if y >= limit else -math.inf, max(y, limit))
        for k, (y, limit) in enumerate(zip(figures, limits, strict=True))
    ]
    masses = kaplan_meier(spans)
    # P(X <= x) is the turned-round survivor function just before -x.
    sums = list(accumulate(mass.share for mass in masses))
    detected = [
        (mass.high, total) for mass, total in zip(masses, sums, strict=True) if mass.low > 0
    ]
    program = (
        "library(survival);"
        f"x <- {vector([span.high for span in spans])};"
        f"d <- {vector([int(span.exact) for span in spans])};"
        "f <- survfit(Surv(1000 - x, d) ~ 1);"
        f"at <- 1000 - {vector([figure for figure, _ in detected])} - 1e-7;"
        "cat(format(summary(f, times = at, extend = TRUE)$surv[rank(at)], digits = 12))"
    )
    assert r(program) == pytest.approx([total for _, total in detected], abs=1e-9)


@pytest.mark.parametrize("n", [4, 6, 8, 10])
def test_the_exact_test_is_that_of_base_r(n):
    chance = random.Random(n)
    values = chance.sample(range(1, 100), n)
    days = [date(2010, 1, 1) + timedelta(days=430 * k) for k in range(n)]
    found = mann_kendall([span_on(d, v, v) for d, v in zip(days, map(float, values), strict=True)])
    program = (
        f"cat(format(cor.test(1:{n}, {vector(values)}, method = 'kendall', exact = TRUE)$p.value,"
        " digits = 12))"
    )
    assert r(program) == pytest.approx([found.p], abs=1e-9)
