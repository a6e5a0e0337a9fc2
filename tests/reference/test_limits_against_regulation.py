"""Limits held against the text of the rules, day by day where they moved."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.water.values.limits import Force, Limit

RESOURCES = Path(__file__).parents[2] / "resources"
PRIMARY = "us-epa-primary"


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue(RESOURCES)


def held(catalogue: Catalogue, set_key: str, parameter: str, day: str) -> list[Limit]:
    on = date.fromisoformat(day)
    return [
        limit
        for limit in catalogue.limits_of(parameter)
        if limit.set == set_key and limit.in_force(on) is Force.YES
    ]


@pytest.mark.parametrize(
    ("set_key", "parameter", "day", "figures"),
    [
        # Arsenic: 40 CFR 141.11(b), 141.62(b)(16), 66 FR 6976 (2001-01-22): 0.010 from 2006-01-23.
        (PRIMARY, "arsenic", "2001-01-22", ["0.05"]),
        (PRIMARY, "arsenic", "2006-01-22", ["0.05"]),
        (PRIMARY, "arsenic", "2006-01-23", ["0.010"]),
        # Uranium: 40 CFR 141.66(e), 65 FR 76708: none before 2003-12-08, then 30 µg/L.
        (PRIMARY, "uranium", "2003-12-07", []),
        (PRIMARY, "uranium", "2003-12-08", ["30"]),
        # Lead: 0.05 until the rule of 56 FR 26460 took effect on 1992-12-07.
        (PRIMARY, "lead", "1992-12-06", ["0.05"]),
        (PRIMARY, "lead", "1992-12-07", []),
        ("us-epa-action-level", "lead", "1992-12-07", ["0.015"]),
        ("us-epa-action-level", "lead", "2026-11-25", ["0.015"]),
        # 89 FR 86418 (2024-10-30): 0.010 with compliance on 2027-11-01.
        ("us-epa-action-level", "lead", "2027-10-31", ["0.015"]),
        ("us-epa-action-level", "lead", "2027-11-01", ["0.010"]),
        ("us-epa-action-level", "copper", "2020-06-01", ["1.3"]),
        # Limits that rose: 40 CFR 141.62(b) against 141.11(b); dates in 40 CFR 141.6(g) and 141.60.
        (PRIMARY, "chromium", "1992-07-29", ["0.05"]),
        (PRIMARY, "chromium", "1992-07-30", ["0.1"]),
        (PRIMARY, "selenium", "1992-07-29", ["0.01"]),
        (PRIMARY, "selenium", "1992-07-30", ["0.05"]),
        (PRIMARY, "barium", "1992-12-31", ["1.0"]),
        (PRIMARY, "barium", "1993-01-01", ["2"]),
        # Nickel: in force 1994-01-17, remanded 1995-02-09 (60 FR 33929), never replaced.
        (PRIMARY, "nickel", "1994-06-01", ["0.1"]),
        (PRIMARY, "nickel", "1995-02-09", []),
        # Nitrate and nitrite: 40 CFR 141.62(b)(7) to (9).
        (PRIMARY, "nitrate", "2024-01-01", ["10"]),
        (PRIMARY, "nitrite", "2024-01-01", ["1"]),
        (PRIMARY, "nitrate_nitrite", "2024-01-01", ["10"]),
        # Fluoride: 40 CFR 141.62(b)(1) from 1987-10-02.
        (PRIMARY, "fluoride", "2024-01-01", ["4.0"]),
        # Organics: 40 CFR 141.61(a) and its dates in 141.60(a)(1).
        (PRIMARY, "benzene", "1989-01-08", []),
        (PRIMARY, "benzene", "1989-01-09", ["0.005"]),
        (PRIMARY, "vinyl_chloride", "2024-01-01", ["0.002"]),
        (PRIMARY, "dichloroethylene_11", "2024-01-01", ["0.007"]),
        (PRIMARY, "trichloroethane_112", "2024-01-01", ["0.005"]),
        # Trihalomethanes: 40 CFR 141.64; ground water supplies from 2004-01-01.
        (PRIMARY, "tthm", "2003-12-31", ["0.10"]),
        (PRIMARY, "tthm", "2004-01-01", ["0.080"]),
        # Radium: 40 CFR 141.66(b).
        (PRIMARY, "radium_combined", "2024-01-01", ["5"]),
        (PRIMARY, "gross_alpha", "2024-01-01", ["15"]),
        # PFAS: 89 FR 32532 (2024-04-26), 40 CFR 141.60(a)(4): nothing binds before 2029-04-26.
        (PRIMARY, "pfoa", "2026-11-25", []),
        (PRIMARY, "pfoa", "2029-04-26", ["4.0"]),
        (PRIMARY, "pfos", "2029-04-26", ["4.0"]),
        # Canada: technical documents on lead (2019-03-08) and barium (January 2020).
        ("canada-gcdwq", "lead", "2019-03-07", ["0.010"]),
        ("canada-gcdwq", "lead", "2019-03-08", ["0.005"]),
        ("canada-gcdwq", "barium", "2019-06-01", ["1.0"]),
        ("canada-gcdwq", "barium", "2020-06-01", ["2.0"]),
        # European Union: 98/83/EC, Annex I part B note 4: 25 until 2013-12-24, then 10.
        ("eu-dwd", "lead", "2013-12-24", ["25"]),
        ("eu-dwd", "lead", "2013-12-25", ["10"]),
    ],
)
def test_the_figure_that_held_on_a_day(
    catalogue: Catalogue, set_key: str, parameter: str, day: str, figures: list[str]
):
    # The figure is written with the places that the rule prints: 0.010 is not 0.01.
    assert [str(limit.high) for limit in held(catalogue, set_key, parameter, day)] == figures


@pytest.mark.parametrize(
    ("parameter", "figure", "unit"),
    [
        # 40 CFR 143.3.
        ("chloride", "250", "mg/L"),
        ("color", "15", "color units"),
        ("copper", "1.0", "mg/L"),
        ("fluoride", "2.0", "mg/L"),
        ("surfactants", "0.5", "mg/L"),
        ("iron", "0.3", "mg/L"),
        ("manganese", "0.05", "mg/L"),
        ("odor", "3", "TON"),
        ("silver", "0.1", "mg/L"),
        ("sulfate", "250", "mg/L"),
        ("tds", "500", "mg/L"),
        ("zinc", "5", "mg/L"),
    ],
)
def test_the_secondary_levels_are_those_of_the_rule(
    catalogue: Catalogue, parameter: str, figure: str, unit: str
):
    (limit,) = held(catalogue, "us-epa-secondary", parameter, "2026-11-25")
    assert (str(limit.high), limit.unit, str(limit.kind)) == (figure, unit, "aesthetic")


def test_the_band_for_ph_allows_both_ends(catalogue: Catalogue):
    # 40 CFR 143.3: 6.5 to 8.5.
    (limit,) = held(catalogue, "us-epa-secondary", "ph", "2026-11-25")
    assert (str(limit.low), str(limit.high)) == ("6.5", "8.5")


def test_nitrogen_limits_are_counted_as_nitrogen_and_the_others_as_ions(catalogue: Catalogue):
    # 40 CFR 141.62(b): as nitrogen. Directive 98/83/EC, WHO and Health Canada: as nitrate.
    bases = {
        limit.set: (limit.basis, str(limit.high))
        for limit in catalogue.limits_of("nitrate")
        if not limit.end and limit.set in {PRIMARY, "canada-gcdwq", "who-gdwq", "eu-dwd"}
    }
    assert bases == {
        PRIMARY: ("as N", "10"),
        "canada-gcdwq": ("as NO3", "45"),
        "who-gdwq": ("as NO3", "50"),
        "eu-dwd": ("as NO3", "50"),
    }


def test_coliform_has_no_limit_of_its_own_any_more_but_still_calls_for_action(
    catalogue: Catalogue,
):
    # 40 CFR 141.63 and 78 FR 10270: a maximum until 2016-03-31, a trigger from 2016-04-01.
    (before,) = held(catalogue, PRIMARY, "total_coliform", "2016-03-31")
    (after,) = held(catalogue, PRIMARY, "total_coliform", "2016-04-01")
    assert str(before.kind) == "health"
    assert str(after.kind) == "action level"


def test_lead_and_copper_are_meant_for_a_first_draw(catalogue: Catalogue):
    # 40 CFR 141.80(c) and 141.86: first litre after at least six hours without use.
    for parameter in ("lead", "copper"):
        for limit in catalogue.limits_of(parameter):
            if limit.set == "us-epa-action-level":
                assert limit.condition == "first draw"


def test_gross_alpha_is_judged_net_of_uranium_and_radon(catalogue: Catalogue):
    # 40 CFR 141.66(c).
    (raw,) = held(catalogue, PRIMARY, "gross_alpha", "2026-11-25")
    (net,) = held(catalogue, PRIMARY, "gross_alpha_net", "2026-11-25")
    assert raw.condition == "net of uranium and radon"
    assert not net.condition
    assert raw.high == net.high == Decimal(15)


def test_no_state_limit_for_wells_in_the_file_is_looser_than_the_federal_one_it_tightens(
    catalogue: Catalogue,
):
    # N.J.A.C. 7:10-5.2(a) calls its figures more stringent than the national ones.
    for limit in catalogue.limits:
        if limit.set != "us-nj" or limit.unit != "µg/L":
            continue
        for federal in held(catalogue, PRIMARY, limit.parameter, "2026-11-25"):
            assert limit.high is not None
            assert federal.high is not None
            assert limit.high / 1000 < federal.high, limit.parameter


def test_what_is_said_of_pfas_and_lead_names_the_day_it_was_read(catalogue: Catalogue):
    for limit in catalogue.limits:
        moving = limit.set == PRIMARY and limit.start == "2029-04-26"
        if moving or (limit.set == "us-epa-action-level" and limit.end == "2027-10-31"):
            assert "as of 2026-11-25" in limit.note.casefold(), limit
