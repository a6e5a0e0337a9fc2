"""When a panel is due again at a point, and which month and day suit best.

Steps are calendar months. Each panel has its own clock: its last test is the oldest among the
last tests of its core parameters, so a test of bacteria alone does not put off arsenic.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

from wellbook.support.message import Message, message
from wellbook.water.sampling.due import Because, PanelDue, day_reason, last_test_reason
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.seasons import (
    YEAR,
    Coverage,
    Scheme,
    Season,
    add_months,
    coverage,
    season_of,
)

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

__all__ = ["PanelDue", "panel_due"]

# Whole calendar months either side of the month in which a panel falls due, by the least interval
# that has it (ours). Intervals of whole years come back to the same month, so long ones get more.
_GRACES = ((36, 3), (24, 2), (6, 1), (0, 0))
_FAR = 24  # tests; by then every season that can be met has been
_ALONG = 1  # months before its due month in which a panel may be drawn along with another


@dataclass(frozen=True, slots=True)
class Cadence:
    """How a panel steps through the year.

    Attributes:
        months: Interval in calendar months.
        grace: Months by which a test may lie earlier or later.
    """

    months: int
    grace: int


def panel_due(  # noqa: PLR0913  each is a fact that it depends on
    panel: Panel,
    months: int,
    results_by_parameter_days: Mapping[str, Sequence[date]],
    today: date,
    scheme: Scheme,
    calendar: "Calendar",
    postponed: date | None = None,
    *,
    asked_since: date | None = None,
) -> PanelDue | None:
    """When a panel is due; None for one that is wanted once (`months` is 0) and was done.

    Args:
        panel: The panel.
        months: Interval in calendar months, 0 for `once`.
        results_by_parameter_days: Days on which each parameter was tested at this point.
        today: Nothing is suggested for a day before it.
        scheme: How the year is divided.
        calendar: Closed days, and how long bottles take.
        postponed: Day to which the household put the next test off, if it did.
        asked_since: First day of the record: a panel never tested is asked for from then on.
    """
    days = {key: results_by_parameter_days.get(key, ()) for key in panel.core}
    last = min(map(max, days.values())) if days and all(days.values()) else None
    if last and not months:
        return None
    first = min(asked_since or today, today)
    due = max(filter(None, (add_months(last, months) if last else first, postponed)))
    # The parameter tested least is the one whose seasons are known least.
    seen = coverage(min(days.values(), key=lambda found: len(set(found)), default=()), scheme)
    soonest = max(filter(None, (today + timedelta(days=calendar.lead_days), postponed)))
    cadence = Cadence(months, _grace(months) if last else 0)
    window, reason = _suggest(due, cadence, soonest, calendar, scheme, seen)
    overdue = max(0, (today - due).days)
    day = calendar.first_day(*window)
    is_new = not any(days.values())
    tested = last_test_reason(last, overdue, is_new=is_new)
    reasons = (tested, reason, day_reason(day, calendar))
    first = add_months(due.replace(day=1), -min(cadence.grace, _ALONG))
    along = _no_season_lost(first, window[0], cadence, scheme, frozenset(seen.missing))
    wanted = max(filter(None, (along, today, postponed)))
    earliest = max(along, soonest)
    return PanelDue(
        panel, last, due, overdue, window, day, reasons, earliest, wanted=wanted, is_new=is_new
    )


def _no_season_lost(
    first: date, start: date, cadence: Cadence, scheme: Scheme, missing: frozenset[Season]
) -> date:
    """From which day on it may be drawn along, at most back to a `first` day.

    From then on to the `start` of its stretch a test meets the missing seasons as soon.
    """
    left = _tests_left(cadence, start.month, scheme, missing)
    along = start.replace(day=1)
    while (before := add_months(along, -1)) >= first:
        if _tests_left(cadence, before.month, scheme, missing) > left:
            break
        along = before
    return along


def _grace(months: int) -> int:
    return next(grace for least, grace in _GRACES if months >= least)


def _suggest(
    due: date, cadence: Cadence, soonest: date, calendar: "Calendar", scheme: Scheme, seen: Coverage
) -> tuple[tuple[date, date], Message]:
    stretches = list(_months_around(due, cadence.grace, soonest))
    workable = [stretch for stretch in stretches if calendar.first_day(*stretch)]
    if not workable:
        window = max(soonest, due), add_months(max(soonest, due), 1)
        return window, message(Because.THE_SOONER)
    missing = frozenset(seen.missing)

    def rank(stretch: tuple[date, date]) -> tuple[int, int, int, int]:
        start, end = stretch
        away = 0 if start <= due <= end else min(abs((start - due).days), abs((end - due).days))
        return (
            _tests_left(cadence, start.month, scheme, missing),
            seen.of_season(season_of(start, scheme)),
            -seen.months_away(start.month),
            away,
        )

    best = min(workable, key=rank)
    return best, _fills(best[0], scheme, seen)


@lru_cache(maxsize=1024)
def _tests_left(cadence: Cadence, month: int, scheme: Scheme, missing: frozenset[Season]) -> int:
    """How many more tests, after one in a month (1 to 12), can meet every missing season."""
    reached = {(month, missing - {scheme.of_month[month - 1]})}
    for tests in range(_FAR):
        if any(not left for _unused, left in reached):
            return tests
        steps = range(cadence.months - cadence.grace, cadence.months + cadence.grace + 1)
        landed = {((at + step - 1) % YEAR, left) for at, left in reached for step in steps}
        reached = {(at + 1, left - {scheme.of_month[at]}) for at, left in landed}
    return _FAR


def _months_around(due: date, grace: int, soonest: date) -> Iterator[tuple[date, date]]:
    """The whole months within the grace, none of it earlier than `soonest`."""
    first = due.replace(day=1)
    for step in range(-grace, grace + 1):
        start = add_months(first, step)
        end = add_months(start, 1) - timedelta(days=1)
        if end >= soonest:
            yield max(start, soonest), end


def _fills(start: date, scheme: Scheme, seen: Coverage) -> Message:
    """What a test in the month of a day does for the seasons that were never tested."""
    season, month = season_of(start, scheme), start.month
    if not seen.n:
        return message(Because.FIRST_OF_ALL, month=month)
    if season in seen.missing:
        return message(Because.FIRST_IN_SEASON, month=month, season=season)
    away = seen.months_away(month)
    if seen.missing and away:
        return message(Because.LEADS_ON, month=month, season=seen.missing[0])
    if away:
        return message(Because.FAR_FROM_TESTED, month=month, n=away)
    return message(Because.NO_GAP, month=month)
