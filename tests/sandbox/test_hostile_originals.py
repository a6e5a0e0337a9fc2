"""Originals that are broken or hostile cost a packet no more than themselves."""

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import hostile
import household
import pytest
import readers
from forging import drawn_over, in_form, pages, renewed
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.book.rows import NewDocument
from wellbook.packet import packet
from wellbook.packet.receive.packet_file import open_packet
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.sandbox import process, reasons
from wellbook.sandbox.originals import originals
from wellbook.sandbox.process import Busy, Parcel, ReadFailed, ask
from wellbook.sharing.attachable import why_behind
from wellbook.support.errors import Fault

PATIENCE = 2.0  # seconds of the processor
SHOWN = "1 page"
SLOW = ("slow_pictures", "slow_contents")
ENDLESS = (
    "deep_tree", "wide_tree", "unpacking_contents", "packed_thrice", "many_filters",
    "large_picture", "letters_by_the_billion", "many_words", "run_lengths", "forms_in_a_circle",
    "forms_by_the_billion", "marks_of_marks", "jbig2", "fax",
)  # fmt: skip
BROKEN = (
    "tree_loop", "forms_in_a_row", "chain", "no_size", "no_numbers", "torn", "empty", "noise",
    "many_tables", "locked",
)  # fmt: skip
HARMLESS = (
    "plain", "table_loop", "wide_forms", "jbig2_in_a_circle", "unknown_filter", "turned_oddly",
    "million_objects", "ascii_85", "lzw",
)  # fmt: skip
STARTED = []
sys.addaudithook(lambda event, args: STARTED.append(args) if event == "subprocess.Popen" else None)


@pytest.fixture
def started(monkeypatch):
    """Every process that was started, readers of documents too."""
    monkeypatch.setattr(process, "_answered", readers.as_in_the_program)
    return STARTED


def book_with(path, *makers):
    book = household.with_one_test(path)
    well = book.wells()[0].id
    for make in makers:
        book.add_document(NewDocument(f"{make.__name__}.pdf", "application/pdf", make()), well=well)
    return book


@pytest.fixture(scope="module")
def packets_of_all(catalogue, tmp_path_factory):
    """A packet with and one without personal facts, of a book that holds everything hostile."""
    folder = tmp_path_factory.mktemp("hostile")
    with book_with(folder / "hostile.wellbook", *hostile.ALL) as book:
        for personal in (True, False):
            packet.write(
                book.record(),
                catalogue,
                folder / f"{personal}.pdf",
                packet.PacketOptions(
                    "buyer",
                    with_personal=personal,
                    with_originals=False,
                    append_originals=True,
                    patience=PATIENCE,
                ),
                today=TODAY,
            )
    return folder


@pytest.fixture(scope="module")
def told(packets_of_all, text_of):
    """What the packet with personal facts says of each document."""
    text = text_of(packets_of_all / "True.pdf", rows=True)
    rows = re.findall(r"Original (\d+): lab report, well +(\S.*)", text)
    names = [make.__name__ for make in hostile.ALL]
    return {names[int(number) - 1]: said for number, said in rows if "page 1 of" not in said}


def test_a_packet_is_made_whatever_its_originals_are_and_names_each(told, packets_of_all):
    assert set(told) == {make.__name__ for make in hostile.ALL}
    for name in ("True.pdf", "False.pdf"):
        assert Outcome.FAILS not in {one.outcome for one in verify(packets_of_all / name)}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        *((name, f"not appended: {process.TOO_LONG}") for name in SLOW),
        *((name, f"not appended: {reasons.TOO_MUCH}") for name in ENDLESS),
        *((name, f"not appended: {reasons.DAMAGED}") for name in BROKEN),
        *((name, SHOWN) for name in HARMLESS),
    ],
)
def test_each_hostile_original_is_left_out_with_its_reason_and_a_harmless_one_shown(
    told, name, said
):
    # A busy machine may need longer than a test has patience for.
    assert told[name] in {said, f"not appended: {process.TOO_LONG}"}


