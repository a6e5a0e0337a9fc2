"""Figures that hardly any well can show, asked about without a history.

The ends lie far above what is met in wells that people drink from: common practice, no source. They
are in the usual unit of each parameter; a figure beyond one is a slip of unit or point, mostly.
"""

from collections.abc import Iterator, Sequence

from wellbook.water.chemistry.interval import Bounds
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Check, Oddity
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

# Key: lowest and highest figure that is not asked about, in the unit beside it.
_ENDS = {
    "ph": (2.5, 12.5, "pH units"),
    "temperature": (-2, 70, "°C"),
    "arsenic": (0, 1500, "µg/L"),
    "lead": (0, 2000, "µg/L"),
    "uranium": (0, 5000, "µg/L"),
    "cadmium": (0, 500, "µg/L"),
    "chromium": (0, 2000, "µg/L"),
    "selenium": (0, 2000, "µg/L"),
    "mercury": (0, 100, "µg/L"),
    "antimony": (0, 500, "µg/L"),
    "copper": (0, 50, "mg/L"),
    "zinc": (0, 200, "mg/L"),
    "iron": (0, 300, "mg/L"),
    "manganese": (0, 50, "mg/L"),
    "fluoride": (0, 50, "mg/L"),
    "nitrate": (0, 500, "mg/L"),
    "nitrite": (0, 50, "mg/L"),
    "hardness": (0, 10000, "mg/L"),
    "calcium": (0, 4000, "mg/L"),
    "chloride": (0, 30000, "mg/L"),
    "sodium": (0, 20000, "mg/L"),
    "sulfate": (0, 10000, "mg/L"),
    "alkalinity": (0, 5000, "mg/L"),
    "silica": (0, 300, "mg/L"),
}


def beyond(results: Sequence[Result], catalogue: Catalogue, bounds: Bounds) -> Iterator[Oddity]:
    """Figures beyond what hardly any well can show."""
    number = Kind.NUMBER
    for result in results:
        ends = _ENDS.get(result.parameter)
        if ends is None or result.reading.kind is not number:
            continue
        low, high, unit = ends
        known = bounds.of(result)
        if known is None or low <= known.low <= high:
            continue
        figure, parameter = known.low, catalogue.parameters[result.parameter]
        if parameter.unit != unit:
            continue
        facts = {
            "parameter": parameter,
            "figure": figure,
            "end": high if figure > high else low,
            "is_high": figure > high,
        }
        yield Oddity(Check.BEYOND, facts, results=(result.id,))
