"""What a USGS parameter code says: a code stands for a parameter with its unit and form."""

from dataclasses import dataclass
from functools import cache

from wellbook.support import paths
from wellbook.support.csv_rows import read_rows


@dataclass(frozen=True, slots=True)
class Code:
    """Parameter, unit, basis and fraction that a five-digit code of the USGS stands for."""

    code: str
    parameter: str
    unit: str
    basis: str
    fraction: str


@cache
def _codes() -> dict[str, Code]:
    path = paths.resources() / "usgs_codes.csv"
    return {row.code: row for row in read_rows(path, Code)}


def look_up(code: str) -> Code | None:
    """The meaning of a code; a spreadsheet may have eaten its leading zeros."""
    return _codes().get(code.strip().zfill(5))


# Remark codes of USGS NWIS, in words that `read_reading` knows. Their E is an estimate, where a
# lab's E says that the calibration was left.
REMARKS = {
    "E": "estimated",
    "V": "blank contamination",
    "U": "not detected",
    "M": "present",
}
