"""Lab files of five countries dropped on the window are judged there by the country's limits."""

import csv
import shutil
import sqlite3
from pathlib import Path

import commands
import pytest

from wellbook.support.paths import resources

pytestmark = pytest.mark.timeout(600)
LABS = Path(__file__).parents[2] / "data" / "labs_abroad"
COUNTRIES = {"germany": "DE", "france": "FR", "mexico": "MX", "australia": "AU", "spain": "ES"}
ACCREDITED = {
    "germany": "DAkkS D-PL-12345-01-00",
    "france": "COFRAC n° 1-1234",
    "mexico": "Acreditación ema, a.c. AG-123-456/12",
    "australia": "NATA accredited laboratory number 1234",
    "spain": "ENAC nº 123/LE456",
}
# As the overview says them (`wording/verdicts.py`).
SAID = {
    "outside": ("over", "present", "off the range"),
    "adopted": ("over a limit to come",),
    "near": ("close",),
    "within": ("within",),
    "undetected": ("not detected",),
    "no limit": ("no limit",),
}


@pytest.mark.parametrize("file", sorted(COUNTRIES))
def test_a_dropped_file_is_read_and_judged_by_the_limits_of_its_country(use, tmp_path, file):
    book = tmp_path / "home.wellbook"
    shutil.copy(LABS / f"{file}.csv", tmp_path / "report.csv")
    commands.run("new", book, check=True)
    commands.run(
        *("settings", book, "--set", f"country={COUNTRIES[file]}", "--set", "language=en"),
        check=True,
    )
    report = use("abroad:dropped_and_kept", book)
    assert report["failures"] == []
    assert report["facts"]["accepted"]
    assert report["facts"]["kept"]
    assert ACCREDITED[file] in report["facts"]["fields"]
    with sqlite3.connect(book) as kept:
        assert kept.execute("SELECT accreditation FROM lab").fetchall() == [(ACCREDITED[file],)]
    rows = {row[0]: " ".join(row[1:]) for row in report["facts"]["rows"] if row}
    with (resources() / "parameters.csv").open(encoding="utf-8", newline="") as table:
        names = {row["key"]: row["name"] for row in csv.DictReader(table)}
    with (LABS / "judged.csv").open(encoding="utf-8", newline="") as table:
        wanted = [row for row in csv.DictReader(table) if row["file"] == file]
    for row in wanted:
        seen = rows[names[row["parameter"]]]
        assert any(word in seen for word in SAID[row["verdict"]]), (row, seen)
