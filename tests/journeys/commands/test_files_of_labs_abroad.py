"""Lab files as Germany, France, Mexico and Australia have them, judged by the limits there.

The files are invented. `judged.csv` beside them was written by hand from the Trinkwasserverordnung
of 2023, Directive (EU) 2020/2184, NOM-127-SSA1-2021 and the Australian Drinking Water Guidelines
as of 2025; figures partly from memory, as the rows of `limits.csv` say.
"""

import csv
import json
import shutil
from pathlib import Path

import pytest

LABS = Path(__file__).parents[2] / "data" / "labs_abroad"
DAY = "2026-11-28"
COUNTRIES = {"germany": "DE", "france": "FR", "mexico": "MX", "australia": "AU"}
POINTS = {"germany": "Küche", "france": "Cuisine", "mexico": "Cocina", "australia": "Kitchen"}


def by_hand(file):
    with (LABS / "judged.csv").open(encoding="utf-8", newline="") as table:
        return [row for row in csv.DictReader(table) if row["file"] == file]


@pytest.fixture(params=sorted(COUNTRIES))
def taken(request, shell):
    """A book of the country into which its lab's file was taken, and its file's name."""
    file = request.param
    shutil.copy(LABS / f"{file}.csv", shell.folder)
    shell.done("new", "home.wellbook")
    shell.done("settings", "home.wellbook", "--set", f"country={COUNTRIES[file]}")
    shell.done("add", "home.wellbook", f"{file}.csv", "--accept")
    said = shell.done("status", "home.wellbook", "--on", DAY, "--json").out
    (well,) = json.loads(said)["wells"]
    return file, well["points"]


def test_every_figure_is_judged_by_the_limits_of_the_place(taken):
    file, (point,) = taken
    found = {row["key"]: row["now"] for row in point["parameters"]}
    names = ("verdict", "limit", "unit", "basis")
    said = {
        row["parameter"]: tuple(found[row["parameter"]][name] or "" for name in names)
        for row in by_hand(file)
    }
    assert said == {row["parameter"]: tuple(row[name] for name in names) for row in by_hand(file)}


def test_the_place_where_it_was_drawn_is_read_in_every_language(taken):
    file, (point,) = taken
    assert point["name"] == POINTS[file]


def test_nitrate_nitrogen_is_counted_as_nitrogen_under_each_of_its_names(shell):
    # "Nitrógeno de nitratos" of NOM-127, "Azote des nitrates", "Nitrat-N": figures as N.
    lines = ["Sample Date,2026-03-12", "", "Parameter,Result,Unit"]
    names = ("Nitrógeno de nitratos", "Azote des nitrates", "Nitrat-N", "Nitratstickstoff")
    shell.done("new", "home.wellbook")
    for number, name in enumerate(names):
        file = shell.folder / f"{number}.csv"
        text = "\n".join([*lines, f"{name},12.5,mg/L"]) + "\n"
        file.write_text(text.replace("-12", f"-1{number}"), encoding="utf-8")
        said = shell.done("add", "home.wellbook", file.name, "--json").out
        (result,) = json.loads(said)["files"][0]["samples"][0]["results"]
        assert (result["key"], result["basis"]) == ("nitrate", "as N"), name
