"""Limits on sums: 40 CFR 141.62, 141.64, 141.66 and 141.61(c); the ratio rule of WHO and the EU."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict, badness
from wellbook.water.verdicts.sums import judge_sums, sums
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
LATER = date(2029, 5, 1)
US, WHO = ("us-epa-primary",), ("who-gdwq",)
NITROGEN = {"nitrate": "mg/L as N", "nitrite": "mg/L as N"}


def sample(units, **texts):
    when = LocalTime(TODAY)
    return [
        Result(n, 1, key, key, read_reading(text, unit=units.get(key, "pCi/L")), when, 1)
        for n, (key, text) in enumerate(texts.items())
    ]


def verdicts(results, sets=US, on=TODAY):
    return [(s.rule.key, j.verdict) for s, j in judge_sums(results, CATALOGUE, sets, on)]


@pytest.mark.parametrize(
    ("nitrate", "nitrite", "expected"),
    [
        ("9.5", "0.6", Verdict.OUTSIDE),
        ("9.5", "0.4", Verdict.NEAR),
        ("5", "0.4", Verdict.WITHIN),
        ("<1", "<0.1", Verdict.UNDETECTED),
        ("9.9", "<0.5", Verdict.UNDECIDABLE),
        (">11", "0.1", Verdict.OUTSIDE),
        (">5", "0.1", Verdict.UNDECIDABLE),
        ("5", "ND", None),
    ],
)
def test_nitrate_and_nitrite_have_a_limit_on_their_sum(nitrate, nitrite, expected):
    got = verdicts(sample(NITROGEN, nitrate=nitrate, nitrite=nitrite))
    assert got == ([("nitrate_nitrite", expected)] if expected else [])


def test_a_missing_part_matters_only_where_the_rest_is_not_outside():
    assert verdicts(sample(NITROGEN, nitrate="5")) == []
    assert verdicts(sample(NITROGEN, nitrate="12")) == [("nitrate_nitrite", Verdict.OUTSIDE)]


def test_a_sum_that_the_lab_reported_is_not_made_again():
    results = sample(NITROGEN | {"nitrate_nitrite": "mg/L as N"}, nitrate="5", nitrate_nitrite="5")
    assert [one.rule.key for one in sums(results, CATALOGUE)] == ["nitrate_nitrite_ratio"]


def test_one_radium_alone_can_not_show_that_the_limit_is_met():
    assert verdicts(sample({}, radium_226="1")) == [("radium_combined", Verdict.UNDECIDABLE)]
    assert verdicts(sample({}, radium_226="6")) == [("radium_combined", Verdict.OUTSIDE)]
    both = sample({}, radium_226="1", radium_228="<1")
    ((one, judgement),) = judge_sums(both, CATALOGUE, US, TODAY)
    assert (one.low, one.high, judgement.verdict) == (1, 2, Verdict.WITHIN)
    assert why(judgement) == "Added up from Radium-226 and Radium-228."


def test_the_ratio_rule_adds_shares_of_the_two_limits():
    """Nitrate over 50 plus nitrite over 3, both in mg/L, must not be above 1."""
    units = {"nitrate": "mg/L as NO3", "nitrite": "mg/L as NO2"}
    (outside,) = judge_sums(sample(units, nitrate="40", nitrite="0.9"), CATALOGUE, WHO, TODAY)
    assert (outside[1].verdict, outside[1].value) == (Verdict.OUTSIDE, Decimal("1.1"))
    assert verdicts(sample(units, nitrate="20", nitrite="0.9"), WHO) == [
        ("nitrate_nitrite_ratio", Verdict.WITHIN)
    ]


def test_trihalomethanes_count_together():
    keys = ("chloroform", "bromodichloromethane", "dibromochloromethane", "bromoform")
    units = dict.fromkeys(keys, "ug/L")
    high = verdicts(sample(units, **dict.fromkeys(keys, "21")))
    assert high == [("tthm", Verdict.OUTSIDE)]
    assert verdicts(sample(units, **dict.fromkeys(keys, "<0.5"))) == [("tthm", Verdict.UNDETECTED)]


PFAS = dict.fromkeys(("hfpo_da", "pfbs", "pfna", "pfhxs"), "ng/L")


def index(**texts):
    return dict(verdicts(sample(PFAS, **texts), on=LATER))["pfas_hazard_index"]


def test_the_pfas_index_counts_only_where_two_are_found():
    """40 CFR 141.61(c)(2): HFPO-DA/10 + PFBS/2000 + PFNA/10 + PFHxS/10 in ng/L, limit 1."""
    assert index(hfpo_da="5", pfbs="<2", pfna="6", pfhxs="<2") is Verdict.OUTSIDE
    assert index(hfpo_da="12", pfbs="<2", pfna="<2", pfhxs="<2") is Verdict.NO_LIMIT
    assert index(hfpo_da="2", pfbs="200", pfna="<2", pfhxs="<2") is Verdict.WITHIN
    assert index(hfpo_da="5", pfbs="200", pfna="<2", pfhxs="<3") is Verdict.UNDECIDABLE
    assert verdicts(sample(PFAS, hfpo_da="12"), on=LATER) == []
    today = verdicts(sample(PFAS, hfpo_da="5", pfna="6"), on=TODAY)
    assert today == [("pfas_hazard_index", Verdict.ADOPTED)]


def test_nitrate_without_a_basis_can_not_be_added():
    (one,) = [
        s
        for s in sums(
            sample({"nitrate": "mg/L", "nitrite": "mg/L as N"}, nitrate="5", nitrite="1"), CATALOGUE
        )
        if s.rule.key == "nitrate_nitrite"
    ]
    assert one.missing == ("nitrate",)
    assert one.high is None


def test_of_duplicates_the_higher_one_is_added():
    results = sample(NITROGEN, nitrate="5", nitrite="1") + sample(NITROGEN, nitrate="9.5")
    assert verdicts(results) == [("nitrate_nitrite", Verdict.OUTSIDE)]


@given(
    st.decimals("0", "20", places=2),
    st.decimals("0", "20", places=2),
    st.decimals("0", "20", places=2),
)
def test_more_of_a_part_never_makes_the_sum_better(nitrate, nitrite, added):
    def bad(number):
        found = verdicts(sample(NITROGEN, nitrate=str(number), nitrite=str(nitrite)))
        return badness(dict(found)["nitrate_nitrite"])

    assert bad(nitrate + added) >= bad(nitrate)
