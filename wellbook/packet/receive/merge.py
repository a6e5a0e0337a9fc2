"""Taking from a packet what an existing book does not have yet; nothing is kept twice.

Wells, points, units and labs are the same if they bear the same name; a test is the same if it was
drawn at the same point at the same time and holds the same readings. What the book says already is
never changed. The former household's private events and samplers stay behind, as always.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from wellbook.book import Book
from wellbook.book.opening import UNFIT
from wellbook.book.rows import Event, NewDocument, NewResult, NewSample
from wellbook.packet.receive.packet_file import Packet, open_packet
from wellbook.packet.receive.receive import new_sample, refuse_changed
from wellbook.sandbox.process import Heed, unheeding
from wellbook.sharing.record_fields import EVENTS, LABS, POINTS, SERVICES, UNITS, WELLS
from wellbook.sharing.record_json import given
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.results import Result

Facts = Mapping[str, Any]
Same = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Merged:
    """What is new in a packet, counted.

    Attributes:
        known: Tests of the packet that the book has already.
    """

    wells: int = 0
    points: int = 0
    tests: int = 0
    events: int = 0
    units: int = 0
    labs: int = 0
    known: int = 0

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


def merge(path: Path, into: Path, told: str = "") -> Merged:
    """Add what is new, all of it or nothing.

    Raises:
        Fault: The packet or the book can't be read or written, or the packet was changed.
    """
    packet = open_packet(path, told=told)
    with Book.open(into) as book:
        return merge_of(packet, book)


def merge_of(packet: Packet, book: Book, *, heed: Heed = unheeding) -> Merged:
    """The same of a packet and a book that were opened; what `heed` raises stops it whole.

    Raises:
        Fault: The book can't be written, or the packet was changed.
    """
    refuse_changed(packet)
    with book.together():
        found = _merged(packet, book, write=True)
        heed()
    return found


def _merged(packet: Packet, book: Book, *, write: bool) -> Merged:
    try:
        return _Merger(packet, book, write=write).all(packet.record())
    except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError, *UNFIT) as error:
        raise Fault(
            _("The record in {path} can't be read: it is damaged.").format(path=packet.path.name)
        ) from error


class _Merger:
    """Goes through a record; what is new is counted, and written if that is wanted."""

    def __init__(self, packet: Packet, book: Book, *, write: bool) -> None:
        self._packet, self._book, self._write = packet, book, write
        self._found = Merged()
        self._wells: dict[int, int] = {}  # number in the packet to number in the book, < 0 if new
        self._points: dict[int, int] = {}

    def all(self, facts: Facts) -> Merged:
        self._places(facts)
        self._treatment(facts)
        self._events(facts)
        self._samples(facts)
        return self._found

    def _places(self, facts: Facts) -> None:
        wells = {one.name: one.id for one in self._book.wells()}
        for one in facts["wells"]:
            number = wells.get(one["name"], 0)
            if not number:
                self._found = replace(self._found, wells=self._found.wells + 1)
                number = self._add_well(one)
            self._wells[one["id"]] = number
        points = {(one.well, one.name): one.id for one in self._book.points()}
        for one in facts["points"]:
            well = self._wells[one["well"]]
            number = points.get((well, one["name"]), 0)
            if not number:
                self._found = replace(self._found, points=self._found.points + 1)
                number = self._add_point(well, one)
            self._points[one["id"]] = number

    def _add_well(self, one: Facts) -> int:
        if not self._write:
            return -int(one["id"])  # a number that no row has, and each new one its own
        return self._book.add_well(**given(WELLS, one), construction=dict(one["construction"]))

    def _add_point(self, well: int, one: Facts) -> int:
        if not self._write:
            return -int(one["id"])  # a number that no row has, and each new one its own
        return self._book.add_point(well, **given(POINTS, one))

    def _treatment(self, facts: Facts) -> None:
        """Units and labs that the book does not know; a unit's services come with a new unit."""
        labs = {one.name for one in self._book.labs()}
        for one in facts["labs"]:
            if one["name"] in labs:
                continue
            self._found = replace(self._found, labs=self._found.labs + 1)
            if self._write:
                self._book.add_lab(**given(LABS, one))
        units = {(one.well, one.name, one.installed) for one in self._book.units()}
        for one in facts["units"]:
            well = self._wells[one["well"]]
            if (well, one["name"], one["installed"]) in units:
                continue
            self._found = replace(self._found, units=self._found.units + 1)
            if self._write:
                self._add_unit(well, one, facts)

    def _add_unit(self, well: int, one: Facts, facts: Facts) -> None:
        number = self._book.add_unit(well, **given(UNITS, one))
        for service in facts["services"]:
            if service["unit"] == one["id"]:
                self._book.add_service(number, **given(SERVICES, service))

    def _events(self, facts: Facts) -> None:
        known = {(one.well, one.kind, one.day, one.until) for one in self._book.events()}
        for row in facts["events"]:
            one = Event(**row)
            well = self._wells[one.well]
            if one.is_about_people or (well, one.kind, one.day, one.until) in known:
                continue
            self._found = replace(self._found, events=self._found.events + 1)
            if self._write:
                self._book.add_event(well, **given(EVENTS, row))

    def _samples(self, facts: Facts) -> None:
        known = _known(self._book)
        for one in facts["samples"]:
            sample = new_sample(one, self._points[one["point"]], self._documents(facts, one["id"]))
            same = (sample.point, *_of_sample(sample))
            if same in known:
                self._found = replace(self._found, known=self._found.known + 1)
                continue
            known.add(same)
            self._found = replace(self._found, tests=self._found.tests + 1)
            if self._write:
                number = self._book.add_sample(sample)
                if one["struck"]:
                    self._book.strike_sample(number, one["struck"])

    def _documents(self, facts: Facts, sample: int) -> tuple[NewDocument, ...]:
        return tuple(
            NewDocument(
                one["name"], one["media_type"], self._packet.files[one["file"]], one["kind"]
            )
            for one in facts["documents"]
            if one["file"] and one["sample"] == sample
        )


def _known(book: Book) -> set[Same]:
    rows: dict[int, list[Result]] = {}
    for one in book.results(with_struck=True):
        rows.setdefault(one.sample, []).append(one)
    return {
        (one.point, one.collected.iso(), one.lab_number, _readings(rows.get(one.id, [])))
        for one in book.samples(with_struck=True)
    }


def _of_sample(sample: NewSample) -> Same:
    return (sample.collected.iso(), sample.lab_number, _readings(sample.results))


def _readings(rows: list[Result] | tuple[NewResult, ...]) -> frozenset[Same]:
    return frozenset((one.name, one.reading.text, one.reading.unit) for one in rows)
