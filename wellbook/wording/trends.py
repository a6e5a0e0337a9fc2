"""What statistics found in a history, in sentences."""

from math import floor, log10

from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.outcomes import (
    FURTHEST,
    LEAST,
    LEAST_A_SIDE,
    SHIFTED,
    UNSTEADY,
    Change,
    Direction,
    Outlook,
    Spread,
    StepChange,
    Trend,
    TrendTest,
)
from wellbook.water.statistics.season.circumstances import Circumstance, Switch
from wellbook.water.values.figures import chance, plain
from wellbook.wording import units
from wellbook.wording.dates import month_of

_TOLD_FROM = 0.1  # a correlation of successive tests worth a word
_HIGH = 3  # an interval whose first digit is at least this is told with one digit


def trend(found: Trend) -> str:
    """Whether a parameter rises or falls, with the evidence."""
    if found.says is Direction.NOT_FOR_THIS:
        return _(
            "A trend is not worked out where what matters is whether anything was found at all."
        )
    if found.says is Direction.PENDING:
        return _("The trend is being worked out.")
    if found.says is Direction.UNSEEN:
        return _("Never detected in {tests}.").format(tests=_tests(found))
    if found.says is Direction.FEW:
        return _too_few(found)
    return " ".join(filter(None, (_tested(found), *_remarks(found), _left_out(found))))


def test_name(test: TrendTest) -> str:
    """The name of a statistical test."""
    return {
        TrendTest.EXACT: _("exact Mann-Kendall test"),
        TrendTest.NORMAL: _("Mann-Kendall test"),
        TrendTest.SEASONAL: _("seasonal Kendall test"),
        TrendTest.BESIDE_SEASON: _("season-adjusted rank test"),
        TrendTest.NONE: "",
    }[test]


def _tested(found: Trend) -> str:
    tests, rate = _with_bounds(found), found.slope_per_year
    evidence = "; ".join(filter(None, (_p(found), test_name(found.test))))
    if found.says is Direction.NO_CLEAR_TREND:
        return _("No clear trend in {tests} ({evidence}).").format(tests=tests, evidence=evidence)
    if found.says is Direction.MAYBE_SEASON:
        return _(
            "In {tests} the time of year moved along with the years, so a trend can’t be told "
            "apart from the season ({evidence}). Tests in the months of the first ones would tell."
        ).format(tests=tests, evidence=evidence)
    if found.says in SHIFTED:
        return _since(found, tests, evidence)
    rises = found.says is Direction.RISING
    if not rate:
        said = (
            _(
                "Rising in {tests}, but too many figures are equal or only bounds for a yearly "
                "rate ({evidence})."
            )
            if rises
            else _(
                "Falling in {tests}, but too many figures are equal or only bounds for a yearly "
                "rate ({evidence})."
            )
        )
        return said.format(tests=tests, evidence=evidence)
    said = (
        _("Rising in {tests}, by about {rate} {unit} a year ({evidence}).")
        if rises
        else _("Falling in {tests}, by about {rate} {unit} a year ({evidence}).")
    )
    size, interval = _with_interval(rate, found.low, found.high)
    evidence = "; ".join(filter(None, (interval, evidence)))
    return said.format(tests=tests, rate=size, unit=units.said(found.unit), evidence=evidence)


def _since(found: Trend, tests: str, evidence: str) -> str:
    said = (
        _(
            "Higher in later ones of {tests} ({evidence}), but tests between which nothing of this "
            "changed don’t show it: {changes}. So that may be the reason, and not the water of the "
            "well; nothing is foretold from it."
        )
        if found.says is Direction.HIGHER_SINCE
        else _(
            "Lower in later ones of {tests} ({evidence}), but tests between which nothing of this "
            "changed don’t show it: {changes}. So that may be the reason, and not the water of the "
            "well; nothing is foretold from it."
        )
    )
    changes = "; ".join(map(_switch, found.switches))
    return said.format(tests=tests, evidence=evidence, changes=changes)


def _switch(made: Switch) -> str:
    """What changed, and the months of the first tests after it."""
    said = {
        Circumstance.LAB: _("another lab from {months} on"),
        Circumstance.METHOD: _("another method from {months} on"),
        Circumstance.TREATMENT: _("other treatment from {months} on"),
    }[made.of]
    return said.format(months=", ".join(dict.fromkeys(map(month_of, made.days))))


