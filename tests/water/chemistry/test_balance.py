"""Sums of ions, their classes and what is wanting. Criteria: Standard Methods 1030 E."""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.chemistry.balance import (
    Ions,
    allowed_difference,
    charge_balance,
    dissolved_solids,
    equivalent,
    ionic_strength,
    milliequivalents,
    with_alkalinity,
)
from wellbook.water.chemistry.indices import indices
from wellbook.water.chemistry.interval import Interval
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

CATALOGUE = read_catalogue(paths.resources())
# One milliequivalent of each (IUPAC masses over the charge), so that sums are whole numbers.
ONE = {
    "calcium": 20.039,
    "magnesium": 12.1525,
    "sodium": 22.990,
    "potassium": 39.098,
    "chloride": 35.45,
    "sulfate": 48.03,
    "nitrate": 14.007,
    "alkalinity": 50.043,
}


def water(**meq):
    return {key: Interval(ONE[key] * n, ONE[key] * n) for key, n in meq.items()}


SIX = water(calcium=3, magnesium=1, sodium=1, chloride=1, sulfate=1, alkalinity=3)


def near(figure):
    return pytest.approx(figure, rel=1e-3)


@pytest.mark.parametrize(
    ("anions", "cations", "allowed"),
    [
        (0, 0, 0.2),
        (3.0, 3.1, 0.2),
        (3.1, 3.1, 0.124),
        (10.0, 10.0, 0.4),
        (10.1, 9.9, 1.0),
        (50, 50, 5.0),
    ],
)
def test_the_allowed_difference_has_three_classes(anions, cations, allowed):
    assert allowed_difference(anions, cations) == pytest.approx(allowed)


def test_a_balance_adds_up_milliequivalents():
    found = charge_balance(SIX, CATALOGUE)
    assert (found.cations.low, found.anions.low) == (near(5), near(5))
    assert found.percent.low == pytest.approx(0, abs=0.05)
    assert found.allowed == near(0.2)
    assert found.lacking == ("potassium", "nitrate")
    whole = charge_balance(SIX | water(potassium=1, nitrate=0.5), CATALOGUE)
    assert (whole.cations.low, whole.anions.low, whole.lacking) == (near(6), near(5.5), ())
    assert whole.percent.low == near(100 * 0.5 / 11.5)
    assert whole.difference.low == whole.difference.high == near(0.5)


def test_of_bounds_the_middle_decides_the_class():
    found = charge_balance(SIX | {"sodium": Interval(0, 2 * 22.990)}, CATALOGUE)
    assert (found.cations.low, found.cations.high) == (near(4), near(6))
    assert found.allowed == near(0.02 * 10)
    more = charge_balance(SIX | {"chloride": Interval(0, 11 * 35.45)}, CATALOGUE)
    assert more.allowed == near(0.02 * (5 + 9.5))
    assert (more.difference.low, more.difference.high) == (near(5 - 15), near(5 - 4))


@pytest.mark.parametrize(
    ("sodium", "accepted"),
    [
        (Interval(22.990, 22.990), True),
        (Interval(29, 29), False),
        (Interval(10, 40), True),
        (Interval(15, 15), False),
        (Interval(0, 22), True),
    ],
)
def test_a_balance_is_accepted_where_the_bounds_allow_it(sodium, accepted):
    assert charge_balance(SIX | {"sodium": sodium}, CATALOGUE).accepted is accepted


@pytest.mark.parametrize("key", list(SIX))
def test_without_one_of_the_six_main_ions_nothing_is_said(key):
    few = {name: bounds for name, bounds in SIX.items() if name != key}
    assert charge_balance(few, CATALOGUE) is None
    assert dissolved_solids(few, CATALOGUE) is None
    assert ionic_strength(few, CATALOGUE) is None


def test_nothing_at_all_has_no_balance():
    assert charge_balance(dict.fromkeys(SIX, Interval(0, 0)), CATALOGUE) is None


@pytest.mark.parametrize("key", ["silica", "ph"])
def test_what_carries_no_charge_has_no_equivalent(key):
    with pytest.raises(ValueError, match="is not an ion"):
        equivalent(key, CATALOGUE)


def test_ions_that_were_not_measured_count_as_nothing():
    assert milliequivalents(("calcium", "iron"), SIX, CATALOGUE).low == near(3)
    assert milliequivalents((), SIX, CATALOGUE) == Interval(0, 0)


def test_bicarbonate_and_carbonate_make_alkalinity():
    """61.016 g/mol of one charge and 60.008 of two: one and two milliequivalents."""
    found = with_alkalinity(
        {"bicarbonate": Interval(61.016, 61.016), "carbonate": Interval(60.008, 60.008)}, CATALOGUE
    )
    assert found["alkalinity"].low == near(3 * 50.043)
    kept = with_alkalinity(
        {"bicarbonate": Interval(61, 61), "alkalinity": Interval(7, 7)}, CATALOGUE
    )
    assert kept["alkalinity"] == Interval(7, 7)
    assert "alkalinity" not in with_alkalinity({"carbonate": Interval(6, 6)}, CATALOGUE)


