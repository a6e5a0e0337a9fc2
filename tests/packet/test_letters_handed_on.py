"""What a household writes in letters that our fonts lack is handed over, and makes no noise."""

import commands
import household
import pytest
import squares
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import complaints, text_of
from squares import FAMILY, WELL

from wellbook.book import Book
from wellbook.packet import packet

SAID = f"new {WELL} \N{DROPLET}"


def written(path):
    """A book whose names, notes and events hold such letters."""
    with household.new_book(path) as book:
        well = book.add_well(f"Hill {WELL}", note=SAID)
        point = book.add_point(well, f"Tap {WELL}")
        for day, event in (("2015-05-04", "repair"), ("2019-05-04", "flood")):
            nitrate = household.result("nitrate", f"Nitrate {WELL}", "2.1", "mg/L", basis="as N")
            book.add_sample(household.sample(point, day, nitrate, note=SAID))
            book.add_event(well, event, day, text=SAID)
    return path


def heard(*told):
    return commands.run(*told, check=True).stderr


def test_charts_packets_and_rounds_of_such_a_book_say_nothing_on_the_side(tmp_path):
    book = written(tmp_path / "b.wellbook")
    for kind in ("png", "svg", "pdf"):
        assert heard("chart", book, "nitrate", "-o", tmp_path / f"c.{kind}") == ""
    for audience in ("buyer", "consultant"):
        path = tmp_path / f"{audience}.pdf"
        assert heard("packet", book, "--for", audience, "-o", path) == ""
        assert complaints(path) == []
        assert heard("verify", path) == ""
    assert heard("round", book, "-o", tmp_path / "r.pdf") == ""


@pytest.fixture
def other_font(tmp_path):
    with squares.installed(tmp_path):
        yield


@pytest.mark.usefixtures("other_font")
def test_the_pages_are_set_in_a_font_of_the_computer_that_has_them(catalogue, tmp_path):
    path = tmp_path / "p.pdf"
    with Book.open(written(tmp_path / "b.wellbook"), readonly=True) as book:
        packet.write(book.record(), catalogue, path, packet.PacketOptions("buyer"), today=TODAY)
    fonts = {
        font["/BaseFont"]
        for page in PdfReader(path).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert any(FAMILY in name for name in fonts), fonts
    assert f"Hill {WELL}" in text_of(path, last=1)
    assert complaints(path) == []
