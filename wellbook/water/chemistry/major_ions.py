"""The main ions of a sample in milliequivalents, as the two usual diagrams of them need it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

from wellbook.water.chemistry.balance import NEEDED, milliequivalents, with_alkalinity
from wellbook.water.chemistry.interval import Contents, contents
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.results import Result

_CATIONS = (("calcium",), ("magnesium",), ("sodium", "potassium"))
_ANIONS = (("chloride",), ("sulfate",), ("alkalinity",))


@dataclass(frozen=True, slots=True)
class Majors:
    """What six groups of ions carry in one sample, meq/L.

    Attributes:
        bicarbonate: Bicarbonate and carbonate, from the alkalinity.
        unsure: Most percent of cations or anions that non-detects could add; they count as nothing.
        beside: Percent of the anions that nitrate adds, which is in neither diagram.
    """

    calcium: float
    magnesium: float
    sodium_potassium: float
    chloride: float
    sulfate: float
    bicarbonate: float
    unsure: float = 0.0
    beside: float = 0.0

    @property
    def cations(self) -> tuple[float, float, float]:
        """Calcium, magnesium, sodium with potassium, in percent of their sum."""
        return _percent(self.calcium, self.magnesium, self.sodium_potassium)

    @property
    def anions(self) -> tuple[float, float, float]:
        """Chloride, sulfate, bicarbonate with carbonate, in percent of their sum."""
        return _percent(self.chloride, self.sulfate, self.bicarbonate)


def majors(results: Sequence[Result], catalogue: Catalogue) -> Majors | None:
    """The main ions of a sample; None if one of the six was not measured or is off scale."""
    found = with_alkalinity(contents(results, catalogue), catalogue)
    if any(key not in found for key in NEEDED):
        return None
    low, high = [], []
    for keys in (*_CATIONS, *_ANIONS):
        bounds = milliequivalents(keys, found, catalogue)
        low.append(bounds.low)
        high.append(bounds.high)
    sides = ((sum(low[:3]), sum(high[:3])), (sum(low[3:]), sum(high[3:])))
    if not all(least > 0 and isfinite(most) for least, most in sides):
        return None
    unsure = max(100 * (most - least) / most for least, most in sides)
    calcium, magnesium, sodium_potassium, chloride, sulfate, bicarbonate = low
    return Majors(
        calcium,
        magnesium,
        sodium_potassium,
        chloride,
        sulfate,
        bicarbonate,
        unsure,
        _nitrate(found, sides[1][0], catalogue),
    )


def _nitrate(found: Contents, anions: float, catalogue: Catalogue) -> float:
    nitrate = milliequivalents(("nitrate",), found, catalogue).low
    return 100 * nitrate / (anions + nitrate)


def _percent(*parts: float) -> tuple[float, float, float]:
    first, second, third = (100 * part / sum(parts) for part in parts)
    return first, second, third
