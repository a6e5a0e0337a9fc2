"""Limits that are adopted and don't bind yet, sets that are kept in part, and sums of open length.

Figures: 89 FR 32532 (PFAS, from 26 April 2029), 89 FR 86418 (lead 0.010 mg/L from 1 November 2027),
Health Canada's objective of 2024 (30 ng/L for 25 PFAS), Directive (EU) 2020/2184 (0.10 µg/L of each
pesticide, 0.50 in all), Michigan's seven PFAS of 3 August 2020.
"""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import Force
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict, assess, limits_adopted, limits_in_force
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import stand
from wellbook.water.verdicts.sum_status import stand_sums
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
USUAL = tuple(key for key, one in CATALOGUE.sets.items() if one.default)


def record(*rows, day=TODAY, draw=""):
    found = []
    for number, (parameter, text, unit, *more) in enumerate(rows):
        reading = read_reading(text, unit=unit, basis=more[0] if more else "")
        moment = LocalTime(day)
        found.append(
            Result(number, 1, parameter, parameter, reading, moment, 1, draw=draw, analysed=None)
        )
    return PointRecord.of(found)


def standing(*row, sets=USUAL, today=TODAY, draw="", beside=()):
    made = record(row, *beside, draw=draw)
    return stand(made, CATALOGUE.parameters[row[0]], CATALOGUE, sets, today)


def sum_of(key, *rows, sets):
    found = stand_sums(record(*rows), CATALOGUE, sets, TODAY)
    return next((one for one in found if one.parameter.key == key), None)


def test_pfoa_over_the_adopted_federal_limit_is_told_with_figure_and_day():
    found = standing("pfoa", "24", "ng/L")
    assert found.now.verdict is Verdict.ADOPTED
    assert found.now.limit.high == Decimal("4.0")
    assert found.now.limit.start == "2029-04-26"
    assert found.needs_attention


def test_on_the_day_on_which_it_starts_the_same_water_is_outside():
    assert standing("pfoa", "24", "ng/L", today=date(2029, 4, 26)).now.verdict is Verdict.OUTSIDE


def test_mexicos_last_step_for_arsenic_is_told_as_adopted_with_figure_and_day():
    # NOM-127-SSA1-2021, tables 4 and 5 (DOF 2022-05-02, read whole): 0.025 mg/L, and 0.01 six
    # years after it came into force, which point 11 puts at 360 days after it was published.
    mexico = {"sets": ("mx-nom-127",)}
    found = standing("arsenic", "0.02", "mg/L", **mexico)
    assert found.now.verdict is Verdict.ADOPTED
    assert (found.now.limit.high, found.now.limit.start) == (Decimal("0.01"), "2029-04-27")
    assert standing("arsenic", "0.009", "mg/L", **mexico).now.verdict is Verdict.WITHIN
    assert standing("arsenic", "0.03", "mg/L", **mexico).now.verdict is Verdict.OUTSIDE
    later = standing("arsenic", "0.02", "mg/L", today=date(2029, 4, 27), **mexico).now
    assert later.verdict is Verdict.OUTSIDE


STEPS = [
    limit
    for limit in CATALOGUE.limits
    if CATALOGUE.sets[limit.set].standing == "in force"
    and f"{limit.set}-pending" in CATALOGUE.sets
    and (start := limit.period.start)
    and start.first > TODAY
]


@pytest.mark.parametrize("limit", STEPS, ids=lambda limit: f"{limit.set} {limit.parameter}")
def test_over_each_step_to_come_the_set_says_so_from_its_adoption_and_never_milder(limit):
    """A figure a tenth over the step is adopted or worse before its first day, outside on it."""
    over = f"{limit.high * Decimal('1.1'):f}"
    first = limit.period.start.first
    for day, verdicts in (
        (TODAY, {Verdict.ADOPTED, Verdict.OUTSIDE}),
        (first - timedelta(days=1), {Verdict.ADOPTED, Verdict.OUTSIDE}),
        (first, {Verdict.OUTSIDE}),
    ):
        row = (limit.parameter, over, limit.unit, limit.basis)
        found = standing(*row, sets=(limit.set,), today=day, draw=limit.condition)
        judgements = {found.now.verdict, *(filter(None, [found.adopted and found.adopted.verdict]))}
        assert judgements & verdicts, (day, found.now)
        if day < first and found.now.verdict is Verdict.ADOPTED:
            assert found.now.limit.high == limit.high


