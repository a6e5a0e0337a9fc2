"""Whether a parameter at a point rises or falls, said in one sentence with its evidence."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from wellbook.water.mann_kendall import (
    Kendall,
    mann_kendall,
)
from wellbook.water.parameters import Parameter
from wellbook.water.results import Result
from wellbook.water.spans import Series, Span, series
from wellbook.water.theil_sen import Slope, theil_sen

# A trend is said where chance alone would show so much in at most one of ten steady histories.
LEVEL = 0.10
# With four tests only a perfect rise could show, with five one single pair may go the other way.
# From six on, one odd test neither makes nor hides a trend.
LEAST = 6


@dataclass(frozen=True, slots=True)
class Trend:
    """What can be said of the trend of one parameter at one point.

    Attributes:
        says: `rising`, `falling`, `no clear trend`, `too few tests`, `only non-detects` or
            `not for this parameter`.
        test: Name of the test, or empty where none was made.
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        statistic: Kendall's S.
        p: Two-sided probability of so much under chance alone.
        slope_per_year: Theil-Sen slope in `unit` a year.
        low: Lower end of the slope's 90 % interval.
        high: Upper end of the slope's 90 % interval.
        unit: Unit and basis of the slope, e.g. `mg/L as N`.
        sentence: All of it in plain words.
    """

    says: str
    test: str
    n: int
    censored: int
    statistic: float | None
    p: float | None
    slope_per_year: float | None
    low: float | None
    high: float | None
    unit: str
    sentence: str


def trend(history: Sequence[Result], parameter: Parameter) -> Trend:
    """Judge the history of one parameter at one point (raw and treated water never mixed)."""
    unit = f"{parameter.unit} {parameter.basis}".strip()
    if parameter.scale == "presence":
        return _untested("not for this parameter", Series((), ()), unit, _NOT_FOR_PRESENCE)
    found = series(history, parameter)
    n, spans = len(found.spans), found.spans
    if n and all(span.undetected for span in spans):
        return _untested("only non-detects", found, unit, _only_nondetects(found))
    if n < LEAST:
        return _untested("too few tests", found, unit, _too_few(found))
    if not _can_tell(spans):
        return _untested("too few tests", found, unit, _too_few_detects(found))
    return _tested(found, mann_kendall(spans), theil_sen(spans, 1 - LEVEL), unit)


_NOT_FOR_PRESENCE = (
    "A trend is not worked out where what matters is whether anything was found at all."
)


def _untested(says: str, found: Series, unit: str, sentence: str) -> Trend:
    n, censored = len(found.spans), found.censored
    return Trend(says, "", n, censored, None, None, None, None, None, unit, sentence)


def _tested(found: Series, kendall: Kendall, slope: Slope, unit: str) -> Trend:
    says = "no clear trend"
    if kendall.p <= LEVEL:
        says = "rising" if kendall.s > 0 else "falling"
    return Trend(
        says=says,
        test="Mann-Kendall, exact" if kendall.exact else "Mann-Kendall",
        n=kendall.n,
        censored=kendall.censored,
        statistic=kendall.s,
        p=kendall.p,
        slope_per_year=slope.rate,
        low=slope.low,
        high=slope.high,
        unit=unit,
        sentence=f"{says.capitalize()} in {_tests(found)}{_rate(says, slope, unit)} "
        f"({_chance(kendall.p)}; {'exact ' if kendall.exact else ''}Mann-Kendall test).",
    )


def _can_tell(spans: Sequence[Span]) -> bool:
    """Whether any order of these spans in time would show as a trend."""
    ranked = sorted(spans, key=lambda span: (span.low, span.high))
    steps = [Span(float(k), span.low, span.high) for k, span in enumerate(ranked)]
    best = mann_kendall(steps)
    return best.p <= LEVEL


def _tests(found: Series) -> str:
    n, censored = len(found.spans), found.censored
    period = f"from {_month(found.days[0])} to {_month(found.days[-1])}"
    bounds = f", {censored} of them non-detects or off scale" if censored else ""
    return f"{n} {'test' if n == 1 else 'tests'} {period}{bounds}"


def _rate(says: str, slope: Slope, unit: str) -> str:
    if says == "no clear trend":
        return ""
    if not slope.rate:
        return ", but too many figures are equal or bounds for a yearly rate"
    interval = ""
    if slope.low is not None and slope.high is not None:
        interval = f" (90 % interval {plain(slope.low)} to {plain(slope.high)})"
    return f", by about {plain(abs(slope.rate))} {unit} a year{interval}"


def _too_few(found: Series) -> str:
    n = len(found.spans)
    if not n:
        return f"No test with a usable figure yet; a trend needs at least {LEAST}."
    more = LEAST - n
    return (
        f"Too few tests to tell: {_tests(found)}; a trend needs at least {LEAST}, "
        f"so {more} more {'test' if more == 1 else 'tests'}."
    )


def _too_few_detects(found: Series) -> str:
    return (
        f"Too few tests to tell: in {_tests(found)}, too few figures can be compared with each "
        "other for any trend to show."
    )


def _only_nondetects(found: Series) -> str:
    return f"Never detected in {_tests(found).split(',')[0]}, so there is no trend to work out."


def _chance(p: float) -> str:
    return "p < 0.001" if p < 0.001 else f"p = {p:.2g}"  # noqa: PLR2004  three places will do


def _month(day: date) -> str:
    return f"{day:%b %Y}"


def plain(figure: float, digits: int = 2) -> str:
    """A figure to so many significant digits, without exponent."""
    text = f"{Decimal(f'{figure:.{digits}g}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
