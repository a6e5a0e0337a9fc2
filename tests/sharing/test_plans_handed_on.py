"""What was put off because of an event stays with the household that did it."""

import json
from datetime import date

import pytest

from wellbook.book import Book
from wellbook.planning.overview import due
from wellbook.planning.postponing import find_due, postponed
from wellbook.sharing.record_json import extract
from wellbook.sharing.tables import tables
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 3)


def put_off(book, point, one, **how):
    book.set_plans(postponed(book.record(), CATALOGUE, TODAY, point, one, **how))


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Thistle Lane"), "Tap")
        made.set_plan(1, "bacteria", 12, reason="as the county advises")
        made.add_event(1, "pregnancy", "2026-06-01", private=True)
        (_, _, panels) = due(made.record(), CATALOGUE, TODAY)[0]
        name = next(one.panel.name for one in panels if one.private)
        point, one = find_due(made.record(), CATALOGUE, TODAY, name)
        why = "after the visit at the midwife"
        put_off(made, point, one, until=date(2026, 9, 1), why=why)
        yield made


def test_the_record_hands_on_plans_and_not_what_was_put_off_for_people(book):
    for with_personal in (False, True):
        text = extract(
            book.record(), with_personal=with_personal, named={}, told={}, with_journal=False
        ).decode()
        assert [plan["panel"] for plan in json.loads(text)["plans"]] == ["bacteria"]
        assert "midwife" not in text


@pytest.mark.parametrize("with_personal", [False, True])
def test_tables_tell_of_it_only_with_personal_facts(book, with_personal):
    made = tables(book.record(), CATALOGUE, with_personal=with_personal, named={})
    (plans,) = (table for table in made if table.file == "plans.csv")
    assert ("midwife" in str(plans.rows)) is with_personal


def test_what_asks_for_more_tests_goes_to_the_next_owner_and_who_drinks_does_not(book):
    """Karst asks for bacteria four times a year whoever lives there: common practice, no source."""
    book.set_settings({"well_kind": "dug", "ground": "karst", "people": "infant"})
    text = extract(book.record(), with_personal=False, named={}, told={}, with_journal=False)
    assert json.loads(text)["settings"] == {"well_kind": "dug", "ground": "karst"}
