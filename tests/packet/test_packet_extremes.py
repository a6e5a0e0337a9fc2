"""Little, much, or odd: nothing runs off a page, and three independent readers open the file."""

import re
import shutil
import subprocess

import household
import pikepdf
import pypdfium2
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import complaints

from wellbook.packet import packet
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.sharing.excerpt import Scope

LONG = "The upper well behind the second barn, drilled deeper after the drought " * 3
MARGIN = 14  # points at every edge in which nothing may be printed
NUMBER = "<0.00123"


def fill(book, catalogue, tests, parameters, text):
    point = book.add_point(book.add_well(LONG[:200]), LONG[:150])
    known = list(catalogue.parameters.items())[:parameters]
    book.add_samples(
        [
            household.sample(
                point,
                f"{1990 + n // 24}-{1 + n // 2 % 12:02d}-{1 + n % 2 * 14:02d}",
                *(
                    household.result(key, one.name, text, one.unit, basis=one.basis)
                    for key, one in known
                ),
                lab=LONG[:150],
            )
            for n in range(tests)
        ]
    )


CASES = {
    "one test": (1, 1, "7.1", Scope()),
    "six hundred tests": (600, 1, "7.1", Scope()),
    "a hundred and twenty parameters": (2, 120, "0.5", Scope()),
    "only non-detects": (4, 12, NUMBER, Scope()),
    "no limit that applies": (4, 6, "7.1", Scope(sets=("us-pa",))),
}


@pytest.fixture(scope="module", params=CASES, ids=str)
def extreme(request, catalogue, tmp_path_factory):
    tests, parameters, text, scope = CASES[request.param]
    folder = tmp_path_factory.mktemp("extreme")
    with household.new_book(folder / "x.wellbook") as book:
        fill(book, catalogue, tests, parameters, text)
        path = folder / "x.pdf"
        audience = "consultant" if parameters < 20 and tests < 10 else "buyer"
        packet.write(
            book.record(), catalogue, path, packet.PacketOptions(audience, scope=scope), today=TODAY
        )
    return path, tests


def test_three_readers_and_a_checker_agree_on_the_pages(extreme):
    path, tests = extreme
    pages = len(PdfReader(path).pages)
    with pypdfium2.PdfDocument(path) as document:
        assert len(document) == pages
        # It stands behind the answers, which begin on page one and can be long.
        said = " ".join(page.get_textpage().get_text_range() for page in document)
        assert re.search(rf"In this packet\s+{tests:,} tests?\s+with", said)
    with pikepdf.open(path) as document:
        assert len(document.pages) == pages
    assert complaints(path) == []
    assert Outcome.FAILS not in {check.outcome for check in verify(path)}


@pytest.mark.skipif(not shutil.which("pdfinfo"), reason="no pdfinfo (poppler) here")
def test_a_fourth_reader_agrees_where_it_is_installed(extreme):
    path, _ = extreme
    poppler = subprocess.run(["pdfinfo", path], capture_output=True, text=True, check=True)
    assert (
        poppler.stderr,
        f"Pages:           {len(PdfReader(path).pages)}\n" in poppler.stdout,
    ) == ("", True)


def test_every_page_has_ink_and_none_of_it_at_the_edge_of_the_paper(extreme):
    path, _ = extreme
    with pypdfium2.PdfDocument(path) as document:
        # Long packets repeat themselves: every page of a short one, every fifth of a long one.
        for number in range(0, len(document), 1 if len(document) < 40 else 5):
            picture = document[number].render(scale=1, grayscale=True).to_pil()
            box = picture.point(lambda tone: 255 if tone < 200 else 0).getbbox()
            assert box is not None, f"page {number + 1} is blank"
            left, top, right, foot = box
            assert left >= MARGIN, f"page {number + 1}"
            assert top >= MARGIN, f"page {number + 1}"
            assert right <= picture.width - MARGIN, f"page {number + 1}"
            assert foot <= picture.height - MARGIN, f"page {number + 1}"
