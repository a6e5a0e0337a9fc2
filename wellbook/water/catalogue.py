"""The reference data, read from its folder of plain CSV files."""

import csv
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import TypeVar

from wellbook.water.limits import Limit, LimitKind, LimitSet, Rule
from wellbook.water.names import normal_name
from wellbook.water.parameters import Parameter

_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True)
class Panel:
    """A group of parameters that is tested together.

    Attributes:
        key: Stable key, e.g. `bacteria`.
        name: Plain name.
        core: Keys of the parameters that must have been tested for the panel to count as done.
        also: Keys of parameters that usually come with it.
        months: Suggested interval in calendar months; 0 for `once`.
        why: One plain sentence.
        source: Who says so, and as of when.
    """

    key: str
    name: str
    core: tuple[str, ...]
    also: tuple[str, ...]
    months: int
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Parameters, limits, limit sets and panels."""

    parameters: dict[str, Parameter]
    sets: dict[str, LimitSet]
    limits: tuple[Limit, ...]
    panels: dict[str, Panel]
    _by_name: dict[str, str] = field(repr=False)
    _by_cas: dict[str, str] = field(repr=False)
    _limits_of: dict[str, tuple[Limit, ...]] = field(repr=False)

    def find(self, name: str, cas: str = "") -> Parameter | None:
        """The parameter a lab means by a printed name, or by a CAS number; None if not known."""
        key = self._by_name.get(normal_name(name)) or self._by_cas.get(cas.strip())
        return self.parameters[key] if key else None

    def limits_of(self, parameter: str) -> tuple[Limit, ...]:
        """Every limit of a parameter, in the order of the file."""
        return self._limits_of.get(parameter, ())


def read_catalogue(folder: Path) -> Catalogue:
    """Read `parameters.csv`, `limits.csv`, `limit_sets.csv` and `panels.csv` from a folder.

    Raises:
        OSError: A file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    parameters = {p.key: p for p in _rows(folder / "parameters.csv", _parameter)}
    sets = {s.key: s for s in _rows(folder / "limit_sets.csv", _set)}
    limits = tuple(_rows(folder / "limits.csv", _limit))
    panels = {p.key: p for p in _rows(folder / "panels.csv", _panel)}
    by_name = {
        normal_name(name): p.key for p in parameters.values() for name in (p.name, *p.aliases)
    }
    by_cas = {p.cas: p.key for p in parameters.values() if p.cas}
    grouped: dict[str, list[Limit]] = {}
    for limit in limits:
        grouped.setdefault(limit.parameter, []).append(limit)
    limits_of = {key: tuple(rows) for key, rows in grouped.items()}
    return Catalogue(parameters, sets, limits, panels, by_name, by_cas, limits_of)


def _rows(path: Path, make: Callable[[dict[str, str]], _Made]) -> Iterator[_Made]:
    with path.open(encoding="utf-8", newline="") as file:
        for number, row in enumerate(csv.DictReader(file), start=2):
            try:
                yield make(row)
            except (ValueError, ArithmeticError, LookupError, AttributeError) as problem:
                raise ValueError(f"{path.name}, row {number}: {problem}") from problem


def _number(text: str) -> Decimal | None:
    return Decimal(text) if text else None


def _parameter(row: dict[str, str]) -> Parameter:
    return Parameter(
        key=row["key"],
        name=row["name"],
        family=row["family"],
        cas=row["cas"],
        unit=row["unit"],
        basis=row["basis"],
        scale=row["scale"],
        molar_mass=_number(row["molar_mass"]),
        charge=int(row["charge"] or 0),
        why=row["why"],
        aliases=tuple(filter(None, (a.strip() for a in row["aliases"].split(";")))),
        source=row["source"],
    )


def _set(row: dict[str, str]) -> LimitSet:
    return LimitSet(
        key=row["key"],
        name=row["name"],
        country=row["country"],
        standing=row["standing"],
        default=row["default"] == "yes",
        note=row["note"],
    )


def _limit(row: dict[str, str]) -> Limit:
    return Limit(
        set=row["set"],
        parameter=row["parameter"],
        kind=LimitKind(row["kind"]),
        rule=Rule(row["rule"]),
        low=_number(row["low"]),
        high=_number(row["high"]),
        unit=row["unit"],
        basis=row["basis"],
        fraction=row["fraction"],
        condition=row["condition"],
        start=row["start"],
        end=row["end"],
        source=row["source"],
        where=row["where"],
        checked=row["checked"] == "stored",
        note=row["note"],
    )


def _panel(row: dict[str, str]) -> Panel:
    return Panel(
        key=row["key"],
        name=row["name"],
        core=tuple(row["core"].split()),
        also=tuple(row["also"].split()),
        months=int(row["months"] or 0),
        why=row["why"],
        source=row["source"],
    )
