"""What was told of people, the place and the years reaches cautions, intervals and sums."""

from datetime import date, time

import pytest

from wellbook.book import Book
from wellbook.book.record import Newest
from wellbook.book.rows import InspectionAnswer, NewResult, NewSample
from wellbook.planning import kept_histories
from wellbook.planning.advice import (
    advice_at,
    advice_on,
    at_the_well,
    people,
    people_of_events,
    situations,
    told,
)
from wellbook.planning.frequencies import baseline
from wellbook.planning.lab.lab_route import read_habits
from wellbook.planning.overview import overview
from wellbook.planning.place.choices import changed
from wellbook.planning.settings import interval, wells_described
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.costs import by_year
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.cautions.cautions import CHILD, INFANT, PREGNANCY, read_cautions
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

TODAY = date(2026, 11, 28)
CATALOGUE = read_catalogue(paths.resources())


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        yield made


@pytest.mark.parametrize(
    ("kind", "day", "who"),
    [
        ("birth", "2026-05-02", {INFANT, CHILD}),
        ("birth", "2026", {INFANT, CHILD}),
        ("birth", "2025-11-29", {INFANT, CHILD}),
        ("birth", "2025-11-28", {CHILD}),  # a year old today
        ("birth", "2017-11-29", {CHILD}),
        ("birth", "2017-11-28", set()),  # nine today
        ("pregnancy", "2026-03-01", {PREGNANCY}),
        ("pregnancy", "2026-01-28", set()),
        ("birth", "2026-11-28", {INFANT, CHILD}),  # today
        ("birth", "2026-11-29", set()),  # tomorrow
        ("birth", "2017-11", {CHILD}),  # perhaps not nine yet
        ("flood", "2026-05-02", set()),
    ],
)
def test_a_birth_and_a_pregnancy_tell_who_drinks_the_water_for_their_time(book, kind, day, who):
    book.add_event(1, kind, day)
    assert people_of_events(book.record(), TODAY) == who


def test_urgent_cautions_come_before_all_others(book):
    tested = {"e_coli": "present", "nitrate": "14", "hardness": "400", "iron": "2", "sodium": "90"}
    results = tuple(
        NewResult(key, key, read_reading(text, unit="" if key == "e_coli" else "mg/L"))
        for key, text in tested.items()
    )
    book.add_sample(NewSample(1, LocalTime.parse("2026-11-20"), results=results))
    (point,) = overview(book.record(), CATALOGUE, TODAY)[0].points
    cautions = read_cautions(paths.resources() / "cautions.toml")
    told = advice_at(point, [point], cautions, (), TODAY)
    urgent = [one.urgent for one in told]
    assert set(urgent) == {True, False}
    assert urgent == sorted(urgent, reverse=True)


def test_a_panel_comes_as_often_as_is_usual_unless_it_may_wait_or_a_place_advises_sooner():
    usual = {one.panel.key: one.months for one in baseline({}, {}, CATALOGUE)}
    assert usual["bacteria"] == interval({}) == 14
    for key, months in usual.items():
        assert months >= CATALOGUE.panels[key].months, key
    dug = {one.panel.key: one.months for one in baseline({}, {"kind": "dug"}, CATALOGUE)}
    assert dug["bacteria"] < usual["bacteria"]
    assert all(dug[key] <= months for key, months in usual.items())


def test_nothing_is_kept_of_a_book_in_which_any_point_holds_what_lies_ahead(monkeypatch, tmp_path):
    monkeypatch.setattr(kept_histories, "_place", lambda digest: tmp_path / "kept" / digest)
    ahead, behind = Newest(has_later=True), Newest()
    for name, newest in (("one", {1: ahead, 2: behind}), ("none", {1: behind})):
        kept_histories.keep(name, CATALOGUE, TODAY, kept_histories.Histories(newest))
    assert [path.name for path in (tmp_path / "kept").iterdir()] == ["none"]


def test_the_kind_of_a_single_well_is_told_in_its_log_where_that_has_one(book):
    (well,) = book.wells()
    assert not list(wells_described([well], "dug")), "its log tells none"
    book.change_well(1, construction={"kind": "drilled", "depth": "185 ft"})
    (well,) = book.wells()
    assert list(wells_described([well], "dug")) == [(1, {"kind": "dug", "depth": "185 ft"})]
    assert not list(wells_described([well], ""))
    assert not list(wells_described([well, well], "dug")), "nobody said which of them"


def test_costs_of_a_year_and_those_of_no_year_are_told_apart(book):
    book.add_expense(1, "salt", "2025-06", cost="12", currency="USD")
    book.add_expense(1, "salt", "2024", cost="10", currency="USD")
    assert {words.year(one) for one in by_year(book.record(), TODAY)} == {"2024", "2025"}


def test_a_parcel_reaches_its_lab_in_the_morning_if_nothing_else_is_said():
    assert read_habits({}).delivered == time(10, 30)