def test_before_its_adoption_a_limit_is_not_held_against_anybody():
    found = standing("pfhxs", "24", "ng/L", today=date(2023, 1, 1))
    assert found.now.verdict is Verdict.NO_LIMIT


def test_lead_of_12_is_over_the_action_level_to_come_and_that_comes_before_close():
    found = standing("lead", "12", "µg/L", draw="first draw")
    assert found.now.verdict is Verdict.ADOPTED
    assert found.now.limit.start == "2027-11-01"


def test_what_is_outside_a_limit_in_force_says_so_first_and_keeps_the_limit_to_come():
    found = standing("hfpo_da", "50", "ng/L")
    assert found.now.verdict is Verdict.OUTSIDE
    assert found.adopted.limit.start == "2029-04-26"


def test_the_hazard_index_of_the_adopted_rule_is_told_too():
    found = sum_of(
        "pfas_hazard_index", ("pfhxs", "8", "ng/L"), ("pfna", "8", "ng/L"), sets=("us-epa-primary",)
    )
    assert found.now.verdict is Verdict.ADOPTED


def test_a_limit_to_come_says_nothing_to_a_household_that_did_not_choose_its_set():
    assert standing("pfoa", "24", "ng/L", sets=("us-nj",)).now.limit.set == "us-nj"
    assert standing("pfhxs", "24", "ng/L", sets=("us-pa",)).now.verdict is Verdict.NO_LIMIT


def test_a_set_that_is_kept_in_part_is_never_said_to_have_no_limit():
    said = why(standing("methane", "1", "mg/L", sets=("us-mi",)).now)
    assert "Michigan" in said
    assert "not the whole list" in said
    assert why(standing("silica", "9", "mg/L", sets=("us-epa-primary",)).now) == ""


@pytest.mark.parametrize(
    ("sets", "parameter", "figure", "unit"),
    [
        (("us-mi",), "pfoa", "20", "ng/L"),
        (("us-pa",), "pfoa", "20", "ng/L"),
        (("eu-dwd",), "simazine", "0.3", "µg/L"),
        (("eu-dwd",), "glyphosate", "2", "µg/L"),
        (("eu-dwd",), "vinyl_chloride", "5", "µg/L"),
        (("canada-gcdwq",), "trichloroethylene", "50", "µg/L"),
    ],
)
def test_a_figure_that_a_chosen_authority_has_is_held_against_it(sets, parameter, figure, unit):
    assert standing(parameter, figure, unit, sets=sets).now.verdict is Verdict.OUTSIDE


def test_one_pfas_alone_can_be_over_the_canadian_sum_of_25():
    found = sum_of("pfas25", ("pfoa", "40", "ng/L"), sets=("canada-gcdwq",))
    assert found.now.verdict is Verdict.OUTSIDE


def test_two_pfas_can_be_over_the_european_sum_of_20():
    rows = (("pfoa", "80", "ng/L"), ("pfos", "80", "ng/L"))
    assert sum_of("pfas20", *rows, sets=("eu-dwd",)).now.verdict is Verdict.OUTSIDE


def test_six_pesticides_within_can_be_over_the_european_sum():
    keys = ("atrazine", "simazine", "alachlor", "metolachlor", "d_24", "glyphosate")
    found = sum_of("pesticides_total", *((key, "0.09", "µg/L") for key in keys), sets=("eu-dwd",))
    assert found.now.verdict is Verdict.OUTSIDE


def test_a_sum_with_parts_that_are_not_known_here_is_never_called_within():
    rows = [(key, "1", "ng/L") for key in ("pfoa", "pfos", "pfhxs", "pfna", "pfbs", "pfba")]
    assert sum_of("pfas20", *rows, sets=("eu-dwd",)) is None


@pytest.mark.parametrize("parameter", ["pfoa", "trichloroethylene"])
def test_ppt_of_an_organic_trace_is_parts_per_trillion(parameter):
    sets = ("us-nh", "us-epa-primary")
    milder, worse = (standing(parameter, figure, "ppt", sets=sets).now for figure in ("3", "9000"))
    assert milder.verdict in {Verdict.WITHIN, Verdict.NO_LIMIT}
    assert worse.verdict is Verdict.OUTSIDE


def test_ppt_of_a_salt_still_has_to_be_asked_about():
    assert standing("chloride", "3", "ppt").now.verdict is Verdict.UNDECIDABLE


