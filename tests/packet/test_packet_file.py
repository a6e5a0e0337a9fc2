"""The file itself: whole or not there, the same bytes every time, sound to other programs."""

import os
import re
import subprocess
import sys
import time
from xml.dom.minidom import parseString

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import complaints, words_of

from wellbook.packet import packet
from wellbook.packet.attachments import MANIFEST
from wellbook.packet.words import NAME as WORDS
from wellbook.pdf.xmp import metadata
from wellbook.support.errors import Fault

AGAIN = """
import sys
from datetime import date
from pathlib import Path
from wellbook.support import paths
from wellbook.book import Book
from wellbook.packet import packet
from wellbook.water.values.catalogue import read_catalogue
with Book.open(Path(sys.argv[1]), readonly=True) as book:
    packet.write(book.record(), read_catalogue(paths.resources()), Path(sys.argv[2]),
                 packet.PacketOptions("consultant"), today=date(2026, 11, 25))
"""


def test_the_same_book_gives_the_same_bytes_elsewhere_and_another_day(book, packets, tmp_path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    surroundings = {
        **os.environ,
        "TZ": "Pacific/Auckland",
        "LC_ALL": "C",
        "TMPDIR": str(elsewhere),
        "PYTHONHASHSEED": "7",
    }
    before = packets("consultant")
    while time.time() < before.stat().st_mtime + 1:  # a clock that leaks in shows a second later
        time.sleep(0.01)
    subprocess.run(
        [sys.executable, "-W", "error", "-c", AGAIN, str(book.path), str(elsewhere / "x.pdf")],
        check=True,
        env=surroundings,
    )
    assert (elsewhere / "x.pdf").read_bytes() == before.read_bytes()


def test_no_path_or_name_of_this_computer_is_in_the_file(packets, tmp_path):
    raw = packets("consultant").read_bytes()
    node = os.uname().nodename
    words = [node] if len(node) > 4 else []  # a shorter one stands in packed bytes by chance
    for word in (str(tmp_path.parent), os.environ["HOME"], *words):
        assert word.encode() not in raw


@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_another_program_finds_nothing_wrong_with_the_file(packets, audience):
    assert complaints(packets(audience)) == []


def test_the_file_s_date_is_the_day_that_it_speaks_of(packets):
    day = f"D:{TODAY:%Y%m%d}000000Z"
    metadata = PdfReader(packets()).metadata
    assert (metadata["/CreationDate"], metadata["/ModDate"]) == (day, day)


def test_the_file_says_what_it_is_in_xmp_too_as_another_reader_reads_it(packets):
    """ISO 16684-1, read by pypdf and by an XML parser that is not ours."""
    reader = PdfReader(packets())
    xmp = reader.xmp_metadata
    assert xmp.dc_title == {"x-default": reader.metadata.title}
    assert xmp.dc_creator == ["Wellbook"]
    assert xmp.dc_description == {"x-default": reader.metadata.subject}
    assert xmp.xmp_create_date.date() == TODAY
    parseString(reader.root_object["/Metadata"].get_object().get_data())  # noqa: S318  our own file


@pytest.mark.parametrize(
    "title", [b"O\x90Hara\x92s & <well>", "Кавказ \x01".encode("utf-16"), b"\xfe\xff\xd8\x00"]
)
def test_any_name_of_a_well_gives_xmp_that_can_be_read(title):
    parseString(metadata({"Title": title, "CreationDate": b"D:20261128000000Z"}))  # noqa: S318  our own file


def test_each_attached_file_has_its_name_twice_and_what_it_is_to_the_pages(packets):
    names = PdfReader(packets(with_personal=True)).root_object["/Names"]["/EmbeddedFiles"]["/Names"]
    files = [one.get_object() for one in names[1::2]]
    assert len(files) > 8
    assert all(one["/UF"] == one["/F"] for one in files)
    relations = {one["/F"]: one["/AFRelationship"] for one in files}
    assert relations["results.csv"] == "/Data"
    assert relations[MANIFEST] == relations[WORDS] == "/Supplement"
    assert "/Source" in relations.values(), "the lab’s own reports"  # ISO 32000-2, table 43


def test_the_manifest_tells_the_fingerprint_of_every_other_file(packets):
    import hashlib

    files = {one.name: one.content for one in PdfReader(packets()).attachment_list}
    lines = files.pop(MANIFEST).decode().splitlines()
    del files[WORDS]  # it is made last, of the pages that name the manifest
    told = {line[66:]: line[:64] for line in lines}
    assert told == {name: hashlib.sha256(body).hexdigest() for name, body in files.items()}


def test_every_attached_file_is_listed_on_a_page(packets, text_of):
    path = packets(with_personal=True)
    text = re.sub(r"\s+", "", text_of(path))
    for one in PdfReader(path).attachment_list:
        assert re.sub(r"\s+", "", one.name) in text


def test_a_folder_that_is_missing_is_one_clear_sentence(book, catalogue, tmp_path):
    path = tmp_path / "nowhere" / "packet.pdf"
    with pytest.raises(Fault, match="choose another folder"):
        packet.write(book.record(), catalogue, path, packet.PacketOptions("buyer"), today=TODAY)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_can_t_be_written_is_one_clear_sentence(book, catalogue, tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(Fault, match="can’t be written"):
        packet.write(
            book.record(), catalogue, tmp_path / "p.pdf", packet.PacketOptions("buyer"), today=TODAY
        )


def test_a_packet_that_fails_leaves_the_old_file_and_no_half_new_one(
    book, catalogue, tmp_path, monkeypatch
):
    path = tmp_path / "packet.pdf"
    path.write_bytes(b"%PDF-1.7 the old one")

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Fault, match="No space left"):
        packet.write(book.record(), catalogue, path, packet.PacketOptions("buyer"), today=TODAY)
    assert [one.read_bytes() for one in tmp_path.iterdir()] == [b"%PDF-1.7 the old one"]


def test_an_unknown_audience_or_paper_is_a_mistake_of_the_caller(book, catalogue, tmp_path):
    with pytest.raises(ValueError, match="audience"):
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("neighbour"),
            today=TODAY,
        )


