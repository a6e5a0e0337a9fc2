"""What a lab or a person did oddly, said beside the facts. A finding asks; it changes nothing."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any


class Severity(StrEnum):
    """What a finding asks for."""

    STOP = "stop"  # it keeps the thing out until it is mended
    ASK = "ask"  # it wants an answer from a person
    NOTE = "note"  # it is only worth knowing


class Check(StrEnum):
    """What the plausibility of a sample was asked, and was odd."""

    FUTURE_DATE = "future_date"
    AFTER_RECEIPT = "after_receipt"
    ANALYSED_FIRST = "analysed_before_collected"
    WRONG_COLUMN = "wrong_column"
    ZERO = "zero"
    LOST_SIGN = "lost_sign"
    ENTERED_BEFORE = "entered_before"
    PART_OVER_WHOLE = "part_over_whole"
    GERM_WITHOUT_COLIFORM = "germ_without_coliform"
    HARDNESS_SUM = "hardness_sum"
    CHARGE_BALANCE = "charge_balance"
    SOLIDS_SUM = "solids_sum"
    SOLIDS_CONDUCTIVITY = "solids_conductivity"
    FAR_FROM_HISTORY = "far_from_history"
    MANY_FAR_FROM_HISTORY = "many_far_from_history"
    ROWS_SWAPPED = "rows_swapped"
    BEYOND = "beyond_what_wells_show"
    OTHER_SIDE_OF_SOFTENER = "other_side_of_softener"


@dataclass(frozen=True, slots=True)
class Finding:
    """One odd thing.

    Attributes:
        key: Stable key of the kind of finding, e.g. `after_receipt`, `charge_balance`.
        text: One plain sentence: what is odd and what to look at.
        where: Where it was seen, e.g. a file's row or a parameter's printed name.
        severity: What it asks for.
        results: Numbers of the results concerned, in their book or their draft.
    """

    key: str
    text: str
    where: str = ""
    severity: Severity = Severity.ASK
    results: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Oddity:
    """What arithmetic found odd in a sample, before it is said (`wording.findings` says it).

    Attributes:
        key: What was checked.
        facts: The figures, names and likely slips that belong to its sentence, by name.
        severity: What it asks for.
        results: Numbers of the results concerned, in their book or their draft.
    """

    key: Check
    facts: Mapping[str, Any] = field(default_factory=dict)
    severity: Severity = Severity.ASK
    results: tuple[int, ...] = ()
