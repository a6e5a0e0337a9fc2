"""Whether a test is in the book already."""

from collections import Counter
from collections.abc import Iterable

from wellbook.book import Book
from wellbook.book.rows import NewResult, Point, Sample
from wellbook.intake.draft import DraftSample
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name


class AlreadyThere(Fault):
    """The tests are in the book already, or others under their number; a person may say `again`."""


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
            if _facts(self._book.results(sample=old.id)) == _facts(new.results):
                return True
            if has_number:
                raise AlreadyThere(
                    _(
                        "{source}: the lab's number {lab_number} of {day} is "
                        "already in the book with other values. If this is an amended report, "
                        "strike "
                        "out the earlier test first."
                    ).format(source=self._source, lab_number=new.lab_number, day=new.collected.day)
                )
        return False


def _facts(results: Iterable[Result | NewResult]) -> Counter[tuple[str, str, str]]:
    return Counter(
        (r.parameter or normal_name(r.name), r.reading.text, r.reading.unit) for r in results
    )
