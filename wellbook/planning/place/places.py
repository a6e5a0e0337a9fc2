"""What a place suggests to a new household: limit sets, seasons, paper, dates, intervals."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Self

from wellbook.support import paths
from wellbook.support.csv_rows import read_rows

ELSEWHERE = "*"


class Months(dict[str, int]):
    """Months between two tests, by panel; a cell says `bacteria=12 nitrate=12`."""

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read a cell.

        Raises:
            ValueError: A word of it is no `panel=months`.
        """
        pairs = [word.partition("=") for word in text.split()]
        for panel, sign, months in pairs:
            if not (panel and sign and months.isdecimal()):
                raise ValueError(f"{panel}{sign}{months} is no panel=months")
        return cls({panel: int(months) for panel, _sign, months in pairs})


@dataclass(frozen=True, slots=True)
class Place:
    """What a country or a part of it suggests; each can be changed by the household.

    It is a row of `places.csv`, where an empty cell of a part of a country is its country's.

    Attributes:
        places: Codes of ISO 3166-1, or of ISO 3166-2 with their dash; `*` for anywhere else.
        name: Plain name, to be said.
        limit_sets: Keys of limit sets, the place's own first.
        seasons: Key of a scheme of seasons.
        paper: `letter` or `a4`.
        dates: `month-first`, `day-first`, or `asked` where both are in use.
        decimal: `point` or `comma`: the sign that labs print.
        currency: ISO 4217 code, or empty.
        units: Key of a choice of units, or empty for the usual ones.
        language: Language of the window there, or empty where Wellbook doesn't speak it.
        months: Months between tests that an agency of the place advises, by panel.
        ask: Who answers questions on health there, to be said.
        emergency: The number to call in an emergency, or empty.
        labs: What vouches for a lab there, to be said; or empty.
        source: Who says so.
    """

    places: tuple[str, ...]
    name: str
    limit_sets: tuple[str, ...]
    seasons: str
    paper: str
    dates: str
    decimal: str
    currency: str
    units: str
    language: str
    months: Months
    ask: str
    emergency: str
    labs: str
    source: str

    def within(self, whole: "Place") -> "Place":
        """The place as a part of another: what it doesn't say is said there, sets are added."""
        names = [one.name for one in fields(self)]
        told = {name: getattr(self, name) or getattr(whole, name) for name in names}
        sets = tuple(dict.fromkeys((*self.limit_sets, *whole.limit_sets)))
        months = Months({**whole.months, **self.months})
        return Place(**{**told, "limit_sets": sets, "months": months})


def read_places(folder: Path) -> dict[str, Place]:
    """The places of `places.csv`, by code; a country's row stands above those of its parts.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    places: dict[str, Place] = {}
    for row in read_rows(folder / "places.csv", Place):
        for code in row.places:
            if code in places:
                raise ValueError(f"places.csv: {code} has two rows")
            whole = places.get(code.partition("-")[0])
            places[code] = row.within(whole) if whole else row
    return places


@cache
def known_places() -> Mapping[str, Place]:
    """The places that come with Wellbook, read once."""
    return read_places(paths.resources())


def place_of(places: Mapping[str, Place], country: str, state: str = "") -> Place:
    """The nearest place that is known: the state, else its country, else anywhere else."""
    country, state = country.strip().upper(), state.strip().upper()
    return places.get(f"{country}-{state}") or places.get(country) or places[ELSEWHERE]
