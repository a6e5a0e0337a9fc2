"""What happened to a well and its treatment between two tests, in words."""

from collections.abc import Iterable
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import Event, Service
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.verdicts.latest_change import LatestChange
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
    return [f"{what.rstrip('. ')}, {facts.loose_day(when)}" for when, what in sorted(found)]


def since_test_before(record: Record, well: int, change: LatestChange) -> list[str]:
    """What happened to a well and its units from the test before to the latest one."""
    services = [one for unit in record.units_of(well) for one in record.services_of(unit.id)]
    return between(record.events_of(well), services, change.before, change.day)


def _lies_between(text: str, before: date | None, day: date) -> bool:
    when = read_partial_date(text)
    return when is not None and before is not None and when.last > before and when.first <= day
