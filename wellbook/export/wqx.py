"""Readings in the result columns of the open WQX format (US EPA), for programs that know them.

The columns are theirs; names and units stay as the lab printed them, and the comment repeats the
result exactly as printed. A result has a value or a detection condition, never both.
"""

from collections.abc import Callable
from dataclasses import dataclass

from wellbook.book.record import Record
from wellbook.book.rows import Sample
from wellbook.sharing.fields import Field
from wellbook.sharing.redaction import privacy
from wellbook.sharing.tables import TableFile
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

FILE = "wqx_results.csv"
_HOUR = 60


@dataclass(frozen=True, slots=True)
class _Row:
    """One reading with its sample and the name of its point."""

    sample: Sample
    result: Result
    point: str

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
    ("CharacteristicName", "What was measured, as the lab printed it", lambda r: r.result.name),
    ("ResultMeasureValue", "The figure; empty where there is a condition", _value),
    ("ResultMeasure/MeasureUnitCode", "Unit as printed", lambda row: row.reading.unit),
    (
        "ResultDetectionConditionText",
        "Why there is no figure",
        lambda row: _CONDITIONS.get(row.reading.kind, ""),
    ),
    ("ResultSampleFractionText", "Total or dissolved", lambda row: row.reading.fraction),
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
        lambda row: row.reading.unit if row.bound else "",
    ),
    ("ResultCommentText", "The result exactly as printed", lambda row: row.reading.text),
)


def wqx_table(record: Record, *, with_personal: bool) -> TableFile:
    """Every reading of a book, those of struck samples marked as rejected."""
    cover = privacy(record, with_personal=with_personal)
    samples = {one.id: one for one in record.samples(with_struck=True)}
    points = {one.id: cover.cover(one.name) for one in record.points}
    rows = [
        _Row(samples[one.sample], one, points[one.point])
        for one in record.results(with_struck=True)
    ]
    return TableFile(
        FILE,
        "One row for each reading in the result columns of WQX",
        tuple(Field(name, meaning) for name, meaning, _ in _COLUMNS),
        [[cell(row) for _, _, cell in _COLUMNS] for row in rows],
    )
