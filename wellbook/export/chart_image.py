"""One parameter's chart from a book, into a picture file."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from wellbook.book.record import Record
from wellbook.book.rows import Event, Point
from wellbook.charts.draw.drawing import save
from wellbook.charts.model.describe import chart
from wellbook.planning.overview import point_record
from wellbook.planning.settings import scheme, shown, yardsticks
from wellbook.sharing.event_marks import event_marks
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter


def chart_of(
    record: Record, catalogue: Catalogue, name: str, path: Path, *, point: str, today: date
) -> None:
    """Draw a parameter at a point into a .png, .svg or .pdf file.

    The parameter is given by its key or any printed name, the point by its name; an empty name
    means the first point at which it was tested.

    Raises:
        Fault: The parameter or point is not known, was never tested, or the file can't be written.
    """
    catalogue, chosen = yardsticks(record.settings, shown(record.settings, catalogue))
    parameter = catalogue.parameters.get(name) or catalogue.find(name)
    if parameter is None:
        raise Fault(
            _("Wellbook knows no parameter {name}: 'wellbook status' lists those tested.").format(
                name=name
            )
        )
    place = _place(record, parameter, point, today)
    drawn = chart(
        point_record(record, place.id, today),
        parameter,
        catalogue,
        chosen,
        event_marks(_public(record.events_of(place.well)), record.units_of(place.well)),
        scheme(record.settings),
        today,
    )
    save(drawn, path)


def _public(events: Iterable[Event]) -> list[Event]:
    """A picture travels, so facts about people stay out of it."""
    return [event for event in events if not event.is_about_people]


def _place(record: Record, parameter: Parameter, name: str, today: date) -> Point:
    points = record.points
    if name and name not in {point.name for point in points}:
        known = ", ".join(point.name for point in points) or _("none")
        raise Fault(
            _("There is no sampling point {name}; the book has: {known}.").format(
                name=name, known=known
            )
        )
    for point in points:
        tested = any(
            result.parameter == parameter.key and result.collected.day <= today
            for result in record.results(point.id)
        )
        if tested and name in {"", point.name}:
            return point
    where = f" at {name}" if name else ""
    raise Fault(
        _("{parameter} was never tested{where}: there is nothing to draw.").format(
            parameter=parameter.name, where=where
        )
    )
