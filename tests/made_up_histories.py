"""Made-up histories: days of tests and a yearly cycle, a trend and dependence on them."""

import math
from datetime import date

from wellbook.water.statistics.series import DAYS_A_YEAR, CensoredValue, Series

FIRST = date(1990, 3, 10).toordinal()
# Months from test to test, and how a household may be late: each test up to two months, every
# third time, and from then on counted from the day it was drawn.
PLANS = {
    "12 months": (12, False),
    "13 months": (13, False),
    "14 months": (14, False),
    "12 months, late": (12, True),
    "14 months, late": (14, True),
}


def days_of(plan, n, chance):
    months, late = PLANS[plan]
    at, days = 0.0, []
    for _ in range(n):
        days.append(date.fromordinal(FIRST + round(at * DAYS_A_YEAR)))
        delay = chance.random() * 2 if late and chance.random() < 1 / 3 else 0
        at += (months + delay) / 12
    return tuple(days)


def made_up(days, chance, *, cycle=0.0, rise=0.0, correlation=0.0, undetected=0.0):
    """Figures of spread one about a line that rises by `rise` in all.

    Args:
        days: The days of the tests.
        chance: Where the draws come from.
        cycle: From the middle of the yearly cycle to its top, in spreads.
        rise: From the first test to the last, in spreads.
        correlation: Of what is left of a test with what is left of the next.
        undetected: Share of the lowest figures that are non-detects below one limit.
    """
    times = [day.toordinal() / DAYS_A_YEAR for day in days]
    top, rest, figures = chance.random(), 0.0, []
    for k, at in enumerate(times):
        fresh = chance.gauss(0, 1)
        rest = correlation * rest + math.sqrt(1 - correlation**2) * fresh if k else fresh
        line = rise * (at - times[0]) / (times[-1] - times[0])
        figures.append(line + cycle * math.sin(math.tau * (at + top)) + rest)
    limit = sorted(figures)[round(undetected * len(figures))] if undetected else -math.inf
    spans = [
        CensoredValue(at, -math.inf if figure < limit else figure, max(figure, limit))
        for at, figure in zip(times, figures, strict=True)
    ]
    return Series(tuple(spans), days)
