"""What a place suggests to a new household: limit sets, seasons, paper, dates, intervals."""

import csv
from collections.abc import Mapping
from dataclasses import dataclass, fields
from pathlib import Path

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


def read_places(folder: Path) -> dict[str, Place]:
    """The places of `places.csv`, by code; a part of a country is told with its country's words.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    places: dict[str, Place] = {}
    with (folder / "places.csv").open(encoding="utf-8", newline="") as file:
        for number, row in enumerate(csv.DictReader(file), start=2):
            try:
                for code in row["places"].split():
                    places[code] = _place(code, row, places)
            except (KeyError, ValueError) as problem:
                raise ValueError(f"places.csv, row {number}: {problem}") from problem
    return places


def place_of(places: Mapping[str, Place], country: str, state: str = "") -> Place:
    """The nearest place that is known: the state, else its country, else anywhere else."""
    country, state = country.strip().upper(), state.strip().upper()
    return places.get(f"{country}-{state}") or places.get(country) or places[ELSEWHERE]


def _place(code: str, row: Mapping[str, str], places: Mapping[str, Place]) -> Place:
    """A row, its empty cells filled from the country's; sets and intervals come on top."""
    country = code.partition("-")[0]
    whole = places[country] if country != code else None
    own_sets = tuple(row["limit_sets"].split())
    own_months = {panel: int(n) for panel, n in (_pair(word) for word in row["months"].split())}
    values: dict[str, str] = {
        field.name: row[field.name] or (getattr(whole, field.name) if whole else "")
        for field in fields(Place)
        if field.name not in {"code", "limit_sets", "months"}
    }
    more = whole.limit_sets if whole else ()
    return Place(
        code=code,
        limit_sets=(*own_sets, *(key for key in more if key not in own_sets)),
        months={**(whole.months if whole else {}), **own_months},
        **values,
    )


def _pair(word: str) -> tuple[str, str]:
    panel, sign, months = word.partition("=")
    if not sign:
        raise ValueError(f"{word!r} is no panel=months")
    return panel, months