def test_nitrate_with_nitrite_stands_in_only_where_nitrate_is_lacking():
    both, nitrite = Interval(5, 5), Interval(1, 1)
    found = with_alkalinity({"nitrate_nitrite": both, "nitrite": nitrite}, CATALOGUE)
    assert (found["nitrate"], "nitrite" in found) == (both, False)
    kept = with_alkalinity(
        {"nitrate": Interval(4, 4), "nitrate_nitrite": both, "nitrite": nitrite}, CATALOGUE
    )
    assert (kept["nitrate"], kept["nitrite"]) == (Interval(4, 4), nitrite)


def test_dissolved_solids_are_added_up_in_milligrams():
    """Six tenths of the alkalinity stay when dried; nitrate counts as NO3 (62.004 g/mol)."""
    plain = 3 * 20.039 + 12.1525 + 22.990 + 35.45 + 48.03 + 0.6 * 3 * 50.043
    assert dissolved_solids(SIX, CATALOGUE).low == near(plain)
    more = {key: Interval(2, 2) for key in ("silica", "potassium", "fluoride", "iron", "manganese")}
    assert dissolved_solids(SIX | more, CATALOGUE).low == near(plain + 10)
    found = dissolved_solids(SIX | water(nitrate=1), CATALOGUE)
    assert found.low == near(plain + 62.004)


def test_ionic_strength_is_half_the_sum_of_moles_times_charge_squared():
    """Lewis and Randall 1921: Ca 1.5, Mg 0.5, Na 1, Cl 1, SO4 0.5, HCO3 3 mmol/L."""
    expected = (4 * 1.5 + 4 * 0.5 + 1 + 1 + 4 * 0.5 + 3) / 2 / 1000
    assert ionic_strength(SIX, CATALOGUE).low == near(expected)


def results(**words):
    made = []
    for key, word in words.items():
        parameter = CATALOGUE.parameters[key]
        kind = Kind.BELOW if str(word)[0] == "<" else Kind.NUMBER
        number = Decimal(str(word).strip("<"))
        reading = Reading(str(word), kind, number, parameter.unit, parameter.basis)
        made.append(Result(0, 0, key, key, reading, LocalTime(date(2024, 5, 6)), 1))
    return made


def values(**words):
    return {one.key: one.value for one in indices(results(**words), CATALOGUE)}


MILLIGRAMS = {"calcium": 100.195, "magnesium": 48.61, "sodium": 229.90, "potassium": 39.098}


def test_sodium_percent_is_its_arithmetic():
    """Sodium 10 of 20 milliequivalents with calcium 5, magnesium 4 and potassium 1."""
    assert values(**MILLIGRAMS)["sodium_percent"].low == near(50)


def test_ratios_of_moles_are_their_arithmetic():
    """Na 22.990, Cl 35.45, Br 79.904 g/mol."""
    found = values(sodium=22.990, chloride=70.9, bromide=0.079904)
    assert found["sodium_chloride"].low == near(0.5)
    assert found["chloride_bromide"].low == near(2000)


SCALE = {"ph": 7.3, "temperature": 12, "calcium": 96, "alkalinity": 305}


def test_solids_from_conductivity_lie_between_its_two_usual_shares():
    """Hem: 0.55 to 0.75 mg/L for each µS/cm."""
    between = values(**SCALE, conductivity=700)["langelier"]
    ends = [values(**SCALE, tds=share * 700)["langelier"].low for share in (0.55, 0.75)]
    assert (between.high, between.low) == pytest.approx(ends)


def test_measured_solids_go_before_the_sum_and_the_sum_before_conductivity():
    ions = {key: bounds.low for key, bounds in SIX.items()}
    summed = values(**ions)["solids_sum"].low
    found = values(**ions, conductivity=500)
    assert found["solids_to_conductivity"].low == near(summed / 500)
    assert "solids_ratio" not in found
    found = values(**ions, conductivity=500, tds=300)
    assert found["solids_to_conductivity"].low == near(300 / 500)
    assert found["solids_ratio"].low == near(300 / summed)


def test_calcium_hardness_stands_in_for_calcium():
    """100.086 g/mol of CaCO3 hold 40.078 of Ca."""
    water_ = {key: word for key, word in SCALE.items() if key != "calcium"} | {"tds": 400}
    ours = values(**water_, hardness_calcium=96 * 100.086 / 40.078)
    theirs = values(**water_, calcium=96)
    for key in ("langelier", "ryznar", "aggressive_index"):
        assert ours[key].low == pytest.approx(theirs[key].low, abs=1e-3)


def test_one_of_calcium_and_magnesium_makes_no_hardness():
    assert "hardness" not in values(calcium=40)
    assert "hardness" not in values(magnesium=12)
    assert values(calcium=40.078, magnesium=24.305)["hardness"].low == near(2 * 100.086)


@pytest.mark.parametrize("times", [0.1, 1 / 2.4973, 10.0])
@pytest.mark.parametrize("key", sorted(ONE))
def test_a_figure_put_otherwise_gives_the_balance_of_such_a_water(key, times):
    found = {**SIX, **water(potassium=0.5, nitrate=0.2), "fluoride": Interval(0.0, 0.4)}
    balance = charge_balance({**found, key: found[key] * times}, CATALOGUE)
    assert Ions(found, CATALOGUE).with_other(key, times) == (balance.percent, balance.accepted)
