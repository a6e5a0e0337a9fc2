"""Sums and indices against published examples, a full speciation and the agency's own figures.

DIN 38402-62:2013 and a public county file (California, 1988) for the charge balance; PHREEQC by
phreeqpython; U.S. Geological Survey figures of the Choptank series.
"""

from datetime import date
from decimal import Decimal
from statistics import median

import phreeqpython
import pytest
from choptank_samples import results_of, rows_by_sample, worked_out

from wellbook.support import paths
from wellbook.water.chemistry.balance import allowed_difference, charge_balance, equivalent
from wellbook.water.chemistry.indices import indices
from wellbook.water.chemistry.interval import Interval, contents
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

CATALOGUE = read_catalogue(paths.resources())
_KEYS = """ph temperature calcium magnesium sodium potassium chloride sulfate fluoride silica
nitrate alkalinity"""
KEYS = _KEYS.split()
# Made up: hard limestone water, soft acid water, softened water.
WATERS = {
    "limestone": "7.3 12 96 28 12 2.0 22 34 0.2 12 4.2 305",
    "soft": "6.1 10 5.6 1.5 4.8 0.9 6.5 5.2 0.05 14 0.6 14.5",
    "softened": "7.5 14 2.0 0.5 165 1.0 25 36 0.2 12 3.0 280",
}


def result(key, word):
    parameter = CATALOGUE.parameters[key]
    kind = Kind.BELOW if word[0] == "<" else Kind.NUMBER
    reading = Reading(word, kind, Decimal(word.strip("<")), parameter.unit, parameter.basis)
    return Result(0, 0, key, parameter.name, reading, LocalTime(date(2024, 5, 6)), 1)


def sample(**words):
    return [result(key, str(word)) for key, word in words.items()]


def water(name):
    return sample(**dict(zip(KEYS, WATERS[name].split(), strict=True)))


def values(results):
    return {index.key: index.value for index in indices(results, CATALOGUE)}


def value(results, key):
    bounds = values(results)[key]
    assert bounds.low == bounds.high
    return bounds.low


@pytest.mark.parametrize(
    ("key", "milligrams"),
    [  # IUPAC masses by periodictable 2.1.0 and molmass, over the charge.
        ("calcium", 20.039), ("magnesium", 12.1525), ("sodium", 22.9898), ("potassium", 39.0983),
        ("iron", 27.9225), ("manganese", 27.469), ("bicarbonate", 61.016), ("carbonate", 30.004),
        ("sulfate", 48.028), ("chloride", 35.45), ("nitrate", 14.007), ("fluoride", 18.9984),
        ("alkalinity", 50.043), ("ammonia", 14.007),
    ],
)  # fmt: skip
def test_equivalents_are_iupac_masses_over_the_charge(key, milligrams):
    assert equivalent(key, CATALOGUE) == pytest.approx(milligrams, rel=5e-4)


def test_hardness_of_a_field_chemistry_sheet():
    # Ca 35 and Mg 22 mg/L: 178 mg/L as CaCO3.
    assert value(sample(calcium=35, magnesium=22), "hardness") == pytest.approx(178, rel=1e-3)


def test_hardness_is_its_arithmetic():
    # 2.497 x 50 + 4.118 x 10
    assert value(sample(calcium=50, magnesium=10), "hardness") == pytest.approx(166.03, rel=1e-4)


def test_sodium_adsorption_is_its_arithmetic():
    # Na 10, Ca 5, Mg 3 meq/L.
    found = sample(sodium=229.90, calcium=100.195, magnesium=36.4575)
    assert value(found, "sodium_adsorption") == pytest.approx(5.0, rel=1e-4)


@pytest.mark.parametrize(
    ("name", "cations", "anions", "percent"),
    [
        ("limestone", 7.6678, 7.7336, -0.427),
        ("soft", 0.6347, 0.6268, 0.623),
        ("softened", 7.3436, 7.2746, 0.472),
    ],
)
def test_sums_of_ions_of_three_balanced_waters(name, cations, anions, percent):
    balance = charge_balance(contents(water(name), CATALOGUE), CATALOGUE)
    assert balance.cations.low == pytest.approx(cations, rel=2e-3)
    assert balance.anions.low == pytest.approx(anions, rel=2e-3)
    assert balance.percent.low == pytest.approx(percent, abs=0.05)
    assert balance.accepted


@pytest.mark.parametrize(
    ("name", "hardness", "solids", "lead", "larson", "sodium"),
    [
        ("limestone", 355.0, 407.8, 0.647, 0.218, 0.277),
        ("soft", 20.2, 49.9, 1.250, 1.006, 0.465),
        ("softened", 7.05, 423.0, 0.694, 0.260, 27.035),
    ],
)
def test_indices_of_three_waters_are_their_arithmetic(name, hardness, solids, lead, larson, sodium):
    found = values(water(name))
    expected = {
        "hardness": hardness,
        "solids_sum": solids,
        "chloride_sulfate": lead,
        "larson": larson,
        "sodium_adsorption": sodium,
    }
    for key, figure in expected.items():
        assert found[key].low == pytest.approx(figure, rel=3e-3), key


