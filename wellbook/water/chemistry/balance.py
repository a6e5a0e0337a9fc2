"""Whether the ions of a sample add up: charge balance and dissolved solids.

Water carries no charge, so cations and anions in meq/L must be equal; the solids left by drying
must be about the sum of what was measured. Both tell a slip in a report, not bad water. Criteria
of Standard Methods 1030 E (from memory).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import isfinite

from wellbook.water.chemistry.interval import Contents, Interval, between
from wellbook.water.values.catalogue import Catalogue

CATIONS = (
    "calcium",
    "magnesium",
    "sodium",
    "potassium",
    "ammonia",
    "iron",
    "manganese",
    "strontium",
)
ANIONS = ("chloride", "sulfate", "nitrate", "nitrite", "fluoride", "bromide")
# Without these six the balance says nothing.
NEEDED = ("calcium", "magnesium", "sodium", "chloride", "sulfate", "alkalinity")
# Of alkalinity as CaCO3 this share stays as carbonate when the water is dried.
_DRIED_ALKALINITY = 0.6
_NITRATE_PER_NITROGEN = 62.004 / 14.007
_Ends = tuple[float, float]  # between which a sum in meq/L lies
_Term = tuple[float, float, float]  # both ends of what is there, and what makes meq/L of them
_DILUTE, _MIDDLE = 3.0, 10.0  # meq/L of anions, ends of the classes of 1030 E


@dataclass(frozen=True, slots=True)
class Balance:
    """Cations against anions.

    Attributes:
        cations: Sum of cations, meq/L.
        anions: Sum of anions, meq/L.
        percent: 100 times their difference over their sum (not over half of it, as some
            European norms have it).
        difference: Cations less anions, meq/L.
        allowed: Largest difference in meq/L that 1030 E accepts at this sum of anions.
        lacking: Common ions that were not measured.
    """

    cations: Interval
    anions: Interval
    percent: Interval
    difference: Interval
    allowed: float
    lacking: tuple[str, ...]

    @property
    def accepted(self) -> bool:
        """Whether the difference may lie within what is allowed, non-detects at their best."""
        return _is_within(self.difference.low, self.difference.high, self.allowed)


def charge_balance(found: Contents, catalogue: Catalogue) -> Balance | None:
    """Balance of a sample; None if one of the six main ions was not measured."""
    return Ions(found, catalogue).balance()


class Ions:
    """The ions of one sample, each in meq/L, so that the balance can be asked for with another."""

    def __init__(self, found: Contents, catalogue: Catalogue) -> None:
        """Work them out.

        Args:
            found: What the sample holds.
            catalogue: The reference data.
        """
        self._found = with_alkalinity(found, catalogue)
        self._is_whole = all(key in self._found for key in NEEDED)
        self._cations = _terms(CATIONS, self._found, catalogue)
        self._anions = _terms((*ANIONS, "alkalinity"), self._found, catalogue)
        self._sums = _sum(self._cations), _sum(self._anions)

    def balance(self) -> Balance | None:
        """Their balance; None if one of the six main ions was not measured."""
        cations, anions = self._sums
        percent = _percent(cations, anions) if self._is_whole else None
        if percent is None:
            return None
        return Balance(
            cations=Interval(*cations),
            anions=Interval(*anions),
            percent=percent,
            difference=Interval(*_difference(cations, anions)),
            allowed=_allowed(cations, anions),
            lacking=tuple(key for key in ("potassium", "nitrate") if key not in self._found),
        )

    def with_other(self, key: str, factor: float) -> tuple[Interval, bool] | None:
        """Percent, and whether it were accepted, if one figure were so many times what it is."""
        cations, anions = self._sums
        if key in self._cations:
            cations = _sum(self._cations, key, factor)
        elif key in self._anions:
            anions = _sum(self._anions, key, factor)
        percent = _percent(cations, anions) if self._is_whole else None
        if percent is None:
            return None
        return percent, _is_within(*_difference(cations, anions), _allowed(cations, anions))


def _terms(keys: Iterable[str], found: Contents, catalogue: Catalogue) -> dict[str, _Term]:
    per = catalogue.once("milliequivalents", lambda: _per_milligram(catalogue))
    return {
        key: (found[key].low, found[key].high, per.get(key) or 1 / equivalent(key, catalogue))
        for key in keys
        if key in found
    }


def _per_milligram(catalogue: Catalogue) -> dict[str, float]:
    """Milliequivalents in a milligram of each ion."""
    keys = (*CATIONS, *ANIONS, "alkalinity")
    return {key: 1 / equivalent(key, catalogue) for key in keys}


def _percent(cations: _Ends, anions: _Ends) -> Interval | None:
    if not (cations[0] > 0 and anions[0] > 0 and isfinite(cations[1] + anions[1])):
        return between(_percent_of, Interval(*cations), Interval(*anions))
    # It rises with the cations and falls with the anions, so that two corners of four tell.
    return Interval(_percent_of(cations[0], anions[1]), _percent_of(cations[1], anions[0]))


def _percent_of(cations: float, anions: float) -> float:
    return 100 * (cations - anions) / (cations + anions)


def _difference(cations: _Ends, anions: _Ends) -> _Ends:
    return cations[0] - anions[1], cations[1] - anions[0]


def _is_within(low: float, high: float, allowed: float) -> bool:
    """Whether a difference between two ends may be one that is allowed."""
    return low <= allowed and high >= -allowed


def _allowed(cations: _Ends, anions: _Ends) -> float:
    return allowed_difference(sum(anions) / 2, sum(cations) / 2)


def _sum(terms: Mapping[str, _Term], other: str = "", times: float = 1.0) -> _Ends:
    """Meq/L of some ions; the figure of one other may be taken so many times."""
    low = high = 0.0
    for key, (least, most, per) in terms.items():
        if key == other:
            least, most = least * times, most * times  # noqa: PLW2901  for this sum only
        low += least * per
        high += most * per
    return low, high


def allowed_difference(anions: float, cations: float) -> float:
    """Difference in meq/L that 1030 E accepts: 0.2 up to 3 meq/L, then 2 % and 5 % of the sum."""
    if anions <= _DILUTE:
        return 0.2
    return (0.02 if anions <= _MIDDLE else 0.05) * (cations + anions)


def milliequivalents(keys: Iterable[str], found: Contents, catalogue: Catalogue) -> Interval:
    """Sum of ions in meq/L; those not measured count as nothing."""
    return Interval(*_sum(_terms(keys, found, catalogue)))


def equivalent(key: str, catalogue: Catalogue) -> float:
    """Milligrams (of the usual basis) that carry one milliequivalent."""

    def work() -> float:
        parameter = catalogue.parameters[key]
        if parameter.molar_mass is None or not parameter.charge:
            raise ValueError(f"{parameter.name} is not an ion")
        return float(parameter.molar_mass) / abs(parameter.charge)

    return catalogue.once(("equivalent", key), work)


def with_alkalinity(found: Contents, catalogue: Catalogue) -> Contents:
    """The contents with alkalinity as CaCO3, from bicarbonate and carbonate if need be.

    Where only nitrate and nitrite together were measured, they stand in for nitrate.
    """
    more = dict(found)
    if "alkalinity" not in found and "bicarbonate" in found:
        carbonates = milliequivalents(("bicarbonate", "carbonate"), found, catalogue)
        more["alkalinity"] = carbonates * equivalent("alkalinity", catalogue)
    if "nitrate" not in found and "nitrate_nitrite" in found:
        more["nitrate"] = found["nitrate_nitrite"]
        more.pop("nitrite", None)
    return more


def dissolved_solids(found: Contents, catalogue: Catalogue) -> Interval | None:
    """Sum of dissolved constituents in mg/L, nitrate counted as NO3; None without the main ions.

    As much of the alkalinity is counted as stays behind when the water is dried (six tenths).
    """
    found = with_alkalinity(found, catalogue)
    if any(key not in found for key in NEEDED):
        return None
    total = found["alkalinity"] * _DRIED_ALKALINITY
    for key in (*NEEDED[:-1], "potassium", "silica", "fluoride", "iron", "manganese"):
        if key in found:
            total += found[key]
    return total + found["nitrate"] * _NITRATE_PER_NITROGEN if "nitrate" in found else total


def ionic_strength(found: Contents, catalogue: Catalogue) -> Interval | None:
    """Half the sum of concentration times charge squared, mol/L; None without the main ions.

    Alkalinity is taken as bicarbonate.
    """
    found = with_alkalinity(found, catalogue)
    if any(key not in found for key in NEEDED):
        return None
    total = milliequivalents(("alkalinity",), found, catalogue)
    for key in (*CATIONS, *ANIONS):
        charge = abs(catalogue.parameters[key].charge)
        total += milliequivalents((key,), found, catalogue) * charge
    return total * 0.0005
