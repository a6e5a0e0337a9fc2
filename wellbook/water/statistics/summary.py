"""The middle of a history and how widely it is spread, non-detects counted in."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from wellbook.water.statistics.kaplan_meier import Mass, mean, quantile
from wellbook.water.statistics.level.long_run import Level, long_run
from wellbook.water.statistics.series import Series, label, series
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

LEAST_TOLD = 4  # tests from which the middle of a history is told, and its median bounded


@dataclass(frozen=True, slots=True)
class Spread:
    """Middle and spread of one parameter at one point.

    Attributes:
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        lower_quartile: A quarter of the tests lie at or below this; None if it is not known
            because it lies below every detected figure or above the scale.
        median: Half of them; None likewise.
        upper_quartile: Three quarters of them; None likewise.
        mean: Mean, with the share below every detected figure put at the lowest reporting limit,
            so rather too high than too low. None with off-scale readings.
        unit: Unit and basis of the figures.
        undetected: How many of the tests are non-detects.
        off_scale: How many are off the lab's scale.
        least: The least figure that was detected; None if nothing ever was.
    """

    n: int
    censored: int
    lower_quartile: float | None
    median: float | None
    upper_quartile: float | None
    mean: float | None
    unit: str
    undetected: int
    off_scale: int
    least: float | None


@dataclass(frozen=True, slots=True)
class Summary:
    """A whole history of at least four tests in a few figures.

    Attributes:
        spread: Its middle and how widely it is spread.
        level: Its long-run level as if it had no trend.
    """

    spread: Spread
    level: Level


def summary(history: Sequence[Result], parameter: Parameter) -> Summary | None:
    """Summarise a history; None with fewer than four tests, or where only presence matters."""
    if parameter.scale == "presence":
        return None
    found = series(history, parameter)
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
