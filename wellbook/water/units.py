"""Units and basis: what a lab's spelling means, and what converts into what.

Powers of ten between metric spellings are exact and need no library; everything else asks pint,
whose registry is built on first need. A conversion is worked out once per pair of units and then
is one multiplication.
"""

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import TYPE_CHECKING

from wellbook.water import basis as bases
from wellbook.water import spellings
from wellbook.water.basis import NoConversion
from wellbook.water.parameters import Parameter
from wellbook.water.readings import Reading
from wellbook.water.spellings import Unit, basis_in, understand

if TYPE_CHECKING:
    from pint import UnitRegistry

__all__ = ["Conversion", "NoConversion", "Unit", "basis_in", "convert", "in_usual", "understand"]

# The base of each quantity, and how many of it one unit is.
_BASE = {
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
_EXACT = {
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
}
# Names for pint; only these, which we wrote, ever reach it.
_PINT = {
    "gpg": "grain / gallon",
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
_VOLUMES = {
    "per 100 mL": 100,
    "CFU per 100 mL": 100,
    "MPN per 100 mL": 100,
    "per mL": 1,
    "CFU per mL": 1,
    "MPN per mL": 1,
    "per 10 mL": 10,
    "per 250 mL": 250,
    "per 500 mL": 500,
    "per L": 1000,
}
_SOLUTE = {spellings.MASS, spellings.FRACTION, spellings.AMOUNT, spellings.CHARGE}

# ISO 7888 (1985) prints 1.116 for natural waters from 20 °C to 25 °C; from memory.
_PER_25_DEGREES = Decimal("1.116")

# The natural activity that the federal radionuclides rule of 2000 assumed; from memory.
URANIUM_ACTIVITY = Decimal("0.67")  # pCi per µg


@dataclass(frozen=True, slots=True)
class Conversion:
    """A converted figure.

    Attributes:
        number: The figure in the unit and basis asked for, not rounded.
        assumption: What had to be assumed, one sentence; empty if nothing.
    """

    number: Decimal
    assumption: str = ""


@dataclass(frozen=True, slots=True)
class _Line:
    """A conversion worked out: figure times scale plus offset."""

    scale: Decimal
    offset: Decimal = Decimal(0)
    assumptions: tuple[str, ...] = ()

    def then(self, other: "_Line") -> "_Line":
        return _Line(
            self.scale * other.scale,
            self.offset * other.scale + other.offset,
            self.assumptions + other.assumptions,
        )


def convert(
    number: Decimal, unit: str, basis: str, to_unit: str, to_basis: str, parameter: Parameter
) -> Conversion:
    """Convert a printed figure into another unit and basis.

    Raises:
        NoConversion: It can't be done; the text says why.
    """
    if unit == to_unit and basis == to_basis:
        return Conversion(number)
    line = _line(unit, basis, to_unit, to_basis, parameter)
    converted = number if line.scale == 1 else number * line.scale
    if line.offset:
        converted += line.offset
    return Conversion(converted, " ".join(line.assumptions))


def in_usual(reading: Reading, parameter: Parameter) -> Decimal | None:
    """A reading's figure in the parameter's usual unit and basis; None if it can't be had."""
    if reading.number is None:
        return None
    try:
        return convert(
            reading.number,
            reading.unit,
            reading.basis,
            parameter.unit,
            parameter.basis,
            parameter,
        ).number
    except NoConversion:
        return None


@lru_cache(maxsize=4096)
def _line(unit: str, basis: str, to_unit: str, to_basis: str, parameter: Parameter) -> _Line:
    source, target = _known(unit, to_unit), _known(to_unit)
    here, there = _one_basis(basis, source), _one_basis(to_basis, target)
    if spellings.DOUBTFUL in {source.quantity, target.quantity}:
        raise NoConversion("ppt may mean parts per trillion or per thousand; ask the lab which.")
    if source.quantity == target.quantity == spellings.COUNT:
        return _count_line(source, target)
    if source.quantity in _SOLUTE and target.quantity in _SOLUTE:
        return _solute_line(source, here, target, there, parameter)
    if spellings.ACTIVITY in {source.quantity, target.quantity} and parameter.key == "uranium":
        return _uranium_line(source, target)
    if source.quantity == target.quantity:
        return _plain_line(source.label, target.label).then(_temperature_line(here, there))
    if source.label == "1" and target.quantity in {"pH", "color", "odor"}:
        return _Line(Decimal(1))
    raise NoConversion(
        f"{source.label} and {target.label} measure different things ({source.quantity}, "
        f"{target.quantity})."
    )


def _known(text: str, to_text: str = "") -> Unit:
    unit = understand(text)
    if unit:
        return unit
    if text.strip():
        raise NoConversion(f"The unit “{text.strip()}” is not one that Wellbook knows.")
    bare = understand("1")
    if bare and to_text in {"1", "pH units"}:
        return bare
    raise NoConversion("No unit is printed with the figure.")


def _one_basis(basis: str, unit: Unit) -> str:
    if basis and unit.basis and basis != unit.basis:
        raise NoConversion(f"The sheet gives two bases, {basis} and {unit.basis}.")
    return basis or unit.basis


def _plain_line(label: str, to_label: str) -> _Line:
    if label == to_label:
        return _Line(Decimal(1))
    assumed = ()
    if {label, to_label} == {"NTU", "FNU"}:
        assumed = ("NTU and FNU are taken as equal; the two kinds of meter may differ.",)
    quantity = _known(label).quantity
    if quantity not in _BASE:
        raise NoConversion(f"{label} and {to_label} do not convert.")
    there, back = _to_base(label, _BASE[quantity]), _to_base(to_label, _BASE[quantity])
    inverse = _Line(1 / back.scale, -back.offset / back.scale)
    return _Line(there.scale, there.offset, assumed).then(inverse)


@lru_cache(maxsize=256)
def _to_base(label: str, base: str) -> _Line:
    if label in _EXACT:
        return _Line(Decimal(_EXACT[label]))
    if label == "°dH":
        # One German degree is 10 mg/L counted as CaO.
        return _Line(10 * bases.molar_mass("CaCO3") / bases.molar_mass("CaO"))
    registry = _registry()
    zero, one = (
        registry.Quantity(Decimal(n), _PINT[label]).to(_PINT[base]).magnitude for n in (0, 1)
    )
    return _Line(one - zero, zero)


@lru_cache(maxsize=1)
def _registry() -> "UnitRegistry[Decimal]":
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)


def _count_line(source: Unit, target: Unit) -> _Line:
    methods = {label.split()[0] for label in (source.label, target.label)} & {"CFU", "MPN"}
    if len(methods) > 1:
        raise NoConversion(
            "CFU are counted and MPN are estimated; one can't be turned into the other."
        )
    assumed = ()
    volume, to_volume = _VOLUMES.get(source.label), _VOLUMES.get(target.label)
    if volume is None:
        volume = 100
        assumed = ("No volume is printed; the count is taken as per 100 mL.",)
    if to_volume is None:
        raise NoConversion(f"{target.label} does not say for which volume.")
    return _Line(Decimal(to_volume) / volume, Decimal(0), assumed)


def _solute_line(
    source: Unit, basis: str, target: Unit, to_basis: str, parameter: Parameter
) -> _Line:
    masses = {spellings.MASS, spellings.FRACTION}
    assumed: list[str] = []
    if not basis and to_basis:
        choices = bases.choices(parameter)
        if choices and source.quantity in masses:
            raise NoConversion(
                f"The sheet does not say whether {parameter.name} is counted "
                f"{' or '.join(choices)}; ask the lab."
            )
        if source.quantity in masses and bases.own_form(parameter):
            assumed.append(f"No basis is printed; taken {_usual_basis(parameter)}, as is usual.")
    form, to_form = bases.form_of(basis, parameter), bases.form_of(to_basis, parameter)
    if (source.quantity in masses) != (
        target.quantity in masses
    ) or source.quantity != target.quantity:
        assumed += _dilute(source, target)
    line = _to_mass(source, form, parameter)
    back = _to_mass(target, to_form, parameter)
    factor = bases.factor(form, to_form, parameter)
    return _Line(line.scale * factor / back.scale, Decimal(0), tuple(assumed))


def _usual_basis(parameter: Parameter) -> str:
    return parameter.basis or f"as {bases.own_form(parameter)}"


def _dilute(source: Unit, target: Unit) -> list[str]:
    fractions = [u.label for u in (source, target) if u.quantity == spellings.FRACTION]
    return [f"{label} is taken as for dilute water, 1 kg per litre." for label in fractions]


def _to_mass(unit: Unit, form: str, parameter: Parameter) -> _Line:
    """From a unit to mg/L counted in `form`."""
    base = _to_base(unit.label, _BASE[unit.quantity])
    if unit.quantity == spellings.AMOUNT:
        return _Line(base.scale * bases.mole_mass(form, parameter))
    if unit.quantity == spellings.CHARGE:
        return _Line(base.scale * bases.equivalent_mass(form, parameter))
    return base


def _uranium_line(source: Unit, target: Unit) -> _Line:
    if source.quantity == target.quantity:
        return _plain_line(source.label, target.label)
    ratio = f"Taken at {URANIUM_ACTIVITY} pCi per µg of uranium; the true ratio differs by well."
    if source.quantity == spellings.ACTIVITY and target.quantity == spellings.MASS:
        line = _plain_line(source.label, "pCi/L").then(_Line(1 / URANIUM_ACTIVITY))
        return line.then(_Line(Decimal(1), Decimal(0), (ratio,))).then(
            _plain_line("µg/L", target.label)
        )
    if source.quantity == spellings.MASS and target.quantity == spellings.ACTIVITY:
        line = _plain_line(source.label, "µg/L").then(_Line(URANIUM_ACTIVITY))
        return line.then(_Line(Decimal(1), Decimal(0), (ratio,))).then(
            _plain_line("pCi/L", target.label)
        )
    raise NoConversion(f"{source.label} and {target.label} do not convert.")


def _temperature_line(basis: str, to_basis: str) -> _Line:
    """Conductivity at 20 °C and at 25 °C; without a word it is at 25 °C."""
    here, there = (b if b.startswith("at ") else "at 25 °C" for b in (basis, to_basis))
    if here == there:
        return _Line(Decimal(1))
    scale = _PER_25_DEGREES if there == "at 25 °C" else 1 / _PER_25_DEGREES
    assumed = f"Taken from {here[3:]} to {there[3:]} by the factor 1.116 for natural waters."
    return _Line(scale, Decimal(0), (assumed,))
