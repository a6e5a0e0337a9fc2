"""The middle of a history and how widely it is spread, non-detects counted in."""

from collections.abc import Sequence
from math import inf

from wellbook.water.statistics.kaplan_meier import Mass, mean, quantile
from wellbook.water.statistics.level.long_run import long_run
from wellbook.water.statistics.outcomes import LEAST_TOLD, Spread, Summary
from wellbook.water.statistics.series import Series, counted_series, label, series
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result


def summary(history: Sequence[Result], parameter: Parameter) -> Summary | None:
    """Summarise a history; None with fewer than four tests, or where only presence matters."""
    return summary_of(counted_series(history, parameter), parameter)


def summary_of(found: Series, parameter: Parameter) -> Summary | None:
    """Summarise a series as `counted_series` gives it."""
    if len(found.spans) < LEAST_TOLD:
        return None
    masses = shares_of(found.spans)
    return Summary(_spread(found, masses, parameter), long_run(found.spans, masses))


def spread(history: Sequence[Result], parameter: Parameter) -> Spread:
    """Middle and spread of the history of one parameter at one point."""
    found = series(history, parameter)
    return _spread(found, shares_of(found.spans), parameter)


def _spread(found: Series, masses: Sequence[Mass], parameter: Parameter) -> Spread:
    spans = found.spans
    limits = [span.high for span in spans if span.undetected]
    low, middle, high = (quantile(masses, share) for share in (0.25, 0.5, 0.75))
    return Spread(
        n=len(spans),
        censored=found.censored,
        lower_quartile=low,
        median=middle,
        upper_quartile=high,
        mean=mean(masses, min(limits, default=0.0)) if any(s.exact for s in spans) else None,
        unit=label(parameter),
        undetected=len(limits),
        off_scale=sum(span.high == inf for span in spans),
        least=min((span.low for span in spans if not span.undetected), default=None),
    )
