"""Numbers and rules of published limit sets, and which of them held on a given day."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from wellbook.support.csv_rows import Stored
from wellbook.water.values.partial_date import Period


class LimitKind(StrEnum):
    """What a limit is for; health comes first when several apply."""

    HEALTH = "health"
    ACTION = "action level"
    ADVISORY = "advisory"
    AESTHETIC = "aesthetic"
    OPERATIONAL = "operational"


# Kinds whose passing can harm people; the first two rank above everything else.
HEALTH_KINDS = frozenset({LimitKind.HEALTH, LimitKind.ACTION})
# Ours: from this share of a health limit on, a reading is called near it. Not a rule of anyone's.
NEAR_SHARE = Decimal("0.8")
ADVISED_KINDS = HEALTH_KINDS | {LimitKind.ADVISORY}  # an advisory asks for a caution, too


class Rule(StrEnum):
    """How a reading is compared."""

    MAX = "max"  # `high` is allowed, more is not
    RANGE = "range"  # both ends allowed
    ABSENT = "absent"  # any detection is outside


class Force(StrEnum):
    """Whether a limit held on a day."""

    YES = "yes"
    NO = "no"
    UNSURE = "unsure"  # its date is known only to the month or year, and the day falls into it


_FORCES = {True: Force.YES, False: Force.NO, None: Force.UNSURE}


@dataclass(frozen=True, slots=True)
class LimitSet:
    """A published set of limits.

    Attributes:
        key: Stable key, e.g. `us-epa-primary`.
        name: Plain name for the screen.
        country: ISO 3166 code, or empty.
        standing: `in force`, `pending`, `proposed` or `classes`; verdicts come from the first only.
        default: Whether a new book starts with it.
        whole: Whether all of the published list is kept here, not only a part of it.
        note: What a reader must know about the set.
    """

    key: str
    name: str
    country: str
    standing: str
    default: bool
    whole: bool
    note: str


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of one set, in force between two days (both included).

    Attributes:
        set: Key of its limit set.
        parameter: Key of the parameter.
        kind: What it is for.
        rule: How a reading is compared.
        low: Lower end of a range, in `unit` and `basis`.
        high: Maximum, or upper end of a range.
        unit: Unit label (see `conversion`).
        basis: `as N` and so on, or empty.
        fraction: `total`, `dissolved`, or empty where it does not matter.
        condition: Anything else it is bound to, e.g. `first draw`, `net of uranium`; or empty.
        start: ISO date, month or year from which it holds; empty if not known.
        end: ISO date, month or year until which it holds; empty while in force.
        source: Citation of the rule.
        where: Where the text was read.
        checked: True if the figure was read in a stored text, False if it is from memory.
        note: What a reader must know about it.

    Raises:
        ValueError: `start` or `end` is no ISO date, month or year.
    """

    set: str
    parameter: str
    kind: LimitKind
    rule: Rule
    low: Decimal | None
    high: Decimal | None
    unit: str
    basis: str
    fraction: str
    condition: str
    start: str
    end: str
    source: str
    where: str
    checked: Stored
    note: str

    def __post_init__(self) -> None:
        Period.parse(self.start, self.end)

    @property
    def period(self) -> Period:
        """From when until when it holds; open where that is not known or it is in force."""
        return Period.parse(self.start, self.end)

    def in_force(self, on: date) -> Force:
        """Whether it held on that day; UNSURE inside a month or year that is all we know."""
        return _FORCES[self.period.covers(on)]
