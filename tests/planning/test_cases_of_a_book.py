"""A case of bacteria, from the finding to its end, and what is said of it."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.overview import cases
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(paths.resources())


@pytest.fixture
def found(tmp_path):
    """The cases of a well on a day, for samples of a tap as day, parameter and text."""

    def told(samples, today):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            tap = book.add_point(book.add_well("Home"), "Kitchen tap")
            for day, key, text in samples:
                reading = read_reading(text, unit="MPN/100 mL" if "col" in key else "mg/L")
                result = NewResult(key, key, reading)
                book.add_sample(NewSample(tap, LocalTime.parse(day), results=(result,)))
            return cases(book.record(), CATALOGUE, date.fromisoformat(today))

    return told


def test_bacteria_open_a_case_at_their_point_with_what_is_next(found):
    (case,) = found([("2026-06-01", "e_coli", "4")], "2026-06-10")
    assert (case.key, case.well, case.point.name) == ("bacteria 2026-06-01", "Home", "Kitchen tap")
    assert (case.parameters, case.names) == (("e_coli",), ("E. coli",))
    assert (case.opened, case.closed) == (date(2026, 6, 1), None)
    assert case.why == "E. coli found on 1 June 2026."
    assert not case.is_figure
    assert case.next
    assert all("Kitchen tap" in what for what, _day in case.next)


def test_a_figure_over_a_limit_opens_one_of_its_own(found):
    (case,) = found([("2026-06-01", "nitrate", "70")], "2026-06-10")
    assert case.is_figure
    assert case.why == "Nitrate found over a limit on 1 June 2026."
    assert case.opened == date(2026, 6, 1)


def test_each_case_tells_only_its_own_next_step(found):
    both = found([("2026-06-01", "e_coli", "4"), ("2026-06-01", "nitrate", "70")], "2026-06-10")
    (bacteria,), (nitrate,) = (case.next for case in both)
    assert bacteria[0].startswith("Kitchen tap: Bacteria found on 1 June 2026: second sample.")
    assert nitrate[0].startswith("Kitchen tap: Nitrate over a limit on 1 June 2026: confirm it.")


def test_open_cases_stand_before_closed_ones_the_newest_first(found):
    # A case ends with two clean samples, and after them one a month later, in a wet season.
    clean = [(day, "e_coli", "<1") for day in ("2024-07-10", "2024-07-20", "2025-04-20")]
    ended = [("2024-06-01", "e_coli", "4"), *clean]
    again = [("2026-05-01", "e_coli", "2"), ("2026-05-20", "nitrate", "70")]
    told = found([*ended, *again], "2026-06-10")
    assert [one.opened.isoformat() for one in told] == ["2026-05-20", "2026-05-01", "2024-06-01"]
    assert [one.closed is None for one in told] == [True, True, False]
    assert told[-1].why.endswith("Closed on 20 April 2025.")
    assert told[-1].next == ()
    assert found([], "2026-06-10") == ()
