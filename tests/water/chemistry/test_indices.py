"""Indices of one sample as they are shown: ranges, classes, cautions, and what is left out."""

import math
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support import paths
from wellbook.water.chemistry.balance import charge_balance
from wellbook.water.chemistry.index_kinds import UNITS
from wellbook.water.chemistry.indices import indices
from wellbook.water.chemistry.interval import Interval, between, contents
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.wording import indices as words_of
from wellbook.wording.facts import bounds

CATALOGUE = read_catalogue(paths.resources())
WATER = {
    "ph": "7.3", "temperature": "12", "calcium": "96", "magnesium": "28", "sodium": "12",
    "potassium": "2.0", "chloride": "22", "sulfate": "34", "bromide": "0.1", "fluoride": "0.2",
    "silica": "12", "nitrate": "4.2", "alkalinity": "305", "tds": "420", "conductivity": "703",
}  # fmt: skip


def result(key, word, *, name="", unit=None, fraction=""):
    parameter = CATALOGUE.parameters[key]
    kind = {"<": Kind.BELOW, ">": Kind.ABOVE}.get(word[0], Kind.NUMBER)
    unit = parameter.unit if unit is None else unit
    reading = Reading(word, kind, Decimal(word.strip("<>")), unit, parameter.basis, fraction)
    return Result(0, 0, key, name or parameter.name, reading, LocalTime(date(2024, 5, 6)), 1)


def sample(**words):
    return [result(key, word) for key, word in words.items()]


def index(results, key):
    return next((one for one in indices(results, CATALOGUE) if one.key == key), None)


def test_a_whole_analysis_gives_every_index():
    given_ = {one.key for one in indices(sample(**WATER), CATALOGUE)}
    assert given_ == set(UNITS)


def test_every_index_names_its_source():
    assert all(map(words_of.source, indices(sample(**WATER), CATALOGUE)))


def test_what_was_not_measured_leaves_its_indices_out():
    few = sample(calcium="96", magnesium="28")
    assert [one.key for one in indices(few, CATALOGUE)] == ["hardness"]


def test_a_non_detect_makes_a_range():
    found = index(sample(chloride="<5", sulfate="20"), "chloride_sulfate")
    assert (found.value.low, found.value.high) == (0, 0.25)
    assert bounds(found.value) == "0 to 0.25"


def test_a_non_detect_below_the_line_leaves_a_ratio_open():
    """Chloride 30 with sulfate <4 is at least 7.5, far into what matters for lead from solder."""
    found = index(sample(chloride="30", sulfate="<4", alkalinity="30"), "chloride_sulfate")
    assert (found.value.low, found.value.high) == (7.5, math.inf)
    assert bounds(found.value) == "more than 7.5"
    assert words_of.meaning(found) == "serious concern for lead from joints"


def test_two_non_detects_make_no_ratio():
    assert index(sample(chloride="<5", sulfate="<20"), "chloride_sulfate") is None


@pytest.mark.parametrize(
    ("ph", "meaning"),
    [
        ("6.3", "may eat at pipes"),
        ("7.3", "neither clearly eats at pipes nor lays down scale"),
        ("8.3", "tends to lay down scale"),
    ],
)
def test_langelier_classes_are_those_of_usgs(ph, meaning):
    # USGS SIR 2016-5092 (classes from memory): -0.5 and 0.5.
    assert words_of.meaning(index(sample(**WATER | {"ph": ph}), "langelier")) == meaning


@pytest.mark.parametrize(
    ("chloride", "sulfate", "alkalinity", "meaning"),
    [
        ("10", "100", "30", "little concern for lead from joints"),
        ("30", "100", "30", "moderate concern for lead from joints"),
        ("80", "100", "80", "moderate concern for lead from joints"),
        ("80", "100", "30", "serious concern for lead from joints"),
    ],
)
def test_lead_classes_are_those_of_usgs(chloride, sulfate, alkalinity, meaning):
    # USGS SIR 2016-5092: below 0.2, up to 0.5, above it by alkalinity below or from 50.
    found = index(
        sample(chloride=chloride, sulfate=sulfate, alkalinity=alkalinity), "chloride_sulfate"
    )
    assert words_of.meaning(found) == meaning


