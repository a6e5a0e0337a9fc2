"""Conversions against published factors, worked examples, a general library, and real data.

Molar masses: IUPAC standard atomic weights as tabulated in periodictable 2.1.0 and molmass. Grains,
degrees of hardness and radioactivity: UCUM definitions and pint. Data: U.S. Geological Survey,
tests/data/choptank (see its README).
"""

import csv
from collections import defaultdict
from decimal import Decimal
from pathlib import Path
from statistics import median

import pint
import pytest

from wellbook.support.paths import resources
from wellbook.water.units import factors
from wellbook.water.units.basis import equivalent_mass
from wellbook.water.units.conversion import NoConversion, convert
from wellbook.water.units.spellings import understand
from wellbook.water.values.catalogue import read_catalogue

DATA = Path(__file__).parent.parent / "data" / "choptank" / "usgs_nwis_01491000_1964-2020_long.csv"
PARAMETERS = read_catalogue(resources()).parameters


def converted(number, unit, basis, to_unit, to_basis, key):
    return float(
        convert(Decimal(str(number)), unit, basis, to_unit, to_basis, PARAMETERS[key]).number
    )


# By IUPAC abridged weights of 2021, worked out by hand: Cr 51.996, As 74.922, B 10.81, Mo 95.95,
# O 15.999.
@pytest.mark.parametrize(
    ("key", "form", "per_atom"),
    [
        ("chromium", "CrO4", 115.992 / 51.996),
        ("chromium_vi", "CrO4", 115.992 / 51.996),
        ("arsenic", "As2O3", 197.841 / 149.844),
        ("boron", "B2O3", 69.617 / 21.62),
        ("molybdenum", "MoO4", 159.946 / 95.95),
    ],
)
def test_a_metal_counted_as_its_oxide_becomes_the_metal(key, form, per_atom):
    assert converted(per_atom, "mg/L", f"as {form}", "mg/L", "", key) == pytest.approx(1, rel=1e-6)
    for printed in (f"mg/L as {form}", f"mg/L ({form})", f"mg {form}/L"):
        assert understand(printed).basis == f"as {form}"


def test_a_form_that_is_not_known_is_refused_for_every_parameter():
    for key in ("chromium", "aluminum", "selenium", "nitrate"):
        with pytest.raises(NoConversion, match="unknown form"):
            converted(1, "mg/L", "as XyO3", "mg/L", "", key)


def test_orthophosphate_in_equivalents_is_a_third_of_a_mole():
    """31.657 mg of PO4 a milliequivalent, by the published table of equivalent weights."""
    assert converted(1, "meq/L", "", "mg/L", "as PO4", "phosphate") == pytest.approx(
        31.657, rel=1e-4
    )


@pytest.mark.parametrize("key", ["iron", "chloride", "sulfate", "sodium", "calcium"])
def test_grains_of_an_ion_are_asked_about(key):
    """Old analyses print grains of the ion, water softening counts grains as CaCO3."""
    with pytest.raises(NoConversion, match="grains of an ion"):
        converted(10, "gpg", "", "mg/L", "", key)
    assert converted(10, "gpg", "as CaCO3", "mg/L", "", key) > 0


# IUPAC masses; within 0.05 %.
@pytest.mark.parametrize(
    ("key", "basis", "to_basis", "factor"),
    [
        ("calcium", "as Ca", "as CaCO3", 2.49728),
        ("magnesium", "as Mg", "as CaCO3", 4.11792),
        ("strontium", "as Sr", "as CaCO3", 1.14227),
        ("iron", "as Fe", "as CaCO3", 1.79221),
        ("nitrate", "as N", "as NO3", 4.42664),
        ("nitrite", "as N", "as NO2", 3.28443),
        ("ammonia", "as N", "as NH4", 1.28786),
        ("phosphate", "as P", "as PO4", 3.06614),
        ("alkalinity", "as CaCO3", "as HCO3", 1.21927),
        ("alkalinity", "as CaCO3", "as CO3", 0.59956),
        ("bicarbonate", "as HCO3", "as CO3", 0.49174),  # by equivalents, 30.004 / 61.016
        ("phosphate", "as P", "as P2O5", 2.2914),
        ("uranium", "as U", "as U3O8", 1.1792),
        # Rounded factors that are common practice, no source.
        ("sulfate", "as S", "as SO4", 2.996),
        ("hydrogen_sulfide", "as S", "as H2S", 1.063),
        ("silica", "as Si", "as SiO2", 2.139),
    ],
)
def test_a_basis_converts_by_molar_masses(key, basis, to_basis, factor):
    assert converted(1, "mg/L", basis, "mg/L", to_basis, key) == pytest.approx(factor, rel=5e-4)
    assert converted(factor, "mg/L", to_basis, "mg/L", basis, key) == pytest.approx(1, rel=5e-4)


