"""The next samples that an open case of a figure over a limit asks for, at which taps."""

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date, timedelta

from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.due import Outlook, PanelDue, say_day, written
from wellbook.water.sampling.exceedances import (
    LONG_MONTHS,
    LONG_RUN,
    Exceedance,
    ExceedanceCase,
    Look,
    Step,
    next_day,
    step,
)
from wellbook.water.sampling.followups import Tap, taps_at
from wellbook.water.sampling.intervals import add_months
from wellbook.water.values.catalogue import Panel

_STRETCH = timedelta(days=14)
_URGENT_DAYS = 14  # what is confirmed within them comes before everything else
_ALONG = 1  # months before its day in which it may be drawn along with another
_SHARE = 100  # per cent


@dataclass(frozen=True, slots=True)
class CaseAt:
    """An open case in its place.

    Attributes:
        case: The case.
        tap: The tap at which it was found.
        taps: All taps of the well.
        treated_since: First day of a unit against it that is in use; None without one.
        people: Who drinks the water.
    """

    case: ExceedanceCase
    tap: Tap
    taps: Sequence[Tap]
    treated_since: date | None
    people: AbstractSet[str]

    @property
    def key(self) -> str:
        """What tells the case from others of its point."""
        return f"{self.case.row.key} {self.case.opened.isoformat()}"

    @property
    def step(self) -> Step:
        """What comes next."""
        return step(self.case, self.treated_since)


def closes_when(row: Exceedance) -> str:
    """The rule by which a case of a group closes."""
    drawn = _(" drawn first after six hours without use") if row.draw else ""
    below = (
        _("below the limit")
        if row.clean_share == 1
        else _("below {n} % of the limit").format(n=round(row.clean_share * _SHARE))
    )
    many = ngettext(
        "It closes when {n} result{drawn} lies {below}",
        "It closes when {n} results in a row{drawn} lie {below}",
        row.clean_n,
    ).format(n=row.clean_n, drawn=drawn, below=below)
    if row.clean_months:
        many += ngettext(
            ", the last at least {n} month after the first",
            ", the last at least {n} months after the first",
            row.clean_months,
        ).format(n=row.clean_months)
    return many + _("; or when {n} in a row over {months} months lie below the limit.").format(
        n=LONG_RUN, months=LONG_MONTHS
    )


def exceedance_dues(at: CaseAt, outlook: Outlook) -> Iterator[tuple[int, PanelDue]]:
    """What an open case asks for next, by point."""
    now = at.step
    for tap in _wanted(at, now):
        yield tap.point, _due(at, tap, now, outlook)


def near_due(
    row: Exceedance, seen: Sequence[Look], outlook: Outlook, people: AbstractSet[str]
) -> PanelDue | None:
    """A test asked for sooner than usual because the latest figure is near its limit."""
    if row.near_share is None or not seen:
        return None
    latest = seen[-1]
    if latest.share is None or latest.share < row.near_share or latest.found:
        return None
    months = row.near_people_months if row.near_people & people else row.near_months
    if not months:
        return None
    names = _names(row.parameters[:1], outlook)
    panel = Panel(
        f"near {row.key}",
        _("{names} near its limit").format(names=names),
        row.parameters[:1],
        row.companions,
        months,
        _("A figure at {n} % of its limit and more is watched more closely.").format(
            n=round(row.near_share * _SHARE)
        ),
        row.source,
    )
    due = add_months(latest.day, months)
    return _asked(panel, due, latest.day, panel.why, outlook)


def _wanted(at: CaseAt, now: Step) -> Iterable[Tap]:
    """The taps at which the next samples are drawn, the case's own first."""
    if now is Step.PROVE:
        words: tuple[str, ...] = at.case.row.treat_taps
    elif now is Step.CONFIRM:
        words = at.case.row.confirm_taps
    else:
        words = ()
    wanted = {at.tap.point: at.tap}
    for word in words:
        for tap in taps_at(word, at.taps):
            wanted.setdefault(tap.point, tap)
    return wanted.values()


def _due(at: CaseAt, tap: Tap, now: Step, outlook: Outlook) -> PanelDue:
    case = at.case
    core = _core(case)
    lasts = [max(tap.days.get(key) or (date.min,)) for key in core]
    last = min(lasts)
    since = max(last, case.opened) if last > date.min else case.opened
    for_people = bool(case.row.near_people & at.people or case.row.start_people & at.people)
    if now is Step.PROVE and at.treated_since is not None:
        since = max(since, at.treated_since) if tap.treated else since
    due = next_day(case, now, since, for_people=for_people)
    name = _("{names} over a limit on {day}: {next_step}").format(
        names=_names(case.found, outlook), day=written(case.opened), next_step=_(now)
    )
    also = tuple(key for key in case.row.companions if key not in core)
    panel = Panel(
        f"case {at.key} {now.name.lower()}", name, core, also, 0, closes_when(case.row),
        case.row.source,
    )  # fmt: skip
    is_urgent = now in {Step.CONFIRM, Step.PARTNER} and case.row.confirm_days <= _URGENT_DAYS
    text = _text(at, now)
    return _asked(
        panel, due, last if last > date.min else None, text, outlook, urgent=is_urgent, case=at.key
    )


def _core(case: ExceedanceCase) -> tuple[str, ...]:
    """What the next sample has to hold: what was over, or the first of its group."""
    return case.found or case.row.parameters[:1]


def _asked(
    panel: Panel,
    due: date,
    last: date | None,
    text: str,
    outlook: Outlook,
    *,
    urgent: bool = False,
    case: str = "",
) -> PanelDue:
    start = max(due, outlook.soonest(urgent=urgent))
    window = (start, start + _STRETCH)
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
        earliest=max(outlook.soonest(urgent=urgent), add_months(due, -_ALONG)),
        urgent=urgent,
        case=case,
    )


def _names(keys: Iterable[str], outlook: Outlook) -> str:
    known = outlook.catalogue.parameters
    return ", ".join(known[key].name for key in keys if key in known)


def _text(at: CaseAt, now: Step) -> str:
    row = at.case.row
    do = _(row.do)
    if now is Step.CONFIRM:
        return " ".join(filter(None, (_("One sample over a limit asks for a second one."), do)))
    if now is Step.PARTNER:
        return _("Only a flushed sample beside the first draw tells the house from the well.")
    if now is Step.PROVE:
        return _(
            "A unit is in use against it: only tests before and after it, and between two tanks, "
            "show that it still works. What shows between tanks asks for new media in the first."
        )
    if now is Step.CLEAR:
        return _("The last sample was below the limit; the rule on closing asks for more of them.")
    return _(
        "It is still over: go on testing while it stands, and settle the cause or a treatment."
    )
