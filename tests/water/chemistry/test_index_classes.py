"""The words that an index gets, at the ends of its classes too."""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.chemistry.indices import Index, classes_of, indices
from wellbook.water.chemistry.interval import Interval
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.wording import indices as words_of
from wellbook.wording.facts import bounds

CATALOGUE = read_catalogue(paths.resources())
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}


def found(**words):
    results = []
    for key, word in words.items():
        parameter = CATALOGUE.parameters[key]
        kind, number = KINDS.get(word[0], Kind.NUMBER), Decimal(word.strip("<>"))
        reading = Reading(word, kind, number, parameter.unit, parameter.basis)
        results.append(Result(0, 0, key, key, reading, LocalTime(date(2024, 5, 6)), 1))
    return {one.key: one for one in indices(results, CATALOGUE)}


def classed(key, low, high):
    value = Interval(low, high)
    return words_of.meaning(Index(key, value, "", classes_of(key, value), None))


@pytest.mark.parametrize(
    ("key", "figure", "words"),
    [
        # USGS SIR 2016-5092, from memory.
        ("langelier", -0.51, "may eat at pipes"),
        ("langelier", -0.5, "may eat at pipes"),
        ("langelier", -0.49, "neither clearly eats at pipes nor lays down scale"),
        ("langelier", 0.5, "neither clearly eats at pipes nor lays down scale"),
        ("langelier", 0.51, "tends to lay down scale"),
        # Roberge, Corrosion Engineering: Principles and Practice.
        ("ryznar", 6.0, "tends to lay down scale"),
        ("ryznar", 6.1, "little scale, little corrosion"),
        ("ryznar", 7.0, "little scale, little corrosion"),
        ("ryznar", 7.1, "lays down no protecting film"),
        ("ryznar", 8.0, "lays down no protecting film"),
        ("ryznar", 8.1, "eats at pipes"),
        # AWWA C400, from memory.
        ("aggressive_index", 9.9, "highly aggressive"),
        ("aggressive_index", 10.1, "moderately aggressive"),
        ("aggressive_index", 11.9, "moderately aggressive"),
        ("aggressive_index", 12.1, "not aggressive"),
        # Larson and Skold 1958, from memory.
        ("larson", 0.79, "salts hardly disturb a protecting film"),
        ("larson", 0.85, "salts may disturb a protecting film"),
        ("larson", 1.19, "salts may disturb a protecting film"),
        ("larson", 1.25, "salts speed up corrosion"),
        ("sodium_adsorption", 5, ""),
    ],
)
def test_a_figure_falls_into_its_class(key, figure, words):
    assert classed(key, figure, figure) == words


def test_a_range_over_two_classes_names_both():
    assert classed("langelier", -1, 1) == "from “may eat at pipes” to “tends to lay down scale”"


LITTLE, MODERATE, SERIOUS = (
    f"{word} concern for lead from joints" for word in ("little", "moderate", "serious")
)


@pytest.mark.parametrize(
    ("chloride", "sulfate", "alkalinity", "meaning"),
    [
        ("19", "100", "30", LITTLE),
        ("20", "100", "30", MODERATE),
        ("50", "100", "30", MODERATE),
        ("51", "100", "30", SERIOUS),
        ("51", "100", "50", MODERATE),
        ("51", "100", "49", SERIOUS),
        ("51", "100", "<60", SERIOUS),
        ("<51", "100", "30", ""),
        ("<51", "100", "60", MODERATE),
        ("<19", "100", "30", LITTLE),
    ],
)
def test_chloride_over_sulfate_is_classed_by_ratio_and_alkalinity(
    chloride, sulfate, alkalinity, meaning
):
    """USGS SIR 2016-5092: below 0.2, up to 0.5, above it by alkalinity below or from 50."""
    words = found(chloride=chloride, sulfate=sulfate, alkalinity=alkalinity)
    assert words_of.meaning(words["chloride_sulfate"]) == meaning


def test_chloride_over_sulfate_above_one_half_needs_the_alkalinity():
    assert words_of.meaning(found(chloride="80", sulfate="100")["chloride_sulfate"]) == ""


def test_only_indices_that_ask_for_the_temperature_say_it_is_lacking():
    words = {"ph": "7.3", "calcium": "96", "alkalinity": "305", "tds": "400", "magnesium": "28"}
    lacking = found(**words)
    said = {key for key, one in lacking.items() if "not measured" in words_of.caution(one)}
    assert said == {"langelier", "langelier_short", "ryznar"}
    assert "The temperature was not measured: 5 to 25 °C are taken." in words_of.caution(
        lacking["ryznar"]
    )
    known = found(**words, temperature="12")
    assert not any("not measured" in words_of.caution(one) for one in known.values())
    assert words_of.caution(known["hardness"]) == ""


def test_a_figure_and_a_range_are_told_to_three_digits():
    assert bounds(Interval(1.23456, 1.23456)) == "1.23"
    assert bounds(Interval(1.23456, 45.678)) == "1.23 to 45.7"
