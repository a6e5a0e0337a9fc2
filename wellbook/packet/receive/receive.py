"""Going on from a packet: a new book from the record that travels in it.

What belonged to the former household does not come along even if it is in the packet: private
events and who drew the samples. The well, its tests, units, labs, documents and plans do.
"""

import hashlib
import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from wellbook.book import Book, copies
from wellbook.book.opening import Unfit
from wellbook.book.rows import (
    Event,
    InspectionAnswer,
    NewDocument,
    NewResult,
    NewSample,
    Price,
)
from wellbook.packet.receive.packet_file import Packet, open_packet
from wellbook.packet.receive.verify import Outcome, checks
from wellbook.sandbox.process import CancelCheck, never_cancelled
from wellbook.sharing.record_fields import (
    EVENTS,
    LABS,
    PLANS,
    POINTS,
    PRICES,
    RESULTS,
    SAMPLES,
    SERVICES,
    UNITS,
    WELLS,
)
from wellbook.sharing.record_json import SETTINGS, given
from wellbook.sharing.sources import (
    MissingOriginal,
    Source,
    handed_on,
    keep_sources,
    read_corrections,
    read_left_behind,
    renumbered,
)
from wellbook.sharing.upkeep_fields import ANSWERS, EXPENSES, INTERVALS
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import require_free, shown_name, sweep_left

Facts = Mapping[str, Any]
_KEPT = 20_000_000  # bytes; a larger packet is not itself kept in the new book


def receive(path: Path, new: Path, told: str = "") -> None:
    """Make a new book from a packet; the book is there whole or not at all.

    Args:
        path: Where the packet lies.
        new: Where the book is to lie.
        told: The check code that the household told; empty if it was not asked.

    Raises:
        Fault: The packet can't be read, was changed or bears another code, or the book can't be
            made there.
    """
    require_free(new)
    make(open_packet(path, told=told), new)


def make(packet: Packet, new: Path, *, check_cancelled: CancelCheck = never_cancelled) -> None:
    """The same from a packet that was opened; what `check_cancelled` raises stops it.

    It is made in a hidden folder named after the book. What a try that was killed left there goes
    with the next one, whatever book that makes.

    Raises:
        Fault: The packet was changed, or the book can't be made there.
    """
    require_free(new)
    refuse_changed(packet)
    mark = hashlib.sha256(os.fsencode(new.name)).hexdigest()[:16]
    folder = new.with_name(f".wellbook-{mark}.partial.d")
    try:
        sweep_left(folder.parent)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(mode=0o700)
    except OSError as error:
        raise Fault(
            _("{new} can’t be made ({problem}): choose another folder, or make room there.").format(
                new=new, problem=error.strerror
            )
        ) from error
    try:
        made = folder / "new.wellbook"
        _fill(made, packet)
        check_cancelled()
        require_free(new)
        made.replace(new)
        copies.settle(new.absolute().parent)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def refuse_changed(packet: Packet) -> None:
    """Take nothing from a packet that fails a check.

    Raises:
        Fault: It was changed, or its record can't be read.
    """
    failed = [one.text for one in checks(packet) if one.outcome is Outcome.FAILS]
    if failed:
        raise Fault(
            _(
                "Nothing is taken from {path}, which does not stand a check: {failed} Ask for the "
                "packet again."
            ).format(path=packet.path, failed=failed[0])
        )


def _fill(made: Path, packet: Packet) -> None:
    facts = packet.record()
    try:
        with Book.create(made) as book:
            _Receiver(book, packet).all(facts)
    except Fault as fault:
        if not isinstance(fault, Unfit):
            raise
        raise Fault(
            _("The record in {path} can’t be read: it is damaged.").format(path=packet.path.name)
        ) from fault
    except Exception as error:  # a record that was tampered with can break any rule of a book
        raise Fault(
            _("The record in {path} can’t be read: it is damaged.").format(path=packet.path.name)
        ) from error


