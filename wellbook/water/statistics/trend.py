"""Whether a parameter at a point rises or falls, said in one sentence with its evidence."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from wellbook.support.translation import N_, _, ngettext
from wellbook.water.statistics.forecast import Course, course
from wellbook.water.statistics.kaplan_meier import quantile
from wellbook.water.statistics.mann_kendall import LEVEL, mann_kendall
from wellbook.water.statistics.season.guarded_test import Guarded, guarded_test
from wellbook.water.statistics.series import BELOW_ZERO, DAYS_A_YEAR, Series, Span, label, series
from wellbook.water.statistics.theil_sen import Slope
from wellbook.water.statistics.turnbull import shares_of
from wellbook.water.values.figures import chance, plain
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import month_of

# With four tests only a perfect rise could show, with five one single pair may go the other way.
# From six on, one odd test neither makes nor hides a trend.
LEAST = 6
_TOLD_FROM = 0.1  # a correlation of successive tests worth a word

# What a trend says is a key; it is said where it is printed. So is the name of a test.
RISING, FALLING, LEVEL_OR_OPEN = N_("rising"), N_("falling"), N_("no clear trend")
FEW, UNSEEN = N_("too few tests"), N_("only non-detects")
MAYBE_SEASON = N_("may be the season")
NOT_FOR_THIS = N_("not for this parameter")
_AT_RATE = {
    RISING: N_("Rising in {tests}, by about {rate} {unit} a year ({evidence})."),
    FALLING: N_("Falling in {tests}, by about {rate} {unit} a year ({evidence})."),
}
_WITHOUT_RATE = {
    RISING: N_(
        "Rising in {tests}, but too many figures are equal or only bounds for a yearly rate "
        "({evidence})."
    ),
    FALLING: N_(
        "Falling in {tests}, but too many figures are equal or only bounds for a yearly rate "
        "({evidence})."
    ),
}


@dataclass(frozen=True, slots=True)
class Trend:
    """What can be said of the trend of one parameter at one point.

    Attributes:
        says: `rising`, `falling`, `no clear trend`, `may be the season`, `too few tests`,
            `only non-detects` or `not for this parameter`.
        test: Name of the test, or empty where none was made.
        n: Days with a usable figure.
        censored: How many of them are bounds (non-detects, off scale).
        statistic: Kendall's S, within the quarters of the year for the seasonal test; Student's t
            of the test beside a yearly cycle.
        p: Two-sided probability of so much under chance alone.
        slope_per_year: Theil-Sen slope in `unit` a year; None where bounds leave it open.
        low: Lower end of the slope's 90 % interval.
        high: Upper end of the slope's 90 % interval.
        unit: Unit and basis of the slope, e.g. `mg/L as N`.
        sentence: All of it in plain words.
        line: Both ends of the line that was tested, only where it rises or falls; it is cut where
            it would fall below zero.
        course: The line with its interval and how far ahead it may be drawn; only where it rises
            or falls and rests on enough tests.
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
    course: Course | None = None


def trend(history: Sequence[Result], parameter: Parameter) -> Trend:
    """Judge the history of one parameter at one point (raw and treated water never mixed)."""
    unit = label(parameter)
    if parameter.scale == "presence":
        text = _(
            "A trend is not worked out where what matters is whether anything was found at all."
        )
        return _untested(NOT_FOR_THIS, Series((), ()), unit, text)
    found = series(history, parameter)
    spans = found.spans
    if spans and all(span.undetected for span in spans):
        text = _("Never detected in {tests}.").format(tests=_tests(found))
        return _untested(UNSEEN, found, unit, text)
    if len(spans) < LEAST:
        return _untested(FEW, found, unit, _too_few(found))
    outcome = guarded_test(found)
    if outcome.p > LEVEL and not can_tell(spans):
        tests = _with_bounds(found)
        text = _("Too few tests to tell: in {tests} too few figures differ.").format(tests=tests)
        return _untested(FEW, found, unit, text)
    return _tested(found, outcome, unit, parameter)


def can_tell(spans: Sequence[Span]) -> bool:
    """Whether these figures, put into the most telling order, would show as a trend."""
    if len({span.low for span in spans if span.exact}) >= LEAST:
        return True
    ranked = sorted(spans, key=lambda span: (span.low, span.high))
    steps = [Span(float(k), span.low, span.high) for k, span in enumerate(ranked)]
    return mann_kendall(steps).p <= LEVEL


def _tested(found: Series, outcome: Guarded, unit: str, parameter: Parameter) -> Trend:
    says, slope = LEVEL_OR_OPEN, outcome.slope
    if outcome.p <= LEVEL:
        says = RISING if outcome.statistic > 0 else FALLING
    elif outcome.maybe_season:
        says = MAYBE_SEASON
    sentences = (_sentence(says, found, outcome, unit), *_remarks(outcome), _left_out(found))
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
        sentence=" ".join(filter(None, sentences)),
        line=_line(found, outcome, parameter) if says in _AT_RATE else None,
        course=course(outcome.flat, slope) if says in _AT_RATE else None,
    )


