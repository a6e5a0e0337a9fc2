"""How often planted slips are asked about, and how often sound reports are.

Waters of five kinds, each equilibrated by PHREEQC (limestone, granite, gypsum, road salt, softened
upstream), twelve wells of each, visited every 14 months: dilution scatters by 6 %, each analysis by
2 to 3 %, nitrate and arsenic by 25 %, iron by 60 % and manganese by 45 %. A slip is planted into
the visit after none, four or eight others. Run with
`pytest -m bench tests/bench/test_plausibility_slips.py`.
"""

import math
import random
import sys
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import phreeqpython
import pytest
from scipy import stats

from wellbook.support import paths
from wellbook.water.plausibility.checks import check
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

pytestmark = pytest.mark.bench
CATALOGUE = read_catalogue(paths.resources())
WELLS, VISITS = 12, 12
# What dissolves, in mmol/L, and the minerals it comes to rest with, by their saturation index.
KINDS = {
    "limestone": ({"NaCl": 0.4, "MgSO4": 0.3, "MgCl2": 0.1, "KCl": 0.05}, {"Calcite": 0}),
    "granite": ({"NaHCO3": 0.5, "CaCl2": 0.15, "MgSO4": 0.1, "KCl": 0.05}, {}),
    "gypsum": ({"NaCl": 0.6, "MgSO4": 0.8, "KCl": 0.1}, {"Calcite": 0, "Gypsum": -1.0}),
    "road salt": ({"NaCl": 5.0, "MgSO4": 0.3, "KCl": 0.1}, {"Calcite": 0}),
    "soft": ({"NaHCO3": 4.0, "NaCl": 0.5, "Na2SO4": 0.4, "KCl": 0.05}, {}),
}
MASSES = {
    "calcium": ("Ca", 40.078),
    "magnesium": ("Mg", 24.305),
    "sodium": ("Na", 22.990),
    "potassium": ("K", 39.098),
    "chloride": ("Cl", 35.45),
    "sulfate": ("S", 96.06),
}
SCATTERS = {"nitrate": 0.25, "arsenic": 0.25, "iron": 0.6, "manganese": 0.45, "lead": 0.5}
LIMITS = {"lead": 1.0, "manganese": 0.005, "iron": 0.02, "arsenic": 0.5}
SLIPS = {
    "lost < on lead": ("lead", None),
    "the same, its limit printed": ("lead", None, "printed"),
    "the same, two <1 beside it": ("lead", None, "beside"),
    "NO3 for N": ("nitrate", 4.4266),
    "iron x10": ("iron", 10),
    "manganese x10": ("manganese", 10),
    "arsenic x1000": ("arsenic", 1000),
    "iron x1000": ("iron", 1000),
    "chloride x10": ("chloride", 10),
    "pH 71": ("ph", 10),
}


@pytest.fixture(scope="module")
def wells():
    """Every visit of every well as results, sound."""
    phreeqc = phreeqpython.PhreeqPython(database="phreeqc.dat")
    return [
        visits(water(phreeqc, kind, number), random.Random(f"{kind} {number}"))
        for kind in KINDS
        for number in range(WELLS)
    ]


def water(phreeqc, kind, number):
    """One water in mg/L (metals as the catalogue has them), equilibrated."""
    chance = random.Random(f"water {kind} {number}")
    salts, minerals = KINDS[kind]
    made = phreeqc.add_solution_simple(
        {salt: amount * chance.uniform(0.6, 1.8) for salt, amount in salts.items()}, temperature=10
    )
    gas = {"CO2(g)": chance.uniform(-2.3, -1.6)}
    made.equalize([*minerals, *gas], [*minerals.values(), *gas.values()])
    found = {key: made.total(symbol, "mmol") * mass for key, (symbol, mass) in MASSES.items()}
    charge = sum(
        found[key] * sign / mass
        for key, sign, mass in (
            ("calcium", 2, 40.078), ("magnesium", 2, 24.305), ("sodium", 1, 22.990),
            ("potassium", 1, 39.098), ("chloride", -1, 35.45), ("sulfate", -2, 96.06),
        )
    )  # fmt: skip
    nitrate = 10 ** chance.uniform(-0.5, 0.9)
    found["calcium"] += nitrate / 14.007 / 2 * 40.078
    found |= {
        "alkalinity": max(charge, 0.05) * 50.043,
        "nitrate": nitrate,
        "iron": 10 ** chance.uniform(-1.2, 0.3),
        "manganese": 10 ** chance.uniform(-2, -0.5),
        "arsenic": 10 ** chance.uniform(0, 1.3),
        "lead": 10 ** chance.uniform(-0.6, 0.5),
        "ph": made.pH,
        "conductivity": made.sc,
        "fluoride": chance.uniform(0.1, 0.8),
    }
    found["hardness"] = 2.497 * found["calcium"] + 4.118 * found["magnesium"]
    return found


