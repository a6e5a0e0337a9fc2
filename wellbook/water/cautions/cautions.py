"""What is usually said and done when a reading is outside: the data of `cautions.toml`."""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any

INFANT, PREGNANCY, CHILD, IMMUNE, DIALYSIS, DIET, ANIMALS = PEOPLE = (
    "infant",
    "pregnancy",
    "child",
    "immune",
    "dialysis",
    "diet",
    "animals",
)
_GROUPS = frozenset(
    {"general", "boil", "clash", "situation", "person", "undecided", "taste", "behind"}
)
_EXTRA = (INFANT, PREGNANCY, CHILD, DIET)  # those to whom a parameter's table may speak


@dataclass(frozen=True, slots=True)
class Caution:
    """What is said of one parameter, or of several that share a table.

    Attributes:
        key: Key of the table.
        over: Said when a reading is outside a limit that is about health.
        undecided: Said when that can't be told.
        adopted: Said when only a limit is passed that does not bind yet.
        taste: Said when only a level of taste, looks or operation is passed.
        low: Said in place of `over` when the figure is below a range.
        found: Said when it is detected and no chosen set has a limit.
        always: Whether `found` also holds where a limit is met.
        any_limit: Whether `over` also holds for limits of taste, looks and operation.
        boil: What it means for boiling where bacteria were found too: `yes`, `no`, `lesser`,
            `vented`, or empty.
        boil_text: The sentence on boiling of the parameter alone.
        special: Extra sentences for people, by person.
        urgent: Whether people should act the same day.
        source: Who says so.
    """

    key: str
    over: str = ""
    undecided: str = ""
    adopted: str = ""
    taste: str = ""
    low: str = ""
    found: str = ""
    always: bool = False
    any_limit: bool = False
    boil: str = ""
    boil_text: str = ""
    special: Mapping[str, str] = field(default_factory=dict)
    urgent: bool = False
    source: str = ""


@dataclass(frozen=True, slots=True)
class PersonCaution:
    """What is said to some people from a figure on, whatever the limits.

    Attributes:
        parameters: Keys of the parameters it is about.
        who: Of `PEOPLE` those who are spoken to.
        start: Figure from which on it is said; None for any detection.
        unit: Unit of the figure.
        basis: Basis of the figure.
        over: Whether it holds only where a limit is passed or that can't be told.
        other_water: Whether boiled water is none for them, where bacteria were found too.
        text: What is said.
        source: Who says so.
    """

    parameters: tuple[str, ...]
    who: tuple[str, ...]
    start: Decimal | None
    unit: str
    basis: str
    over: bool
    other_water: bool
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Situation:
    """A caution for a moment and not for a reading.

    Attributes:
        text: What is said.
        steps: What is done, in order.
        source: Who says so.
        events: Kinds of event that bring it on.
        days: For how many days after such an event it is said.
    """

    text: str
    steps: tuple[str, ...]
    source: str
    events: tuple[str, ...] = ()
    days: int = 0


@dataclass(frozen=True, slots=True)
class Cautions:
    """All cautions of the reference data.

    Attributes:
        general: Sentences that stand with every list of cautions.
        of: Caution by parameter key.
        people: What is said to some people from a figure on.
        undecided: Said where it can't be told and the parameter has no text of its own.
        taste: Said where only taste is concerned and the parameter has no text of its own.
        boil: What is said of boiling where bacteria were found, by name.
        clashes: Other texts for several findings together, by name.
        behind: What a finding before a tap or in an earlier sample means, with its source, by name.
        situations: By name.
    """

    general: tuple[str, ...]
    of: Mapping[str, Caution]
    people: tuple[PersonCaution, ...]
    undecided: str
    taste: str
    boil: Mapping[str, str]
    clashes: Mapping[str, str]
    behind: Mapping[str, tuple[str, str]]
    situations: Mapping[str, Situation]


def read_cautions(path: Path) -> Cautions:
    """Read `cautions.toml`.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: It is not TOML.
    """
    tables: dict[str, Any] = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)
    general = tables.get("general", {})
    of: dict[str, Caution] = {}
    for key, table in tables.items():
        if key not in _GROUPS:
            caution = _caution(key, table)
            of.update(dict.fromkeys((key, *table.get("also", ())), caution))
    return Cautions(
        general=tuple(general[key] for key in ("snapshot", "yardstick", "ask") if key in general),
        of=of,
        people=tuple(map(_person, tables.get("person", ()))),
        undecided=tables.get("undecided", {}).get("text", ""),
        taste=tables.get("taste", {}).get("text", ""),
        boil={name: table["text"] for name, table in tables.get("boil", {}).items()},
        clashes={name: table["text"] for name, table in tables.get("clash", {}).items()},
        behind={
            name: (table["text"], table["source"])
            for name, table in tables.get("behind", {}).items()
        },
        situations={
            name: Situation(
                table["text"],
                tuple(table.get("steps", ())),
                table["source"],
                tuple(table.get("events", ())),
                table.get("days", 0),
            )
            for name, table in tables.get("situation", {}).items()
        },
    )


def happening_situations(
    cautions: Cautions, events: Sequence[tuple[str, int]]
) -> tuple[Situation, ...]:
    """The situations that events of a kind, so many days old, bring on."""
    return tuple(
        situation
        for situation in cautions.situations.values()
        if any(kind in situation.events and 0 <= days <= situation.days for kind, days in events)
    )


def _caution(key: str, table: Mapping[str, Any]) -> Caution:
    words = ("over", "undecided", "adopted", "taste", "low", "found", "boil", "boil_text")
    return Caution(
        key=key,
        **{name: table.get(name, "") for name in words},
        always=table.get("always", False),
        any_limit=table.get("any_limit", False),
        special={who: table[who] for who in _EXTRA if who in table},
        urgent=table.get("urgent", False),
        source=table["source"],
    )


def _person(table: Mapping[str, Any]) -> PersonCaution:
    start = table.get("from")
    return PersonCaution(
        parameters=tuple(table["of"]),
        who=tuple(table["who"]),
        start=None if start is None else Decimal(start),
        unit=table.get("unit", ""),
        basis=table.get("basis", ""),
        over=table.get("over", False),
        other_water=table.get("other_water", False),
        text=table["text"],
        source=table["source"],
    )
