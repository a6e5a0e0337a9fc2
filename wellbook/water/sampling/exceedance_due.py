"""The next samples that an open case of a figure over a limit asks for, at which taps."""

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date

from wellbook.support.message import Message, message
from wellbook.water.sampling.due import (
    Because,
    ClosingRule,
    Occasion,
    Outlook,
    PanelDue,
    sample_due,
)
from wellbook.water.sampling.exceedances import (
    Exceedance,
    ExceedanceCase,
    SampleFinding,
    Step,
    next_day,
    step,
)
from wellbook.water.sampling.followups import Tap, taps_at
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.seasons import add_months

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
        has_tanks: Whether tanks in series are in use against it: samples between them tell.
    """

    case: ExceedanceCase
    tap: Tap
    taps: Sequence[Tap]
    treated_since: date | None
    people: AbstractSet[str]
    has_tanks: bool = False

    @property
    def key(self) -> str:
        """What tells the case from others of its point."""
        return f"{self.case.row.key} {self.case.opened.isoformat()}"

    @property
    def step(self) -> Step:
        """What comes next."""
        return step(self.case, self.treated_since)


def exceedance_dues(at: CaseAt, outlook: Outlook) -> Iterator[tuple[int, PanelDue]]:
    """What an open case asks for next, by point."""
    now = at.step
    for tap in _wanted(at, now):
        yield tap.point, _due(at, tap, now, outlook)


def near_due(
    row: Exceedance, seen: Sequence[SampleFinding], outlook: Outlook, people: AbstractSet[str]
) -> PanelDue | None:
    """A test asked for sooner than usual because a latest figure is near its limit."""
    near = _near(row, seen)
    if row.near_share is None or not near:
        return None
    months = row.near_people_months if row.near_people & people else row.near_months
    if not months:
        return None
    share = round(row.near_share * _SHARE)
    last = min(near.values())
    due = add_months(last, months)
    core = tuple(near)
    return sample_due(
        Panel(f"near {row.key}", "", core, _also(row, core, outlook), months, "", row.source),
        due,
        outlook,
        (message(Because.NEAR, n=share),),
        last=last,
        along=add_months(due, -_ALONG),
        occasion=message(Occasion.NEAR, names=_names(core, outlook)),
        rule=message(ClosingRule.NEAR, n=share),
    )


def _near(row: Exceedance, seen: Sequence[SampleFinding]) -> dict[str, date]:
    """Parameters whose latest figure is near its limit, each with its day."""
    latest = {key: look for look in seen for key in look.shares}
    return {
        key: latest[key].day
        for key in row.parameters
        if row.near_share is not None
        and key in latest
        and row.near_share <= latest[key].shares[key] <= 1
    }


def _also(row: Exceedance, core: Sequence[str], outlook: Outlook) -> tuple[str, ...]:
    """What is usually tested along with it: the parts of a sum, and the companions."""
    known = {rule.key: rule.members for rule in outlook.catalogue.sums}
    parts = (term.parameter for key in core for term in known.get(key, ()))
    keys = dict.fromkeys((*parts, *row.companions))
    return tuple(key for key in keys if key not in core and key in outlook.catalogue.parameters)


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
    also = _also(case.row, core, outlook)
    key = f"case {at.key} {now.name.lower()}"
    return sample_due(
        Panel(key, "", core, also, 0, "", case.row.source),
        due,
        outlook,
        _reasons(at, now),
        last=last if last > date.min else None,
        along=add_months(due, -_ALONG),
        urgent=_is_urgent(case.row, now),
        case=at.key,
        occasion=message(
            Occasion.OVER if case.row.side == "over" else Occasion.OUTSIDE,
            names=_names(case.found, outlook),
            day=case.opened,
            next_step=now,
        ),
        rule=message(ClosingRule.FIGURE, row=case.row),
    )


def _is_urgent(row: Exceedance, now: Step) -> bool:
    return now in {Step.CONFIRM, Step.PARTNER} and row.confirm_days <= _URGENT_DAYS


def _core(case: ExceedanceCase) -> tuple[str, ...]:
    """What the next sample has to hold: what was over, or the first of its group."""
    return case.found or case.row.parameters[:1]


def _names(keys: Iterable[str], outlook: Outlook) -> tuple[str, ...]:
    known = outlook.catalogue.parameters
    return tuple(known[key].name for key in keys if key in known)


_OF_STEP = {
    Step.CONFIRM: Because.CONFIRM,
    Step.PARTNER: Because.FLUSHED_BESIDE,
    Step.PROVE: Because.PROVE,
    Step.CLEAR: Because.CLEAR,
    Step.WATCH: Because.STILL_OVER,
}


def _reasons(at: CaseAt, now: Step) -> tuple[Message, ...]:
    """Why the next sample is wanted; for a second one, what else is to be done."""
    do = at.case.row.do
    more = (message(Because.DO, do=do),) if do and now is Step.CONFIRM else ()
    code = Because.PROVE_TANKS if now is Step.PROVE and at.has_tanks else _OF_STEP[now]
    return (message(code), *more)
