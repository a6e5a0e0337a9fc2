"""Events of the book as marks of a chart."""

from collections.abc import Iterable

from wellbook.book.rows import Event
from wellbook.charts.model.parts import EventMark
from wellbook.sharing.event_marks import middle
from wellbook.wording import vocabulary


def marks(events: Iterable[Event]) -> list[EventMark]:
    """The events whose day, month or year can be read, placed as in the packet."""
    days = ((middle(event.day), event) for event in events)
    return [
        EventMark(day, event.text or vocabulary.event(event.kind))
        for day, event in days
        if day is not None
    ]
