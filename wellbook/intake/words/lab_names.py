"""Names of parameters as labs print them in several languages, from `lab_names.csv`."""

import re
from collections.abc import Iterable
from functools import cache

from wellbook.support import paths
from wellbook.support.csv_rows import read_rows
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter, PrintedNames
from wellbook.water.values.signs import folded, normal_name

_BRACKETED = re.compile(r"\s*[(\[][^()\[\]]*[)\]]")


def find(names: Iterable[str], catalogue: Catalogue) -> tuple[Parameter | None, str]:
    """The parameter that one of some printed names means, and the basis that the name says.

    Nitrate nitrogen is counted as N under each of its names. None and empty if no name is known.
    """
    known = _known()
    rows = (known.get(normal_name(folded(name))) for name in names if name)
    row = next(filter(None, rows), None)
    return (catalogue.parameters.get(row.parameter), row.basis) if row else (None, "")


def languages(name: str, catalogue: Catalogue) -> set[str]:
    """The languages in which labs print a name, what stands in its brackets apart.

    None for a name that is an English one too.
    """
    bare = normal_name(folded(_BRACKETED.sub("", name)))
    return set() if catalogue.find(bare) else _languages().get(bare, set())


def names() -> Iterable[str]:
    """Every such name, in lower case."""
    return _known().keys()


@cache
def _languages() -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for row in read_rows(paths.resources() / "lab_names.csv", PrintedNames):
        for name in row.names:
            found.setdefault(normal_name(folded(name)), set()).add(row.language)
    return found


@cache
def _known() -> dict[str, PrintedNames]:
    rows = read_rows(paths.resources() / "lab_names.csv", PrintedNames)
    return {normal_name(folded(name)): row for row in rows for name in row.names}
