"""What is usually said and done when a reading is outside, resolved over a whole sample.

Advice for one parameter can be wrong for another: boiling kills bacteria and concentrates nitrate.
So advice is never given row by row: all readings of a sample go in, one agreed text comes out.
"""

import tomllib
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import ADVISED_KINDS
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Reading
from wellbook.water.verdicts.judge import Judgement, Verdict

INFANT, PREGNANCY, DIET = "infant", "pregnancy", "diet"
_GROUPS = frozenset({"general", "clash", "situation"})
_GASES = frozenset({"methane", "benzene"})  # caution tables: gas, solvents and fuel


@dataclass(frozen=True, slots=True)
class Caution:
    """What is said of one parameter, or of several that share a table.

    Attributes:
        key: Key of the table.
        over: Said when a reading is outside a limit that is about health.
        found: Said when it is detected and no chosen set has a limit in force.
        any_limit: Whether `over` also holds for limits of taste, looks and operation.
        boil: `yes`: boiling is the usual advice; `no`: it does not help or makes it worse; or
            empty.
        boil_text: The sentence on boiling, left out where it clashes.
        special: Extra sentences for `infant`, `pregnancy` and `diet`.
        urgent: Whether people should act the same day.
        source: Who says so.
    """

    key: str
    over: str = ""
    found: str = ""
    any_limit: bool = False
    boil: str = ""
    boil_text: str = ""
    special: Mapping[str, str] = field(default_factory=dict)
    urgent: bool = False
    source: str = ""


@dataclass(frozen=True, slots=True)
class Situation:
    """A caution for a moment and not for a reading."""

    text: str
    steps: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Cautions:
    """All cautions of the reference data.

    Attributes:
        general: Sentences that stand with every list of cautions.
        of: Caution by parameter key.
        clashes: Text that takes the place of advice that disagrees, by name.
        situations: By name.
    """

    general: tuple[str, ...]
    of: Mapping[str, Caution]
    clashes: Mapping[str, str]
    situations: Mapping[str, Situation]


@dataclass(frozen=True, slots=True)
class Advice:
    """One thing to say about a sample.

    Attributes:
        names: Parameters that it is about.
        text: What to say.
        urgent: Whether people should act the same day.
        source: Who says so.
    """

    names: tuple[str, ...]
    text: str
    urgent: bool = False
    source: str = ""


def read_cautions(path: Path) -> Cautions:
    """Read `cautions.toml`.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: It is not TOML.
    """
    tables: dict[str, Any] = tomllib.loads(path.read_text(encoding="utf-8"))
    general = tables.get("general", {})
    of: dict[str, Caution] = {}
    for key, table in tables.items():
        if key not in _GROUPS:
            caution = _caution(key, table)
            of.update(dict.fromkeys((key, *table.get("also", ())), caution))
    return Cautions(
        general=tuple(general[key] for key in ("snapshot", "yardstick", "ask") if key in general),
        of=of,
        clashes={name: table["text"] for name, table in tables.get("clash", {}).items()},
        situations={
            name: Situation(table["text"], tuple(table.get("steps", ())), table["source"])
            for name, table in tables.get("situation", {}).items()
        },
    )


