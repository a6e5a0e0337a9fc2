"""Upkeep in a calendar file: one event a well and day, of what is due then.

What is due already lies on the day of the last entry, so that the same state of the book gives the
same bytes, and comes again each four weeks until a later file ends it. Nothing that the household
wrote of what it saw stands in it: a calendar may be shared.
"""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5

from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.planning.upkeep.words import place
from wellbook.support.translation import _

if TYPE_CHECKING:
    from icalendar import Event

_NAMES = UUID("6d1c5f0e-3f5a-4b8e-9a57-0c1f6d2e8b41")  # as those of the tests
_AGAIN = 4  # weeks
_EVENING = timedelta(hours=6)  # before the day begins
_PER_ENTRY = 10_000
_HIGHEST = 2**31 - 1


def upkeep_events(
    book: str, items: Sequence[UpkeepItem], entries: int, last: datetime
) -> "Iterator[Event]":
    """An event for each well and day on which something is due.

    Args:
        book: What names the book for ever.
        items: What units and wells need.
        entries: How many entries of the journal may have changed that.
        last: When the last of them was made.
    """
    visits: dict[tuple[int, date], list[UpkeepItem]] = {}
    for item in items:
        visits.setdefault((item.well.id, max(item.due, last.date())), []).append(item)
    numbers: dict[int, int] = {}
    for (well, day), members in sorted(visits.items(), key=lambda visit: visit[0]):
        numbers[well] = number = numbers.get(well, 0) + 1
        event = _event(day, members, comes_again=number == 1)
        event.add("uid", f"{uuid5(_NAMES, f'{book}/{well}/upkeep {number}')}")
        event.add("dtstamp", last)
        event.add("last-modified", last)
        event.add("sequence", min(entries * _PER_ENTRY, _HIGHEST))
        yield event


def _event(day: date, items: Sequence[UpkeepItem], *, comes_again: bool) -> "Event":
    from icalendar import Alarm, Event

    event = Event()
    names = ", ".join(dict.fromkeys(map(place, items)))
    said = _("Upkeep of {well}: {names}").format(well=items[0].well.name, names=names)
    event.add("summary", said)
    event.add("description", "\n".join(map(_line, items)))
    event.add("dtstart", day)
    event.add("dtend", day + timedelta(days=1))
    event.add("transp", "TRANSPARENT")
    event.add("class", "PUBLIC")
    event.add("priority", 5)
    if comes_again:
        event.add("rrule", {"freq": "weekly", "interval": _AGAIN})
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", said)
    alarm.add("trigger", -_EVENING)
    event.add_component(alarm)
    return event


def _line(item: UpkeepItem) -> str:
    words = (item.what, _("Who does it: {who}.").format(who=item.who) if item.who else "")
    return f"{place(item)}: {' '.join(filter(None, (*words, item.caution)))}"