def _remarks(found: Trend) -> tuple[str, ...]:
    """What a reader must know about the test besides."""
    told = []
    detected = found.n - found.censored
    if found.says in UNSTEADY and detected < LEAST:
        told.append(
            ngettext(
                "It rests on {n} detected figure only.",
                "It rests on {n} detected figures only.",
                detected,
            ).format(n=detected)
        )
    if found.maybe_dependence:
        told.append(
            _(
                "Successive tests resemble each other, and {n} tests are too few to tell that from "
                "a trend; nothing is foretold from it."
            ).format(n=found.n)
        )
    if found.seasons_differ:
        told.append(_("The seasons don’t go the same way: look at each of them."))
    if found.correlation is not None and found.correlation >= _TOLD_FROM:
        told.append(
            _(
                "Successive tests resemble each other (correlation {figure}), which is allowed for."
            ).format(figure=f"{found.correlation:.1f}")
        )
    return tuple(told)


def _p(found: Trend) -> str:
    return "" if found.p is None else chance(found.p)


def _with_interval(middle: float, low: float | None, high: float | None) -> tuple[str, str]:
    """A size without its sign, and its 90 % interval, with as many digits as the interval has.

    The interval keeps away from no change, so an end at it is not part of it.
    """
    near, far = (low, high) if middle > 0 else (high, low)
    if near is not None and (near > 0) is not (middle > 0):
        near = 0.0
    if far is None:
        if not near:
            return plain(abs(middle)), ""
        least = _("90 % interval {low} or more").format(low=plain(abs(near)))
        return plain(abs(middle)), least
    ends = (abs(near or 0.0), abs(far))
    places = _places(ends[1] - ends[0], abs(middle))
    size, low_end, high_end = (_rounded(figure, places) for figure in (abs(middle), *ends))
    if not float(size):  # a wide interval leaves it no digit, and it is not 0
        size = plain(abs(middle), 1)
    if not float(low_end):
        return size, _("90 % interval more than 0, up to {high}").format(high=high_end)
    return size, _("90 % interval {low} to {high}").format(low=low_end, high=high_end)


def _places(width: float, size: float) -> int:
    """Decimal places with which an interval so wide is told: two digits, one if it starts high."""
    if not width:
        return 1 - floor(log10(size)) if size else 0
    first = floor(log10(width))
    return -first if width >= _HIGH * 10.0**first else 1 - first


def _rounded(figure: float, places: int) -> str:
    rounded = round(figure, places)
    return f"{rounded:.{max(places, 0)}f}"


def _tests(found: Trend) -> str:
    said = ngettext("{n} test of {first}", "{n} tests from {first} to {last}", found.n)
    if found.span is None:
        return said.format(n=found.n, first="", last="")
    first, last = map(month_of, found.span)
    return said.format(n=found.n, first=first, last=last)


def _with_bounds(found: Trend) -> str:
    """The tests, and how many of them only give bounds."""
    undetected, off_scale = found.undetected, found.censored - found.undetected
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


def _too_few(found: Trend) -> str:
    least, n = LEAST, found.n
    if n >= least:
        tests = _with_bounds(found)
        return _("Too few tests to tell: in {tests} too few figures differ.").format(tests=tests)
    if not n:
        said = _("No test with a usable figure yet; a trend needs at least {least}.").format(
            least=least
        )
    else:
        said = ngettext(
            "Too few tests to tell: {tests}; at least {least} are needed, so {n} more test.",
            "Too few tests to tell: {tests}; at least {least} are needed, so {n} more tests.",
            least - n,
        ).format(n=least - n, tests=_tests(found), least=least)
    return " ".join(filter(None, (said, _left_out(found))))


def _left_out(found: Trend) -> str:
    if not found.left_out:
        return ""
    return ngettext(
        "{n} result is left out: no usable figure, or another sort of sample.",
        "{n} results are left out: no usable figure, or another sort of sample.",
        found.left_out,
    ).format(n=found.left_out)


def step_change(found: StepChange) -> str:
    """Whether the water was different after an event, with the evidence."""
    if found.says is Change.NOT_FOR_THIS:
        return _(
            "A change is not worked out where what matters is whether anything was found at all."
        )
    if found.says is Change.FEW:
        return _(
            "Too few tests to tell: {tests}; at least {least} are needed on either side."
        ).format(tests=_both_sides(found), least=LEAST_A_SIDE)
    said = {
        Change.HIGHER: _("Higher afterwards in {tests} ({chance}; rank-sum test)."),
        Change.LOWER: _("Lower afterwards in {tests} ({chance}; rank-sum test)."),
        Change.NO_CLEAR_CHANGE: _("No clear change in {tests} ({chance}; rank-sum test)."),
    }[found.says].format(
        tests=", ".join(_step_evidence(found)),
        chance="" if found.p is None else chance(found.p),
    )
    return " ".join((said, *_besides(found)))


