"""A packet in another language or other units: other words and figures, the same facts."""

import json
import os
import re
from datetime import date

import pytest
from loud import loud, texts_in
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import complaints

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.packet.options import AUDIENCES
from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.packet.words import NAME as WORDS
from wellbook.support import paths, translation
from wellbook.support.errors import Fault
from wellbook.support.translation import _

LANGUAGES = paths.resources() / "languages"
OTHERS = sorted(set(translation.LANGUAGES) - {translation.ENGLISH.key})
CLOSING = date(2026, 12, 20)


def not_ours(path, catalogue):
    """What the household, its labs and the rules wrote, units, and the names of the files."""
    reader = PdfReader(path)
    record = json.loads(reader.attachments["record.json"][0])
    return " ".join(
        [
            *texts_in(record),
            *reader.attachments,
            *(one.source for one in catalogue.limits),
            "meq/L mmol/L mol/L mg/L µS/cm",
        ]
    )


# A packet takes its time: each household for one reader, and for each with `WELLBOOK_SWEEPS=1`.
READ = {
    "alder-hollow": ("consultant",),
    "salt-lane": ("buyer",),
    "first-year": ("buyer",),
    "furnished": ("consultant",),
}
READERS = dict.fromkeys(READ, AUDIENCES) if "WELLBOOK_SWEEPS" in os.environ else READ


@pytest.mark.parametrize(
    ("well", "audience"),
    [(well, one) for well in READ for one in AUDIENCES if one in READERS[well]],
)
def test_every_word_of_ours_on_the_pages_can_be_said_in_another_language(
    book, catalogue, tmp_path, monkeypatch, text_of, well, audience
):
    monkeypatch.setattr(packet, "language", lambda _key: loud())
    path = tmp_path / "loud.pdf"
    opened = book
    if well != "furnished":
        opened = Book.open(paths.sample_wells() / f"{well}.wellbook", readonly=True)
    packet.write(
        opened.record(),
        catalogue,
        path,
        packet.PacketOptions(
            audience, closing=CLOSING, with_personal=True, append_originals=False, units="european"
        ),
        today=TODAY,
    )
    known = not_ours(path, catalogue)
    said = re.sub(r"\b[0-9a-f]{12,}\b", "", text_of(path))
    small = re.findall(r"(?<![A-Za-z’'])[a-z’']*[a-z]{4,}[a-z’']*", said)
    assert sorted({word for word in small if word not in known}) == []


@pytest.mark.parametrize("language", OTHERS)
def test_pages_title_and_bookmarks_are_in_the_language_and_the_file_says_so(packets, language):
    path = packets("consultant", language=language)
    reader, english = PdfReader(path), PdfReader(packets("consultant"))
    assert reader.root_object["/Lang"] == language
    assert english.root_object["/Lang"] == "en"
    titles, others = ([one.title for one in r.outline if not isinstance(one, list)]
                      for r in (reader, english))  # fmt: skip
    assert len(titles) == len(others)
    assert not set(titles) & set(others)
    assert reader.metadata.title != english.metadata.title


def test_what_is_put_together_in_spanish_says_del_and_al(packets, text_of):
    """`de el` and `a el` are contracted. Common grammar, no source."""
    said = " ".join(text_of(packets("consultant", language="es")).split())
    assert re.findall(r".{20}\b(?:de|a) el\b.{20}", said) == []


@pytest.mark.parametrize("language", OTHERS)
def test_it_says_where_the_record_begins_that_it_was_translated(packets, text_of, language):
    whole = " ".join(text_of(packets(language=language)).split())
    with translation.using(translation.read_language(LANGUAGES, language)):
        said = _(
            "The sentences of this packet were translated from English. What a lab or a rule "
            "printed, what the household wrote, and the attached tables stay as they are. Where a "
            "word matters, ask for the English packet too."
        )
    assert said in whole
    assert "were translated from" not in text_of(packets())


def test_units_of_words_stand_in_spanish_on_the_pages_and_as_they_are_kept_in_the_tables(
    household_packets, text_of
):
    # NOM-127-SSA1-2021 prints UFC, NMP, UNT and "unidades de pH"; RD 3/2023 has UFC and UNF.
    path = household_packets("alder-hollow", "consultant", language="es")
    pages = " ".join(text_of(path).split())
    for ours, said in (
        ("pH units", "unidades de pH"),
        ("NTU", "UNT"),
        ("per 100 mL", "por 100 mL"),
        ("mg/L as N", "mg/L (N)"),
        ("mg/L as CaCO3", "mg/L (CaCO3)"),
    ):
        assert said in pages
        assert not re.search(rf"\b{ours}\b", pages), ours
    tables = PdfReader(path).attachments["results.csv"][0].decode()
    assert "pH units" in tables
    assert "unidades" not in tables


@pytest.mark.parametrize(
    ("choice", "personal"), [({"language": "es"}, True), ({"units": "european"}, False)]
)
def test_the_attached_files_are_the_same_in_every_language_and_unit(packets, choice, personal):
    usual = PdfReader(packets("consultant", with_personal=personal))
    other = PdfReader(packets("consultant", with_personal=personal, **choice))
    same = usual.attachments.keys() - {WORDS}  # the words of the pages, in their language
    assert other.attachments.keys() == usual.attachments.keys()
    assert all(other.attachments[name] == usual.attachments[name] for name in same)


@pytest.mark.parametrize("choice", [{"language": "es"}, {"units": "european"}])
def test_it_can_be_verified_and_received_as_any_other(packets, tmp_path, choice):
    path = packets("buyer", **choice)
    assert all(one.outcome is not Outcome.FAILS for one in verify(path))
    receive(path, tmp_path / "next.wellbook")
    receive(packets("buyer"), tmp_path / "usual.wellbook")
    with (
        Book.open(tmp_path / "next.wellbook") as one,
        Book.open(tmp_path / "usual.wellbook") as two,
    ):
        assert one.results() == two.results()


def test_charts_and_brackets_are_in_the_chosen_units_beside_what_was_reported(packets, text_of):
    """10 mg/L as N is 44.3 mg/L as NO3, 11.4 is 50.5 (62.0049 / 14.0067, IUPAC weights)."""
    said = " ".join(text_of(packets(units="european")).split())
    assert "11.4 mg/L as N (50.5 mg/L as NO3)" in said
    assert "up to 10 mg/L as N (44.3 mg/L as NO3)" in said
    assert "Units of choice: European" in said
    assert "Units of choice" not in text_of(packets())


def test_a_verdict_is_the_same_in_all_units(packets, text_of):
    def marks(path):
        raw = text_of(path)
        return [raw.count(word) for word in ("over", "within", "close", "present", "can’t be told")]

    usual = marks(packets("consultant"))
    assert marks(packets("consultant", units="european")) == usual
    assert marks(packets("consultant", units="household")) == usual


def test_what_there_is_not_is_told_with_what_there_is(book, catalogue, tmp_path):
    path = tmp_path / "x.pdf"
    with pytest.raises(Fault, match="no language tlh; there is: en, es"):
        packet.write(
            book.record(),
            catalogue,
            path,
            packet.PacketOptions("buyer", language="tlh"),
            today=TODAY,
        )
    with pytest.raises(Fault, match="no units barleycorns; there are: usual, household"):
        packet.write(
            book.record(),
            catalogue,
            path,
            packet.PacketOptions("buyer", units="barleycorns"),
            today=TODAY,
        )
    assert not path.exists()


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("audience", AUDIENCES)
def test_another_program_finds_nothing_wrong_with_it(packets, audience, language):
    assert complaints(packets(audience, language=language)) == []
