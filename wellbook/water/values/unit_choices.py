"""In which units figures are shown: the catalogue's usual ones, or a named choice of others.

What is worked out does not change with it, and what a lab reported stays as it is.
"""

from dataclasses import dataclass, replace
from pathlib import Path

from wellbook.support.csv_rows import read_rows
from wellbook.water.values.catalogue import Catalogue, members

USUAL = "usual"


@dataclass(frozen=True, slots=True)
class UnitChoice:
    """Units that belong together.

    Attributes:
        key: Stable key, e.g. `european`.
        name: What people read.
        units: Unit and basis of each parameter that is shown in other than its usual ones.
    """

    key: str
    name: str
    units: dict[str, tuple[str, str]]


@dataclass(frozen=True, slots=True)
class _Row:
    """A unit of a choice, for some parameters or a family of them."""

    choice: str
    name: str
    parameters: tuple[str, ...]
    unit: str
    basis: str


def read_unit_choices(path: Path, catalogue: Catalogue) -> dict[str, UnitChoice]:
    """Read `unit_choices.csv`; the first row of a choice carries its name.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: It names a parameter that the catalogue does not know.
    """
    found: dict[str, UnitChoice] = {}
    for row in read_rows(path, _Row):
        choice = found.setdefault(row.choice, UnitChoice(row.choice, row.name, {}))
        for key in members(row.parameters, catalogue.parameters):
            if key not in catalogue.parameters:
                raise ValueError(f"{path.name}: there is no parameter {key}.")
            choice.units[key] = row.unit, row.basis
    return found


def in_units(catalogue: Catalogue, choice: UnitChoice) -> Catalogue:
    """The catalogue with its figures shown in the units of a choice."""
    return replace(
        catalogue,
        parameters={
            key: replace(one, shown=choice.units.get(key))
            for key, one in catalogue.parameters.items()
        },
    )
