"""Inspections and intervals are handed on, what water cost only if that is ticked."""

import csv
import io
import json

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import text_of

from wellbook.book import Book
from wellbook.book.rows import InspectionAnswer, NewDocument
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import write
from wellbook.packet.receive import merge
from wellbook.packet.receive.receive import receive

PHOTO = NewDocument("cap.jpg", "image/jpeg", b"\xff\xd8\xff\xe0 a cap", "photo")
CAP = InspectionAnswer(0, 0, "cap", "bad", text=f"seen by {household.SAMPLER}", mended="2026-05")
VENT = InspectionAnswer(0, 0, "vent", "bad")
USD = {"currency": "USD"}
FLOW = {"flow": "5.2", "flow_unit": "gal/min", "hours": "4", "done_by": household.SAMPLER}


@pytest.fixture
def packet(tmp_path, catalogue):
    """Writes the packet of a household with upkeep and costs."""

    def written(**how):
        path = tmp_path / "packet.pdf"
        with household.furnished(tmp_path / "own.wellbook") as book:
            book.set_interval(1, "wellhead", 6, reason="near a creek")
            book.set_interval(1, "softener_salt", 2, unit=1, use="800 L", a_day="3 L")
            book.change_service(1, meter="12400 L", cost="640.25", **USD)
            book.add_expense(1, "bottled water", "2025-12", cost="31.75", **USD)
            book.add_inspection(1, "2026-04-10", [CAP, VENT], [PHOTO], text="After the thaw")
            book.add_event(1, "flow test", "2026-05-03", **FLOW)
            options = PacketOptions("buyer", with_originals=True, all_originals=True, **how)
            write(book.record(), catalogue, path, options, today=TODAY)
        return path

    return written


def attached(path, name):
    return next(one.content for one in PdfReader(path).attachment_list if one.name == name)


def rows(path, name):
    return list(csv.DictReader(io.StringIO(attached(path, name).decode("utf-8-sig"))))


def upkeep_of(path):
    """What a book has of upkeep, without its numbers."""
    with Book.open(path, readonly=True) as book:
        record = book.record()
    events = {event.id: event.day for event in record.events}
    return {
        "answers": [
            (events[one.event], one.item, one.answer, one.mended) for one in record.answers
        ],
        "photos": [(events[one.event], one.name) for one in record.documents if one.event],
        "flow": [(one.flow, one.flow_unit, one.hours) for one in record.events if one.flow],
        "intervals": [(one.unit is None, one.task, one.months) for one in record.intervals],
        "costs": [one.cost for one in (*record.services, *record.expenses) if one.cost],
    }


KEPT = {
    "answers": [("2026-04-10", "cap", "bad", "2026-05"), ("2026-04-10", "vent", "bad", "")],
    "photos": [("2026-04-10", "cap.jpg")],
    "flow": [("5.2", "gal/min", "4")],
    "intervals": [(True, "wellhead", 6), (False, "softener_salt", 2)],
    "costs": [],
}


def test_without_private_facts_inspections_and_intervals_go_along_and_no_cost_does(
    packet, tmp_path
):
    path = packet()
    record = json.loads(attached(path, "record.json"))
    assert record["expenses"] == []
    assert not any(one["cost"] or one["currency"] for one in record["services"])
    names = {one.name for one in PdfReader(path).attachment_list}
    assert "costs.csv" not in names
    assert {"inspections.csv", "upkeep.csv"} <= names
    (first, _second) = rows(path, "inspections.csv")
    assert (first["item"], first["seen"], first["mended"]) == ("cap", "bad", "2026-05")
    assert household.SAMPLER not in first["text"]
    (tested,) = [row for row in rows(path, "events.csv") if row["flow"]]
    assert (tested["flow"], tested["flow_unit"], tested["hours"]) == ("5.2", "gal/min", "4")
    assert household.SAMPLER not in tested["done_by"]
    everything = text_of(path)
    assert "640.25" not in everything
    assert "31.75" not in everything
    receive(path, tmp_path / "new.wellbook")
    assert upkeep_of(tmp_path / "new.wellbook") == KEPT


def test_with_private_facts_what_water_cost_goes_from_book_to_packet_to_book(packet, tmp_path):
    path = packet(with_personal=True)
    assert [row["cost"] for row in rows(path, "costs.csv")] == ["31.75"]
    receive(path, tmp_path / "new.wellbook")
    assert upkeep_of(tmp_path / "new.wellbook") == {**KEPT, "costs": ["640.25", "31.75"]}


def test_a_packet_taken_into_another_book_brings_all_of_it_once(packet, tmp_path):
    path = packet(with_personal=True)
    other = tmp_path / "other.wellbook"
    Book.create(other).close()
    merge.merge(path, other)
    found = upkeep_of(other)
    assert found["answers"] == KEPT["answers"]
    assert found["photos"] == KEPT["photos"]
    assert found["costs"] == ["640.25", "31.75"]
    assert sorted(found["intervals"]) == sorted(KEPT["intervals"])
    assert merge.preview(path, other).nothing
    merge.merge(path, other)
    assert upkeep_of(other) == found


def test_what_was_done_since_to_a_unit_that_both_know_is_taken_in_once(packet, tmp_path):
    path, other = packet(), tmp_path / "other.wellbook"
    receive(path, other)
    with Book.open(other) as book:
        book.remove("service", 1)
    assert merge.preview(path, other).services == 1
    assert merge.merge(path, other).services == 1
    with Book.open(other, readonly=True) as book:
        assert [(one.kind, one.day, one.text) for one in book.services()] == [
            ("media", "2021-03", "Resin changed")
        ]
    assert merge.preview(path, other).nothing


def test_a_record_of_an_older_wellbook_without_upkeep_is_taken_in(packet, tmp_path, monkeypatch):
    from wellbook.packet.receive.packet_file import Packet

    whole = Packet.record

    def older(self):
        facts = dict(whole(self))
        for key in ("answers", "intervals", "expenses"):
            del facts[key]
        facts["documents"] = [
            {key: one[key] for key in one if key != "event"} for one in facts["documents"]
        ]
        return facts

    monkeypatch.setattr(Packet, "record", older)
    receive(packet(), tmp_path / "new.wellbook")
    assert upkeep_of(tmp_path / "new.wellbook")["answers"] == []
