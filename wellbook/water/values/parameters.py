"""What can be measured in a well's water."""

from dataclasses import dataclass
from decimal import Decimal

from wellbook.support.csv_rows import IntOrZero, Phrases


@dataclass(frozen=True, slots=True)
class Parameter:
    """One thing a lab measures.

    Attributes:
        key: Our stable key, e.g. `nitrate`, `total_coliform`.
        name: The trade's name, e.g. `Nitrate`.
        family: `bacteria`, `nutrients`, `metals`, `minerals`, `general`, `organics`, `pfas`,
            `radioactivity`, `gases`, `corrosion`.
        cas: CAS registry number, or empty.
        unit: Label of the usual unit (see `conversion`), e.g. `mg/L`.
        basis: Usual basis, e.g. `as N`, or empty.
        scale: `number`, or `presence` where absence is the rule and counts are per 100 mL.
        molar_mass: g/mol of the species in the usual basis' own form, None where none applies.
        charge: Charge number of the ion in water, 0 where none applies.
        why: One plain sentence: why it matters in a private well.
        aliases: Names that labs print, without regard to case.
        source: Where the row comes from; `from memory` where it is.
        shown: Unit and basis in which figures are shown, where not in the usual ones.
    """

    key: str
    name: str
    family: str
    cas: str
    unit: str
    basis: str
    scale: str
    molar_mass: Decimal | None
    charge: IntOrZero
    why: str
    aliases: Phrases
    source: str
    shown: tuple[str, str] | None = None

    def __hash__(self) -> int:
        """No two parameters have the same key; every conversion asks for it."""
        return hash(self.key)

    @property
    def shown_in(self) -> tuple[str, str]:
        """Unit and basis in which figures are shown."""
        return self.shown or (self.unit, self.basis)


@dataclass(frozen=True, slots=True)
class PrintedNames:
    """What labs of one language print for a parameter, a row of `lab_names.csv`.

    Attributes:
        parameter: Its key.
        language: Code of ISO 639-1.
        names: The names, in the first row of a language first the one that is said.
        basis: What a figure under such a name is counted as, where the name says it; or empty.
        source: Where they come from.
    """

    parameter: str
    language: str
    names: Phrases
    basis: str
    source: str
