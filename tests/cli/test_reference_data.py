"""The check of the reference data: clean as it stands, and it names each harm with file and row."""

import csv
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from wellbook.cli.reference_data import counts, faults, table, warnings
from wellbook.support.paths import resources

Row = dict[str, str]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for path in resources().glob("*.csv"):
        shutil.copy(path, tmp_path)
    return tmp_path


def harm(path: Path, change: Callable[[list[Row]], int]) -> int:
    """Change the rows of a file; gives the number of the row that was harmed, as editors count."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    place = change(rows)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return place + 2


def setting(column: str, value: str, of: Callable[[Row], bool]) -> Callable[[list[Row]], int]:
    def change(rows: list[Row]) -> int:
        place = next(place for place, row in enumerate(rows) if of(row))
        rows[place][column] = value
        return place

    return change


def setting_all(column: str, value: str, of: Callable[[Row], bool]) -> Callable[[list[Row]], int]:
    def change(rows: list[Row]) -> int:
        places = [place for place, row in enumerate(rows) if of(row)]
        for place in places:
            rows[place][column] = value
        return places[0]

    return change


def again(rows: list[Row]) -> int:
    rows.append(dict(rows[0]))
    return len(rows) - 1


def anew(**cells: str) -> Callable[[list[Row]], int]:
    """The first row once more with other cells."""

    def change(rows: list[Row]) -> int:
        rows.append({**rows[0], **cells})
        return len(rows) - 1

    return change


def is_any(_row: Row) -> bool:
    return True


def test_the_reference_data_hold_together():
    assert [str(fault) for fault in faults(resources())] == []


@pytest.mark.parametrize(
    ("name", "change", "says"),
    [
        ("limits.csv", again, "the same limit stands above"),
        ("limits.csv", anew(high="0.001", start="2020"), "holds on a day of 1992-07-30 to …, too"),
        ("limits.csv", setting("unit", "mg", is_any), "'mg' is no unit"),
        ("limits.csv", setting("unit", "NTU", is_any), "can't be told in"),
        ("limits.csv", setting("source", "", is_any), "it cites no rule"),
        ("limits.csv", setting("text", "", is_any), "it was read, but not said where"),
        ("limits.csv", setting("where", "epa.gov", is_any), "'epa.gov' is no address"),
        (
            "limits.csv",
            setting("where", "https://mirror.example/a", is_any),
            "https://mirror.example/a is not the authority's",
        ),
        (
            "limits.csv",
            setting("text", "https://www.epa.gov/a", is_any),
            "what was read at the authority is an address of the authority, too",
        ),
        ("limits.csv", setting("set", "us-xx", is_any), "there is no set us-xx"),
        ("limits.csv", setting("parameter", "water", is_any), "there is no parameter water"),
        ("limits.csv", setting("high", "", is_any), "it has no figure"),
        ("limits.csv", setting("low", "0.001", is_any), "a range has both ends"),
        (
            "limits.csv",
            setting("low", "900", lambda row: row["rule"] == "range"),
            "is empty",
        ),
        ("limits.csv", setting("rule", "absent", is_any), "absence is a rule"),
        ("limits.csv", setting("end", "1990", is_any), "it ends (1990) before it starts"),
        ("limits.csv", setting("read", "", is_any), "has the day on which it was"),
        (
            "limits.csv",
            setting("start", "2029-06", lambda row: row["set"] == "mx-nom-127-pending"),
            "it ends (2029-04-26) before it starts",
        ),
        (
            "limits.csv",
            setting("end", "2028", lambda row: row["set"] == "mx-nom-127-pending"),
            "no limit of its set starts when it ends",
        ),
        (
            "limits.csv",
            setting("high", "0.02", lambda row: (row["set"], row["start"]) == ("us-me", "2029")),
            "us-me-pending does not have it until then",
        ),
        (
            "limit_sets.csv",
            setting("standing", "in force", lambda row: row["key"] == "eu-dwd-pending"),
            "a pending set, and no other, ends with -pending",
        ),
        ("limit_sets.csv", again, "us-epa-primary stands above, too"),
        ("limit_sets.csv", setting("standing", "held", is_any), "'held' is no standing"),
        ("limit_sets.csv", setting("issuer", "", is_any), "its issuer or its language"),
        ("limit_sets.csv", anew(key="zz"), "zz has no limit"),
        ("parameters.csv", again, "total_coliform stands above, too"),
        ("parameters.csv", setting("family", "metal", is_any), "'metal' is no family"),
        (
            "parameters.csv",
            setting("aliases", "Lead", lambda row: row["key"] == "zinc"),
            "a name belongs to",
        ),
        (
            "parameters.csv",
            setting("cas", "7439-92-2", lambda row: row["key"] == "lead"),
            "the check digit of 7439-92-2 is wrong",
        ),
        ("parameters.csv", setting("source", "", is_any), "or no source"),
        ("sums.csv", setting("members", "nitrate; water", is_any), "there is no parameter water"),
        ("sums.csv", setting("unit", "NTU", is_any), "nitrate can't be told in NTU"),
        ("panels.csv", setting("core", "water", is_any), "there is no parameter water"),
        ("triggers.csv", setting("source", "", is_any), "it says no source"),
        ("lab_names.csv", setting("names", "Lead", is_any), "'Lead' means lead, too"),
    ],
)
def test_a_harm_is_named_with_file_and_row(
    folder: Path, name: str, change: Callable[[list[Row]], int], says: str
):
    number = harm(folder / name, change)
    found = [str(fault) for fault in faults(folder)]
    assert any(fault.startswith(f"{name}, row {number}: ") and says in fault for fault in found), (
        found
    )


@pytest.mark.parametrize(
    ("column", "value", "says"),
    [
        ("limit_sets", "us-zz", "US: us-zz is no set in force"),
        ("months", "water=12", "US: there is no panel water"),
        ("paper", "a3", "'a3' is not known"),
        ("seasons", "wet 13", "wet 13"),
        ("months", "bacteria", "column months"),
    ],
)
def test_a_harm_in_places_is_named(folder: Path, column: str, value: str, says: str):
    harm(folder / "places.csv", setting(column, value, lambda row: row["places"] == "US"))
    assert any(says in str(fault) for fault in faults(folder))


def test_a_parameter_that_a_language_does_not_name_is_named(folder: Path):
    harm(
        folder / "lab_names.csv",
        setting_all(
            "language", "it", lambda row: (row["parameter"], row["language"]) == ("iron", "de")
        ),
    )
    found = [str(fault) for fault in faults(folder)]
    assert "lab_names.csv: iron has no name in de" in found


def test_a_row_that_cannot_be_read_is_the_one_fault(folder: Path):
    number = harm(folder / "limits.csv", setting("kind", "ill", is_any))
    (fault,) = faults(folder)
    assert str(fault).startswith(f"limits.csv, row {number}, column kind: 'ill'")


def test_the_table_counts_what_was_read_and_what_is_from_memory(folder: Path):
    before = {row.key: row for row in counts(folder)}
    harm(
        folder / "limits.csv", setting("checked", "memory", lambda row: row["checked"] == "stored")
    )
    after = {row.key: row for row in counts(folder)}
    one, other = before["us-epa-primary"], after["us-epa-primary"]
    assert (other.rows, other.stored, other.memory) == (one.rows, one.stored - 1, one.memory + 1)
    total = f"{len(after)} sets"
    assert table(after.values()).splitlines()[-1].startswith(total)


def test_an_address_of_the_authority_that_nobody_opened_does_not_count_as_read_there(folder: Path):
    def is_pfoa(row: Row) -> bool:
        return (row["set"], row["parameter"]) == ("us-ny", "pfoa")

    def at_the_issuer() -> int:
        return next(row.issued for row in counts(folder) if row.key == "us-ny")

    harm(folder / "limits.csv", setting("text", "https://example.org/copy", is_pfoa))
    before = at_the_issuer()
    with (folder / "limits.csv").open(encoding="utf-8") as file:
        kept = next(row for row in csv.DictReader(file) if is_pfoa(row))["where"]
    harm(folder / "limits.csv", setting("text", kept, is_pfoa))
    assert at_the_issuer() == before + 1


def test_a_limit_that_was_read_and_names_a_copy_only_is_warned_of(folder: Path):
    def of(row: Row) -> bool:
        return (row["set"], row["parameter"]) == ("de-trinkwv", "uranium")

    harm(folder / "limits.csv", setting("where", "", of))
    harm(folder / "limits.csv", setting("text", "https://example.org/copy", of))
    assert not faults(folder)
    (says,) = [one for one in warnings(counts(folder)) if "of de-trinkwv that" in one]
    assert "copies only" in says
    assert "gesetze-im-internet.de" in says


def run(*folder: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "wellbook.cli.reference_data", *folder]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_as_a_command_it_ends_with_1_at_a_fault_and_prints_the_table_without(folder: Path):
    clean = run()
    assert (clean.returncode, clean.stderr) == (0, "")
    assert "us-epa-primary" in clean.stdout
    harm(folder / "limits.csv", again)
    harmed = run(str(folder))
    assert (harmed.returncode, harmed.stderr) == (1, "")
    assert "the same limit stands above" in harmed.stdout
