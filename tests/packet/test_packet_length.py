"""A buyer reads a few pages of answers; all that they rest on is a record with its own numbers."""

import re
from datetime import date, timedelta

import household
import pypdfium2
import pytest
from packet_fixtures import TODAY

from wellbook.book import Book
from wellbook.packet import packet, sections
from wellbook.packet.answers import answer
from wellbook.packet.gather import gather
from wellbook.pdf import style
from wellbook.support import paths, translation
from wellbook.water.values.catalogue import read_catalogue

HOUSES = ("alder-hollow", "first-year", "salt-lane")
CATALOGUE = read_catalogue(paths.resources())
MARGIN = 60.0  # points of head and foot


def laid_out(path):
    """The words of each page, and how much of its height is used."""
    pages = []
    document = pypdfium2.PdfDocument(path)
    for page in document:
        words = page.get_textpage()
        height = page.get_height()
        boxes = [words.get_rect(n) for n in range(words.count_rects())]
        lowest = min((box[1] for box in boxes if box[1] > MARGIN), default=height)
        used = (height - MARGIN - lowest) / (height - 2 * MARGIN)
        pages.append((re.sub(r"\s+", " ", words.get_text_range()), used))
    document.close()
    return pages


def test_a_buyer_reads_few_pages_of_answers_and_the_record_counts_its_own(household_packets):
    pages = laid_out(household_packets("alder-hollow"))
    numbers = [re.search(r"Page (\S+) of (\S+)", said).groups() for said, _used in pages]
    answers = [number for number, _all in numbers if not number.startswith("A-")]
    record = [number for number, _all in numbers if number.startswith("A-")]
    assert 4 <= len(answers) <= 6
    assert "Ask for" in pages[0][0], "page one holds every answer"
    assert pages[0][0].index("Ask for") < pages[0][0].index("compare with what stands here")
    assert numbers == [
        *((str(n), str(len(answers))) for n in range(1, len(answers) + 1)),
        *((f"A-{n}", f"A-{len(record)}") for n in range(1, len(record) + 1)),
    ]
    assert "The record From here on" in pages[len(answers)][0]
    # No page is nearly empty but the last of all.
    few = [n for n, (_said, used) in enumerate(pages) if used < 1 / 3]
    assert set(few) <= {len(pages) - 1}


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("audience", ["buyer", "consultant"])
@pytest.mark.parametrize("name", HOUSES)
def test_page_one_is_one_page_and_the_answers_four_to_six_none_of_them_nearly_empty(
    name, audience, language
):
    """On both papers, set as they are when written, but not written."""
    style.register_fonts(paths.resources() / "fonts")
    with (
        Book.open(paths.sample_wells() / f"{name}.wellbook", readonly=True) as book,
        translation.using(packet.language(language)),
    ):
        options = packet.PacketOptions(audience, language=language)
        context = packet.gathered(book.record(), CATALOGUE, TODAY, options)
        for paper in style.PAPERS.values():
            context.width = paper[0] - 2 * style.SIDE
            ends = sections.fitted(context, paper, packet.running(context))
            assert ends[sections.COVER][0] == 1, paper
            last, height = ends[sections.ANSWERS]
            assert 4 <= last <= 6, paper
            used = (paper[1] - style.TOP - height) / (paper[1] - style.TOP - style.BOTTOM)
            assert used >= 1 / 3, (paper, context.scale)


def coli(text):
    return household.result("e_coli", "E. coli", text, "MPN/100 mL")


def test_a_long_unbroken_run_of_findings_is_one_sentence_with_first_worst_and_last(tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Kitchen tap")
        days = [date(2018, 1, 10) + timedelta(days=60 * n) for n in range(40)]
        for n, day in enumerate(days):
            book.add_sample(household.sample(tap, day.isoformat(), coli("99" if n == 7 else "2")))
        history = gather(book.record(), CATALOGUE, TODAY, with_personal=False)
    (said,) = answer.happened(history)
    assert "bacteria were found in 40 tests without a clean one between" in said
    for day in ("10 Jan 2018", "6 Mar 2019", f"{days[-1]:%-d %b %Y}"):
        assert day in said
    assert said.count("found on") == 3
    assert "No test since has shown that it ended." in said


@pytest.mark.parametrize("n", [1, 2, 4, 5])
def test_a_short_run_is_told_finding_by_finding(tmp_path, n):
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Kitchen tap")
        for k in range(n):
            book.add_sample(household.sample(tap, f"2024-0{k + 1}-10", coli(str(k + 2))))
        history = gather(book.record(), CATALOGUE, TODAY, with_personal=False)
    (said,) = answer.happened(history)
    assert said.count("found on") == n
