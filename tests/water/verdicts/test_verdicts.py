"""How readings stand to limits. Figures of limits are those of the regulations named beside."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from alone import then_and_now
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import (
    Judgement,
    Verdict,
    badness,
    headline,
    judge,
    judge_all,
    to_come,
)
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
US = ("us-epa-primary", "us-epa-action-level", "us-epa-secondary", "us-epa-health-advisory")


def result(parameter, text, *, day="2024-05-01", name="", draw="", limit="", **printed):
    return Result(
        id=1,
        sample=1,
        parameter=parameter,
        name=name or CATALOGUE.parameters[parameter].name,
        reading=read_reading(text, **printed),
        collected=LocalTime.parse(day),
        point=1,
        reporting_limit=limit,
        draw=draw,
    )


def limit(high, unit="mg/L", *, low=None, rule=Rule.MAX, kind=LimitKind.HEALTH, **more):
    fields = {
        "set": "us-epa-primary",
        "parameter": "",
        "kind": kind,
        "rule": rule,
        "low": None if low is None else Decimal(low),
        "high": None if high is None else Decimal(high),
        "unit": unit,
        "basis": "",
        "fraction": "",
        "condition": "",
        "start": "1992-07-30",
        "end": "",
        "source": "made up",
        "where": "",
        "checked": False,
        "note": "",
        "rounds": True,
    }
    return Limit(**(fields | more))


NITRATE = limit("10", basis="as N")  # 40 CFR 141.62
ARSENIC = limit("0.010", fraction="total")  # 40 CFR 141.62
COLIFORM = limit("0", "per 100 mL", rule=Rule.ABSENT)  # 40 CFR 141.63
COLIFORM_1975 = limit("1", "per 100 mL")  # 40 FR 59566, monthly mean
PH = limit("8.5", "pH units", low="6.5", rule=Rule.RANGE, kind=LimitKind.AESTHETIC)  # 40 CFR 143.3
LEAD = limit("0.015", kind=LimitKind.ACTION, condition="first draw", fraction="total")
GROSS_ALPHA = limit("15", "pCi/L", condition="net of uranium and radon")  # 40 CFR 141.66


def against(held, parameter, text, **printed):
    one = result(parameter, text, **printed)
    return judge(one, held, CATALOGUE.parameters[parameter], beside=())


def verdict(held, parameter, text, **printed):
    return against(held, parameter, text, **printed).verdict


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10.1", Verdict.OUTSIDE),
        ("10", Verdict.NEAR),
        ("8", Verdict.NEAR),
        ("7.99", Verdict.WITHIN),
        ("0", Verdict.WITHIN),
        ("<0.5", Verdict.UNDETECTED),
        ("<10", Verdict.UNDETECTED),
        ("<10.1", Verdict.UNDECIDABLE),
        ("ND", Verdict.UNDECIDABLE),
        (">10", Verdict.OUTSIDE),
        ("≥10", Verdict.UNDECIDABLE),
        (">5", Verdict.UNDECIDABLE),
        ("present", Verdict.UNDECIDABLE),
        ("absent", Verdict.UNDECIDABLE),
        ("trace", Verdict.UNDECIDABLE),
        ("see note", Verdict.UNDECIDABLE),
        ("not tested", Verdict.UNDECIDABLE),
        ("5 R", Verdict.UNDECIDABLE),
    ],
)
def test_a_reading_against_a_maximum(text, expected):
    assert verdict(NITRATE, "nitrate", text, unit="mg/L", basis="as N") is expected


def test_near_is_only_said_of_health_limits_and_its_share_can_be_set():
    chloride = limit("250", kind=LimitKind.AESTHETIC)
    assert verdict(chloride, "chloride", "249", unit="mg/L") is Verdict.WITHIN
    one = result("nitrate", "6", unit="mg/L", basis="as N")
    nitrate = CATALOGUE.parameters["nitrate"]
    assert judge(one, NITRATE, nitrate, beside=()).verdict is Verdict.WITHIN
    assert (
        judge(one, NITRATE, nitrate, near_share=Decimal("0.5"), beside=()).verdict is Verdict.NEAR
    )


def test_every_undecidable_says_why():
    for text in ("ND", "<50", "present", "hello", "N/A", "5 R", ">5"):
        judgement = against(NITRATE, "nitrate", text, unit="mg/L", basis="as N")
        assert judgement.verdict is Verdict.UNDECIDABLE
        assert why(judgement).endswith(".")


def test_a_value_is_given_in_the_unit_and_basis_of_the_limit():
    assert against(ARSENIC, "arsenic", "12", unit="ug/L").value == Decimal("0.012")
    got = against(NITRATE, "nitrate", "44.3", unit="mg/L", basis="as NO3")
    assert got.value == pytest.approx(Decimal(10), abs=Decimal("0.01"))


def test_a_unit_that_does_not_fit_is_undecidable_with_the_reason():
    judgement = against(ARSENIC, "arsenic", "5", unit="NTU")
    assert judgement.verdict is Verdict.UNDECIDABLE
    assert "different things" in why(judgement)


@pytest.mark.parametrize(
    ("held", "parameter", "text", "rounds"),
    [
        (NITRATE, "nitrate", "10.4", True),  # public-system practice rounds 10.4 to 10
        (NITRATE, "nitrate", "10.5", False),
        (ARSENIC, "arsenic", "0.0104", True),  # results to the nearest 0.001, 40 CFR 141.23
        (ARSENIC, "arsenic", "0.0105", False),
        (limit("0.3", kind=LimitKind.AESTHETIC), "iron", "0.314", False),
    ],
)
def test_the_plain_comparison_counts_and_rounding_is_only_told(held, parameter, text, rounds):
    judgement = against(held, parameter, text, unit="mg/L", basis=held.basis)
    assert judgement.verdict is Verdict.OUTSIDE
    assert ("Rounded" in why(judgement)) is rounds


def test_a_nondetect_without_a_limit_takes_the_one_of_its_row():
    assert verdict(ARSENIC, "arsenic", "ND", unit="ug/L") is Verdict.UNDECIDABLE
    assert verdict(ARSENIC, "arsenic", "ND", unit="ug/L", limit="2") is Verdict.UNDETECTED
    one = replace(result("arsenic", "ND", unit="ug/L"), reporting_limit="0.002 mg/L")
    assert (
        judge(one, ARSENIC, CATALOGUE.parameters["arsenic"], beside=()).verdict
        is Verdict.UNDETECTED
    )
    one = replace(result("arsenic", "ND", unit="ug/L"), detection_limit="1")
    assert (
        judge(one, ARSENIC, CATALOGUE.parameters["arsenic"], beside=()).verdict
        is Verdict.UNDETECTED
    )
    one = replace(result("arsenic", "absent", unit="ug/L"), reporting_limit="2")
    assert (
        judge(one, ARSENIC, CATALOGUE.parameters["arsenic"], beside=()).verdict
        is Verdict.UNDETECTED
    )


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("6.5", Verdict.WITHIN),
        ("8.5", Verdict.WITHIN),
        ("6.4", Verdict.OUTSIDE),
        ("8.6", Verdict.OUTSIDE),
        ("<6.5", Verdict.OUTSIDE),
        ("<7", Verdict.UNDECIDABLE),
        (">8.5", Verdict.OUTSIDE),
        (">7", Verdict.UNDECIDABLE),
        ("present", Verdict.UNDECIDABLE),
    ],
)
def test_a_reading_against_a_range(text, expected):
    assert verdict(PH, "ph", text, unit="SU") is expected
    assert verdict(PH, "ph", text) is expected


# Absent, 0 CFU, <1, <1.1 (ten tubes) and <2 (five tubes) per 100 mL all mean that nothing grew:
# multiple-tube tables of Standard Methods 9221, from memory.
@pytest.mark.parametrize("held", [COLIFORM, COLIFORM_1975])
@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("absent", ""),
        ("Absent/100 mL", ""),
        ("A", "P/A"),
        ("0", "CFU/100 mL"),
        ("0", ""),
        ("<1", "CFU/100 mL"),
        ("<1", "MPN/100 mL"),
        ("<1.1", "MPN/100 mL"),
        ("<2", "MPN/100 mL"),
        ("<2.2", "MPN/100 mL"),
        ("ND", ""),
        ("Not detected", "MPN/100 mL"),
    ],
)
def test_nothing_grown_is_the_same_however_it_is_written(held, text, unit):
    assert verdict(held, "total_coliform", text, unit=unit) is Verdict.UNDETECTED


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("present", ""),
        ("P", "P/A"),
        ("1", "CFU/100 mL"),
        ("1", "CFU/mL"),
        ("5", "colonies per plate"),
        (">2419.6", "MPN/100 mL"),
        ("> 200 TNTC", "CFU/100 mL"),
        ("confluent growth with coliform", "CFU/100 mL"),
    ],
)
def test_any_bacterium_is_outside_where_none_may_be(text, unit):
    assert verdict(COLIFORM, "total_coliform", text, unit=unit) is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("TNTC", "CFU/100 mL"),
        ("confluent growth", "CFU/100 mL"),
        ("confluent growth without coliform", "CFU/100 mL"),
        ("<10", "CFU/100 mL"),
        ("0", "CFU/mL"),
        ("<1", "CFU/mL"),
        ("0", "mg/L"),
    ],
)
def test_a_plate_that_hides_or_a_volume_too_small_is_undecidable(text, unit):
    judgement = against(COLIFORM, "total_coliform", text, unit=unit)
    assert judgement.verdict is Verdict.UNDECIDABLE
    assert why(judgement)


@pytest.mark.parametrize("text", ["0", "absent", "<1"])
@pytest.mark.parametrize("qualifier", ["TNTC", "confluent"])
def test_none_counted_on_an_overgrown_plate_is_undecidable(text, qualifier):
    """Growth that hides coliform made a sample invalid for public supplies (40 CFR 141.853)."""
    got = verdict(COLIFORM, "total_coliform", text, unit="CFU/100 mL", qualifier=qualifier)
    assert got is Verdict.UNDECIDABLE


def test_absent_is_undecidable_and_present_still_outside_when_held_too_long():
    assert verdict(COLIFORM, "e_coli", "absent", qualifier="H") is Verdict.UNDECIDABLE
    assert verdict(COLIFORM, "e_coli", "<1", qualifier="H") is Verdict.UNDECIDABLE
    assert verdict(COLIFORM, "e_coli", "present", qualifier="H") is Verdict.OUTSIDE


def test_a_chemical_held_too_long_keeps_its_verdict_with_a_remark():
    judgement = against(PH, "ph", "7.1", unit="SU", qualifier="H")
    assert (judgement.verdict, "longer" in why(judgement)) == (Verdict.WITHIN, True)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("5", Verdict.WITHIN),
        ("9", Verdict.NEAR),
        ("12", Verdict.UNDECIDABLE),
        ("44", Verdict.UNDECIDABLE),
        ("50", Verdict.OUTSIDE),
        ("<1", Verdict.UNDETECTED),
    ],
)
def test_nitrate_without_a_basis_is_undecidable_where_the_basis_decides(text, expected):
    judgement = against(NITRATE, "nitrate", text, unit="mg/L")
    assert judgement.verdict is expected
    assert "as N or as NO3" in why(judgement)


def test_a_basis_in_the_printed_name_or_unit_settles_it():
    assert verdict(NITRATE, "nitrate", "12", unit="mg/L", name="Nitrate-N") is Verdict.OUTSIDE
    assert verdict(NITRATE, "nitrate", "12", unit="mg/L as NO3") is Verdict.WITHIN


def test_a_filtered_metal_can_only_show_that_a_limit_on_the_total_is_exceeded():
    dissolved = {"unit": "mg/L", "fraction": "Dissolved"}
    assert verdict(ARSENIC, "arsenic", "0.005", **dissolved) is Verdict.UNDECIDABLE
    assert verdict(ARSENIC, "arsenic", "<0.001", **dissolved) is Verdict.UNDECIDABLE
    assert verdict(ARSENIC, "arsenic", "0.011", **dissolved) is Verdict.OUTSIDE
    assert verdict(ARSENIC, "arsenic", "0.005", unit="mg/L", fraction="Total") is Verdict.WITHIN


def test_a_figure_for_the_whole_says_nothing_sure_above_a_limit_on_a_part():
    cyanide = limit("0.2", condition="free")
    assert verdict(cyanide, "cyanide", "0.1", unit="mg/L") is Verdict.WITHIN
    assert verdict(cyanide, "cyanide", "0.3", unit="mg/L") is Verdict.UNDECIDABLE
    assert verdict(cyanide, "cyanide", "0.3", unit="mg/L", fraction="free") is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("text", "draw", "expected", "remark"),
    [
        ("20", "first draw", Verdict.OUTSIDE, "action level"),
        ("20", "flushed", Verdict.OUTSIDE, "was flushed"),
        ("20", "", Verdict.OUTSIDE, "may not be one"),
        ("5", "first draw", Verdict.WITHIN, ""),
        ("5", "flushed", Verdict.UNDECIDABLE, "pipes"),
        ("<1", "flushed", Verdict.UNDECIDABLE, "pipes"),
        ("5", "", Verdict.WITHIN, "does not say"),
    ],
)
def test_a_first_draw_figure_asks_how_the_water_was_drawn(text, draw, expected, remark):
    """40 CFR 141.80: action levels are held against first draws after six hours at rest."""
    judgement = against(LEAD, "lead", text, unit="ug/L", draw=draw)
    assert judgement.verdict is expected
    assert remark in why(judgement)


def alpha(text, *uranium):
    one = result("gross_alpha", text, unit="pCi/L")
    return judge(one, GROSS_ALPHA, CATALOGUE.parameters["gross_alpha"], beside=uranium)


def test_raw_gross_alpha_above_its_limit_is_undecidable_until_uranium_is_known():
    """40 CFR 141.66(c) leaves out radon and uranium."""
    assert alpha("14").verdict is Verdict.NEAR
    assert alpha("20").verdict is Verdict.UNDECIDABLE
    assert alpha("20", result("uranium", "10", unit="pCi/L")).verdict is Verdict.WITHIN
    assert alpha("20", result("uranium", "10", unit="pCi/L")).value == 10
    assert alpha("30", result("uranium", "10", unit="pCi/L")).verdict is Verdict.OUTSIDE
    assert alpha("20", result("uranium", "<1", unit="pCi/L")).verdict is Verdict.OUTSIDE
    assert alpha("15.5", result("uranium", "<1", unit="pCi/L")).verdict is Verdict.UNDECIDABLE


def test_uranium_by_mass_is_taken_off_with_its_ratio_stated():
    judgement = alpha("20", result("uranium", "10", unit="ug/L"))
    assert (judgement.verdict, judgement.value) == (Verdict.NEAR, Decimal("13.3"))
    assert "0.67" in why(judgement)


def test_an_adjusted_gross_alpha_is_judged_as_it_stands():
    one = result("gross_alpha", "20", unit="pCi/L", name="Adjusted Gross Alpha")
    got = judge(one, GROSS_ALPHA, CATALOGUE.parameters["gross_alpha"], beside=())
    assert got.verdict is Verdict.OUTSIDE


def test_flags_are_told_and_an_over_range_figure_is_only_a_lower_bound():
    assert verdict(ARSENIC, "arsenic", "0.005", unit="mg/L", qualifier="E") is Verdict.UNDECIDABLE
    assert verdict(ARSENIC, "arsenic", "0.02", unit="mg/L", qualifier="E") is Verdict.OUTSIDE
    assert "blank" in why(against(ARSENIC, "arsenic", "0.02", unit="mg/L", qualifier="B"))
    assert "estimate" in why(against(ARSENIC, "arsenic", "<0.005 UJ", unit="mg/L"))


def test_conductivity_is_brought_to_the_temperature_of_the_limit():
    """ISO 7888: natural water conducts 1.116 times as well at 25 °C as at 20 °C; from memory."""
    held = limit("2500", "µS/cm", kind=LimitKind.OPERATIONAL, condition="at 20 °C")
    got = against(held, "conductivity", "2700", unit="uS/cm")
    assert got.verdict is Verdict.WITHIN
    assert got.value == pytest.approx(Decimal("2419.35"), abs=Decimal("0.01"))
    assert "1.116" in why(got)


def test_other_conditions_of_a_limit_are_told():
    held = limit("0.1", "µg/L", condition="with metabolites")
    assert "with metabolites" in why(against(held, "atrazine", "0.05", unit="ug/L"))


# 66 FR 6976 (2001-01-22): arsenic 0.05 mg/L until 2006-01-22, 0.010 mg/L from 2006-01-23.
@pytest.mark.parametrize(
    ("day", "then", "now"),
    [
        ("2006-01-22", Verdict.WITHIN, Verdict.OUTSIDE),
        ("2006-01-23", Verdict.OUTSIDE, Verdict.OUTSIDE),
    ],
)
def test_arsenic_is_judged_by_the_limit_of_its_day_and_of_today(day, then, now):
    judged = then_and_now(result("arsenic", "12", unit="ug/L", day=day), CATALOGUE, US, TODAY)
    assert [judgement.verdict for judgement in judged] == [then, now]


def test_a_limit_can_become_looser():
    """56 FR 3526: selenium 0.01 mg/L until 1992-07-29, 0.05 mg/L from 1992-07-30."""
    one = result("selenium", "0.02", unit="mg/L", day="1992-07-29")
    judged = then_and_now(one, CATALOGUE, US, TODAY)
    assert [judgement.verdict for judgement in judged] == [Verdict.OUTSIDE, Verdict.WITHIN]


def test_lead_has_one_action_level_today_and_another_known_to_come():
    """89 FR 86418: 0.015 mg/L until 2027-10-31, 0.010 mg/L from 2027-11-01."""
    one = result("lead", "12", unit="ug/L", draw="first draw", day="2026-11-01")
    assert then_and_now(one, CATALOGUE, US, TODAY)[1].verdict is Verdict.ADOPTED
    assert then_and_now(one, CATALOGUE, US, date(2027, 11, 1))[1].verdict is Verdict.OUTSIDE
    assert [(str(held.high), held.start) for held in to_come("lead", CATALOGUE, US, TODAY)] == [
        ("0.010", "2027-11-01")
    ]


def test_pending_and_proposed_sets_give_no_verdict_but_are_known_to_come():
    sets = ("us-epa-primary-pending", "us-epa-proposed")
    pfoa = result("pfoa", "20", unit="ng/L")
    assert judge_all(pfoa, CATALOGUE, sets, TODAY, beside=()) == ()
    assert {held.set for held in to_come("pfoa", CATALOGUE, sets, TODAY)} == {sets[0]}
    assert {held.set for held in to_come("radon_222", CATALOGUE, sets, TODAY)} == {sets[1]}


def test_classes_give_no_verdict():
    hard = result("hardness", "400", unit="mg/L")
    assert judge_all(hard, CATALOGUE, ("usgs-class",), TODAY, beside=()) == ()


def test_a_limit_known_only_to_its_year_says_so_inside_that_year():
    held = limit("2", set="us-epa-primary", parameter="copper", start="2019")
    catalogue = replace(CATALOGUE, _limits_of={"copper": (held,)})
    one = result("copper", "1", unit="mg/L")
    (inside,) = judge_all(one, catalogue, US, date(2019, 6, 1), beside=())
    (after,) = judge_all(one, catalogue, US, date(2020, 1, 1), beside=())
    assert "known only as 2019" in why(inside)
    assert why(after) == ""
    assert judge_all(one, catalogue, US, date(2018, 12, 31), beside=()) == ()


def test_a_limit_of_unknown_start_says_so_for_the_sampling_day_only():
    held = limit("2", set="us-epa-primary", parameter="copper", start="")
    catalogue = replace(CATALOGUE, _limits_of={"copper": (held,)})
    then, now = then_and_now(result("copper", "1", unit="mg/L"), catalogue, US, TODAY)
    assert "Since when" in why(then)
    assert why(now) == ""


def test_an_unknown_parameter_and_one_without_limits_have_no_limit():
    unknown = replace(result("nitrate", "5"), parameter="")
    assert headline(judge_all(unknown, CATALOGUE, US, TODAY, beside=())) == Judgement(
        Verdict.NO_LIMIT
    )
    hard = result("hardness", "400", unit="mg/L")
    assert headline(judge_all(hard, CATALOGUE, US, TODAY, beside=())).verdict is Verdict.NO_LIMIT


def one(verdict, kind, value=None):
    return Judgement(verdict, limit("10", kind=kind), value and Decimal(value))


def test_the_headline_puts_health_first_and_what_is_over_before_what_is_close():
    health, looks = LimitKind.HEALTH, LimitKind.AESTHETIC
    ranked = [
        one(Verdict.OUTSIDE, health),
        one(Verdict.OUTSIDE, LimitKind.ACTION),
        one(Verdict.OUTSIDE, LimitKind.ADVISORY),
        one(Verdict.UNDECIDABLE, health),
        one(Verdict.OUTSIDE, looks),
        one(Verdict.NEAR, health),
        one(Verdict.UNDECIDABLE, looks),
        one(Verdict.WITHIN, health),
        one(Verdict.WITHIN, looks),
        Judgement(Verdict.NO_LIMIT),
    ]
    while ranked:
        assert headline(reversed(ranked)) is ranked[0]
        ranked.pop(0)


def test_of_two_limits_exceeded_the_one_exceeded_more_is_named():
    less, more = (
        one(Verdict.OUTSIDE, LimitKind.HEALTH, 11),
        one(Verdict.OUTSIDE, LimitKind.HEALTH, 30),
    )
    assert headline([less, more]) is more


_HELD = (
    (NITRATE, "nitrate", "mg/L"),
    (ARSENIC, "arsenic", "ug/L"),
    (COLIFORM, "total_coliform", "CFU/100 mL"),
    (COLIFORM, "e_coli", "CFU/mL"),
    (COLIFORM_1975, "total_coliform", "CFU/100 mL"),
    (LEAD, "lead", "ug/L"),
    (GROSS_ALPHA, "gross_alpha", "pCi/L"),
    (limit("0.2", condition="free"), "cyanide", "mg/L"),
    (limit("0.3", kind=LimitKind.AESTHETIC, fraction="total"), "iron", "mg/L"),
)
_AMOUNTS = st.decimals("0", "60", allow_nan=False, allow_infinity=False, places=3)


@given(
    held=st.sampled_from(_HELD),
    kind=st.sampled_from([Kind.NUMBER, Kind.ABOVE]),
    less=_AMOUNTS,
    added=_AMOUNTS,
    flags=st.frozensets(st.sampled_from(sorted(set(Flag))), max_size=2),
    basis=st.sampled_from(["", "as N", "as NO3"]),
    fraction=st.sampled_from(["", "total", "dissolved"]),
    draw=st.sampled_from(["", "first draw", "flushed"]),
    uranium=st.sampled_from(["", "4", "<3"]),
)
def test_more_of_it_never_makes_a_verdict_better(
    held, kind, less, added, flags, basis, fraction, draw, uranium
):
    limit_held, key, unit = held
    beside = (result("uranium", uranium, unit="pCi/L"),) if uranium else ()

    def bad(number, of_kind):
        reading = Reading(
            "", of_kind, number, unit, basis if key == "nitrate" else "", fraction, flags
        )
        judged = replace(result(key, ""), reading=reading, draw=draw)
        parameter = CATALOGUE.parameters[key]
        return badness(judge(judged, limit_held, parameter, beside=beside).verdict)

    assert bad(less + added, kind) >= bad(less, kind)
    assert bad(less, Kind.ABOVE) >= bad(less, Kind.NUMBER)


@given(st.sampled_from(_HELD), _AMOUNTS, st.text(max_size=12))
def test_any_reading_can_be_judged(held, number, text):
    limit_held, key, unit = held
    for printed in (text, f"<{number}", f">{number}", f"{number} {text}"):
        for given_unit in (unit, text):
            judged = judge(
                result(key, printed, unit=given_unit),
                limit_held,
                CATALOGUE.parameters[key],
                beside=(),
            )
            assert judged.verdict is not Verdict.NO_LIMIT
            assert why(judged) or judged.verdict is not Verdict.UNDECIDABLE
