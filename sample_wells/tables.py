"""The tables of an invented household, as they lie in its folder."""

import csv
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class ResultRow:
    """One line of a lab report, as printed; `lab` is set where another lab ran it."""

    sample: str
    name: str
    result: str
    unit: str
    basis: str
    fraction: str
    qualifier: str
    reporting_limit: str
    detection_limit: str
    method: str
    lab: str
    analysed: str


@dataclass(frozen=True, slots=True)
class SampleRow:
    """One sample; `sample` is the lab's number of it, `struck` a reason or empty."""

    sample: str
    report: str
    point: str
    collected: str
    received: str
    purpose: str
    standing: str
    draw: str
    temperature: str
    rain: str
    note: str
    struck: str


@dataclass(frozen=True, slots=True)
class ReportRow:
    """One lab report; `amends` is the file of the report that it replaces, or empty."""

    report: str
    lab: str
    number: str
    reported: str
    in_book: str
    amends: str


@dataclass(frozen=True, slots=True)
class Amendment:
    """What a report said before the lab amended it."""

    sample: str
    name: str
    first_report: str
    first_result: str
    reason: str


@dataclass(frozen=True, slots=True)
class Household:
    """Everything in one household's folder."""

    key: str
    about: dict[str, Any]
    reports: tuple[ReportRow, ...]
    samples: tuple[SampleRow, ...]
    results: tuple[ResultRow, ...]
    amendments: tuple[Amendment, ...]

    def samples_of(self, report: ReportRow) -> tuple[SampleRow, ...]:
        """Samples of a report; an amended report is about those of the report it amends."""
        return tuple(s for s in self.samples if s.report == (report.amends or report.report))

    def results_of(self, sample: SampleRow) -> tuple[ResultRow, ...]:
        """Results of a sample as they hold now."""
        return tuple(row for row in self.results if row.sample == sample.sample)


def read_household(folder: Path) -> Household:
    """Read the tables in a household's folder."""
    return Household(
        key=folder.name,
        about=tomllib.loads((folder / "household.toml").read_text(encoding="utf-8")),
        reports=tuple(ReportRow(**row) for row in _rows(folder / "reports.csv")),
        samples=tuple(SampleRow(**row) for row in _rows(folder / "samples.csv")),
        results=tuple(ResultRow(**row) for row in _rows(folder / "results.csv")),
        amendments=tuple(Amendment(**row) for row in _rows(folder / "amendments.csv")),
    )


def _rows(path: Path) -> list[dict[str, str]]:
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
