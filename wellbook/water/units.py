"""Units and basis: what a lab's spelling means, and what converts into what."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a lab's spelling stands for.

    Attributes:
        label: Our spelling, e.g. `mg/L`, `µg/L`, `per 100 mL`, `pH units`, `µS/cm`.
        quantity: What kind of quantity it measures, e.g. `mass concentration`.
        basis: The basis that the spelling carries (`gpg` is as CaCO3), or empty.
    """

    label: str
    quantity: str
    basis: str = ""
