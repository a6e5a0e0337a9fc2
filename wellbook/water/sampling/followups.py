"""Tests that a happening asks for: worked out from happenings and results, ended when done.

Nothing is stored: a follow-up is there while its test is not, and until it lapses.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from wellbook.support.message import Message, message
from wellbook.water.sampling.dated_events import Happening
from wellbook.water.sampling.due import (
    Because,
    ClosingRule,
    Occasion,
    Outlook,
    PanelDue,
    day_reason,
    last_test_reason,
)
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.seasons import add_months
from wellbook.water.values.triggers import Trigger, asked_by

Days = Mapping[str, Sequence[date]]
Postponed = Mapping[tuple[int, str], date]  # by point and key of the panel

_LEAST_STRETCH = timedelta(days=20)
BETWEEN = "between"  # the taps between two treatment units
_AT_ONCE = 14  # days; what should be done within them comes before everything else
_ABOUT = timedelta(days=7)  # what is wanted so soon after is wanted at the same time
_SAME_START = timedelta(days=31)  # an event so near to a unit's first day is the same thing


@dataclass(frozen=True, slots=True)
class Tap:
    """A sampling point of a well, with the days on which each parameter was tested there."""

    point: int
    treated: bool
    place: int
    days: Days


@dataclass(frozen=True, slots=True)
class _Asked:
    """A test that is asked for: by what, at which tap, and from which day on one counts."""

    tap: Tap
    trigger: Trigger
    cause: Happening
    days: Days
    place: int

    @property
    def core(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.cause.targets, *self.trigger.core)))

    @property
    def counts(self) -> date:
        return self.cause.last + timedelta(days=self.trigger.counts_from)

    @property
    def key(self) -> str:
        """Its name in the book; one about people tells nothing of what it is about."""
        return f"{self.cause.key} {self.place if self.cause.private else self.trigger.key}"


def follow_ups(
    causes: Sequence[Happening], taps: Sequence[Tap], outlook: Outlook, postponed: Postponed
) -> dict[int, tuple[PanelDue, ...]]:
    """What the happenings at one well ask for, by point.

    Args:
        causes: Happenings; those still to come are left out.
        taps: The well's sampling points.
        outlook: The day, the way to the lab and the reference data.
        postponed: Days to which the household put tests off.
    """
    found: dict[int, list[tuple[_Asked, PanelDue]]] = {}
    for asked in _asked(_told_once(causes, outlook.today), taps, outlook):
        due = _due(asked, outlook, postponed.get((asked.tap.point, asked.key)))
        if due is not None:
            found.setdefault(asked.tap.point, []).append((asked, due))
    return {point: _without_covered(rows) for point, rows in found.items()}


def _told_once(causes: Sequence[Happening], today: date) -> list[Happening]:
    """Those that have happened; an event that only says that a unit came is left to the unit."""
    starts = [one.first for one in causes if one.kind == "unit installed"]
    return [
        one
        for one in causes
        if one.first <= today
        if one.kind != "treatment" or all(abs(one.first - start) > _SAME_START for start in starts)
    ]


def _asked(causes: Sequence[Happening], taps: Sequence[Tap], outlook: Outlook) -> Iterator[_Asked]:
    for cause in causes:
        triggers = asked_by(cause.kind, cause.text, outlook.catalogue.triggers)
        for place, trigger in enumerate(triggers, start=1):
            chosen = taps_at(trigger.at, taps)
            days = chosen[0].days if len(chosen) == 1 else _days_of_pairs(chosen)
            for tap in chosen:
                asked = _Asked(tap, trigger, cause, days, place)
                if asked.core:
                    yield asked


def taps_at(at: str, taps: Sequence[Tap]) -> list[Tap]:
    """The tap nearest the well, the one that people drink from, both, or those between units."""
    if not taps:
        return []
    if at == BETWEEN:
        inner = sorted((tap for tap in taps if tap.treated), key=lambda tap: tap.place)
        return inner[:-1]
    raw = min(taps, key=lambda tap: (tap.treated, tap.place))
    drinking = max(taps, key=lambda tap: (tap.treated, tap.place))
    if at == "all":
        inner = [tap for tap in taps_at(BETWEEN, taps) if tap not in (raw, drinking)]
        return list({tap.point: tap for tap in (raw, *inner, drinking)}.values())
    at_one = {"raw": [raw], "drinking": [drinking], "first_draw": [drinking], "flushed": [drinking]}
    wanted = at_one.get(at, [raw, drinking])
    return list({tap.point: tap for tap in wanted}.values())


def _days_of_pairs(taps: Sequence[Tap]) -> Days:
    """Days on which a parameter was tested at every one of the taps."""
    keys = {key for tap in taps for key in tap.days}
    return {
        key: sorted(set.intersection(*(set(tap.days.get(key, ())) for tap in taps))) for key in keys
    }


def _due(asked: _Asked, outlook: Outlook, postponed: date | None) -> PanelDue | None:
    trigger, cause = asked.trigger, asked.cause
    lasts = [max(asked.days.get(key) or (date.min,)) for key in asked.core]
    last = None if date.min in lasts else min(lasts)
    is_done = not trigger.every and min(lasts) >= asked.counts
    if is_done or _has_lapsed(asked, outlook.today):
        return None
    due = cause.first + timedelta(days=trigger.due)
    if trigger.every and last:
        due = add_months(last, trigger.every)
    months = trigger.months.by(outlook.scheme)
    due = max(filter(None, (_in_months(due, months), postponed)))
    urgent = trigger.until <= _AT_ONCE
    wanted = due if cause.is_vague else max(due, asked.counts)
    start = max(wanted, outlook.soonest(urgent=urgent))
    end = max(cause.last + timedelta(days=trigger.until), start + _LEAST_STRETCH)
    panel = _panel(asked)
    calendar = outlook.calendar_for(panel)
    day = calendar.first_day(start, end)
    overdue = max(0, (outlook.today - due).days)
    is_new = max(lasts) == date.min
    tested = last_test_reason(last, overdue, is_new=is_new)
    more = [tested] if trigger.every else _vague(asked)
    return PanelDue(
        panel=panel,
        last=last,
        due=due,
        overdue_days=overdue,
        window=(start, end),
        day=day,
        reasons=(message(Because.TEXT, text=trigger.why), *more, day_reason(day, calendar)),
        earliest=start,
        wanted=wanted,
        urgent=urgent,
        private=cause.private,
        occasion=message(Occasion.HAPPENING, test=trigger.name, unit=cause.name, day=cause.day),
        rule=message(ClosingRule.TEXT, text=trigger.why),
        is_new=is_new,
    )


def _has_lapsed(asked: _Asked, today: date) -> bool:
    lapses = asked.trigger.lapses
    return bool(lapses) and today > add_months(asked.cause.last, lapses)


def _in_months(day: date, months: frozenset[int]) -> date:
    """The day, or the first of the next of these months if it lies in another."""
    if not months or day.month in months:
        return day
    first = day.replace(day=1)
    later = (add_months(first, step) for step in range(1, 13))
    return next(start for start in later if start.month in months)


def _panel(asked: _Asked) -> Panel:
    trigger = asked.trigger
    return Panel(
        key=asked.key,
        name="",
        core=asked.core,
        also=tuple(key for key in trigger.also if key not in asked.core),
        months=trigger.every,
        why="",
        source=trigger.source,
    )


def _vague(asked: _Asked) -> list[Message]:
    """From when on a test surely counts, where the day of what happened is not known."""
    if not asked.cause.is_vague or asked.trigger.counts_from < 0:
        return []
    return [message(Because.VAGUE_DAY, date=asked.cause.day, day=asked.counts)]


def _covers(other: _Asked, other_place: int, asked: _Asked, place: int) -> bool:
    """Whether one asks for all that another does, and no earlier; of two alike the later one."""
    if not set(asked.core) <= set(other.core):
        return False
    asks_more = set(asked.core) < set(other.core) and other.counts == asked.counts
    return asks_more or (other.counts, other_place) > (asked.counts, place)


def _without_covered(rows: Sequence[tuple[_Asked, PanelDue]]) -> tuple[PanelDue, ...]:
    """Leave out what another one asks for as well, about the same time and no earlier."""
    return tuple(
        due
        for place, (asked, due) in enumerate(rows)
        if not any(
            _covers(other, other_place, asked, place)
            and more.window[0] <= due.window[0] + _ABOUT
            and more.urgent >= due.urgent
            for other_place, (other, more) in enumerate(rows)
        )
    )
