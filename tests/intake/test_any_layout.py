"""The same facts in any layout are the same facts: tables are written at random and read back."""

import csv
import io
from dataclasses import dataclass
from datetime import date, time

from drafts import TODAY
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wellbook import intake

HEADINGS = {
    "name": ["Analyte", "Parameter", "Test", "Contaminant", "Parameter Name", "ANALYTE"],
    "result": ["Result", "Value", "Your Result", "Concentration", "result_value"],
    "unit": ["Unit", "Units", "UOM", "Result Units"],
    "day": ["Collected", "Date Collected", "Sample Date", "Sampled", "collection_date"],
    "time": ["Time Collected", "Sample Time", "Time"],
    "point": ["Location", "Sampling Point", "Sample Location", "Site"],
    "number": ["Lab Sample ID", "Sample ID", "Lab No.", "Sample #"],
    "method": ["Method", "Analytical Method"],
    "limit": ["RL", "Reporting Limit", "PQL", "MRL"],
    "maximum": ["MCL", "EPA Limit", "Standard"],
}
# Printed name, what it means, and a unit it is printed in.
KNOWN = [
    ("Iron", "iron", "mg/L"),
    ("Manganese, Total", "manganese", "ug/L"),
    ("Nitrate as N", "nitrate", "mg/L"),
    ("Lead - First Draw", "lead", "µg/L"),
    ("1,2-Dichloroethane", "dichloroethane_12", "ug/L"),
    ("Hardness (as CaCO3)", "hardness", "mg/L"),
    ("Total Coliform", "total_coliform", "per 100 mL"),
    ("pH", "ph", "S.U."),
    ("Frobnium", "", "mg/L"),
]


@dataclass(frozen=True)
class Row:
    """A result as a lab knows it."""

    day: date
    at: time | None
    point: str
    number: str
    what: tuple[str, str, str]
    result: str
    method: str
    limit: str


FIGURES = st.decimals("0.001", 999, places=3).map(lambda d: f"{d.normalize():f}")
ROWS = st.builds(
    Row,
    st.dates(date(1960, 1, 1), TODAY),
    st.one_of(st.none(), st.times(time(0, 1)).map(lambda t: t.replace(second=0, microsecond=0))),
    st.sampled_from(["Kitchen tap", "Well head", "Barn, cold", ""]),
    st.sampled_from(["A-1", "A-2", "24-0177", ""]),
    st.sampled_from(KNOWN),
    st.one_of(FIGURES, FIGURES.map("<{}".format), st.sampled_from(["ND", "Absent", "Present"])),
    st.sampled_from(["EPA 200.8", "SM 9223B", ""]),
    st.sampled_from(["0.5", "0.001", ""]),
)


@st.composite
def layouts(draw):
    """Column names in a random order, with a separator, an encoding and a way to print dates."""
    columns = draw(st.permutations(list(HEADINGS)))
    return {
        "headings": {key: draw(st.sampled_from(HEADINGS[key])) for key in columns},
        "separator": draw(st.sampled_from(",;\t|")),
        "encoding": draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"])),
        "end": draw(st.sampled_from(["\n", "\r\n"])),
        "quoting": draw(st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL])),
        "day": draw(st.sampled_from(["%Y-%m-%d", "%d-%b-%Y", "%B %d, %Y", "%Y/%m/%d"])),
        "time": draw(st.sampled_from(["%H:%M", "%I:%M %p", "%H:%M:%S"])),
        "above": draw(st.lists(st.sampled_from(["", "Pinewater Analytical", "Certificate"]))),
        "below": draw(st.lists(st.sampled_from(["", "ND = not detected", "End of report"]))),
        "has_comma": draw(st.booleans()),
    }


def written(rows, layout):
    """The rows as a file of that layout."""
    text = io.StringIO()
    writer = csv.writer(
        text,
        delimiter=layout["separator"],
        lineterminator=layout["end"],
        quoting=layout["quoting"],
    )
    for line in layout["above"]:
        writer.writerow([line])
    writer.writerow(layout["headings"].values())
    mark = "," if layout["has_comma"] else "."
    for row in rows:
        cells = {
            "name": row.what[0],
            "result": row.result.replace(".", mark),
            "unit": row.what[2],
            "day": row.day.strftime(layout["day"]),
            "time": row.at.strftime(layout["time"]) if row.at else "",
            "point": row.point,
            "number": row.number,
            "method": row.method,
            "limit": row.limit.replace(".", mark),
            "maximum": "10",
        }
        writer.writerow([cells[key] for key in layout["headings"]])
    for line in layout["below"]:
        writer.writerow([line])
    return text.getvalue().encode(layout["encoding"])


def plain(text):
    return text.replace(",", ".")


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(ROWS, min_size=1, max_size=12), layouts())
def test_the_same_facts_are_read_from_any_layout(tmp_path, catalogue, rows, layout):
    # A decimal comma must show itself somewhere, as it does in any real file.
    rows = [*rows, Row(rows[0].day, rows[0].at, "", "A-1", KNOWN[0], "0.05", "", "")]
    path = tmp_path / "report.csv"
    path.write_bytes(written(rows, layout))
    draft = intake.read(path, catalogue, today=TODAY)
    found = sorted(
        (
            sample.sample.collected.day,
            str(sample.sample.collected.at),
            sample.point_name,
            sample.sample.lab_number,
            result.parameter,
            result.name,
            plain(result.reading.text),
            result.reading.unit,
            result.method,
            plain(result.reporting_limit),
        )
        for sample in draft.samples
        for result in sample.sample.results
    )
    assert found == sorted(
        (
            *(row.day, str(row.at), row.point, row.number, row.what[1], row.what[0]),
            *(row.result, row.what[2], row.method, row.limit),
        )
        for row in rows
    )
    # Half of what was printed as a limit is never a value, and no figure was shifted by a comma.
    for sample in draft.samples:
        for result in sample.sample.results:
            text = plain(result.reading.text).lstrip("<")
            if text[0].isdigit():
                assert result.reading.number is not None
                assert f"{result.reading.number:f}" == text
