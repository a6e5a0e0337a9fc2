"""What a reading may amount to: bounds from beside it, open bases, small volumes, uranium."""

from dataclasses import replace
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict, judge
from wellbook.wording.reasons import why

PARAMETERS = read_catalogue(resources()).parameters


def limit(high, unit="mg/L", *, rule=Rule.MAX, basis="", condition=""):
    dates = {"start": "", "end": ""}
    told = {"source": "made up", "where": "", "checked": False, "note": ""}
    return Limit(
        set="a-set",
        parameter="",
        kind=LimitKind.HEALTH,
        rule=rule,
        low=None,
        high=Decimal(high),
        unit=unit,
        basis=basis,
        fraction="",
        condition=condition,
        **dates,
        **told,
    )


NITRATE = limit("10", basis="as N")
NET_ALPHA = limit("15", "pCi/L", condition="net of uranium and radon")
NONE_ALLOWED = limit("0", "per 100 mL", rule=Rule.ABSENT)


def result(key, text, *, limits=("", ""), name="", **printed):
    return Result(
        id=1,
        sample=1,
        parameter=key,
        name=name or key,
        reading=read_reading(text, **printed),
        collected=LocalTime.parse("2024-05-01"),
        point=1,
        reporting_limit=limits[0],
        detection_limit=limits[1],
    )


def judged(held, one, *beside):
    return judge(one, held, PARAMETERS[one.parameter], beside=beside)


@pytest.mark.parametrize(
    ("text", "limits", "expected"),
    [
        ("ND", ("1", ""), Verdict.UNDETECTED),
        ("ND", ("<1", ""), Verdict.UNDETECTED),
        ("ND", ("", "1"), Verdict.UNDETECTED),
        ("ND", ("ND", "1"), Verdict.UNDETECTED),
        ("ND", ("see note", "1"), Verdict.UNDETECTED),
        ("ND", (">1", ""), Verdict.UNDECIDABLE),
        ("ND", ("12", "1"), Verdict.UNDECIDABLE),
        ("<12", ("1", "1"), Verdict.UNDECIDABLE),
        ("present", ("1", "1"), Verdict.UNDECIDABLE),
    ],
)
def test_only_a_nondetect_without_its_limit_takes_one_from_beside_it(text, limits, expected):
    one = result("nitrate", text, limits=limits, unit="mg/L", basis="as N")
    assert judged(NITRATE, one).verdict is expected


def test_a_unit_that_carries_its_basis_leaves_no_doubt():
    spelled = Reading("12", Kind.NUMBER, Decimal(12), "mg/L as NO3")
    got = judged(NITRATE, replace(result("nitrate", ""), reading=spelled))
    assert (got.verdict, why(got)) == (Verdict.WITHIN, "")
    assert got.value == pytest.approx(Decimal("2.711"), abs=Decimal("0.001"))


def test_moles_of_nitrate_are_moles_of_nitrogen():
    """One mole of either holds one of N, 14.007 g: 0.5 mmol/L is 7.0 mg/L as N."""
    got = judged(NITRATE, result("nitrate", "0.5", unit="mmol/L"))
    assert (got.verdict, why(got)) == (Verdict.WITHIN, "")
    assert got.value == pytest.approx(Decimal("7.0035"), abs=Decimal("0.001"))


def test_an_open_basis_tells_both_figures():
    """NO3 is 62.004 g/mol and N 14.007: 44 mg/L as NO3 is 9.94 as N."""
    got = judged(NITRATE, result("nitrate", "44", unit="mg/L"))
    assert got.verdict is Verdict.UNDECIDABLE
    assert "as N it is 44 mg/L as N, as NO3 it is 9.94 mg/L as N" in why(got)
    assert why(got).endswith("Ask the lab.")


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("absent", "", ""),
        ("<1", "CFU/100 mL", ""),
        ("ND", "", "The sheet gives no reporting limit; taken as none in 100 mL."),
        ("0", "", "No volume is printed; taken as 100 mL."),
        ("0", "CFU/mL", "from 100 per 100 mL on"),
        ("0", "CFU/10 mL", "from 10 per 100 mL on"),
    ],
)
def test_what_was_assumed_of_a_count_is_told(text, unit, said):
    got = why(judged(NONE_ALLOWED, result("total_coliform", text, unit=unit)))
    assert said in got
    assert bool(said) is bool(got)


