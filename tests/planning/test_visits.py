"""What is drawn on one visit, on which day, and in which order.

A bacteria sample goes by overnight parcel and keeps for 30 hours, so that it is drawn from Monday
to Wednesday; nitrate keeps for longer and is drawn until Thursday.
"""

from datetime import date

from wellbook.book.rows import Point, Well
from wellbook.planning.settings import calendar, scheme
from wellbook.planning.visits import on_visits, visits
from wellbook.support import paths
from wellbook.water.sampling.due import Outlook, PanelDue
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
MONDAY, TUESDAY, WEDNESDAY, FRIDAY = (date(2026, 6, day) for day in (8, 9, 10, 12))
NEXT_MONDAY = date(2026, 6, 15)
TODAY = date(2026, 6, 1)


def ahead(**settings):
    return Outlook(TODAY, scheme(settings), calendar(settings, TODAY), CATALOGUE)


AHEAD = ahead()


def wanted(panel, day, *, earliest=None, last=date(2026, 6, 24), first=None, **more):
    """A panel that is due on a day and may be drawn from `earliest` to `last`."""
    first = first or day
    return PanelDue(
        CATALOGUE.panels[panel], None, more.pop("due", first), 0, (first, last), day, (),
        earliest or first, **more,
    )  # fmt: skip


def planned(*dues, outlook=AHEAD):
    """Panel, visit and day of what is drawn, in the order in which it is told."""
    return [(one.panel.key, one.visit, one.day) for one in on_visits({1: dues}, outlook)[1]]


def test_what_may_be_drawn_from_just_that_day_on_comes_along():
    first = wanted("bacteria", WEDNESDAY)
    later = date(2026, 6, 22)
    assert planned(first, wanted("nitrate", later, earliest=WEDNESDAY)) == [
        ("bacteria", 1, WEDNESDAY),
        ("nitrate", 1, WEDNESDAY),
    ]
    assert planned(first, wanted("nitrate", later, earliest=date(2026, 6, 11))) == [
        ("bacteria", 1, WEDNESDAY),
        ("nitrate", 2, later),
    ]


def test_what_is_urgent_is_not_kept_waiting_for_another():
    urgent = wanted("bacteria", MONDAY, urgent=True)
    assert planned(wanted("nitrate", TUESDAY), urgent) == [
        ("bacteria", 1, MONDAY),
        ("nitrate", 2, TUESDAY),
    ]


def test_bottles_fetched_for_what_is_urgent_are_fetched_for_all():
    urgent = wanted("bacteria", TUESDAY, urgent=True)
    other = wanted("nitrate", WEDNESDAY, wanted=TUESDAY)
    assert planned(urgent, other) == [("bacteria", 1, TUESDAY), ("nitrate", 1, TUESDAY)]
    usual = wanted("bacteria", TUESDAY)
    assert [visit for _key, visit, _day in planned(usual, other)] == [1, 2]


def test_a_visit_waits_for_the_lab_s_day_if_that_is_not_too_late_for_anything():
    nitrate, bacteria = wanted("nitrate", FRIDAY), wanted("bacteria", NEXT_MONDAY, earliest=MONDAY)
    assert planned(nitrate, bacteria) == [
        ("nitrate", 1, NEXT_MONDAY),
        ("bacteria", 1, NEXT_MONDAY),
    ]
    for until in (FRIDAY, date(2026, 6, 14)):
        in_haste = wanted("nitrate", FRIDAY, last=until)
        assert planned(in_haste, bacteria) == [
            ("nitrate", 1, FRIDAY),
            ("bacteria", 2, NEXT_MONDAY),
        ]
    just = wanted("nitrate", FRIDAY, last=NEXT_MONDAY)
    assert planned(just, bacteria)[0] == ("nitrate", 1, NEXT_MONDAY)


def test_what_no_day_suits_is_left_for_one_visit_of_its_own():
    slow = ahead(round_transit_days="3")
    without = [wanted("bacteria", None, first=MONDAY), wanted("nitrate", None, first=TUESDAY)]
    dated = wanted("arsenic", date(2026, 6, 23))
    assert planned(*without, dated, outlook=slow) == [
        ("bacteria", 1, None),
        ("nitrate", 1, None),
        ("arsenic", 2, date(2026, 6, 23)),
    ]
    for day, numbers in ((24, [1, 1]), (25, [1, 2])):  # the 24th is the last day of the first
        other = wanted("nitrate", None, first=date(2026, 6, day), last=date(2026, 7, 9))
        found = planned(without[0], other, outlook=slow)
        assert [visit for _key, visit, _day in found] == numbers


def test_what_was_drawn_asks_for_no_visit_and_is_told_last():
    drawn = wanted("nitrate", MONDAY, drawn=date(2026, 5, 30))
    assert planned(drawn, wanted("bacteria", WEDNESDAY)) == [
        ("bacteria", 1, WEDNESDAY),
        ("nitrate", 0, MONDAY),
    ]


def test_visits_are_told_well_by_well_each_with_its_reason_first():
    tank, tap = Point(1, 1, "Tank"), Point(2, 1, "Tap", treated=True, place=2)
    barn = Point(3, 2, "Trough")
    wells = Well(1, "Home"), Well(2, "Barn")
    placed = on_visits(
        {
            1: [wanted("nitrate", WEDNESDAY), wanted("arsenic", date(2026, 6, 23))],
            2: [wanted("bacteria", WEDNESDAY, urgent=True)],
        },
        AHEAD,
    )
    at_barn = on_visits({3: [wanted("nitrate", MONDAY)]}, AHEAD)
    found = visits(
        [(wells[1], barn, at_barn[3]), (wells[0], tank, placed[1]), (wells[0], tap, placed[2])]
    )
    assert [(one.well.name, one.number, one.day, one.is_urgent) for one in found] == [
        ("Barn", 1, MONDAY, False),
        ("Home", 1, WEDNESDAY, True),
        ("Home", 2, date(2026, 6, 23), False),
    ]
    assert [point.name for point, _one in found[1].tasks] == ["Tap", "Tank"]
    assert found[1].reason.panel.key == "bacteria"
