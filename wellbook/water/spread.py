"""The middle of a history and how widely it is spread, non-detects counted in."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from wellbook.water.figures import count, plain
from wellbook.water.kaplan_meier import mean, quantile
from wellbook.water.parameters import Parameter
from wellbook.water.results import Result
from wellbook.water.spans import Span, label, series
from wellbook.water.turnbull import shares_of


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
        sentence: All of it in plain words.
    """

    n: int
    censored: int
    lower_quartile: float | None
    median: float | None
    upper_quartile: float | None
    mean: float | None
    unit: str
    sentence: str


def spread(history: Sequence[Result], parameter: Parameter) -> Spread:
    """Summarise the history of one parameter at one point."""
    found = series(history, parameter)
    spans = found.spans
    masses = shares_of(spans)
    limits = [span.high for span in spans if span.undetected]
    low, middle, high = (quantile(masses, share) for share in (0.25, 0.5, 0.75))
    unit = label(parameter)
    return Spread(
        n=len(spans),
        censored=found.censored,
        lower_quartile=low,
        median=middle,
        upper_quartile=high,
        mean=mean(masses, min(limits, default=0.0)) if any(s.exact for s in spans) else None,
        unit=unit,
        sentence=_sentence(spans, (low, middle, high), unit),
    )


def _sentence(
    spans: Sequence[Span], quartiles: tuple[float | None, float | None, float | None], unit: str
) -> str:
    if not spans:
        return "No test with a usable figure yet."
    low, middle, high = quartiles
    tests = count(len(spans), "test", "tests")
    detected = [span.low for span in spans if not span.undetected]
    undetected = len(spans) - len(detected)
    if not detected:
        return f"Never detected in {tests}."
    bounds = f" ({count(undetected, 'non-detect', 'non-detects')} among them)" if undetected else ""
    if middle is None and sum(span.high == inf for span in spans) > undetected:
        return f"In {tests}{bounds}, half or more were off scale."
    if middle is None:
        return f"In {tests}{bounds}, half or more lay below {plain(min(detected), 3)} {unit}."
    half = f"Half of {tests}{bounds} lay at or below {plain(middle, 3)} {unit}"
    if low is None or high is None or low == high:
        return f"{half}."
    return f"{half}, and the middle half from {plain(low, 3)} to {plain(high, 3)}."
