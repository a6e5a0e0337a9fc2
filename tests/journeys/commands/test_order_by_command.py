"""What to order is told by command: the least price, what comes along, what is not known."""

import json
import re
from decimal import Decimal

import pytest
from pypdf import PdfReader

LIST = """name,price,currency,tests,kind,day
Home package,55.00,USD,"Nitrate as N; E. coli; Total coliform; pH; Hardness",,2026-03-01
Bacteria,30.00,USD,E. coli; Total coliform,,2026-03-01
Nitrate,18.00,USD,,,2026-03-01
Overnight parcel,21.40,USD,,shipping,2026-03-01
"""
OTHER = "name,price,currency,tests\nAll of it,90,USD,Nitrate; E. coli; Total coliform; Arsenic\n"
DAY = "2026-06-03"
PRIVATE = ("Ottoline Vexley", "17 Quillwort Lane")


@pytest.fixture
def home(shell):
    shell.done("new", "home.wellbook")
    shell.done("enter", "home.wellbook", "well", "--name", "Home")
    shell.done("enter", "home.wellbook", "point", "--name", "Tank")
    shell.done("enter", "home.wellbook", "point", "--name", "Kitchen", "--water", "treated")
    listed(shell, "Brook Lab", LIST)
    return shell


def listed(shell, lab, text):
    (shell.folder / "list.csv").write_text(text)
    shell.done("enter", "home.wellbook", "prices", "list.csv", "--lab", lab)


def planned(shell, panel, point, months=12):
    shell.done("enter", "home.wellbook", "plan", "--panel", panel, "--months", months,
               "--point", point)  # fmt: skip


def ordered(shell, *more):
    return json.loads(shell.done("order", "home.wellbook", "--on", DAY, "--json", *more).out)


def test_the_cheapest_order_covers_bacteria_and_nitrate(home):
    found = ordered(home)
    (visit,) = found["visits"]
    (tank,) = visit["points"]
    assert [one["name"] for one in tank["order"]] == ["Bacteria", "Nitrate"]
    assert Decimal(visit["price"]) == Decimal("48.00") + Decimal("21.40")
    assert visit["lacks"] == []
    assert found["listed"] == "2026-03-01"


def test_raw_and_treated_water_are_ordered_apart_and_travel_in_one_parcel(home):
    for panel in ("bacteria", "nitrate"):
        planned(home, panel, "Kitchen")
    (visit,) = ordered(home)["visits"]
    assert [one["treated"] for one in visit["points"]] == [False, True]
    assert Decimal(visit["price"]) == 2 * Decimal("48.00") + Decimal("21.40")
    said = home.done("order", "home.wellbook", "--on", DAY).out
    assert "Home, Tank (raw water)" in said
    assert "Home, Kitchen (treated water)" in said


def test_five_years_of_a_yearly_plan_are_added_up(home):
    for panel in ("bacteria", "nitrate"):
        planned(home, panel, "Tank")
    ahead = ordered(home)["years_ahead"]
    assert ahead["visits"] == 6, "today and each year until 2031-06-03"
    assert Decimal(ahead["price"]) == 6 * Decimal("69.40")


def test_what_a_lab_does_not_list_is_named_with_the_labs_that_do(home):
    planned(home, "arsenic", "Tank", 60)
    listed(home, "Hollin Labs", OTHER)
    found = ordered(home, "--lab", "Brook Lab")
    (tank,) = found["visits"][0]["points"]
    assert {"parameter": "arsenic", "labs": ["Hollin Labs"]} in tank["not_listed"]
    assert found["visits"][0]["lacks"]
    said = home.done("order", "home.wellbook", "--on", DAY, "--lab", "Brook Lab").out
    assert "Not on this list: Arsenic. On the list of: Hollin Labs." in said
    assert "Sum: at least 69.40 USD" in said
    chosen = ordered(home)
    assert chosen["lab"] == "Hollin Labs", "without a name, the lab that lists most of it"
    assert "the price of shipping is not known" in chosen["visits"][0]["lacks"]


def test_a_price_that_is_not_known_never_looks_free(home):
    listed(home, "Brook Lab", LIST.replace("18.00", "").replace("55.00", ""))
    (visit,) = ordered(home)["visits"]
    (tank,) = visit["points"]
    prices = {one["name"]: one["price"] for one in tank["order"]}
    assert prices["Bacteria"] == "30.00"
    unpriced = [name for name, price in prices.items() if price is None]
    assert len(unpriced) == 1
    assert visit["lacks"] == [f"the price of {unpriced[0]} is not known"]
    said = home.done("order", "home.wellbook", "--on", DAY).out
    assert "price not known" in said
    assert re.search(r"Sum: at least 51\.40 USD \(the price of", said)
    listed(home, "Brook Lab", "name,price,currency,tests\nAll,,,Nitrate; E. coli; Coliforms\n")
    assert "Sum: not known (" in home.done("order", "home.wellbook", "--on", DAY).out


def test_without_a_list_it_says_how_to_enter_one(shell):
    shell.household()
    said = shell.refused("order", "home.wellbook", "--on", DAY)
    assert "enter BOOK prices FILE.csv" in said
    (shell.folder / "list.csv").write_text(LIST)
    shell.done("enter", "home.wellbook", "prices", "list.csv", "--lab", "Brook Lab")
    said = shell.refused("order", "home.wellbook", "--on", DAY, "--lab", "Nobody")
    assert "no price list of Nobody" in said
    assert "Brook Lab" in said


def form(shell, *more):
    shell.done("order", "home.wellbook", "--on", DAY, "-o", "form.pdf", *more)
    reader = PdfReader(shell.folder / "form.pdf")
    assert len(reader.pages) == 1
    return re.sub(r"\s+", " ", reader.pages[0].extract_text())


def test_the_form_names_samples_and_tests_and_people_only_if_ticked(shell):
    import household

    household.furnished(shell.folder / "home.wellbook").close()
    shell.done("habits", "home.wellbook", "--set", f"sampler={PRIVATE[0]}")
    (shell.folder / "list.csv").write_text(LIST)
    shell.done("enter", "home.wellbook", "prices", "list.csv", "--lab", "Brook Lab")
    said = form(shell)
    assert "Tamarack Hill, Pressure tank" in said
    assert "Bacteria (" in said or "Home package (" in said
    for heading in ("Payment", "Copy of the report to", "Drawn, day and hour", "private well"):
        assert heading in said
    for word in PRIVATE:
        assert word not in said
    told = form(shell, "--with-personal")
    for word in PRIVATE:
        assert word in told
