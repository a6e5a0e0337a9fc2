"""Readings in the result columns of the open WQX format (US EPA), for programs that know them.

Columns, names, units, bases and fractions are those of the format's domain lists; the comment
repeats name and result exactly as printed. What has no word in these lists is not called by one
that is near: it stands in a table of its own, with the reason.
A result has a value or a detection condition, never both. Organisation and project are for whoever
submits the file to add.
"""

import csv
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from wellbook.book.record import Record
from wellbook.book.rows import Sample
from wellbook.sharing.fields import Field
from wellbook.sharing.redaction import privacy
from wellbook.sharing.tables import TableFile
from wellbook.support import paths
from wellbook.water.units.spellings import understand
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

FILE = "wqx_results.csv"
REST = "wqx_not_mapped.csv"
# Our labels of units and the codes of the domain list MeasureUnit (npm package wqx 3.0.209, read
# 2026-11-28); a figure that is none, such as pH, has the code None there.
UNITS = {
    "g/L": "g/L", "mg/L": "mg/L", "µg/L": "ug/L", "ng/L": "ng/L", "pg/L": "pg/L", "ppm": "ppm",
    "ppb": "ppb", "mmol/L": "mmol/L", "µmol/L": "umol/L", "meq/L": "meq/L", "gpg": "gpg",
    "pCi/L": "pCi/L", "nCi/L": "nCi/L", "Bq/L": "Bq/L", "µS/cm": "uS/cm", "mS/cm": "mS/cm",
    "mS/m": "mS/m", "S/m": "S/m", "µS/m": "uS/m", "NTU": "NTU", "FNU": "FNU", "JTU": "JTU",
    "per 100 mL": "#/100mL", "CFU per 100 mL": "cfu/100mL", "MPN per 100 mL": "MPN/100mL",
    "per mL": "#/mL", "CFU per mL": "cfu/mL", "per L": "#/L", "pH units": "None", "°C": "deg C",
    "°F": "deg F", "K": "deg K", "color units": "PCU", "MFL": "MFL", "mV": "mV", "%": "%",
    "present or absent": "None",
}  # fmt: skip
BASES = frozenset(
    {"as N", "as NO3", "as NO2", "as NH3", "as NH4", "as P", "as PO4", "as CaCO3", "as SiO2",
     "as Si", "as S", "as SO4", "as CN"}
)  # fmt: skip
_FRACTIONS = {"total": "Total", "dissolved": "Dissolved"}
_FORMS = {"total_organic_carbon": "Total", "dissolved_organic_carbon": "Dissolved"}
_HOUR = 60


@dataclass(frozen=True, slots=True)
class _Row:
    """One reading with its sample and the name of its point.

    Attributes:
        name: The characteristic of the domain list; empty where it has none.
        unit: The code of its unit; None where the domain list has none.
    """

    sample: Sample
    result: Result
    point: str
    name: str
    unit: str | None

    @property
    def reading(self) -> Reading:
        """What the lab wrote."""
        return self.result.reading

    @property
    def bound(self) -> str:
        """The limit of a non-detect; else the reporting limit that was printed."""
        if self.reading.kind is Kind.BELOW and self.reading.number is not None:
            return f"{self.reading.number:f}"
        return self.result.reporting_limit


_CONDITIONS = {Kind.BELOW: "Not Detected", Kind.NONE: "Not Reported"}
_VALUES = {Kind.PRESENT: "Present", Kind.ABSENT: "Absent"}


def _value(row: _Row) -> str:
    said = row.reading
    if said.kind in _CONDITIONS:
        return ""
    if said.kind is Kind.ABOVE and said.number is not None:
        return f">{said.number:f}"
    if said.kind is Kind.NUMBER and said.number is not None:
        return f"{said.number:f}"
    return _VALUES.get(said.kind, said.text)


def _zone(row: _Row) -> str:
    offset = row.sample.collected.offset
    if offset is None:
        return ""
    sign, minutes = ("-" if offset < 0 else "+"), abs(offset)
    return f"{sign}{minutes // _HOUR:02d}{minutes % _HOUR:02d}"  # a colon would need a guard


def _status(row: _Row) -> str:
    rejected = row.sample.struck or Flag.REJECTED in row.reading.flags
    return "Rejected" if rejected else "Final"


def _time(row: _Row) -> str:
    at = row.sample.collected.at
    return "" if at is None else f"{at:%H:%M:%S}"


def _fraction(row: _Row) -> str:
    said = row.reading.fraction
    return _FRACTIONS.get(said, said) or _FORMS.get(row.result.parameter, "")


def _lacks(row: _Row) -> str:
    """What of a reading has no word in the domain lists; empty where nothing is missing."""
    if not row.name:
        return "no characteristic of the domain list is exactly this"
    if row.unit is None:
        return "no unit of the domain list is exactly this"
    if row.reading.basis and row.reading.basis not in BASES:
        return "no method speciation of the domain list is exactly this basis"
    return ""


