"""What a reminder on the desktop says: what is due, where, on which day; nothing about people."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from wellbook.book import Book
from wellbook.book.rows import Plan
from wellbook.planning.overview import due
from wellbook.planning.reminder import note, sentence
from wellbook.planning.upkeep.due import due_now, upkeep_items
from wellbook.support import paths, watched_books
from wellbook.water.sampling.upkeep import read_upkeep
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
UPKEEP = read_upkeep(paths.resources())
TODAY = date(2026, 6, 3)  # a Wednesday


@pytest.fixture
def told(tmp_path):
    """What is said, for panels that are planned at a tap and events of its well."""

    def said(panels, events=(), *, with_upkeep=False):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            well = book.add_well("Home")
            tap = book.add_point(well, "Kitchen tap")
            book.set_plans(Plan(0, tap, panel, 12) for panel in panels)
            for kind in events:
                book.add_event(well, kind, "2026-05-02")
            if with_upkeep:
                for name in ("Lamp", "Old lamp"):
                    book.add_unit(well, name, kind="ultraviolet lamp", installed="2020-01-02")
            record = book.record()
            needs = due_now(upkeep_items(record, UPKEEP, TODAY), TODAY) if with_upkeep else ()
            return due(record, CATALOGUE, TODAY), needs

    return said


DAY = "A good day: 10 June 2026."


@pytest.mark.parametrize(
    ("panels", "events", "names", "day"),
    [
        (["bacteria"], [], "Bacteria, Nitrate", DAY),
        (["bacteria", "arsenic"], [], "Arsenic, Bacteria, Nitrate", DAY),
        (["bacteria", "arsenic", "fluoride", "lead_copper"], [],
         "Arsenic, Bacteria, Fluoride and 2 more", DAY),
        # What a birth asks for is sooner, and is not named.
        ([], ["birth"], "Bacteria, Nitrate and 1 more", "A good day: 8 June 2026."),
    ],
)  # fmt: skip
def test_three_are_named_the_rest_and_what_is_private_are_counted(told, panels, events, names, day):
    dues, _none = told(panels, events)
    assert sentence(dues, TODAY) == f"Due at Kitchen tap: {names}. {day}"


def test_what_is_not_due_yet_is_not_said(told):
    dues, _none = told(["bacteria"])
    first = min(one.due for _well, _point, panels in dues for one in panels)
    assert sentence(dues, first) != ""
    assert sentence(dues, first - timedelta(days=1)) == ""
    assert note(Path("x.wellbook"), dues, first - timedelta(days=1)) == ("", "")


def test_care_is_told_after_tests_and_gives_the_title_where_no_test_is_due(told):
    dues, needs = told([], with_upkeep=True)
    care = "To be cared for: Lamp, sleeve, Old lamp, sleeve, Lamp, lamp and 3 more."
    test = f"Due at Kitchen tap: Bacteria, Nitrate. {DAY}"
    book = Path("b.wellbook")
    assert note(book, dues, TODAY, needs) == ("A water test is due", f"{test} {care}")
    assert note(book, (), TODAY, needs) == ("The water system needs care", care)
    undated = [item for item in needs if not item.is_dated]
    assert undated
    assert sentence((), TODAY, undated) == ""


def test_the_title_names_the_book_where_several_are_looked_at(told, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    dues, _none = told(["bacteria"])
    for number, title in ((1, "A water test is due"), (2, "A water test is due: home")):
        watched_books.watch(tmp_path / f"{number}.wellbook", str(number) * 64)
        assert note(tmp_path / "home.wellbook", dues, TODAY)[0] == title
