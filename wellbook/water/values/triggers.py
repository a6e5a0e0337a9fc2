"""Which happenings ask for a test, read from `triggers.csv` and `symptoms.csv`."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Literal, Self

from wellbook.support.csv_rows import Phrases
from wellbook.water.values.seasons import SOUTHERN, YEAR, Scheme

_RAIN = "rain"


class EventKind(StrEnum):
    """What can happen to a well or its household."""

    FLOOD = "flood"
    REPAIR = "repair"
    PUMP = "pump"
    DISINFECTION = "disinfection"
    TREATMENT = "treatment"
    DRILLING = "drilling nearby"
    QUARRY = "quarry nearby"
    ROAD_SALT = "road salt"
    FARMING = "farming nearby"
    SEPTIC = "septic nearby"
    LANDFILL = "landfill nearby"
    SPILL = "spill"
    FIRE = "fire nearby"
    EARTHQUAKE = "earthquake"
    DRY = "dry"
    TASTE = "taste"
    RADON_IN_AIR = "radon in air"
    SALE = "sale"
    OWNER = "owner"
    NEW_WELL = "new well"
    BIRTH = "birth"
    PREGNANCY = "pregnancy"
    ILLNESS = "illness"
    INSPECTION = "inspection"
    CHECK_UP = "check-up"
    FLOW_TEST = "flow test"
    SEPTIC_LOOK = "septic inspected"
    SEPTIC_PUMPED = "septic pumped"
    GAS_DETECTOR = "gas detector tested"
    BACKFLOW = "backflow tested"
    OTHER = "other"


SYMPTOM = EventKind.TASTE  # the kind whose words tell what was tasted, smelled or seen
# What a row of `symptoms.csv` leaves out: what is noticed at the tap is tested there, now.
OF_SYMPTOMS = MappingProxyType(
    {
        "kind": SYMPTOM,
        "at": "drinking",
        "counts_from": "0",
        "due": "0",
        "until": "30",
        "lapses": "12",
        "every": "0",
        "months": "",
    }
)


@dataclass(frozen=True, slots=True)
class BestMonths:
    """Months in which a test is best done, none if any will do.

    Attributes:
        north: As they are meant in the north.
        with_rain: Whether it is the rain that makes them: then they are the wet ones where the
            year has a wet and a dry season.
    """

    north: frozenset[int]
    with_rain: bool

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read months, and perhaps the word `rain`, such as `4 5 6 7 rain`.

        Raises:
            ValueError: A word is no number of a month.
        """
        words = text.split()
        months = frozenset(int(word) for word in words if word != _RAIN)
        if not months <= set(range(1, YEAR + 1)):
            raise ValueError(f"{text!r} has a number that is no month")
        return cls(months, _RAIN in words)

    def by(self, scheme: Scheme) -> frozenset[int]:
        """The months where the year is divided so; the south has them half a year later."""
        if self.with_rain and scheme.wet_months:
            return scheme.wet_months
        if scheme.key != SOUTHERN.key:
            return self.north
        return frozenset((month + YEAR // 2 - 1) % YEAR + 1 for month in self.north)


@dataclass(frozen=True, slots=True)
class Trigger:
    """One test that one kind of happening asks for. Days are counted from the happening.

    Attributes:
        key: Stable key.
        kind: Kind of the event.
        words: Phrases, one of which must stand in the event's text; none for every event of the
            kind.
        name: What it is called in a list of things that are due.
        core: Keys of the parameters that must be tested for it to be done.
        also: Keys of parameters that usually come with them.
        at: `raw`, `drinking`, `both`, or `all` with the taps between two units.
        counts_from: From which day on, after the end of the happening, a test counts; may be < 0.
        due: After how many days it is due.
        until: After how many days it should be done.
        lapses: After how many months it is no longer asked for; 0 for never.
        every: Interval in months of one that comes again; 0 for once.
        months: When in the year it is best done.
        why: One or two plain sentences.
        source: Who says so, and as of when.
    """

    key: str
    kind: str
    words: Phrases
    name: str
    core: tuple[str, ...]
    also: tuple[str, ...]
    at: Literal["raw", "drinking", "both", "all"]
    counts_from: int
    due: int
    until: int
    lapses: int
    every: int
    months: BestMonths
    why: str
    source: str

    def fits(self, text: str) -> bool:
        """Whether one of its phrases stands in a text: all its words, in any order.

        A word that the text denies (`no oil seen`) does not stand in it.
        """
        return any(all(_stands(word, text) for word in phrase.split()) for phrase in self.words)


def asked_by(kind: str, text: str, triggers: Iterable[Trigger]) -> tuple[Trigger, ...]:
    """What an event of a kind, told in these words, asks for: words only add to it."""
    return tuple(
        trigger
        for trigger in triggers
        if trigger.kind == kind and (not trigger.words or trigger.fits(text))
    )


# What denies the words after it, in English and Spanish, up to three words on in the same clause;
# and what only sounds like that. In doubt a word counts: it can only add a test.
_DENIED = re.compile(
    r"\b(?:no|without|never|nor|sin|ni|ningún|ninguna|nunca)\b"
    r"(?!\s+(?:doubt|idea|sure|sé|hay\s+duda|sabemos))(?:\s+[^\s,.;:!?]+){0,3}\s+$",
    re.IGNORECASE,
)
_BUT = re.compile(r"\b(?:but|yet|except|pero|sino|salvo)\b", re.IGNORECASE)


def _stands(word: str, text: str) -> bool:
    """Whether a word stands in a text at a place where it is not denied."""
    return any(not _is_denied(text[: match.start()]) for match in _pattern(word).finditer(text))


def _is_denied(before: str) -> bool:
    clause = re.split(r"[,.;:!?]", before)[-1]
    return bool(_DENIED.search(_BUT.split(clause)[-1]))


def _pattern(word: str) -> re.Pattern[str]:
    """A whole word, or the start of one if it ends with a star; `re` keeps what it compiled."""
    end = "" if word.endswith("*") else r"\b"
    return re.compile(rf"\b{re.escape(word.rstrip('*'))}{end}", re.IGNORECASE)
