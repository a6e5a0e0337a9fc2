"""Taking from a packet what an existing book does not have yet; nothing is kept twice.

Wells, points, units and labs are the same if they bear the same name; which tests are the same is
told in `same_test`. Where packet and book say other things of a test, whoever takes it in says what
is to become of it; without an answer nothing is changed. The former household's private events and
samplers stay behind, as always. All that is taken in is one entry, undone as one.
"""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, cast

from wellbook.book import Book
from wellbook.book.changes import SampleChanges
from wellbook.book.opening import UNFIT
from wellbook.book.rows import Event, Expense, NewDocument, NewSample, Sample
from wellbook.packet.receive.packet_file import Packet, open_packet
from wellbook.packet.receive.receive import (
    add_event,
    keep_prices,
    new_sample,
    packet_sources,
    refuse_changed,
)
from wellbook.packet.receive.same_test import Answer, Change, Difference, Known, named
from wellbook.sandbox.process import CancelCheck, never_cancelled
from wellbook.sharing.record_fields import (
    LABS,
    POINTS,
    SERVICES,
    UNITS,
    WELLS,
)
from wellbook.sharing.record_json import given
from wellbook.sharing.sources import keep_sources
from wellbook.sharing.upkeep_fields import EXPENSES, INTERVALS
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import shown_name
from wellbook.water.values.catalogue import read_catalogue

