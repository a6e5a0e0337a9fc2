"""Drafts into a book: all of it or nothing."""

from datetime import date

import pytest
from drafts import TODAY

from wellbook import intake
from wellbook.book import Book
from wellbook.support.errors import Fault

HEAD = "Sample ID,Collected,Location,Analyte,Result,Units\n"
SPRING = HEAD + "A-1,2024-05-13,,Iron,0.2,mg/L\nA-1,2024-05-13,,Lead,<1,ug/L\n"
AUTUMN = HEAD + "B-1,2024-10-02,,Iron,0.3,mg/L\n"


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as book:
        yield book


@pytest.fixture
def two_points(book):
    """A book with two points on one well."""
    well = book.add_well("Old well")
    return {
        "Well head": book.add_point(well, "Well head"),
        "Kitchen tap": book.add_point(well, "Kitchen tap", treated=True, place=2),
    }


def test_an_empty_book_gets_a_plain_well_and_point(book, draft_of):
    stored = intake.store(draft_of(SPRING), book)
    assert stored.places == stored.made == (("My well", "Kitchen tap"),)
    (sample,) = book.samples()
    assert stored.ids == (sample.id,)
    assert len(book.results(sample=sample.id)) == 2
    assert not book.points()[0].treated


def test_an_empty_book_gets_the_well_and_point_that_are_named(book, draft_of):
    stored = intake.store(draft_of(SPRING), book, well="North well", point="Pressure tank")
    assert stored.made == (("North well", "Pressure tank"),)


def test_an_empty_book_gets_the_points_that_the_file_names(book, draft_of):
    draft = draft_of(
        HEAD + "1,2024-05-13,Well head,Iron,1,mg/L\n2,2024-05-13,Kitchen tap,Iron,0.1,mg/L\n"
        "3,2024-05-14,WELL HEAD,Iron,1,mg/L\n"
    )
    stored = intake.store(draft, book)
    assert stored.made == (("My well", "Well head"), ("My well", "Kitchen tap"))
    assert [len(book.samples(point.id)) for point in book.points()] == [2, 1]


def test_a_well_that_has_no_point_yet_gets_one(book, draft_of):
    book.add_well("Old well")
    assert intake.store(draft_of(SPRING), book).made == (("Old well", "Kitchen tap"),)
    assert len(book.wells()) == 1


def test_the_file_is_kept_once_beside_each_of_its_tests(book, draft_of):
    draft = draft_of(SPRING + "A-2,2024-05-14,,Iron,0.1,mg/L\n")
    ids = intake.store(draft, book).ids
    documents = [book.documents(sample=number) for number in ids]
    assert [len(found) for found in documents] == [1, 1]
    assert documents[0][0].sha256 == documents[1][0].sha256
    assert documents[0][0].id == documents[1][0].id


def test_a_printed_name_finds_its_point(book, two_points, draft_of):
    draft = draft_of(HEAD + "1,2024-05-13,well  HEAD,Iron,1,mg/L\n")
    intake.store(draft, book)
    assert len(book.samples(two_points["Well head"])) == 1


def test_a_point_that_is_named_is_taken(book, two_points, draft_of):
    intake.store(draft_of(SPRING), book, point="kitchen tap")
    assert len(book.samples(two_points["Kitchen tap"])) == 1


def test_the_only_point_takes_what_names_no_point(book, draft_of):
    intake.store(draft_of(SPRING), book)
    stored = intake.store(draft_of(AUTUMN, "autumn.csv"), book)
    assert (stored.places, stored.made) == ((("My well", "Kitchen tap"),), ())


