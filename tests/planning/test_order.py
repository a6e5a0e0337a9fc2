"""The cheapest order is the cheapest: compared with every combination there is."""

from decimal import Decimal
from itertools import combinations
from random import Random

import pytest

from wellbook.planning.lab.order import Offer, cheapest

HOME = Offer("Home package", Decimal("55.00"), frozenset({"nitrate", "e_coli", "ph", "hardness"}))
METALS = Offer("Metals", Decimal("48.00"), frozenset({"lead", "copper", "arsenic", "iron"}))
LEAD = Offer("Lead", Decimal("22.50"), frozenset({"lead"}))
ARSENIC = Offer("Arsenic", Decimal("24.00"), frozenset({"arsenic"}))
NITRATE = Offer("Nitrate", Decimal("18.00"), frozenset({"nitrate"}))
LIST = (HOME, METALS, LEAD, ARSENIC, NITRATE)


def by_every_combination(wanted, offers):
    """The lowest price of all combinations that measure what can be measured."""
    can = frozenset(wanted) & frozenset().union(*(offer.parameters for offer in offers))
    prices = [
        sum((offer.price for offer in some), Decimal(0))
        for n in range(len(offers) + 1)
        for some in combinations(offers, n)
        if can <= frozenset().union(*(offer.parameters for offer in some))
    ]
    return min(prices)


def test_two_single_tests_are_ordered_where_they_cost_less_than_a_package():
    found = cheapest({"lead", "arsenic"}, LIST)
    assert [offer.name for offer in found.offers] == ["Lead", "Arsenic"]
    assert found.price == Decimal("46.50")
    assert found.extra == frozenset()


def test_a_package_is_ordered_where_it_costs_less_and_what_comes_along_is_named():
    found = cheapest({"lead", "arsenic", "copper"}, LIST)
    assert [offer.name for offer in found.offers] == ["Metals"]
    assert found.extra == {"iron"}


def test_what_the_lab_does_not_measure_is_named():
    found = cheapest({"nitrate", "pfoa"}, LIST)
    assert found.offers == (NITRATE,)
    assert found.missing == {"pfoa"}


def test_nothing_wanted_costs_nothing():
    assert cheapest((), LIST).offers == ()
    assert cheapest({"pfoa"}, ()).missing == {"pfoa"}


def test_of_two_orders_of_one_price_the_one_with_more_comes():
    small = Offer("Small", Decimal(20), frozenset({"lead"}))
    large = Offer("Large", Decimal(20), frozenset({"lead", "copper"}))
    assert cheapest({"lead"}, (small, large)).offers == (large,)


def made_up(seed: int) -> tuple[list[str], list[Offer]]:
    """What is wanted and a price list, by lot."""
    random = Random(seed)
    names = [f"p{n}" for n in range(random.randint(1, 9))]
    offers = [
        Offer(
            f"offer {n}",
            Decimal(random.randint(0, 120)) / 4,
            frozenset(random.sample(names, random.randint(1, len(names)))),
        )
        for n in range(random.randint(0, 9))
    ]
    return random.sample(names, random.randint(0, len(names))), offers


@pytest.mark.parametrize("first", range(0, 1000, 50))
def test_no_combination_is_cheaper(first: int):
    for seed in range(first, first + 50):
        wanted, offers = made_up(seed)
        asked = frozenset([*wanted, "nobody"])
        found = cheapest(asked, offers)
        measured = frozenset().union(*(offer.parameters for offer in found.offers))
        offered = frozenset().union(*(offer.parameters for offer in offers))
        assert found.price == by_every_combination(wanted, offers), seed
        assert found.missing == asked - offered, seed
        assert frozenset(wanted) - found.missing <= measured, seed
        assert found.extra == measured - asked, seed
