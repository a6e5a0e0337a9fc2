"""How many more tests it takes until a trend would show, if it goes on as it went so far."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import sqrt
from random import Random
from statistics import median

from wellbook.water.statistics.mann_kendall import (
    LEVEL,
    below,
    critical_deviate,
    kendall_score,
    kendall_variance,
)
from wellbook.water.statistics.outcomes import AIM, FURTHEST, LEAST, MOVING, Outlook, Trend
from wellbook.water.statistics.series import CensoredValue, label, series
from wellbook.water.statistics.theil_sen import theil_sen
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

_RUNS = 200
_LEAST_NUMBERS = 4  # detected figures from which scatter can be taken


def outlook(history: Sequence[Result], parameter: Parameter, now: Trend) -> Outlook:
    """Further tests, at the present slope, scatter and pace, before a trend would show.

    Args:
        history: The results of one parameter at one point.
        parameter: The parameter.
        now: What `trend` says of that history.
    """
    unit = label(parameter)
    if now.says in MOVING:
        return Outlook(0, now.slope_per_year, 0.0, unit)
    spans = series(history, parameter).spans
    slope = theil_sen(spans).rate if len(spans) > 1 else None
    if parameter.scale == "presence" or not slope or sum(s.exact for s in spans) < _LEAST_NUMBERS:
        return Outlook(None, slope, None, unit)
    pace = median(b.at - a.at for a, b in pairwise(spans))
    further = _further(spans, slope, pace)
    return Outlook(further, slope, None if further is None else further * pace, unit, pace)


@lru_cache(maxsize=128)
def _further(spans: tuple[CensoredValue, ...], slope: float, pace: float) -> int | None:
    """Least number of further tests, by going on many times with scatter drawn from the past.

    The draws are the same each time, so the same history always gives the same answer.
    """
    chance = Random(1)  # noqa: S311  repeatable draws for a simulation
    rest = sorted(span.low - slope * span.at for span in spans if span.exact)
    start = kendall_score(spans)
    shown = [0] * (FURTHEST + 1)
    critical: list[float] = []
    for _unused in range(_RUNS):
        path = list(spans)
        score = start
        for step in range(1, FURTHEST + 1):
            at = spans[-1].at + step * pace
            figure = max(0.0, _between(rest, chance.random()) + slope * at)
            new = CensoredValue(at, figure, figure)
            score += sum(below(old, new) - below(new, old) for old in path)
            path.append(new)
            # The spread of the score hardly differs from run to run: the first serves for all.
            if len(critical) < step:
                critical.append(1 + critical_deviate(1 - LEVEL) * sqrt(kendall_variance(path)))
            shown[step] += score * slope > critical[step - 1] * abs(slope)
    first = max(1, LEAST - len(spans))
    return next((s for s in range(first, FURTHEST + 1) if shown[s] >= AIM * _RUNS), None)


def _between(ranked: Sequence[float], share: float) -> float:
    """A quantile between the ranks, so that no figure is ever drawn twice."""
    place = share * (len(ranked) - 1)
    k = min(int(place), len(ranked) - 2)
    return ranked[k] + (place - k) * (ranked[k + 1] - ranked[k])
