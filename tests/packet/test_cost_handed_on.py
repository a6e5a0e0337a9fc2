"""What a test cost is a private fact of the household: handed on only if that is ticked."""

import csv
import io
import json

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.book import Book
from wellbook.packet.gather import gather
from wellbook.packet.receive import merge
from wellbook.packet.receive.receive import receive


def attached(path, name):
    return next(one.content for one in PdfReader(path).attachment_list if one.name == name)


def costs_in(path):
    with Book.open(path, readonly=True) as book:
        return [(sample.cost, sample.currency) for sample in book.samples()]


def test_without_private_facts_the_tables_have_no_column_for_it_and_the_record_holds_none(packets):
    path = packets()
    head = next(csv.reader(io.StringIO(attached(path, "samples.csv").decode("utf-8-sig"))))
    assert {"cost", "currency", "sampler"}.isdisjoint(head)
    assert b",cost," not in attached(path, "dictionary.csv")
    record = json.loads(attached(path, "record.json"))
    assert {sample["cost"] + sample["currency"] for sample in record["samples"]} == {""}


def test_with_private_facts_it_goes_from_book_to_packet_to_book(packets, tmp_path):
    path = packets(with_personal=True)
    rows = csv.DictReader(io.StringIO(attached(path, "samples.csv").decode("utf-8-sig")))
    assert [(row["cost"], row["currency"]) for row in rows][:2] == [("417.35", "USD"), ("", "")]
    receive(path, tmp_path / "new.wellbook")
    assert costs_in(tmp_path / "new.wellbook")[:2] == [("417.35", "USD"), ("", "")]
    Book.create(tmp_path / "other.wellbook").close()
    merge.merge(path, tmp_path / "other.wellbook")
    assert costs_in(tmp_path / "other.wellbook")[:2] == [("417.35", "USD"), ("", "")]


@pytest.mark.parametrize(
    ("with_personal", "told"),
    [(True, [("cost: 417.35; currency: USD", "cost: 71.00; currency: CAD")]), (False, [])],
)
def test_a_corrected_cost_is_told_to_those_who_may_see_it(tmp_path, catalogue, with_personal, told):
    with household.furnished(tmp_path / "own.wellbook") as book:
        book.correct_sample(1, "The bill came", cost="71.00", currency="CAD")
        found = gather(book.record(), catalogue, TODAY, with_personal=with_personal).corrections
        assert [(one.before, one.after) for one in found if one.reason == "The bill came"] == told
        book.undo()
        assert book.sample(1).cost == "417.35"


def test_a_corrected_point_and_lab_are_told_by_their_names(tmp_path, catalogue):
    with household.furnished(tmp_path / "own.wellbook") as book:
        tap = next(point.id for point in book.points() if point.name == "Kitchen tap")
        book.correct_sample(1, "Wrong tap", point=tap, lab="Tern Laboratory")
        (found,) = [
            one
            for one in gather(book.record(), catalogue, TODAY, with_personal=False).corrections
            if one.reason == "Wrong tap"
        ]
    assert found.before == "point: Pressure tank; lab: Larkspur Laboratory"
    assert found.after == "point: Kitchen tap; lab: Tern Laboratory"


def test_a_record_of_an_older_wellbook_that_knows_no_cost_is_taken_in(packets):
    from wellbook.sharing.record_fields import SAMPLES
    from wellbook.sharing.record_json import given

    sample = json.loads(attached(packets(), "record.json"))["samples"][0]
    del sample["cost"], sample["currency"]
    assert "cost" not in given(SAMPLES, sample)
    del sample["rain"]
    with pytest.raises(KeyError):
        given(SAMPLES, sample)
