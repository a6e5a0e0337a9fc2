"""Figures that consultants and treatment people work out from a sample, by key.

Every index carries its source, the class it falls into, and what it does not tell. An index whose
figures were not all measured is left out; one of bounds is a range.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf, isfinite, sqrt

from wellbook.water.chemistry import corrosion
from wellbook.water.chemistry.balance import (
    charge_balance,
    dissolved_solids,
    equivalent,
    ionic_strength,
    milliequivalents,
    with_alkalinity,
)
from wellbook.water.chemistry.index_kinds import CLASS_ENDS, UNITS
from wellbook.water.chemistry.interval import Contents, Interval, between, contents
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.results import Result

# Hem (USGS Water-Supply Paper 2254, 1985; from memory): the usual mg/L for each µS/cm.
_SOLIDS_PER_CONDUCTIVITY = (0.55, 0.75)
# Ground water where nobody measured; common practice, no source.
_GROUND_TEMPERATURE = Interval(5.0, 25.0)
_HARDNESS = ("calcium", "magnesium")
_NEED_TEMPERATURE = frozenset({"langelier", "langelier_short", "ryznar"})
# Ends of the classes of the chloride-to-sulfate ratio, and mg/L of alkalinity as CaCO3 between
# the upper two (USGS SIR 2016-5092).
_LITTLE, _MODERATE, _BUFFERED = 0.2, 0.5, 50


@dataclass(frozen=True, slots=True)
class Index:
    """One index of a sample.

    Attributes:
        key: Stable key, e.g. `langelier`.
        value: Its value, or its range where figures are bounds.
        unit: Unit, or empty for a pure number.
        classes: Places of the classes, from 0, in which its ends lie; None where none are in use.
        temperature: The range that was taken for a temperature that nobody measured.
    """

    key: str
    value: Interval
    unit: str
    classes: tuple[int, int] | None
    temperature: Interval | None


def indices(results: Sequence[Result], catalogue: Catalogue) -> tuple[Index, ...]:
    """Every index that the results of one sample give."""
    found = with_alkalinity(contents(results, catalogue), catalogue)
    values = {
        **_hardness(found, catalogue),
        **_sums(found, catalogue),
        **_scale(found, catalogue),
        **_salts(found, catalogue),
    }
    return tuple(_shown(key, value, found) for key, value in values.items() if value is not None)


def _hardness(found: Contents, catalogue: Catalogue) -> dict[str, Interval | None]:
    computed = None
    if all(key in found for key in _HARDNESS):
        computed = milliequivalents(_HARDNESS, found, catalogue) * equivalent("hardness", catalogue)
    hardness = computed or found.get("hardness")
    both = (hardness, found.get("alkalinity"))
    return {
        "hardness": computed,
        "carbonate_hardness": _of(min, *both),
        "noncarbonate_hardness": _of(lambda h, a: max(0.0, h - a), *both),
    }


def _sums(found: Contents, catalogue: Catalogue) -> dict[str, Interval | None]:
    balance = charge_balance(found, catalogue)
    solids, measured = dissolved_solids(found, catalogue), found.get("tds")
    conductivity = found.get("conductivity")
    return {
        "charge_balance": balance.percent if balance else None,
        "solids_sum": solids,
        "solids_ratio": _of(_ratio, measured, solids),
        "solids_to_conductivity": _of(_ratio, measured or solids, conductivity),
        "ionic_strength": ionic_strength(found, catalogue),
    }


def _scale(found: Contents, catalogue: Catalogue) -> dict[str, Interval | None]:
    ph, alkalinity = found.get("ph"), found.get("alkalinity")
    calcium = found.get("hardness_calcium")
    if "calcium" in found:
        calcium = milliequivalents(("calcium",), found, catalogue) * equivalent(
            "hardness", catalogue
        )
    given = (ph, _temperature(found), _solids(found, catalogue), calcium, alkalinity)

    def langelier(ph: float, *water: float) -> float:
        return corrosion.langelier(ph, corrosion.saturation_ph(*water))

    def short(ph: float, *water: float) -> float:
        return corrosion.langelier(ph, corrosion.short_saturation_ph(*water))

    def ryznar(ph: float, *water: float) -> float:
        return corrosion.ryznar(ph, corrosion.saturation_ph(*water))

    return {
        "langelier": _of(langelier, *given),
        "langelier_short": _of(short, *given),
        "ryznar": _of(ryznar, *given),
        "aggressive_index": _of(corrosion.aggressive_index, ph, calcium, alkalinity),
    }


def _salts(found: Contents, catalogue: Catalogue) -> dict[str, Interval | None]:
    meq = {
        key: milliequivalents((key,), found, catalogue)
        for key in (
            "sodium",
            "potassium",
            "chloride",
            "sulfate",
            "bromide",
            "alkalinity",
            *_HARDNESS,
        )
        if key in found
    }
    of = meq.get
    return {
        "chloride_sulfate": _open_ratio(found.get("chloride"), found.get("sulfate")),
        "larson": _of(
            lambda cl, so4, alk: (cl + so4) / alk, of("chloride"), of("sulfate"), of("alkalinity")
        ),
        "sodium_adsorption": _of(
            lambda na, ca, mg: na / sqrt((ca + mg) / 2),
            of("sodium"),
            of("calcium"),
            of("magnesium"),
        ),
        "sodium_percent": _of(
            lambda na, k, ca, mg: 100 * na / (na + k + ca + mg),
            of("sodium"),
            of("potassium"),
            of("calcium"),
            of("magnesium"),
        ),
        "sodium_chloride": _of(_ratio, of("sodium"), of("chloride")),
        "chloride_bromide": _open_ratio(of("chloride"), of("bromide")),
    }


def _of(function: Callable[..., float], *given: Interval | None) -> Interval | None:
    known = [bounds for bounds in given if bounds is not None]
    return between(function, *known) if len(known) == len(given) else None


def _ratio(above: float, below: float) -> float:
    return above / below


def _open_ratio(above: Interval | None, below: Interval | None) -> Interval | None:
    """A ratio that is only known to be at least something where the lower figure is a non-detect.

    The least is what matters of these ratios: lead from solder, salt from elsewhere.
    """
    if above and below and isfinite(above.high) and below.low == 0 < below.high and above.low > 0:
        return Interval(above.low / below.high, inf)
    return _of(_ratio, above, below)


def _temperature(found: Contents) -> Interval:
    return found.get("temperature", _GROUND_TEMPERATURE)


def _solids(found: Contents, catalogue: Catalogue) -> Interval | None:
    """Dissolved solids: measured, else the sum, else a range from conductivity."""
    solids = found.get("tds") or dissolved_solids(found, catalogue)
    conductivity = found.get("conductivity")
    if solids is None and conductivity is not None:
        low, high = _SOLIDS_PER_CONDUCTIVITY
        solids = Interval(low * conductivity.low, high * conductivity.high)
    return solids


def _shown(key: str, value: Interval, found: Contents) -> Index:
    is_assumed = key in _NEED_TEMPERATURE and "temperature" not in found
    return Index(
        key=key,
        value=value,
        unit=UNITS[key],
        classes=_lead_class(value, found) if key == "chloride_sulfate" else classes_of(key, value),
        temperature=_GROUND_TEMPERATURE if is_assumed else None,
    )


def classes_of(key: str, value: Interval) -> tuple[int, int] | None:
    """Places of the classes in which both ends of a value lie; None where none are in use."""
    ends = CLASS_ENDS.get(key)
    if ends is None:
        return None
    low, high = (
        next(place for place, end in enumerate(ends) if figure <= end)
        for figure in (value.low, value.high)
    )
    return low, high


def _lead_class(value: Interval, found: Contents) -> tuple[int, int] | None:
    """Little, moderate or serious concern; above one half alkalinity decides."""
    if value.high < _LITTLE:
        return 0, 0
    alkalinity = found.get("alkalinity")
    if value.high <= _MODERATE or (alkalinity is not None and alkalinity.low >= _BUFFERED):
        return 1, 1
    if value.low > _MODERATE and alkalinity is not None:
        return 2, 2
    return None
