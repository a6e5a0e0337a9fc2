"""Whether a parameter at a point rises or falls, said in one sentence with its evidence."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.water.figures import chance, count, plain
from wellbook.water.kaplan_meier import quantile
from wellbook.water.mann_kendall import LEVEL, mann_kendall
from wellbook.water.parameters import Parameter
from wellbook.water.results import Result
from wellbook.water.seasonal_kendall import seasonal_kendall, seasonal_slope
from wellbook.water.seasons import month_of
from wellbook.water.spans import DAYS_A_YEAR, Series, Span, label, quarter, series
from wellbook.water.theil_sen import Slope, theil_sen
from wellbook.water.turnbull import shares_of

# With four tests only a perfect rise could show, with five one single pair may go the other way.
# From six on, one odd test neither makes nor hides a trend.
LEAST = 6
# With so many tests in every quarter of the year, each quarter is compared with itself only.
LEAST_A_QUARTER = 5


@dataclass(frozen=True, slots=True)
class Trend:
    """What can be said of the trend of one parameter at one point.

    Attributes:
        says: `rising`, `falling`, `no clear trend`, `too few tests`, `only non-detects` or
            `not for this parameter`.
        test: Name of the test, or empty where none was made.
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        statistic: Kendall's S, within the quarters of the year for the seasonal test.
        p: Two-sided probability of so much under chance alone.
        slope_per_year: Theil-Sen slope in `unit` a year; None where bounds leave it open.
        low: Lower end of the slope's 90 % interval.
        high: Upper end of the slope's 90 % interval.
        unit: Unit and basis of the slope, e.g. `mg/L as N`.
        sentence: All of it in plain words.
        line: Both ends of the line to draw, only where it rises or falls.
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
    line: tuple[tuple[date, float], tuple[date, float]] | None = None


@dataclass(frozen=True, slots=True)
class _Outcome:
    test: str
    statistic: int
    p: float
    slope: Slope
    caution: str = ""


def trend(history: Sequence[Result], parameter: Parameter) -> Trend:
    """Judge the history of one parameter at one point (raw and treated water never mixed)."""
    unit = label(parameter)
    if parameter.scale == "presence":
        text = "A trend is not worked out where what matters is whether anything was found at all."
        return _untested("not for this parameter", Series((), ()), unit, text)
    found = series(history, parameter)
    spans = found.spans
    if spans and all(span.undetected for span in spans):
        return _untested("only non-detects", found, unit, f"Never detected in {_tests(found)}.")
    if len(spans) < LEAST:
        return _untested("too few tests", found, unit, _too_few(found))
    outcome = _by_season(found) or _plainly(spans)
    if outcome.p > LEVEL and not can_tell(spans):
        text = f"Too few tests to tell: in {_tests(found)}{_bounds(found)} too few figures differ."
        return _untested("too few tests", found, unit, text)
    return _tested(found, outcome, unit)


def can_tell(spans: Sequence[Span]) -> bool:
    """Whether these figures, put into the most telling order, would show as a trend."""
    if len({span.low for span in spans if span.exact}) >= LEAST:
        return True
    ranked = sorted(spans, key=lambda span: (span.low, span.high))
    steps = [Span(float(k), span.low, span.high) for k, span in enumerate(ranked)]
    return mann_kendall(steps).p <= LEVEL


def _plainly(spans: Sequence[Span]) -> _Outcome:
    kendall = mann_kendall(spans)
    test = "exact Mann-Kendall test" if kendall.exact else "Mann-Kendall test"
    return _Outcome(test, kendall.s, kendall.p, theil_sen(spans))


def _by_season(found: Series) -> _Outcome | None:
    """The test within the quarters of the year, once each of the four holds enough tests."""
    quarters = [quarter(day) for day in found.days]
    counts = Counter(quarters)
    if len(counts) < 4 or min(counts.values()) < LEAST_A_QUARTER:  # noqa: PLR2004  quarters
        return None
    kendall = seasonal_kendall(found.spans, quarters)
    caution = ""
    if kendall.p_agree <= LEVEL:
        caution = " The seasons don't go the same way: look at each of them."
    slope = seasonal_slope(found.spans, quarters)
    return _Outcome("seasonal Kendall test", kendall.s, kendall.p, slope, caution)


def _tested(found: Series, outcome: _Outcome, unit: str) -> Trend:
    says, slope = "no clear trend", outcome.slope
    if outcome.p <= LEVEL:
        says = "rising" if outcome.statistic > 0 else "falling"
    rate, interval = _rate(says, slope, unit)
    evidence = f"{interval}{chance(outcome.p)}; {outcome.test}"
    return Trend(
        says=says,
        test=outcome.test,
        n=len(found.spans),
        censored=found.censored,
        statistic=outcome.statistic,
        p=outcome.p,
        slope_per_year=slope.rate,
        low=slope.low,
        high=slope.high,
        unit=unit,
        sentence=f"{says.capitalize()} in {_tests(found)}{_bounds(found)}{rate} ({evidence})."
        f"{outcome.caution}{_left_out(found)}",
        line=None if says == "no clear trend" else _line(found, slope),
    )


def _untested(says: str, found: Series, unit: str, sentence: str) -> Trend:
    n, censored = len(found.spans), found.censored
    return Trend(says, "", n, censored, None, None, None, None, None, unit, sentence)


def _line(found: Series, slope: Slope) -> tuple[tuple[date, float], tuple[date, float]] | None:
    """Through the median of what is left when the slope is taken off."""
    if not slope.rate:
        return None
    rate, start = slope.rate, found.spans[0].at
    left = [
        Span(s.at, s.low - rate * (s.at - start), s.high - rate * (s.at - start))
        for s in found.spans
    ]
    level = quantile(shares_of(left), 0.5)
    if level is None:
        return None
    first, last = found.days[0], found.days[-1]
    return (first, level), (last, level + rate * (last - first).days / DAYS_A_YEAR)


def _tests(found: Series) -> str:
    n, first, last = len(found.spans), month_of(found.days[0]), month_of(found.days[-1])
    return f"1 test of {first}" if n == 1 else f"{n} tests from {first} to {last}"


def _bounds(found: Series) -> str:
    undetected = sum(span.undetected for span in found.spans)
    off_scale = found.censored - undetected
    parts = [f"{undetected} of them {'a non-detect' if undetected == 1 else 'non-detects'}"]
    parts = parts if undetected else []
    parts += [f"{off_scale} of them off scale"] if off_scale else []
    return "".join(f", {part}" for part in parts)


def _rate(says: str, slope: Slope, unit: str) -> tuple[str, str]:
    """The yearly rate, and its interval for the brackets behind it."""
    if says == "no clear trend":
        return "", ""
    if not slope.rate:
        return ", but too many figures are equal or only bounds for a yearly rate", ""
    interval = ""
    if slope.low is not None and slope.high is not None:
        low, high = sorted((abs(slope.low), abs(slope.high)))
        interval = f"90 % interval {plain(low)} to {plain(high)}; "
    return f", by about {plain(abs(slope.rate))} {unit} a year", interval


def _too_few(found: Series) -> str:
    left_out = _left_out(found)
    if not found.spans:
        return f"No test with a usable figure yet; a trend needs at least {LEAST}.{left_out}"
    more = count(LEAST - len(found.spans), "more test", "more tests")
    return (
        f"Too few tests to tell: {_tests(found)}; at least {LEAST} are needed, so {more}.{left_out}"
    )


def _left_out(found: Series) -> str:
    if not found.left_out:
        return ""
    results = count(found.left_out, "result is", "results are")
    return f" {results} left out: no usable figure, or another sort of sample."
