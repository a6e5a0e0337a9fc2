import re
from decimal import Decimal

import pytest

TOTAL = re.compile(r"Sum: (?:at least )?([0-9.]+) USD")
pytestmark = pytest.mark.timeout(600)


def total(said):
    return Decimal(next(found[1] for line in said if (found := TOTAL.match(line))))


def test_a_price_list_is_dropped_put_right_and_ordered_from(use, books):
    report = use("ordering:a_list_is_dropped_and_ordered_from", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert "There is no price list in the book yet" in facts["without a list"]
    assert facts["nothing typed"] == ["Name the lab whose prices these are.", {}]
    assert "harmed.csv, row 2" in facts["harmed"]
    assert facts["kept"]["Brook Lab/Nitrogen (nitrate)"] == ["18.00", "nitrate"]
    assert len(facts["kept"]) == 4
    order = facts["order"]
    assert "Order at Brook Lab, by its list of 1 Mar 2026." in order
    assert "Overnight parcel: 21.40 USD" in order
    assert "Home package" in order
    later = facts["after a price was typed"]
    assert "Home package by car" in later
    assert total(later) == total(order) - Decimal("4.50")
    assert facts["form"] == "%PDF-"
    assert facts["two lists"] == ["Brook Lab", "Hollin Labs"]
    assert len(facts["elsewhere"]) == 1
    assert facts["taken back"] == ["Brook Lab"]


def test_a_price_list_dropped_on_the_window_is_taken_to_its_lab(use, books):
    report = use("ordering:a_list_is_dropped_on_the_window", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["title"] == "The price list of a lab"
    assert facts["kept"] == [f"Brook Lab/{name}" for name in sorted(facts["shown"])]
    assert "Kept: 4 prices of Brook Lab." in facts["said"]
    assert "Price lists are read one by one; drop each alone: more.csv." in facts["said"]
