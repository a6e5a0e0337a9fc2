"""The commands that hand a history over, run as a person runs them."""

import json
import os
import re

import commands
import pytest
from forging import with_files
from pypdf import PdfReader
from reading import text_of

from wellbook.book import Book
from wellbook.book.rows import NewResult
from wellbook.support import examples
from wellbook.water.parsing.printed import read_reading

DAY = "2026-11-25"


def run(*words, code=0):
    env = {k: v for k, v in os.environ.items() if k not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    done = commands.run(*words, env=env)
    assert done.returncode == code, done.stderr + done.stdout
    assert "Traceback" not in done.stderr
    return done


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    path = tmp_path_factory.mktemp("home") / "home.wellbook"
    examples.copy("first-year", path)
    return path


@pytest.fixture(scope="module")
def packet(book):
    path = book.with_suffix(".pdf")
    run("packet", book, "--for", "buyer", "-o", path, "--on", DAY)
    return path


def changed(packet, path):
    """A copy in which one attached table is another one, sealed anew."""
    return with_files(packet, path, {"wells.csv": b"x"})


def test_a_packet_as_it_was_made_passes(packet):
    assert "This file agrees with itself." in run("verify", packet).stdout
    facts = json.loads(run("verify", packet, "--json").stdout)
    assert facts["agrees"]
    assert facts["unchanged"] is None, "nobody compared its code"
    assert {one["outcome"] for one in facts["checks"]} == {"agrees", "open"}
    code = re.search(r"\w{4}(-\w{4}){3}", facts["checks"][0]["text"])[0]
    facts = json.loads(run("verify", packet, "--code", code.lower(), "--json").stdout)
    assert facts["unchanged"] is True
    assert "byte for byte, the file whose code" in run("verify", packet, "--code", code).stdout
    other = run("verify", packet, "--code", "1234-5678-9ABC-DEFG", code=1).stdout
    assert "Fails: The code of this file" in other


def test_a_book_is_made_only_from_the_packet_whose_code_was_told(packet, tmp_path):
    new = tmp_path / "new.wellbook"
    done = run("receive", packet, new, "--code", "1234-5678-9ABC-DEFG", code=1)
    assert "another file than the one" in done.stderr
    assert not new.exists()


def test_a_changed_packet_ends_with_1_and_makes_no_book(packet, tmp_path):
    path = changed(packet, tmp_path / "p.pdf")
    assert "Fails: wells.csv was changed" in run("verify", path, code=1).stdout
    assert json.loads(run("verify", path, "--json", code=1).stdout)["unchanged"] is False
    run("receive", path, tmp_path / "new.wellbook", code=1)
    assert not (tmp_path / "new.wellbook").exists()


def test_a_damaged_packet_is_one_line_and_no_chatter_of_a_library(packet, tmp_path):
    raw = bytearray(packet.read_bytes())
    for place in range(40_000, 60_000, 997):
        raw[place] ^= 0x41
    (tmp_path / "p.pdf").write_bytes(raw)
    done = run("verify", tmp_path / "p.pdf", code=1)
    assert len(done.stderr.splitlines()) <= 1
    assert "ask for the original file" in done.stdout


def test_a_received_book_goes_on(packet, tmp_path):
    new = tmp_path / "new.wellbook"
    assert "Made" in run("receive", packet, new).stdout
    assert "Nitrate" in run("status", new, "--on", DAY).stdout
    before = new.read_bytes()
    for options in ((), ("--accept",)):  # receiving twice asks, and duplicates nothing
        assert "Nothing in the packet is new" in run("receive", packet, new, *options).stdout
        assert new.read_bytes() == before


def test_a_packet_is_added_to_a_book_that_is_there_only_when_accepted(packet, tmp_path):
    other = tmp_path / "other.wellbook"
    examples.copy("salt-lane", other)
    before = other.read_bytes()
    assert "Nothing was changed; add them" in run("receive", packet, other).stdout
    assert other.read_bytes() == before
    assert "Added" in run("receive", packet, other, "--accept").stdout
    assert "Nothing in the packet is new" in run("receive", packet, other).stdout


def test_a_packet_is_written_in_a_language_and_in_units_of_choice(book, tmp_path):
    from pypdf import PdfReader

    path = tmp_path / "p.pdf"
    run(
        "packet", book, "--for", "consultant", "-o", path, "--on", DAY,
        "--language", "es", "--units", "household",
    )  # fmt: skip
    reader = PdfReader(path)
    assert reader.root_object["/Lang"] == "es"
    assert "gpg" in text_of(path)


def test_a_language_or_units_that_there_are_not_are_one_line_and_no_file(book, tmp_path):
    path = tmp_path / "p.pdf"
    words = ("packet", book, "--for", "buyer", "-o", path, "--on", DAY)
    assert "'en', 'es'" in run(*words, "--language", "xx", code=2).stderr
    said = run(*words, "--units", "cubits", code=1).stderr
    assert "no units cubits; there are: usual, household" in said
    assert not path.exists()


def test_what_differs_is_shown_and_done_as_said(packet, tmp_path):
    book = tmp_path / "mine.wellbook"
    run("receive", packet, book)
    with Book.open(book) as opened:
        result = opened.results()[-1]
        reading = read_reading("7.77", unit=result.reading.unit, basis=result.reading.basis)
        changed_to = NewResult(result.parameter, result.name, reading, draw=result.draw)
        opened.correct_result(result.id, changed_to, "typed wrongly")
    told = run("receive", packet, book).stdout
    assert "1 differing test." in told
    assert "7.77" in told
    open_yet = run("receive", packet, book, "--accept", code=1).stderr
    assert "Say with --differing what is to become of 1" in open_yet
    assert "is not take, keep or both" in run(
        "receive", packet, book, "--accept", "--differing", "other", code=2
    ).stderr  # fmt: skip
    run("receive", packet, book, "--accept", "--differing", "keep", "--differing", "1=take")
    assert "Nothing in the packet is new" in run("receive", packet, book).stdout


def test_places_of_private_words_are_shown_before_they_are_covered(tmp_path):
    with Book.create(tmp_path / "o.wellbook") as book:
        well = book.add_well("Home", address="17 Quillwort Lane", note="Gate at Quillwort Ln.")
        book.add_point(well, "Tap")
    words = ("packet", tmp_path / "o.wellbook", "--for", "buyer", "-o", tmp_path / "p.pdf")
    told = run(*words).stdout
    assert "Well 1, remark: “Gate at Quillwort Ln.” (covered: Quillwort)" in told
    assert told.index("Quillwort") < told.index("Made ")
    assert "Quillwort" not in run(*words, "--show", "Quillwort").stdout


def test_a_letter_is_one_page_and_the_wrong_reader_or_place_is_said(book, tmp_path):
    path = tmp_path / "letter.pdf"
    done = run("letter", book, "--to", "dealer", "-o", path, "--on", DAY, "--language", "es")
    assert f"Made {path}." in done.stdout
    (page,) = PdfReader(path).pages
    assert "A la empresa de tratamiento de agua" in page.extract_text()
    assert "neighbour" in run("letter", book, "--to", "neighbour", "-o", path, code=2).stderr
    refused = run("letter", book, "--to", "doctor", "-o", book, code=1).stderr
    assert book.name in refused
    nowhere = run("letter", book, "--to", "doctor", "--well", "Nowhere", "-o", path, code=1)
    assert "Fox Orchard" in nowhere.stderr


def test_a_web_page_is_of_the_part_and_in_the_units_that_are_chosen(book, tmp_path):
    path = tmp_path / "page.html"
    words = ("page", book, "-o", path, "--on", DAY)
    run(*words, "--since", "2025-06-01", "--parameter", "hardness", "--units", "european")
    said = path.read_text("utf-8")
    assert "By choice it leaves out" in said
    assert "mmol/L" in said
    tests = said[said.index('<section id="tests"') : said.index('<section id="changes"')]
    assert re.findall(r"<th scope=\"row\">([^<]+)", tests) == ["Total Hardness as CaCO3"]
