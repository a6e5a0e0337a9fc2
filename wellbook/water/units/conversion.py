"""Units and basis: what a lab's spelling means, and what converts into what.

A conversion is worked out once per pair of units and bases (`factors` has the units, `basis` the
forms) and then is one multiplication.
"""

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from wellbook.support.message import Message
from wellbook.water.units import basis as bases
from wellbook.water.units import spellings
from wellbook.water.units.basis import NoConversion, Obstacle
from wellbook.water.units.factors import BASE, Assumed, Line, to_base
from wellbook.water.units.spellings import Unit, basis_in, understand
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Reading

__all__ = [
    "Conversion",
    "NoConversion",
    "Unit",
    "as_shown",
    "basis_in",
    "convert",
    "in_usual",
    "understand",
]

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
_GRAINS = frozenset({"gpg", "°e"})
_USUAL_VOLUME = 100  # mL

_TRACES = {"pfas", "organics"}  # nobody prints them in parts per thousand
_MASSES = {spellings.MASS, spellings.FRACTION}

# ISO 7888 (1985) prints 1.116 for natural waters from 20 °C to 25 °C; from memory.
_PER_25_DEGREES = Decimal("1.116")

# The natural activity that the federal radionuclides rule of 2000 assumed; from memory.
URANIUM_ACTIVITY = Decimal("0.67")  # pCi per µg


@dataclass(frozen=True, slots=True)
class Conversion:
    """A converted figure.

    Attributes:
        number: The figure in the unit and basis asked for, not rounded.
        assumptions: What had to be assumed.
    """

    number: Decimal
    assumptions: tuple[Message, ...] = ()


def convert(
    number: Decimal, unit: str, basis: str, to_unit: str, to_basis: str, parameter: Parameter
) -> Conversion:
    """Convert a printed figure into another unit and basis.

    Raises:
        NoConversion: It can't be done.
    """
    if unit == to_unit and basis == to_basis:
        return Conversion(number)
    line = _line(unit, basis, to_unit, to_basis, parameter)
    return Conversion(line.of(number), line.assumptions)


def in_usual(reading: Reading, parameter: Parameter) -> Decimal | None:
    """A reading's figure in the parameter's usual unit and basis; None if it can't be had."""
    return _in(parameter.unit, parameter.basis, reading, parameter)


def as_shown(reading: Reading, parameter: Parameter) -> Decimal | None:
    """The same in the unit and basis in which the parameter is shown."""
    return _in(*parameter.shown_in, reading, parameter)


def _in(unit: str, basis: str, reading: Reading, parameter: Parameter) -> Decimal | None:
    if reading.number is None or (reading.unit == unit and reading.basis == basis):
        return reading.number
    try:
        return _line(reading.unit, reading.basis, unit, basis, parameter).of(reading.number)
    except NoConversion:
        return None


@lru_cache(maxsize=4096)
def _line(unit: str, basis: str, to_unit: str, to_basis: str, parameter: Parameter) -> Line:
    """The way from unit to unit."""
    source, target = _meant(_known(unit, to_unit), parameter), _known(to_unit)
    _refuse_grains_of_an_ion(basis, source, parameter)
    here, there = _one_basis(basis, source), _one_basis(to_basis, target)
    if spellings.DOUBTFUL in {source.quantity, target.quantity}:
        raise NoConversion(Obstacle.PPT)
    if source.quantity == target.quantity == spellings.COUNT:
        return _count_line(source, target)
    if source.quantity in spellings.SOLUTE and target.quantity in spellings.SOLUTE:
        return _solute_line(source, here, target, there, parameter)
    if source.quantity == target.quantity:
        return _plain_line(source.label, target.label).then(_temperature_line(here, there))
    if parameter.key == "uranium":
        return _uranium_line(source, target)
    if source.label == "1" and target.quantity in {"pH", "color", "odor"}:
        return Line(Decimal(1))
    raise NoConversion(
        Obstacle.OTHER_QUANTITY,
        unit=source.label,
        other_unit=target.label,
        quantity=source.quantity,
        other_quantity=target.quantity,
    )


def _known(text: str, to_text: str = "") -> Unit:
    unit = understand(text)
    if unit:
        return unit
    if text.strip():
        raise NoConversion(Obstacle.UNKNOWN_UNIT, unit=text.strip())
    bare = understand("1")
    if bare and to_text in {"1", "pH units"}:
        return bare
    raise NoConversion(Obstacle.NO_UNIT)


def _meant(unit: Unit, parameter: Parameter) -> Unit:
    """The unit a spelling means for a parameter: `ppt` of an organic trace is per trillion."""
    trillionth = understand("ng/kg")
    is_clear = unit.quantity == spellings.DOUBTFUL and parameter.family in _TRACES
    return trillionth if is_clear and trillionth else unit


def _one_basis(basis: str, unit: Unit) -> str:
    if basis and unit.basis and basis != unit.basis:
        raise NoConversion(Obstacle.TWO_BASES, basis=basis, other=unit.basis)
    return basis or unit.basis