class _Receiver:
    """Writes a record into an empty book; numbers are given anew."""

    def __init__(self, book: Book, packet: Packet) -> None:
        self._book, self._packet = book, packet
        self._wells: dict[int, int] = {}
        self._points: dict[int, int] = {}
        self._units: dict[int, int] = {}
        self._events: dict[int, int] = {}
        self._samples_of: dict[int, int] = {}

    def all(self, facts: Facts) -> None:
        for key, value in facts["settings"].items():
            if key in SETTINGS:
                self._book.set_setting(key, str(value))
        self._places(facts)
        self._treatment(facts)
        for lab in facts["labs"]:
            self._book.add_lab(**given(LABS, lab))
            keep_prices(self._book, lab, facts)
        for event in facts["events"]:
            if not Event(**event).is_about_people:
                well = self._wells[event["well"]]
                self._events[event["id"]] = add_event(self._book, well, event, facts)
        self._money_and_intervals(facts)
        self._samples(facts)
        keep_sources(self._book, packet_sources(self._packet, facts, self._samples_of))
        self._keep_packet(str(facts["head"]))

    def _keep_packet(self, head: str) -> None:
        """The packet itself goes in too: it shows the corrections of the former book."""
        self._book.set_setting("received_from", head)
        content = self._packet.content
        if self._wells and len(content) <= _KEPT:
            document = NewDocument(
                shown_name(self._packet.path), "application/pdf", content, "other"
            )
            self._book.add_document(document, well=next(iter(self._wells.values())))

    def _places(self, facts: Facts) -> None:
        for well in facts["wells"]:
            more = given(WELLS, well)
            if well["replaces"]:
                more["replaces"] = self._wells[well["replaces"]]
            self._wells[well["id"]] = self._book.add_well(
                **more, construction=dict(well["construction"])
            )
        for point in facts["points"]:
            well = self._wells[point["well"]]
            self._points[point["id"]] = self._book.add_point(well, **given(POINTS, point))

    def _treatment(self, facts: Facts) -> None:
        for unit in facts["units"]:
            well = self._wells[unit["well"]]
            self._units[unit["id"]] = self._book.add_unit(well, **given(UNITS, unit))
        for service in facts["services"]:
            self._book.add_service(self._units[service["unit"]], **given(SERVICES, service))
        for plan in facts["plans"]:
            self._book.set_plan(self._points[plan["point"]], **given(PLANS, plan))

    def _money_and_intervals(self, facts: Facts) -> None:
        for one in facts.get("intervals", ()):
            unit = self._units[one["unit"]] if one["unit"] else None
            well = self._wells[one["well"]]
            self._book.set_interval(well, unit=unit, **given(INTERVALS, one))
        for one in facts.get("expenses", ()):
            self._book.add_expense(self._wells[one["well"]], **given(EXPENSES, one))

    def _samples(self, facts: Facts) -> None:
        held: dict[int, list[NewDocument]] = {}
        for one in facts["documents"]:
            if one["file"] and one["sample"]:
                held.setdefault(one["sample"], []).append(self._document(one))
            elif one["file"] and one["well"]:
                self._book.add_document(
                    self._document(one),
                    well=self._wells[one["well"]],
                    event=self._events.get(one.get("event") or 0, 0),
                )
        numbers = self._book.add_samples(
            [
                new_sample(one, self._points[one["point"]], tuple(held.get(one["id"], ())))
                for one in facts["samples"]
            ]
        )
        for number, one in zip(numbers, facts["samples"], strict=True):
            if one["struck"]:
                self._book.strike_sample(number, one["struck"])
            self._samples_of[one["id"]] = number

    def _document(self, one: Facts) -> NewDocument:
        content = self._packet.files[one["file"]]
        return NewDocument(one["name"], one["media_type"], content, one["kind"])


def add_event(book: Book, well: int, event: Facts, facts: Facts) -> int:
    """Add an event of a record, an inspection with what was seen; returns its number."""
    answers = [
        InspectionAnswer(0, 0, **given(ANSWERS, one))
        for one in facts.get("answers", ())
        if one["event"] == event["id"]
    ]
    said = given(EVENTS, event)
    if not answers:
        return book.add_event(well, **said)
    said.pop("kind")
    return book.add_inspection(well, said.pop("day"), answers, **said)


def keep_prices(book: Book, lab: Facts, facts: Facts) -> None:
    """Keep the price list that a record tells of a lab, if it does."""
    listed = [
        Price(0, 0, **given(PRICES, row))
        for row in facts.get("prices", ())
        if row["lab"] == lab["id"]
    ]
    if listed:
        book.set_prices(lab["name"], listed)


def packet_sources(packet: Packet, facts: Facts, numbers: Mapping[int, int]) -> Iterator[Source]:
    """What a book is to remember of a packet, and of the packets that one came from.

    Args:
        packet: The packet.
        facts: Its record.
        numbers: The numbers that its samples have in the book, by those in the record.

    Raises:
        LookupError, TypeError, ValueError: The record is damaged.
    """
    told = facts.get("packet", {})
    code = packet.marks.code
    own = Source(
        code=code,
        is_compared=bool(packet.told.strip()),  # another code was refused
        day=str(told.get("day", "")),
        maker=str(facts["made_with"]),
        head=str(facts["head"]),
        left_out=read_left_behind(told.get("left_out")),
        through="",
        samples=tuple(int(one["id"]) for one in facts["samples"]),
        corrections=read_corrections(facts.get("corrections", ())),
        missing=tuple(
            MissingOriginal(int(one["sample"] or 0), str(one["kind"]), str(one["sha256"]))
            for one in facts["documents"]
            if not one["file"]
        ),
    )
    yield renumbered(own, numbers)
    for one in facts.get("sources", ()):
        yield handed_on(one, numbers, through=code)


def new_sample(facts: Facts, point: int, documents: tuple[NewDocument, ...]) -> NewSample:
    """A sample of a record, about to be kept at a point."""
    results = tuple(NewResult(**given(RESULTS, result)) for result in facts["results"])
    return NewSample(point, results=results, documents=documents, **given(SAMPLES, facts))
