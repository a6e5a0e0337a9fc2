"""Reminders for any calendar program: RFC 5545, all-day events with alarms.

There is one for each visit, and one for each day on which units, pump or wellhead need something.

A UID names a well and the number of the visit from now on, so that a later file moves the events
and makes no doubles. SEQUENCE rises with every entry of the journal that may have changed them, and
with every day by which time itself has moved the suggested stretch on. The next visit comes again,
gently, until a later file moves it: who forgets the calendar, too, is reminded. Texts hold no count
of days, so that the same state of the book gives the same bytes.
"""

import json
from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING
from uuid import UUID, uuid5

from wellbook import __version__
from wellbook.book.journal import Entry
from wellbook.book.record import Record
from wellbook.book.rows import Point
from wellbook.planning.overview import due
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.due import UpkeepItem, upkeep_items
from wellbook.planning.visits import Dues, Visit, visits
from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.due import PanelDue
from wellbook.water.sampling.upkeep import Upkeep
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording.dates import written

if TYPE_CHECKING:
    from icalendar import Alarm, Calendar, Event

_NAMES = UUID("6d1c5f0e-3f5a-4b8e-9a57-0c1f6d2e8b41")  # ours, made once
_DECIDES = frozenset(
    {
        "well",
        "point",
        "treatment_unit",
        "service",
        "sample",
        "result",
        "event",
        "plan",
        "setting",
        "upkeep_interval",
        "inspection_answer",
    }
)
_PER_ENTRY = 100_000  # more than the days by which stretches move on between two entries
_HIGHEST = 2**31 - 1
_BOTTLES, _EVENING = timedelta(days=7), timedelta(hours=6)  # alarms before the day begins
_DAY = timedelta(days=1)
# Whole weeks, so that what is repeated falls on a weekday that suits the lab as well.
_AGAIN, _AGAIN_URGENT = 4, 1


def write(
    record: Record, catalogue: Catalogue, path: Path, *, today: date, upkeep: Upkeep | None = None
) -> int:
    """Write what is due and what comes next as a calendar file.

    Args:
        record: The record.
        catalogue: Names of panels.
        path: Where to write.
        today: The day from which it looks ahead.
        upkeep: What units, pump and wellhead need; None leaves it out.

    Returns:
        The number of events.

    Raises:
        Fault: The folder can't be written.
    """
    from wellbook.support.whole_file import write_whole

    dues = due(record, catalogue, today)
    tasks = upkeep_items(record, upkeep, today) if upkeep else ()
    write_whole(path, content(record.archive.journal(), dues, tasks))
    return len(visits(dues)) + len(_by_day(tasks))


def content(journal: Sequence[Entry], dues: Dues, tasks: Sequence[UpkeepItem] = ()) -> bytes:
    """The calendar as bytes; the journal tells which household it is, and what changed when."""
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", f"-//Wellbook//Wellbook {__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("name", _("Water tests"))
    entries = [entry for entry in journal if _decides(entry)]
    if entries:
        _fill(calendar, journal[0].digest, entries, visits(dues), _by_day(tasks))
    return bytes(calendar.to_ical())


def _fill(
    calendar: "Calendar",
    book: str,
    entries: Sequence[Entry],
    planned: Sequence[Visit],
    tasks: Sequence[Sequence[UpkeepItem]],
) -> None:
    last = datetime.fromisoformat(entries[-1].at)
    sequence = _sequence(len(entries), planned, last.date())
    made = [(f"{one.well.id}/visit {one.number}", _event(one)) for one in planned]
    made += [(f"upkeep {n}", _upkeep_event(group)) for n, group in enumerate(tasks, start=1)]
    for name, event in made:
        event.add("uid", f"{uuid5(_NAMES, f'{book}/{name}')}")
        event.add("dtstamp", last)
        event.add("last-modified", last)
        event.add("sequence", sequence)
        calendar.add_component(event)


def _decides(entry: Entry) -> bool:
    """Whether a write may have changed what is due."""
    return any(table in _DECIDES for table, *_unused in json.loads(entry.changes))


def _sequence(entries: int, planned: Sequence[Visit], last: date) -> int:
    """One number for the file: what moves on may go from one visit to another."""
    ends = (day for visit in planned for _point, due in visit.tasks for day in due.window)
    moved_on = sum(max(0, (day - last).days) for day in ends)
    return min(entries * _PER_ENTRY + min(moved_on, _PER_ENTRY - 1), _HIGHEST)