def test_words_of_a_setting_are_kept_with_single_spaces_and_no_longer_than_fits():
    kept = changed({}, CATALOGUE, [("emergency", "  911  or   112 ")])
    assert "911 or 112" in kept.values()
    with pytest.raises(Fault, match="at most"):
        changed({}, CATALOGUE, [("emergency", "1" * 500)])


CAUTIONS = read_cautions(paths.resources() / "cautions.toml")


def add_test(book, day, key, text, unit=""):
    result = NewResult(key, key, read_reading(text, unit=unit))
    book.add_sample(NewSample(1, LocalTime.parse(day), results=(result,)))


@pytest.mark.parametrize(
    ("tested", "is_told"),
    [
        ((), True),
        ((("2026-11-20", "absent"),), True),  # on the day itself the water may still have risen
        ((("2026-11-21", "absent"),), False),
        ((("2026-11-19", "absent"),), True),
        ((("2026-11-21", "present"),), True),
        ((("2026-11-21", "absent"), ("2026-11-22", "present")), True),
    ],
)
def test_a_flood_is_told_until_a_clean_test_after_it(book, tested, is_told):
    book.add_event(1, "flood", "2026-11-20")
    for day, text in tested:
        add_test(book, day, "e_coli", text)
    (well,) = overview(book.record(), CATALOGUE, TODAY)
    assert bool(situations(book.record(), 1, well.points, CAUTIONS, TODAY)) is is_told


def test_whoever_draws_a_sample_is_told_of_gas_and_floods_and_not_who_drinks(book):
    book.add_event(1, "flood", "2026-11-20")
    book.add_event(1, "birth", "2026-09-02")
    for key, text in (("methane", "31"), ("nitrate", "70"), ("iron", "2")):
        add_test(book, "2026-11-21", key, text, "mg/L")
    of_point = told(book.record(), overview(book.record(), CATALOGUE, TODAY), CAUTIONS, TODAY)[1]
    gas = CAUTIONS.of["methane"]
    said = at_the_well(of_point, CAUTIONS)
    assert any(line.startswith((gas.over, gas.found)) for line in said)
    both = [one.text for one in (*of_point.situations, *of_point.advice)]
    of_people = [line for line in both if "bab" in line]  # of the nitrate, and of the birth
    assert len(of_people) > 2
    assert not {*of_people} & {*said}
    assert {one.text for one in of_point.situations} - {*of_people} < {*said}


def test_how_often_is_asked_only_of_groups_that_come_again():
    found = {one.panel.key for one in baseline({}, {}, CATALOGUE)}
    again = {key for key, panel in CATALOGUE.panels.items() if panel.months}
    assert found == again - {"salt", "septic"}  # these only where there is such a thing nearby
    assert not found & {"before_baby", "after_flood", "before_sale"}


@pytest.mark.parametrize("text", ["0", "241", "-1", "1.5", "x"])
def test_an_interval_is_1_to_240_months(book, text):
    record = book.record()
    for known in ("1", "240"):
        assert changed(record.settings, CATALOGUE, [("interval", known)])["interval"] == known
    with pytest.raises(Fault, match="1 to 240"):
        changed(record.settings, CATALOGUE, [("interval", text)])


def said_at(book, name, who=()):
    (well,) = overview(book.record(), CATALOGUE, TODAY)
    tap = next(one for one in well.points if one.point.name == name)
    return [one.text for one in advice_at(tap, well.points, CAUTIONS, who, TODAY)]


@pytest.fixture
def taps(book):
    """A tank before, a barn tap and a treated tap behind, none of them tested."""
    book.change_point(1, name="Tank", place=2)
    book.add_point(1, "Barn", place=3)
    book.add_point(1, "Kitchen", treated=True, place=1)
    return book


def arsenic(book, point, day, text):
    reading = read_reading(text, unit="mg/L")
    book.add_sample(
        NewSample(point, LocalTime.parse(day), results=(NewResult("arsenic", "As", reading),))
    )


def test_what_is_found_in_raw_water_holds_for_taps_behind_it_that_were_not_tested(taps):
    arsenic(taps, 1, "2026-11-01", "0.05")
    for name in ("Barn", "Kitchen"):
        (line,) = said_at(taps, name)
        assert "Arsenic" in line, name
        assert "Tank" in line, name


def test_it_does_not_hold_for_a_raw_tap_before_it_nor_from_treated_water(taps):
    arsenic(taps, 2, "2026-11-01", "0.05")
    assert said_at(taps, "Tank") == []
    assert len(said_at(taps, "Kitchen")) == 1, "all raw water lies before treated water"
    arsenic(taps, 3, "2026-11-02", "0.05")
    assert said_at(taps, "Tank") == []
    of_barn = said_at(taps, "Barn")
    assert of_barn
    assert not any("Kitchen" in line for line in of_barn)


def test_what_can_t_be_told_hides_no_other_reading_of_its_day(book):
    """Methane is told of at any figure: see `cautions.toml`. 10 mg/L: US DOI (2001)."""
    for text in ("5.2", "<30"):
        reading = read_reading(text, unit="mg/L")
        results = (NewResult("methane", "Methane", reading),)
        book.add_sample(NewSample(1, LocalTime.parse("2026-11-20"), results=results))
    name = book.points()[0].name
    assert CAUTIONS.of["methane"].found in " ".join(said_at(book, name))


