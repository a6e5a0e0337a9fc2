"""The record as values: what a book holds, read once; its tests are read when asked for.

Planning, packets, tables and the record as JSON take these values, not the open file. A part of a
record is a record, too: one whose rows were filtered.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import groupby
from operator import itemgetter
from typing import Protocol, Self

from wellbook.book.journal import Entry
from wellbook.book.rows import (
    Document,
    Event,
    Expense,
    InspectionAnswer,
    Lab,
    Plan,
    Point,
    Price,
    Sample,
    Service,
    TreatmentUnit,
    UpkeepInterval,
    Well,
)
from wellbook.water.values.partial_date import Period
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

_DAYS = 2  # the latest day stands beside the one before


@dataclass(slots=True)
class Newest:
    """Where the newest results of a point lie, up to a day.

    Attributes:
        counts: By parameter how many tests there are, those in which it was not analysed left
            out; a first draw and a flushed result of one sample are one test. The key of what
            the catalogue does not know is empty.
        days: For each parameter the latest two days on which it was analysed, and the latest two
            on which it was to be and was not.
        unknown: Names, as printed, of what the catalogue does not know.
        last: The latest day up to that day that holds a result; None where there is none.
        has_later: Whether a later day holds a result.
    """

    counts: dict[str, int] = field(default_factory=dict)
    days: frozenset[date] = frozenset()
    unknown: tuple[str, ...] = ()
    last: date | None = None
    has_later: bool = False

    @classmethod
    def of(cls, rows: Iterable[tuple[str, bool, date, int]]) -> Self:
        """Go through results, the latest day first, those of a sample together.

        Args:
            rows: Parameter, whether it was analysed, day and sample of each.
        """
        counts: Counter[str] = Counter()
        latest: dict[tuple[str, bool], list[date]] = {}
        done: set[tuple[str, bool]] = set()  # those of which the latest days are known
        for day, of_day in groupby(rows, itemgetter(2)):
            seen: dict[int, set[tuple[str, bool]]] = {}
            for sample, of_sample in groupby(of_day, itemgetter(3)):
                told = seen.setdefault(sample, set())
                new = {row[:2] for row in of_sample} - told
                told |= new
                counts.update([parameter for parameter, is_analysed in new if is_analysed])
            for key in set().union(*seen.values()) - done:
                days = latest.setdefault(key, [])
                days.append(day)
                if len(days) == _DAYS:
                    done.add(key)
        found = cls({parameter: counts[parameter] for parameter, _is_analysed in latest})
        found.days = frozenset(day for days in latest.values() for day in days)
        found.last = max(found.days, default=None)
        return found


class Tests(Protocol):
    """Where samples and results are read: an open book, a point at a time, or `Loaded`."""

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> Sequence[Sample]:
        """Samples by day of collection; struck ones only when asked for."""

    def paid(self) -> Sequence[Sample]:
        """Samples that count and whose cost was entered, by day of collection."""

    def results(
        self, point: int | None = None, parameter: str | None = None, *, with_struck: bool = False
    ) -> Sequence[Result]:
        """Results by day of collection; those of struck samples only when asked for."""

    def newest(self, point: int, until: date) -> Newest:
        """Where the newest results lie that count and were drawn up to a day."""

    def results_on(self, point: int, days: Iterable[date]) -> Sequence[Result]:
        """Results that count and were drawn on any of some days, by day of collection."""


class Archive(Protocol):
    """What is too large to be held: the journal and the bytes of documents."""

    def journal(self) -> Sequence[Entry]:
        """Every write that was ever made, in order."""

    def content(self, document: int) -> bytes:
        """The bytes of a document, checked against its SHA-256."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """Samples and results in memory, those struck out among them, in the order of collection."""

    kept_samples: tuple[Sample, ...]
    kept_results: tuple[Result, ...]

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> tuple[Sample, ...]:
        """See `Tests`."""
        return tuple(
            sample
            for sample in self.kept_samples
            if point in {None, sample.point} and (with_struck or not sample.struck)
        )

    def paid(self) -> tuple[Sample, ...]:
        """See `Tests`."""
        return tuple(sample for sample in self.samples() if sample.cost)

    def results(
        self, point: int | None = None, parameter: str | None = None, *, with_struck: bool = False
    ) -> tuple[Result, ...]:
        """See `Tests`."""
        struck = frozenset(
            () if with_struck else (sample.id for sample in self.kept_samples if sample.struck)
        )
        return tuple(
            result
            for result in self.kept_results
            if point in {None, result.point}
            and parameter in {None, result.parameter}
            and result.sample not in struck
        )

    def newest(self, point: int, until: date) -> Newest:
        """See `Tests`."""
        results = self.results(point)
        shown = [result for result in results if result.collected.day <= until]
        found = Newest.of(
            (one.parameter, one.reading.kind is not Kind.NONE, one.collected.day, one.sample)
            for one in reversed(shown)
        )
        found.unknown = tuple(dict.fromkeys(one.name for one in shown if not one.parameter))
        found.has_later = len(shown) < len(results)
        return found

    def results_on(self, point: int, days: Iterable[date]) -> tuple[Result, ...]:
        """See `Tests`."""
        wanted = frozenset(days)
        return tuple(one for one in self.results(point) if one.collected.day in wanted)


@dataclass(frozen=True, slots=True)
class Record:
    """What one household knows of its wells, as it was when it was read.

    Attributes:
        wells: In the order in which they were entered.
        points: Those of one well in the order of the flow.
        units: Treatment units in the order of the flow.
        services: What was done to them, by day.
        labs: By name.
        prices: What the labs ask for, in the order of their lists.
        drawn: Samples of which the lab has not said all yet, by day; they count.
        events: By day.
        plans: In the order in which they were made.
        documents: Once for each sample or well they belong to; their bytes are in the archive.
        settings: Choices of the household, by key.
        setting_keys: Those keys by the numbers under which the journal tells of them.
        digest: Digest of the journal's last entry: it names this state of the record.
        tests: Samples and results.
        archive: Journal and documents.
        expenses: What else was paid for water, by day.
        intervals: The household's own intervals of upkeep.
        answers: What was seen at inspections, in the order in which it was entered.
        begun: Local day of the first write; None for a new book, or where it is not told.
        whole: The record that this one is a part of, or shows covered; None if it is whole.
        cover: What covers private words in it; None if nothing does.
    """

    wells: tuple[Well, ...]
    points: tuple[Point, ...]
    units: tuple[TreatmentUnit, ...]
    services: tuple[Service, ...]
    labs: tuple[Lab, ...]
    events: tuple[Event, ...]
    plans: tuple[Plan, ...]
    documents: tuple[Document, ...]
    settings: Mapping[str, str]
    digest: str
    tests: Tests = field(repr=False, compare=False)
    archive: Archive = field(repr=False, compare=False)
    expenses: tuple[Expense, ...] = ()
    intervals: tuple[UpkeepInterval, ...] = ()
    answers: tuple[InspectionAnswer, ...] = ()
    begun: date | None = None
    prices: tuple[Price, ...] = ()
    drawn: tuple[Sample, ...] = ()
    setting_keys: Mapping[int, str] = field(default_factory=dict, repr=False, compare=False)
    whole: Self | None = field(default=None, repr=False, compare=False)
    cover: object = field(default=None, repr=False, compare=False)

    def points_of(self, well: int) -> tuple[Point, ...]:
        """The points of a well in the order of the flow."""
        return tuple(point for point in self.points if point.well == well)

    def units_of(self, well: int) -> tuple[TreatmentUnit, ...]:
        """The treatment units of a well in the order of the flow."""
        return tuple(unit for unit in self.units if unit.well == well)

    def services_of(self, unit: int) -> tuple[Service, ...]:
        """What was done to a treatment unit, by day."""
        return tuple(service for service in self.services if service.unit == unit)

    def events_of(self, well: int) -> tuple[Event, ...]:
        """What happened to a well, by day."""
        return tuple(event for event in self.events if event.well == well)

    def prices_of(self, lab: str) -> tuple[Price, ...]:
        """The price list of a lab, by its name."""
        numbers = {one.id for one in self.labs if one.name == lab}
        return tuple(price for price in self.prices if price.lab in numbers)

    def plans_of(self, point: int) -> tuple[Plan, ...]:
        """The plans at a point in the order in which they were made."""
        return tuple(plan for plan in self.plans if plan.point == point)

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> Sequence[Sample]:
        """Samples by day of collection; struck ones only when asked for."""
        return self.tests.samples(point, with_struck=with_struck)

    def results(self, point: int | None = None, *, with_struck: bool = False) -> Sequence[Result]:
        """Results by day of collection; those of struck samples only when asked for."""
        return self.tests.results(point, with_struck=with_struck)

    def loaded(self) -> Self:
        """The same with its tests in memory, so that another thread can go through them."""
        samples, results = self.samples(with_struck=True), self.results(with_struck=True)
        return replace(self, tests=Loaded(tuple(samples), tuple(results)))


def covers(lab: Lab, day: date) -> bool | None:
    """Whether it was valid on a day; None where nothing that can be read was entered about that.

    A month or year as a bound is taken whole.
    """
    if not lab.valid_from and not lab.valid_to:
        return None
    try:
        return Period.parse(lab.valid_from, lab.valid_to).covers(day) is not False
    except ValueError:
        return None