def test_what_lies_beside_the_hostile_ones_is_in_the_packet(packets_of_all, text_of):
    text = text_of(packets_of_all / "True.pdf")
    assert "Quiet water 7.2" in text
    assert "Nitrate" in text
    assert {"record.json", "results.csv", "sha256.txt"} <= {
        one.name for one in PdfReader(packets_of_all / "True.pdf").attachment_list
    }


def test_packets_with_broken_originals_are_the_same_to_the_byte(catalogue, tmp_path):
    makers = (hostile.plain, hostile.torn, hostile.tree_loop, hostile.turned_oddly)
    with book_with(tmp_path / "b.wellbook", *makers) as book:
        for name in ("first.pdf", "second.pdf"):
            packet.write(
                book.record(),
                catalogue,
                tmp_path / name,
                packet.PacketOptions("buyer", append_originals=True),
                today=TODAY,
            )
    assert (tmp_path / "first.pdf").read_bytes() == (tmp_path / "second.pdf").read_bytes()


def test_a_document_that_can_t_be_searched_stays_out_unless_personal_facts_are_ticked(
    started, catalogue, tmp_path, text_of
):
    content = hostile.slow_contents()
    with household.furnished(tmp_path / "b.wellbook") as book:
        well = book.wells()[0].id
        book.add_document(NewDocument("slow.pdf", "application/pdf", content), well=well)
        book.add_document(NewDocument("plain.pdf", "application/pdf", hostile.plain()), well=well)
        for personal in (True, False):
            before = len(started)
            path = tmp_path / f"{personal}.pdf"
            packet.write(
                book.record(),
                catalogue,
                path,
                packet.PacketOptions(
                    "buyer", with_personal=personal, with_originals=True, patience=1.5
                ),
                today=TODAY,
            )
            held = [one.content for one in PdfReader(path).attachment_list]
            assert (content in held) is personal
            assert hostile.plain() in held
            assert (len(started) == before) is personal  # its bytes go along, nobody reads them
            said = "lab report; not attached: it took too long"
            assert (said in text_of(path, rows=True)) is not personal
            assert Outcome.FAILS not in {one.outcome for one in verify(path)}


def test_a_packet_without_pdfs_starts_no_other_process(started, catalogue, tmp_path):
    with household.with_one_test(tmp_path / "b.wellbook") as book:
        table = NewDocument("table.csv", "text/csv", b"a,b\n")
        book.add_document(table, well=book.wells()[0].id)
        before = len(started)
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("buyer", with_originals=True, append_originals=True),
            today=TODAY,
        )
    assert len(started) == before


@pytest.mark.parametrize("make", [hostile.slow_contents, hostile.wide_tree])
def test_searching_a_hostile_document_says_that_it_was_not_searched(make):
    why = why_behind(make(), ("Vexley",), seconds=3)
    assert why in {process.TOO_LONG, reasons.TOO_MUCH}


def test_a_private_word_that_stands_in_the_open_is_found_in_a_hostile_document_too(started):
    before = len(started)
    content = hostile.slow_contents() + b"% for Vexley"
    assert why_behind(content, ("Vexley",), seconds=3) == reasons.PRIVATE
    assert len(started) == before


def test_originals_hold_no_more_together_than_a_packet_can(tmp_path, monkeypatch):
    monkeypatch.setattr("wellbook.sandbox.originals._MOST_TOGETHER", 50)
    with book_with(tmp_path / "b.wellbook", hostile.plain, hostile.turned_oddly) as book:
        found = originals(book.record(), book.documents(), ())
    assert [one.trouble for one in found] == ["", reasons.NO_ROOM]


def asked(what, **bounds):
    return ask("misbehaving", Parcel({"do": what}, b"content"), **bounds)


def test_what_is_asked_comes_back_from_another_process():
    assert asked("behave", seconds=20) == Parcel({"said": "done"}, b"content")


def test_who_works_too_long_is_ended():
    with pytest.raises(ReadFailed, match=f"^{process.TOO_LONG}$"):
        asked("stick", seconds=1)


