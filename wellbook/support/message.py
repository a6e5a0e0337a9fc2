"""What is to be said as a code with its figures; `wording` has the sentence of each code."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Message:
    """One sentence that is still to be said, in whatever language.

    Attributes:
        code: Which sentence.
        facts: What stands in it, by name: days, figures, units, names.
    """

    code: StrEnum
    facts: tuple[tuple[str, object], ...] = ()


def message(code: StrEnum, /, **facts: object) -> Message:
    """A message with its facts by name."""
    return Message(code, tuple(facts.items()))
