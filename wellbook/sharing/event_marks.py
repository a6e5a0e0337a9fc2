"""What happened to a well, and its treatment units, as labelled marks of a chart."""

from collections.abc import Iterable, Iterator
from datetime import date

from wellbook.book.rows import Event, TreatmentUnit
from wellbook.charts.model.parts import EventMark
from wellbook.support.translation import _
from wellbook.water.values.local_time import VagueDay
from wellbook.water.values.partial_date import read_partial_date
from wellbook.wording import vocabulary


def event_marks(events: Iterable[Event], units: Iterable[TreatmentUnit]) -> tuple[EventMark, ...]:
    """The events and the days on which units came and went, as far as they can be read."""
    marks = [(event.day, _label(event)) for event in events]
    for unit in units:
        marks += [
            (unit.installed, _("{unit} in").format(unit=unit.name)),
            (unit.removed, _("{unit} out").format(unit=unit.name)),
        ]
    return tuple(_known(marks))


def _label(event: Event) -> str:
    return event.text if event.kind == "other" and event.text else vocabulary.event(event.kind)


def _known(marks: Iterable[tuple[str, str]]) -> Iterator[EventMark]:
    for text, label in marks:
        day = middle(text)
        if day is not None:
            yield EventMark(day, label)


def middle(text: str) -> date | None:
    """The day meant by an ISO day, or the middle of the month or year that is all we know.

    The middle is written as that month or year.
    """
    partial = read_partial_date(text)
    if partial is None:
        return None
    return VagueDay.of(partial, partial.middle) if partial.is_vague else partial.middle
