"""Whether a test is in the book already."""

from collections import Counter
from collections.abc import Iterable, Sequence
from enum import StrEnum

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample, Point, Sample
from wellbook.book.samples import denies
from wellbook.intake.draft import DraftSample
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.readings import Flag
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name


class AlreadyThere(Fault):
    """The tests are in the book already, or others under their number; a person may say `again`."""


class Contradicts(Fault):
    """The lab told a finding before its report, and the report denies it; a person decides."""


class Told(StrEnum):
    """What becomes of a finding that a lab told before a report that denies it."""

    ASK = "ask"
    KEEP = "keep"  # both stand, and the finding counts
    WITHDRAWN = "withdrawn"  # both stand, and the finding no longer counts


def owed(book: Book, new: NewSample, point: int) -> Sample | None:
    """The sample of a book that a new one completes; None if none is awaited."""
    found = [
        old
        for old in book.record().drawn
        if old.point == point and old.collected.day == new.collected.day and _may_be(old, new)
    ]
    return min(found, key=lambda old: _distance(old, new), default=None)


def _may_be(old: Sample, new: NewSample) -> bool:
    """Whether numbers, way of drawing and what is awaited let it be the same sample."""
    if old.lab_number and new.lab_number:
        return old.lab_number == new.lab_number
    drawn_alike = not (old.draw and new.draw) or old.draw == new.draw
    return drawn_alike and bool({*old.awaited.split()} & {one.parameter for one in new.results})


def _distance(old: Sample, new: NewSample) -> tuple[bool, int]:
    """How far apart two draws of one day lie, in minutes; the lab's number tells first."""
    has_number = bool(new.lab_number) and old.lab_number == new.lab_number
    if old.collected.at is None or new.collected.at is None:
        return not has_number, 0
    first, second = (one.hour * 60 + one.minute for one in (old.collected.at, new.collected.at))
    return not has_number, abs(first - second)


def require_agreement(book: Book, old: Sample, new: NewSample) -> None:
    """Refuse a report that denies what its lab told before.

    Raises:
        Contradicts: It does; the sentence says what and what to do.
    """
    denied = {one.parameter: one for one in new.results if denies(one.reading)}
    for result in book.results(sample=old.id):
        flags = result.reading.flags
        if Flag.PRELIMINARY not in flags or Flag.REJECTED in flags:
            continue
        if result.parameter in denied:
            raise Contradicts(
                _(
                    "The lab told before that {name} was found in the sample of {day}; its report "
                    "says “{said}”. Ask the lab which is right, and go on as if it was found. "
                    "Keep both, and the finding counts; or say that the lab has withdrawn it."
                ).format(
                    name=result.name,
                    day=old.collected.day,
                    said=denied[result.parameter].reading.text,
                )
            )


class Kept:
    """The tests of a book, looked through once for each point."""

    def __init__(self, book: Book, source: str) -> None:
        self._book = book
        self._source = source
        self._by_day: dict[int, dict[str, list[Sample]]] = {}

    def has(self, sample: DraftSample, point: Point) -> bool:
        """Whether the same test is in the book: same point and time, and same values.

        Raises:
            AlreadyThere: The lab's number is in the book for that day, with other values.
        """
        new = sample.sample
        days = self._by_day.get(point.id)
        if days is None:
            days = self._by_day[point.id] = {}
            for old in self._book.samples(point.id):
                days.setdefault(old.collected.day.isoformat(), []).append(old)
        for old in days.get(new.collected.day.isoformat(), []):
            has_number = new.lab_number and new.lab_number == old.lab_number
            if not has_number and old.collected.order() != new.collected.order():
                continue
            held = self._book.results(sample=old.id)
            kept, read = _facts(held), _facts(new.results)
            if kept == read or (old.awaited and read and read <= kept):
                return True
            if old.awaited and not _says_otherwise(held, new.results):
                continue  # it is completed
            if has_number:
                raise AlreadyThere(
                    _(
                        "{source}: the lab’s number {lab_number} of {day} is "
                        "already in the book with other values. If this is an amended report, take "
                        "it (--take): that corrects the test, and what it said before stays in the "
                        "list of corrections. To keep both, add it again (--again)."
                    ).format(source=self._source, lab_number=new.lab_number, day=new.collected.day)
                )
        return False


def _says_otherwise(held: Sequence[Result], new: Sequence[NewResult]) -> bool:
    """Whether a report gives another value to what an earlier one of the same sample reported."""
    reported = [one for one in held if Flag.PRELIMINARY not in one.reading.flags]
    both = {one.parameter for one in reported} & {one.parameter for one in new} - {""}
    known = _facts(one for one in reported if one.parameter in both)
    return known != _facts(one for one in new if one.parameter in both)


def _facts(results: Iterable[Result | NewResult]) -> Counter[tuple[str, str, str]]:
    return Counter(
        (r.parameter or normal_name(r.name), r.reading.text, r.reading.unit) for r in results
    )
