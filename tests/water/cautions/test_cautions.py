"""What is said of one parameter: by what it amounts to, and to whom.

The sources stand beside each text in cautions.toml.
"""

from datetime import timedelta
from decimal import Decimal
from itertools import permutations

import pytest
from waters import CATALOGUE, CAUTIONS, TODAY, USUAL, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.cautions import PEOPLE, read_cautions
from wellbook.water.values.readings import Flag
from wellbook.wording.reference import worded_advice


def said(*results, people=(), sets=USUAL):
    found = resolve(judged(*results, sets=sets), CAUTIONS, frozenset(people), TODAY)
    return tuple(map(worded_advice, found))


def words(advice):
    return " ".join(one.text for one in advice)


def test_every_caution_belongs_to_a_known_parameter_and_names_its_source():
    assert CAUTIONS.of.keys() <= CATALOGUE.parameters.keys()
    assert all(caution.source for caution in CAUTIONS.of.values())
    for one in CAUTIONS.people:
        assert set(one.parameters) <= CATALOGUE.parameters.keys()
        assert set(one.who) <= set(PEOPLE)
        assert one.source


def test_three_sentences_stand_with_every_list():
    assert len(CAUTIONS.general) == 3
    assert "One result describes one day." in CAUTIONS.general[0]


def test_a_file_may_leave_out_a_general_sentence(tmp_path):
    path = tmp_path / "cautions.toml"
    path.write_text('[general]\nask = "Ask."\n[lead]\nsource = "made up"\n', encoding="utf-8")
    got = read_cautions(path)
    assert got.general == ("Ask.",)
    assert (got.of["lead"].urgent, got.of["lead"].over) == (False, "")


def test_a_reading_within_its_limit_brings_nothing():
    assert said(result("arsenic", "2", "µg/L")) == ()
    assert said(result("e_coli", "absent")) == ()


def test_a_substance_without_a_limit_speaks_only_when_it_is_detected():
    assert words(said(result("radon_222", "900", "pCi/L"))) == CAUTIONS.of["radon_222"].found
    assert said(result("radon_222", "<100", "pCi/L")) == ()


@pytest.mark.parametrize(("figure", "unit"), [("15", "mg/L"), ("25", "mg/L"), ("29", "mg/L")])
def test_methane_over_its_advisory_warns_of_explosion_however_close_to_the_next_level(figure, unit):
    """10 and 28 mg/L: US Department of the Interior (2001)."""
    assert "Danger of explosion" in words(said(result("methane", figure, unit)))


@pytest.mark.parametrize("figure", ["2.5", "3.5", "4.1"])
def test_fluoride_over_its_secondary_level_is_kept_from_children(figure):
    """2.0 mg/L: notice on children's teeth (40 CFR 143.3, 141.208); the MCL is 4.0."""
    assert "children under about nine" in words(said(result("fluoride", figure, "mg/L")))


def test_methane_and_solvents_below_a_limit_are_told_of_all_the_same():
    assert CAUTIONS.of["methane"].found in words(said(result("methane", "8", "mg/L")))
    assert CAUTIONS.of["benzene"].found in words(said(result("benzene", "1.1", "µg/L")))


def test_both_ends_of_ph_have_their_own_text():
    assert words(said(result("ph", "5.9", "pH units"))) == CAUTIONS.of["ph"].low
    assert words(said(result("ph", "9.2", "pH units"))) == CAUTIONS.of["ph"].over
    assert "Acid" not in CAUTIONS.of["ph"].over


def test_a_level_of_looks_brings_no_advice_on_health():
    """Aluminum 0.05 to 0.2 mg/L is a secondary level (40 CFR 143.3)."""
    advice = words(said(result("aluminum", "0.25", "mg/L"), sets=("us-epa-secondary",)))
    assert advice == CAUTIONS.taste
    assert "drinking" not in advice


def test_pfas_over_the_adopted_limit_ask_for_other_water_today():
    (one,) = said(result("pfoa", "24", "ng/L"), result("pfos", "35", "ng/L"))
    assert "other water" in one.text
    assert "April 2029" in one.text
    assert one.names == ("PFOA", "PFOS")


@pytest.mark.parametrize("text", ["TNTC", "confluent growth"])
@pytest.mark.parametrize("parameter", ["total_coliform", "e_coli"])
def test_bacteria_too_many_to_count_ask_for_other_water_until_a_new_sample(parameter, text):
    """Florida Department of Health treats positive and TNTC alike, read 2026-11-28."""
    advice = said(result(parameter, text, flags=frozenset({Flag.OVERGROWN})))
    assert CAUTIONS.of[parameter].undecided in words(advice)
    assert advice[0].urgent
    assert "other water" in words(advice)


def test_nitrate_without_a_basis_that_may_be_over_is_treated_as_over():
    advice = words(said(result("nitrate", "30", "mg/L", "")))
    assert CAUTIONS.of["nitrate"].undecided in advice
    assert CAUTIONS.of["nitrate"].boil_text in advice


