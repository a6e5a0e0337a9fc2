"""The values that a comparison yields, and the one order of what needs attention."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from wellbook.support.message import Message
from wellbook.water.values.limits import ADVISED_KINDS, HEALTH_KINDS, Limit, LimitKind, Rule


class Verdict(StrEnum):
    """How a reading stands to a limit."""

    OUTSIDE = "outside"
    NEAR = "near"
    WITHIN = "within"
    UNDETECTED = "undetected"
    UNDECIDABLE = "undecidable"
    ADOPTED = "adopted"  # over a limit that is adopted and does not bind yet
    NO_LIMIT = "no limit"


# Verdicts that a person has to look at; the others need no deed.
ATTENTION = frozenset({Verdict.OUTSIDE, Verdict.UNDECIDABLE, Verdict.ADOPTED, Verdict.NEAR})
# Ours: health before taste, over before undecided before adopted before close; but what is over any
# limit comes before what is only close to one, and what is over an advisory level before what can’t
# be told of a limit for health.
_HEALTH, _ADVICE, _OTHER = range(3)
_ORDER = (
    (Verdict.OUTSIDE, _HEALTH),
    (Verdict.OUTSIDE, _ADVICE),
    (Verdict.UNDECIDABLE, _HEALTH),
    (Verdict.OUTSIDE, _OTHER),
    (Verdict.ADOPTED, _HEALTH),
    (Verdict.ADOPTED, _ADVICE),
    (Verdict.ADOPTED, _OTHER),
    (Verdict.NEAR, _HEALTH),
    (Verdict.UNDECIDABLE, _ADVICE),
    (Verdict.UNDECIDABLE, _OTHER),
    (Verdict.NEAR, _ADVICE),
    (Verdict.NEAR, _OTHER),
)
_KINDS = tuple(LimitKind)  # health first
# Lower is more urgent: place by verdict and health, kind of the limit, share of the limit negated.
Urgency = tuple[int, int, Decimal]


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with all that it rests on.

    Attributes:
        verdict: How the reading stands.
        limit: The limit it was held against; None for NO_LIMIT.
        value: The reading's figure in the limit's unit and basis, if there is one.
        reasons: Why; there always is one for UNDECIDABLE, and where an assumption was made.
    """

    verdict: Verdict
    limit: Limit | None = None
    value: Decimal | None = None
    reasons: tuple[Message, ...] = ()

    @property
    def needs_attention(self) -> bool:
        """Whether a person has to look at it."""
        return self.verdict in ATTENTION

    @property
    def is_health(self) -> bool:
        """Whether its limit is one for health, or a level at which to act."""
        return self.limit is not None and self.limit.kind in HEALTH_KINDS

    @property
    def can_harm(self) -> bool:
        """Whether passing its limit can harm people: an advisory level is told for that, too."""
        return self.limit is not None and self.limit.kind in ADVISED_KINDS

    @property
    def urgency(self) -> Urgency:
        """Its place among others, the most urgent lowest; every list is sorted by it."""
        limit = self.limit
        if limit is None:
            # Not judged for want of a unit or figure: it may be anything, so it is looked at.
            calm = len(_ORDER) + 1
            place = _ORDER.index((self.verdict, _OTHER)) if self.needs_attention else calm
            return (place, len(_KINDS), Decimal(0))
        group = (self.verdict, _HEALTH if self.is_health else _ADVICE if self.can_harm else _OTHER)
        place = _ORDER.index(group) if group in _ORDER else len(_ORDER)
        return (place, _KINDS.index(limit.kind), -self._share)

    @property
    def _share(self) -> Decimal:
        """How many times the limit it is; 0 where that can't be told, infinite where none may be.

        Below a range it is how many times the range's lower end the figure is too low.
        """
        limit, value = self.limit, self.value
        if limit is None:
            return Decimal(0)
        if limit.rule is Rule.ABSENT or limit.high == 0:
            return Decimal("Infinity") if self.verdict is Verdict.OUTSIDE else Decimal(0)
        if value is None or not limit.high:
            return Decimal(0)
        if limit.low is not None and value < limit.low:
            return limit.low / value if value > 0 else Decimal("Infinity")
        return value / limit.high