def _caution(key: str, table: Mapping[str, Any]) -> Caution:
    return Caution(
        key=key,
        over=table.get("over", ""),
        found=table.get("found", ""),
        any_limit=table.get("any_limit", False),
        boil=table.get("boil", ""),
        boil_text=table.get("boil_text", ""),
        special={who: table[who] for who in (INFANT, PREGNANCY, DIET) if who in table},
        urgent=table.get("urgent", False),
        source=table["source"],
    )


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading of a sample with its headline verdict."""

    parameter: Parameter
    reading: Reading
    judgement: Judgement


def resolve(
    sample: Sequence[Judged],
    catalogue: Catalogue,
    sets: Sequence[str],
    cautions: Cautions,
    people: AbstractSet[str] = frozenset(),
) -> tuple[Advice, ...]:
    """What to say about the readings of one sample, taken together; urgent things first.

    Args:
        sample: Its readings, each with its headline verdict.
        catalogue: Limits.
        sets: Keys of the household's limit sets.
        cautions: The reference data.
        people: Of `infant`, `pregnancy` and `diet` those who drink the water.
    """
    over = [one for one in sample if _is_over(one, catalogue, sets, cautions)]
    found = [
        one for one in sample if one.judgement.verdict is Verdict.NO_LIMIT and one.reading.is_detect
    ]
    groups = _grouped([(one, "over") for one in over] + [(one, "found") for one in found], cautions)
    clash = {"yes", "no"} <= {caution.boil for caution, why, _unused in groups if why == "over"}
    said = [_advice(*group, people, clash=clash) for group in groups]
    first = [_clash(groups, cautions)] if clash else []
    if _must_not_open_the_well(groups):
        first.append(_closed_well(groups, cautions))
    ranked = sorted(filter(None, said), key=lambda advice: not advice.urgent)
    return (*first, *ranked)


Group = tuple[Caution, str, tuple[str, ...]]  # the caution, `over` or `found`, parameters' names


def _is_over(one: Judged, catalogue: Catalogue, sets: Sequence[str], cautions: Cautions) -> bool:
    """Outside a limit about health, or one that its caution holds for, or the only kind it has."""
    limit = one.judgement.limit
    if one.judgement.verdict is not Verdict.OUTSIDE or limit is None:
        return False
    caution = cautions.of.get(one.parameter.key)
    if limit.kind in ADVISED_KINDS or (caution is not None and caution.any_limit):
        return True
    return not any(
        other.kind in ADVISED_KINDS and other.set in sets and not other.end
        for other in catalogue.limits_of(one.parameter.key)
    )


def _grouped(readings: Sequence[tuple[Judged, str]], cautions: Cautions) -> list[Group]:
    """Readings that share a text, together."""
    names: dict[tuple[str, str], list[str]] = {}
    tables: dict[str, Caution] = {}
    for one, why in readings:
        caution = cautions.of.get(one.parameter.key)
        if caution is not None:
            tables[caution.key] = caution
            names.setdefault((caution.key, why), []).append(one.parameter.name)
    return [(tables[key], why, tuple(dict.fromkeys(known))) for (key, why), known in names.items()]


def _advice(
    caution: Caution, why: str, names: tuple[str, ...], people: AbstractSet[str], *, clash: bool
) -> Advice | None:
    is_over = why == "over"
    text = caution.over if is_over else caution.found
    if not text:
        return None
    extra = [
        caution.special[who]
        for who in (INFANT, PREGNANCY, DIET)
        if who in people & caution.special.keys()
    ]
    boil = [] if clash or not is_over else [caution.boil_text]
    words = " ".join(filter(None, (text, *boil, *(extra if is_over else ()))))
    return Advice(names, words, caution.urgent and is_over, caution.source)


def _clash(groups: Sequence[Group], cautions: Cautions) -> Advice:
    """The one text that takes the place of both sentences on boiling."""
    named = {
        answer: [
            name
            for caution, why, names in groups
            if why == "over" and caution.boil == answer
            for name in names
        ]
        for answer in ("yes", "no")
    }
    text = cautions.clashes["boil"].format(yes=_listed(named["yes"]), no=_listed(named["no"]))
    return Advice((*named["yes"], *named["no"]), text, urgent=True)


def _must_not_open_the_well(groups: Sequence[Group]) -> bool:
    over = {caution.boil for caution, why, _unused in groups if why == "over"}
    return "yes" in over and any(caution.key in _GASES for caution, _unused, _unused2 in groups)


def _closed_well(groups: Sequence[Group], cautions: Cautions) -> Advice:
    names = tuple(
        name
        for caution, _unused, known in groups
        if caution.boil == "yes" or caution.key in _GASES
        for name in known
    )
    return Advice(names, cautions.clashes["disinfect"], urgent=True)


def _listed(names: Sequence[str]) -> str:
    *others, last = names
    return _("{names} and {name}").format(names=", ".join(others), name=last) if others else last
