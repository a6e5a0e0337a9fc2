"""Lab files as five countries have them, judged by the limits there.

The files are invented. `judged.csv` beside them was written by hand from the Trinkwasserverordnung
of 2023 and NOM-127-SSA1-2021, both read whole, Directive (EU) 2020/2184 and the Australian Drinking
Water Guidelines as of 2025; figures of these two partly from memory, as `limits.csv` says. In Spain
the program offers the directive: of its Annex I the part in force, with lead at 10 µg/L until 12
January 2036 and at 5 µg/L from then on.
"""

import csv
import json
import shutil
import sqlite3
from pathlib import Path

import pytest
from command_line import CommandLine

LABS = Path(__file__).parents[2] / "data" / "labs_abroad"
DAY = "2026-11-28"
COUNTRIES = {"germany": "DE", "france": "FR", "mexico": "MX", "australia": "AU", "spain": "ES"}
# As the country's accrediting body and its numbers are printed; common practice, no source.
ACCREDITED = {
    "germany": "DAkkS D-PL-12345-01-00",
    "france": "COFRAC n° 1-1234",
    "mexico": "Acreditación ema, a.c. AG-123-456/12",
    "australia": "NATA accredited laboratory number 1234",
    "spain": "ENAC nº 123/LE456",
}
POINTS = {
    "germany": "Küche",
    "france": "Cuisine",
    "mexico": "Cocina",
    "australia": "Kitchen",
    "spain": "Cocina",
}


def by_hand(file):
    with (LABS / "judged.csv").open(encoding="utf-8", newline="") as table:
        return [row for row in csv.DictReader(table) if row["file"] == file]


@pytest.fixture(scope="module", params=sorted(COUNTRIES))
def taken(request, tmp_path_factory):
    """A file's name, the points of a book of its country that took it in, and the book."""
    file, shell = request.param, CommandLine(tmp_path_factory.mktemp("abroad"))
    shutil.copy(LABS / f"{file}.csv", shell.folder)
    shell.done("new", "home.wellbook")
    shell.done("settings", "home.wellbook", "--set", f"country={COUNTRIES[file]}")
    shell.done("add", "home.wellbook", f"{file}.csv", "--accept")
    said = shell.done("status", "home.wellbook", "--on", DAY, "--json").out
    (well,) = json.loads(said)["wells"]
    return file, well["points"], shell.folder / "home.wellbook"


def test_every_figure_is_judged_by_the_limits_of_the_place(taken):
    file, (point,), _book = taken
    found = {row["key"]: row["now"] for row in point["parameters"]}
    names = ("verdict", "limit", "unit", "basis")
    said = {
        row["parameter"]: tuple(found[row["parameter"]][name] or "" for name in names)
        for row in by_hand(file)
    }
    assert said == {row["parameter"]: tuple(row[name] for name in names) for row in by_hand(file)}


def test_the_place_where_it_was_drawn_is_read_in_every_language(taken):
    file, (point,), _book = taken
    assert point["name"] == POINTS[file]


def test_the_labs_accreditation_is_kept_with_the_lab(taken):
    file, _points, path = taken
    with sqlite3.connect(path) as book:
        kept = book.execute("SELECT accreditation FROM lab").fetchall()
    assert kept == [(ACCREDITED[file],)]


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


@pytest.mark.parametrize(
    ("changes", "figure", "read_as"),
    [
        (("country=DE",), "1.234", "read as decimals"),
        (("country=US",), "1234", "read as thousands"),
        (("country=DE", "decimal=point"), "1234", "read as thousands"),
        (("country=CA", "state=QC"), "1.234", "read as decimals"),
    ],
)
def test_a_comma_that_the_file_leaves_open_is_read_as_the_place_writes_it_and_asked_about(
    shell, changes, figure, read_as
):
    shell.done("new", "home.wellbook")
    sets = [word for change in changes for word in ("--set", change)]
    shell.done("settings", "home.wellbook", *sets)
    lines = ("Sample Date,2026-03-12", "", "Parameter;Result;Unit", "Iron;1,234;mg/L")
    (shell.folder / "r.csv").write_text("\n".join(lines).replace(",2026", ";2026") + "\n")
    (file,) = json.loads(shell.done("add", "home.wellbook", "r.csv", "--json").out)["files"]
    (result,) = file["samples"][0]["results"]
    assert result["number"] == figure
    assert any(read_as in found["text"] for found in file["findings"])


def test_over_mexicos_last_step_the_status_says_the_figure_and_the_month(shell):
    # NOM-127-SSA1-2021: arsenic 0.025 mg/L, 0.01 at the last step; its month is from memory.
    shell.done("new", "home.wellbook")
    shell.done("settings", "home.wellbook", "--set", "country=MX", "--set", "language=en")
    lines = ("Sample Date,2026-03-12", "", "Parameter,Result,Unit", "Arsenic,0.02,mg/L")
    (shell.folder / "r.csv").write_text("\n".join(lines) + "\n")
    shell.done("add", "home.wellbook", "r.csv", "--accept")
    said = " ".join(shell.done("status", "home.wellbook", "--on", DAY).out.split())
    assert "0.01 mg/L" in said
    assert "April 2029" in said or "2029-04" in said
    spanish = shell.done("status", "home.wellbook", "--on", DAY, "--json").out
    (point,) = json.loads(spanish)["wells"][0]["points"]
    assert point["parameters"][0]["now"]["verdict"] == "adopted"
