"""The middle of a history and how widely it is spread, non-detects counted in."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.kaplan_meier import mean, quantile
from wellbook.water.statistics.series import Span, label, series
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.figures import plain
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result


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
        return _("No test with a usable figure yet.")
    low, middle, high = quartiles
    tests = ngettext("{n} test", "{n} tests", len(spans)).format(n=len(spans))
    detected = [span.low for span in spans if not span.undetected]
    undetected = len(spans) - len(detected)
    if not detected:
        return _("Never detected in {tests}.").format(tests=tests)
    if undetected:
        among = ngettext(
            "({n} non-detect among them)", "({n} non-detects among them)", undetected
        ).format(n=undetected)
        tests = f"{tests} {among}"
    if middle is None and sum(span.high == inf for span in spans) > undetected:
        return _("In {tests}, half or more were off scale.").format(tests=tests)
    if middle is None:
        return _("In {tests}, half or more lay below {figure} {unit}.").format(
            tests=tests,
            figure=plain(min(detected), 3),
            unit=unit,
        )
    half = {"tests": tests, "figure": plain(middle, 3), "unit": unit}
    if low is None or high is None or low == high:
        return _("Half of {tests} lay at or below {figure} {unit}.").format(**half)
    return _(
        "Half of {tests} lay at or below {figure} {unit}, and the middle half from {low} to {high}."
    ).format(
        low=plain(low, 3),
        high=plain(high, 3),
        **half,
    )
