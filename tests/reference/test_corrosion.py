"""Langelier, Ryznar and aggressive index against a published pair and a full speciation.

Published: Roberge, Corrosion Engineering: Principles and Practice, section 8.7. Speciation:
PHREEQC 3 with its own database, by phreeqpython.
"""

import phreeqpython
import pytest

from wellbook.water.chemistry.corrosion import (
    aggressive_index,
    langelier,
    ryznar,
    saturation_ph,
    short_saturation_ph,
)

CALCIUM_PER_HARDNESS = 40.078 / 100.086
BASE_PER_ALKALINITY = 1 / 50.043  # meq for each mg as CaCO3


@pytest.fixture(scope="module")
def phreeqc():
    return phreeqpython.PhreeqPython(database="phreeqc.dat")


def calcite(phreeqc, ph, temperature, tds, hardness, alkalinity):
    """Saturation index of calcite, the water filled up with salt to its dissolved solids."""
    calcium = hardness * CALCIUM_PER_HARDNESS
    surplus = hardness * BASE_PER_ALKALINITY - alkalinity * BASE_PER_ALKALINITY
    sodium, chloride = max(0, -surplus) * 22.99, max(0, surplus) * 35.45
    salt = max(0, tds - calcium - 0.6 * alkalinity - sodium - chloride)
    solution = phreeqc.add_solution(
        {
            "units": "mg/l",
            "pH": ph,
            "temp": temperature,
            "Ca": calcium,
            "Alkalinity": f"{alkalinity} as CaCO3",
            "Na": sodium + salt * 22.99 / 58.44,
            "Cl": chloride + salt * 35.45 / 58.44,
        }
    )
    index = solution.si("Calcite")
    solution.forget()
    return index


def test_the_short_formula_gives_the_published_pair():
    # pH 7.5, dissolved solids 320, calcium hardness 150, alkalinity 34: printed -0.7 at 25 °C and
    # +0.3 at 82 °C, with pHs 8.2 and 7.2, and a Ryznar index of 8.9.
    cold, hot = (short_saturation_ph(t, 320, 150, 34) for t in (25, 82))
    assert langelier(7.5, cold) == pytest.approx(-0.7, abs=0.05)
    assert langelier(7.5, hot) == pytest.approx(0.3, abs=0.05)
    assert (cold, hot) == pytest.approx((8.2, 7.2), abs=0.05)
    assert ryznar(7.5, cold) == pytest.approx(8.96, abs=0.01)


@pytest.mark.parametrize("temperature", [5, 10, 15, 25, 40, 60])
@pytest.mark.parametrize(
    ("ph", "tds", "hardness", "alkalinity"),
    [
        (7.5, 320, 150, 34),
        (7.6, 320, 160, 200),
        (7.3, 520, 320, 280),
        (7.0, 250, 100, 100),
        (8.2, 150, 60, 70),
        (6.5, 80, 30, 25),
    ],
)
def test_langelier_is_the_saturation_of_calcite(
    phreeqc, temperature, ph, tds, hardness, alkalinity
):
    ours = langelier(ph, saturation_ph(temperature, tds, hardness, alkalinity))
    theirs = calcite(phreeqc, ph, temperature, tds, hardness, alkalinity)
    assert ours == pytest.approx(theirs, abs=0.06)


@pytest.mark.parametrize("temperature", [10, 15, 20, 25])
def test_the_short_formula_is_too_low_at_well_temperatures(phreeqc, temperature):
    water = (temperature, 320, 160, 200)
    gap = langelier(7.6, short_saturation_ph(*water)) - calcite(phreeqc, 7.6, *water)
    assert -0.35 < gap < -0.1


def test_equilibrium_constants_are_those_of_the_literature():
    # At 25 °C pK2 10.329 and pKs 8.480 (Plummer and Busenberg 1982): at no ionic strength and
    # one mol and one equivalent in a litre the pH of saturation is their difference.
    assert saturation_ph(25, 0, 100_086, 50_043) == pytest.approx(10.329 - 8.480, abs=2e-3)
    assert saturation_ph(10, 0, 100_086, 50_043) == pytest.approx(10.488 - 8.410, abs=2e-3)


@pytest.mark.parametrize(
    ("ph", "hardness", "alkalinity", "index"),
    [(7.5, 150, 34, 11.208), (7.3, 239.74, 305, 12.164), (6.1, 13.98, 14.5, 8.407)],
)
def test_aggressive_index_is_its_arithmetic(ph, hardness, alkalinity, index):
    # AWWA C400: pH + log10(calcium hardness x alkalinity).
    assert aggressive_index(ph, hardness, alkalinity) == pytest.approx(index, abs=2e-3)


def test_activity_is_that_of_davies():
    # Debye and Hückel's A of water at 25 °C, 0.511 (L/mol)^1/2, and Davies' 0.3: at an ionic
    # strength of 0.1 mol/L (dissolved solids 4000 mg/L) log f of one charge is -0.1069.
    strength = 0.1
    log_f = 0.511 * (strength**0.5 / (1 + strength**0.5) - 0.3 * strength)
    gap = saturation_ph(25, 4000, 150, 34) - saturation_ph(25, 0, 150, 34)
    assert gap == pytest.approx(5 * log_f, abs=2e-3)


def test_ten_times_the_calcium_or_alkalinity_lowers_the_ph_of_saturation_by_one():
    usual = saturation_ph(12, 300, 150, 100)
    assert usual - saturation_ph(12, 300, 1500, 100) == pytest.approx(1)
    assert usual - saturation_ph(12, 300, 150, 1000) == pytest.approx(1)
