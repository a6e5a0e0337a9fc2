import json

import pytest

from wellbook.book import Book

pytestmark = pytest.mark.timeout(600)


@pytest.fixture
def known(tmp_path):
    """Writes down which books are looked at here."""

    def write(*books):
        folder = tmp_path / "home" / "data" / "wellbook"
        folder.mkdir(parents=True)
        rows = [
            {"path": str(path), "identity": identity, "is_watched": True, "told": []}
            for path, identity in books
        ]
        (folder / "reminders.json").write_text(json.dumps(rows))

    return write


def test_a_lost_book_is_told_of_once_when_the_window_opens(use, books, known, tmp_path):
    (shown,) = books("first-year")
    known((tmp_path / "lost.wellbook", "another"))
    report = use("reminding:said_at_the_start", shown)
    assert report["failures"] == []
    assert "lost.wellbook is no longer in" in report["facts"]["said"]
    assert use("reminding:said_at_the_start", shown)["facts"]["said"] == ""


def test_a_lost_book_can_be_given_up(use, books, known, tmp_path):
    (shown,) = books("first-year")
    known((tmp_path / "lost.wellbook", "another"))
    report = use("reminding:given_up", shown)
    assert report["failures"] == []
    assert report["facts"]["left"] == 0


def test_reminders_follow_a_book_that_was_moved(use, books, known, tmp_path):
    (shown,) = books("first-year")
    with Book.open(shown, readonly=True) as book:
        known((tmp_path / "before.wellbook", book.identity()))
    report = use("reminding:said_at_the_start", shown)
    assert report["failures"] == []
    assert "first-year.wellbook was moved" in report["facts"]["said"]
    kept = json.loads((tmp_path / "home/data/wellbook/reminders.json").read_text())
    assert [row["path"] for row in kept] == [str(shown)]


def test_a_book_that_reminds_on_another_computer_offers_it_here_once(use, books):
    (shown,) = books("first-year")
    with Book.open(shown) as book:
        book.set_setting("reminders", "sign-in")
    report = use("reminding:taken_over", shown)
    assert report["failures"] == []
    facts = report["facts"]
    assert "On another computer this book tells at sign-in" in facts["said"]
    assert (facts["before"], facts["after"]) == ([False, 0], [True, 1])
    assert "From now on this computer tells" in facts["kept"]
    assert use("reminding:said_at_the_start", shown)["facts"]["said"] == ""
