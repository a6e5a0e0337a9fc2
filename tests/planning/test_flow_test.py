"""A flow test as a person types it, and in words; what nobody wrote down is said, too."""

import pytest

from wellbook.book import Book
from wellbook.planning.flow_test import figures, latest, read_flow_test, told, words
from wellbook.support.errors import Fault


@pytest.fixture
def events(tmp_path):
    """The events of a well, for flow tests as day and what is typed."""

    def made(*tests):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            well = book.add_well("Home")
            book.add_event(well, "flood", "2026-05-01", text="High water")
            for day, typed, text in tests:
                kept = read_flow_test(*typed)
                book.add_event(well, "flow test", day, text=text, **kept)
            return book.record().events

    return made


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("4,5", "gal/min", " 4 ", "22.5", "ft", " Ash Drilling "),
         "4.5 gal/min, pumped for 4 h; the water level fell by 22.5 ft; by Ash Drilling"),
        (("12", "L/min", "", "", "m"),
         "12 L/min, for how long is not known; drawdown not known; by whom is not known"),
        (("12", "L/min", "0.5", "3", "m"),
         "12 L/min, pumped for 0.5 h; the water level fell by 3 m; by whom is not known"),
    ],
)  # fmt: skip
def test_a_flow_test_is_told_with_what_nobody_wrote_down(events, typed, said):
    test, flood = events(("2026-04-02", typed, "Clear after an hour"))
    assert figures(test) == said
    assert told(test) == f"flow test of 2 Apr 2026: {said}"
    assert words(test) == f"{said}. Clear after an hour"
    assert (figures(flood), words(flood)) == ("", "High water")


def test_the_latest_one_counts_and_of_one_day_the_one_entered_last(events):
    typed = ("4", "gal/min")
    found = events(("2024", typed, "a"), ("2026-04-02", typed, "b"), ("2026-04-02", typed, "c"),
                   ("2025-09", typed, "d"))  # fmt: skip
    assert latest(found).text == "c"
    assert latest([one for one in found if one.text == "High water"]) is None


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("", "gal/min"), "nothing without its flow"),
        (("4", "bucket"), "the flow in gal/min or L/min, the drawdown in ft or m"),
        (("4", "gal/min", "", "22", "yard"), "the flow in gal/min or L/min"),
        (("four", "gal/min"), "four can’t be read as flow"),
        (("4", "gal/min", "1h"), "1h can’t be read as hours"),
        (("4", "gal/min", "", "-2", "ft"), "-2 can’t be read as drawdown"),
    ],
)
def test_what_can_t_be_read_is_told(typed, said):
    with pytest.raises(Fault, match=said):
        read_flow_test(*typed)