_COLUMNS: tuple[tuple[str, str, Callable[[_Row], str]], ...] = (
    (
        "ActivityIdentifier",
        "The lab’s number of the sample, or ours",
        lambda row: row.sample.lab_number or f"sample {row.sample.id}",
    ),
    ("ActivityTypeCode", "Kind of activity", lambda _: "Sample-Routine"),
    ("ActivityMediaName", "Medium", lambda _: "Water"),
    (
        "ActivityStartDate",
        "Local day of the draw",
        lambda row: str(row.sample.collected.day),
    ),
    ("ActivityStartTime/Time", "Local time of the draw", _time),
    ("ActivityStartTime/TimeZoneCode", "Its offset from UTC", _zone),
    ("MonitoringLocationIdentifier", "Name of the sampling point", lambda row: row.point),
    ("CharacteristicName", "What was measured, by the domain list", lambda row: row.name),
    ("ResultMeasureValue", "The figure; empty where there is a condition", _value),
    ("ResultMeasure/MeasureUnitCode", "Unit, by the domain list", lambda row: row.unit or ""),
    (
        "ResultDetectionConditionText",
        "Why there is no figure",
        lambda row: _CONDITIONS.get(row.reading.kind, ""),
    ),
    ("ResultSampleFractionText", "Total or dissolved", _fraction),
    ("MethodSpecificationName", "What the weight is counted as", lambda row: row.reading.basis),
    ("MeasureQualifierCode", "Letters beside the result", lambda row: row.result.qualifier),
    ("ResultStatusIdentifier", "Rejected: struck out, or by the lab", _status),
    ("ResultAnalyticalMethod/MethodIdentifier", "Method as printed", lambda r: r.result.method),
    ("LaboratoryName", "Lab that ran it", lambda row: row.result.lab),
    (
        "AnalysisStartDate",
        "Day of the analysis",
        lambda row: row.result.analysed.day.isoformat() if row.result.analysed else "",
    ),
    (
        "DetectionQuantitationLimitTypeName",
        "Kind of limit",
        lambda row: "Reporting limit" if row.bound else "",
    ),
    ("DetectionQuantitationLimitMeasure/MeasureValue", "The limit", lambda row: row.bound),
    (
        "DetectionQuantitationLimitMeasure/MeasureUnitCode",
        "Unit of the limit",
        lambda row: (row.unit or "") if row.bound else "",
    ),
    (
        "ResultCommentText",
        "Name and result exactly as printed",
        lambda row: f"{row.result.name}: {row.reading.text}",
    ),
)


_REST: tuple[tuple[str, str, Callable[[_Row], str]], ...] = (
    ("point", "Name of the sampling point", lambda row: row.point),
    ("day", "Local day of the draw", lambda row: row.sample.collected.day.isoformat()),
    ("lab_number", "The lab’s number of the sample", lambda row: row.sample.lab_number),
    ("name", "What was measured, as the lab printed it", lambda row: row.result.name),
    ("result", "The result exactly as printed", lambda row: row.reading.text),
    ("unit", "Unit as printed", lambda row: row.reading.unit),
    ("basis", "What the weight is counted as", lambda row: row.reading.basis),
    ("reason", "Why it is not in the other table", _lacks),
)


def wqx_tables(record: Record, *, with_personal: bool) -> tuple[TableFile, TableFile]:
    """Every reading of a book in one of two tables, those of struck samples marked as rejected.

    The first is in the words of the format; the second holds what these words don't cover.
    """
    cover = privacy(record, with_personal=with_personal)
    samples = {one.id: one for one in record.samples(with_struck=True)}
    points = {one.id: cover.cover(one.name) for one in record.points}
    names = _names()
    rows = [
        _Row(
            samples[one.sample],
            one,
            points[one.point],
            names.get(one.parameter, ""),
            _unit(one.reading),
        )
        for one in record.results(with_struck=True)
    ]
    return (
        _table(
            FILE,
            "One row for each reading in the result columns and words of WQX",
            _COLUMNS,
            [row for row in rows if not _lacks(row)],
        ),
        _table(
            REST,
            "One row for each reading that the words of WQX don’t cover, with the reason",
            _REST,
            [row for row in rows if _lacks(row)],
        ),
    )


def _table(
    file: str,
    meaning: str,
    columns: tuple[tuple[str, str, Callable[[_Row], str]], ...],
    rows: Sequence[_Row],
) -> TableFile:
    fields = tuple(Field(name, told) for name, told, _ in columns)
    return TableFile(file, meaning, fields, [[cell(row) for _, _, cell in columns] for row in rows])


def _names() -> dict[str, str]:
    """The characteristic of each parameter that has one."""
    with (paths.resources() / "wqx_names.csv").open(encoding="utf-8", newline="") as file:
        return {row["parameter"]: row["characteristic"] for row in csv.DictReader(file)}


def _unit(reading: Reading) -> str | None:
    if not reading.unit:
        return ""
    known = understand(reading.unit)
    return UNITS.get(known.label) if known else None
