"""The next sample that an open case, or a sample that says nothing, asks for."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from wellbook.support.translation import _
from wellbook.water.sampling.cases import RULE, Case, Step, progress, step, wet_months
from wellbook.water.sampling.due import Outlook, PanelDue, say_day, written
from wellbook.water.sampling.intervals import add_months
from wellbook.water.values.catalogue import Panel
from wellbook.water.verdicts.bacteria import BacteriaTest, Sign

CORE = ("total_coliform", "e_coli")
_SOURCE = (
    "Florida and Vermont Departments of Health, Virginia 12VAC5-630-431, read 2026-11-25; "
    "the rule on closing is our own, stricter than most"
)
_STRIP_DAYS = timedelta(days=7)  # departments ask for 7 to 14 days after a disinfection
_DAY = timedelta(days=1)
_STRETCH = timedelta(days=14)
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
    what = ", ".join(case.names).lower().replace("e. coli", "E. coli")
    name = _("Bacteria found on {day}: {next_step}").format(
        day=written(case.opened), next_step=_(now)
    )
    panel = _panel(case_key(case, now), name, why=_(RULE))
    text = f"{_found(f'{what[:1].upper()}{what[1:]}', case.findings)} {_text(case, now)}"
    stretch = (max(first, postponed or first), last)
    latest = (case.clean or case.findings)[-1]
    found = _asked(panel, stretch, text, outlook, last=latest, urgent=now not in _LATE_STEPS)
    return replace(found, case=f"bacteria {case.opened.isoformat()}")


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
    panel = _panel(
        f"case {case.opened.isoformat()} raw",
        _("Bacteria found behind treatment on {day}: raw water too").format(
            day=written(case.opened)
        ),
        why=_(RULE),
    )
    text = _(
        "A sample from before any treatment tells whether they come from the well or the house."
    )
    latest = tested[-1].day if tested else None
    found = _asked(panel, (case.opened + _DAY, None), text, outlook, last=latest)
    return replace(found, case=f"bacteria {case.opened.isoformat()}")


def again_due(tests: Sequence[BacteriaTest], outlook: Outlook) -> PanelDue | None:
    """A new sample where the last one says nothing; None if it says something."""
    if not tests or tests[-1].sign is not Sign.NOTHING:
        return None
    day = tests[-1].day
    panel = _panel(
        f"again {day.isoformat()}",
        _("Bacteria: a new sample for that of {day}").format(day=written(day)),
        why=_("A sample that was held too long, overgrown or rejected is no evidence."),
    )
    text = _(
        "The last sample was held too long, overgrown or rejected: it is no evidence that nothing "
        "was there."
    )
    return _asked(panel, (day, None), text, outlook, last=day)


def _panel(key: str, name: str, *, why: str) -> Panel:
    return Panel(key, name, CORE, (), 0, why, _SOURCE)


def _asked(
    panel: Panel,
    stretch: tuple[date, date | None],
    text: str,
    outlook: Outlook,
    *,
    last: date | None,
    urgent: bool = True,
) -> PanelDue:
    due, end = stretch
    start = max(due, outlook.soonest(urgent=urgent))
    window = (start, max(end or start, start + _STRETCH))
    calendar = outlook.calendar_for(panel)
    day = calendar.first_day(*window)
    return PanelDue(
        panel=panel,
        last=last,
        due=due,
        overdue_days=max(0, (outlook.today - due).days),
        window=window,
        day=day,
        why=f"{text} {say_day(day, calendar)}",
        earliest=start,
        urgent=urgent,
    )


def _found(what: str, days: Sequence[date]) -> str:
    """When it was found first, and when last."""
    first, last = days[0], days[-1]
    if first == last:
        return _("{what} found on {day}.").format(what=what, day=written(first))
    return _("{what} found on {day} and again on {last}.").format(
        what=what,
        day=written(first),
        last=written(last),
    )


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


def _text(case: Case, now: Step) -> str:
    if now is Step.CONFIRM:
        return _(
            "Draw a second sample with a clean technique. Until the case is closed use other "
            "water, or follow the caution on this finding."
        )
    if now is Step.MEND:
        return _(
            "Find the way in and have it mended, then the well disinfected, by a licensed person "
            "where the local code asks for one. Test when a strip shows no chlorine at all."
        )
    if now is Step.RETEST:
        return _retest_text(case)
    if now is Step.WATCH:
        return _(
            "Two samples found nothing since. A third one tells whether it comes back: findings "
            "come and go."
        )
    return _("The samples since found nothing; one from the wet season is still wanted.")


def _retest_text(case: Case) -> str:
    if not case.clean:
        if case.mended:
            work = _("Last work on the well: {day}.").format(day=written(case.mended))
        else:
            work = _("Last work on the well: not noted.")
        wait = _(
            "Test when a strip shows no chlorine at all; two samples at least a day apart have to "
            "find nothing."
        )
        return f"{work} {wait}"
    text = _("The sample of {day} found nothing; a second one has to, too.").format(
        day=written(case.clean[0])
    )
    if case.mended is None:
        look = _("No repair is noted: look for the way in all the same.")
        return f"{text} {look}"
    return text
