"""The middle of a history and how widely it is spread, non-detects counted in."""

from collections.abc import Sequence
from math import inf

from wellbook.water.statistics.kaplan_meier import mean, quantile
from wellbook.water.statistics.outcomes import Spread
from wellbook.water.statistics.series import label, series
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result


def spread(history: Sequence[Result], parameter: Parameter) -> Spread:
    """Summarise the history of one parameter at one point."""
    found = series(history, parameter)
    spans = found.spans
    masses = shares_of(spans)
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