def test_who_gets_no_time_for_longer_than_it_may_work_still_answers():
    assert asked("pause", seconds=3) == Parcel({"said": "done"}, b"content")


def test_who_does_not_answer_at_all_is_given_up_without_a_word_against_it():
    with pytest.raises(Busy, match=f"^{process.TOO_BUSY}$"):
        asked("sleep", seconds=60, wait_for=1)


def test_who_asks_to_stop_ends_the_reading():
    def stop():
        raise KeyboardInterrupt

    begun = time.monotonic()
    with pytest.raises(KeyboardInterrupt):
        asked("stick", seconds=60, check_cancelled=stop)
    assert time.monotonic() - begun < 20, "the process was ended, too"


@pytest.mark.parametrize("what", ["eat", "watch"])
def test_who_needs_too_much_memory_is_ended(what):
    with pytest.raises(ReadFailed, match=process.TOO_LARGE):
        asked(what, seconds=60)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such bound")
def test_who_is_made_to_write_a_file_writes_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("old").write_text("as it was")
    asked("write", seconds=20)
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {
        "new": "", "old": "as it was",
    }  # fmt: skip


@pytest.mark.parametrize("what", ["nest", "die", "leave", "unknown"])
def test_who_breaks_off_is_not_waited_for(what):
    with pytest.raises(ReadFailed, match=process.BROKEN_OFF):
        asked(what, seconds=20)


@pytest.mark.parametrize("what", ["sleep", "stick"])
def test_a_reader_ends_itself_when_nobody_is_left_to_end_it(what):
    words = [sys.executable, "-c", process._START, "misbehaving", *sys.path]
    bounds = {"seconds": 1, "longest": 3, "memory": process.MEMORY}
    packed = Parcel({"do": what, **bounds}, b"").packed()
    run = subprocess.run(words, input=packed, timeout=30, check=False, capture_output=True)
    assert run.returncode


@pytest.mark.parametrize("make", [hostile.slow_contents, hostile.torn, hostile.plain])
def test_a_hostile_file_given_as_a_packet_is_refused_before_a_reader_sees_it(make, tmp_path):
    path = tmp_path / "packet.pdf"
    path.write_bytes(make())
    with pytest.raises(Fault, match="is not, byte for byte, a packet of Wellbook"):
        open_packet(path, seconds=2)


def test_a_hostile_file_in_the_form_of_a_packet_is_refused_in_its_time(packets, tmp_path):
    def change(objects, trailer):
        drawn_over(objects, pages(objects, trailer)[1][0], b"BT (a) Tj ET\n" * 2_000_000)

    path = tmp_path / "packet.pdf"
    path.write_bytes(renewed(in_form(packets().read_bytes(), change)))
    with pytest.raises(Fault, match="took too long to read, as no packet of Wellbook does"):
        open_packet(path, seconds=2)


def children():
    """The processes that this one started."""
    tasks = Path("/proc/self/task").glob("*/children")
    return [int(number) for one in tasks for number in one.read_text().split()]


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="no /proc here")
@pytest.mark.usefixtures("started")
def test_an_honest_packet_is_never_accused_because_the_computer_is_busy(packets):
    """Its reader gets no time at all for longer than it may work; then it goes on."""
    before, held, since = set(children()), set(), time.monotonic()

    def hold():
        now = set(children()) - before
        if time.monotonic() - since < 6:
            for number in now - held:
                os.kill(number, signal.SIGSTOP)
                held.add(number)
        else:
            while held:
                os.kill(held.pop(), signal.SIGCONT)

    assert open_packet(packets(), seconds=5, check_cancelled=hold).marks.is_sealed


def test_a_packet_that_could_not_be_read_in_time_is_not_called_changed(packets, monkeypatch):
    monkeypatch.setattr(process, "_LONGER", 0)
    with pytest.raises(Fault) as told:
        open_packet(packets())
    assert "try again when it is less busy" in str(told.value)
    assert "can’t be told now" in str(told.value)
    for word in ("changed", "damaged", "no packet", "not a packet"):
        assert word not in str(told.value)
