"""What becomes of a file: its tests are new, in the book already, or more of a test that is there.

Tests are compared by value and unit, so that mg/L and µg/L of one figure are the same.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from wellbook.book import Book
from wellbook.book.rows import NewResult, Point, Sample
from wellbook.intake.already import AlreadyThere, owed
from wellbook.intake.destinations import places_of, points_of
from wellbook.intake.draft import Draft, DraftSample
from wellbook.intake.storing import placed_in_file, report_of, store
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.units.conversion import in_usual
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name


class Fate(StrEnum):
    """What becomes of a file."""

    READY = "ready"  # it can be kept as it stands
    ADDS = "adds"  # it holds more readings of a test that is there
    OTHER = "other"  # it holds other values of a test that is there
    DECIDE = "decide"  # a person has to decide something first
    THERE = "there"  # all of it is in the book


@dataclass(frozen=True, slots=True)
class Meeting:
    """A sample of a file and the test of the book that is the same collection.

    Attributes:
        old: The test.
        missing: Readings that the test does not have.
        other: Readings of the test, and those of the file that have another value.
    """

    old: Sample
    missing: tuple[NewResult, ...]
    other: tuple[tuple[Result, NewResult], ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What becomes of a file, and why.

    Attributes:
        fate: In a word.
        new: Samples of the file that the book does not have.
        met: Those that it has, with what the file adds.
        why: What must be decided, where that is not a doubt about a reading.
    """

    fate: Fate
    new: tuple[DraftSample, ...] = ()
    met: tuple[Meeting, ...] = ()
    why: str = ""

    @property
    def adds(self) -> int:
        """How many readings it adds to tests that are there."""
        return sum(len(one.missing) for one in self.met)

    @property
    def corrects(self) -> int:
        """How many readings of those tests it corrects where it is taken."""
        return sum(len(one.other) for one in self.met)


def fate(draft: Draft, book: Book, catalogue: Catalogue, *, well: str = "") -> Outcome:
    """What would become of a draft in a book.

    Args:
        draft: What was read.
        book: Where it would go.
        catalogue: To compare figures in several units.
        well: Name of the well, as for `store`.
    """
    is_doubted = any(not mark.is_certain for sample in draft.samples for mark in sample.marks)
    if draft.stops or is_doubted or not draft.samples:
        return Outcome(Fate.DECIDE)
    try:
        points = points_of(book, well, draft.source.name)
        placed = list(places_of(draft, points, "")) if points else []
    except Fault as why:
        return Outcome(Fate.DECIDE, why=str(why))
    if not placed:
        return Outcome(Fate.DECIDE, why=_("The book has no sampling point yet: choose one."))
    new, met = [], []
    for sample, point in placed:
        found = _met(sample, point, book, catalogue)
        if found is None:
            new.append(sample)
        else:
            met.append(found)
    return Outcome(_fate(new, met), tuple(new), tuple(met))


def met_in(draft: Draft, book: Book, catalogue: Catalogue, *, well: str = "") -> Outcome | None:
    """What a decided draft adds to tests of the book, or says otherwise; None if nothing.

    Raises:
        AlreadyThere: All of it is in the book.
    """
    settled = tuple(
        replace(one, marks=tuple(mark._replace(doubts=()) for mark in one.marks))
        for one in draft.samples
    )
    found = fate(replace(draft, samples=settled), book, catalogue, well=well)
    if found.fate is Fate.THERE:
        said = _("{source} is already in the book, with all its tests. Nothing was added.")
        raise AlreadyThere(said.format(source=draft.source.name))
    return found if found.fate in {Fate.ADDS, Fate.OTHER} else None


def _fate(new: Sequence[DraftSample], met: Sequence[Meeting]) -> Fate:
    if any(one.other for one in met):
        return Fate.OTHER
    if any(one.missing for one in met):
        return Fate.ADDS
    return Fate.READY if new else Fate.THERE


def complete(draft: Draft, outcome: Outcome, book: Book, *, well: str = "") -> int:
    """Keep the new tests of a file, and add its new readings to the tests that are there.

    Where the file has other values than a test, that test is corrected. The file itself is kept
    with each of them. All of it is done, or nothing.

    Returns:
        How many readings were added to tests that were there.
    """
    reason = _("From {name}, a later report on the same sample.").format(name=draft.source.name)
    with book.together():
        for met in outcome.met:
            for old, result in met.other:
                book.correct_result(old.id, result, reason)
            for result in met.missing:
                book.add_result(met.old.id, result, reason)
            if met.missing or met.other:
                for document in draft.samples[0].sample.documents:
                    book.add_document(document, sample=met.old.id)
        if outcome.new:
            store(replace(draft, samples=outcome.new), book, well=well, again=True)
    return outcome.adds


def _met(sample: DraftSample, point: Point, book: Book, catalogue: Catalogue) -> Meeting | None:
    """The test of the book that is the same collection; None if there is none."""
    new = placed_in_file(sample, report_of(sample.sample))
    if owed(book, replace(new, point=point.id), point.id) is not None:
        return None  # it was awaited, and is completed when it is stored
    for old in book.samples(point.id):
        if old.struck or old.collected.day != new.collected.day:
            continue
        numbers = {old.lab_number, new.lab_number} - {""}
        has_number = new.lab_number and len(numbers) == 1 and old.lab_number
        times = {old.collected.at, new.collected.at} - {None}
        if not has_number and (len(numbers) > 1 or len(times) > 1):
            continue
        found = _compared(book.results(sample=old.id), new.results, catalogue)
        missing, other = found
        same = len(new.results) - len(missing) - len(other)
        if not has_number and same <= len(other):
            continue  # another sample of the same day
        return Meeting(old, missing, other)
    return None


def _compared(
    old: Iterable[Result], new: Iterable[NewResult], catalogue: Catalogue
) -> tuple[tuple[NewResult, ...], tuple[tuple[Result, NewResult], ...]]:
    """Of the new results those that the old ones lack, and those that differ from them."""
    known: dict[tuple[str, str, str], list[Result]] = {}
    for result in old:
        known.setdefault(_key(result), []).append(result)
    missing, other = [], []
    for one in new:
        there = known.get(_key(one), [])
        if not there:
            missing.append(one)
        elif not any(_same(one, catalogue)(result.reading) for result in there):
            other.append((there[0], one))
    return tuple(missing), tuple(other)


def _key(result: Result | NewResult) -> tuple[str, str, str]:
    name = result.parameter or normal_name(result.name)
    return name, result.reading.fraction, result.draw


def _same(new: NewResult, catalogue: Catalogue) -> Callable[[Reading], bool]:
    """Whether a reading says the same as a new result, in whatever unit."""
    parameter = catalogue.parameters.get(new.parameter)

    def same(old: Reading) -> bool:
        mine = new.reading
        if (old.text, old.unit, old.basis) == (mine.text, mine.unit, mine.basis):
            return True
        if old.kind is not mine.kind or parameter is None:
            return False
        if old.kind in {Kind.PRESENT, Kind.ABSENT, Kind.NONE}:
            return True
        here, there = in_usual(old, parameter), in_usual(mine, parameter)
        return here is not None and here == there

    return same
