"""A packet in words: whether it can be relied on, what is in it, what it would add to a book."""

from dataclasses import replace
from datetime import date

import pytest

from wellbook.packet.receive.inspection import Inspection
from wellbook.packet.receive.merge import Merged
from wellbook.packet.receive.same_test import Answer, Change, Difference
from wellbook.packet.receive.verify import Check, Outcome
from wellbook.water.values.judgement import Verdict
from wellbook.window.packet import inspection_jobs as said

PLAIN = Inspection(
    None, (Check(Outcome.AGREES, "it"), Check(Outcome.OPEN, "that")), wells=1, points=2, tests=12,
    struck=0, days=(date(2020, 1, 2), date(2026, 5, 4)),
)  # fmt: skip
DIFFERS = Difference(
    1, "test of 4 May 2026, Tap", 7,
    (Change("Nitrate", "9.2 mg/L", "2.9 mg/L"), Change("lab", "Larkspur", "Fenmoor")),
)  # fmt: skip


def with_check(outcome):
    return replace(PLAIN, checks=(*PLAIN.checks, Check(outcome, "more")))


def test_a_packet_that_fails_a_check_is_never_said_to_agree_or_to_hold():
    fails = with_check(Outcome.FAILS)
    both = replace(fails, checks=(*fails.checks, Check(Outcome.HOLDS, "the code")))
    for one in (fails, both):
        assert said.verdict_words(one) == (
            "This packet does not stand a check. Don’t rely on it: ask for it again."
        )


def test_a_packet_holds_only_beside_a_code_that_was_told():
    assert said.verdict_words(PLAIN) == (
        "This packet agrees with itself. That does not show who made it: compare its check code."
    )
    assert said.verdict_words(with_check(Outcome.HOLDS)) == (
        "This is, byte for byte, the file whose code you were told."
    )


def test_what_is_in_a_packet_is_counted_with_its_days():
    assert said.content_words(PLAIN) == (
        "In it are wells: 1, sampling points: 2, tests: 12. "
        "The tests are from 2 Jan 2020 to 4 May 2026."
    )
    more = replace(PLAIN, tests=0, days=None, struck=1200)
    assert said.content_words(more) == (
        "In it are wells: 1, sampling points: 2, tests: 0. Tests that were struck out: 1,200."
    )


def test_a_book_that_has_all_of_a_packet_is_told_so():
    nothing = Merged(known=12)
    assert said.new_words(nothing) == ("Nothing in it is new: this book has all of it already.")
    assert said.added_words(nothing, "a.pdf") == ("Nothing in a.pdf was new: nothing was added.")


def test_what_is_new_is_counted_and_what_there_is_none_of_left_out():
    some = Merged(tests=2, known=12)
    assert said.new_words(some) == ("New for this book: tests: 2. Tests that it has already: 12.")
    assert said.added_words(some, "a.pdf") == "Added from a.pdf: tests: 2."
    every = Merged(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, (DIFFERS,))
    assert said.merged_words(every) == (
        "tests: 3, wells: 1, sampling points: 2, events: 4, treatment units: 5, labs: 6, "
        "services: 7, costs: 8, originals: 10, tests that differ: 1"
    )


def test_a_test_that_differs_says_in_what_by_book_and_packet():
    assert said.difference_words(DIFFERS) == (
        "test of 4 May 2026, Tap\n"
        "Nitrate: 9.2 mg/L in this book, 2.9 mg/L in the packet\n"
        "lab: Larkspur in this book, Fenmoor in the packet"
    )


def test_nothing_is_chosen_for_a_person_who_has_not_answered():
    assert said.answer_words() == (
        ("Choose what is to become of it…", None),
        ("Take what the packet says", Answer.TAKE),
        ("Keep what this book says", Answer.KEEP),
        ("Have both, as two tests", Answer.BOTH),
    )


@pytest.mark.parametrize(
    ("outcome", "mark"),
    [
        (Outcome.HOLDS, Verdict.WITHIN),
        (Outcome.AGREES, Verdict.UNDETECTED),
        (Outcome.FAILS, Verdict.OUTSIDE),
        (Outcome.OPEN, Verdict.UNDECIDABLE),
    ],
)
def test_each_outcome_has_a_mark_of_its_own(outcome, mark):
    assert said.MARKS[outcome] is mark
