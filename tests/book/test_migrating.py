"""A book of any released version opens; one that can't be brought up to date stays as it was."""

import shutil
import sqlite3
from datetime import date
from pathlib import Path

import pytest

from wellbook.book import Book, copies, opening, schema, session
from wellbook.book.check import check
from wellbook.book.rows import NewSample
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

FROZEN = sorted((Path(__file__).parent.parent / "data" / "books").glob("version-*.wellbook"))


@pytest.fixture
def next_version(monkeypatch):
    """A version after this one, with one step."""

    def use(step):
        for module in (opening, schema, session):
            monkeypatch.setattr(module, "VERSION", schema.VERSION + 1, raising=False)
        monkeypatch.setitem(schema.STEPS, schema.VERSION, step)
        opening.own_tables.cache_clear()

    yield use
    opening.own_tables.cache_clear()


@pytest.fixture
def old(tmp_path):
    path = tmp_path / "home.wellbook"
    with Book.create(path) as book:
        book.add_well("Home")
    return path


def test_there_is_a_frozen_book_of_every_released_version():
    assert [int(path.stem.split("-")[1]) for path in FROZEN] == list(schema.STEPS)


@pytest.mark.parametrize("frozen", FROZEN, ids=lambda path: path.stem)
def test_every_frozen_book_opens_is_brought_up_to_date_and_is_clean(frozen, tmp_path):
    path = tmp_path / "old.wellbook"
    shutil.copyfile(frozen, path)
    with Book.open(path) as book:
        assert [well.name for well in book.wells()] == ["Home"]
        texts = [result.reading.text for result in book.results()]
        assert texts == ["5.10", "<0.005", "absent", ">2419.6", "fizzy"]
        assert book.content(1) == b"%PDF-1.4 a lab's own report"
        assert len(book.journal()) >= 10
    assert check(path, read_catalogue(paths.resources()), date(2026, 11, 25)) == ()


def test_a_migration_keeps_a_copy_of_what_was(old, next_version):
    before = old.read_bytes()
    next_version("ALTER TABLE well ADD COLUMN colour TEXT NOT NULL DEFAULT '';")
    with Book.open(old) as book:
        assert [well.name for well in book.wells()] == ["Home"]
        columns = [row[1] for row in book._connection.execute("PRAGMA table_info(well)")]
        assert "colour" in columns
    (copy,) = copies.copies_of(old)
    store = sqlite3.connect(copy.path)
    assert store.execute("PRAGMA user_version").fetchone()[0] == schema.VERSION - 1
    assert old.read_bytes() != before


def test_a_failing_migration_leaves_the_file_untouched(old, next_version):
    before = old.read_bytes()
    next_version("ALTER TABLE well ADD COLUMN colour TEXT; INSERT INTO nowhere VALUES (1);")
    with pytest.raises(Fault, match="it is as it was"):
        Book.open(old)
    assert old.read_bytes() == before


def test_an_older_book_that_may_only_be_read_is_brought_up_to_date_in_memory(old, next_version):
    before = old.read_bytes()
    next_version("ALTER TABLE well ADD COLUMN colour TEXT NOT NULL DEFAULT '';")
    with Book.open(old, readonly=True) as book:
        assert [well.name for well in book.wells()] == ["Home"]
        with pytest.raises(Fault):
            book.add_well("Barn")
    assert old.read_bytes() == before
    assert not copies.folder_of(old).exists()


def test_what_a_test_cost_is_in_a_book_of_version_2_and_empty_in_one_of_version_1(tmp_path):
    costs = []
    for frozen in FROZEN[:2]:
        path = tmp_path / frozen.name
        shutil.copyfile(frozen, path)
        with Book.open(path) as book:
            sample = book.samples()[0]
            costs.append((sample.cost, sample.currency))
    assert costs == [("", ""), ("85.50", "USD")]


def test_money_and_upkeep_are_in_a_book_of_version_2(tmp_path):
    path = tmp_path / FROZEN[1].name
    shutil.copyfile(FROZEN[1], path)
    with Book.open(path, readonly=True) as book:
        record = book.record()
    paid = [*record.units, *record.services, *record.expenses, *record.events]
    assert {(row.cost, row.currency) for row in paid} >= {("49.90", "USD")}
    intervals = [(one.task, one.months, one.use, one.a_day) for one in record.intervals]
    assert intervals == [("uv_sleeve", 6, "", ""), ("uv_lamp", 12, "9000 h", "24 h")]
    assert [(one.item, one.answer, one.mended) for one in record.answers] == [("cap", "bad", "")]


@pytest.mark.parametrize(
    ("cost", "currency"),
    [("45", ""), ("", "USD"), ("45,00", "USD"), ("-45", "USD"), ("$45", "USD"), ("45", "dollars")],
)
def test_no_cost_gets_into_a_book_that_is_no_plain_figure_with_its_currency(old, cost, currency):
    with Book.open(old) as book:
        point = book.add_point(1, "Tap")
        with pytest.raises(sqlite3.IntegrityError):
            book.add_sample(
                NewSample(point, LocalTime(date(2026, 5, 3)), cost=cost, currency=currency)
            )
        assert book.samples() == []
