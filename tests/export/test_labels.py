"""Bottle labels and tank card: every bottle has one, its code is read back, nothing of people.

The codes are read by ZXing, a reader of ISO/IEC 18004 that has nothing to do with their writer.
"""

from datetime import date

import pypdfium2
import pytest
import zxingcpp

from wellbook.book import Book
from wellbook.export.labels import labels, write
from wellbook.planning.rounds import rounds
from wellbook.support.errors import Fault
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 3)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        well = made.add_well("Thistle Lane")
        made.add_point(well, "Kitchen tap & larder")
        for key in ("bacteria", "lead_copper", "minerals", "arsenic", "radon", "pesticides"):
            made.set_plan(1, key, 12)
        made.add_event(well, "birth", "2026-05-01", text="Ottilie")
        yield made


def pages(path):
    with pypdfium2.PdfDocument(path) as document:
        return [page.render(scale=3).to_pil() for page in document]


def text(path):
    with pypdfium2.PdfDocument(path) as document:
        return "\n".join(page.get_textpage().get_text_range() for page in document)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_code_is_read_back_as_it_was_meant(book, tmp_path, paper):
    planned = rounds(book, CATALOGUE, TODAY)
    path = tmp_path / "labels.pdf"
    written = write(path, planned, CATALOGUE, today=TODAY, paper=paper)
    read = {code.text for picture in pages(path) for code in zxingcpp.read_barcodes(picture)}
    meant = {label.code for label in labels(planned, CATALOGUE)}
    assert written == len(meant)
    assert meant <= read
    assert len(read) == len(meant) + 1  # the card


def test_each_bottle_of_the_visit_has_a_label_with_its_place_among_them(book):
    planned = rounds(book, CATALOGUE, TODAY)
    made = labels(planned, CATALOGUE)
    assert len(made) == sum(len(visit.bottles) for visit in planned)
    n = len(planned[0].bottles)
    assert made[0].name.endswith(f"bottle 1 of {n}")
    assert made[n - 1].name.endswith(f"bottle {n} of {n}")


def test_neither_label_nor_card_tells_of_people(book, tmp_path):
    path = tmp_path / "labels.pdf"
    write(path, rounds(book, CATALOGUE, TODAY), CATALOGUE, today=TODAY, paper="a4")
    said = text(path).casefold()
    codes = " ".join(c.text for p in pages(path) for c in zxingcpp.read_barcodes(p)).casefold()
    for word in ("ottilie", "birth", "baby", "infant", "pregnan"):
        assert word not in said
        assert word not in codes


def test_the_same_visit_gives_the_same_bytes(book, tmp_path):
    planned = rounds(book, CATALOGUE, TODAY)
    for name in ("a.pdf", "b.pdf"):
        write(tmp_path / name, planned, CATALOGUE, today=TODAY, paper="a4")
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()


def test_without_a_visit_there_is_nothing_to_label(tmp_path):
    with pytest.raises(Fault, match="no bottles to label"):
        write(tmp_path / "a.pdf", (), CATALOGUE, today=TODAY, paper="a4")
    assert not list(tmp_path.iterdir())
