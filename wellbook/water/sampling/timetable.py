"""The hours of a sampling day, from the evening before to handing the bottles in.

A first draw needs a house in which no water ran for six hours (40 CFR 141.86, from memory), and
so the morning; a parcel favours a late draw for bacteria. Where the two lie far apart the first
draw has its own visit to the tap: a lead bottle keeps for days, a bacteria bottle for hours.
Lengths of the steps are common practice, no source; the lab's own sheet comes first.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from enum import StrEnum

STANDING = timedelta(hours=6)
_EVENING = time(19)
_BOTTLE = timedelta(minutes=5)
_FLUSH = timedelta(minutes=10)
_PACKING = timedelta(minutes=20)  # after the bacteria bottle
_ONE_VISIT = timedelta(hours=3)  # further apart, the first draw is a visit of its own


class Task(StrEnum):
    """What is to be done, in the order in which it is; `wording.sampling_day` says how."""

    PREPARE = "evening before"
    LAST_USE = "last use"
    FIRST_DRAW = "first draw"
    FLUSH = "flush"
    VIALS = "vials"
    BACTERIA = "bacteria"
    OTHERS = "other bottles"
    LARGE_BOTTLE = "large bottle"
    PACK = "pack"
    HAND_IN = "hand in"


_BOTTLES = {
    Task.LAST_USE,
    Task.FIRST_DRAW,
    Task.VIALS,
    Task.BACTERIA,
    Task.OTHERS,
    Task.LARGE_BOTTLE,
}
USUAL = frozenset({Task.BACTERIA, Task.LARGE_BOTTLE})


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the timetable: when and what."""

    at: datetime
    task: Task


def tasks(fills: Collection[Task]) -> tuple[Task, ...]:
    """What is to be done, in order, where these kinds of bottles are filled."""
    return tuple(
        task
        for task in Task
        if task in fills
        or task not in _BOTTLES
        or (task is Task.LAST_USE and Task.FIRST_DRAW in fills)
    )


def timetable(
    draw: datetime,
    hand_in: datetime,
    *,
    fills: Collection[Task] = USUAL,
    rises: time = time(6, 30),
) -> tuple[Step, ...]:
    """The steps of a sampling day in order of time.

    Args:
        draw: When the bacteria bottle is filled, with its time zone.
        hand_in: When a parcel is picked up or the bottles are at the lab.
        fills: Which kinds of bottles are filled.
        rises: When somebody in the house can be at the tap before any water has run.
    """
    vials = _later(draw, -_BOTTLE if Task.VIALS in fills else timedelta())
    flush = _later(vials, -_FLUSH)
    first = _first_draw(_later(flush, -_BOTTLE), rises)
    hours = {
        Task.PREPARE: datetime.combine(draw.date() - timedelta(days=1), _EVENING, draw.tzinfo),
        Task.LAST_USE: _later(first, -STANDING),
        Task.FIRST_DRAW: first,
        Task.FLUSH: flush,
        Task.VIALS: vials,
        Task.BACTERIA: draw,
        Task.OTHERS: _later(draw, _BOTTLE),
        Task.LARGE_BOTTLE: _later(draw, 2 * _BOTTLE),
        Task.PACK: _later(draw, _PACKING),
        Task.HAND_IN: hand_in,
    }
    return tuple(Step(hours[task], task) for task in tasks(fills))


def _first_draw(latest: datetime, rises: time) -> datetime:
    """Right before the flush if that is early, else the first water of the morning."""
    morning = datetime.combine(latest.date(), rises, latest.tzinfo)
    return latest if latest - morning <= _ONE_VISIT else morning


def _later(at: datetime, by: timedelta) -> datetime:
    """Time that really passes: six hours are six hours in the night in which clocks change."""
    return (at.astimezone(UTC) + by).astimezone(at.tzinfo)
