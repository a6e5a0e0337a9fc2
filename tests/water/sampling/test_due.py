"""Whether a day suits, and how old a sample may be. 2026-06-19 is a holiday (5 USC 6103)."""

from datetime import date, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from way_to_the_lab import way

from wellbook.support.message import message
from wellbook.support.paths import resources
from wellbook.water.sampling.due import Because, Outlook, day_reason, last_test_reason
from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import Drive, Hours, LabHours
from wellbook.water.values.catalogue import Panel, read_catalogue
from wellbook.water.values.seasons import NORTHERN, season_of
from wellbook.wording.dates import written
from wellbook.wording.dues import reason

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 10)
JUNETEENTH = date(2026, 6, 19)


def outlook(**more):
    return Outlook(TODAY, NORTHERN, way(**more), CATALOGUE)


def test_bottles_are_sent_for_or_fetched_if_it_is_urgent():
    assert outlook().soonest() == date(2026, 6, 17)
    assert outlook().soonest(urgent=True) == date(2026, 6, 12)
    assert outlook(lead_days=1).soonest(urgent=True) == date(2026, 6, 11)


@pytest.mark.parametrize(
    ("keys", "lab_hours", "hours"),
    [
        (("total_coliform",), 30, 30),
        (("total_coliform",), 24, 24),  # a stricter lab
        (("total_coliform",), 40, 30),  # no lab may be laxer than the rule
        (("nitrate",), 24, 48),  # a lab's hours are for bacteria
        (("nitrate", "e_coli"), 24, 24),
        (("unknown",), 24, 180 * 24),
    ],
)
def test_a_sample_may_be_as_old_as_its_most_perishable_parameter(keys, lab_hours, hours):
    ahead = outlook(limit=timedelta(hours=lab_hours))
    assert ahead.limit(keys) == timedelta(hours=hours)
    panel = Panel("p", "P", keys, (), 12, "", "")
    assert ahead.calendar_for(panel).limit == timedelta(hours=hours)


def test_a_day_suits_from_either_end_of_a_stretch():
    calendar = way(closed={JUNETEENTH})
    monday, wednesday, thursday = date(2026, 6, 15), date(2026, 6, 17), date(2026, 6, 18)
    assert calendar.first_day(monday, monday) == monday
    assert not calendar.suits(wednesday)  # it would be read on the holiday
    assert not calendar.suits(thursday)
    assert calendar.first_day(wednesday, date(2026, 6, 21)) is None
    assert calendar.first_day(wednesday, date(2026, 6, 22)) == date(2026, 6, 22)


def test_the_search_of_a_calendar_is_held_to_its_limit():
    monday = date(2026, 6, 15)
    assert way().find(monday, monday).slack == timedelta(hours=7, minutes=30)
    assert way().within(timedelta(hours=20)).find(monday, monday).best is None
    exact = way().within(timedelta(hours=22, minutes=30))
    assert exact.suits(monday)
    assert not way().within(timedelta(hours=22)).suits(monday)


def test_the_last_test_is_told_with_how_long_it_has_been_due():
    assert reason(last_test_reason(None, 0)) == "Not all of this was ever tested here."
    never = last_test_reason(None, 0, is_new=True)
    assert reason(never) == "Nothing of this was ever tested here."
    day = date(2025, 6, 9)
    assert reason(last_test_reason(day, 0)) == "Last tested on 9 June 2025."
    assert reason(last_test_reason(day, 1)) == "Last tested on 9 June 2025, 1 day overdue."
    assert reason(last_test_reason(day, 2)) == "Last tested on 9 June 2025, 2 days overdue."
    assert written(date(2026, 1, 31)) == "31 January 2026"


def test_a_day_is_told_with_the_way():
    zone = ZoneInfo("America/New_York")
    car = Calendar(Hours(zone), Drive(timedelta(hours=1)), LabHours(zone, time(13), time(15)))
    monday = date(2026, 6, 15)
    assert reason(day_reason(monday, way())) == (
        "Monday, 15 June 2026, can be shipped to arrive at an open lab."
    )
    assert reason(day_reason(monday, car)) == "Monday, 15 June 2026, can be driven to an open lab."
    assert "ask the lab" in reason(day_reason(None, way()))


EVERYTHING = {
    "day": date(2026, 6, 9), "last": date(2026, 6, 10), "n": 2, "month": 6, "date": "2026-05",
    "season": season_of(TODAY, NORTHERN), "text": "Why", "do": "What", "what": ("E. coli",),
    "source": "Who",
}  # fmt: skip


@pytest.mark.parametrize("code", Because)
def test_every_reason_has_a_sentence_for_its_code(code):
    said = reason(message(code, **EVERYTHING))
    assert said
    assert "{" not in said