def _besides(found: StepChange) -> list[str]:
    """What else was different on either side of an event."""
    told = {
        Circumstance.LAB: _("Before and after by other labs, which may be the reason."),
        Circumstance.METHOD: _("Before and after by other methods, which may be the reason."),
    }
    said = [told[one] for one in found.also if one in told]
    if found.seasons_differ:
        said.append(
            _("The tests before and after fall into different seasons, which may be the reason.")
        )
    return said


def _step_evidence(found: StepChange) -> list[str]:
    parts = [_both_sides(found)]
    if found.censored:
        parts.append(
            ngettext(
                "{n} of them a non-detect or off scale",
                "{n} of them non-detects or off scale",
                found.censored,
            ).format(n=found.censored)
        )
    if found.says is not Change.NO_CLEAR_CHANGE and found.shift:
        parts.append(_shift(found, found.shift))
    return parts


def _both_sides(found: StepChange) -> str:
    return ngettext(
        "{n} test before and {after} after", "{n} tests before and {after} after", found.before
    ).format(n=found.before, after=found.after)


def _shift(found: StepChange, shift: float) -> str:
    size, interval = _with_interval(shift, found.low, found.high)
    if not interval:
        return _("by about {shift} {unit}").format(shift=size, unit=units.said(found.unit))
    return _("by about {shift} {unit} ({interval})").format(
        shift=size, unit=units.said(found.unit), interval=interval
    )


def outlook(found: Outlook) -> str:
    """How many more tests it takes until a trend would show."""
    if found.further == 0:
        return _("The trend shows already.")
    if found.pace is None or found.slope_per_year is None:
        return _("How many more tests it would take can’t be told: too few figures, or no change.")
    steady = _("If it goes on by {slope} {unit} a year, with tests every {pace}, ").format(
        slope=plain(found.slope_per_year), unit=units.said(found.unit), pace=months(found.pace)
    )
    if found.further is None:
        return steady + _("it would not show within {n} more tests: next to no trend.").format(
            n=FURTHEST
        )
    return steady + ngettext(
        "the trend would show after about {n} more test (with a chance of four in five).",
        "the trend would show after about {n} more tests (with a chance of four in five).",
        found.further,
    ).format(n=found.further)


def months(years: float) -> str:
    """A time in years, told in months."""
    n = max(1, round(years * 12))
    return ngettext("{n} month", "{n} months", n).format(n=n)


def spread(found: Spread) -> str:
    """The middle of a history and how widely it is spread."""
    if not found.n:
        return _("No test with a usable figure yet.")
    tests = ngettext("{n} test", "{n} tests", found.n).format(n=found.n)
    if found.least is None:
        return _("Never detected in {tests}.").format(tests=tests)
    if found.undetected:
        tests = f"{tests} {_among(found)}"
    if found.median is None and found.off_scale > found.undetected:
        return _("In {tests}, half or more were off scale.").format(tests=tests)
    if found.median is None:
        return _("In {tests}, half or more lay below {figure} {unit}.").format(
            tests=tests, figure=plain(found.least, 3), unit=units.said(found.unit)
        )
    return _quartiles(found, found.median, tests)


def _among(found: Spread) -> str:
    """How many non-detects are among the tests, and by which method they count in the middle."""
    n = found.undetected
    if found.median is None:
        said = ngettext("({n} non-detect among them)", "({n} non-detects among them)", n)
        return said.format(n=n)
    return ngettext(
        "({n} non-detect among them, counted in by {method})",
        "({n} non-detects among them, counted in by {method})",
        n,
    ).format(n=n, method=_("Turnbull") if found.off_scale else _("Kaplan-Meier"))


def _quartiles(found: Spread, middle: float, tests: str) -> str:
    low, high = found.lower_quartile, found.upper_quartile
    half = {"tests": tests, "figure": plain(middle, 3), "unit": units.said(found.unit)}
    if low is None or high is None or low == high:
        return _("Half of {tests} lay at or below {figure} {unit}.").format(**half)
    return _(
        "Half of {tests} lay at or below {figure} {unit}, and the middle half from {low} to {high}."
    ).format(low=plain(low, 3), high=plain(high, 3), **half)