@pytest.mark.parametrize(("text", "unit"), [("1", "colonies per plate"), ("0.5", "grains")])
def test_found_is_found_in_any_unit(text, unit):
    got = judged(NONE_ALLOWED, result("total_coliform", text, unit=unit))
    assert (got.verdict, got.value) == (Verdict.OUTSIDE, None)


def test_a_count_is_given_in_the_volume_of_the_limit():
    got = judged(NONE_ALLOWED, result("total_coliform", "5", unit="CFU/mL"))
    assert (got.verdict, got.value) == (Verdict.OUTSIDE, 500)


def alpha(text, *uranium):
    return judged(NET_ALPHA, result("gross_alpha", text, unit="pCi/L"), *uranium)


def uranium(text, unit="pCi/L", **more):
    return result("uranium", text, unit=unit, **more)


def test_a_gross_alpha_that_was_not_found_is_judged_as_it_stands():
    assert alpha("<3").verdict is Verdict.UNDETECTED
    assert alpha("<20", uranium("10")).verdict is Verdict.UNDECIDABLE


def test_without_uranium_the_gross_figure_is_the_most_that_it_can_be():
    assert alpha("14.5").value == Decimal("14.5")
    assert "A uranium result of the same sample would tell." in why(alpha("15.5"))
    assert alpha("15.01").verdict is Verdict.UNDECIDABLE


@pytest.mark.parametrize(
    ("beside", "expected"),
    [
        ([uranium("10")], 10),
        ([result("nitrate", "3", unit="pCi/L"), uranium("10")], 10),
        ([uranium("10", qualifier="R")], 20),
        ([uranium(">10")], 20),
        ([uranium("ND")], 20),
        ([uranium("3", "NTU"), uranium("10")], 10),
        ([uranium("10"), uranium("2")], 18),
        ([uranium("2"), uranium("10")], 18),
    ],
)
def test_the_lowest_sure_uranium_figure_is_taken_off(beside, expected):
    got = alpha("20", *beside)
    highest = got.value if got.value is not None else 20
    assert highest == expected
    assert (got.verdict is Verdict.UNDECIDABLE) is (expected == 20)


def test_a_uranium_that_was_not_found_takes_off_at_least_nothing():
    got = alpha("15", uranium("<1"))
    assert (got.verdict, got.value) == (Verdict.NEAR, 15)
    assert "Uranium of the sample taken off: <1 pCi/L." in why(got)
    assert alpha("15.1", uranium("<1")).verdict is Verdict.UNDECIDABLE


def test_more_uranium_than_gross_alpha_leaves_nothing_and_not_less():
    got = alpha("2", uranium("<3"))
    assert (got.verdict, got.value) == (Verdict.WITHIN, 2)


@pytest.mark.parametrize("text", ["<2.2", "<2"])
def test_five_tubes_without_growth_are_no_growth(text):
    """`<2.2` per 100 mL is all that five tubes of 10 mL can say: Standard Methods 9221."""
    one = result("total_coliform", text, unit="MPN/100 mL")
    assert judged(NONE_ALLOWED, one).verdict is Verdict.UNDETECTED
    more = result("total_coliform", "<2.205", unit="MPN/100 mL")
    assert judged(NONE_ALLOWED, more).verdict is Verdict.UNDECIDABLE


@pytest.mark.parametrize(
    ("unit", "least"),
    [("/mL", "100"), ("CFU/mL", "100"), ("MPN/mL", "100"), ("#/10mL", "10")],
)
def test_none_in_a_small_volume_leaves_room_for_some_in_100_ml(unit, least):
    got = judged(NONE_ALLOWED, result("total_coliform", "0", unit=unit))
    assert got.verdict is Verdict.UNDECIDABLE
    assert f"from {least} per 100 mL on" in why(got)


@pytest.mark.parametrize(
    ("text", "expected"), [("0.4", Verdict.WITHIN), ("1", Verdict.WITHIN), ("14.9", Verdict.NEAR)]
)
def test_a_small_gross_alpha_keeps_its_own_figure(text, expected):
    got = alpha(text)
    assert (got.verdict, got.value) == (expected, Decimal(text))
    got = alpha(text, uranium("<20"))
    assert (got.verdict, got.value) == (expected, Decimal(text))
