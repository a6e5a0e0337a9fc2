"""Samples that were drawn and of which the lab has not said all: what is awaited, and until when.

How long a lab takes for its report is common practice, no source; the lab's own earlier reports in
the book tell better.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from statistics import median_low
from typing import TYPE_CHECKING

from wellbook.book.record import Record
from wellbook.book.rows import NewSample, Point, Sample, Well
from wellbook.planning.settings import calendar, scheme
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.due import Outlook, PanelDue
from wellbook.water.values.bottles import bottles_for
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag
from wellbook.wording.dates import written

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

USUAL_DAYS = 14  # from the draw to the report; ours, until the lab's own reports tell
_ENOUGH = 3  # reports of a lab from which on they tell
_HOUR = timedelta(hours=1)
_LONGEST_REST = 14  # days that no lab stays closed for
_NAMED = 3  # parameters that are named in a sentence


@dataclass(frozen=True, slots=True)
class Awaited:
    """A sample that was drawn, and what of it is not reported yet.

    Attributes:
        parameters: Keys of what is awaited.
        names: Their names.
        expected: Day by which the report usually is there.
        days: The usual days to the report.
        n: Reports of this lab that tell them; 0 where none does.
        is_late: Whether that day is over.
        age: Age at the start of the test if it goes its usual way; None where that is not asked.
        limit: Greatest age that is allowed.
        preliminary: Names of what the lab has told to be found before its report.
    """

    sample: Sample
    well: Well
    point: Point
    parameters: tuple[str, ...]
    names: tuple[str, ...]
    expected: date
    days: int
    n: int
    is_late: bool
    age: timedelta | None
    limit: timedelta
    preliminary: tuple[str, ...]

    @property
    def is_too_old(self) -> bool:
        """Whether it would be too old when its test starts."""
        return self.age is not None and self.age > self.limit

    def lines(self) -> Iterator[str]:
        """What is awaited, and what is to be done, in sentences."""
        place = f"{self.well.name}, {self.point.name}"
        more = ["…"] if len(self.names) > _NAMED else []
        names = ", ".join((*self.names[:_NAMED], *more))
        day = written(self.sample.collected.day)
        if self.is_too_old and self.age is not None:
            yield _(
                "The sample of {day} ({place}) would be {age:.0f} hours old when its test starts; "
                "{limit:.0f} hours are allowed. Ask the lab whether it can start sooner, else draw "
                "again."
            ).format(day=day, place=place, age=self.age / _HOUR, limit=self.limit / _HOUR)
        if self.preliminary:
            yield _(
                "Preliminary, by telephone: {names} found in the sample of {day} ({place}). The "
                "report is still to come; act on it now."
            ).format(names=", ".join(self.preliminary), day=day, place=place)
        said = (
            _("Awaited since {day} ({place}): {names}. Usually here by {expected}.")
            if not self.is_late
            else _(
                "Awaited since {day} ({place}): {names}. It was usually here by {expected}: ask "
                "the lab."
            )
        )
        yield said.format(day=day, place=place, names=names, expected=written(self.expected))

    @property
    def basis(self) -> str:
        """Where the usual days come from."""
        if not self.n:
            return _("{n} days, until three reports of this lab tell better").format(n=self.days)
        said = ngettext("{n} day, by {of} reports of this lab", "{n} days, by {of} reports of this "
                        "lab", self.days)  # fmt: skip
        return said.format(n=self.days, of=self.n)


def awaited(record: Record, catalogue: Catalogue, today: date) -> tuple[Awaited, ...]:
    """What is awaited on a day, drawn first first."""
    points = {point.id: point for point in record.points}
    wells = {well.id: well for well in record.wells}
    found = []
    way: Calendar | None = None
    for sample in record.drawn:
        if sample.collected.day > today:
            continue
        way = way or calendar(record.settings, today)
        ahead = Outlook(today, scheme(record.settings), way, catalogue)
        point = points[sample.point]
        keys = tuple(sample.awaited.split())
        days, n = _usual_days(record, sample.lab)
        expected = sample.collected.day + timedelta(days=days)
        names = [catalogue.parameters[key].name for key in keys if key in catalogue.parameters]
        found.append(
            Awaited(
                sample, wells[point.well], point, keys, tuple(names), expected, days, n,
                today > expected, _age(sample, way, today), ahead.limit(keys),
                _told_early(record, sample, catalogue),
            )
        )  # fmt: skip
    return tuple(found)


def _told_early(record: Record, sample: Sample, catalogue: Catalogue) -> tuple[str, ...]:
    return tuple(
        catalogue.parameters[result.parameter].name
        for result in record.results(sample.point)
        if result.sample == sample.id
        and Flag.PRELIMINARY in result.reading.flags
        and Flag.REJECTED not in result.reading.flags
    )


def _usual_days(record: Record, lab: str) -> tuple[int, int]:
    """Days from draw to report at a lab, and how many reports tell so."""
    taken = []
    for sample in record.samples():
        if lab and sample.lab == lab and sample.reported:
            try:
                passed = date.fromisoformat(sample.reported) - sample.collected.day
            except ValueError:  # a month or a year
                continue
            if passed.days >= 0:
                taken.append(passed.days)
    return (median_low(taken), len(taken)) if len(taken) >= _ENOUGH else (USUAL_DAYS, 0)


def _age(sample: Sample, way: "Calendar", today: date) -> timedelta | None:
    """Age at the start of the test; None once it was received, or where no hour is known."""
    drawn = sample.collected
    if drawn.at is None or sample.received is not None:
        return None
    zone = way.hours.zone
    draw = datetime.combine(drawn.day, drawn.at, zone)
    sent = sample.dispatched
    if sent is not None:
        ready = datetime.combine(sent.day, sent.at or drawn.at, zone)
    elif drawn.day < today:
        ready = datetime.combine(today, way.hours.earliest, zone)  # it is still here
    else:
        ready = draw + way.hours.packing
    start = _start(way, ready)
    return start.astimezone(UTC) - draw.astimezone(UTC) if start else None


def _start(way: "Calendar", ready: datetime) -> datetime | None:
    """When the test starts; what the lab does not take that day is brought again on the next."""
    for days in range(_LONGEST_REST):
        morning = datetime.combine(
            ready.date() + timedelta(days=days), way.hours.earliest, ready.tzinfo
        )
        if arrival := way.route.arrival(morning if days else ready, way.lab_hours):
            return way.lab_hours.start_of(arrival)
    return None


def with_draws(
    record: Record, catalogue: Catalogue, point: Point, dues: tuple[PanelDue, ...], today: date
) -> tuple[PanelDue, ...]:
    """What is due, where it was drawn already said to be so; it stays due until it is reported."""
    if not any(sample.point == point.id for sample in record.drawn):
        return dues
    here = [one for one in awaited(record, catalogue, today) if one.point.id == point.id]
    return tuple(_with_draw(due, here) for due in dues)


def _with_draw(due: PanelDue, here: list[Awaited]) -> PanelDue:
    for one in here:
        day = one.sample.collected.day
        serves = not (one.is_late or one.is_too_old or one.preliminary)
        if serves and {*due.panel.core} <= {*one.parameters} and day > (due.last or date.min):
            said = _("Drawn on {day}; the result is awaited.").format(day=written(day))
            return replace(due, drawn=day, why=f"{due.why} {said}".strip())
    return due


@dataclass(frozen=True, slots=True)
class NewDraw:
    """What a household says of a round that it drew; what is empty was not said.

    Attributes:
        day: Day of the draw.
        at: Hour of the draw; each tap is drawn at about that hour.
        sent_at: Hour at which the samples left the house, that day.
        lab: Name of the lab; the household's own if empty.
    """

    day: date
    at: time | None = None
    sent_at: time | None = None
    lab: str = ""
    bottles: str = ""
    cooling: str = ""
    parcel: str = ""
    form: str = ""
    note: str = ""


def draws(
    record: Record,
    catalogue: Catalogue,
    draw: NewDraw,
    planned: Sequence[tuple[Point, Sequence[str]]],
) -> tuple[NewSample, ...]:
    """The samples of a round that was drawn, about to be kept as awaited.

    Args:
        record: The record.
        catalogue: The reference data.
        draw: What is said of the draw.
        planned: The points that were drawn at, each with the keys of what is tested.

    Raises:
        Fault: Nothing is tested, or a point's sample of that day is awaited already.
    """
    from wellbook.planning.lab.lab_route import read_habits

    habits = read_habits(record.settings)
    held = {(one.point, one.collected.day): {*one.awaited.split()} for one in record.drawn}
    made = []
    for point, keys in planned:
        if held.get((point.id, draw.day), set()) & {*keys}:
            said = _("The sample of {day} at {point} is awaited already.")
            raise Fault(said.format(day=draw.day.isoformat(), point=point.name))
        bottles = draw.bottles or ", ".join(
            bottle.name for bottle, _keys in bottles_for(keys, catalogue.bottles, first_draw=False)
        )
        sent = LocalTime(draw.day, draw.sent_at) if draw.sent_at else None
        made.append(
            NewSample(
                point.id, LocalTime(draw.day, draw.at), lab=draw.lab or habits.lab,
                sampler=habits.sampler, standing="owner", note=draw.note, dispatched=sent,
                awaited=" ".join(keys), bottles=bottles, cooling=draw.cooling,
                parcel=draw.parcel, form=draw.form,
            )
        )  # fmt: skip
    if not any(sample.awaited for sample in made):
        raise Fault(_("Say what is tested: nothing is planned there."))
    return tuple(made)
