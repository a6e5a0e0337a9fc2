"""What a place suggests to a new household: limit sets, seasons, paper, dates, intervals."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Self

from wellbook.support import paths
from wellbook.support.csv_rows import read_rows

ELSEWHERE = "*"


@dataclass(frozen=True, slots=True)
class Place:
    """What a country or a part of it suggests; each can be changed by the household.

    Attributes:
        code: ISO 3166-1 code, or the code of ISO 3166-2 with its dash; `*` for anywhere else.
        name: Plain name, to be said.
        limit_sets: Keys of limit sets, the place's own first.
        seasons: Key of a scheme of seasons.
        paper: `letter` or `a4`.
        dates: `month-first`, `day-first`, or `asked` where both are in use.
        decimal: `point` or `comma`: the sign that labs print.
        currency: ISO 4217 code, or empty.
        units: Key of a choice of units, or empty for the usual ones.
        language: Language of the window there, or empty where Wellbook doesn't speak it.
        months: Panel and months between tests that an agency of the place advises.
        ask: Who answers questions on health there, to be said.
        source: Who says so.
    """

    code: str
    name: str
    limit_sets: tuple[str, ...]
    seasons: str
    paper: str
    dates: str
    decimal: str
    currency: str
    units: str
    language: str
    months: Mapping[str, int]
    ask: str
    source: str


@dataclass(frozen=True, slots=True)
class _Interval:
    """A panel and the months between two tests, as `bacteria=12`."""

    panel: str
    months: int

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read `panel=months`.

        Raises:
            ValueError: It is not of that form.
        """
        panel, sign, months = text.partition("=")
        if not (panel and sign):
            raise ValueError(f"{text!r} is no panel=months")
        return cls(panel, int(months))


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of `places.csv`; an empty cell of a part of a country is its country's."""

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
    months: tuple[_Interval, ...]
    ask: str
    source: str


def read_places(folder: Path) -> dict[str, Place]:
    """The places of `places.csv`, by code; a country's row stands above those of its parts.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    places: dict[str, Place] = {}
    for row in read_rows(folder / "places.csv", _Row):
        for code in row.places:
            if code in places:
                raise ValueError(f"places.csv: {code} has two rows")
            places[code] = _place(code, row, places.get(code.partition("-")[0]))
    return places


@cache
def known_places() -> Mapping[str, Place]:
    """The places that come with Wellbook, read once."""
    return read_places(paths.resources())


def place_of(places: Mapping[str, Place], country: str, state: str = "") -> Place:
    """The nearest place that is known: the state, else its country, else anywhere else."""
    country, state = country.strip().upper(), state.strip().upper()
    return places.get(f"{country}-{state}") or places.get(country) or places[ELSEWHERE]


def _place(code: str, row: _Row, whole: Place | None) -> Place:
    """A row, its empty cells filled from the country's; sets and intervals come on top."""
    cells = {name: cell for name, cell in asdict(row).items() if name != "places"}
    more = whole.limit_sets if whole else ()
    own_months = {interval.panel: interval.months for interval in row.months}
    filled = {
        name: cell or (getattr(whole, name) if whole else cell) for name, cell in cells.items()
    }
    sets = (*row.limit_sets, *(key for key in more if key not in row.limit_sets))
    months = {**(whole.months if whole else {}), **own_months}
    return Place(**{**filled, "code": code, "limit_sets": sets, "months": months})