def _refuse_grains_of_an_ion(basis: str, unit: Unit, parameter: Parameter) -> None:
    """Grains are of CaCO3 for hardness; old analyses print grains of the ion itself, too."""
    own = bases.own_form(parameter)
    if unit.label in _GRAINS and not basis and own not in {"", "CaCO3"}:
        raise NoConversion(Obstacle.GRAINS_OF_AN_ION, parameter=parameter.name, form=own)


def _plain_line(label: str, to_label: str) -> Line:
    if label == to_label:
        return Line(Decimal(1))
    base = BASE.get(_known(label).quantity)
    if base is None:
        raise _unrelated(label, to_label)
    line = to_base(label, base).then(to_base(to_label, base).back())
    if {label, to_label} == {"NTU", "FNU"}:
        return line.assuming(Message(Assumed.EQUAL_METERS))
    return line


def _unrelated(label: str, to_label: str) -> NoConversion:
    return NoConversion(Obstacle.UNRELATED, unit=label, other=to_label)


def _count_line(source: Unit, target: Unit) -> Line:
    methods = {label.split()[0] for label in (source.label, target.label)} & {"CFU", "MPN"}
    if len(methods) > 1:
        raise NoConversion(Obstacle.COUNT_OR_ESTIMATE)
    volume, to_volume = _VOLUMES.get(source.label), _VOLUMES.get(target.label)
    if to_volume is None or (volume is None and to_volume != _USUAL_VOLUME):
        raise NoConversion(Obstacle.NO_VOLUME)
    if volume is None:
        return Line(Decimal(1)).assuming(Message(Assumed.VOLUME))
    return Line(Decimal(to_volume) / volume)


def _solute_line(
    source: Unit, basis: str, target: Unit, to_basis: str, parameter: Parameter
) -> Line:
    assumed = _basis_taken(source, basis, to_basis, parameter)
    if source.quantity != target.quantity:
        assumed += _dilute(source, target)
    form, to_form = bases.form_of(basis, parameter), bases.form_of(to_basis, parameter)
    line = _to_mass(source, form, parameter).then(Line(bases.factor(form, to_form, parameter)))
    return line.then(_to_mass(target, to_form, parameter).back()).assuming(*assumed)


def _basis_taken(source: Unit, basis: str, to_basis: str, parameter: Parameter) -> list[Message]:
    """What is assumed of a figure without a basis. Moles and equivalents need none."""
    if basis or not to_basis or source.quantity not in _MASSES:
        return []
    choices = bases.choices(parameter)
    if choices:
        raise NoConversion(Obstacle.OPEN_BASIS, parameter=parameter.name, bases=choices)
    form = bases.own_form(parameter)
    if not form or form in bases.ONLY_FORMS:
        return []
    return [Message(Assumed.BASIS, (("form", form),))]


def _dilute(source: Unit, target: Unit) -> list[Message]:
    fractions = [u.label for u in (source, target) if u.quantity == spellings.FRACTION]
    return [Message(Assumed.DILUTE, (("unit", unit),)) for unit in fractions]


def _to_mass(unit: Unit, form: str, parameter: Parameter) -> Line:
    """From a unit to mg/L counted in `form`."""
    base = to_base(unit.label, BASE[unit.quantity])
    if unit.quantity == spellings.AMOUNT:
        return Line(base.scale * bases.mole_mass(form, parameter))
    if unit.quantity == spellings.CHARGE:
        return Line(base.scale * bases.equivalent_mass(form, parameter))
    return base


def _uranium_line(source: Unit, target: Unit) -> Line:
    """Mass into activity or back, at a stated ratio that no single well need have."""
    quantities = (source.quantity, target.quantity)
    through = {
        (spellings.MASS, spellings.ACTIVITY): ("µg/L", URANIUM_ACTIVITY, "pCi/L"),
        (spellings.ACTIVITY, spellings.MASS): ("pCi/L", 1 / URANIUM_ACTIVITY, "µg/L"),
    }.get(quantities)
    if through is None:
        raise _unrelated(source.label, target.label)
    first, ratio, second = through
    line = _plain_line(source.label, first).then(Line(ratio))
    return line.then(_plain_line(second, target.label)).assuming(
        Message(Assumed.URANIUM, (("activity", URANIUM_ACTIVITY),))
    )


def _temperature_line(basis: str, to_basis: str) -> Line:
    """Conductivity at 20 °C and at 25 °C; without a word it is at 25 °C."""
    here, there = (b if b.startswith("at ") else "at 25 °C" for b in (basis, to_basis))
    if here == there:
        return Line(Decimal(1))
    scale = _PER_25_DEGREES if there == "at 25 °C" else 1 / _PER_25_DEGREES
    return Line(scale).assuming(
        Message(Assumed.TEMPERATURE, (("temperature", here[3:]), ("other", there[3:])))
    )
