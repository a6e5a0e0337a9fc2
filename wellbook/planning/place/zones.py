"""The time zone that a country or a part of it goes by, from `time_zones.csv`."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from wellbook.support import paths
from wellbook.support.csv_rows import read_rows


@dataclass(frozen=True, slots=True)
class ZoneOfPlaces:
    """A row of `time_zones.csv`.

    Attributes:
        zone: Its name in the IANA list.
        places: Codes of ISO 3166-1, or of ISO 3166-2 where a part has another than its country.
        source: Who says so.
    """

    zone: str
    places: tuple[str, ...]
    source: str


def read_zones(folder: Path) -> dict[str, str]:
    """Zones by the codes of their places.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense, or a place has two rows; the text names file and row.
    """
    zones: dict[str, str] = {}
    for row in read_rows(folder / "time_zones.csv", ZoneOfPlaces):
        for code in row.places:
            if code in zones:
                raise ValueError(f"time_zones.csv: {code} has two rows")
            zones[code] = row.zone
    return zones


@cache
def _known() -> Mapping[str, str]:
    return read_zones(paths.resources())


def zone_of(country: str, state: str = "") -> str:
    """The zone of a state, else the one that most people of the country have; empty if unknown."""
    country, state = country.strip().upper(), state.strip().upper()
    return _known().get(f"{country}-{state}") or _known().get(country, "")
