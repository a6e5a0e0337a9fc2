"""The reference data, read from its folder of plain CSV files."""

import csv
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from typing import TypeVar

from wellbook.water.values.bottles import Bottle, read_bottle
from wellbook.water.values.limits import Limit, LimitKind, LimitSet, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import normal_name
from wellbook.water.values.triggers import Trigger, read_symptom, read_trigger

_Made = TypeVar("_Made")
_AT_THE_TAP = timedelta(hours=1)  # what keeps for less is measured there
_LONG = timedelta(days=180)
_FAMILY = "family:"


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
    """Parameters, limits, limit sets, panels, what asks for a test, and how it is drawn.

    Attributes:
        hold_times: From the draw to the start of the test, by parameter.
        triggers: Symptoms first, then the other happenings.
        bottles: In the order in which they are filled.
    """

    parameters: dict[str, Parameter]
    sets: dict[str, LimitSet]
    limits: tuple[Limit, ...]
    panels: dict[str, Panel]
    hold_times: dict[str, timedelta]
    triggers: tuple[Trigger, ...]
    bottles: tuple[Bottle, ...]
    _by_name: dict[str, str] = field(repr=False)
    _by_cas: dict[str, str] = field(repr=False)
    _limits_of: dict[str, tuple[Limit, ...]] = field(repr=False)

    def find(self, name: str, cas: str = "") -> Parameter | None:
        """The parameter a lab means by a printed name, or by a CAS number; None if not known."""
        key = self._by_name.get(normal_name(name)) or self._by_cas.get(cas.strip())
        return self.parameters[key] if key else None

    def renamed(self, parameters: dict[str, Parameter]) -> "Catalogue":
        """The same with other names of parameters; names that labs print are still found."""
        names = {normal_name(one.name): key for key, one in parameters.items()}
        return replace(self, parameters=parameters, _by_name=names | self._by_name)

    def limits_of(self, parameter: str) -> tuple[Limit, ...]:
        """Every limit of a parameter, in the order of the file."""
        return self._limits_of.get(parameter, ())

    def hold(self, parameters: Iterable[str]) -> timedelta:
        """How long the most perishable of them keeps, without those measured at the tap."""
        known = (self.hold_times[key] for key in parameters if key in self.hold_times)
        return min((time for time in known if time >= _AT_THE_TAP), default=_LONG)


def read_catalogue(folder: Path) -> Catalogue:
    """Read the reference data of a folder; its files are told in `README.md` there.

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
    return Catalogue(
        parameters=parameters,
        sets=sets,
        limits=limits,
        panels=panels,
        hold_times=_hold_times(folder / "hold_times.csv", parameters),
        triggers=(
            *_rows(folder / "symptoms.csv", read_symptom),
            *_rows(folder / "triggers.csv", read_trigger),
        ),
        bottles=tuple(
            _rows(
                folder / "bottles.csv",
                lambda row: read_bottle(row, members(row["serves"], parameters)),
            )
        ),
        _by_name=by_name,
        _by_cas=by_cas,
        _limits_of=limits_of,
    )


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
        is_partial=row["whole"] == "no",
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


def _hold_times(path: Path, parameters: dict[str, Parameter]) -> dict[str, timedelta]:
    """Hold times by parameter; a row that names one outranks a row for its family."""

    def row_times(row: dict[str, str]) -> tuple[str, timedelta]:
        return row["parameters"], timedelta(hours=float(row["hours"]))

    rows = sorted(_rows(path, row_times), key=lambda row: not row[0].startswith(_FAMILY))
    return {key: hold for named, hold in rows for key in members(named, parameters)}


def members(text: str, parameters: dict[str, Parameter]) -> tuple[str, ...]:
    """Keys of parameters as a row names them: one by one, or as `family:metals`."""
    keys: list[str] = []
    for word in text.split():
        family = word.removeprefix(_FAMILY)
        keys += (
            [word]
            if family == word
            else [one.key for one in parameters.values() if one.family == family]
        )
    return tuple(keys)
