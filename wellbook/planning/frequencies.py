"""How often a panel is advised where a well is of a certain kind, or lies in a certain place."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from wellbook.planning.settings import WELL_KINDS, Settings, interval, place, well_kind
from wellbook.support import paths
from wellbook.support.csv_rows import read_rows
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue, Panel

# Panels that only an event brings: what lies near the well.
ONLY_NEAR = {"salt": "road salt", "septic": "septic nearby"}
KARST, FLOOD_PRONE = "karst", "flood-prone"
GROUNDS = (KARST, FLOOD_PRONE)  # what can be ticked of where a well stands
# Words of a well log, not after a word that denies them.
_TOLD = {
    KARST: re.compile(r"(?<!no )(?<!not )\bk[aá]rst|sinkhole|\bdolina", re.IGNORECASE),
    FLOOD_PRONE: re.compile(r"flood[- ]?(?:prone|plain|s\b)|\binundable", re.IGNORECASE),
}
_DEPTH = re.compile(
    r"(?P<figure>\d+(?:\.\d+)?)\s*(?:(?P<feet>ft|feet|foot|pies|′|')|m\b|met(?:er|re|ro)s?\b)",
    re.IGNORECASE,
)
_FOOT, _SHALLOW = Decimal("0.3048"), Decimal(30)  # metres
_LONGEST = 240  # months, as a plan allows
_YEAR = 12  # months; what is advised once a year may walk through the seasons instead


@dataclass(frozen=True, slots=True)
class _OfKind:
    """A row of `well_kinds.csv`."""

    kind: str
    name: str
    panel: str
    months: int
    source: str


@dataclass(frozen=True, slots=True)
class Advised:
    """How often a panel is advised, and why.

    Attributes:
        months: Calendar months between tests.
        why: One plain sentence with its source.
    """

    months: int
    why: str


@cache
def _of_kinds() -> tuple[_OfKind, ...]:
    return tuple(read_rows(paths.resources() / "well_kinds.csv", _OfKind))


def advised(settings: Settings, construction: Mapping[str, str], panel: str) -> tuple[Advised, ...]:
    """What the kind of well and the place ask for more often than once a year, shortest first."""
    found = []
    kinds = (well_kind(settings, construction), *standings(settings, construction))
    for row in _of_kinds():
        if row.panel == panel and row.kind in kinds:
            said = ngettext(
                "For a {kind} a test every {n} month is advised ({source}).",
                "For a {kind} a test every {n} months is advised ({source}).",
                row.months,
            )
            why = said.format(kind=_(row.name), n=row.months, source=row.source)
            found.append(Advised(row.months, why))
    where = place(settings)
    if settings.get("country", "") and panel in where.months:
        months = where.months[panel]
        said = ngettext(
            "In {place} a test every {n} month is advised ({source}).",
            "In {place} a test every {n} months is advised ({source}).",
            months,
        )
        why = said.format(place=_(where.name), n=months, source=where.source)
        found.append(Advised(months, why))
    often = (one for one in found if one.months < _YEAR)
    return tuple(sorted(often, key=lambda one: one.months))


def kinds_of_wells() -> dict[str, str]:
    """Every kind of well with its name, to be said."""
    return {row.kind: row.name for row in _of_kinds() if row.kind in WELL_KINDS}


def standings(settings: Settings, construction: Mapping[str, str]) -> tuple[str, ...]:
    """What the log tells of a well's ground and depth that asks for more tests.

    Karst and floods are taken from what was chosen or the log's words, a shallow well from its
    depth; a depth without a unit tells nothing.
    """
    told, chosen = " ".join(construction.values()), settings.get("ground", "").split()
    found = [kind for kind, words in _TOLD.items() if kind in chosen or words.search(told)]
    depth = _DEPTH.search(construction.get("depth", ""))
    if depth and well_kind(settings, construction) == "drilled":
        metres = Decimal(depth["figure"]) * (_FOOT if depth["feet"] else 1)
        found += ["shallow"] if metres < _SHALLOW else []
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Baseline:
    """A panel that is tested again and again, with what nobody chose otherwise.

    Attributes:
        panel: The panel.
        months: Calendar months between tests.
        why: Why at all, and why so often, with sources.
    """

    panel: Panel
    months: int
    why: tuple[str, ...]


def baseline(
    settings: Settings, construction: Mapping[str, str], catalogue: Catalogue
) -> tuple[Baseline, ...]:
    """How often each panel comes again at a well of this kind in this place.

    Args:
        settings: What was chosen.
        construction: The log of the well.
        catalogue: The reference data in the language of now.
    """
    usual = interval(settings)
    found = []
    for panel in catalogue.panels.values():
        if not panel.months or panel.key in ONLY_NEAR:
            continue
        sooner = advised(settings, construction, panel.key)
        months = min(max(usual, panel.months), *(one.months for one in sooner), _LONGEST)
        why = (f"{panel.why} ({panel.source})", *(one.why for one in sooner))
        found.append(Baseline(panel, months, why))
    return tuple(found)
