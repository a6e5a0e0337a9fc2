"""What a changed packet can't hide: bytes, pages, attached files, the code on the cover."""

import random
import re

import household
import pikepdf
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DecodedStreamObject, NameObject

from wellbook.packet import packet
from wellbook.packet.receive.packet_file import open_packet
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.pdf.sealing import seal_holds
from wellbook.support.errors import Fault


@pytest.fixture(scope="module")
def small(catalogue, tmp_path_factory):
    folder = tmp_path_factory.mktemp("small")
    with household.with_one_test(folder / "o.wellbook") as book:
        packet.write(book, catalogue, folder / "p.pdf", packet.PacketOptions("buyer"), today=TODAY)
    return folder / "p.pdf"


def failures(path):
    return " ".join(one.text for one in verify(path) if one.outcome is Outcome.FAILS)


def rewritten(path, target, change):
    """A packet that another program wrote again after a change."""
    writer = PdfWriter(clone_from=path)
    change(writer)
    writer.write(target)
    return target


def test_a_packet_written_again_unchanged_keeps_its_code_and_says_so(small, tmp_path):
    # Two independent programs, one of which packs all streams and objects anew.
    ours = rewritten(small, tmp_path / "a.pdf", lambda _: None)
    theirs = tmp_path / "b.pdf"
    with pikepdf.open(small) as document:
        anew = pikepdf.ObjectStreamMode.generate
        document.save(theirs, linearize=True, object_stream_mode=anew, recompress_flate=True)
    for path in (ours, theirs):
        said = {one.outcome: one.text for one in reversed(verify(path)) if "made" in one.text}
        assert "not byte for byte as it was made" in said[Outcome.OPEN]
        assert failures(path) == ""


def change_a_figure(writer):
    for page in writer.pages:
        data = page.get_contents().get_data()
        if b"Test 1" in page.extract_text().encode():
            stream = DecodedStreamObject()
            stream.set_data(data + b" ")
            page[NameObject("/Contents")] = stream
            return


def take_a_page_out(writer):
    writer.remove_page(writer.pages[2])


def put_a_page_in(writer):
    writer.add_blank_page(612, 792)


def turn_pages(writer):
    kids = writer.root_object["/Pages"]["/Kids"]
    kids[1], kids[2] = kids[2], kids[1]


def draw_over(writer):
    stream = DecodedStreamObject()
    stream.set_data(b"1 1 1 rg 50 300 400 20 re f")
    page = writer.pages[1]
    page[NameObject("/Contents")] = ArrayObject(
        [page.raw_get("/Contents"), writer._add_object(stream)]
    )


@pytest.mark.parametrize(
    "change", [change_a_figure, take_a_page_out, put_a_page_in, turn_pages, draw_over]
)
def test_a_changed_added_removed_or_turned_page_is_found(small, tmp_path, change):
    assert "is not that of these pages" in failures(rewritten(small, tmp_path / "p.pdf", change))


def test_the_code_stands_on_the_cover_for_two_readers_and_depends_on_the_book(
    small, packets, text_of
):
    codes = []
    for path in (small, packets()):
        (told,) = re.findall(
            r"Check code\s+(\w{4}(?:-\w{4}){3})\b", text_of(path, rows=True, last=1)
        )
        assert told in PdfReader(path).pages[0].extract_text()
        codes.append(told)
        assert any(told in one.text for one in verify(path))
    assert len(set(codes)) == 2


def altered(content, chance):
    place = chance.randrange(len(content))
    changed = bytearray(content)
    changed[place] ^= chance.randrange(1, 256)
    return bytes(changed)


def test_200_random_changes_of_a_single_byte_are_all_noticed(small):
    chance, content = random.Random(7), small.read_bytes()
    assert seal_holds(content)
    assert not any(seal_holds(altered(content, chance)) for _ in range(200))


def test_of_changes_of_a_single_byte_those_that_touch_facts_fail(small, tmp_path):
    chance, content = random.Random(11), small.read_bytes()
    before = open_packet(small)
    told = 0
    for _ in range(10):
        path = tmp_path / "p.pdf"
        path.write_bytes(altered(content, chance))
        try:
            after = open_packet(path)
        except Fault:
            told += 1
            continue
        facts = ((one.pages, one.cover, one.files) for one in (before, after))
        if len({repr(one) for one in facts}) > 1:
            assert failures(path) or _no_packet(path)
            told += 1
    assert told > 3


def _no_packet(path):
    with pytest.raises(Fault):
        verify(path)
    return True
