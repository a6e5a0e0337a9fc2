"""What belongs to people stays out of a packet unless it is ticked."""

import re

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import everything

from wellbook.packet import packet


@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_no_private_word_is_anywhere_in_a_packet(packets, audience):
    held = everything(packets(audience))
    for word in household.PRIVATE_WORDS:
        assert word.encode() not in held
        assert word.encode("utf-16-be") not in held


def test_health_is_private_even_if_nobody_said_so(catalogue, tmp_path):
    with household.with_one_test(tmp_path / "o.wellbook") as book:
        well = book.wells()[0].id
        book.add_event(well, "illness", "2024-06", text="Stomach trouble for a week")
        packet.write(
            book.record(), catalogue, tmp_path / "p.pdf", packet.PacketOptions("buyer"), today=TODAY
        )
    held = everything(tmp_path / "p.pdf")
    assert b"Stomach" not in held
    assert b"illness" not in held


def test_ticked_personal_facts_are_shown_and_originals_attached(packets, text_of):
    path = packets(with_personal=True)
    text = re.sub(r"\s+", " ", text_of(path))
    for word in (household.ADDRESS, household.COORDINATES, household.PRIVATE_EVENT):
        assert word in text
    assert f"Drawn by {household.SAMPLER}, owner" in text
    assert household.REPORT in [one.content for one in PdfReader(path).attachment_list]


def test_private_words_in_free_text_are_covered_visibly(packets, text_of):
    text = text_of(packets())
    assert "The gate is at [covered: personal]." in text
    assert "Drawn by [covered: personal] after a week of rain" in text


def test_originals_can_go_along_without_the_household_s_own_facts(packets, text_of):
    path = packets(with_originals=True, all_originals=True)
    names = {one.name: one.content for one in PdfReader(path).attachment_list}
    assert household.REPORT in names.values()
    assert household.PRIVATE_EVENT not in text_of(path)


def test_without_originals_the_packet_says_so_and_gives_their_fingerprints(packets, text_of, book):
    text = re.sub(r"\s+", "", text_of(packets()))
    (document,) = book.documents()
    assert document.sha256 in text
    assert "Theoriginalsarenotattached" in text
