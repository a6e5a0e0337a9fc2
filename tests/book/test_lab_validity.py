"""Whether a lab's accreditation, as entered, covers the day of a sample."""

from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.check import check
from wellbook.book.record import covers
from wellbook.book.rows import Lab, NewSample
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime


@pytest.mark.parametrize(
    ("start", "end", "day", "expected"),
    [
        ("2006-07-01", "2013-06-30", "2013-06-30", True),
        ("2006-07-01", "2013-06-30", "2013-07-01", False),
        ("2006-07-01", "", "2006-06-30", False),
        ("", "2013-06-30", "1999-01-01", True),
        ("2006", "2013", "2013-12-31", True),
        ("2006-07", "2013-06", "2013-07-01", False),
        ("", "", "2013-07-01", None),
        ("2006-13", "2013", "2010-05-01", None),  # no such month
    ],
)
def test_bounds_are_taken_whole_and_unknown_stays_unknown(start, end, day, expected):
    lab = Lab(1, "Mossback Water Laboratory", "no. 1147", start, end)
    assert covers(lab, date.fromisoformat(day)) is expected


def test_a_lab_that_had_run_out_is_asked_about(tmp_path):
    path = tmp_path / "home.wellbook"
    with Book.create(path) as book:
        point = book.add_point(book.add_well("Thistle Lane"), "Tap")
        book.add_lab("Mossback Water Laboratory", valid_from="2006-07-01", valid_to="2013-06-30")
        for day in ("2012-05-08", "2014-05-06"):
            book.add_sample(NewSample(point, LocalTime.parse(day), lab="Mossback Water Laboratory"))
    (finding,) = check(path, read_catalogue(resources()), date(2026, 6, 1))
    assert (finding.key, finding.severity) == ("accreditation", "ask")
    assert "2006-07-01 to 2013-06-30" in finding.text
    assert "2014-05-06" in finding.text
