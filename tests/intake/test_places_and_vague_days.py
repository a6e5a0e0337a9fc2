"""A reading keeps its place in the report; a day known to its month or year stays one."""

import csv
import io
import json
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from wellbook import intake
from wellbook.book import Book
from wellbook.export.open_tables import export
from wellbook.intake import Place
from wellbook.intake.said import short_where, where_words
from wellbook.sharing.record_json import extract
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.partial_date import PartialDate
from wellbook.water.verdicts.hold_time import age_at_test, may_be_late
from wellbook.wording import dates

OWN = "When,Chloride mg/L,Iron mg/L\nJune 2019,21,0.3\n2021,22,0.2\n2022-05-03,23,0.1\n"
LETTERS = some.text("abc 2;:,.", min_size=1, max_size=8).map(str.strip).filter(bool)


@given(
    some.integers(0, 99), some.integers(0, 999), some.integers(0, 99), LETTERS,
    some.none() | some.tuples(*[some.integers(-20, 6000).map(lambda n: n / 10)] * 4),
)  # fmt: skip
@settings(max_examples=60)
def test_a_place_is_read_back_from_what_the_record_keeps(page, row, column, sheet, box):
    place = Place(sheet, row, column, page, box)
    assert Place.parse(str(place)) == place


@pytest.mark.parametrize("text", ["", "page x", "line 99999999999999999999", "box 1 2 3"])
def test_a_text_that_is_no_place_means_none(text):
    assert Place.parse(text) is None


@pytest.fixture
def kept(tmp_path, draft_of):
    """The record after a file was kept."""

    def keep(content, name):
        book = Book.create(tmp_path / f"{name}.wellbook")
        intake.store(draft_of(content, name), book)
        return book

    return keep


def test_a_cell_is_told_in_the_record_the_tables_and_the_book(kept, catalogue, tmp_path):
    with kept("Date,Parameter,Result,Units\n2024-05-03,Lead,3,ug/L\n", "r.csv") as book:
        record = book.record()
        (result,) = record.results()
        assert (result.place, result.report) == ("row 2; column 3", "")
        facts = json.loads(extract(record, with_personal=False, named={}, with_journal=False,
                                   told={}))  # fmt: skip
        assert facts["samples"][0]["results"][0]["place"] == "row 2; column 3"
        export(record, catalogue, tmp_path / "tables")
    text = next(tmp_path.glob("tables/**/results.csv")).read_text(encoding="utf-8-sig")
    (row,) = csv.DictReader(io.StringIO(text))
    assert row["place"] == "row 2; column 3"
    assert where_words(Place.parse(result.place)) == "C2"


def test_a_line_of_a_page_is_told_by_page_and_line():
    place = Place(row=7, page=2, box=(60.0, 412.5, 300.0, 424.0))
    assert str(place) == "page 2; line 7; box 60 412.5 300 424"
    assert where_words(place) == "page 2, line 7"
    assert short_where(str(place)) == "p. 2, l. 7"


def test_months_and_years_of_an_own_sheet_are_kept_as_such(kept, catalogue, tmp_path):
    with kept(OWN, "own.csv") as book:
        assert [sample.collected.iso() for sample in book.samples()] == [
            "2019-06", "2021", "2022-05-03",
        ]  # fmt: skip
        vague = book.samples()[1].collected
        assert (str(vague.day), vague.day, dates.day(vague.day)) == ("2021", date(2021, 1, 1),
                                                                     "2021")  # fmt: skip
        assert dates.written(book.samples()[0].collected.day) == "June 2019"
        assert not any(sample.note for sample in book.samples())
        export(book.record(), catalogue, tmp_path / "tables")
    text = next(tmp_path.glob("tables/**/samples.csv")).read_text(encoding="utf-8-sig")
    days = [row["collected"] for row in csv.DictReader(io.StringIO(text))]
    assert days == ["2019-06", "2021", "2022-05-03"]


def test_a_day_becomes_exact_or_vague_by_a_correction_and_the_journal_holds(kept):
    with kept(OWN, "own.csv") as book:
        sample = book.samples()[1]
        book.correct_sample(sample.id, "found the slip", collected=LocalTime(date(2021, 1, 1)))
        assert book.sample(sample.id).collected == LocalTime(date(2021, 1, 1))
        book.undo()
        assert book.sample(sample.id).collected == LocalTime.within(PartialDate(2021))
        assert book.doubts() == ()


def test_a_vague_day_is_another_than_its_first_day_and_counts_from_it():
    vague, exact = LocalTime.within(PartialDate(2021)), LocalTime(date(2021, 1, 1))
    assert vague != exact
    assert vague.order() == exact.order()
    later = vague.day + timedelta(days=40)
    assert (str(later), later) == ("2021-02-10", date(2021, 2, 10))
    assert LocalTime.parse(vague.iso()) == vague


def test_nobody_says_how_old_a_sample_was_whose_day_is_not_known(kept):
    text = ("When,Date received,Parameter,Result\n"
            "June 2019,2019-06-20,E. coli,absent\n")  # fmt: skip
    with kept(text, "own.csv") as book:
        (result,) = book.record().results()
        assert result.received is not None
        assert not may_be_late(result)
        assert age_at_test(result) == timedelta()
