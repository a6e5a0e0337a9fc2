"""Which bottle a parameter goes into, and the order of filling.

First draw first, then what must hold no air, then bacteria, then the rest: common practice, no
source. First draw: 40 CFR 141.86, from memory.
"""

import pytest

from wellbook.support.csv_rows import read_rows
from wellbook.support.paths import resources
from wellbook.water.values.bottles import Bottle, bottles_for
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(resources())


def drawn(*keys, first_draw=True):
    found = bottles_for(keys, CATALOGUE.bottles, first_draw=first_draw)
    return {bottle.key: parameters for bottle, parameters in found}


def test_bottles_come_in_the_order_of_filling_whatever_the_order_of_parameters():
    keys = ("hardness", "arsenic", "pfoa", "atrazine", "e_coli", "radon_222", "lead")
    assert list(drawn(*keys)) == [
        "first_draw", "vials", "bacteria", "pfas", "preserved", "amber", "large",
    ]  # fmt: skip
    assert list(drawn(*reversed(keys))) == list(drawn(*keys))


def test_each_parameter_goes_into_one_bottle_with_its_like():
    assert drawn("lead", "copper", "iron", "lead", "total_coliform", "e_coli") == {
        "first_draw": ("lead", "copper"),
        "bacteria": ("total_coliform", "e_coli"),
        "preserved": ("iron",),
    }


def test_without_a_first_draw_lead_is_drawn_with_the_metals():
    assert drawn("lead", "iron", first_draw=False) == {"preserved": ("lead", "iron")}


def test_the_rules_that_differ():
    rules = {one.key: (one.draw, one.aerator, one.rinse) for one in CATALOGUE.bottles}
    assert rules["first_draw"] == ("first draw", "on", "never")
    assert rules["bacteria"] == ("flushed", "off", "never")
    assert rules["preserved"] == ("flushed", "off", "never")
    assert rules["large"] == ("flushed", "off", "three times with a third of its volume")
    by_key = {one.key: one for one in CATALOGUE.bottles}
    assert "100 mL line and no further" in by_key["bacteria"].fill
    assert "six hours" in by_key["first_draw"].before.casefold()
    assert {one.keep for one in CATALOGUE.bottles} == {"cold"}


def test_every_panel_has_a_bottle_for_all_of_its_core():
    for panel in CATALOGUE.panels.values():
        found = drawn(*panel.core)
        assert sorted(key for keys in found.values() for key in keys) == sorted(panel.core)


def test_a_parameter_that_no_bottle_serves_is_left_to_the_lab():
    assert drawn("no such thing") == {}


def test_every_bottle_has_its_source():
    assert all(one.source and one.name and one.serves for one in CATALOGUE.bottles)


@pytest.mark.parametrize("change", [{"draw": "slow"}, {"aerator": "sideways"}])
def test_a_row_that_makes_no_sense_is_refused(change):
    path = resources() / "bottles.csv"
    assert next(read_rows(path, Bottle))
    ((column, cell),) = change.items()
    with pytest.raises(ValueError, match=f"bottles.csv, row 2, column {column}: '{cell}'"):
        next(read_rows(path, Bottle, change))
