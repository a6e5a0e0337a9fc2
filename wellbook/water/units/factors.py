"""Factors between units of one quantity, and the straight line that a conversion is.

Powers of ten between metric spellings, and the grains of old reports, are exact and need no
library; everything else asks pint, whose registry is built on first need.
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING

from wellbook.support.message import Message
from wellbook.water.units import spellings
from wellbook.water.units.basis import molar_mass

if TYPE_CHECKING:
    from pint import UnitRegistry

# The base of each quantity, and how many of it one unit is.
BASE = {
    spellings.MASS: "mg/L",
    spellings.FRACTION: "ppm",
    spellings.AMOUNT: "mmol/L",
    spellings.CHARGE: "meq/L",
    spellings.ACTIVITY: "Bq/L",
    spellings.CONDUCTIVITY: "µS/cm",
    spellings.TURBIDITY: "NTU",
    "temperature": "°C",
    "dose": "mSv/yr",
}
_EXACT: dict[str, str | Decimal] = {
    "g/L": "1000",
    "mg/L": "1",
    "µg/L": "0.001",
    "ng/L": "0.000001",
    "pg/L": "0.000000001",
    "°fH": "10",
    "ppm": "1",
    "ppb": "0.001",
    "ng/kg": "0.000001",
    "mol/L": "1000",
    "mmol/L": "1",
    "µmol/L": "0.001",
    "nmol/L": "0.000001",
    "eq/L": "1000",
    "meq/L": "1",
    "µeq/L": "0.001",
    "Bq/L": "1",
    "mBq/L": "0.001",
    "Bq/m³": "0.001",
    "µS/cm": "1",
    "mS/cm": "1000",
    "mS/m": "10",
    "dS/m": "1000",
    "S/m": "10000",
    "µS/m": "0.01",
    "S/cm": "1000000",
    "NTU": "1",
    "FNU": "1",
    "°C": "1",
    "mSv/yr": "1",
    # 64.79891 mg by definition in a US gallon of 3.785411784 L by definition; old reports use it.
    "gpg": Decimal("64.79891") / Decimal("3.785411784"),
}
# Names for pint; only these, which we wrote, ever reach it.
_PINT = {
    "°e": "grain / imperial_gallon",
    "tons/acre-ft": "short_ton / acre_foot",
    "mg/L": "milligram / liter",
    "pCi/L": "picocurie / liter",
    "nCi/L": "nanocurie / liter",
    "Bq/L": "becquerel / liter",
    "°C": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "K": "kelvin",
    "mrem/yr": "millirem / year",
    "mSv/yr": "millisievert / year",
}


class Assumed(StrEnum):
    """What a conversion may have to assume."""

    EQUAL_METERS = "NTU and FNU are equal"
    VOLUME = "per 100 mL"
    BASIS = "the usual basis"
    DILUTE = "dilute water"
    URANIUM = "the ratio of uranium"
    TEMPERATURE = "the factor of temperature"


@dataclass(frozen=True, slots=True)
class Line:
    """A conversion worked out: figure times scale plus offset.

    Attributes:
        scale: By what a figure is multiplied.
        offset: What is then added; only temperatures have one.
        assumptions: What had to be assumed.
    """

    scale: Decimal
    offset: Decimal = Decimal(0)
    assumptions: tuple[Message, ...] = ()

    def of(self, number: Decimal) -> Decimal:
        """The converted figure, unrounded; written without an exponent where it is large."""
        if self.scale == 1 and not self.offset:
            return number
        # Adding a plain zero turns 5.0E+3 into 5000.
        return number * self.scale + (self.offset or Decimal(0))

    def then(self, other: "Line") -> "Line":
        """This conversion and another one after it."""
        return Line(
            self.scale * other.scale,
            self.offset * other.scale + other.offset,
            self.assumptions + other.assumptions,
        )

    def back(self) -> "Line":
        """The way back."""
        return Line(1 / self.scale, -self.offset / self.scale, self.assumptions)

    def assuming(self, *assumptions: Message) -> "Line":
        """The same with assumptions put to it."""
        return replace(self, assumptions=self.assumptions + assumptions)


@lru_cache(maxsize=256)
def to_base(label: str, base: str) -> Line:
    """From a unit to the base of its quantity.

    Raises:
        KeyError: A label that no table here has; every label of `spellings` that shares a base is
            in one of them.
    """
    if label in _EXACT:
        return Line(Decimal(_EXACT[label]))
    if label == "°dH":
        # One German degree is 10 mg/L counted as CaO.
        return Line(10 * molar_mass("CaCO3") / molar_mass("CaO"))
    registry = _registry()
    zero, one = (
        registry.Quantity(Decimal(n), _PINT[label]).to(_PINT[base]).magnitude for n in (0, 1)
    )
    return Line(one - zero, zero)


@lru_cache(maxsize=1)
def _registry() -> "UnitRegistry[Decimal]":
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)