def test_a_temperature_nobody_measured_makes_a_range_and_is_said():
    found = index(sample(**{k: v for k, v in WATER.items() if k != "temperature"}), "langelier")
    assert found.value.high - found.value.low == pytest.approx(0.3, abs=0.1)
    assert "temperature was not measured" in words_of.caution(found)


def test_langelier_does_not_speak_for_lead_and_copper():
    assert "not of lead or copper" in words_of.caution(index(sample(**WATER), "langelier"))


def test_solids_nobody_measured_come_from_the_conductivity():
    few = {k: WATER[k] for k in ("ph", "temperature", "calcium", "alkalinity", "conductivity")}
    found = index(sample(**few), "langelier")
    assert not found.value.exact
    assert found.value.low == pytest.approx(0.2, abs=0.05)


def test_ph_measured_at_the_well_goes_before_that_of_the_lab():
    results = [result("ph", "7.9", name="pH, lab"), result("ph", "7.1", name="pH, field")]
    assert contents(results, CATALOGUE)["ph"] == Interval(7.1, 7.1)


def test_dissolved_goes_before_total():
    results = [
        result("iron", "2", fraction="total"),
        result("iron", "0.5", fraction="dissolved"),
    ]
    assert contents(results, CATALOGUE)["iron"].low == 0.5


def test_bicarbonate_stands_in_for_alkalinity():
    water = {k: v for k, v in WATER.items() if k != "alkalinity"} | {"bicarbonate": "371.9"}
    balance = charge_balance(contents(sample(**water), CATALOGUE), CATALOGUE)
    usual = charge_balance(contents(sample(**WATER), CATALOGUE), CATALOGUE)
    assert balance.anions.low == pytest.approx(usual.anions.low, rel=1e-3)


def test_nitrate_and_nitrite_together_stand_in_for_nitrate():
    water = {k: v for k, v in WATER.items() if k != "nitrate"}
    water |= {"nitrate_nitrite": "4.2", "nitrite": "0.1"}
    balance = charge_balance(contents(sample(**water), CATALOGUE), CATALOGUE)
    usual = charge_balance(contents(sample(**WATER), CATALOGUE), CATALOGUE)
    assert balance.anions.low == pytest.approx(usual.anions.low)


def test_an_off_scale_figure_leaves_a_sum_open_and_a_ratio_out():
    off_scale = sample(**WATER | {"calcium": ">100"})
    assert bounds(index(off_scale, "hardness").value) == "more than 365"
    assert index(off_scale, "charge_balance") is None
    assert index(off_scale, "langelier") is None


figures = st.decimals("0.1", "500", places=1).map(str)


@given(figures, figures, figures)
def test_hardness_splits_into_its_two_parts(calcium, magnesium, alkalinity):
    found = {
        one.key: one.value.low
        for one in indices(
            sample(calcium=calcium, magnesium=magnesium, alkalinity=alkalinity), CATALOGUE
        )
    }
    parts = found["carbonate_hardness"] + found["noncarbonate_hardness"]
    assert parts == pytest.approx(found["hardness"])


@given(figures, figures)
def test_micrograms_give_the_same_index_as_milligrams(chloride, sulfate):
    milligrams = sample(chloride=chloride, sulfate=sulfate)
    thousand = str(Decimal(chloride) * 1000)
    micrograms = [result("chloride", thousand, unit="µg/L"), *sample(sulfate=sulfate)]
    assert index(milligrams, "chloride_sulfate").value.low == pytest.approx(
        index(micrograms, "chloride_sulfate").value.low
    )


@given(st.floats(0, 10), st.floats(0, 10), st.floats(0, 10), st.floats(0, 10))
def test_between_holds_every_value_of_a_sum_of_bounds(a, b, c, d):
    one, other = Interval(min(a, b), max(a, b)), Interval(min(c, d), max(c, d))
    assert between(lambda x, y: x + y, one, other) == one + other


def test_between_has_no_value_where_the_function_has_none():
    assert between(lambda x: 1 / x, Interval(0, 1)) is None
