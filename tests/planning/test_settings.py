"""What a household chose, what follows from its place, and where each is used."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from wellbook.planning.frequencies import advised
from wellbook.planning.place.choices import PEOPLE, SETTINGS, changed
from wellbook.planning.settings import (
    ask,
    currency,
    dates,
    language,
    near,
    of_files,
    paper,
    printing,
    sets,
    shown,
    unit_choice,
    unit_choices,
    units,
    well_kind,
    yardsticks,
)
from wellbook.support.errors import Fault
from wellbook.support.translation import language_now
from wellbook.water.cautions.findings import Finding, Judged, finding
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline, judge_all

CATALOGUE = read_catalogue(Path(__file__).parents[2] / "resources")
TODAY = date(2026, 11, 28)


def origins(settings):
    return {one.key: one.origin(settings, CATALOGUE) for one in SETTINGS}


def test_nothing_is_chosen_in_a_new_book_and_it_starts_with_the_sets_of_its_first_country():
    assert set(origins({}).values()) == {"usual"}
    assert sets({}, CATALOGUE)[0] == "us-epa-primary"
    assert (paper({}), units({}), language({}), currency({})) == ("letter", "usual", "", "")


def test_a_place_suggests_what_was_not_chosen_and_a_choice_goes_before_it():
    # ISO 216 paper and day before month: Unicode CLDR, en-AU; AUD: ISO 4217.
    south = {"country": "AU"}
    assert (paper(south), dates(south), currency(south)) == ("a4", "day-first", "AUD")
    assert origins(south)["paper"] == "from the place"
    chosen = {**south, "paper": "letter"}
    assert paper(chosen) == "letter"
    assert origins(chosen)["paper"] == "chosen"


def test_an_empty_value_goes_back_to_what_the_place_says():
    kept = changed({"country": "AU", "paper": "letter"}, CATALOGUE, [("paper", "")])
    assert kept == {"paper": ""}
    assert paper({"country": "AU", "paper": ""}) == "a4"


def test_a_country_is_read_before_its_state_and_another_one_lets_the_state_go():
    assert changed({}, CATALOGUE, [("state", "mn"), ("country", "us")]) == {
        "country": "US",
        "subdivision": "MN",
    }
    moved = changed({"country": "US", "subdivision": "MN"}, CATALOGUE, [("country", "CA")])
    assert moved == {"country": "CA", "subdivision": ""}


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        ("country", "XX", "country: XX is not known"),
        ("country", "USA", "two letters"),
        ("state", "MN", "say the country first"),
        ("well-kind", "hole", "drilled, driven, dug, spring"),
        ("people", "cat", "infant"),
        ("limit-sets", "mine", "us-epa-primary"),
        ("seasons", "monsoon", "north, south, or wet"),
        ("units", "cubits", "household"),
        ("near", "0", "10 % to 95 %"),
        ("near", "110", "10 % to 95 %"),
        ("near", "half", "10 % to 95 %"),
        ("near", "nan", "10 % to 95 %"),
        ("language", "la", "en, es"),
        ("paper", "a3", "letter, a4"),
        ("currency", "dollars", "ISO 4217"),
        ("dates", "year-first", "month-first, day-first, asked"),
        ("interval", "0", "1 to 240"),
        ("colour", "green", "There is no setting colour"),
    ],
)
def test_what_cannot_be_read_is_said_with_what_is_known(key, typed, said):
    with pytest.raises(Fault, match=said):
        changed({}, CATALOGUE, [(key, typed)])


@pytest.mark.parametrize("typed", ["0.7", "70%", "70 %", "70", "0,7"])
def test_near_is_a_share_however_it_is_typed(typed):
    assert changed({}, CATALOGUE, [("near", typed)]) == {"near": "0.7"}


def nitrate(text):
    reading = read_reading(text, unit="mg/L", basis="as N")
    return Result(1, 1, "nitrate", "Nitrate", reading, LocalTime(TODAY), point=1)


@pytest.mark.parametrize(
    ("share", "text", "verdict"),
    [
        ("0.8", "7.9", Verdict.WITHIN),
        ("0.5", "5", Verdict.NEAR),
        ("0.5", "4.9", Verdict.WITHIN),
        ("0.9", "8.5", Verdict.WITHIN),
        ("0.9", "10.1", Verdict.OUTSIDE),
    ],
)
def test_the_chosen_share_decides_what_is_near(share, text, verdict):
    catalogue, chosen = yardsticks({"near": share}, CATALOGUE)
    result = nitrate(text)
    judged = judge_all(result, catalogue, chosen, TODAY, beside=(result,))
    assert headline(judged).verdict is verdict


def test_who_calls_less_close_to_a_limit_gets_no_fewer_cautions():
    catalogue, chosen = yardsticks({"near": "0.95"}, CATALOGUE)
    result = nitrate("9")
    judged = judge_all(result, catalogue, chosen, TODAY, beside=(result,))
    one = Judged(CATALOGUE.parameters["nitrate"], result.reading, judged, TODAY)
    assert headline(judged).verdict is Verdict.WITHIN
    assert finding(one, None) is Finding.NEAR
    assert near({"near": "0.95"}) == Decimal("0.95")


def test_the_kind_of_well_and_the_place_ask_for_bacteria_more_often_and_both_say_so():
    # Health Canada: two to three times a year; Ontario public health units: three times a year.
    found = advised({"country": "CA", "subdivision": "ON", "well_kind": "dug"}, {}, "bacteria")
    assert [one.months for one in found] == [3, 4]
    assert "dug or bored well" in found[0].why
    assert "Ontario" in found[1].why
    assert all("(" in one.why for one in found)  # who says so


def test_a_drilled_well_where_a_test_a_year_is_advised_keeps_the_usual_interval():
    assert advised({"country": "US", "well_kind": "drilled"}, {}, "bacteria") == ()


def test_what_the_log_of_a_well_says_goes_before_what_was_chosen_for_all():
    assert well_kind({"well_kind": "dug"}, {"kind": "drilled"}) == "drilled"
    assert well_kind({"well_kind": "dug"}, {"depth": "40 ft"}) == "dug"


@pytest.mark.parametrize(("chosen", "said"), [("es", "es"), ("xx", ""), ("", "")])
def test_a_language_that_nobody_translated_is_as_if_none_were_chosen(chosen, said):
    assert language({"language": chosen}) == said


def test_who_is_asked_is_whom_the_household_wrote_down_before_whom_its_place_suggests():
    place = {"country": "ZZ"}  # the first row of `places.csv`: anywhere else
    assert ask(place) == "the health authority of your district"
    assert ask(place | {"ask": "the clinic on Mill Lane"}) == "the clinic on Mill Lane"
    assert ask({}) == ""


def test_a_place_suggests_what_its_people_and_agencies_use_and_nothing_of_the_house():
    suggested = {one.key for one in SETTINGS if one.follows}
    assert suggested == {"limit-sets", "seasons", "units", "language", "paper", "currency", "dates",
                         "decimal", "ask", "emergency"}  # fmt: skip
    assert {one.key for one in SETTINGS} - suggested == {
        "country", "state", "well-kind", "ground", "people", "interval", "near",
    }  # fmt: skip


@pytest.mark.parametrize("word", PEOPLE)
def test_who_drinks_the_water_is_kept_and_told_in_the_words_that_were_typed(word):
    kept = changed({}, CATALOGUE, [("people", word)])
    (people,) = (one for one in SETTINGS if one.key == "people")
    assert people.now(kept, CATALOGUE) == (word,)
    assert people.origin(kept, CATALOGUE) == "chosen"
    assert people.now({}, CATALOGUE) == ()


@pytest.mark.parametrize(("typed", "kept"), [("10", "0.1"), ("0.1", "0.1"), ("95 %", "0.95")])
def test_near_goes_from_10_to_95_per_cent_both_included(typed, kept):
    assert changed({}, CATALOGUE, [("near", typed)]) == {"near": kept}


@pytest.mark.parametrize("typed", ["9.9", "95.1", "0.951", "1", "1 %", "inf", "-50"])
def test_near_is_neither_less_nor_more(typed):
    with pytest.raises(Fault, match="10 % to 95 %"):
        changed({}, CATALOGUE, [("near", typed)])


def test_words_of_a_caution_have_room_for_120_characters():
    assert changed({}, CATALOGUE, [("ask", "a" * 120)]) == {"ask": "a" * 120}
    with pytest.raises(Fault, match="at most 120 characters"):
        changed({}, CATALOGUE, [("ask", "a" * 121)])


def test_a_state_is_one_of_its_country_with_or_without_its_code_before():
    us = {"country": "US"}
    assert changed(us, CATALOGUE, [("state", "us-mn")]) == {"subdivision": "MN"}
    with pytest.raises(Fault, match=r"state \(US\): bc is not known"):
        changed(us, CATALOGUE, [("state", "bc")])
    with pytest.raises(Fault, match="nothing depends on the state in MX"):
        changed({"country": "MX"}, CATALOGUE, [("state", "JAL")])  # no holidays of its own


def test_the_same_country_again_keeps_its_state():
    at_home = {"country": "US", "subdivision": "MN"}
    assert changed(at_home, CATALOGUE, [("country", "us")]) == {}
    assert changed(at_home, CATALOGUE, [("country", "CA"), ("state", "ON")]) == {
        "country": "CA",
        "subdivision": "ON",
    }
    assert changed({"country": "US"}, CATALOGUE, [("country", "CA")]) == {"country": "CA"}


def test_only_limit_sets_in_force_are_chosen_each_once():
    kept = changed({}, CATALOGUE, [("limit-sets", "who-gdwq, us-epa-primary who-gdwq")])
    assert kept == {"limit_sets": "who-gdwq us-epa-primary"}
    others = [key for key, one in CATALOGUE.sets.items() if one.standing != "in force"]
    assert others
    for key in others:
        with pytest.raises(Fault, match=f"limit-sets: {key} is not known"):
            changed({}, CATALOGUE, [("limit-sets", f"us-mi {key}")])


def test_figures_are_shown_in_the_chosen_units_and_as_usual_where_nobody_knows_them():
    assert unit_choice("usual", CATALOGUE).units == {}
    for one in unit_choices(CATALOGUE):
        assert unit_choice(one.key, CATALOGUE) == one
        seen = shown({"units": one.key}, CATALOGUE).parameters
        assert {key: seen[key].shown for key in one.units} == one.units
    assert shown({"units": "cubits"}, CATALOGUE) is CATALOGUE
    assert shown({}, CATALOGUE) is CATALOGUE
    with pytest.raises(Fault, match="There are no units cubits; there are: usual, "):
        unit_choice("cubits", CATALOGUE)


def test_what_is_printed_is_said_in_the_language_that_was_chosen_for_it():
    for chosen, said in (("es", "es"), ("", "en"), ("xx", "en"), ("en", "en")):
        with printing({"language": chosen}):
            assert language_now().key == said
        assert language_now().key == "en"


def test_files_of_labs_are_read_as_is_usual_at_the_place_unless_it_was_chosen():
    # A comma stands before decimals in Germany, a point in the United States: Unicode CLDR.
    kept = {"country": "DE", "subdivision": "BY"}
    told = of_files(lambda key: kept.get(key, ""))
    assert told == {"country": "DE", "dates": "", "decimal": "comma"}
    kept |= {"dates": "asked", "decimal": "point"}
    told = of_files(lambda key: kept.get(key, ""))
    assert told == {"country": "DE", "dates": "asked", "decimal": "point"}
