"""Which tests of a packet a book has already, and in what the two say other things of one.

A test is the same if it was drawn at the same point at the same time and bears the same number of
the lab, whatever its figures. Where one of the three was corrected, the others show it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import partial

from wellbook.book.rows import NewResult, NewSample, Sample
from wellbook.sharing.field_words import told
from wellbook.support.translation import _
from wellbook.water.units.conversion import as_shown
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Reading
from wellbook.water.values.results import Result
from wellbook.wording import facts, paper, vocabulary

# What a lab's report says of the whole sample; what people write of it stays as it is.
_FIELDS = ("collected", "lab", "lab_number", "received", "reported", "draw")


class Answer(StrEnum):
    """What is to become of a test of which packet and book say other things."""

    TAKE = "take"  # as the packet has it
    KEEP = "keep"  # as the book has it
    BOTH = "both"  # the packet's as a test of its own


@dataclass(frozen=True, slots=True)
class Change:
    """One thing of which packet and book say otherwise.

    Attributes:
        what: What it is, in words.
        here: What the book says.
        there: What the packet says.
        result: Number of the result in the book; 0 if it has none.
        reading: The packet's result; None if it is not about one.
        field: The field of the sample; empty if it is about a result.
        value: What the packet says of that field.
    """

    what: str
    here: str
    there: str
    result: int = 0
    reading: NewResult | None = None
    field: str = ""
    value: object = None


@dataclass(frozen=True, slots=True)
class Difference:
    """A test that packet and book both have, and do not say the same of.

    Attributes:
        number: Its place among the differences, from 1.
        test: The test, in words.
        sample: Its number in the book.
        changes: In what they differ.
    """

    number: int
    test: str
    sample: int
    changes: tuple[Change, ...]


class Known:
    """The tests of a book; each is found for one test of a packet only."""

    def __init__(
        self, samples: Sequence[Sample], results: Iterable[Result], catalogue: Catalogue
    ) -> None:
        self._samples, self._catalogue = list(samples), catalogue
        self._results: dict[int, list[Result]] = {}
        for result in results:
            self._results.setdefault(result.sample, []).append(result)

    def match(self, tests: Sequence[NewSample]) -> list[Sample | None]:
        """The same tests in the book, None where it has none; the surest pairs come first."""
        found: list[Sample | None] = [None] * len(tests)
        for is_it in (_is_same, _is_same_number, _is_same_time, self._is_same_day):
            for place, new in enumerate(tests):
                pairs = [
                    sample
                    for sample in (self._samples if found[place] is None else ())
                    if sample.point == new.point and is_it(sample, new)
                ]
                if pairs:
                    best = min(pairs, key=partial(self._distance, new))
                    self._samples.remove(best)
                    found[place] = best
        return found

    def _is_same_day(self, sample: Sample, new: NewSample) -> bool:
        """The same day and exactly the same readings."""
        is_one = sample.collected.day == new.collected.day and bool(new.results)
        return is_one and not self._differing(sample, new, whole=True)

    def _distance(self, new: NewSample, sample: Sample) -> int:
        return len(self.changes(sample, new))

    def changes(self, sample: Sample, new: NewSample) -> tuple[Change, ...]:
        """In what the packet's test differs from the book's; what only the book says is kept."""
        fields = [
            Change(_(field.label), _said(here), _said(there), field=key, value=there)
            for key, field in told("sample", _FIELDS).items()
            if (there := getattr(new, key)) and there != (here := getattr(sample, key))
        ]
        return (*fields, *self._differing(sample, new, whole=False))

    def _differing(self, sample: Sample, new: NewSample, *, whole: bool) -> list[Change]:
        rest = list(self._results.get(sample.id, []))
        found = []
        for there in new.results:
            drawn = there.draw or new.draw
            same = [here for here in rest if _is_same_subject(here, there)]
            named = [here for here in same if here.draw == drawn]
            # Where the way of drawing the whole test was corrected, its readings were, too.
            if drawn == new.draw:
                named = named or [here for here in same if here.draw == sample.draw]
            equal = [here for here in named if self._is_equal(here.reading, there)]
            here = next(iter((*equal, *named)), None)
            if here is not None:
                rest.remove(here)
            is_redrawn = here is not None and here.draw != drawn and (bool(drawn) or whole)
            if is_redrawn or not equal:
                found.append(_change(here, there, drawn if is_redrawn else ""))
        if whole:
            found += [Change(here.name, _reading(here.reading), "") for here in rest]
        return found

    def _is_equal(self, here: Reading, there: NewResult) -> bool:
        """Whether two readings say the same, in whatever unit each was printed."""
        other = there.reading
        if (here.text, here.unit, here.basis) == (other.text, other.unit, other.basis):
            return True
        parameter = self._catalogue.parameters.get(there.parameter)
        if parameter is None or here.kind is not other.kind:
            return False
        ours, theirs = as_shown(here, parameter), as_shown(other, parameter)
        return ours is not None and ours == theirs


def _is_same(sample: Sample, new: NewSample) -> bool:
    is_one = (sample.collected, sample.lab_number) == (new.collected, new.lab_number)
    return is_one and (bool(new.lab_number) or sample.draw == new.draw)


def _is_same_number(sample: Sample, new: NewSample) -> bool:
    return bool(new.lab_number) and sample.lab_number == new.lab_number


def _is_same_time(sample: Sample, new: NewSample) -> bool:
    """The same moment, where not both bear a number of the lab."""
    is_open = not (sample.lab_number and new.lab_number)
    return is_open and sample.collected == new.collected and sample.draw == new.draw


def _is_same_subject(here: Result, there: NewResult) -> bool:
    key = (here.parameter or here.name, here.reading.fraction)
    return key == (there.parameter or there.name, there.reading.fraction)


def _change(here: Result | None, there: NewResult, drawn: str) -> Change:
    """A reading of which packet and book say other things; `drawn` if how it was drawn is among."""
    if here is None:
        return Change(there.name, _("nothing"), _reading(there.reading), reading=there)
    return Change(
        there.name,
        _reading(here.reading, here.draw if drawn else ""),
        _reading(there.reading, drawn),
        result=here.id,
        reading=there,
    )


def _said(value: object) -> str:
    if isinstance(value, LocalTime):
        return paper.moment(value)
    return str(value) if value else _("nothing")


def _reading(reading: Reading, drawn: str = "") -> str:
    said = facts.with_unit(reading.text, reading.unit, reading.basis)
    return f"{said}, {vocabulary.draw(drawn)}" if drawn else said


def named(sample: Sample, points: Mapping[int, str]) -> str:
    """A test in words: its day, its point, the lab's number."""
    said = _("Test of {day}, {point}").format(
        day=paper.moment(sample.collected), point=points[sample.point]
    )
    if not sample.lab_number:
        return said
    return _("{test}, lab’s number {number}").format(test=said, number=sample.lab_number)
