"""Reminders for any calendar program: RFC 5545, all-day dates, alarms.

One event and one task for each panel at each point, with a UID that never changes, so that a later
file moves them and makes no doubles. SEQUENCE rises with every entry of the journal that may have
changed them, and with every day by which time itself has moved the suggested stretch on. Texts
hold no count of days, so that the same state of the book gives the same bytes.
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
from wellbook.book.rows import Point, Well
from wellbook.planning.overview import due
from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.due import PanelDue
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording.dates import written

if TYPE_CHECKING:
    from icalendar import Alarm, Calendar, Event, Todo

_NAMES = UUID("6d1c5f0e-3f5a-4b8e-9a57-0c1f6d2e8b41")  # ours, made once
_DECIDES = frozenset(
    {"well", "point", "treatment_unit", "service", "sample", "result", "event", "plan", "setting"}
)
_PER_ENTRY = 10_000  # more than the days by which a stretch moves on between two entries
_HIGHEST = 2**31 - 1
_BOTTLES, _EVENING = timedelta(days=7), timedelta(hours=6)  # alarms before the day begins
_DAY = timedelta(days=1)


def write(record: Record, catalogue: Catalogue, path: Path, *, today: date) -> int:
    """Write what is due and what comes next as a calendar file; returns the number of reminders.

    Raises:
        Fault: The folder can't be written.
    """
    from wellbook.support.whole_file import write_whole

    dues = due(record, catalogue, today)
    write_whole(path, content(record.archive.journal(), dues))
    return sum(len(panels) for _unused, _unused2, panels in dues)


def content(
    journal: Sequence[Entry], dues: Sequence[tuple[Well, Point, Sequence[PanelDue]]]
) -> bytes:
    """The calendar as bytes; the journal tells which household it is, and what changed when."""
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", f"-//Wellbook//Wellbook {__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("name", _("Water tests"))
    entries = [entry for entry in journal if _decides(entry)]
    if entries:
        _fill(calendar, journal[0].digest, entries, dues)
    return bytes(calendar.to_ical())


def _fill(
    calendar: "Calendar",
    book: str,
    entries: Sequence[Entry],
    dues: Sequence[tuple[Well, Point, Sequence[PanelDue]]],
) -> None:
    last = datetime.fromisoformat(entries[-1].at)
    alarmed: set[tuple[int, date]] = set()
    for well, point, panels in dues:
        for one in panels:
            name = f"{book}/{point.id}/{one.panel.key}"
            sequence = _sequence(len(entries), one, last.date())
            day = one.day or one.window[0]
            is_first = (well.id, day) not in alarmed
            alarmed.add((well.id, day))
            for part in (
                _event(well, point, one, with_alarms=is_first),
                _todo(well, point, one),
            ):
                part.add("uid", f"{uuid5(_NAMES, f'{name}/{part.name}')}")
                part.add("dtstamp", last)
                part.add("last-modified", last)
                part.add("sequence", sequence)
                calendar.add_component(part)


def _decides(entry: Entry) -> bool:
    """Whether a write may have changed what is due."""
    return any(table in _DECIDES for table, *_unused in json.loads(entry.changes))


def _sequence(entries: int, one: PanelDue, last: date) -> int:
    moved_on = max(0, min((one.window[0] - last).days, _PER_ENTRY - 1))
    return min(entries * _PER_ENTRY + moved_on, _HIGHEST)


def _event(well: Well, point: Point, one: PanelDue, *, with_alarms: bool) -> "Event":
    from icalendar import Event

    event = Event()
    day = one.day or one.window[0]
    event.add(
        "summary",
        _("Draw a water sample: {name} ({point})").format(name=_name(one), point=point.name),
    )
    event.add("description", _description(well, point, one))
    event.add("dtstart", day)
    event.add("dtend", day + _DAY)
    event.add("transp", "TRANSPARENT")
    event.add("class", "PRIVATE" if one.private else "PUBLIC")
    if with_alarms:
        for before, text in _alarms(day, well, point):
            event.add_component(_alarm(before, text))
    return event


def _todo(well: Well, point: Point, one: PanelDue) -> "Todo":
    from icalendar import Todo

    todo = Todo()
    start, end = one.window
    todo.add(
        "summary", _("Test the water: {name} ({point})").format(name=_name(one), point=point.name)
    )
    todo.add("description", _description(well, point, one))
    todo.add("dtstart", start)
    todo.add("due", max(end, start + _DAY))
    todo.add("priority", 1 if one.urgent else 5)
    todo.add("status", "NEEDS-ACTION")
    todo.add("class", "PRIVATE" if one.private else "PUBLIC")
    return todo


def _alarms(day: date, well: Well, point: Point) -> Iterator[tuple[timedelta, str]]:
    place = f"{well.name}, {point.name}"
    yield (
        _BOTTLES,
        _("Water sample on {day}: are the bottles there? ({place})").format(
            day=written(day), place=place
        ),
    )
    yield (
        _EVENING,
        _("Water sample tomorrow, {day}: look at the field sheet. ({place})").format(
            day=written(day), place=place
        ),
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


def _description(well: Well, point: Point, one: PanelDue) -> str:
    side = _("treated water") if point.treated else _("raw water")
    start, end = one.window
    said = [
        f"{well.name}, {point.name} ({side}).",
        _("Last tested on {last}.").format(last=written(one.last)) if one.last else "",
        _("Due on {due}. A good time: {start} to {end}.").format(
            due=written(one.due), start=written(start), end=written(end)
        ),
        "" if one.day else _("No day in this stretch can be tested in time: ask the lab."),
        "" if one.private else f"{one.panel.why} ({one.panel.source})",
        _("The hours and bottles: wellbook round, or the page of the next round."),
    ]
    return "\n".join(filter(None, said))
