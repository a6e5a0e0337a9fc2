"""Which test of a book is that of a packet, and in what the two differ; no packet is written."""

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.packet.receive.same_test import Known, named
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(paths.resources())


def drawn(at="2024-05-03T07:15", number="", point=1, draw="", lab="", **texts):
    """A test with readings in mg/L, or in the unit behind a blank."""
    results = tuple(
        NewResult(key, key, read_reading(text, unit=unit or "mg/L"))
        for key, (text, _blank, unit) in ((key, said.partition(" ")) for key, said in texts.items())
    )
    return NewSample(
        point, LocalTime.parse(at), lab=lab, lab_number=number, draw=draw, results=results
    )


@pytest.fixture
def known(tmp_path):
    """The tests of a book that holds some, with their numbers from 1."""

    def holding(*tests):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            well = book.add_well("Home")
            book.add_point(well, "Tank")
            book.add_point(well, "Tap")
            book.add_samples(tests)
            return Known(book.samples(with_struck=True), book.results(), CATALOGUE)

    return holding


def matched(known, *tests):
    return [sample and sample.id for sample in known.match(tests)]


@pytest.mark.parametrize(
    ("here", "there", "is_same"),
    [
        (drawn(number="A-7"), drawn(number="A-7", iron="9"), True),
        (drawn(number="A-7"), drawn("2024-06-01", "A-7"), True),  # its time was corrected
        (drawn(number="A-7"), drawn(number="A-8"), False),
        (drawn(number="A-7"), drawn(), True),
        (drawn(), drawn(number="A-7"), True),
        (drawn(number="A-7"), drawn(number="A-7", point=2), False),
        (drawn(draw="first draw"), drawn(draw="flushed"), False),
        (drawn(draw="first draw", number="A"), drawn(draw="flushed", number="A"), True),
        (drawn(draw="first draw", number="A"), drawn(draw="flushed"), False),
        # Another hour of that day is another test unless all of its readings are the same.
        (drawn(iron="0.3"), drawn("2024-05-03T09:00", iron="0.3"), True),
        (drawn(iron="0.3"), drawn("2024-05-03", iron="300 µg/L"), True),
        (drawn(iron="0.3"), drawn("2024-05-04T07:15", iron="0.3"), False),
        (drawn(iron="0.3"), drawn("2024-05-03T09:00", iron="0.4"), False),
        (drawn(iron="0.3"), drawn("2024-05-03T09:00", iron="0.3", lead="1"), False),
        (drawn(iron="0.3", lead="1"), drawn("2024-05-03T09:00", iron="0.3"), False),
        (drawn(), drawn("2024-05-03T09:00"), False),
    ],
)
def test_the_same_point_and_time_or_number_is_the_same_test(known, here, there, is_same):
    assert matched(known(here), there) == [1 if is_same else None]


def test_each_test_of_the_book_is_found_once_the_surest_pair_first(known):
    twice = drawn(iron="0.3")
    assert matched(known(twice), twice, twice) == [1, None]
    # The second bears the number, the first only the time.
    assert matched(known(drawn(number="A-7")), drawn(), drawn(number="A-7")) == [None, 1]


def test_of_several_that_may_be_it_the_most_alike_is_taken(known):
    held = known(drawn(iron="0.1"), drawn(iron="0.3"), drawn(iron="0.2"))
    assert matched(held, drawn(iron="0.3")) == [2]


def changes(known, there):
    (sample,) = known.match([there])
    found = known.changes(sample, there)
    return [(one.what, one.here, one.there, one.result, one.field) for one in found]


def test_what_only_the_book_says_is_kept_and_all_else_is_told(known):
    here = drawn(number="A-7", draw="flushed", lab="Brook Lab", iron="0.3", lead="1")
    held = known(here)
    there = drawn("2024-06-01", "A-7", lab="Hollin", iron="0.4", zinc="2")
    assert changes(held, there) == [
        ("drawn on", "3 May 2024, 07:15", "1 Jun 2024", 0, "collected"),
        ("lab", "Brook Lab", "Hollin", 0, "lab"),
        ("iron", "0.3 mg/L", "0.4 mg/L", 1, ""),
        ("zinc", "nothing", "2 mg/L", 0, ""),
    ]


def test_a_corrected_way_of_drawing_is_told_of_the_test_and_of_each_reading(known):
    held = known(drawn(number="A-7", draw="first draw", lead="1"))
    assert changes(held, drawn(number="A-7", draw="flushed", lead="1")) == [
        ("way of drawing", "first draw", "flushed", 0, "draw"),
        ("lead", "1 mg/L, first draw", "1 mg/L, flushed", 1, ""),
    ]


def test_a_packet_that_does_not_say_how_it_was_drawn_changes_nothing_of_that(known):
    held = known(drawn(number="A-7", draw="first draw", lead="1"))
    assert changes(held, drawn(number="A-7", lead="1")) == []


def test_two_readings_of_one_parameter_are_each_held_against_the_one_like_it(known):
    twice = NewSample(
        1,
        LocalTime.parse("2024-05-03"),
        results=tuple(
            NewResult("iron", "iron", read_reading(text, unit="mg/L")) for text in ("0.3", "0.4")
        ),
    )
    held = known(twice)
    assert changes(held, NewSample(1, twice.collected, results=twice.results[::-1])) == []


def test_the_same_value_in_another_unit_and_a_sign_that_differs(known):
    held = known(drawn(number="A", iron="0.3", lead="<1", zinc="2"))
    there = drawn(number="A", iron="300 µg/L", lead="1", zinc="2 µg/L")
    assert [row[:3] for row in changes(held, there)] == [
        ("lead", "<1 mg/L", "1 mg/L"),
        ("zinc", "2 mg/L", "2 µg/L"),
    ]


def test_a_first_draw_is_not_held_against_a_flushed_reading_of_the_same(known):
    lead = read_reading("1", unit="µg/L")
    one = NewSample(
        1,
        LocalTime.parse("2024-05-03"),
        results=(NewResult("lead", "Lead", lead, draw="first draw"),),
    )
    other = NewSample(1, one.collected, results=(NewResult("lead", "Lead", lead, draw="flushed"),))
    assert [row[1:4] for row in changes(known(one), other)] == [("nothing", "1 µg/L", 0)]


def test_a_test_is_called_by_its_day_its_point_and_the_number_of_the_lab(known):
    held = known(drawn("2024-05-03", "A-7"), drawn("2024-05-04"))
    first, second = held.match([drawn("2024-05-03", "A-7"), drawn("2024-05-04")])
    assert named(first, {1: "Tank"}) == "Test of 3 May 2024, Tank, lab’s number A-7"
    assert named(second, {1: "Tank"}) == "Test of 4 May 2024, Tank"