@pytest.mark.parametrize("name", WATERS)
def test_ionic_strength_and_langelier_are_phreeqcs(name):
    words = dict(zip(KEYS, WATERS[name].split(), strict=True))
    phreeqc = phreeqpython.PhreeqPython(database="phreeqc.dat")
    solution = phreeqc.add_solution(
        {
            "units": "mg/l",
            "pH": float(words["ph"]),
            "temp": float(words["temperature"]),
            "Ca": float(words["calcium"]),
            "Mg": float(words["magnesium"]),
            "Na": float(words["sodium"]),
            "K": float(words["potassium"]),
            "Cl": float(words["chloride"]),
            "S(6)": f"{words['sulfate']} as SO4",
            "F": float(words["fluoride"]),
            "Si": f"{words['silica']} as SiO2",
            "N(5)": f"{words['nitrate']} as N",
            "Alkalinity": f"{words['alkalinity']} as CaCO3",
        }
    )
    found = values(water(name))
    # PHREEQC binds some ions in pairs, which lowers its ionic strength by up to 5 %.
    assert found["ionic_strength"].low == pytest.approx(solution.I, rel=0.06)
    assert found["langelier"].low == pytest.approx(solution.si("Calcite"), abs=0.06)
    assert found["langelier_short"].low == pytest.approx(found["langelier"].low - 0.25, abs=0.06)


def test_charge_balance_of_the_german_norm():
    # DIN 38402-62:2013, example in mmol/L: 10.535 and 10.905 meq/L; -3.45 % of half the sum, so
    # -1.73 % of the sum. Acid capacity 4.960 mmol/L is the alkalinity.
    millimoles = {
        "sodium": 0.957, "potassium": 0.072, "calcium": 3.818, "magnesium": 0.864, "iron": 0.052,
        "manganese": 0.019, "nitrate": 1.100, "chloride": 1.805, "sulfate": 1.520,
    }  # fmt: skip
    found = {
        key: Interval(*[amount * float(CATALOGUE.parameters[key].molar_mass)] * 2)
        for key, amount in millimoles.items()
    }
    found["alkalinity"] = Interval(*[4.960 * 50.043] * 2)
    balance = charge_balance(found, CATALOGUE)
    assert balance.cations.low == pytest.approx(10.535, abs=1e-3)
    assert balance.anions.low == pytest.approx(10.905, abs=1e-3)
    assert balance.percent.low == pytest.approx(-3.45 / 2, abs=5e-3)


def test_non_detects_make_the_balance_a_range():
    # A public county file (California, 1988): 7.16 % with the non-detects at nothing, 6.77 % with
    # them at their limits; both lie within the range, whose ends take one each way.
    report = sample(
        calcium=34, sodium=33, potassium="<5", magnesium=15, alkalinity=145, chloride="<5",
        sulfate=23, nitrate=5.7,
    )  # fmt: skip
    balance = charge_balance(contents(report, CATALOGUE), CATALOGUE)
    assert (balance.cations.low, balance.cations.high) == pytest.approx((4.366, 4.494), abs=2e-3)
    assert (balance.anions.low, balance.anions.high) == pytest.approx((3.783, 3.924), abs=2e-3)
    for percent in (6.77, 7.16):
        assert balance.percent.low < percent < balance.percent.high


def test_what_is_allowed_depends_on_the_sum_of_anions():
    # Standard Methods 1030 E (from memory): 0.2 meq/L to 3 meq/L, 2 % to 10 meq/L, then 5 %.
    assert allowed_difference(3.0, 3.1) == 0.2
    assert allowed_difference(5.0, 5.0) == pytest.approx(0.2)
    assert allowed_difference(20.0, 20.0) == pytest.approx(2.0)


@pytest.fixture(scope="module")
def series():
    """Pairs of what Wellbook and what the agency worked out, sample by sample."""
    pairs = []
    for (day, _), rows in rows_by_sample().items():
        theirs = worked_out(rows)
        results = [
            one
            for one in results_of(day, rows)
            if one.parameter not in {"ammonia", "nitrite", "iron", "manganese"}
        ]
        pairs.append(({k: v.high for k, v in values(results).items()}, theirs))
    return pairs


def gaps(series, key, code):
    return [ours[key] - theirs[code] for ours, theirs in series if key in ours and code in theirs]


def share(figures, within):
    return sum(abs(figure) <= within for figure in figures) / len(figures)


def test_hardness_is_that_of_the_agency(series):
    found = gaps(series, "hardness", "00900")
    assert len(found) > 300
    assert share(found, 1.0) >= 0.98


def test_sodium_adsorption_is_that_of_the_agency(series):
    found = gaps(series, "sodium_adsorption", "00931")
    assert len(found) > 300
    assert share(found, 0.1) == 1.0


def test_sodium_share_is_that_of_the_agency(series):
    found = gaps(series, "sodium_percent", "00932")
    assert len(found) > 300
    assert share(found, 1.0) >= 0.98


def test_dissolved_solids_are_those_of_the_agency(series):
    relative = [
        ours["solids_sum"] / theirs["70301"] - 1
        for ours, theirs in series
        if "solids_sum" in ours and "70301" in theirs
    ]
    assert len(relative) > 150
    assert abs(median(relative)) < 0.01
    assert share(relative, 0.06) >= 0.9