def _event(visit: Visit) -> "Event":
    from icalendar import Event

    event = Event()
    names = list(dict.fromkeys(_name(due) for _point, due in visit.tasks))
    event.add(
        "summary",
        _("Draw water samples: {names} ({well})").format(
            names=", ".join(names), well=visit.well.name
        ),
    )
    event.add("description", _description(visit))
    event.add("dtstart", visit.day)
    event.add("dtend", visit.day + _DAY)
    if visit.number == 1:
        weeks = _AGAIN_URGENT if visit.is_urgent else _AGAIN
        event.add("rrule", {"freq": "weekly", "interval": weeks})
    event.add("transp", "TRANSPARENT")
    event.add("priority", 1 if visit.is_urgent else 5)
    is_private = any(due.private for _point, due in visit.tasks)
    event.add("class", "PRIVATE" if is_private else "PUBLIC")
    for before, text in _alarms(visit):
        event.add_component(_alarm(before, text))
    return event


def _by_day(tasks: Sequence[UpkeepItem]) -> list[list[UpkeepItem]]:
    """Upkeep by well and day, the soonest first; what has no day is asked for in the book only."""
    groups: dict[tuple[date, int], list[UpkeepItem]] = {}
    for item in tasks:
        if item.is_dated:
            groups.setdefault((item.due, item.well.id), []).append(item)
    return [groups[key] for key in sorted(groups)]


def _upkeep_event(group: Sequence[UpkeepItem]) -> "Event":
    """What is to be done on one day; it comes again until a later file has it done."""
    from icalendar import Event

    event, first = Event(), group[0]
    names = ", ".join(dict.fromkeys(map(words.place, group)))
    said = _("Care for the water system: {names} ({well})")
    event.add("summary", said.format(names=names, well=first.well.name))
    lines = [" ".join(filter(None, (item.what, item.who, item.caution))) for item in group]
    event.add("description", "\n\n".join((*lines, _comes_again())))
    event.add("dtstart", first.due)
    event.add("dtend", first.due + _DAY)
    event.add("rrule", {"freq": "weekly", "interval": _AGAIN})
    event.add("transp", "TRANSPARENT")
    event.add("priority", 5)
    event.add("class", "PUBLIC")
    event.add_component(_alarm(_EVENING, said.format(names=names, well=first.well.name)))
    return event


def _comes_again() -> str:
    return _(
        "This comes again until it is done and in the book, and the calendar file is taken in "
        "once more."
    )


def _alarms(visit: Visit) -> Iterator[tuple[timedelta, str]]:
    points = dict.fromkeys(point.name for point, _due in visit.tasks)
    where = f"{visit.well.name}: {', '.join(points)}"
    yield (
        _BOTTLES,
        _("Water samples in a week: are the bottles there? ({place})").format(place=where),
    )
    yield (
        _EVENING,
        _("Water samples tomorrow: look at the field sheet. ({place})").format(place=where),
    )


def _alarm(before: timedelta, text: str) -> "Alarm":
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", text)
    alarm.add("trigger", -before)
    return alarm


def _name(one: PanelDue) -> str:
    """What is tested; a calendar may be shared, so nothing about people stands in it."""
    n = len(one.panel.core)
    said = ngettext("{n} parameter", "{n} parameters", n).format(n=n)
    return said if one.private else one.panel.name


def _description(visit: Visit) -> str:
    said = [_task(point, due) for point, due in visit.tasks]
    if visit.number == 1:
        said.append(_comes_again())
    said.append(_("The hours and bottles: wellbook round, or the page of the next round."))
    return "\n\n".join(said)


def _task(point: Point, one: PanelDue) -> str:
    side = _("treated water") if point.treated else _("raw water")
    start, end = one.window
    said = [
        f"{_name(one)}: {point.name} ({side}).",
        _("Last tested on {last}.").format(last=written(one.last)) if one.last else "",
        _("Due on {due}. A good time: {start} to {end}.").format(
            due=written(one.due), start=written(start), end=written(end)
        ),
        "" if one.day else _("No day in this stretch can be tested in time: ask the lab."),
        "" if one.private else f"{one.panel.why} ({one.panel.source})",
    ]
    return "\n".join(filter(None, said))
