"""Check the reference data: `python -m wellbook.cli.reference_data [FOLDER]`, for who keeps it.

It says of each fault file and row; without one it warns of limits that name copies only and prints
a table of the limit sets. 1 is its exit with a fault. English like the data's columns: it speaks
to people who edit these files.
"""

from pathlib import Path

from wellbook.cli.reference_data import limits, tables
from wellbook.cli.reference_data.faults import Fault
from wellbook.cli.reference_data.set_counts import SetCount, counts, table, warnings
from wellbook.water.values.catalogue import read_catalogue

__all__ = ["Fault", "SetCount", "counts", "faults", "table", "warnings"]

_CHECKS = (
    tables.parameters,
    limits.sets,
    limits.limits,
    limits.steps,
    limits.sums,
    tables.tables,
    tables.names,
    tables.places,
    tables.zones,
)


def faults(folder: Path) -> tuple[Fault, ...]:
    """Everything that is wrong in a folder of reference data."""
    try:
        catalogue = read_catalogue(folder)
    except (OSError, ValueError) as problem:
        return (Fault("", 0, str(problem)),)
    found: list[Fault] = []
    for check in _CHECKS:
        try:
            found += check(folder, catalogue)
        except (OSError, ValueError) as problem:
            found.append(Fault("", 0, str(problem)))
    return tuple(dict.fromkeys(found))
