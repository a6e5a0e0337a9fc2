"""Where salt and nitrate in a water may come from, by ratios that published studies give.

Hints, never proofs: fields overlap, waters mix, and a ratio tells nothing of who put it there.

Chloride to bromide by mass: Davis, Whittemore and Fabryka-Martin, Ground Water 36 (1998): rain 50
to 150, shallow groundwater 100 to 200, sewage 300 to 600, dissolved salt 1,000 to 10,000; sea water
and many brines near 290 (from memory). Above 1,000 with more than 100 mg/L of chloride dissolved
salt dominated (Mullaney and others, USGS SIR 2009-5086), whose shallow wells had a median of 12
mg/L of chloride in farmed areas. Nitrate above 3 mg/L as N usually comes from farming or wastewater
(Nitka and others, University of Wisconsin Stevens Point, 2014).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import inf

from wellbook.water.chemistry.interval import Interval, between, contents
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

# What each hint is about, so that a page on one parameter shows what concerns it.
SALTS = frozenset({"chloride", "bromide", "sodium"})
NITRATES = frozenset({"nitrate", "nitrate_nitrite", "boron", "chloride"})

_RAIN = Interval(50, 200)
_SEWAGE = Interval(300, 600)
_SALT = Interval(1000, inf)
_MUCH = 100.0  # mg/L of chloride
_FARMED = 12.0  # mg/L of chloride
_NITRATE = 3.0  # mg/L as N
# Common practice, no source: about one for one is dissolved salt; boron this high is uncommon in
# shallow water without wastewater, sea water or brine.
_ONE = Interval(0.9, 1.1)
_BORON = 0.1  # mg/L


class Hint(StrEnum):
    """What a ratio or a pair of figures fits."""

    BROMIDE_RAIN = "chloride to bromide as in rain and shallow groundwater"
    BROMIDE_SEWAGE = "chloride to bromide as in sewage, manure, sea water and brine"
    BROMIDE_SALT = "chloride to bromide as of dissolved salt"
    BROMIDE_MUCH_SALT = "chloride to bromide as of dissolved salt, and much of it"
    BROMIDE_BETWEEN = "chloride to bromide between the fields"
    SODIUM_ONE = "as much sodium as chloride"
    SODIUM_LESS = "less sodium than chloride"
    SODIUM_MORE = "more sodium than chloride"
    NITRATE_BORON = "nitrate with boron and chloride"
    NITRATE_CHLORIDE = "nitrate with chloride"
    NITRATE_ALONE = "nitrate with little chloride"
    NITRATE_ONLY = "nitrate, chloride not tested"


# What a sample must hold so that a group of hints speaks or is silent, by the first word of its
# hints: a later sample without a hint ends what an earlier one hinted at.
_NEEDED = {
    "BROMIDE": (frozenset({"chloride", "bromide"}),),
    "SODIUM": (frozenset({"sodium", "chloride"}),),
    "NITRATE": (frozenset({"nitrate"}), frozenset({"nitrate_nitrite"})),
}


@dataclass(frozen=True, slots=True)
class SourceHint:
    """A hint at where something comes from.

    Attributes:
        kind: What the figures fit.
        figures: The figures it rests on, by name: `ratio` or keys of parameters; mg/L, nitrate as
            N, a ratio of chloride and bromide by mass, one of sodium and chloride by amount.
        about: Keys of the parameters it is about.
    """

    kind: Hint
    figures: Mapping[str, Interval]
    about: frozenset[str]


def latest_hints(
    samples: Iterable[Sequence[Result]], catalogue: Catalogue
) -> tuple[tuple[date, SourceHint], ...]:
    """What the latest sample that holds what a hint needs hints at, with its day."""
    drawn = sorted(samples, key=lambda results: results[0].collected.order(), reverse=True)
    told, open_groups = [], dict(_NEEDED)
    for results in drawn:
        if not open_groups:
            break
        keys = {result.parameter for result in results if result.reading.kind is not Kind.NONE}
        told_by = [g for g, needed in open_groups.items() if any(each <= keys for each in needed)]
        if not told_by:
            continue
        hints = {_group(hint): hint for hint in source_hints(results, catalogue)}
        for group in told_by:
            del open_groups[group]
            if group in hints:
                told.append((results[0].collected.day, hints[group]))
    return tuple(told)


def _group(hint: SourceHint) -> str:
    return hint.kind.name.partition("_")[0]


def source_hints(results: Sequence[Result], catalogue: Catalogue) -> tuple[SourceHint, ...]:
    """What the results of one sample of untreated water hint at."""
    found = contents(results, catalogue)
    if "nitrate" not in found and "nitrate_nitrite" in found:
        found["nitrate"] = found["nitrate_nitrite"]
    told = (_bromide(found), _sodium(found, catalogue), _nitrate(found))
    return tuple(hint for hint in told if hint)


def _bromide(found: Mapping[str, Interval]) -> SourceHint | None:
    chloride, bromide = found.get("chloride"), found.get("bromide")
    if chloride is None or bromide is None or chloride.low <= 0 or bromide.high <= 0:
        return None
    ratio = Interval(
        chloride.low / bromide.high, chloride.high / bromide.low if bromide.low else inf
    )
    kind = _field(ratio)
    if kind is None:
        return None
    if kind is Hint.BROMIDE_SALT and chloride.low > _MUCH:
        kind = Hint.BROMIDE_MUCH_SALT
    figures = {"ratio": ratio, "chloride": chloride, "bromide": bromide}
    return SourceHint(kind, figures, SALTS - {"sodium"})


def _field(ratio: Interval) -> Hint | None:
    """The field that holds the whole of a ratio; None where it reaches over several."""
    fields = (
        (_RAIN, Hint.BROMIDE_RAIN),
        (_SEWAGE, Hint.BROMIDE_SEWAGE),
        (_SALT, Hint.BROMIDE_SALT),
    )
    for field, kind in fields:
        if field.low <= ratio.low and ratio.high <= field.high:
            return kind
    return Hint.BROMIDE_BETWEEN if ratio.exact else None


def _sodium(found: Mapping[str, Interval], catalogue: Catalogue) -> SourceHint | None:
    sodium, chloride = found.get("sodium"), found.get("chloride")
    if sodium is None or chloride is None or chloride.low <= _FARMED or sodium.low <= 0:
        return None
    mass = [catalogue.parameters[key].molar_mass for key in ("sodium", "chloride")]
    if not all(mass):
        return None
    of_sodium, of_chloride = (float(one or 1) for one in mass)
    ratio = between(lambda na, cl: (na / of_sodium) / (cl / of_chloride), sodium, chloride)
    if ratio is None:
        return None
    kind = Hint.SODIUM_ONE
    if ratio.high < _ONE.low:
        kind = Hint.SODIUM_LESS
    elif ratio.low > _ONE.high:
        kind = Hint.SODIUM_MORE
    elif ratio.low < _ONE.low or ratio.high > _ONE.high:
        return None
    figures = {"ratio": ratio, "sodium": sodium, "chloride": chloride}
    return SourceHint(kind, figures, SALTS - {"bromide"})


def _nitrate(found: Mapping[str, Interval]) -> SourceHint | None:
    nitrate, chloride, boron = (found.get(key) for key in ("nitrate", "chloride", "boron"))
    if nitrate is None or nitrate.low <= _NITRATE:
        return None
    if chloride is None:
        return SourceHint(Hint.NITRATE_ONLY, {"nitrate": nitrate}, NITRATES - {"boron"})
    figures = {"nitrate": nitrate, "chloride": chloride}
    if chloride.high <= _FARMED:
        return SourceHint(Hint.NITRATE_ALONE, figures, NITRATES - {"boron"})
    if chloride.low <= _FARMED:
        return None
    if boron is not None and boron.low >= _BORON:
        return SourceHint(Hint.NITRATE_BORON, {**figures, "boron": boron}, NITRATES)
    return SourceHint(Hint.NITRATE_CHLORIDE, figures, NITRATES - {"boron"})
