"""Advice is resolved over the whole sample.

That boiling is the usual advice for E. coli and wrong for nitrate: EPA and CDC advice to well
owners, Nebraska Extension on nitrate; the sources stand beside each text in cautions.toml.
"""

from dataclasses import replace
from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.cautions import INFANT, Judged, read_cautions, resolve
from wellbook.water.verdicts.judge import Judgement, Verdict


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture(scope="module")
def cautions():
    return read_cautions(paths.resources() / "cautions.toml")


@pytest.fixture
def sets(catalogue):
    return tuple(key for key, known in catalogue.sets.items() if known.default)


def outside(catalogue, key, kind=LimitKind.HEALTH):
    limit = replace(catalogue.limits_of(key)[0], kind=kind)
    reading = Reading("99", Kind.NUMBER, Decimal(99), limit.unit)
    return Judged(catalogue.parameters[key], reading, Judgement(Verdict.OUTSIDE, limit))


def unlimited(catalogue, key, kind=Kind.NUMBER):
    return Judged(
        catalogue.parameters[key], Reading("5", kind, Decimal(5)), Judgement(Verdict.NO_LIMIT)
    )


def words(advice):
    return " ".join(one.text for one in advice)


def test_bacteria_alone_bring_the_advice_to_boil(catalogue, cautions, sets):
    said = resolve([outside(catalogue, "e_coli")], catalogue, sets, cautions)
    assert cautions.of["e_coli"].boil_text in words(said)


def test_nitrate_alone_says_not_to_boil(catalogue, cautions, sets):
    said = resolve([outside(catalogue, "nitrate")], catalogue, sets, cautions)
    assert cautions.of["nitrate"].boil_text in words(said)


@pytest.mark.parametrize("other", ["nitrate", "manganese", "fluoride", "pfoa", "trichloroethylene"])
def test_where_boiling_helps_one_and_harms_another_one_text_takes_the_place_of_both(
    catalogue, cautions, sets, other
):
    sample = [outside(catalogue, "e_coli"), outside(catalogue, other)]
    said = resolve(sample, catalogue, sets, cautions)
    names = (catalogue.parameters["e_coli"].name, catalogue.parameters[other].name)
    clash = next(one for one in said if one.names == names and "do not boil" in one.text)
    assert clash.urgent
    assert cautions.of["e_coli"].boil_text not in words(said)
    assert cautions.of[other].boil_text not in words(said)
    assert cautions.of["e_coli"].over in words(said)


def test_bacteria_with_methane_found_ask_for_a_contractor_before_the_well_is_opened(
    catalogue, cautions, sets
):
    sample = [outside(catalogue, "total_coliform"), unlimited(catalogue, "methane")]
    said = resolve(sample, catalogue, sets, cautions)
    assert cautions.clashes["disinfect"] in words(said)


def test_an_aesthetic_level_brings_no_health_caution_where_a_health_figure_exists(
    catalogue, cautions, sets
):
    stained = outside(catalogue, "manganese", LimitKind.AESTHETIC)
    assert resolve([stained], catalogue, sets, cautions) == ()


def test_fluoride_over_the_secondary_level_warns_though_the_health_limit_is_higher(
    catalogue, cautions, sets
):
    """Fluoride 2.0 mg/L: notice on children's teeth (40 CFR 143.3, 141.208); the MCL is 4.0."""
    over = outside(catalogue, "fluoride", LimitKind.AESTHETIC)
    assert cautions.of["fluoride"].over in words(resolve([over], catalogue, sets, cautions))


def test_a_ph_off_its_range_warns_though_its_only_limit_is_aesthetic(catalogue, cautions, sets):
    sour = outside(catalogue, "ph", LimitKind.AESTHETIC)
    assert words(resolve([sour], catalogue, sets, cautions)) == cautions.of["ph"].over


def test_a_reading_within_its_limit_brings_nothing(catalogue, cautions, sets):
    calm = outside(catalogue, "e_coli")
    calm = replace(calm, judgement=replace(calm.judgement, verdict=Verdict.WITHIN))
    assert resolve([calm], catalogue, sets, cautions) == ()


def test_a_substance_without_a_limit_speaks_only_when_it_is_detected(catalogue, cautions, sets):
    radon = unlimited(catalogue, "radon_222")
    assert words(resolve([radon], catalogue, sets, cautions)) == cautions.of["radon_222"].found
    clean = unlimited(catalogue, "radon_222", Kind.BELOW)
    assert resolve([clean], catalogue, sets, cautions) == ()


def test_what_concerns_infants_is_said_only_when_one_drinks_the_water(catalogue, cautions, sets):
    sample = [outside(catalogue, "nitrate")]
    extra = cautions.of["nitrate"].special[INFANT]
    assert extra not in words(resolve(sample, catalogue, sets, cautions))
    assert extra in words(resolve(sample, catalogue, sets, cautions, {INFANT}))


def test_parameters_that_share_a_text_are_named_together(catalogue, cautions, sets):
    sample = [outside(catalogue, "pfoa"), outside(catalogue, "pfos")]
    (said,) = resolve(sample, catalogue, sets, cautions)
    assert said.names == (catalogue.parameters["pfoa"].name, catalogue.parameters["pfos"].name)


def test_urgent_advice_comes_first(catalogue, cautions, sets):
    sample = [outside(catalogue, "copper"), outside(catalogue, "nitrate")]
    said = resolve(sample, catalogue, sets, cautions)
    assert [one.urgent for one in said] == [True, False]


def test_every_caution_belongs_to_a_known_parameter_and_names_its_source(catalogue, cautions):
    assert cautions.of.keys() <= catalogue.parameters.keys()
    assert all(caution.source for caution in cautions.of.values())