def test_ten_as_nitrogen_is_the_44_as_nitrate_of_the_regulations():
    """40 CFR 141.62 sets 10 mg/L as N; sheets that print nitrate itself show 44.3."""
    assert converted(10, "mg/L", "as N", "mg/L", "as NO3", "nitrate") == pytest.approx(
        44.3, abs=0.05
    )
    assert converted(1, "mg/L", "as N", "mg/L", "as NO2", "nitrite") == pytest.approx(
        3.28, abs=0.01
    )


# mg per meq, from IUPAC masses; within 0.05 %.
@pytest.mark.parametrize(
    ("form", "key", "mass"),
    [
        ("Ca", "calcium", 20.039),
        ("Mg", "magnesium", 12.1525),
        ("Na", "sodium", 22.9898),
        ("K", "potassium", 39.0983),
        ("NH4", "ammonia", 18.039),
        ("Fe", "iron", 27.9225),
        ("Mn", "manganese", 27.469),
        ("HCO3", "bicarbonate", 61.016),
        ("CO3", "carbonate", 30.004),
        ("SO4", "sulfate", 48.028),
        ("Cl", "chloride", 35.45),
        ("NO3", "nitrate", 62.004),
        ("N", "nitrate", 14.007),
        ("F", "fluoride", 18.9984),
        ("PO4", "phosphate", 31.657),
        ("CaCO3", "alkalinity", 50.043),
    ],
)
def test_equivalent_weights(form, key, mass):
    assert float(equivalent_mass(form, PARAMETERS[key])) == pytest.approx(mass, rel=5e-4)
    if form != "PO4":
        got = converted(1, "meq/L", f"as {form}", "mg/L", f"as {form}", key)
        assert got == pytest.approx(mass, rel=5e-4)


@pytest.mark.parametrize(
    ("unit", "milligrams", "within"),
    [
        ("gpg", 17.118061, 1e-7),  # UCUM [gr]/[gal_us]
        ("°e", 14.253768, 1e-7),  # UCUM [gr]/[gal_br]
        ("°dH", 17.84796, 5e-4),  # 10 mg/L of CaO, by IUPAC masses
        ("°fH", 10, 1e-12),  # by definition
        ("mmol/L", 100.086, 5e-4),  # of Ca and Mg together, by IUPAC masses
    ],
)
def test_hardness_units_in_mg_per_litre_of_calcium_carbonate(unit, milligrams, within):
    got = converted(1, unit, "", "mg/L", "as CaCO3", "hardness")
    assert got == pytest.approx(milligrams, rel=within)


def test_hardness_of_35_calcium_and_22_magnesium_is_178_or_10_4_grains():
    """Worked example of a US field-chemistry reference sheet: 178 mg/L, 10.4 grains per gallon."""
    hardness = converted(35, "mg/L", "as Ca", "mg/L", "as CaCO3", "calcium") + converted(
        22, "mg/L", "as Mg", "mg/L", "as CaCO3", "magnesium"
    )
    assert hardness == pytest.approx(178, abs=0.1)
    assert converted(hardness, "mg/L", "as CaCO3", "gpg", "", "hardness") == pytest.approx(
        10.4, abs=0.01
    )


@pytest.mark.parametrize(
    ("number", "unit", "to_unit", "expected", "key"),
    [
        ("1", "pCi/L", "Bq/L", "0.037", "radon_222"),  # 1 Ci is 3.7e10 Bq by definition
        ("2700", "pCi/L", "Bq/L", "99.9", "radon_222"),
        ("1", "mS/m", "µS/cm", "10", "conductivity"),
        ("1", "mS/cm", "µS/cm", "1000", "conductivity"),
        ("1", "dS/m", "µS/cm", "1000", "conductivity"),
        ("1", "umho/cm", "µS/cm", "1", "conductivity"),  # 1 mho is 1 S by definition
    ],
)
def test_exact_conversions_are_exact(number, unit, to_unit, expected, key):
    got = convert(Decimal(number), unit, "", to_unit, "", PARAMETERS[key]).number
    assert got == Decimal(expected)