@pytest.mark.parametrize(
    ("person", "rows"),
    [
        ("infant", [("nitrate", "5.5", "mg/L", "as N"), ("nitrate", "9.6", "mg/L", "as N")]),
        ("infant", [("manganese", "0.1", "mg/L", ""), ("manganese", "0.2", "mg/L", "")]),
        ("infant", [("lead", "1", "µg/L", ""), ("lead", "8.3", "µg/L", "")]),
        ("pregnancy", [("lead", "8.3", "µg/L", ""), ("nitrate", "5", "mg/L", "as N")]),
        ("child", [("lead", "8.3", "µg/L", ""), ("fluoride", "2", "mg/L", "")]),
        ("diet", [("sodium", "20", "mg/L", ""), ("sodium", "45", "mg/L", "")]),
        ("infant", [("sulfate", "400", "mg/L", ""), ("copper", "1.5", "mg/L", "")]),
        ("dialysis", [("aluminum", "0.02", "mg/L", ""), ("fluoride", "0.3", "mg/L", "")]),
        ("animals", [("nitrate", "45", "mg/L", "as N"), ("sulfate", "500", "mg/L", "")]),
        ("immune", [("total_coliform", "present", "", ""), ("e_coli", "4", "", "")]),
    ],
)
def test_who_drinks_it_hears_what_concerns_them_and_nobody_else_does(person, rows):
    for parameter, text, unit, basis in rows:
        one = result(parameter, text, unit, basis)
        assert [found for found in said(one, people={person}) if person in found.people], parameter
        assert not [found for found in said(one) if found.people]


def test_urgent_advice_comes_first():
    advice = said(result("copper", "2", "mg/L"), result("nitrate", "12", "mg/L", "as N"))
    assert [one.urgent for one in advice] == sorted((one.urgent for one in advice), reverse=True)


def test_parameters_that_share_a_text_are_named_together():
    advice = said(result("pfoa", "30", "ng/L"), result("pfos", "30", "ng/L"), sets=("us-nj",))
    assert advice[0].names == ("PFOA", "PFOS")


def test_a_figure_of_people_is_read_exactly():
    assert {one.start for one in CAUTIONS.people} >= {Decimal("0.1"), Decimal(20), None}


def test_a_worse_finding_is_told_before_a_milder_one_whatever_the_order_of_the_sample():
    rows = (
        result("copper", "1.1", "mg/L"),
        result("total_coliform", "present"),
        result("lead", "20", "µg/L"),
        result("e_coli", "present"),
    )
    for order in permutations(rows):
        names = [one.names[0] for one in said(*order) if len(one.names) == 1]
        assert names == ["E. coli", "Total coliform", "Lead", "Copper"]


MILD = "does not mean that people will fall ill"


@pytest.mark.parametrize("key", ["e_coli", "fecal_coliform", "enterococci"])
@pytest.mark.parametrize("text", ["present", "TNTC", "4", "not tested", ">1", ""])
def test_coliform_is_not_told_mildly_unless_e_coli_was_looked_for_in_vain(key, text):
    """A positive coliform sample is always tested for E. coli (40 CFR 141.858, from memory)."""
    coliform = result("total_coliform", "present")
    with_it = (coliform, result(key, text)) if text else (coliform,)
    assert MILD not in words(said(*with_it))
    for nothing in ("absent", "0", "<1", "ND"):
        assert MILD in words(said(coliform, result(key, nothing)))
    earlier = result(key, "absent", day=TODAY - timedelta(days=9))
    assert MILD not in words(said(coliform, earlier))


def test_what_is_over_for_taste_alone_still_names_those_whom_it_harms():
    """Manganese 0.05 mg/L (40 CFR 143.3) and 100 µg/L for infants (Minnesota Department of
    Health)."""
    (said_to,) = {one.text for one in CAUTIONS.people if "manganese" in one.parameters}
    for people in ((), ("infant",)):
        advised = said(result("manganese", "0.10", "mg/L"), people=people)
        assert said_to in words(advised)
        assert "not of health" not in words(advised)
        assert [one.urgent for one in advised] == [bool(people)]
        assert [one.people for one in advised] == [people], "private only where somebody is ticked"
    assert words(said(result("manganese", "0.09", "mg/L"))) == CAUTIONS.taste


@pytest.mark.parametrize(
    ("key", "tasted", "near"),
    [("copper", "1.02", "1.29"), ("sulfate", "300", "490"), ("manganese", "0.06", "0.29")],
)
def test_over_a_level_of_taste_and_close_to_one_for_health_is_not_told_as_taste_alone(
    key, tasted, near
):
    """Copper 1.0 and 1.3 (40 CFR 143.3, 141.80); manganese 0.05 and 0.3, sulfate 250 and 500 mg/L
    (40 CFR 143.3, EPA 822-R-04-003, EPA 822-R-03-007)."""
    assert "not of health" not in words(said(result(key, near, "mg/L")))
    assert "close to a limit for health" in words(said(result(key, near, "mg/L")))
    assert "close to a limit for health" not in words(said(result(key, tasted, "mg/L")))