def _untested(says: str, found: Series, unit: str, sentence: str) -> Trend:
    n, censored = len(found.spans), found.censored
    return Trend(says, "", n, censored, None, None, None, None, None, unit, sentence)


def _line(
    found: Series, outcome: Guarded, parameter: Parameter
) -> tuple[tuple[date, float], tuple[date, float]] | None:
    """Through the median of what is left when the slope is taken off; never below zero."""
    rate = outcome.slope.rate
    middle = quantile(shares_of(outcome.flat), 0.5)
    if not rate or middle is None:
        return None
    first, last = found.days[0], found.days[-1]
    centre = sum(span.at for span in found.spans) / len(found.spans)
    level = middle + rate * (found.spans[0].at - centre)
    end = middle + rate * (found.spans[-1].at - centre)
    if min(level, end) >= 0 or parameter.unit in BELOW_ZERO:
        return (first, level), (last, end)
    if max(level, end) <= 0:
        return None
    crossing = first + timedelta(days=round(-level / rate * DAYS_A_YEAR))
    return ((crossing, 0.0), (last, end)) if level < 0 else ((first, level), (crossing, 0.0))


def _tests(found: Series) -> str:
    return ngettext(
        "{n} test of {first}", "{n} tests from {first} to {last}", len(found.spans)
    ).format(
        n=len(found.spans),
        first=month_of(found.days[0]),
        last=month_of(found.days[-1]),
    )


def _with_bounds(found: Series) -> str:
    """The tests, and how many of them only give bounds."""
    undetected = sum(span.undetected for span in found.spans)
    off_scale = found.censored - undetected
    parts = [_tests(found)]
    if undetected:
        parts.append(
            ngettext("{n} of them a non-detect", "{n} of them non-detects", undetected).format(
                n=undetected
            )
        )
    if off_scale:
        parts.append(
            ngettext("{n} of them off scale", "{n} of them off scale", off_scale).format(
                n=off_scale
            )
        )
    return ", ".join(parts)


def _sentence(says: str, found: Series, outcome: Guarded, unit: str) -> str:
    tests, rate = _with_bounds(found), outcome.slope.rate
    evidence = f"{chance(outcome.p)}; {_(outcome.test)}"
    if says == LEVEL_OR_OPEN:
        return _("No clear trend in {tests} ({evidence}).").format(tests=tests, evidence=evidence)
    if says == MAYBE_SEASON:
        return _(
            "In {tests} the time of year moved along with the years, so a trend can’t be told "
            "apart from the season ({evidence}). Tests in the months of the first ones would tell."
        ).format(tests=tests, evidence=evidence)
    if not rate:
        return _(_WITHOUT_RATE[says]).format(tests=tests, evidence=evidence)
    evidence = "; ".join(filter(None, (_interval(outcome.slope), evidence)))
    size = plain(abs(rate))
    return _(_AT_RATE[says]).format(tests=tests, rate=size, unit=unit, evidence=evidence)


def _remarks(outcome: Guarded) -> tuple[str, ...]:
    """What a reader must know about the test besides."""
    told = []
    if outcome.seasons_differ:
        told.append(_("The seasons don't go the same way: look at each of them."))
    if outcome.correlation is not None and outcome.correlation >= _TOLD_FROM:
        told.append(
            _(
                "Successive tests resemble each other (correlation {figure}), which is allowed for."
            ).format(figure=f"{outcome.correlation:.1f}")
        )
    return tuple(told)


def _interval(slope: Slope) -> str:
    if slope.low is None or slope.high is None:
        return ""
    low, high = sorted((abs(slope.low), abs(slope.high)))
    return _("90 % interval {low} to {high}").format(low=plain(low), high=plain(high))


def _too_few(found: Series) -> str:
    if not found.spans:
        text = _("No test with a usable figure yet; a trend needs at least {least}.").format(
            least=LEAST
        )
    else:
        text = ngettext(
            "Too few tests to tell: {tests}; at least {least} are needed, so {n} more test.",
            "Too few tests to tell: {tests}; at least {least} are needed, so {n} more tests.",
            LEAST - len(found.spans),
        ).format(
            n=LEAST - len(found.spans),
            tests=_tests(found),
            least=LEAST,
        )
    return " ".join(filter(None, (text, _left_out(found))))


def _left_out(found: Series) -> str:
    if not found.left_out:
        return ""
    return ngettext(
        "{n} result is left out: no usable figure, or another sort of sample.",
        "{n} results are left out: no usable figure, or another sort of sample.",
        found.left_out,
    ).format(n=found.left_out)
