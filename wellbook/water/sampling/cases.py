"""A finding of bacteria opens a case with steps; it closes by a stated rule.

The steps are the usual ones (state health departments: Florida, Vermont, Virginia 12VAC5-630-431,
read 2026-11-25): confirm, find and mend the cause, disinfect as the local code asks, wait until no
chlorine is left, test twice, test again after one to three months and in the next wet season,
because findings come and go (Lincoln Township, Wisconsin, 2014). How many clean samples close a
case differs from place to place; our rule is stricter than most.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from wellbook.water.sampling.dated_events import Happening
from wellbook.water.values.seasons import Scheme, add_months
from wellbook.water.verdicts.bacteria import BacteriaTest, Sign

CHLORINE_GONE = timedelta(days=2)  # at the least (Vermont: 2 to 3 days after the smell is gone)
_MENDING = frozenset({"repair", "pump", "disinfection"})
_LONG_RUN, _LONG_MONTHS = 4, 24


class Step(StrEnum):
    """What comes next in a case."""

    CONFIRM = "second sample"
    MEND = "mend the cause, then test"
    RETEST = "test after mending"
    WATCH = "test after one to three months"
    WET = "test in the wet season"


@dataclass(frozen=True, slots=True)
class Case:
    """A finding and what followed.

    Attributes:
        opened: Day of the sample in which bacteria were found first.
        names: What was found.
        findings: Days of all samples with a finding.
        mended: Last day of a repair or disinfection since the last finding; None if none is noted.
        disinfected: Last day of a disinfection since the case was opened.
        clean: Days of clean samples since the last finding and disinfection.
        closed: Day of the sample that closed it; None while it is open.
    """

    opened: date
    names: tuple[str, ...]
    findings: tuple[date, ...]
    mended: date | None = None
    disinfected: date | None = None
    clean: tuple[date, ...] = ()
    closed: date | None = None


@dataclass(frozen=True, slots=True)
class Progress:
    """Which of the clean samples that close a case are there.

    Attributes:
        second: Day of the second clean sample, at least a day after the first.
        later: Day of the first clean one a month or more after the second.
        wet: Day of the first clean one after the second in a wet season.
    """

    second: date | None = None
    later: date | None = None
    wet: date | None = None


def cases(
    tests: Sequence[BacteriaTest], causes: Sequence[Happening], scheme: Scheme
) -> tuple[Case, ...]:
    """Every case at one point in order of time; only the last can be open.

    Args:
        tests: Its bacteria samples in order of time.
        causes: What happened at the well.
        scheme: How the year is divided.
    """
    done: list[Case] = []
    case: Case | None = None
    for moment in _in_order(tests, causes):
        if isinstance(moment, Happening):
            case = case and _after_mending(case, moment)
        elif moment.sign is Sign.FOUND:
            case = _found(case, moment)
        elif case and moment.is_clean_of(case.names):
            case = _after_clean(case, moment, scheme)
        if case and case.closed:
            done.append(case)
            case = None
    return (*done, *filter(None, [case]))


def progress(case: Case, scheme: Scheme) -> Progress:
    """How far the clean samples of a case reach."""
    first, *rest = case.clean or (None,)
    second = next((day for day in rest if day > first), None) if first else None
    if second is None:
        return Progress()
    month = add_months(second, 1)
    wet = wet_months(scheme)
    return Progress(
        second,
        next((day for day in case.clean if day >= month), None),
        next((day for day in case.clean if day > second and day.month in wet), None),
    )


def step(case: Case, scheme: Scheme) -> Step:
    """What comes next in an open case."""
    reached = progress(case, scheme)
    if reached.second:
        return Step.WET if reached.later else Step.WATCH
    if case.clean or case.mended:
        return Step.RETEST
    return Step.MEND if len(case.findings) > 1 else Step.CONFIRM


def wet_months(scheme: Scheme) -> frozenset[int]:
    """The household's own wet months, or spring, when the ground is wettest.

    That it is spring elsewhere is common practice, no source.
    """
    keys = {season.key for season in scheme.seasons}
    wanted = "wet" if "wet" in keys else "spring"
    return frozenset(n for n, season in enumerate(scheme.of_month, 1) if season.key == wanted)


def _in_order(
    tests: Sequence[BacteriaTest], causes: Sequence[Happening]
) -> Iterator[BacteriaTest | Happening]:
    """Samples and work on the well by day; a sample of the same day was drawn before the work."""
    work = [one for one in causes if one.kind in _MENDING]
    moments: list[tuple[tuple[date, int], BacteriaTest | Happening]] = [
        *(((test.day, 0), test) for test in tests),
        *(((one.last, 1), one) for one in work),
    ]
    return (moment for _, moment in sorted(moments, key=lambda row: row[0]))


def _found(case: Case | None, test: BacteriaTest) -> Case:
    if case is None:
        return Case(test.day, test.names, (test.day,))
    return replace(
        case,
        names=tuple(dict.fromkeys((*case.names, *test.names))),
        findings=(*case.findings, test.day),
        mended=None,
        clean=(),
    )


def _after_mending(case: Case, work: Happening) -> Case:
    if work.kind != "disinfection":
        return replace(case, mended=work.last)
    return replace(case, mended=work.last, disinfected=work.last, clean=())


def _after_clean(case: Case, test: BacteriaTest, scheme: Scheme) -> Case:
    hidden = case.disinfected and test.day < case.disinfected + CHLORINE_GONE
    if hidden:
        return case
    case = replace(case, clean=(*case.clean, test.day))
    reached = progress(case, scheme)
    long = len(case.clean) >= _LONG_RUN and test.day >= add_months(case.clean[0], _LONG_MONTHS)
    is_closed = (reached.later and reached.wet) or long
    return replace(case, closed=test.day) if is_closed else case
