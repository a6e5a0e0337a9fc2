"""What happened to a well and its treatment between two tests, in words."""

from collections.abc import Iterable
from datetime import date

from wellbook.book.rows import Event, Service
from wellbook.water.values.partial_date import read_partial_date
from wellbook.wording import facts, vocabulary


def between(
    events: Iterable[Event], services: Iterable[Service], before: date | None, day: date
) -> list[str]:
    """Events and services after the earlier test up to the day of the later one, by day.

    What is about people and not the well is left out, so are days that can't be read. A month or
    year that only partly lies between counts.
    """
    happened = [
        (event.day, event.text or vocabulary.event(event.kind))
        for event in events
        if not event.is_about_people
    ]
    happened += [
        (service.day, service.text or vocabulary.service(service.kind)) for service in services
    ]
    found = {one for one in happened if _lies_between(one[0], before, day)}
    return [f"{what}, {facts.loose_day(when)}" for when, what in sorted(found)]


def _lies_between(text: str, before: date | None, day: date) -> bool:
    when = read_partial_date(text)
    return when is not None and before is not None and when.last > before and when.first <= day
