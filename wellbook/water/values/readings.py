"""What a lab wrote for one parameter, understood without changing it."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


class Kind(StrEnum):
    """What sort of statement a reading is."""

    NUMBER = "number"
    BELOW = "below"  # a non-detect: below the reporting limit `number` (None: limit not printed)
    ABOVE = "above"  # off scale: above `number` (None: too numerous to count)
    PRESENT = "present"
    ABSENT = "absent"
    NONE = "not analysed"
    TEXT = "text"  # not understood: kept as text, never judged


class Flag(StrEnum):
    """What the lab said about a reading beside its number."""

    ESTIMATED = "estimated"
    HELD_TOO_LONG = "held too long"
    IN_BLANK = "in blank"
    DUPLICATE = "duplicate"
    DILUTED = "diluted"
    REJECTED = "rejected"
    OVER_RANGE = "over range"
    OVERGROWN = "overgrown"  # confluent growth or too numerous to count
    PRELIMINARY = "preliminary"  # told before the report was made


class Fraction(StrEnum):
    """Which part of the water was measured."""

    TOTAL = "total"
    DISSOLVED = "dissolved"


@dataclass(frozen=True, slots=True)
class Reading:
    """One statement of a lab.

    Attributes:
        text: The result exactly as printed, e.g. `<0.005`, `absent`, `>2419.6`.
        kind: What sort of statement it is.
        number: The figure in `unit`: the value, or the limit of BELOW and ABOVE.
        unit: The unit exactly as printed; `conversion.understand` makes sense of it.
        basis: `as N`, `as NO3`, `as CaCO3` and so on, or empty when none was printed.
        fraction: `total`, `dissolved`, or empty when not stated.
        flags: What the lab said beside it.
    """

    text: str
    kind: Kind
    number: Decimal | None = None
    unit: str = ""
    basis: str = ""
    fraction: str = ""
    flags: frozenset[Flag] = frozenset()

    @property
    def is_detect(self) -> bool:
        """Whether the reading says that something is there."""
        return self.kind in {Kind.NUMBER, Kind.ABOVE, Kind.PRESENT}
