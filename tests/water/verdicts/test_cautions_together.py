"""Advice for several readings at once: names, lists, and the gases that keep a well closed."""

from dataclasses import replace
from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.cautions import Judged, read_cautions, resolve
from wellbook.water.verdicts.judge import Judgement, Verdict

CATALOGUE = read_catalogue(paths.resources())
CAUTIONS = read_cautions(paths.resources() / "cautions.toml")
SETS = tuple(key for key, known in CATALOGUE.sets.items() if known.default)


def name(key):
    return CATALOGUE.parameters[key].name


def outside(key, kind=LimitKind.HEALTH):
    limit = replace(CATALOGUE.limits_of(key)[0], kind=kind)
    reading = Reading("99", Kind.NUMBER, Decimal(99), limit.unit)
    return Judged(CATALOGUE.parameters[key], reading, Judgement(Verdict.OUTSIDE, limit))


def found(key):
    reading = Reading("5", Kind.NUMBER, Decimal(5))
    return Judged(CATALOGUE.parameters[key], reading, Judgement(Verdict.NO_LIMIT))


def advice(*sample, sets=SETS):
    return resolve(sample, CATALOGUE, sets, CAUTIONS)


def test_three_sentences_stand_with_every_list():
    assert len(CAUTIONS.general) == 3
    assert "One result describes one day." in CAUTIONS.general[0]


def test_a_file_may_leave_out_a_general_sentence(tmp_path):
    path = tmp_path / "cautions.toml"
    path.write_text('[general]\nask = "Ask."\n[lead]\nsource = "made up"\n', encoding="utf-8")
    got = read_cautions(path)
    assert got.general == ("Ask.",)
    assert (got.of["lead"].urgent, got.of["lead"].over) == (False, "")


@pytest.mark.parametrize("gas", ["methane", "benzene"])
def test_bacteria_and_a_gas_keep_the_well_closed_and_name_both(gas):
    said = advice(outside("e_coli"), found(gas), outside("copper"))
    (closed,) = [one for one in said if one.text == CAUTIONS.clashes["disinfect"]]
    assert closed.names == (name("e_coli"), name(gas))
    assert closed.urgent


@pytest.mark.parametrize(
    "sample",
    [
        (outside("e_coli"),),
        (outside("e_coli"), outside("copper")),
        (outside("nitrate"), found("methane")),
        (found("methane"),),
    ],
    ids=["bacteria", "bacteria and a metal", "nitrate and a gas", "a gas"],
)
def test_without_bacteria_and_gas_together_nothing_is_said_of_a_closed_well(sample):
    assert CAUTIONS.clashes["disinfect"] not in {one.text for one in advice(*sample)}


def test_names_are_listed_as_people_list_them():
    said = advice(
        outside("e_coli"), outside("nitrate"), outside("manganese"), outside("trichloroethylene")
    )
    clash = next(one.text for one in said if "do not boil" in one.text)
    three = f"{name('nitrate')}, {name('manganese')} and {name('trichloroethylene')}"
    assert three in clash
    assert f"{name('e_coli')} and" not in clash
    assert f"and {name('e_coli')}" not in clash
    said = advice(outside("e_coli"), outside("nitrate"), outside("manganese"))
    clash = next(one.text for one in said if "do not boil" in one.text)
    assert f"{name('nitrate')} and {name('manganese')}" in clash


def test_a_limit_of_looks_warns_where_the_chosen_sets_have_none_about_health():
    stained = outside("manganese", LimitKind.AESTHETIC)
    assert advice(stained) == ()
    (said,) = advice(stained, sets=("us-epa-secondary",))
    assert said.names == (name("manganese"),)


def test_a_clash_names_only_what_is_outside():
    said = advice(outside("e_coli"), outside("nitrate"), found("radon_222"))
    clash = next(one for one in said if "do not boil" in one.text)
    assert clash.names == (name("e_coli"), name("nitrate"))