def test_one_clean_sample_does_not_end_what_was_over_only_as_a_sum(book):
    """Nitrate and nitrite together: 10 mg/L as N (40 CFR 141.62)."""
    name = book.points()[0].name
    says = []
    for day, nitrate, nitrite in (
        ("2026-09-01", "9.6", "0.9"),
        ("2026-10-01", "2", "0.1"),
        ("2026-11-01", "2", "0.1"),
    ):
        results = tuple(
            NewResult(key, key, read_reading(text, unit="mg/L", basis="as N"))
            for key, text in (("nitrate", nitrate), ("nitrite", nitrite))
        )
        book.add_sample(NewSample(1, LocalTime.parse(day), results=results))
        says.append(CAUTIONS.of["nitrate"].over in " ".join(said_at(book, name)))
    assert says == [True, True, False]


def test_the_word_on_one_clean_sample_is_no_more_urgent_than_the_finding(taps):
    """So that arsenic found again never presses less than arsenic found once."""
    arsenic(taps, 1, "2026-10-01", "0.05")
    arsenic(taps, 1, "2026-11-01", "0.002")
    (well,) = overview(taps.record(), CATALOGUE, TODAY)
    tank = next(one for one in well.points if one.point.name == "Tank")
    for who in ((), ("infant",)):
        said = advice_at(tank, well.points, CAUTIONS, who, TODAY)
        assert {one.urgent for one in said if not one.people} == {bool(who)}


def test_one_clean_sample_of_raw_water_does_not_end_what_holds_behind_it(taps):
    for day, text in (("2026-10-01", "0.05"), ("2026-11-01", "<0.001")):
        arsenic(taps, 1, day, text)
    assert any("Tank" in line for line in said_at(taps, "Kitchen"))
    arsenic(taps, 1, "2026-11-20", "<0.001")
    assert said_at(taps, "Kitchen") == []


@pytest.mark.parametrize(
    "tested",
    [
        {"arsenic": "0.05"},
        {"e_coli": "Present"},
        {"nitrate": "9.6", "nitrite": "0.9"},  # over only as a sum
        {"lead": "0.02", "sodium": "90"},
        {"iron": "0.1"},
    ],
)
def test_a_sample_about_to_be_kept_is_cautioned_of_as_it_is_once_it_is_kept(book, tested):
    book.set_setting("people", "infant diet")
    units = dict.fromkeys(tested, "mg/L") | {"e_coli": ""}
    bases = {"nitrate": "as N", "nitrite": "as N"}
    results = tuple(
        NewResult(key, key, read_reading(text, unit=units[key], basis=bases.get(key, "")))
        for key, text in tested.items()
    )
    sample = NewSample(1, LocalTime.parse("2026-11-20"), results=results)
    before = advice_on(sample, book.record(), CATALOGUE, CAUTIONS, TODAY)
    book.add_sample(sample)
    who = people(book.record(), TODAY)
    (well,) = overview(book.record(), CATALOGUE, TODAY)
    after = advice_at(well.points[0], well.points, CAUTIONS, who, TODAY)
    assert {one.text for one in before} == {one.text for one in after}
    assert bool(before) is ("iron" not in tested)


def test_a_name_that_nobody_knows_in_a_sample_is_no_reason_for_a_caution(book):
    odd = NewResult("", "Sparkle", read_reading("900", unit="mg/L"))
    sample = NewSample(1, LocalTime.parse("2026-11-20"), results=(odd,))
    assert advice_on(sample, book.record(), CATALOGUE, CAUTIONS, TODAY) == ()


def test_who_drinks_the_water_was_ticked_or_is_told_of_by_events(book):
    book.set_setting("people", "diet nobody")
    book.add_event(1, "pregnancy", "2026-06-01")
    assert people(book.record(), TODAY) == {"diet", PREGNANCY}


def test_a_cap_found_bad_is_told_as_long_as_nobody_mended_it(book):
    def said():
        well = overview(book.record(), CATALOGUE, TODAY)[0]
        return [one.text for one in situations(book.record(), 1, well.points, CAUTIONS, TODAY)]

    book.add_inspection(1, "2020-04-10", [InspectionAnswer(0, 0, "cap", "good")])
    assert said() == []
    cap, wiring = (InspectionAnswer(0, 0, item, "bad") for item in ("cap", "wiring"))
    book.add_inspection(1, "2020-04-11", [cap, wiring])
    assert len(said()) == 1, "six years later it still lets water in"
    other = book.add_well("Barn")
    assert situations(book.record(), other, (), CAUTIONS, TODAY) == ()
    (bad,) = (one.id for one in book.record().answers if (one.item, one.answer) == ("cap", "bad"))
    book.mend(bad, "2026-11-01")
    assert said() == [], "the wiring keeps nothing out"