@pytest.mark.parametrize(
    ("text", "how", "words"),
    [
        (SPRING, {}, "names no sampling point. Name one of “Well head”, “Kitchen tap”"),
        (SPRING, {"point": "Barn"}, "no point “Barn” in the book"),
        (SPRING, {"well": "New well"}, "no well “New well” in the book. It has “Old well”"),
        (
            HEAD + "1,2024-05-13,Well head,Iron,1,mg/L\n1,2024-05-13,Kitchen tap,Iron,1,mg/L\n",
            {"point": "Well head"},
            r"tests of several places \(Kitchen tap, Well head\)",
        ),
        (HEAD + "1,2024-05-13,Barn,Iron,1,mg/L\n", {}, "no point “Barn” in the book"),
    ],
)
def test_a_place_that_is_not_clear_is_refused_with_those_there_are(
    book, two_points, draft_of, text, how, words
):
    before = book.digest()
    with pytest.raises(Fault, match=words):
        intake.store(draft_of(text), book, **how)
    assert two_points
    assert book.digest() == before


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("A,2024-05-13,,Nitrate-N,3,furlongs\n", "row 2: The unit “furlongs” of Nitrate-N"),
        (
            "A,2094-05-13,,Nitrate-N,3,mg/L\n",
            "row 2: The sampling date 2094-05-13 is in the future",
        ),
        ("A,,,Nitrate-N,3,mg/L\n", "row 2: The file does not say on which day"),
    ],
)
def test_what_stops_a_file_leaves_the_book_as_it_was(book, lab_file, catalogue, text, words):
    before = book.path.read_bytes()
    draft = intake.read(lab_file(HEAD + text), catalogue, today=TODAY)
    with pytest.raises(Fault, match=words) as fault:
        intake.store(draft, book)
    assert "\n" not in str(fault.value)
    assert book.path.read_bytes() == before


def test_an_unknown_unit_of_an_unknown_parameter_is_kept_as_printed(book, draft_of):
    intake.store(draft_of(HEAD + "A,2024-05-13,,Frobnium,3,zorps\n"), book)
    (result,) = book.results()
    assert (result.parameter, result.name, result.reading.unit) == ("", "Frobnium", "zorps")


def test_the_same_file_twice_is_refused(book, draft_of):
    intake.store(draft_of(SPRING), book)
    before = book.digest()
    with pytest.raises(Fault, match="already in the book, with the test of 2024-05-13"):
        intake.store(draft_of(SPRING, "copy.csv"), book)
    assert book.digest() == before


def test_the_same_tests_in_another_file_are_refused(book, draft_of):
    intake.store(draft_of(SPRING), book)
    with pytest.raises(Fault, match="is already in the book, with all its tests"):
        intake.store(draft_of(SPRING + "\n", "copy.csv"), book)


def test_of_a_growing_list_only_the_new_tests_are_taken(book, draft_of):
    intake.store(draft_of(SPRING), book)
    stored = intake.store(draft_of(SPRING + AUTUMN.removeprefix(HEAD), "all.csv"), book)
    assert (len(stored.ids), stored.skipped) == (1, 1)
    assert [s.collected.day for s in book.samples()] == [date(2024, 5, 13), date(2024, 10, 2)]


def test_an_amended_report_is_asked_about(book, draft_of):
    intake.store(draft_of(SPRING), book)
    amended = SPRING.replace("0.2", "2.0")
    with pytest.raises(Fault, match=r"number A-1 of 2024-05-13 is already .* other values"):
        intake.store(draft_of(amended, "amended.csv"), book)


def test_an_amended_report_goes_in_once_the_first_is_struck_out(book, draft_of):
    (first,) = intake.store(draft_of(SPRING), book).ids
    book.strike_sample(first, "amended by the lab")
    intake.store(draft_of(SPRING.replace("0.2", "2.0"), "amended.csv"), book)
    assert len(book.samples()) == 1
    assert len(book.samples(with_struck=True)) == 2


def test_a_person_may_say_that_it_goes_in_again(book, draft_of):
    intake.store(draft_of(SPRING), book)
    assert len(intake.store(draft_of(SPRING), book, again=True).ids) == 1
    assert len(book.samples()) == 2


def test_two_tests_on_one_day_without_a_time_are_two_tests(book, draft_of):
    table = "Collected,Analyte,Result,Units\n2024-05-13,Iron,{},mg/L\n"
    intake.store(draft_of(table.format("0.1"), "one.csv"), book)
    intake.store(draft_of(table.format("0.2"), "two.csv"), book)
    assert len(book.samples()) == 2
