"""A case of bacteria, from the finding to its end, and what is said of it."""

from dataclasses import replace
from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.overview import cases, due
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag

CATALOGUE = read_catalogue(paths.resources())


@pytest.fixture
def found(tmp_path):
    """The cases of a well on a day, for samples of a tap as day, parameter, text and flags."""

    def told(samples, today):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            tap = book.add_point(book.add_well("Home"), "Kitchen tap")
            for day, key, text, *flags in samples:
                unit = {"ph": ""}.get(key, "MPN/100 mL" if "col" in key else "mg/L")
                reading = replace(read_reading(text, unit=unit), flags=frozenset(flags))
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


@pytest.fixture
def home(tmp_path):
    """A well with arsenic over its limit at the tank on 1 March 2026, and again on 1 April."""
    with Book.create(tmp_path / "home.wellbook") as book:
        well = book.add_well("Home")
        tank = book.add_point(well, "Tank")
        book.add_point(well, "Kitchen tap", treated=True, place=9)
        for day in ("2026-03-01", "2026-04-01"):
            reading = read_reading("0.05", unit="mg/L")
            results = (NewResult("arsenic", "Arsenic", reading),)
            book.add_sample(NewSample(tank, LocalTime.parse(day), results=results))
        yield book


def asked_of_arsenic(book):
    """The next step of the case and its days, by point."""
    found = due(book.record(), CATALOGUE, date(2026, 6, 10))
    return {
        point.name: (one.panel.key.rpartition(" ")[2], one.due.isoformat(), one.why)
        for _well, point, panels in found
        for one in panels
        if one.panel.key.startswith("case arsenic")
    }


@pytest.mark.parametrize(
    "unit",
    [
        {},
        {"target": "iron", "installed": "2026-04-20"},
        {"target": "arsenic", "installed": ""},
        {"target": "arsenic", "installed": "2026-04-20", "removed": "2026-05-01"},
    ],
    ids=["none", "against iron", "nobody knows since when", "removed"],
)
def test_without_a_unit_against_it_a_figure_over_a_limit_is_only_watched(home, unit):
    if unit:
        home.add_unit(1, "Filter", kind="arsenic filter", place=2, **unit)
    # Six months after the last sample, by the row of arsenic.
    (one,) = asked_of_arsenic(home).items()
    assert one[0] == "Tank"
    assert one[1][:2] == ("watch", "2026-10-01")


def test_treatment_is_proved_at_the_taps_behind_it_from_the_first_unit_on(home):
    for name, day in (("Later", "2026-05-20"), ("First", "2026-04-20")):
        home.add_unit(1, name, kind="arsenic filter", target="iron arsenic", installed=day)
    found = asked_of_arsenic(home)
    # Three months after the first unit came; raw water three months after its last sample.
    assert {at: told[:2] for at, told in found.items()} == {
        "Tank": ("prove", "2026-07-01"),
        "Kitchen tap": ("prove", "2026-07-20"),
    }


@pytest.mark.parametrize(
    ("second", "is_said"),
    [
        ({"kind": "Carbon tank", "place": 4, "target": "arsenic"}, True),
        ({"kind": "Carbon tank", "place": 3, "target": "arsenic"}, False),  # beside the first
        ({"kind": "ultraviolet lamp", "place": 4, "target": "arsenic"}, False),  # holds no media
        ({"kind": "Carbon tank", "place": 4, "target": "iron"}, False),
    ],
)
def test_a_sample_between_is_asked_for_of_tanks_in_series_alone(home, second, is_said):
    home.add_unit(
        1, "First", kind="arsenic filter", place=3, target="arsenic", installed="2026-04-20"
    )
    home.add_unit(1, "Second", installed="2026-04-20", **second)
    (of_tank, of_kitchen) = (told[2] for told in asked_of_arsenic(home).values())
    assert ("between" in of_kitchen) is is_said, of_kitchen
    assert ("between" in of_tank) is is_said


EARLY, NO = Flag.PRELIMINARY, Flag.REJECTED


@pytest.mark.parametrize(
    ("readings", "is_preliminary"),
    [
        ([("2026-06-01", "e_coli", "4", EARLY)], True),
        ([("2026-06-01", "e_coli", "4")], False),
        # What is not there, what was rejected and what lies before the finding bear nothing out.
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-06-01", "total_coliform", "<1")], True),
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-06-01", "e_coli", "4", NO)], True),
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-05-01", "total_coliform", "<1")], True),
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-06-01", "total_coliform", "9")], False),
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-06-05", "e_coli", "2")], False),
        ([("2026-06-01", "e_coli", "4", EARLY), ("2026-06-05", "e_coli", "2", EARLY)], True),
    ],
)
def test_a_case_is_preliminary_until_a_report_bears_a_finding_out(found, readings, is_preliminary):
    (case,) = found(readings, "2026-06-10")
    assert case.is_preliminary is is_preliminary
    assert ("the lab’s report is still to come" in case.why) is is_preliminary


def test_a_case_that_closed_is_preliminary_no_more(found):
    clean = [(day, "e_coli", "<1") for day in ("2024-07-10", "2024-07-20", "2025-04-20")]
    (case,) = found([("2024-06-01", "e_coli", "4", EARLY), *clean], "2026-06-10")
    assert case.closed == date(2025, 4, 20)
    assert "still to come" not in case.why


