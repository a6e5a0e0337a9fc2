"""Events of the book as marks of a chart."""

from collections.abc import Iterable
from datetime import date

from wellbook.book.rows import Event
from wellbook.charts.parts import EventMark

_MONTH, _YEAR = len("2024-05"), len("2024")


def marks(events: Iterable[Event]) -> list[EventMark]:
    """The events whose day, month or year is known; a month or year stands at its first day."""
    found = []
    for event in events:
        text = event.day + {_YEAR: "-01-01", _MONTH: "-01"}.get(len(event.day), "")
        found.append(EventMark(date.fromisoformat(text), event.text or event.kind))
    return found
