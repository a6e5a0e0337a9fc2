"""A packet of little or nothing: it verifies, and says first what is not known."""

import commands
import household
import pytest
from packet_fixtures import TODAY
from reading import text_of

from wellbook.book.writer import FIRST_DIGEST
from wellbook.packet.receive.verify import Outcome, _chain, _head


def command(*told, code=0):
    done = commands.run(*told)
    assert (done.returncode, done.stderr if code == 0 else "") == (code, "")
    return done.stdout + done.stderr


@pytest.fixture
def empty(tmp_path):
    command("new", tmp_path / "e.wellbook")
    return tmp_path / "e.wellbook"


def made(book, audience="buyer", *more):
    path = book.with_suffix(".pdf")
    command("packet", book, "--for", audience, "--on", TODAY, "-o", path, *more)
    return path


@pytest.mark.parametrize("more", [(), ("--personal",), ("--language", "es")], ids=str)
@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_the_packet_of_an_empty_book_verifies_and_is_received(empty, tmp_path, audience, more):
    packet = made(empty, audience, *more)
    said = command("verify", packet)
    assert "fails" not in said
    assert "changed" not in said
    command("receive", packet, tmp_path / "next.wellbook")
    assert "is whole" in command("check", tmp_path / "next.wellbook")
    command("new", tmp_path / "mine.wellbook")
    command("receive", packet, tmp_path / "mine.wellbook", "--accept")
    assert "is whole" in command("check", tmp_path / "mine.wellbook")


def test_an_empty_head_excuses_no_other_record():
    """Whoever writes the first digest into the record of a full book is found out."""
    packet = type("Packet", (), {"text": f"digest {FIRST_DIGEST}"})()
    told = {"head": FIRST_DIGEST, "journal": [], "wells": [{"name": "Hill"}]}
    assert _head(packet, told).outcome is Outcome.AGREES
    assert _chain(told).outcome is Outcome.FAILS
    packet.text = "digest 5f3c"
    assert _head(packet, told).outcome is Outcome.FAILS


def test_the_packet_of_an_empty_book_is_no_all_clear(empty):
    pages = " ".join(text_of(made(empty)).split()).split("What needs attention", 2)
    assert "Nothing was entered yet." in pages[0]
    assert "Never tested: Total coliform, E. coli, Nitrate, Lead, Arsenic" in pages[0]
    after = pages[2]
    assert after.startswith(" There is no test that could show anything. Never tested: Total")
    never = after.split("What was never tested")[-1]  # behind the contents of the record
    for name in ("E. coli", "Lead", "Uranium", "Radon"):
        assert name in never


def test_a_few_old_tests_are_no_all_clear_either(tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        point = book.add_point(book.add_well("Hill"), "Tap")
        for day in ("2019-03-02", "2020-06-05", "2022-01-20"):
            nitrate = household.result("nitrate", "Nitrate", "2.1", "mg/L", basis="as N")
            book.add_sample(household.sample(point, day, nitrate))
        pending = household.result("lead", "Lead", "pending", "µg/L")
        book.add_sample(household.sample(point, "2026-05-04", pending))
    first = " ".join(text_of(made(tmp_path / "b.wellbook"), last=1).split())
    assert "Never tested: Total coliform, E. coli, Lead, Arsenic" in first
    assert "The newest test was drawn on 20 Jan 2022: it is 4 years and 10 months old." in first


def test_two_wells_are_told_apart_in_what_was_never_tested(tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        point = book.add_point(book.add_well("Hill"), "Tap")
        book.add_point(book.add_well("Valley"), "Pump")
        lead = household.result("lead", "Lead", "1", "µg/L")
        book.add_sample(household.sample(point, "2026-11-24", lead))
    first = " ".join(text_of(made(tmp_path / "b.wellbook"), last=1).split())
    assert "Never tested at Hill: Total coliform, E. coli, Nitrate, Arsenic" in first
    assert "Never tested at Valley: Total coliform, E. coli, Nitrate, Lead, Arsenic" in first
    assert "24 Nov 2026: it is 1 day old." in first


def test_a_sample_that_the_lab_has_not_reported_is_no_test(tmp_path):
    book = tmp_path / "home.wellbook"
    command("new", book)
    command("enter", book, "well", "--name", "Home")
    command("enter", book, "point", "--name", "Tank")
    command("enter", book, "drawn", "--on", "2026-06-09", "--at", "16:30")
    assert "There is no test that could show anything." in " ".join(text_of(made(book)).split())
