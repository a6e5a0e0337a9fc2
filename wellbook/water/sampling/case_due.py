"""The next sample that an open case, or a sample that says nothing, asks for."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from wellbook.support.message import Message, message
from wellbook.water.sampling.cases import Case, Step, progress, step, wet_months
from wellbook.water.sampling.due import (
    Because,
    ClosingRule,
    Occasion,
    Outlook,
    PanelDue,
    sample_due,
)
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.seasons import add_months
from wellbook.water.verdicts.bacteria import BacteriaTest, Sign

CORE = ("total_coliform", "e_coli")
_SOURCE = (
    "Florida and Vermont Departments of Health, Virginia 12VAC5-630-431, read 2026-11-25; "
    "the rule on closing is our own, stricter than most"
)
_STRIP_DAYS = timedelta(days=7)  # departments ask for 7 to 14 days after a disinfection
_DAY = timedelta(days=1)
_LATER, _LATEST = 1, 3  # months
_LATE_STEPS = frozenset({Step.WATCH, Step.WET})


def case_due(case: Case, outlook: Outlook, postponed: date | None = None) -> PanelDue:
    """The next sample of an open case.

    Args:
        case: The case.
        outlook: The day, the way to the lab and the reference data.
        postponed: Day to which the household put it off.
    """
    now = step(case, outlook.scheme)
    first, last = _when(case, now, outlook)
    return sample_due(
        _panel(case_key(case, now)),
        max(first, postponed or first),
        outlook,
        (_found(case), *_reasons(case, now)),
        last=(case.clean or case.findings)[-1],
        end=last,
        urgent=now not in _LATE_STEPS,
        case=_key(case),
        occasion=message(Occasion.BACTERIA, day=case.opened, next_step=now),
        rule=message(ClosingRule.BACTERIA),
    )


def _key(case: Case) -> str:
    return f"bacteria {case.opened.isoformat()}"


def case_key(case: Case, now: Step) -> str:
    """The key under which the next sample of a case is put off."""
    return f"case {case.opened.isoformat()} {now.name.lower()}"


def raw_too(case: Case, outlook: Outlook, tested: Sequence[BacteriaTest]) -> PanelDue | None:
    """The sample before treatment that tells the well from the plumbing; None once drawn.

    Args:
        case: An open case at a tap behind treatment.
        outlook: The day, the way to the lab and the reference data.
        tested: Bacteria samples of the tap before treatment.
    """
    if any(test.day >= case.opened and test.sign is not Sign.NOTHING for test in tested):
        return None
    return sample_due(
        _panel(f"case {case.opened.isoformat()} raw"),
        case.opened + _DAY,
        outlook,
        (message(Because.WELL_OR_HOUSE),),
        last=tested[-1].day if tested else None,
        urgent=True,
        case=_key(case),
        occasion=message(Occasion.BACTERIA_RAW, day=case.opened),
        rule=message(ClosingRule.BACTERIA),
    )


def again_due(tests: Sequence[BacteriaTest], outlook: Outlook) -> PanelDue | None:
    """A new sample where the last one says nothing; None if it says something."""
    if not tests or tests[-1].sign is not Sign.NOTHING:
        return None
    day = tests[-1].day
    return sample_due(
        _panel(f"again {day.isoformat()}"),
        day,
        outlook,
        (message(Because.NO_EVIDENCE),),
        last=day,
        urgent=True,
        occasion=message(Occasion.NO_EVIDENCE, day=day),
        rule=message(ClosingRule.NO_EVIDENCE),
    )


def _panel(key: str) -> Panel:
    return Panel(key, "", CORE, (), 0, "", _SOURCE)


def _found(case: Case) -> Message:
    """What was found, when first and when last."""
    first, last = case.findings[0], case.findings[-1]
    if first == last:
        return message(Because.FOUND, what=case.names, day=first)
    return message(Because.FOUND_AGAIN, what=case.names, day=first, last=last)


def _when(case: Case, now: Step, outlook: Outlook) -> tuple[date, date | None]:
    """From when to when the next sample is wanted."""
    last = case.findings[-1]
    if now is Step.RETEST:
        if case.clean:
            return case.clean[0] + _DAY, None
        return (case.mended or last) + (_STRIP_DAYS if case.disinfected else _DAY), None
    second = progress(case, outlook.scheme).second
    if second is None:
        return last + _DAY, None
    if now is Step.WATCH:
        return add_months(second, _LATER), add_months(second, _LATEST)
    return _wet_season(second + _DAY, outlook)


def _wet_season(day: date, outlook: Outlook) -> tuple[date, date]:
    """The rest of the wet season that a day lies in, or the next one."""
    wet = wet_months(outlook.scheme)
    day = max(day, outlook.today)
    while day.month not in wet:
        day = add_months(day.replace(day=1), 1)
    end = day.replace(day=1)
    while end.month in wet:
        end = add_months(end, 1)
    return day, end - _DAY


_OF_STEP = {
    Step.CONFIRM: Because.SECOND_SAMPLE,
    Step.MEND: Because.MEND,
    Step.WATCH: Because.TWO_CLEAN,
    Step.WET: Because.WET_SEASON,
}


def _reasons(case: Case, now: Step) -> Iterator[Message]:
    """What is to be done next, and why."""
    if now is not Step.RETEST:
        yield message(_OF_STEP[now])
    elif case.clean:
        yield message(Because.ONE_CLEAN, day=case.clean[0])
        if case.mended is None:
            yield message(Because.NO_REPAIR)
    else:
        yield (
            message(Because.MENDED, day=case.mended) if case.mended else message(Because.NOT_MENDED)
        )
        yield message(Because.STRIP_FIRST)
