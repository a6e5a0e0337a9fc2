"""What was added up of several readings stands on the overview as in the commands and packets.

40 CFR 141.62(b): nitrate and nitrite together, 10 mg/L as N.
"""

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.water.verdicts.judge import Verdict
from wellbook.window.app.book_pages import Page


def test_a_sum_over_its_limit_is_looked_at_first_and_leads_to_no_page_of_its_own(frame, tmp_path):
    path = tmp_path / "sum.wellbook"
    with Book.create(path) as book:
        point = book.add_point(book.add_well("Low Field"), "Tap")
        rows = tuple(
            NewResult(key, key, read_reading(text, unit="mg/L", basis="as N"))
            for key, text in (("nitrate", "9.6"), ("nitrite", "0.9"))
        )
        book.add_sample(
            NewSample(point=point, collected=LocalTime.parse("2026-05-04"), results=rows)
        )
    frame.open_book(path)
    overview = frame.view.overview
    (line,) = [one for one in overview.model.rows if one.key == "nitrate_nitrite"]
    assert line.standing.now.verdict is Verdict.OUTSIDE
    assert overview.model.rows.index(line) == 1  # right under the head of what to look at first
    assert "nitrate_nitrite" not in overview.order
    overview.table.pick(1)
    overview._on_chosen(line)
    assert frame.view.page == Page.OVERVIEW