@pytest.mark.parametrize(
    ("parameter", "figure", "basis"),
    [("chromium", "0.15", "as Cr2O3"), ("arsenic", "0.02", "as As2S3"), ("boron", "9", "as NaBO2")],
)
def test_a_basis_that_is_not_known_stops_the_judgement_and_is_named(parameter, figure, basis):
    found = standing(parameter, figure, "mg/L", basis).now
    assert found.verdict is Verdict.UNDECIDABLE
    assert basis in why(found)


def test_a_basis_that_names_the_parameter_again_is_no_obstacle():
    assert standing("chromium", "0.15", "mg/L", "as Cr").now.verdict is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("parameter", "figure", "unit", "basis", "sets"),
    [
        ("nitrate", "50.3", "mg/L", "as NO3", ("who-gdwq",)),
        ("arsenic", "5.4", "µg/L", "", ("us-nh",)),
    ],
)
def test_the_rounding_of_public_supplies_is_named_with_federal_rules_only(
    parameter, figure, unit, basis, sets
):
    found = standing(parameter, figure, unit, basis, sets=sets).now
    assert found.verdict is Verdict.OUTSIDE
    assert "Rounded" not in why(found)
    assert "Rounded" in why(standing("nitrate", "10.4", "mg/L", "as N").now)


@pytest.mark.parametrize(
    ("activity", "verdict"),
    [("19", Verdict.WITHIN), ("21", Verdict.UNDECIDABLE), ("44", Verdict.UNDECIDABLE),
     ("46", Verdict.OUTSIDE)],
)  # fmt: skip
def test_uranium_by_activity_is_decided_only_where_every_usual_ratio_agrees(activity, verdict):
    """30 µg/L; 0.67 pCi/µg of the federal rule of 2000, up to 1.5 in wells (from memory)."""
    found = standing("uranium", activity, "pCi/L", sets=("us-epa-primary",)).now
    assert found.verdict is verdict or (verdict, found.verdict) == (Verdict.WITHIN, Verdict.NEAR)


def test_of_two_uranium_results_the_worse_is_taken_off_gross_alpha():
    uranium = [("uranium", text, "pCi/L") for text in ("10", "1")]
    for beside in (uranium, uranium[::-1]):
        found = standing("gross_alpha", "18", "pCi/L", sets=("us-epa-primary",), beside=beside)
        assert found.now.verdict is Verdict.OUTSIDE


def bacteria(collected, analysed):
    reading = read_reading("Absent", unit="P/A")
    one = Result(
        1, 1, "e_coli", "E. coli", reading, LocalTime.parse(collected), 1,
        analysed=LocalTime.parse(analysed),
    )  # fmt: skip
    (found,) = assess((one,), PointRecord.of((one,)), CATALOGUE, ("us-epa-primary",), TODAY)
    return found.now.verdict


@pytest.mark.parametrize(
    ("collected", "analysed", "verdict"),
    [
        ("2024-05-03", "2024-05-03", Verdict.UNDETECTED),
        ("2024-05-03", "2024-05-04", Verdict.UNDETECTED),
        ("2024-05-03", "2024-05-05", Verdict.UNDECIDABLE),
        ("2024-05-03T20:00", "2024-05-05", Verdict.UNDECIDABLE),
        ("2024-05-03T20:00", "2024-05-05T01:00", Verdict.UNDETECTED),
    ],
)
def test_bacteria_tested_two_days_later_by_the_days_alone_prove_nothing(
    collected, analysed, verdict
):
    assert bacteria(collected, analysed) is verdict


def test_what_is_kept_of_a_stretch_of_days_is_what_each_day_says_by_itself():
    keys = tuple(CATALOGUE.sets)
    asked = 0
    for parameter in CATALOGUE.parameters:
        limits = CATALOGUE.limits_of(parameter)
        bounds = [
            bound
            for limit in limits
            for part in limit.period
            if part is not None
            for bound in (part.first, part.last)
        ]
        for on in sorted({b + timedelta(days=by) for b in bounds for by in (-1, 0, 1)}):
            held = [
                limit
                for limit in limits
                if CATALOGUE.sets[limit.set].standing == "in force"
                and limit.in_force(on) is not Force.NO
            ]
            assert sorted(map(repr, limits_in_force(parameter, CATALOGUE, keys, on))) == sorted(
                map(repr, held)
            )
            fresh = replace(CATALOGUE)
            assert limits_adopted(parameter, CATALOGUE, keys, on) == limits_adopted(
                parameter, fresh, keys, on
            )
            asked += 1
    assert asked > 300