def visits(found, chance):
    day, told = date(2005, 4, 6), []
    for number in range(1, VISITS + 1):
        dilution = math.exp(chance.gauss(0, 0.06))
        figures = {}
        for key, usual in found.items():
            own = SCATTERS.get(key, 0.025)
            figures[key] = usual * math.exp(chance.gauss(0, own)) * dilution
        figures["ph"] = found["ph"] + chance.gauss(0, 0.1)
        told.append([reading(key, figure, day, number) for key, figure in figures.items()])
        day += timedelta(days=round(14 * 30.44))
    return told


def reading(key, figure, day, number):
    parameter, limit = CATALOGUE.parameters[key], LIMITS.get(key, 0)
    digits = f"{figure:.3g}" if key != "ph" else f"{figure:.2f}"
    word, kind = digits, Kind.NUMBER
    if figure < limit:
        word, kind, digits = f"<{limit}", Kind.BELOW, str(limit)
    made = Reading(word, kind, Decimal(digits), parameter.unit, parameter.basis)
    place = number * 100 + sorted(CATALOGUE.parameters).index(key) % 100
    return Result(place, number, key, parameter.name, made, LocalTime(day), 1)


def asked(results, history):
    return {
        (one.key, tuple(sorted(one.results)))
        for one in check(results, CATALOGUE, history)
        if one.severity == "ask"
    }


def slipped(results, key, factor, with_limit=""):
    """The sample with one slip in it; None where it can't be made.

    Where a `<` is lost, the row may have its limit printed, or two others have it beside it.
    """
    changed = []
    if with_limit == "beside":
        lead = next(one for one in results if one.parameter == "lead")
        below = replace(lead.reading, text="<1.0", kind=Kind.BELOW, number=Decimal("1.0"))
        changed += [replace(lead, id=n, parameter=key_, reading=below)
                    for n, key_ in enumerate(("cadmium", "selenium"), 90_000)]  # fmt: skip
    for one in results:
        made = one.reading
        if one.parameter == key and factor is None:
            if made.kind is not Kind.BELOW:
                return None
            made = replace(made, text=made.text.strip("<"), kind=Kind.NUMBER)
        elif one.parameter == key:
            if made.kind is not Kind.NUMBER:
                return None
            number = made.number * Decimal(str(factor))
            made = replace(made, text=f"{number:.4g}", number=number)
        limit = "1.0" if one.parameter == key and with_limit == "printed" else ""
        changed.append(replace(one, reading=made, reporting_limit=limit))
    return changed


@pytest.mark.timeout(3600)
def test_planted_slips_are_asked_about_and_sound_reports_seldom(wells, capsys):
    table = [f"{len(wells)} wells; asked about in % after 0, 4, 8 visits (tries)"]
    falsely = {}
    for before in (0, 4, 8):
        tried = false = 0
        for told in wells:
            for visit in range(before, min(before + 4, VISITS)):
                history = [row for one in told[visit - before : visit] for row in one]
                tried += 1
                false += bool(asked(told[visit], history))
        falsely[before] = (false, tried)
        table.append(f"sound, after {before}: {false / tried:.1%} of {tried}")
    for name, slip in SLIPS.items():
        cells = []
        for before in (0, 4, 8):
            tried = hit = 0
            for told in wells:
                for visit in range(before, min(before + 3, VISITS)):
                    history = [row for one in told[visit - before : visit] for row in one]
                    planted = slipped(told[visit], *slip)
                    if planted is not None:
                        tried += 1
                        hit += bool(asked(planted, history) - asked(told[visit], history))
            cells.append(f"{hit / max(1, tried):4.0%} ({tried})")
        table.append(f"{name:28} " + "  ".join(cells))
    with capsys.disabled():
        sys.stdout.write("\n" + "\n".join(table) + "\n")
    for false, tried in falsely.values():
        assert stats.binomtest(false, tried).proportion_ci(0.99).low <= 0.05
