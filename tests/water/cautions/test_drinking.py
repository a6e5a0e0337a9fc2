"""Boiling, where bacteria were found, by everything else in the water.

Rows of a table of agencies' advice: New York State on boil notices where a chemical is present,
EPA and CDC on cysts, Minnesota and Ontario on nitrate, Ohio State University on methane (read
2026-11-28); that slow harms leave boiling as the lesser one is common practice, no source.
"""

from datetime import date

import pytest
from waters import CAUTIONS, TODAY, USUAL, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.findings import GERMS
from wellbook.water.values.readings import Flag
from wellbook.wording.reference import worded_advice

LOW_NITRATE = ("nitrate", "1", "mg/L", "as N")
BOIL = CAUTIONS.of["e_coli"].boil_text
NO, LAST, LESSER, VENTED = (
    CAUTIONS.boil[name].partition("{")[0][:40] for name in ("no", "last", "lesser", "vented")
)


def advice(*rows, germ="e_coli", people=(), nitrate=LOW_NITRATE, sets=USUAL, day=TODAY):
    """What is said of bacteria together with other readings."""
    results = [result(germ, "present")]
    rows = (*rows, nitrate) if nitrate else rows
    results += [result(*row, number=n, day=day) for n, row in enumerate(rows, 2)]
    found = resolve(judged(*results, sets=sets), CAUTIONS, frozenset(people), TODAY)
    return tuple(map(worded_advice, found))


def words(said):
    return " ".join(worded_advice(one).text for one in said)


def test_with_nothing_else_over_boiling_is_the_advice():
    assert BOIL in words(advice())
    assert "none of this even when it is boiled" not in words(advice(people={"infant"}))


@pytest.mark.parametrize(
    ("row", "says", "boils"),
    [
        (("nitrate", "30", "mg/L", "as N"), NO, False),
        (("nitrate", "9.9", "mg/L", "as N"), NO, False),  # near
        (("nitrate", "30", "mg/L", ""), NO, False),  # basis not known, may be over
        (("nitrite", "1.2", "mg/L", "as N"), NO, False),
        (("nitrate", "6", "mg/L", "as N"), LAST, False),  # half or more
        (("benzene", "0.4", "µg/L", ""), NO, False),
        (("trichloroethylene", "9", "µg/L", ""), NO, False),
        (("methane", "15", "mg/L", ""), NO, False),
        (("methane", "8", "mg/L", ""), NO, False),
        (("atrazine", "9", "µg/L", ""), NO, False),
        (("lead", "20", "µg/L", ""), LESSER, False),
        (("arsenic", "11", "µg/L", ""), LESSER, False),
        (("fluoride", "5", "mg/L", ""), LESSER, False),
        (("uranium", "60", "µg/L", ""), LESSER, False),
        (("manganese", "0.5", "mg/L", ""), LESSER, False),
        (("pfoa", "24", "ng/L", ""), LESSER, False),
        (("radon_222", "20000", "pCi/L", ""), VENTED, True),
        (("copper", "2", "mg/L", ""), "", True),
        (("sulfate", "600", "mg/L", ""), "", True),
        (("sodium", "300", "mg/L", ""), "", True),
        (("turbidity", "8", "NTU", ""), "Let cloudy water settle", True),
    ],
)
def test_what_else_was_found_decides_on_boiling(row, says, boils):
    is_nitrate = row[0] == "nitrate"
    said = words(advice(row, nitrate=None if is_nitrate else LOW_NITRATE))
    assert says in said
    assert (BOIL in said) is boils


@pytest.mark.parametrize("other", ["sulfate", "lead", "copper", "arsenic"])
def test_a_slow_or_nuisance_constituent_never_forbids_to_boil_for_the_sake_of_e_coli(other):
    figure = {"sulfate": "900", "copper": "9"}.get(other, "40")
    unit = "mg/L" if other in {"sulfate", "copper"} else "µg/L"
    assert "do not boil" not in words(advice((other, figure, unit, "")))


@pytest.mark.parametrize("nitrate", [None, LOW_NITRATE])
def test_without_a_fresh_nitrate_babies_and_pregnant_women_get_other_water_only(nitrate):
    day = date(2019, 5, 1) if nitrate else TODAY
    said = words(advice(nitrate=nitrate, people={"infant", "pregnancy"}, day=day))
    assert "Nitrate was not tested here of late" in said
    assert "Other water only" in said
    assert "Nitrate was not tested" not in words(advice(people={"infant"}))


@pytest.mark.parametrize("person", ["infant", "pregnancy", "child"])
@pytest.mark.parametrize("row", [("arsenic", "11", "µg/L", ""), ("lead", "2", "µg/L", "")])
def test_slow_harms_leave_the_young_other_water_only(person, row):
    assert "Other water only" in words(advice(row, people={person}))


def test_any_lead_at_all_keeps_boiled_water_from_children_and_not_from_others():
    said = words(advice(("lead", "2", "µg/L", "")))
    assert BOIL in said
    assert "Other water only" not in said


def test_somebody_with_a_weak_immune_system_boils_without_a_short_cut():
    said = words(advice(people={"immune"}))
    assert BOIL in said
    assert "no filter and no chlorine" in said


def test_chlorine_in_the_sample_takes_nothing_from_a_finding():
    assert BOIL in words(advice(("chlorine_residual", "1", "mg/L", "")))


@pytest.mark.parametrize("gas", [("methane", "8", "mg/L", ""), ("benzene", "1.1", "µg/L", "")])
@pytest.mark.parametrize("germ", sorted(GERMS))
def test_gas_or_fuel_with_bacteria_keeps_the_well_closed_and_names_both(gas, germ):
    (closed,) = [one for one in advice(gas, germ=germ) if one.text == CAUTIONS.clashes["disinfect"]]
    assert closed.urgent
    assert len(closed.names) == 2


def test_without_bacteria_nothing_is_said_of_boiling_for_their_sake():
    said = resolve(judged(result("nitrate", "12", "mg/L", "as N")), CAUTIONS, today=TODAY)
    assert CAUTIONS.of["nitrate"].boil_text in words(said)
    assert NO not in words(said)


def test_bacteria_that_could_not_be_told_bring_the_same_table():
    results = [
        result("e_coli", "TNTC", flags=frozenset({Flag.OVERGROWN})),
        result("nitrate", "30", "mg/L", "as N", number=2),
    ]
    assert NO in words(resolve(judged(*results), CAUTIONS, today=TODAY))


def test_names_are_listed_as_people_list_them():
    rows = (("nitrate", "30", "mg/L", "as N"), ("nitrite", "2", "mg/L", "as N"))
    said = words(advice(*rows, ("trichloroethylene", "9", "µg/L", ""), nitrate=None))
    assert "Nitrate, Nitrite, Trichloroethylene and Nitrate + nitrite" in said
