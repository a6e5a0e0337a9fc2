"""What a place says of authorities, numbers, labs and sales, and what a household says instead."""

import pytest

from wellbook.planning.place.places import known_places
from wellbook.planning.place.whom_to_ask import for_a_reader, of_labs, of_the_place, rules_at
from wellbook.support.paths import resources
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.sampling.sale_rules import read_sale_rules
from wellbook.water.values.seasons import read_scheme
from wellbook.water.values.triggers import BestMonths

CAUTIONS = read_cautions(resources() / "cautions.toml")
RULES = read_sale_rules(resources() / "sale_rules.csv")


def said(settings):
    return " ".join(of_the_place(CAUTIONS, settings).general)


def test_cautions_end_with_the_authority_and_the_number_of_the_place():
    # 112 in the European Union, 000 in Australia: from memory.
    assert "the Gesundheitsamt of your district" in said({"country": "DE"})
    assert said({"country": "DE"}).endswith("In an emergency call 112.")
    assert said({"country": "AU", "subdivision": "NT"}).endswith("In an emergency call 000.")


def test_without_a_place_nobody_is_named():
    assert of_the_place(CAUTIONS, {}) == CAUTIONS


def test_what_the_household_says_goes_before_and_stays_in_the_house():
    own = {"country": "DE", "ask": "Dr. Example", "emergency": "0000"}
    assert "Dr. Example" in said(own)
    assert "call 0000" in said(own)
    told = " ".join(for_a_reader(CAUTIONS, own).general)
    assert "Example" not in told
    assert "call 112" in told


def test_what_vouches_for_a_lab_is_said_in_the_words_of_the_country():
    # ISO/IEC 17025 is the standard for labs; who accredits by it: from memory.
    assert of_labs({}) == ""
    assert "ISO/IEC 17025" in of_labs({"country": "GB", "subdivision": "SCT"})
    assert "certified by the state" in of_labs({"country": "US", "subdivision": "OH"})


@pytest.mark.parametrize("code", [code for code in known_places() if len(code) == 2])
def test_every_country_with_limits_of_its_own_has_an_authority(code):
    place = known_places()[code]
    assert place.ask
    assert place.limit_sets == ("who-gdwq",) or (place.emergency and place.labs)


def names(**settings):
    return [rule.key for rule in rules_at(RULES, settings)]


def test_a_canadian_sale_is_not_told_of_lenders_of_the_united_states():
    assert names(country="CA", subdivision="ON") == ["us-other-loan"]


def test_a_state_has_its_own_rule_and_those_of_its_country():
    oregon = names(country="US", subdivision="OR")
    assert "us-or-sale" in oregon
    assert "us-nj-sale" not in oregon
    assert {"us-va-loan", "us-other-loan"} <= set(oregon)


@pytest.mark.parametrize("state", ["MI", "PA", "HI"])
def test_a_state_without_a_test_at_a_sale_says_so_beside_the_lenders(state):
    told = names(country="US", subdivision=state)
    assert f"us-{state.lower()}-sale" in told
    assert {"us-va-loan", "us-other-loan"} <= set(told)
    assert not {"us-or-sale", "us-nj-sale"} & set(told)


def test_without_a_state_or_a_country_no_rule_that_asks_for_a_test_is_kept_back():
    assert names(country="US") == names() == [rule.key for rule in RULES if rule.parameters]


def test_what_the_rain_decides_is_best_done_in_the_wet_months_of_the_tropics():
    rain, frost = BestMonths.parse("4 5 6 7 rain"), BestMonths.parse("2 3 4 5")
    mexico = read_scheme("wet 5 6 7 8 9 10")
    assert rain.by(mexico) == frozenset(range(5, 11))
    assert frost.by(mexico) == frozenset({2, 3, 4, 5})
    assert rain.by(read_scheme("north")) == frozenset({4, 5, 6, 7})
    assert rain.by(read_scheme("south")) == frozenset({10, 11, 12, 1})


@pytest.mark.parametrize("text", ["13", "0", "spring"])
def test_what_is_no_month_is_refused(text):
    with pytest.raises(ValueError, match=text):
        BestMonths.parse(text)
