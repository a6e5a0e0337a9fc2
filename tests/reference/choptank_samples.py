"""The Choptank series as samples of results: one sample is one date and time."""

import csv
from decimal import Decimal
from pathlib import Path

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result

FILE = Path(__file__).parent.parent / "data" / "choptank" / "usgs_nwis_01491000_1964-2020_long.csv"
# USGS parameter code: our key, unit, basis, fraction; of equals the first that a sample has.
CODES = {
    "00010": ("temperature", "°C", "", ""),
    "00095": ("conductivity", "µS/cm", "", ""),
    "00400": ("ph", "pH units", "", ""),
    "00403": ("ph", "pH units", "", ""),
    "00410": ("alkalinity", "mg/L", "as CaCO3", ""),
    "39086": ("alkalinity", "mg/L", "as CaCO3", ""),
    "90410": ("alkalinity", "mg/L", "as CaCO3", ""),
    "29801": ("alkalinity", "mg/L", "as CaCO3", ""),
    "00915": ("calcium", "mg/L", "", "dissolved"),
    "00925": ("magnesium", "mg/L", "", "dissolved"),
    "00930": ("sodium", "mg/L", "", "dissolved"),
    "00935": ("potassium", "mg/L", "", "dissolved"),
    "00940": ("chloride", "mg/L", "", "dissolved"),
    "00945": ("sulfate", "mg/L", "", "dissolved"),
    "00950": ("fluoride", "mg/L", "", "dissolved"),
    "00955": ("silica", "mg/L", "as SiO2", "dissolved"),
    "00618": ("nitrate", "mg/L", "as N", "dissolved"),
    "00631": ("nitrate_nitrite", "mg/L", "as N", "dissolved"),
    "00613": ("nitrite", "mg/L", "as N", "dissolved"),
    "00608": ("ammonia", "mg/L", "as N", "dissolved"),
    "70300": ("tds", "mg/L", "", ""),
    "01000": ("arsenic", "µg/L", "", "dissolved"),
    "01049": ("lead", "µg/L", "", "dissolved"),
    "01040": ("copper", "µg/L", "", "dissolved"),
    "01046": ("iron", "µg/L", "", "dissolved"),
    "01056": ("manganese", "µg/L", "", "dissolved"),
}
# What the agency worked out itself, to compare with.
WORKED_OUT = ("00900", "00931", "00932", "70301", "71851")
FIELD = {"00010", "00400", "00410", "39086"}


def rows_by_sample():
    """The first row of each code, by sample, in order of time."""
    samples = {}
    with FILE.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            sample = samples.setdefault((row["sample_dt"], row["sample_tm"]), {})
            sample.setdefault(row["parm_cd"], row)
    return dict(sorted(samples.items()))


def results_of(day, rows):
    """The results of one sample; of two alkalinities the first in the order of `CODES`."""
    results, taken = [], set()
    for code, (key, unit, basis, fraction) in CODES.items():
        if code not in rows or (key == "alkalinity" and key in taken):
            continue
        taken.add(key)
        text = rows[code]["result_va"]
        kind = Kind.BELOW if rows[code]["remark_cd"] == "<" else Kind.NUMBER
        reading = Reading(text, kind, Decimal(text), unit, basis, fraction)
        name = f"{key}, {'field' if code in FIELD else 'lab'}"
        results.append(Result(len(results), 0, key, name, reading, LocalTime.parse(day), 1))
    return results


def worked_out(rows):
    """The agency's own figures of one sample, by code."""
    return {code: float(rows[code]["result_va"]) for code in WORKED_OUT if code in rows}
