"""Names of parameters as labs print them in several languages, from `lab_names.csv`."""

import csv
from collections.abc import Iterable
from functools import cache

from wellbook.intake.words.folding import folded
from wellbook.support import paths
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import normal_name


def find(names: Iterable[str], catalogue: Catalogue) -> Parameter | None:
    """The parameter that one of some printed names means; None if none is known."""
    known = _known()
    keys = (known.get(normal_name(folded(name))) for name in names if name)
    key = next(filter(None, keys), "")
    return catalogue.parameters.get(key)


@cache
def _known() -> dict[str, str]:
    path = paths.resources() / "lab_names.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return {
            normal_name(folded(name)): row["parameter"]
            for row in csv.DictReader(file)
            for name in row["names"].split(";")
        }
