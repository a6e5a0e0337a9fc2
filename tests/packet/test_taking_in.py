"""What a packet adds to a book that is there, and that taking it in can be stopped at any time."""

import json
import os

import pytest
from forging import with_files
from packet_fixtures import TODAY
from pypdf import PdfReader, PdfWriter

from wellbook.book import Book
from wellbook.book.check import check
from wellbook.packet.receive import inspection, merge, receive
from wellbook.packet.receive.packet_file import may_be_packet, open_packet
from wellbook.support.errors import Fault


class Stopped(Exception):
    """Somebody asked to stop."""


def stop():
    raise Stopped


@pytest.fixture
def empty(tmp_path):
    path = tmp_path / "mine.wellbook"
    Book.create(path).close()
    return path


def rewritten(packet, target, facts):
    """A copy of a packet with another record in it."""
    return with_files(packet, target, {"record.json": json.dumps(facts).encode()})


def facts_of(packet):
    files = {one.name: one.content for one in PdfReader(packet).attachment_list}
    return json.loads(files["record.json"])


def test_what_is_foretold_is_what_is_added_and_then_nothing_is_new(packets, empty, catalogue):
    told = merge.preview(packets(), empty)
    facts = facts_of(packets())
    assert (told.wells, told.units, told.labs) == tuple(
        len(facts[table]) for table in ("wells", "units", "labs")
    )
    assert merge.merge(packets(), empty) == told
    again = merge.preview(packets(), empty)
    assert again.nothing
    assert again.known == told.tests
    assert [one for one in check(empty, catalogue, TODAY) if one.severity == "stop"] == []


def test_what_a_killed_try_left_goes_with_the_next_one(packets, tmp_path, monkeypatch):
    new = tmp_path / "home.wellbook"
    monkeypatch.setattr(receive.shutil, "rmtree", lambda *_how, **_more: None)  # never got so far

    def killed(*_unused):
        raise KeyboardInterrupt

    monkeypatch.setattr(receive, "_fill", killed)
    with pytest.raises(KeyboardInterrupt):
        receive.receive(packets(), new)
    assert [path.name.startswith(".wellbook-") for path in tmp_path.iterdir()] == [True]
    monkeypatch.undo()
    old, begun = (tmp_path / f".wellbook-{mark * 16}.partial.d" for mark in "ab")
    old.mkdir()
    os.utime(old, (0, 0))
    begun.mkdir()  # by somebody else, just now
    receive.receive(packets(), new)
    assert set(tmp_path.iterdir()) == {begun, new}


def test_a_treatment_unit_alone_is_something_new(packets, empty):
    merge.merge(packets(), empty)
    with Book.open(empty) as book:
        while book.units():
            book.undo()
    told = merge.preview(packets(), empty)
    assert told.units
    assert not told.nothing


def test_stopping_at_the_last_moment_adds_nothing(packets, empty):
    before = empty.read_bytes()
    packet = open_packet(packets())
    with Book.open(empty) as book, pytest.raises(Stopped):
        merge.merge_of(packet, book, check_cancelled=stop)
    assert empty.read_bytes() == before


def test_stopping_at_the_last_moment_leaves_no_book(packets, tmp_path):
    with pytest.raises(Stopped):
        receive.make(open_packet(packets()), tmp_path / "new.wellbook", check_cancelled=stop)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("table", "field", "value"),
    [
        ("events", "day", ""),
        ("points", "note", ["a", "list"]),
        ("points", "name", None),
        ("units", "place", 10**30),
        ("samples", "collected", "someday"),
    ],
)
def test_a_record_that_does_not_fit_a_book_is_one_sentence_and_adds_nothing(
    packets, tmp_path, empty, monkeypatch, table, field, value
):
    facts = facts_of(packets())
    facts[table][0][field] = value
    path = rewritten(packets(), tmp_path / "p.pdf", facts)
    monkeypatch.setattr("wellbook.packet.receive.receive.checks", lambda _: ())
    before = empty.read_bytes()
    with pytest.raises(Fault, match="damaged"):
        merge.merge(path, empty)
    assert empty.read_bytes() == before


def test_the_packet_that_is_kept_is_the_one_that_was_checked(packets, tmp_path):
    path = tmp_path / "p.pdf"
    path.write_bytes(packets().read_bytes())
    packet = open_packet(path)
    path.write_bytes(b"another one")
    receive.make(packet, tmp_path / "new.wellbook")
    with Book.open(tmp_path / "new.wellbook", readonly=True) as book:
        kept = {book.content(one.id) for one in book.documents() if one.name == "p.pdf"}
    assert kept == {packets().read_bytes()}


def test_a_look_counts_what_is_in_the_record(packets, book):
    look = inspection.look_over(packets())
    counting = book.samples()
    assert not look.is_changed
    assert (look.wells, look.points) == (len(book.wells()), len(book.points()))
    assert look.tests == len(counting)
    assert look.struck == len(book.samples(with_struck=True)) - len(counting)
    days = [one.collected.day for one in counting]
    assert look.days == (min(days), max(days))
    assert look.code in PdfReader(packets()).pages[0].extract_text()


def test_a_packet_is_told_from_other_files_at_a_glance(packets, tmp_path):
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.write(tmp_path / "other.pdf")
    (tmp_path / "record.json").write_text("record.json")
    assert may_be_packet(packets())
    assert not may_be_packet(tmp_path / "other.pdf")
    assert not may_be_packet(tmp_path / "record.json")
    assert not may_be_packet(tmp_path / "nowhere.pdf")
    assert not may_be_packet(tmp_path)
