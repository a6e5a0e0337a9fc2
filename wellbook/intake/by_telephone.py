"""What a lab tells by telephone before its report: bacteria that were found.

Only a finding is taken: that nothing was found so far says nothing.
"""

from dataclasses import replace
from datetime import date

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample, Point, Sample
from wellbook.book.samples import denies
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag
from wellbook.water.values.results import Result
from wellbook.water.verdicts.bacteria import TOLD_BY

_UNIT = "per 100 mL"


def awaited_bacteria(book: Book, point: Point | None = None) -> list[Sample]:
    """The samples of which a finding may be told: bacteria are awaited, the last drawn first."""
    found = [
        one
        for one in book.record().drawn
        if (point is None or one.point == point.id) and {*one.awaited.split()} & {*TOLD_BY}
    ]
    return sorted(found, key=lambda one: one.collected.order(), reverse=True)


def keep_finding(
    book: Book, catalogue: Catalogue, parameter: str, result: str, sample: Sample | NewSample
) -> int:
    """Keep a finding that is told before the report, as preliminary; gives its sample's number.

    Args:
        book: The book.
        catalogue: The reference data.
        parameter: Key of what was found.
        result: As the lab says it.
        sample: The sample that is awaited, or one that the book has not yet.

    Raises:
        Fault: It says that nothing was found, or was told already.
    """
    reading = read_reading(result, unit=_UNIT)
    if not reading.is_detect or denies(reading):
        raise Fault(
            _(
                "Only a finding is taken before the report: “{result}” says that nothing was "
                "found, and that is settled only when the report is there."
            ).format(result=result)
        )
    reading = replace(reading, flags=reading.flags | {Flag.PRELIMINARY})
    new = NewResult(parameter, catalogue.parameters[parameter].name, reading)
    if isinstance(sample, NewSample):
        return book.add_sample(replace(sample, results=(new,), awaited=" ".join(TOLD_BY[:2])))
    if any(one.parameter == parameter for one in book.results(sample=sample.id)):
        said = _("{name} is in the book already for the sample of {day}.")
        raise Fault(said.format(name=new.name, day=sample.collected.day))
    book.add_result(sample.id, new, _("told before the report"))
    return sample.id


def told_before(book: Book) -> list[tuple[Sample, Result]]:
    """Findings that were told before a report and still stand, each with its sample."""
    return [
        (sample, result)
        for sample in book.samples()
        for result in book.results(sample=sample.id)
        if Flag.PRELIMINARY in result.reading.flags and Flag.REJECTED not in result.reading.flags
    ]


def withdraw(book: Book, result: Result) -> None:
    """Note that the lab has withdrawn what it told before its report; the finding stays to read."""
    reading = replace(result.reading, flags=result.reading.flags | {Flag.REJECTED})
    new = NewResult(
        result.parameter, result.name, reading, result.method, result.reporting_limit,
        result.detection_limit, result.qualifier, draw=result.draw,
    )  # fmt: skip
    book.correct_result(result.id, new, _("withdrawn by the lab"))


def sample_told_of(
    book: Book, point: Point | None, day: date | None, lab: str = "", number: str = ""
) -> Sample | NewSample:
    """The sample that a lab tells of: one that is awaited, or a new one at a point.

    Raises:
        Fault: It can't be told which is meant.
    """
    found = [
        one
        for one in awaited_bacteria(book, point)
        if (day is None or one.collected.day == day)
        and (not number or one.lab_number in {"", number})
    ]
    if len(found) == 1:
        return found[0]
    if found:
        days = ", ".join(one.collected.day.isoformat() for one in found)
        raise Fault(_("Say which sample is meant, by its day: {days}.").format(days=days))
    if point is None or day is None:
        raise Fault(_("No bacteria are awaited: say at which point and on which day it was drawn."))
    return NewSample(point.id, LocalTime(day), lab=lab, lab_number=number)