def test_fifty_fahrenheit_is_ten_celsius():
    assert converted(50, "°F", "", "°C", "", "temperature") == pytest.approx(10, abs=1e-9)


# How pint, whose definitions are those of NIST and BIPM, spells each of our exact units.
PINT_NAMES = {
    "g/L": "gram / liter",
    "mg/L": "milligram / liter",
    "µg/L": "microgram / liter",
    "ng/L": "nanogram / liter",
    "pg/L": "picogram / liter",
    "mol/L": "mole / liter",
    "mmol/L": "millimole / liter",
    "µmol/L": "micromole / liter",
    "nmol/L": "nanomole / liter",
    "Bq/L": "becquerel / liter",
    "mBq/L": "millibecquerel / liter",
    "Bq/m³": "becquerel / meter ** 3",
    "µS/cm": "microsiemens / centimeter",
    "mS/cm": "millisiemens / centimeter",
    "mS/m": "millisiemens / meter",
    "dS/m": "decisiemens / meter",
    "S/m": "siemens / meter",
    "µS/m": "microsiemens / meter",
    "S/cm": "siemens / centimeter",
    "°C": "degree_Celsius",
    "mSv/yr": "millisievert / year",
    "gpg": "grain / gallon",
}
# No library knows these: a share of mass, a charge, a scattering; equal or of ten by definition.
OUR_OWN = {"ppm", "ppb", "ng/kg", "eq/L", "meq/L", "µeq/L", "NTU", "FNU", "°fH"}


def test_every_exact_factor_agrees_with_pint():
    registry = pint.UnitRegistry()
    assert set(factors._EXACT) == PINT_NAMES.keys() | OUR_OWN
    bases = ("mg/L", "mmol/L", "Bq/L", "µS/cm", "°C", "mSv/yr")
    for label, name in PINT_NAMES.items():
        unit = registry.Unit(name)
        base = next(b for b in bases if registry.Unit(PINT_NAMES[b]).is_compatible_with(unit))
        expected = registry.Quantity(1.0, unit).to(PINT_NAMES[base]).magnitude
        assert float(factors._EXACT[label]) == pytest.approx(expected, rel=1e-12), label


@pytest.fixture(scope="module")
def samples():
    """The first value of each parameter at each date and time of the stream record."""
    found = defaultdict(dict)
    with DATA.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            sample = found[row["sample_dt"], row["sample_tm"]]
            sample.setdefault(row["parm_cd"], float(row["result_va"]))
    return list(found.values())


def test_nitrate_as_nitrate_agrees_with_the_geological_survey(samples):
    """Parameter 71851 (as NO3) was computed by the Survey from 00618 (as N)."""
    pairs = [(s["00618"], s["71851"]) for s in samples if s.keys() >= {"00618", "71851"}]
    off = sorted(
        abs(converted(n, "mg/L", "as N", "mg/L", "as NO3", "nitrate") - no3) for n, no3 in pairs
    )
    assert len(pairs) == 866
    assert off[round(0.95 * len(off))] <= 0.03


def test_ammonium_agrees_with_the_geological_survey(samples):
    """Parameter 71846 (as NH4) was computed by the Survey from 00608 (as N)."""
    pairs = [(s["00608"], s["71846"]) for s in samples if s.keys() >= {"00608", "71846"}]
    off = sorted(
        abs(converted(n, "mg/L", "as N", "mg/L", "as NH4", "ammonia") - nh4) for n, nh4 in pairs
    )
    assert len(pairs) > 700
    assert off[round(0.95 * len(off))] <= 0.01


def test_hardness_from_its_ions_agrees_with_the_geological_survey(samples):
    """Parameter 00900 (hardness) was computed by the Survey from 00915 (Ca) and 00925 (Mg)."""
    rows = [
        (s["00915"], s["00925"], s["00900"])
        for s in samples
        if s.keys() >= {"00915", "00925", "00900"}
    ]
    off = [
        converted(ca, "mg/L", "as Ca", "mg/L", "as CaCO3", "calcium")
        + converted(mg, "mg/L", "as Mg", "mg/L", "as CaCO3", "magnesium")
        - hardness
        for ca, mg, hardness in rows
    ]
    assert len(rows) == 323
    assert sum(abs(gap) <= 1 for gap in off) >= 0.98 * len(off)
    assert abs(median(off)) < 0.2
