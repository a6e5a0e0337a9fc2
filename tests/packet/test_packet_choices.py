"""A packet of a part of the record: it says so, and the rest is nowhere in it."""

import re
from datetime import date

import household
import pytest
from pypdf import PdfReader

from wellbook.packet import packet
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.sharing.excerpt import Scope, excerpt, left_out
from wellbook.support.errors import Fault


def squeezed(text):
    return re.sub(r"\s+", " ", text)


def attached(path):
    return b"\n".join(one.content for one in PdfReader(path).attachment_list)


@pytest.fixture(scope="module")
def part(packets):
    return packets(
        scope=Scope(parameters=("nitrate", "Coliform, total"), since=date(2005, 1, 1)),
        closing=date(2019, 7, 31),
    )


def test_a_packet_of_a_part_says_on_its_first_page_how_much_is_left_out_and_why(part, text_of):
    # Of the four tests that count two hold nitrate or coliform and were drawn since 2005; they
    # have three such readings of the fifteen.
    cover = squeezed(text_of(part, rows=True, last=1))
    assert "it leaves out 2 of 4 tests and 12 of 15 readings" in cover
    assert "of the parameters only Nitrate and Total coliform" in cover
    assert "no test drawn before 1 Jan 2005" in cover
    assert "every test in the book that counts" not in cover


def test_what_is_left_out_is_nowhere_in_the_file(part, text_of):
    whole = text_of(part).encode() + attached(part)
    assert b"Nitrate-N" in whole
    for word in (b"Unobtainium", b"31.9", b"0.24", b"Digits were swapped", b"14.2"):
        assert word not in whole


def test_what_is_left_out_is_not_called_never_tested(part, text_of):
    text = squeezed(text_of(part))
    gaps = text[text.rindex("What was never tested") :].split("Corrections and struck")[0]
    assert "Arsenic" not in gaps
    assert "Radon-222" in gaps


def test_a_packet_of_a_part_passes_its_own_checks(part):
    assert Outcome.FAILS not in {one.outcome for one in verify(part)}


def test_the_age_of_each_group_is_told_on_the_closing_day(part, text_of):
    # From 2 May to 31 July 2019 are 29 + 30 + 31 = 90 days.
    text = squeezed(text_of(part, rows=True))
    ages = text[text.rindex("How old the tests are") :]
    assert "Ages on 31 Jul 2019, the closing day" in ages
    assert re.search(r"Nitrate 2 May 2019 90 days owner", ages)
    assert "not in this packet" in text


def test_a_lender_s_rule_is_information_with_source_and_the_day_it_was_read(packets, text_of):
    text = squeezed(text_of(packets()))
    assert "Information, not a promise" in text
    assert "HUD answer KA-03963" in text
    assert "Read 25 Nov 2026" in text


def test_a_buyer_where_the_state_asks_for_no_test_is_told_so(tmp_path, made_once, text_of):
    # 68 Pa.C.S. 7301 to 7314; that the state asks for no test: common practice, no source.
    with household.with_one_test(tmp_path / "sold.wellbook") as book:
        book.set_settings({"country": "US", "subdivision": "PA"})
        text = squeezed(text_of(made_once("sold", book.record, "buyer", {})))
    told = text[text.index("Sale of a house in Pennsylvania") :]
    assert "It names no test." in told[:600]
    assert "the state asks for no test of a private well" in told[:600]
    assert "Sale of a house in Oregon" not in text


def test_a_part_can_be_one_well_one_point_and_a_period(tmp_path, catalogue):
    with household.new_book(tmp_path / "two.wellbook") as book:
        old = book.add_well("Old")
        new = book.add_well("New", replaces=old)
        for well, name in ((old, "Pump"), (new, "Tank"), (new, "Tap")):
            point = book.add_point(well, name)
            for day in ("2020-01-01", "2024-01-01"):
                reading = household.result("nitrate", "Nitrate", "1", "mg/L", basis="as N")
                book.add_sample(household.sample(point, day, reading))
        scope = Scope(points=("Tank",), until=date(2021, 1, 1))
        seen = excerpt(book.record(), scope, catalogue)
        assert [(one.name, one.replaces) for one in seen.wells] == [("New", None)]
        assert [one.collected.iso() for one in seen.samples()] == ["2020-01-01"]
        left = left_out(book.record(), seen, scope, catalogue)
        assert (left.tests, left.of_tests, left.readings) == (5, 6, 5)
        assert [
            one.name for one in excerpt(book.record(), Scope(wells=("Old",)), catalogue).points
        ] == ["Pump"]


def test_a_document_that_shows_more_than_was_chosen_stays_at_home(book, catalogue):
    assert len(excerpt(book.record(), Scope(points=("Pressure tank",)), catalogue).documents) == 1
    assert excerpt(book.record(), Scope(parameters=("nitrate",)), catalogue).documents == ()


def test_other_limit_sets_can_be_chosen(packets, text_of):
    text = squeezed(text_of(packets(scope=Scope(sets=("who-gdwq",))), rows=True))
    assert "Compared with WHO guidelines for drinking-water quality State of" in text
    assert "every test in the book that counts" in text


@pytest.mark.parametrize(
    ("scope", "said"),
    [
        (Scope(parameters=("phlogiston",)), "knows no parameter phlogiston"),
        (Scope(points=("Attic",)), "no sampling point Attic; there is: Pressure tank"),
        (Scope(wells=("Other",)), "no well Other; there is: Tamarack Hill"),
        (Scope(sets=("mars",)), "no limit set mars"),
    ],
)
def test_a_choice_of_what_is_not_there_is_one_clear_sentence(
    book, catalogue, tmp_path, scope, said
):
    with pytest.raises(Fault, match=said):
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("buyer", scope=scope),
            today=date(2026, 1, 1),
        )


def test_private_words_are_covered_even_if_their_sample_is_left_out(tmp_path, catalogue, text_of):
    with household.new_book(tmp_path / "b.wellbook") as book:
        point = book.add_point(book.add_well("W"), "P")
        reading = household.result("nitrate", "Nitrate", "1", "mg/L", basis="as N")
        book.add_sample(household.sample(point, "2010-01-01", reading, sampler="Vexley"))
        book.add_sample(household.sample(point, "2020-01-01", reading, note="As Vexley did it."))
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("buyer", scope=Scope(since=date(2015, 1, 1))),
            today=date(2026, 1, 1),
        )
    assert b"Vexley" not in attached(tmp_path / "p.pdf")
    assert "As [covered: personal] did it" in text_of(tmp_path / "p.pdf")