Facts = Mapping[str, Any]
Answers = Mapping[int, Answer]
NO_ANSWERS: Answers = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Merged:
    """What is new in a packet, counted.

    Attributes:
        known: Tests of the packet that the book has already and says the same of.
        documents: Originals of tests and wells that the book has without them.
        differences: Tests of which packet and book say other things.
    """

    wells: int = 0
    points: int = 0
    tests: int = 0
    events: int = 0
    units: int = 0
    labs: int = 0
    services: int = 0
    expenses: int = 0
    known: int = 0
    documents: int = 0
    differences: tuple[Difference, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether the book has all of it."""
        return self == Merged(known=self.known)


def preview(path: Path, into: Path, told: str = "") -> Merged:
    """Count what a packet would add to a book; nothing is changed.

    Raises:
        Fault: The packet or the book can't be read, or the packet was changed.
    """
    packet = open_packet(path, told=told)
    with Book.open(into, readonly=True) as book:
        return preview_of(packet, book)


def preview_of(packet: Packet, book: Book) -> Merged:
    """The same of a packet and a book that were opened.

    Raises:
        Fault: The packet was changed.
    """
    refuse_changed(packet)
    return _merged(packet, book, write=False)


def merge(path: Path, into: Path, told: str = "", answers: Answers = NO_ANSWERS) -> Merged:
    """Add what is new, all of it or nothing.

    Args:
        path: Where the packet lies.
        into: Where the book lies.
        told: The check code that the household told; empty if it was not asked.
        answers: What is to become of each difference, by its number.

    Raises:
        Fault: The packet or the book can't be read or written, the packet was changed, or there is
            a difference without an answer.
    """
    packet = open_packet(path, told=told)
    with Book.open(into) as book:
        return merge_of(packet, book, answers=answers)


def merge_of(
    packet: Packet,
    book: Book,
    *,
    answers: Answers = NO_ANSWERS,
    check_cancelled: CancelCheck = never_cancelled,
) -> Merged:
    """The same of a packet and a book that were opened; what `heed` raises stops it whole.

    Raises:
        Fault: The book can't be written, the packet was changed, or there is a difference without
            an answer.
    """
    refuse_changed(packet)
    with book.together(as_one="take in a packet"):
        found = _merged(packet, book, write=True, answers=answers)
        check_cancelled()
    return found


def _merged(packet: Packet, book: Book, *, write: bool, answers: Answers = NO_ANSWERS) -> Merged:
    try:
        return _Merger(packet, book, answers, write=write).all(packet.record())
    except Fault:
        raise
    except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError, *UNFIT) as error:
        raise Fault(
            _("The record in {path} can’t be read: it is damaged.").format(path=packet.path.name)
        ) from error


class _Merger:
    """Goes through a record; what is new is counted, and written if that is wanted."""

    def __init__(self, packet: Packet, book: Book, answers: Answers, *, write: bool) -> None:
        self._packet, self._book, self._write = packet, book, write
        self._answers = answers
        self._found = Merged()
        self._wells: dict[int, int] = {}  # number in the packet to number in the book, < 0 if new
        self._points: dict[int, int] = {}
        self._numbers: dict[int, int] = {}  # of samples, likewise
        self._event_numbers: dict[int, int] = {}  # likewise, of those that were added
        self._came: set[int] = set()  # samples of the book that say what the packet says

    def all(self, facts: Facts) -> Merged:
        self._places(facts)
        self._treatment(facts)
        self._events(facts)
        self._expenses(facts)
        self._samples(facts)
        self._well_documents(facts)
        if self._came:
            self._remember(facts)
        return self._found

    def _places(self, facts: Facts) -> None:
        wells = {one.name: one.id for one in self._book.wells()}
        for one in facts["wells"]:
            number = wells.get(one["name"], 0)
            if not number:
                self._found = replace(self._found, wells=self._found.wells + 1)
                number = self._add_well(one, facts)
            self._wells[one["id"]] = number
        points = {(one.well, one.name): one.id for one in self._book.points()}
        for one in facts["points"]:
            well = self._wells[one["well"]]
            number = points.get((well, one["name"]), 0)
            if not number:
                self._found = replace(self._found, points=self._found.points + 1)
                number = self._add_point(well, one)
            self._points[one["id"]] = number

    def _add_well(self, one: Facts, facts: Facts) -> int:
        if not self._write:
            return -int(one["id"])  # a number that no row has, and each new one its own
        log = dict(one["construction"])
        number = self._book.add_well(**given(WELLS, one), construction=log)
        for interval in facts.get("intervals", ()):
            if interval["well"] == one["id"] and not interval["unit"]:
                self._book.set_interval(number, **given(INTERVALS, interval))
        return number

    def _add_point(self, well: int, one: Facts) -> int:
        if not self._write:
            return -int(one["id"])  # a number that no row has, and each new one its own
        return self._book.add_point(well, **given(POINTS, one))

    def _treatment(self, facts: Facts) -> None:
        """Units, what was done to them, and labs that the book does not know."""
        labs = {one.name for one in self._book.labs()}
        for one in facts["labs"]:
            if one["name"] in labs:
                continue
            self._found = replace(self._found, labs=self._found.labs + 1)
            if self._write:
                self._book.add_lab(**given(LABS, one))
                keep_prices(self._book, one, facts)
        units = {(one.well, one.name, one.installed): one.id for one in self._book.units()}
        for one in facts["units"]:
            well = self._wells[one["well"]]
            number = units.get((well, one["name"], one["installed"]))
            if number is not None:
                self._add_services(number, one, facts)
                continue
            self._found = replace(self._found, units=self._found.units + 1)
            if self._write:
                self._add_unit(well, one, facts)

    def _add_services(self, unit: int, one: Facts, facts: Facts) -> None:
        known = {(done.kind, done.day, done.until) for done in self._book.services(unit)}
        for row in facts["services"]:
            if row["unit"] == one["id"] and (row["kind"], row["day"], row["until"]) not in known:
                self._found = replace(self._found, services=self._found.services + 1)
                if self._write:
                    self._book.add_service(unit, **given(SERVICES, row))

    def _add_unit(self, well: int, one: Facts, facts: Facts) -> None:
        number = self._book.add_unit(well, **given(UNITS, one))
        for service in facts["services"]:
            if service["unit"] == one["id"]:
                self._book.add_service(number, **given(SERVICES, service))
        for interval in facts.get("intervals", ()):
            if interval["unit"] == one["id"]:
                self._book.set_interval(well, unit=number, **given(INTERVALS, interval))

    def _events(self, facts: Facts) -> None:
        known = {(one.well, one.kind, one.day, one.until) for one in self._book.events()}
        for row in facts["events"]:
            one = Event(**row)
            well = self._wells[one.well]
            if one.is_about_people or (well, one.kind, one.day, one.until) in known:
                continue
            self._found = replace(self._found, events=self._found.events + 1)
            if self._write:
                self._event_numbers[one.id] = add_event(self._book, well, row, facts)

    def _expenses(self, facts: Facts) -> None:
        def marks(one: Expense) -> tuple[object, ...]:
            return one.well, one.day, one.kind, one.cost, one.currency

        known = {marks(one) for one in self._book.record().expenses}
        for row in facts.get("expenses", ()):
            well = self._wells[row["well"]]
            if marks(replace(Expense(**row), well=well)) in known:
                continue
            self._found = replace(self._found, expenses=self._found.expenses + 1)
            if self._write:
                self._book.add_expense(well, **given(EXPENSES, row))

    def _samples(self, facts: Facts) -> None:
        rows = facts["samples"]
        tests = [
            new_sample(row, self._points[row["point"]], self._documents(facts, row["id"]))
            for row in rows
        ]
        catalogue = read_catalogue(paths.resources())
        known = Known(
            self._book.samples(with_struck=True), self._book.results(with_struck=True), catalogue
        )
        points = {point.id: point.name for point in self._book.points()}
        for row, new, sample in zip(rows, tests, known.match(tests), strict=True):
            if sample is None:
                self._add_test(row, new)
                continue
            self._numbers[row["id"]] = sample.id
            self._complete(sample.id, new.documents)
            changes = (*known.changes(sample, new), *_strike(sample, row["struck"]))
            if not changes:
                self._found = replace(self._found, known=self._found.known + 1)
                continue
            number = len(self._found.differences) + 1
            one = Difference(number, named(sample, points), sample.id, changes)
            self._found = replace(self._found, differences=(*self._found.differences, one))
            if self._write:
                self._settle(one, row, new)

    def _add_test(self, row: Facts, new: NewSample) -> None:
        self._found = replace(self._found, tests=self._found.tests + 1)
        if self._write:
            number = self._book.add_sample(new)
            self._numbers[row["id"]] = number
            self._came.add(number)
            if row["struck"]:
                self._book.strike_sample(number, row["struck"])

    def _settle(self, one: Difference, row: Facts, new: NewSample) -> None:
        """Do with a difference what was answered.

        Raises:
            Fault: Nothing was.
        """
        answer = self._answers.get(one.number)
        if answer is None:
            raise Fault(
                _(
                    "{test}: packet and book say other things of it. Say whether to take what the "
                    "packet says, to keep what the book says, or to have both. Nothing was changed."
                ).format(test=one.test)
            )
        if answer is Answer.BOTH:
            self._add_test(row, new)
        elif answer is Answer.TAKE:
            self._came.add(one.sample)
            for change in one.changes:
                self._take(one.sample, change)

    def _take(self, sample: int, change: Change) -> None:
        why = _("as the packet {name} has it").format(name=shown_name(self._packet.path))
        if change.field == "struck":
            if change.value:
                self._book.strike_sample(sample, str(change.value))
            else:
                self._book.restore_sample(sample, why)
        elif change.field:
            self._book.correct_sample(sample, why, **_field(change))
        elif change.reading is not None and change.result:
            self._book.correct_result(change.result, change.reading, why)
        elif change.reading is not None:
            self._book.add_result(sample, change.reading, why)

    def _complete(self, sample: int, documents: tuple[NewDocument, ...]) -> None:
        """Originals that a test of the book lacks."""
        held = {one.sha256 for one in self._book.documents(sample=sample)}
        for document in documents:
            if hashlib.sha256(document.content).hexdigest() not in held:
                self._found = replace(self._found, documents=self._found.documents + 1)
                if self._write:
                    self._book.add_document(document, sample=sample)

    def _well_documents(self, facts: Facts) -> None:
        for row in facts["documents"]:
            if not (row["file"] and row["well"]):
                continue
            well = self._wells[row["well"]]
            held = {one.sha256 for one in self._book.documents(well=well)} if well > 0 else set()
            document = self._document(row)
            if hashlib.sha256(document.content).hexdigest() not in held:
                self._found = replace(self._found, documents=self._found.documents + 1)
                if self._write:
                    event = self._event_numbers.get(row.get("event") or 0, 0)
                    self._book.add_document(document, well=well, event=event)

    def _remember(self, facts: Facts) -> None:
        """Where the tests that were added come from."""
        told = [
            replace(one, samples=tuple(n for n in one.samples if n in self._came))
            for one in packet_sources(self._packet, facts, self._numbers)
        ]
        keep_sources(self._book, told)

    def _documents(self, facts: Facts, sample: int) -> tuple[NewDocument, ...]:
        return tuple(
            self._document(row)
            for row in facts["documents"]
            if row["file"] and row["sample"] == sample
        )

    def _document(self, row: Facts) -> NewDocument:
        content = self._packet.files[row["file"]]
        return NewDocument(row["name"], row["media_type"], content, row["kind"])


def _strike(sample: Sample, there: str) -> tuple[Change, ...]:
    """A test that only one of the two counts; the reasons of both may differ."""
    if bool(sample.struck) == bool(there):
        return ()
    counts = _("counts")
    struck = _("struck out because: {reason}")
    return (
        Change(
            _("whether it counts"),
            struck.format(reason=sample.struck) if sample.struck else counts,
            struck.format(reason=there) if there else counts,
            field="struck",
            value=there,
        ),
    )


def _field(change: Change) -> SampleChanges:
    return cast("SampleChanges", {change.field: change.value})
