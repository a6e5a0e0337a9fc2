"""Open data taken in as a lab's file would be; what it must give is counted without our code.

Sources and licences stand in the README beside the data.
"""

import csv
import json
from collections import Counter
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from wellbook import intake
from wellbook.intake.words.names import read_fraction
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.parsing.printed import read_reading
from wellbook.water.units.basis import understand_basis
from wellbook.water.units.conversion import in_usual
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.readings import Flag, Kind

DATA = Path(__file__).parent.parent / "data"
RIVER = DATA / "choptank" / "usgs_nwis_01491000_1964-2020_long.csv"


def table(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture(scope="module")
def river(catalogue):
    """Fifty-six years of one stream, as one file of USGS codes."""
    return intake.read(RIVER, catalogue)


@pytest.fixture(scope="module")
def results(river):
    return [result for sample in river.samples for result in sample.sample.results]


def test_every_row_of_the_river_is_a_result_and_nothing_is_odd(river, results):
    assert len(results) == len(table(RIVER)) == 15190
    assert river.findings == ()


def test_every_day_and_time_of_the_river_is_a_sample(river):
    rows = Counter((row["sample_dt"], row["sample_tm"]) for row in table(RIVER))
    found = {
        (
            s.sample.collected.day.isoformat(),
            f"{s.sample.collected.at:%H:%M}" if s.sample.collected.at else "",
        ): len(s.sample.results)
        for s in river.samples
    }
    assert found == rows


def test_the_agencys_remarks_are_understood(results):
    # Counted by the README of the data: 446 `<`, 107 `E` (estimated), 24 `V` (contamination).
    assert sum(r.reading.kind is Kind.BELOW for r in results) == 446
    assert sum(Flag.ESTIMATED in r.reading.flags for r in results) == 107
    assert sum(Flag.IN_BLANK in r.reading.flags for r in results) == 24
    assert Counter(r.qualifier for r in results) == {"": 15190 - 131, "E": 107, "V": 24}


def test_every_code_gives_as_many_results_as_its_key_says(results):
    counts = Counter(r.name for r in results)
    below = Counter(r.name for r in results if r.reading.kind is Kind.BELOW)
    estimated = Counter(r.name for r in results if Flag.ESTIMATED in r.reading.flags)
    for row in table(DATA / "choptank" / "usgs_nwis_01491000_parameters.csv"):
        code = row["parm_cd"]
        assert (counts[code], below[code], estimated[code]) == (
            int(row["rows"]),
            int(row["lessthan"]),
            int(row["estimated"]),
        )


def test_every_code_is_a_parameter_with_the_unit_its_key_says(results, catalogue):
    keys = {
        row["parm_cd"]: row["meaning"]
        for row in table(DATA / "choptank" / "usgs_nwis_01491000_parameters.csv")
    }
    for result in {r.name: r for r in results}.values():
        assert result.parameter in catalogue.parameters
        meaning = keys[result.name]
        unit = next((u for u in ("mg/L", "ug/L", "uS/cm", "deg C") if u in meaning), None)
        if unit:
            assert result.reading.unit == unit
        for words, basis in (
            ("as N", "as N"),
            ("as NO3", "as NO3"),
            ("as NH4", "as NH4"),
            ("CaCO3", "as CaCO3"),
            ("SiO2", "as SiO2"),
        ):
            said = meaning.removesuffix(" (USGS-computed)").endswith(words)
            assert (result.reading.basis == basis) == said


def test_a_zero_without_a_remark_stays_a_zero(results):
    # The README of the data: eleven rows of lead, copper and arsenic, 1970 to 1981.
    zeros = [
        r for r in results if r.parameter in {"lead", "copper", "arsenic"} and r.reading.number == 0
    ]
    assert len(zeros) == 11
    assert {r.reading.kind for r in zeros} == {Kind.NUMBER}


def test_nitrate_as_no3_and_as_n_are_the_same_water(river, catalogue):
    """The agency worked out the one from the other; both come to one figure here."""
    nitrate = catalogue.parameters["nitrate"]
    apart = []
    for sample in river.samples:
        found = {r.name: r.reading for r in sample.sample.results if r.parameter == "nitrate"}
        if found.keys() == {"00618", "71851"}:
            as_n, as_no3 = (in_usual(found[code], nitrate) for code in ("00618", "71851"))
            assert as_n is not None
            assert as_no3 is not None
            apart.append(abs(as_no3 - as_n) / as_n)
    assert len(apart) == 866
    # The agency rounded both; in three rows of 1972 to two figures or less.
    assert sum(part > Decimal("0.01") for part in apart) == 3
    assert max(apart) < Decimal("0.04")


@pytest.fixture(scope="module")
def both_layouts(catalogue):
    files = (DATA / "wqx" / f"results_{name}.csv" for name in ("legacy", "3"))
    return [intake.read(file, catalogue) for file in files]


def test_two_layouts_of_the_open_exchange_tell_the_same(both_layouts):
    legacy, newer = (
        {
            (s.sample.lab_number, s.point_name, s.sample.collected, s.sample.results)
            for s in draft.samples
        }
        for draft in both_layouts
    )
    assert legacy == newer
    assert len(legacy) == 5


def test_the_older_layout_tells_what_its_rows_say(both_layouts):
    rows = table(DATA / "wqx" / "results_legacy.csv")
    for row, sample in zip(rows, both_layouts[0].samples, strict=True):
        (result,) = sample.sample.results
        assert result.parameter == "conductivity"
        assert result.reading.text == row["ResultMeasureValue"]
        assert result.reading.unit == "uS/cm"
        assert sample.sample.collected.day == date.fromisoformat(row["ActivityStartDate"])
        assert sample.sample.collected.iso().endswith("-05:00")  # CDT, UTC-5


def test_a_table_of_limits_is_no_table_of_results(catalogue):
    with pytest.raises(Fault, match="not a table of results"):
        intake.read(DATA / "wqx" / "detection_limits.csv", catalogue)


def allowed(name):
    return json.loads((DATA / "wqx" / f"{name}.json").read_text(encoding="utf-8"))["enum"]


def test_every_fraction_of_the_open_exchange_that_is_total_or_dissolved_is_read_so():
    words = {text: read_fraction(text) for text in allowed("SampleFraction")}
    assert {text for text, read in words.items() if read == "total"} == {
        "Total",
        "Total Recoverable",
        "Unfiltered",
        "Unfiltered, field",
        "Unfiltered, lab",
    }
    assert {text for text, read in words.items() if read == "dissolved"} == {
        "Dissolved",
        "Filterable",
        "Filtered field and/or lab",
        "Filtered, field",
        "Filtered, lab",
    }


def test_no_condition_of_the_open_exchange_is_ever_a_number():
    for text in allowed("ResultDetectionCondition"):
        assert read_reading(text).kind is not Kind.NUMBER


def test_the_bases_of_nutrients_and_hardness_are_known():
    known = {text for text in allowed("MethodSpeciation") if understand_basis(text) == text}
    assert known >= {"as N", "as NO3", "as NO2", "as NH4", "as NH3", "as CaCO3", "as P", "as PO4"}
