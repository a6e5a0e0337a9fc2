"""Whether the water was different after an event than before it (rank-sum test).

With non-detects the ranks become certain comparisons, as for a trend (Gehan, Biometrika 52,
1965); without them this is the Wilcoxon-Mann-Whitney test. The shift is the median of all
differences between a test after and a test before (Hodges and Lehmann, 1963).
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

from wellbook.support.translation import N_, _, ngettext
from wellbook.water.statistics.mann_kendall import (
    LEVEL,
    below,
    critical_deviate,
    deviate,
    kendall_score,
    kendall_variance,
    normal_p,
)
from wellbook.water.statistics.series import Series, Span, label, quarter, series
from wellbook.water.statistics.theil_sen import Slope, pair_slopes, slope_of
from wellbook.water.values.figures import chance, plain
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result

# Three against three: the least with which a clean split shows at the 10 % level (1 in 10).
LEAST = 3
_EXACT_UP_TO = 20
_SAID = {
    "higher": N_("Higher afterwards in {tests} ({chance}; rank-sum test)."),
    "lower": N_("Lower afterwards in {tests} ({chance}; rank-sum test)."),
    "no clear change": N_("No clear change in {tests} ({chance}; rank-sum test)."),
}


@dataclass(frozen=True, slots=True)
class RankSum:
    """Outcome of a rank-sum test.

    Attributes:
        score: Pairs where a figure after certainly lies above one before, less the opposite.
        variance: Variance of `score` if the event did not matter.
        p: Two-sided probability of so large a score if the event did not matter.
        exact: Whether `p` comes from counting every split.
        shift: Median difference, after less before, and its 90 % interval (in `rate`).
    """

    score: int
    variance: float
    p: float
    exact: bool
    shift: Slope


@dataclass(frozen=True, slots=True)
class StepChange:
    """What can be said of a change at an event.

    Attributes:
        says: `higher`, `lower`, `no clear change`, `too few tests` or `not for this parameter`.
        before: Days with a usable figure before the event.
        after: Days with a usable figure after it.
        censored: How many of both are bounds.
        statistic: Score of the rank-sum test.
        p: Two-sided probability of so much under chance alone.
        shift: Median difference in `unit`, after less before.
        low: Lower end of the shift's 90 % interval.
        high: Upper end of the shift's 90 % interval.
        unit: Unit and basis of the shift.
        sentence: All of it in plain words.
    """

    says: str
    before: int
    after: int
    censored: int
    statistic: float | None
    p: float | None
    shift: float | None
    low: float | None
    high: float | None
    unit: str
    sentence: str


def step_change(history: Sequence[Result], parameter: Parameter, event: date) -> StepChange:
    """Compare the tests before an event with those after it; its own day counts for neither."""
    unit = label(parameter)
    if parameter.scale == "presence":
        text = _(
            "A change is not worked out where what matters is whether anything was found at all."
        )
        return _untested("not for this parameter", (0, 0, 0), unit, text)
    found = series(history, parameter)
    before, after = _split(found, event)
    counts = (len(before), len(after), found.censored)
    if min(len(before), len(after)) < LEAST:
        text = _(
            "Too few tests to tell: {tests}; at least {least} are needed on either side."
        ).format(
            tests=_tests(len(before), len(after)),
            least=LEAST,
        )
        return _untested("too few tests", counts, unit, text)
    outcome = rank_sum(before, after)
    says = "no clear change"
    if outcome.p <= LEVEL:
        says = "higher" if outcome.score > 0 else "lower"
    return StepChange(
        says,
        *counts,
        outcome.score,
        outcome.p,
        outcome.shift.rate,
        outcome.shift.low,
        outcome.shift.high,
        unit,
        " ".join(filter(None, (_sentence(says, counts, outcome, unit), _seasons(found, event)))),
    )


def rank_sum(before: Sequence[Span], after: Sequence[Span], level: float = 1 - LEVEL) -> RankSum:
    """Test whether figures after tend to lie above or below those before."""
    spans = [Span(0.0, span.low, span.high) for span in before]
    spans += [Span(1.0, span.low, span.high) for span in after]
    score, variance = kendall_score(spans), kendall_variance(spans)
    exact = len(spans) <= _EXACT_UP_TO
    ways = _distribution(spans, len(after)) if exact else {}
    p = _exact_p(ways, score) if exact else normal_p(deviate(score, variance))
    critical = 1 + critical_deviate(level) * sqrt(variance)
    if exact:
        kept = [abs(s) for s in ways if _exact_p(ways, s) > 1 - level + 1e-12]
        critical = max(kept, default=0)
    return RankSum(score, variance, p, exact, slope_of(pair_slopes(spans), critical, level))


def _distribution(spans: Sequence[Span], size: int) -> dict[int, int]:
    """How many of the ways to pick so many spans as `after` give each score."""
    # A span's score against all others adds up: those picked too cancel out in pairs.
    scores = [sum(below(b, a) - below(a, b) for b in spans) for a in spans]
    ways: list[Counter[int]] = [Counter({0: 1})] + [Counter() for _unused in range(size)]
    for score in scores:
        for picked in range(size, 0, -1):
            for total, number in ways[picked - 1].items():
                ways[picked][total + score] += number
    return dict(ways[size])


def _exact_p(ways: dict[int, int], score: int) -> float:
    """Two-sided: scores at least as far from zero."""
    total = sum(ways.values())
    return sum(number for s, number in ways.items() if abs(s) >= abs(score)) / total


def _split(found: Series, event: date) -> tuple[list[Span], list[Span]]:
    pairs = list(zip(found.days, found.spans, strict=True))
    before = [span for day, span in pairs if day < event]
    return before, [span for day, span in pairs if day > event]


def _untested(says: str, counts: tuple[int, int, int], unit: str, text: str) -> StepChange:
    return StepChange(says, *counts, None, None, None, None, None, unit, text)


def _sentence(says: str, counts: tuple[int, int, int], outcome: RankSum, unit: str) -> str:
    before, after, censored = counts
    parts = [_tests(before, after)]
    if censored:
        parts.append(
            ngettext(
                "{n} of them a non-detect or off scale",
                "{n} of them non-detects or off scale",
                censored,
            ).format(n=censored)
        )
    if says != "no clear change" and outcome.shift.rate:
        parts.append(_by(outcome.shift, unit))
    return _(_SAID[says]).format(tests=", ".join(parts), chance=chance(outcome.p))


def _tests(before: int, after: int) -> str:
    return ngettext(
        "{n} test before and {after} after", "{n} tests before and {after} after", before
    ).format(
        n=before,
        after=after,
    )


def _by(shift: Slope, unit: str) -> str:
    size = plain(abs(shift.rate or 0))
    if shift.low is None or shift.high is None:
        return _("by about {shift} {unit}").format(shift=size, unit=unit)
    return _("by about {shift} {unit} (90 % interval {low} to {high})").format(
        shift=size,
        unit=unit,
        low=plain(shift.low),
        high=plain(shift.high),
    )


def _seasons(found: Series, event: date) -> str:
    """A caution where no season was tested on both sides."""
    before = {quarter(day) for day in found.days if day < event}
    after = {quarter(day) for day in found.days if day > event}
    if before & after:
        return ""
    return _("The tests before and after fall into different seasons, which may be the reason.")
