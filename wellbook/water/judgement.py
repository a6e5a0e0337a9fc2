"""The values that a comparison yields."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from wellbook.water.limits import Limit


class Verdict(StrEnum):
    """How a reading stands to a limit."""

    OUTSIDE = "outside"
    NEAR = "near"
    WITHIN = "within"
    UNDETECTED = "undetected"
    UNDECIDABLE = "undecidable"
    NO_LIMIT = "no limit"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with all that it rests on.

    Attributes:
        verdict: How the reading stands.
        limit: The limit it was held against; None for NO_LIMIT.
        value: The reading's figure in the limit's unit and basis, if there is one.
        why: One plain sentence; always set for UNDECIDABLE, and where an assumption was made.
    """

    verdict: Verdict
    limit: Limit | None = None
    value: Decimal | None = None
    why: str = ""
