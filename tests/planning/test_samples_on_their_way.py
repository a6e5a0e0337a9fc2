"""A round that was drawn is awaited: what of it, until when, and whether it is too old by then."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.lab.awaited import NewDraw, awaited, draws
from wellbook.planning.overview import due
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag

CATALOGUE = read_catalogue(paths.resources())
DAY = date(2026, 6, 3)  # a Wednesday
LAB = "Brook Lab"
GERMS = ["e_coli", "total_coliform"]


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        well = made.add_well("Home")
        made.add_point(well, "Tank")
        made.add_point(well, "Kitchen tap", treated=True)
        made.set_settings({"round_lab": LAB, "round_sampler": "The owner"})
        yield made


def draw(book, *planned, **said):
    record = book.record()
    points = {point.name: point for point in record.points}
    drawn = NewDraw(said.pop("day", DAY), **said)
    keys = [(points[name], keys) for name, keys in planned or [("Tank", GERMS)]]
    made = draws(record, CATALOGUE, drawn, keys)
    for sample in made:
        book.add_sample(sample)
    return made


def waiting(book, today=DAY):
    return awaited(book.record(), CATALOGUE, today)


def reported(book, *days):
    """Earlier tests of the lab that were reported so many days after the draw."""
    for number, passed in enumerate(days):
        day = date(2025, 1, 10) + timedelta(days=30 * number)
        result = NewResult("iron", "Iron", read_reading("0.1", unit="mg/L"))
        came = (day + timedelta(days=passed)).isoformat()
        sample = NewSample(1, LocalTime(day), lab=LAB, reported=came, results=(result,))
        book.add_sample(sample)


def test_each_point_has_a_sample_of_its_own_with_all_that_was_said(book):
    raw, tap = draw(
        book, ("Tank", GERMS), ("Kitchen tap", ["lead"]), at=time(6, 30), sent_at=time(8, 15),
        cooling="ice", parcel="12", form="7", note="rain",
    )  # fmt: skip
    assert (raw.point, raw.awaited, tap.point, tap.awaited) == (1, " ".join(GERMS), 2, "lead")
    for sample in (raw, tap):
        assert sample.collected == LocalTime(DAY, time(6, 30))
        assert sample.dispatched == LocalTime(DAY, time(8, 15))
        assert (sample.lab, sample.sampler, sample.standing) == (LAB, "The owner", "owner")
        assert (sample.cooling, sample.parcel, sample.form) == ("ice", "12", "7")
        assert sample.note == "rain"
        assert sample.bottles
    assert raw.bottles != tap.bottles


def test_what_was_not_said_is_not_made_up(book):
    (sample,) = draw(book, lab="Hollin Labs", bottles="a jar")
    assert (sample.collected, sample.dispatched) == (LocalTime(DAY), None)
    assert (sample.lab, sample.bottles) == ("Hollin Labs", "a jar")
    assert (sample.cooling, sample.parcel, sample.form, sample.note) == ("", "", "", "")
    (usual,) = draw(book, ("Kitchen tap", ["lead"]))
    assert (usual.lab, usual.collected.at) == (LAB, None)


def test_the_same_is_not_drawn_twice_on_a_day_and_nothing_is_no_sample(book):
    draw(book)
    with pytest.raises(Fault, match="2026-06-03 at Tank is awaited already"):
        draw(book, ("Tank", ["e_coli"]))
    draw(book, ("Tank", ["iron"]))
    draw(book, ("Tank", ["e_coli"]), day=DAY + timedelta(days=1))
    with pytest.raises(Fault, match="nothing is planned there"):
        draw(book, ("Kitchen tap", []))


@pytest.mark.parametrize(
    ("took", "days", "n"),
    [((), 14, 0), ((5, 6), 14, 0), ((5, 9, 7), 7, 3), ((5, 9, 7, 30), 7, 4), ((0, 0, 2), 0, 3)],
)
def test_a_report_is_expected_as_the_lab_s_earlier_ones_came(book, took, days, n):
    reported(book, *took)
    draw(book)
    (found,) = waiting(book)
    assert (found.days, found.n, found.expected) == (days, n, DAY + timedelta(days=days))
    assert [waiting(book, DAY + timedelta(days=d))[0].is_late for d in (days, days + 1)] == [
        False,
        True,
    ]
    assert found.basis.startswith(f"{days} day")
    assert (f"by {n} reports" in found.basis) is bool(n)


def test_what_is_awaited_is_said_with_its_day_and_point(book):
    draw(book, ("Tank", [*GERMS, "nitrate", "lead"]))
    assert waiting(book, DAY - timedelta(days=1)) == ()
    (found,) = waiting(book)
    names = "E. coli, Total coliform, Nitrate, …"
    assert [*found.lines()] == [
        f"Awaited since 3 June 2026 (Home, Tank): {names}. Usually here by 17 June 2026."
    ]
    (late,) = waiting(book, date(2026, 6, 18))
    assert [*late.lines()][-1].endswith("It was usually here by 17 June 2026: ask the lab.")


def test_a_sample_that_lies_about_grows_too_old_and_one_that_the_lab_has_does_not(book):
    book.set_setting("round_way", "car")
    draw(book, at=time(6, 30))
    young, old = waiting(book)[0], waiting(book, DAY + timedelta(days=2))[0]
    assert (young.is_too_old, old.is_too_old) == (False, True)
    assert young.limit < old.age
    assert "Ask the lab whether it can start sooner, else draw again." in next(old.lines())
    # Sent on its day it is as old as it was on its way, however late somebody looks.
    draw(book, ("Kitchen tap", GERMS), at=time(6, 30), sent_at=time(8, 0))
    ages = [waiting(book, DAY + timedelta(days=days))[1].age for days in (0, 2)]
    assert ages[0] == ages[1] < old.age


@pytest.mark.parametrize(
    ("sent", "hours"),
    [
        ("2026-06-03T09:00", 8.5),  # the tests start at 15:00
        ("2026-06-03", 8.5),  # nobody knows the hour, so that of the draw counts
        ("2026-06-03T14:00", 32.5),  # after the lab's last hour for that day
        ("2026-06-04T09:00", 32.5),
    ],
)
def test_a_sample_is_as_old_as_its_way_takes_from_when_it_was_sent(book, sent, hours):
    book.set_setting("round_way", "car")
    drawn = LocalTime(DAY, time(6, 30))
    way = LocalTime.parse(sent)
    book.add_sample(NewSample(1, drawn, awaited="e_coli", dispatched=way))
    assert waiting(book)[0].age == timedelta(hours=hours)


def test_of_a_sample_the_lab_has_or_whose_hour_nobody_knows_no_age_is_told(book):
    book.add_sample(NewSample(1, LocalTime(DAY), awaited="e_coli"))
    received = LocalTime(DAY, time(12))
    book.add_sample(NewSample(1, LocalTime(DAY, time(6, 30)), awaited="e_coli", received=received))
    assert [(one.age, one.is_too_old) for one in waiting(book)] == [(None, False)] * 2


def test_what_the_lab_no_longer_takes_on_friday_is_brought_and_tested_on_monday(book):
    book.set_settings({"round_way": "car", "country": "US"})
    friday = date(2026, 6, 5)
    draw(book, day=friday, at=time(16, 45))
    (found,) = waiting(book, friday)
    assert found.age == timedelta(days=2, hours=22, minutes=15)  # the tests start at 15:00


@pytest.mark.parametrize("at", [time(6, 30), time(16, 45)])
@pytest.mark.parametrize("way", ["parcel", "car"])
def test_a_sample_that_still_lies_there_never_grows_younger_or_less_too_old(book, way, at):
    """Not over a weekend either, nor after the hour at which the lab takes nothing any more."""
    book.set_setting("round_way", way)
    draw(book, at=at)
    found = [waiting(book, DAY + timedelta(days=days))[0] for days in range(9)]
    ages = [one.age for one in found]
    assert None not in ages
    assert ages == sorted(ages)
    olds = [one.is_too_old for one in found]
    assert olds == sorted(olds)
    assert all(olds[2:])


def test_what_is_awaited_is_said_beside_what_is_due_until_it_is_late(book):
    draw(book)

    def said(today):
        (bacteria,) = (
            one
            for _well, point, panels in due(book.record(), CATALOGUE, today)
            for one in panels
            if point.id == 1 and one.panel.key == "bacteria"
        )
        return bacteria.drawn, "Drawn on 3 June 2026; the result is awaited." in bacteria.why

    assert said(DAY) == (DAY, True)
    assert said(DAY + timedelta(days=15)) == (None, False)


def test_what_a_lab_told_early_is_said_of_its_own_sample_alone(book):
    draw(book)
    draw(book, day=DAY + timedelta(days=1))
    flags = frozenset({Flag.PRELIMINARY})
    early = replace(read_reading("Present"), flags=flags)
    book.add_result(1, NewResult("e_coli", "E. coli", early), "told by telephone")
    no_more = replace(early, flags=flags | {Flag.REJECTED})
    book.add_result(2, NewResult("e_coli", "E. coli", no_more), "told by telephone")
    told, other = waiting(book, DAY + timedelta(days=1))
    assert (told.preliminary, other.preliminary) == (("E. coli",), ())
    assert "act on it now" in " ".join(told.lines())
    assert "Preliminary" not in " ".join(other.lines())


def test_what_was_told_early_is_drawn_again_without_waiting_for_the_report(book):
    draw(book)
    early = replace(read_reading("Present"), flags=frozenset({Flag.PRELIMINARY}))
    book.add_result(1, NewResult("e_coli", "E. coli", early), "told by telephone")
    found = [
        one
        for _well, point, panels in due(book.record(), CATALOGUE, DAY)
        for one in panels
        if point.name == "Tank" and "e_coli" in one.panel.core
    ]
    assert found
    assert {one.drawn for one in found} == {None}
