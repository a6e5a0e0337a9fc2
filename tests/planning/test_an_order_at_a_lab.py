"""What to order at a lab: every line of it, what its sums lack, what the years ahead cost."""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.book import Book
from wellbook.book.rows import Plan, Price
from wellbook.planning.lab.lab_order import lab_order
from wellbook.planning.lab.order_words import lacks, order_lines
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
TODAY = date(2026, 6, 3)  # a Wednesday
PACKAGE = "nitrate e_coli total_coliform ph hardness"


def price(name, amount, parameters="", kind="tests", day="2026-03-01", currency="USD"):
    return Price(0, 0, kind, name, amount, currency if amount else "", parameters, "", day)


BROOK = (
    price("Home package", "55.00", PACKAGE),
    price("Bacteria", "30.00", "e_coli total_coliform", day="2025"),
    price("Nitrate", "18.00", "nitrate", day=""),
    price("Lead", "", "lead"),
    price("Overnight parcel", "21.40", kind="shipping"),
    price("Courier", "35.00", kind="shipping"),
    price("Own box", "", kind="shipping"),
)
HOLLIN = (price("All of it", "90", "nitrate e_coli total_coliform arsenic", currency="EUR"),)


@pytest.fixture
def order(tmp_path):
    """The order of a household with two points, for plans and price lists."""

    def ordered(plans, lists, lab="", **settings):
        with Book.create(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            well = book.add_well("Home")
            points = {"Tank": book.add_point(well, "Tank"),
                      "Kitchen": book.add_point(well, "Kitchen", treated=True)}  # fmt: skip
            for name, prices in lists.items():
                book.set_prices(name, prices)
            book.set_plans(Plan(0, points[at], panel, months) for at, panel, months in plans)
            book.set_settings(settings)
            return lab_order(book.record(), CATALOGUE, TODAY, lab)

    return ordered


YEARLY = [("Tank", "bacteria", 12), ("Tank", "nitrate", 12)]


ALL = [*YEARLY, ("Tank", "lead_copper", 12), ("Tank", "arsenic", 12), ("Kitchen", "nitrate", 12)]
BOTH = {"Brook Lab": BROOK, "Hollin Labs": HOLLIN}


def said(found):
    return "\n".join(order_lines(found, CATALOGUE))


def test_every_line_of_an_order_stands_there(order):
    # 30 + 18 + 18 and the cheaper parcel; that six times, today and each year until 2031-06-03.
    lacking = "(the price of Lead is not known; what this lab does not list is not in it)"
    assert (
        said(order(ALL, BOTH, lab="Brook Lab"))
        == f"""\
Order at Brook Lab, by its list of 2025.

For the visit of 2026-06-10:
Home, Tank (raw water)
  Bacteria, 30.00 USD: E. coli, Total coliform
  Nitrate, 18.00 USD: Nitrate
  Lead, price not known: Lead
  Not on this list: Arsenic. On the list of: Hollin Labs.
  Not on this list, nor on any other: Copper.
Home, Kitchen (treated water)
  Nitrate, 18.00 USD: Nitrate
Overnight parcel: 21.40 USD
Sum: at least 87.40 USD {lacking}.

The plan until 2031-06-03, 6 visits: at least 524.40 USD {lacking}.
  By this list; what a bad result would ask for is not in it.
The same at Hollin Labs: at least 180 EUR (what this lab does not list is not in it; the price of \
shipping is not known)."""
    )


def test_what_comes_along_for_nothing_is_told_and_a_sum_that_lacks_nothing_is_no_least(order):
    found = said(order(ALL, {"Hollin Labs": HOLLIN}, round_way="car"))
    assert "Comes along for nothing: Arsenic, E. coli, Total coliform." in found
    # Bacteria once a year, nitrate each 14 months: ten visits, six times 30, five times 18.
    whole = said(order([("Tank", "bacteria", 12)], {"Brook Lab": BROOK}))
    assert "\nSum: 69.40 USD.\n" in whole
    assert "10 visits: 484.00 USD." in whole
    assert "at least" not in whole
    assert "The same at" not in whole


def test_nobody_pays_a_parcel_who_goes_to_the_lab_by_car(order):
    found = order(ALL, BOTH, lab="Brook Lab", round_way="car")
    assert (found.price, found.ahead.price) == (Decimal("66.00"), 6 * Decimal("66.00"))
    assert "shipping" not in "".join(lacks(found.others[0]))


def test_a_price_that_is_not_known_is_no_sum(order):
    found = said(order([], {"Brook Lab": (price("Nitrate", "", "nitrate"),)}))
    assert "Sum: not known (the price of Nitrate is not known; what this lab" in found
    assert found.startswith("Order at Brook Lab, by its list of 2026-03-01.")
    undated = (price("Nitrate", "18.00", "nitrate", day=""),)
    assert said(order([], {"Brook Lab": undated})).startswith("Order at Brook Lab.\n")


def test_the_household_s_lab_comes_first_then_whoever_lists_most_then_the_cheapest(order):
    dear = (price("All of it", "95", HOLLIN[0].parameters, currency="EUR"),)
    lists = {**BOTH, "Ash Lab": dear}
    plans = [*YEARLY, ("Tank", "arsenic", 12)]
    assert order(plans, lists, round_lab="Brook Lab").lab == "Brook Lab"
    found = order(plans, lists)
    assert [one.lab for one in (found, *found.others)] == ["Hollin Labs", "Ash Lab", "Brook Lab"]
    assert [one.missing for one in (found, *found.others)] == [0, 0, 1]


@pytest.mark.parametrize(
    ("lists", "lab", "told"),
    [(BOTH, "Elm Lab", "Brook Lab, Hollin Labs"), ({}, "", "no price list in the book yet")],
)
def test_a_lab_without_a_list_is_told_with_what_helps(order, lists, lab, told):
    with pytest.raises(Fault, match=told):
        order(ALL, lists, lab=lab)


def test_where_nothing_is_planned_nothing_is_ordered_and_that_is_said(tmp_path):
    with Book.create(tmp_path / "empty.wellbook") as book:
        book.set_prices("Brook Lab", BROOK)
        found = lab_order(book.record(), CATALOGUE, TODAY)
    assert (found.visits, found.price, found.ahead.visits) == ((), 0, 0)
    assert said(found) == (
        "Order at Brook Lab, by its list of 2025.\n"
        "Nothing is planned yet: add a test, and its panels are planned from then on."
    )


def test_what_falls_due_within_a_month_of_a_visit_is_drawn_on_it(order):
    # Bacteria at 12 months and metals at 13 go on one visit only the first time.
    plans = [("Tank", "bacteria", 12), ("Tank", "nitrate", 13)]
    assert order(plans, BOTH, lab="Brook Lab").ahead.visits == 6, "each 12 months, today included"
    plans = [("Tank", "bacteria", 12), ("Tank", "nitrate", 14)]
    assert order(plans, BOTH, lab="Brook Lab").ahead.visits == 10
    assert order([("Tank", "bacteria", 60), ("Tank", "nitrate", 61)], BOTH).ahead.visits == 2


def test_what_is_tested_once_is_ordered_once(order):
    once = order([*YEARLY, ("Tank", "radon", 0)], BOTH, lab="Hollin Labs")
    (visit,) = once.visits
    assert "radon_222" in visit.points[0].order.missing
    assert once.ahead.price == 6 * visit.points[0].order.price
