"""The hours of a sampling day, from the last use of water to handing the bottles in.

A first draw needs a house in which no water ran for six hours (40 CFR 141.86, from memory), and
so the morning; a parcel favours a late draw for bacteria. Where the two lie far apart the first
draw has its own visit to the tap: a lead bottle keeps for days, a bacteria bottle for hours.
Lengths of the steps are common practice, no source; the lab's own sheet comes first.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from enum import StrEnum

STANDING = timedelta(hours=6)
_FLUSH = timedelta(minutes=10)
_FIRST = timedelta(minutes=5)
_BOTTLE = timedelta(minutes=10)
_ONE_VISIT = timedelta(hours=3)  # further apart, the first draw is a visit of its own


class Task(StrEnum):
    """What is to be done; the text of a step says how."""

    LAST_USE = "last use"
    FIRST_DRAW = "first draw"
    FLUSH = "flush"
    BACTERIA = "bacteria"
    LARGE_BOTTLE = "large bottle"
    PACK = "pack"
    HAND_IN = "hand in"


TEXTS = {
    Task.LAST_USE: (
        "Use no more water in the house from now on: no tap, toilet, ice maker or washing, and no "
        "regeneration of a softener."
    ),
    Task.FIRST_DRAW: (
        "Fill the first-draw bottle with the very first water of the tap, at normal full flow. "
        "Leave the aerator on, and let nothing run before."
    ),
    Task.FLUSH: (
        "Take the aerator off and disinfect the tap as the lab says. Let the cold water run until "
        "its temperature is steady, five minutes or more."
    ),
    Task.BACTERIA: (
        "Fill the sterile bottle to its mark. Never rinse it, touch neither rim nor inside of the "
        "cap, and close it at once."
    ),
    Task.LARGE_BOTTLE: (
        "Fill the other bottles. Rinse a bottle only if the lab says so, and never one with "
        "anything in it: what is in it keeps the sample, and may be acid."
    ),
    Task.PACK: "Dry the bottles, pack them with ice packs in a closed bag, and fill in the form.",
    Task.HAND_IN: "The parcel must be ready, or the bottles handed in, by this hour.",
}


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the timetable: when, what, and how."""

    at: datetime
    task: Task
    text: str


def timetable(
    draw: datetime, hand_in: datetime, *, first_draw: bool, rises: time = time(6, 30)
) -> tuple[Step, ...]:
    """The steps of a sampling day in order of time.

    Args:
        draw: When the bacteria bottle is filled, with its time zone.
        hand_in: When a parcel must be ready or the bottles be at the lab.
        first_draw: Whether lead or copper is to be tested at first draw.
        rises: When somebody in the house can be at the tap before any water has run.
    """
    steps = [
        _step(draw, -_FLUSH, Task.FLUSH),
        _step(draw, timedelta(), Task.BACTERIA),
        _step(draw, _BOTTLE, Task.LARGE_BOTTLE),
        _step(draw, 2 * _BOTTLE, Task.PACK),
        Step(hand_in, Task.HAND_IN, TEXTS[Task.HAND_IN]),
    ]
    if first_draw:
        first = _first_draw(draw, rises)
        standing = [_step(first, -STANDING, Task.LAST_USE), Step(first, *_told(Task.FIRST_DRAW))]
        steps = standing + steps
    return tuple(steps)


def _first_draw(draw: datetime, rises: time) -> datetime:
    """Right before the flush if the draw is early, else the first water of the morning."""
    latest = _later(draw, -_FLUSH - _FIRST)
    morning = datetime.combine(draw.date(), rises, draw.tzinfo)
    return latest if latest - morning <= _ONE_VISIT else morning


def _step(start: datetime, after: timedelta, task: Task) -> Step:
    return Step(_later(start, after), *_told(task))


def _told(task: Task) -> tuple[Task, str]:
    return task, TEXTS[task]


def _later(at: datetime, by: timedelta) -> datetime:
    """Time that really passes: six hours are six hours in the night in which clocks change."""
    return (at.astimezone(UTC) + by).astimezone(at.tzinfo)