def test_a_figure_that_lies_under_its_limits_is_not_told_as_over_one(found):
    """US secondary levels ask for a pH of 6.5 to 8.5 (40 CFR 143.3)."""
    (case,) = found([("2026-06-01", "ph", "5.4")], "2026-06-10")
    assert case.why == "pH found outside its limits on 1 June 2026."


def test_every_tap_between_tanks_is_asked_although_another_has_a_case_of_its_own(home):
    for name, place in (("First port", 3), ("Second port", 5)):
        home.add_point(1, name, treated=True, place=place)
    for place in (2, 4, 6):
        home.add_unit(1, f"Tank {place}", kind="arsenic filter", place=place, target="arsenic",
                      installed="2026-02-20")  # fmt: skip
    for day in ("2026-03-01", "2026-04-01"):
        results = (NewResult("arsenic", "Arsenic", read_reading("0.02", unit="mg/L")),)
        home.add_sample(NewSample(3, LocalTime.parse(day), results=results))
    assert asked_of_arsenic(home).keys() == {"Tank", "First port", "Second port", "Kitchen tap"}


def test_a_case_that_only_somebody_s_needs_open_is_left_out_with_what_is_personal(tmp_path):
    """Sodium over 20 mg/L concerns a strict diet: New York State DOH, Salt and Drinking Water."""
    with Book.create(tmp_path / "diet.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Kitchen tap")
        for key, text in (("sodium", "60"), ("nitrate", "70")):
            result = NewResult(key, key, read_reading(text, unit="mg/L"))
            book.add_sample(NewSample(tap, LocalTime.parse("2026-06-01"), results=(result,)))
        book.set_setting("people", "diet")
        told = {
            personal: cases(book.record(), CATALOGUE, date(2026, 6, 10), with_personal=personal)
            for personal in (True, False)
        }
    assert {one.parameters for one in told[True]} == {("sodium",), ("nitrate",)}
    assert [one.parameters for one in told[False]] == [("nitrate",)]
    assert [one.next for one in told[False]] == [()], "what is next tells of the household"


@pytest.mark.parametrize(
    ("tests", "is_asked"),
    [
        ([("Kitchen", "2026-06-01", "4")], True),
        ([("Tank", "2026-06-01", "4")], False),
        ([("Kitchen", "2026-06-01", "4"), ("Kitchen", "2026-06-05", "2")], False),  # confirmed
        ([("Kitchen", "2026-06-01", "4"), ("Tank", "2026-06-01", "<1")], False),
        ([("Kitchen", "2026-06-01", "4"), ("Tank", "2026-05-31", "<1")], True),
    ],
)
def test_bacteria_behind_treatment_ask_for_a_sample_before_it_until_that_is_drawn(
    tmp_path, tests, is_asked
):
    with Book.create(tmp_path / "home.wellbook") as book:
        well = book.add_well("Home")
        points = {
            "Tank": book.add_point(well, "Tank"),
            "Kitchen": book.add_point(well, "Kitchen", treated=True, place=2),
        }
        for point, day, text in tests:
            result = NewResult("e_coli", "E. coli", read_reading(text, unit="MPN/100 mL"))
            book.add_sample(NewSample(points[point], LocalTime.parse(day), results=(result,)))
        found = due(book.record(), CATALOGUE, date(2026, 6, 10))
    raw = [one for _well, point, panels in found for one in panels
           if point.name == "Tank" and one.panel.key.endswith(" raw")]  # fmt: skip
    assert bool(raw) is is_asked
    assert all(one.urgent for one in raw)


@pytest.mark.parametrize(
    ("clean", "has_own"),
    [
        ((), False),  # a second sample is wanted at once: it serves for both
        (("2026-07-26", "2026-08-02", "2026-09-10"), True),  # only the wet season's is left
    ],
)
def test_a_flood_is_tested_after_however_far_off_an_open_case_is(tmp_path, clean, has_own):
    """CDC, private wells after emergencies: test after a flood, whatever was found before."""
    with Book.create(tmp_path / "home.wellbook") as book:
        well = book.add_well("Home")
        tap = book.add_point(well, "Tap")
        for day, text in (("2026-07-10", "present"), *((day, "absent") for day in clean)):
            rows = [
                NewResult(key, key, read_reading(text, unit="/100 mL"))
                for key in ("e_coli", "total_coliform")
            ]
            book.add_sample(NewSample(tap, LocalTime.parse(day), results=tuple(rows)))
        book.add_event(well, "repair", "2026-07-15", text="new cap")
        book.add_event(well, "flood", "2026-10-01")
        ((_well, _tap, asked),) = due(book.record(), CATALOGUE, date(2026, 10, 2))
    assert any(one.case for one in asked), "the case stays open"
    soon = [one for one in asked if one.due <= date(2026, 10, 15)]
    assert any({"e_coli", "total_coliform"} <= set(one.panel.core) for one in soon)
    assert any(one.panel.name.startswith("After a flood") for one in soon) is has_own
