"""What happened between two tests, in words."""

from datetime import date

from wellbook.book.rows import Event, Service
from wellbook.planning.between import between

BEFORE, DAY = date(2020, 5, 4), date(2021, 6, 7)


def event(day, kind="flood", text="", **more):
    return Event(1, 1, kind, day, text=text, **more)


def test_events_and_services_after_the_earlier_test_are_told_by_day():
    events = [event("2021-01", "repair", "cap mended."), event("2020-11-02")]
    services = [Service(1, 1, "2020-12-24", "cartridge")]
    assert between(events, services, BEFORE, DAY) == [
        "flood, 2 Nov 2020",
        "new cartridge, 24 Dec 2020",
        "cap mended, Jan 2021",
    ]


def test_the_day_of_the_earlier_test_is_before_and_the_later_one_counts():
    assert between([event("2020-05-04"), event("2021-06-08")], [], BEFORE, DAY) == []
    assert between([event("2021-06-07")], [], BEFORE, DAY) == ["flood, 7 Jun 2021"]


def test_a_month_that_partly_lies_between_counts():
    assert between([event("2020-05"), event("2021-06")], [], BEFORE, DAY) == [
        "flood, May 2020",
        "flood, Jun 2021",
    ]


def test_people_are_left_out():
    events = [event("2021-01-01", "pregnancy"), event("2021-01-02", private=True)]
    assert between(events, [], BEFORE, DAY) == []


def test_an_unreadable_day_or_no_earlier_test_tells_nothing():
    assert between([event("some day")], [], BEFORE, DAY) == []
    assert between([event("2021-01-01")], [], None, DAY) == []