def test_an_empty_book_still_gives_a_packet(catalogue, tmp_path, text_of):
    path = tmp_path / "empty.pdf"
    with household.new_book(tmp_path / "e.wellbook") as empty:
        for audience in ("buyer", "consultant"):
            packet.write(
                empty.record(), catalogue, path, packet.PacketOptions(audience), today=TODAY
            )
    assert "The book holds no test results yet." in text_of(path)


def test_a_book_with_one_test_gives_a_packet(catalogue, tmp_path, text_of):
    path = tmp_path / "one.pdf"
    with household.with_one_test(tmp_path / "o.wellbook") as book:
        packet.write(
            book.record(), catalogue, path, packet.PacketOptions("consultant"), today=TODAY
        )
    text = text_of(path)
    assert "1 test with 1 reading" in text
    assert "No parameter was tested at least twice" in text


def test_what_looks_like_markup_in_people_s_words_stays_text(catalogue, tmp_path, text_of):
    odd = 'mended <b>"&amp; sealed"</i> $x^2$ \x07 井戸'
    with household.new_book(tmp_path / "odd.wellbook") as book:
        well = book.add_well(f"<i>{odd}", construction={"<u>": odd})
        book.add_event(well, "<br/>", "2019-04", text=odd)
        point = book.add_point(well, odd)
        for day in ("2019-05-02", "2021-05-02"):
            reading = household.result("nitrate", odd, "1.0", "mg/L", basis="as N", method=odd)
            book.add_sample(household.sample(point, day, reading, lab=odd, note=odd))
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("consultant"),
            today=TODAY,
        )
    text = re.sub(r"\s+", " ", text_of(tmp_path / "p.pdf"))
    assert text.count('mended <b>"&amp; sealed"</i> $x^2$') > 6


LONG = "The upper well behind the second barn, drilled deeper after the drought of that year " * 3


def overlapping(words):
    """Pairs of words on one page whose boxes overlap clearly."""
    by_page = {}
    for word in words:
        by_page.setdefault(word.page, []).append(word)
    for page, found in by_page.items():
        found.sort(key=lambda word: word.top)
        for place, word in enumerate(found):
            for other in found[place + 1 :]:
                if other.top > word.bottom - 3:
                    break
                if other.left < word.right - 1.5 and word.left < other.right - 1.5:
                    yield page, word.text, other.text


def crowded(path):
    """A book with long names everywhere, and as many parameters as a lab reports at once."""
    book = household.new_book(path)
    well = book.add_well(LONG[:200], note=LONG * 20, construction={"rock": LONG * 10})
    raw = book.add_point(well, LONG[:150])
    unit = book.add_unit(well, LONG[:180], kind="W" * 120, target="hardness iron", note=LONG)
    book.add_service(unit, "media", "2021-03", text=LONG * 3)
    book.add_event(well, "other", "2019-04-20", until="2019-05", text=LONG * 40)
    return book, raw


@pytest.mark.parametrize(("audience", "paper"), [("buyer", "a4"), ("consultant", "letter")])
def test_long_names_and_many_parameters_neither_overflow_nor_overlap(
    catalogue, tmp_path, audience, paper
):
    book, raw = crowded(tmp_path / "crowded.wellbook")
    with book:
        for day in ("2019-05-02T06:40-04:00", "2021-06-02"):
            results = [
                household.result(
                    key, f"{one.name}, as the lab names it at length", "<0.00123456", one.unit,
                    basis=one.basis, fraction="dissolved", method="M" * 60, lab=LONG[:190],
                    reporting_limit="0.00123456", qualifier="U J H B",
                )
                for key, one in list(catalogue.parameters.items())[:48]
            ]  # fmt: skip
            book.add_sample(household.sample(raw, day, *results, lab=LONG[:200], note=LONG * 30))
        path = tmp_path / "crowded.pdf"
        packet.write(
            book.record(), catalogue, path, packet.PacketOptions(audience, paper=paper), today=TODAY
        )
    reader = PdfReader(path)
    width = float(reader.pages[0].mediabox.width)
    drawn = {
        number
        for number, page in enumerate(reader.pages, start=1)
        if any("/Chart" in name for name in page["/Resources"].get("/XObject", {}))
    }
    words = [word for word in words_of(path) if word.page not in drawn]
    assert [word for word in words if word.left < 49 or word.right > width - 44] == []
    assert list(overlapping(words)) == []
