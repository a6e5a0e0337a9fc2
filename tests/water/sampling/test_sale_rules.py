"""How old a test may be at a sale, for invented dates against what the sources say.

The rules are those of `resources/sale_rules.csv`, each with its source: 90 days (lenders'
summaries of the VA rule), 150 days (USDA HB-1-3555, 12.6 and a secondary text), 90 to 180 days
(common practice, no source), one year (ORS 448.271 with OAR 333-061). Ages in days are taken from
SQLite's calendar, not from ours.
"""

import sqlite3
from datetime import date

import pytest

from wellbook.support import paths
from wellbook.water.sampling.sale_rules import Age, Drawer, read_sale_rules
from wellbook.water.values.catalogue import read_catalogue

RULES = {one.key: one for one in read_sale_rules(paths.resources() / "sale_rules.csv")}
CLOSING = date(2026, 3, 1)
LATER, YOUNG, ASK, OLD, OPEN = Age.LATER, Age.YOUNG, Age.ASK, Age.OLD, Age.OPEN

# Drawn, age in days on 1 March 2026; then VA, USDA, FHA, other loan, Oregon, New Jersey.
TABLE = [
    ("2025-12-01", 90, YOUNG, YOUNG, YOUNG, YOUNG, YOUNG, OPEN),
    ("2025-11-30", 91, OLD, YOUNG, ASK, ASK, YOUNG, OPEN),
    ("2025-10-01", 151, OLD, OLD, ASK, ASK, YOUNG, OPEN),
    ("2025-03-01", 365, OLD, OLD, OLD, OLD, YOUNG, OPEN),
    ("2025-02-28", 366, OLD, OLD, OLD, OLD, OLD, OPEN),
]


@pytest.mark.parametrize("row", TABLE, ids=[row[0] for row in TABLE])
def test_the_age_of_a_test_on_the_closing_day_is_held_against_each_rule(row):
    drawn, days, *expected = row
    (by_sqlite,) = (
        sqlite3.connect(":memory:")
        .execute("SELECT julianday(?) - julianday(?)", (CLOSING.isoformat(), drawn))
        .fetchone()
    )
    assert by_sqlite == days == (CLOSING - date.fromisoformat(drawn)).days
    keys = ("us-va-loan", "us-rural-loan", "us-fha-loan", "us-other-loan", "us-or-sale")
    found = [RULES[key].age(date.fromisoformat(drawn), CLOSING) for key in (*keys, "us-nj-sale")]
    assert found == expected


def test_a_test_drawn_after_the_closing_day_is_no_test_of_it():
    assert RULES["us-va-loan"].age(date(2026, 3, 2), CLOSING) is LATER


def test_a_lender_takes_no_sample_that_the_owner_drew():
    # HUD answer KA-03963: a disinterested third party, never the owner or the borrower.
    fha = RULES["us-fha-loan"]
    assert fha.drawer("owner") is Drawer.REFUSED
    assert fha.drawer("disinterested professional") is Drawer.ACCEPTED
    assert fha.drawer("") is Drawer.ASK
    assert RULES["us-other-loan"].drawer("owner") is Drawer.ASK


def test_every_rule_names_its_source_the_day_it_was_read_and_known_parameters():
    known = read_catalogue(paths.resources()).parameters
    for rule in RULES.values():
        assert rule.source
        assert rule.read <= date(2026, 11, 29)
        assert set(rule.parameters) <= known.keys()


def test_a_state_that_asks_for_no_test_says_so_and_names_none():
    # 68 Pa.C.S. 7301 to 7314, HRS 508D and MCL 565.951 to 565.966 ask the seller for known facts;
    # that no test is asked for: common practice, no source.
    for key in ("us-mi-sale", "us-pa-sale", "us-hi-sale"):
        assert RULES[key].parameters == ()
        assert "state asks for no test" in RULES[key].says
        assert RULES[key].age(date(2025, 12, 1), CLOSING) is OPEN
    # Macomb County Health Department: bacteria and part of the chemistry before a transfer.
    assert "Some counties do, Macomb" in RULES["us-mi-sale"].says
