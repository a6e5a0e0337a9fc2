"""One sample at each of twelve places, judged by hand from the authority's own table, then and now.

`twelve_places/places.csv` names each authority, what was read on which day and what is from
memory; its tables hold the readings with the limit of the sampling day and of 2026-11-28 as the
authority prints them. `checked` says of a row whether both limits were `read`, one of them
(`part`), or none (`memory`). From 80 % of a health limit on a reading is `near`, our own rule.
"""

import csv
import json
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import commands
import pytest

from wellbook.planning.settings import sets
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.units.basis import NoConversion
from wellbook.water.units.conversion import convert
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Judgement
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline, judge_all

HERE = Path(__file__).parent / "twelve_places"
CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 28)
LEAST = 25
Row = dict[str, str]


@dataclass(frozen=True)
class Place:
    """A household's place and the day of its sample."""

    file: str
    country: str
    state: str
    day: date


def rows(name: str) -> list[Row]:
    with (HERE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


PLACES = [
    Place(row["file"], row["country"], row["state"], date.fromisoformat(row["day"]))
    for row in rows("places")
]
NAMES = [place.file for place in PLACES]


def parameter_of(row: Row) -> str:
    words = row["printed"].split(" as ")[0]
    found = CATALOGUE.find(row["printed"]) or CATALOGUE.find(words)
    assert found, row
    return found.key


def reading_of(row: Row) -> Reading:
    _name, sign, basis = row["printed"].partition(" as ")
    return read_reading(row["result"], unit=row["unit"], basis=f"as {basis}" if sign else "")


@pytest.mark.parametrize("place", PLACES, ids=NAMES)
def test_each_place_has_a_sample_of_twenty_five_with_all_sorts_of_verdicts(place: Place):
    table = rows(place.file)
    assert len({parameter_of(row) for row in table}) == len(table) >= LEAST
    assert {"outside", "near", "within"} <= {row["now"] for row in table}
    assert {row["checked"] for row in table} <= {"read", "part", "memory"}
    assert any(row["then"] != row["now"] for row in table) or place.file == "england"


@pytest.mark.parametrize("place", PLACES, ids=NAMES)
def test_the_function_judges_it_as_the_hand_did(place: Place):
    chosen = sets({"country": place.country, "subdivision": place.state}, CATALOGUE)
    sample = [
        Result(
            *(number, 1, parameter_of(row), row["printed"]),
            reading_of(row),
            *(LocalTime(place.day), 1),
        )
        for number, row in enumerate(rows(place.file), start=1)
    ]
    wrong = []
    for row, result in zip(rows(place.file), sample, strict=True):
        for when, on in (("then", place.day), ("now", TODAY)):
            judgement = headline(judge_all(result, CATALOGUE, chosen, on, beside=sample))
            if not agrees(judgement, row, when):
                limit = judgement.limit
                held = f"{limit.set} {limit.high} {limit.unit}" if limit else "no limit"
                by_hand = f"{row[when]} by {row[f'limit {when}']} {row['unit of limit']}"
                wrong.append(f"{row['printed']} {when}: {judgement.verdict} by {held}; {by_hand}")
    assert wrong == []


def agrees(judgement: Judgement, row: Row, when: str) -> bool:
    """Whether verdict and, where it decides, the figure are those of the hand."""
    if judgement.verdict.value != row[when]:
        return False
    limit, figure = judgement.limit, row[f"limit {when}"]
    if row[when] not in {"outside", "near", "adopted"} or figure == "absent":
        return True
    assert limit is not None
    low, _to, high = figure.rpartition(" to ")
    if low:
        return (limit.low, limit.high) == (Decimal(low), Decimal(high))
    assert limit.high is not None
    parameter = CATALOGUE.parameters[limit.parameter]
    units = [row["unit of limit"]] if row["unit of limit"] else ["mg/L", "µg/L", "ng/L"]
    for unit in units:
        try:
            line = (limit.unit, limit.basis, unit, limit.basis, parameter)
            if convert(limit.high, *line).number == Decimal(figure):
                return True
        except NoConversion:
            continue
    return False


@pytest.mark.parametrize("place", PLACES, ids=NAMES)
def test_the_command_says_of_the_labs_file_what_the_hand_said(place: Place, tmp_path: Path):
    table = rows(place.file)
    book, report = tmp_path / "well.wellbook", tmp_path / "report.csv"
    lines = [f"Sample Date,{place.day}", "Sample Point,Kitchen tap", "", "Parameter,Result,Unit"]
    lines += [f'"{row["printed"]}",{row["result"]},{row["unit"]}' for row in table]
    report.write_text("\n".join(lines) + "\n", encoding="utf-8")
    commands.run("new", book, check=True)
    told = [f"country={place.country}", *([f"state={place.state}"] if place.state else [])]
    commands.run("settings", book, *(word for one in told for word in ("--set", one)), check=True)
    commands.run("add", book, report, "--accept", check=True)
    said = json.loads(
        commands.run("status", book, "--on", TODAY, "--json", check=True).stdout,
    )
    known: dict[str, dict[str, Any]] = {
        one["key"]: one
        for well in said["wells"]
        for point in well["points"]
        for one in point["parameters"]
    }
    found = {
        row["printed"]: tuple(known[parameter_of(row)][when]["verdict"] for when in ("then", "now"))
        for row in table
    }
    assert found == {row["printed"]: (row["then"], row["now"]) for row in table}
