"""What may change between two tests beside the water."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Circumstance(StrEnum):
    """What may change between two tests while the water of the well stays as it is."""

    LAB = "lab"
    METHOD = "method"
    TREATMENT = "treatment"


@dataclass(frozen=True, slots=True)
class Switch:
    """A change of circumstances that may be the reason of what looks like a trend.

    Attributes:
        of: What changed.
        days: The first test after each change.
    """

    of: Circumstance
    days: tuple[date, ...]
