"""What a place suggests: its own limits first, and none of them lost."""

import shutil
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from wellbook.planning.place.places import place_of, read_places
from wellbook.planning.settings import scheme, sets
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Force, Limit, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline, judge_all, limits_in_force
from wellbook.water.verdicts.sums import judge_sums

RESOURCES = Path(__file__).parents[2] / "resources"
PLACES = read_places(RESOURCES)
CATALOGUE = read_catalogue(RESOURCES)
TODAY = date(2026, 11, 28)


def test_a_state_adds_its_own_sets_before_those_of_its_country():
    assert place_of(PLACES, "us", "mi").limit_sets[:2] == ("us-mi", "us-epa-primary")
    assert place_of(PLACES, "CA", "ON").limit_sets == ("ca-on", "canada-gcdwq")
    assert place_of(PLACES, "DE", "BY").limit_sets == ("de-trinkwv", "eu-dwd")


def test_a_state_that_says_nothing_is_its_country_and_an_unknown_country_is_elsewhere():
    assert place_of(PLACES, "US", "OH") == PLACES["US"]
    assert place_of(PLACES, "IS") == PLACES["*"]
    assert place_of(PLACES, "") == PLACES["*"]


def test_the_south_has_southern_seasons_and_its_own_paper_and_dates():
    # ISO 216 paper; day before month: Unicode CLDR, en-AU.
    south = place_of(PLACES, "AU", "NSW")
    assert (south.seasons, south.paper, south.dates) == ("south", "a4", "day-first")


def chosen_at(code: str) -> tuple[str, ...]:
    country, _dash, state = ("ZZ" if code == "*" else code).partition("-")
    return sets({"country": country, "subdivision": state}, CATALOGUE)


def worse_than(limit: Limit) -> list[str]:
    """What a lab may print beyond a limit, also below a range and of what must not be there."""
    if limit.rule is Rule.ABSENT:
        return ["Present", "1", ">2419.6"]
    assert limit.high is not None
    below = [] if limit.low is None else [f"{limit.low / 2:f}"]
    return [f"{limit.high * 10:f}", *below]


def told_milder(chosen: tuple[str, ...], limit: Limit) -> list[str]:
    """Each reading worse than a limit that is told milder than outside or undecidable."""
    parameter, milder = CATALOGUE.parameters[limit.parameter], []
    for printed in worse_than(limit):
        reading = read_reading(
            printed, unit="" if printed == "Present" else limit.unit, basis=limit.basis
        )
        result = Result(1, 1, parameter.key, parameter.name, reading, LocalTime(TODAY), point=1)
        told = headline(judge_all(result, CATALOGUE, chosen, TODAY, beside=(result,)))
        if told.verdict not in {Verdict.OUTSIDE, Verdict.UNDECIDABLE}:
            milder.append(f"{limit.set} {limit.parameter} {printed}: {told.verdict}")
    return milder


@pytest.mark.parametrize("code", sorted(PLACES))
def test_nothing_that_the_place_limits_is_told_as_without_a_limit(code: str):
    """Every limit in force with a figure is passed by ten times its figure, by the settings."""
    chosen = chosen_at(code)
    assert set(PLACES[code].limit_sets) == set(chosen)
    held = [limit for limit in CATALOGUE.limits if limit.in_force(TODAY) is Force.YES]
    assert [
        told for limit in held if limit.set in chosen for told in told_milder(chosen, limit)
    ] == []


@pytest.mark.parametrize("chosen", sorted({chosen_at(code) for code in PLACES}))
def test_members_that_pass_the_limit_of_a_sum_only_together_are_told_as_over_it(
    chosen: tuple[str, ...],
):
    for rule in CATALOGUE.sums:
        for limit in limits_in_force(rule.key, CATALOGUE, chosen, TODAY):
            if rule.how == "each":
                continue
            assert limit.high is not None
            share = limit.high * Decimal("1.6") / len(rule.members)
            sample = [
                Result(
                    *(number, 1, term.parameter, term.parameter),
                    read_reading(
                        f"{share * term.over:.6f}",
                        unit=rule.unit if rule.how == "ratios" else limit.unit,
                        basis=term.basis or limit.basis,
                    ),
                    *(LocalTime(TODAY), 1),
                )
                for number, term in enumerate(rule.members, start=1)
            ]
            over = [
                judgement.verdict
                for made, judgement in judge_sums(sample, CATALOGUE, chosen, TODAY)
                if made.rule is rule
            ]
            assert Verdict.OUTSIDE in over, (limit, over)


def test_a_row_that_makes_no_sense_is_named(tmp_path: Path):
    text = (RESOURCES / "places.csv").read_text(encoding="utf-8")
    shutil.copy(RESOURCES / "places.csv", tmp_path)
    (tmp_path / "places.csv").write_text(text.replace("bacteria=4", "bacteria 4"), "utf-8")
    with pytest.raises(ValueError, match=r"places\.csv, row \d+, column months: .*bacteria 4"):
        read_places(tmp_path)


def test_a_household_that_told_its_country_is_judged_by_the_limits_there():
    assert "canada-gcdwq" in sets({"country": "CA"}, CATALOGUE)
    assert not any(key.startswith("us-") for key in sets({"country": "CA"}, CATALOGUE))
    assert sets({"country": "AU"}, CATALOGUE) == ("au-adwg",)
    assert sets({"country": "CA", "limit_sets": "who-gdwq"}, CATALOGUE) == ("who-gdwq",)
    own = set(sets({"country": "US", "subdivision": "MI"}, CATALOGUE))
    assert own == {"us-mi", *sets({}, CATALOGUE)}


def test_a_household_in_the_south_has_southern_seasons_unless_it_chose_others():
    assert scheme({"country": "NZ"}).key == "south"
    assert scheme({"country": "NZ", "seasons": "north"}).key == "north"
    assert scheme({}).key == "north"


def test_the_tropics_have_a_wet_and_a_dry_season():
    # Rains from May to October in Mexico, from November to April in the north of Australia:
    # common practice, no source.
    mexico, north = scheme({"country": "MX"}), scheme({"country": "AU", "subdivision": "NT"})
    named = {scheme.of_month[month - 1] for scheme, month in ((mexico, 7), (north, 1))}
    dry = {scheme.of_month[month - 1] for scheme, month in ((mexico, 1), (north, 7))}
    assert len(named) == len(dry) == 1
    assert named != dry
    assert scheme({"country": "AU", "subdivision": "NSW"}).key == "south"
