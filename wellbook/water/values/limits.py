"""Numbers and rules of published limit sets, and which of them held on a given day."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Literal, Self

from wellbook.support.csv_rows import IntOrZero, Stored
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
# A set of this name's end keeps a set's limits from their adoption until the day they start.
PENDING = "-pending"
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
        rounds: Whether its rules round a figure to the places of the limit before comparing.
        issuer: Domains at which its authority publishes it.
        language: Language of its text, as a code of ISO 639-1.
        note: What a reader must know about the set.
    """

    key: str
    name: str
    country: str
    standing: str
    default: bool
    whole: bool
    rounds: bool
    issuer: tuple[str, ...]
    language: str
    note: str

    def issues(self, address: str) -> bool:
        """Whether a page lies at its authority, not at somebody who reprints it."""
        host = address.partition("://")[2].partition("/")[0]
        return any(f".{host}".endswith(f".{domain}") for domain in self.issuer)


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
        where: Addresses at which its authority keeps the text; nobody need have opened them.
        checked: True if the figure was read in a stored text, False if it is from memory.
        note: What a reader must know about it.
        read: Day on which the figure was read; None if it was not.
        text: Addresses of the texts in which it was read: the authority's own or a copy. Of a limit
            from memory, where it was seen in what is no ground for it.
        rounds: Whether its set rounds to the places of the limit.

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
    read: date | None = None
    rounds: bool = False
    text: str = ""

    def __post_init__(self) -> None:
        Period.parse(self.start, self.end)

    @property
    def is_net_of_uranium(self) -> bool:
        """Whether a result is judged less the uranium of its sample."""
        return self.condition.startswith("net of uranium")

    @property
    def period(self) -> Period:
        """From when until when it holds; open where that is not known or it is in force."""
        return Period.parse(self.start, self.end)

    def in_force(self, on: date) -> Force:
        """Whether it held on that day; UNSURE inside a month or year that is all we know."""
        return _FORCES[self.period.covers(on)]


@dataclass(frozen=True, slots=True)
class Term:
    """One member of a sum.

    Attributes:
        parameter: Key of its parameter.
        basis: Its own basis, or empty for that of the sum.
        over: What it is divided by; 1 in a plain sum.
    """

    parameter: str
    basis: str = ""
    over: Decimal = Decimal(1)

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read `pfoa` or `nitrate as NO3 / 50`.

        Raises:
            ArithmeticError: What it is divided by is no number.
            ValueError: It is divided by nothing.
        """
        named, sign, over = text.partition("/")
        key, _gap, basis = named.strip().partition(" ")
        term = cls(key, basis.strip(), Decimal(over.strip()) if sign else Decimal(1))
        if term.over <= 0:
            raise ValueError(f"{text!r} is divided by nothing")
        return term


@dataclass(frozen=True, slots=True)
class SumRule:
    """How several parameters are limited together, a row of `sums.csv`.

    Attributes:
        key: The sum's own parameter; of `each`, the word that a limit on any member is kept under.
        how: `sum`, `ratios` (each member over its own figure, then added) or `each` (no sum: the
            limit is on any one of the members).
        unit: Unit of the members.
        basis: Basis of the members that name none.
        members: What is added up; of `each` also the key of another row, for its members.
        least_found: With fewer members found than this, the limit does not count.
        speaks_alone: Whether one member without the others is worth an `undecidable`.
        whole: Whether all members have a parameter here; else the sum has no known most.
        source: Who says so.
    """

    key: str
    how: Literal["sum", "ratios", "each"]
    unit: str
    basis: str
    members: Annotated[tuple[Term, ...], ";"]
    least_found: IntOrZero
    speaks_alone: bool
    whole: bool
    source: str
