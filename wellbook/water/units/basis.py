"""Basis: the form in which a figure is counted (nitrate as N or as NO3, hardness as CaCO3).

Molar masses are summed from the abridged standard atomic weights of IUPAC (2021 table).
"""

import re
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache

from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import folded, plain

# IUPAC abridged standard atomic weights, 2021; g/mol.
_ATOMS = {
    symbol: Decimal(mass)
    for symbol, mass in {
        "H": "1.008",
        "B": "10.81",
        "C": "12.011",
        "N": "14.007",
        "O": "15.999",
        "F": "18.998",
        "Na": "22.990",
        "Mg": "24.305",
        "Al": "26.982",
        "Si": "28.085",
        "P": "30.974",
        "S": "32.06",
        "Cl": "35.45",
        "K": "39.098",
        "Ca": "40.078",
        "Cr": "51.996",
        "Mn": "54.938",
        "Fe": "55.845",
        "Cu": "63.546",
        "Zn": "65.38",
        "As": "74.922",
        "Se": "78.971",
        "Br": "79.904",
        "Sr": "87.62",
        "Mo": "95.95",
        "Ba": "137.33",
        "Hg": "200.59",
        "Pb": "207.2",
        "U": "238.03",
    }.items()
}

# The atom that stays the same when a figure is counted in another form.
_FAMILIES = {
    "N": ("N", "NO3", "NO2", "NH3", "NH4"),
    "P": ("P", "PO4", "P2O5"),
    "S": ("S", "SO4", "SO3", "SO2", "H2S"),
    "Si": ("Si", "SiO2"),
    "U": ("U", "U3O8"),
    "C": ("HCO3", "CO3", "CO2", "C"),
    "Ca": ("Ca", "CaO"),
    "Mg": ("Mg", "MgO"),
    "Cr": ("Cr", "CrO4", "Cr2O7"),
    "As": ("As", "AsO4", "As2O3", "As2O5"),
    "B": ("B", "BO3", "B2O3", "H3BO3"),
    "Mo": ("Mo", "MoO4", "MoO3"),
}
_FAMILY_OF = {form: atom for atom, forms in _FAMILIES.items() for form in forms}

# Charge number of a form in water, for counting in equivalents.
_CHARGES = {
    "CaCO3": 2,
    "CaO": 2,
    "Ca": 2,
    "Mg": 2,
    "Sr": 2,
    "Ba": 2,
    "Fe": 2,
    "Mn": 2,
    "Zn": 2,
    "Cu": 2,
    "Pb": 2,
    "Na": 1,
    "K": 1,
    "NH4": 1,
    "HCO3": 1,
    "CO3": 2,
    "OH": 1,
    "Cl": 1,
    "Br": 1,
    "F": 1,
    "NO3": 1,
    "NO2": 1,
    "SO4": 2,
    "PO4": 3,
}

_KNOWN_FORMS = {
    form.casefold(): form
    for form in (*_ATOMS, *_FAMILY_OF, *_CHARGES, "Cl2", "CN", "O2", "CH4", "H2SO4", "NaCl")
}
_WORDS = {
    "nitrogen": "N",
    "nitrate": "NO3",
    "nitrite": "NO2",
    "ammonia": "NH3",
    "ammonium": "NH4",
    "no3-n": "N",
    "no2-n": "N",
    "nh3-n": "N",
    "nh4-n": "N",
    "nox-n": "N",
    "n-no3": "N",
    "n-no2": "N",
    "phosphorus": "P",
    "phosphate": "PO4",
    "po4-p": "P",
    "p-po4": "P",
    "sulfur": "S",
    "sulphur": "S",
    "so4-s": "S",
    "sulfate": "SO4",
    "sulphate": "SO4",
    "silica": "SiO2",
    "silicon": "Si",
    "calcium carbonate": "CaCO3",
    "caco": "CaCO3",
    "bicarbonate": "HCO3",
    "carbonate": "CO3",
    "chlorine": "Cl2",
    "u308": "U3O8",
    "nitrogeno": "N",
    "azote": "N",
    "stickstoff": "N",
    "nitrato": "NO3",
    "nitratos": "NO3",
    "nitrates": "NO3",
    "nitrat": "NO3",
    "nitrito": "NO2",
    "nitritos": "NO2",
    "nitrites": "NO2",
    "nitrit": "NO2",
    "amonio": "NH4",
    "fosforo": "P",
    "phosphore": "P",
    "phosphor": "P",
    "fosfato": "PO4",
    "phosphates": "PO4",
    "phosphat": "PO4",
    "azufre": "S",
    "soufre": "S",
    "schwefel": "S",
    "sulfato": "SO4",
    "sulfates": "SO4",
    "sulfat": "SO4",
    "silice": "SiO2",
    "carbonato de calcio": "CaCO3",
    "carbonato calcico": "CaCO3",
    "carbonate de calcium": "CaCO3",
    "calciumcarbonat": "CaCO3",
}

# The form that a parameter without a usual basis is in.
_OWN_FORMS = {
    "sulfate": "SO4",
    "calcium": "Ca",
    "magnesium": "Mg",
    "sodium": "Na",
    "potassium": "K",
    "strontium": "Sr",
    "barium": "Ba",
    "iron": "Fe",
    "iron_ferrous": "Fe",
    "manganese": "Mn",
    "zinc": "Zn",
    "copper": "Cu",
    "lead": "Pb",
    "chloride": "Cl",
    "bromide": "Br",
    "fluoride": "F",
    "uranium": "U",
    "chromium": "Cr",
    "chromium_vi": "Cr",
    "arsenic": "As",
    "boron": "B",
    "molybdenum": "Mo",
}

# What is counted in these forms is never counted in another one.
ONLY_FORMS = frozenset({"Cl2", "C", "N"})

# Where a sheet without a basis may mean one thing or another.
_CHOICES = {
    "nitrate": ("as N", "as NO3"),
    "nitrite": ("as N", "as NO2"),
    "nitrate_nitrite": ("as N", "as NO3"),
    "ammonia": ("as N", "as NH3", "as NH4"),
    "phosphate": ("as P", "as PO4"),
}

AS = (
    r"(?:(?:expressed |reported |calculated )?as|(?:expresad[oa]s? |calculad[oa]s? )?como"
    r"|(?:exprim[ée]e?s? |calcul[ée]e?s? )?en|(?:berechnet |angegeben |ausgedr[üu]ckt )?als)"
)
"""Words before a basis, in the languages of our labs; a pattern."""
_AS = re.compile(rf"^{AS}\s+", re.IGNORECASE)


def _spelled(form: str) -> str:
    return re.sub(r"\d", lambda digit: f"[{digit[0]}{'₀₁₂₃₄₅₆₇₈₉'[int(digit[0])]}]", form)


_ANY_FORM = "|".join(map(_spelled, sorted({*_KNOWN_FORMS, *_WORDS}, key=len, reverse=True)))
SPELLED_OUT = rf"{AS}[ -]+(?i:{_ANY_FORM})(?![\w-])"
"""A basis in words, such as `as N` or `en NO3`; a pattern."""

# Arsenic's own forms begin with the word, so a form is looked for without taking it off first.
_FORMS = (
    re.compile(r"^\(?\s*([a-z0-9 -]+?)[+-]?\s*\)?$"),
    re.compile(rf"^\(?\s*{AS}?[ -]*([a-z0-9 -]+?)[+-]?\s*\)?$"),
)
_AS_IN_NAME = re.compile(
    r"\bas[ -]+([a-z0-9]+(?:-[a-z0-9]+)?)\b|[(\[]([a-z0-9]+(?:-[a-z0-9]+)?)[)\]]"
)
_FORMULA = re.compile(r"[(\[]\s*([a-z]{1,2}\d?[a-z]?\d?)[-+]?\s*[)\]]")
_DASH_N = re.compile(r"(?:no3|no2|nh3|nh4|nitrate|nitrite|ammonia|ammonium)\)?\s*-\s*n\b")


class Obstacle(StrEnum):
    """Why two units or bases do not convert."""

    UNKNOWN_FORM = "unknown form"
    NO_CHARGE = "no charge"
    NO_MOLAR_MASS = "no molar mass"
    OTHER_FORM = "other form"
    PPT = "ppt"
    OTHER_QUANTITY = "other quantity"
    UNKNOWN_UNIT = "unknown unit"
    NO_UNIT = "no unit"
    TWO_BASES = "two bases"
    UNRELATED = "unrelated units"
    COUNT_OR_ESTIMATE = "count or estimate"
    NO_VOLUME = "no volume"
    OPEN_BASIS = "open basis"
    GRAINS_OF_AN_ION = "grains of an ion"


class NoConversion(ValueError):
    """Two units or bases that do not convert.

    Attributes:
        obstacle: Why.
        facts: The names and units in question.
    """

    def __init__(self, obstacle: Obstacle, **facts: object) -> None:
        super().__init__(obstacle, facts)
        self.obstacle, self.facts = obstacle, facts


def understand_basis(text: str) -> str:
    """Our spelling of a printed basis, e.g. `as CaCO3` for `(CaCO3)`; empty if not understood."""
    lowered = folded(plain(text))
    for pattern in _FORMS:
        match = pattern.match(lowered)
        form = _form(match.group(1)) if match else ""
        if form:
            return f"as {form}"
    return ""


@lru_cache(maxsize=1024)  # a book asks for the same names again and again
def printed_in(name: str) -> str:
    """The basis that a printed parameter name carries: `Nitrate-N` is `as N`; else empty."""
    text = plain(name).casefold()
    for match in _AS_IN_NAME.finditer(text):
        form = _form(match.group(1) or match.group(2))
        # A bracket after a name may only repeat its formula: Nitrate (NO3) says nothing sure.
        if form and (match.group(1) or form in {"N", "P", "CaCO3"}):
            return f"as {form}"
    if _DASH_N.search(text) or re.search(r"\bnitrogen\b", text):
        return "as N"
    return "as P" if re.search(r"\bphosphorus\b", text) else ""


def formula_in(name: str) -> str:
    """The form that a formula in brackets behind a name may mean, `as NO3`; empty without one."""
    found = (_form(match.group(1)) for match in _FORMULA.finditer(plain(name).casefold()))
    form = next(filter(None, found), "")
    return f"as {form}" if form else ""


def choices(parameter: Parameter) -> tuple[str, ...]:
    """The bases that a lab may mean when it prints none; empty where there is no doubt."""
    return _CHOICES.get(parameter.key, ())


def own_form(parameter: Parameter) -> str:
    """The form a parameter is counted in when nothing is said, e.g. `SO4`; empty if none."""
    usual = _form(parameter.basis.removeprefix("as ").casefold())
    return usual or _OWN_FORMS.get(parameter.key, "")


def form_of(basis: str, parameter: Parameter) -> str:
    """The chemical form that a basis names; the parameter's own form if there is no basis.

    Raises:
        NoConversion: The basis is a form that we don't know.
    """
    form, own = _form(basis.removeprefix("as ").casefold()), own_form(parameter)
    if basis and not form and not is_itself(basis, parameter):
        raise NoConversion(Obstacle.UNKNOWN_FORM, parameter=parameter.name, form=basis)
    return form or own


def is_itself(basis: str, parameter: Parameter) -> bool:
    """Whether a basis only names the parameter again, as `as Cr` does for chromium."""
    said = _AS.sub("", basis).strip().casefold()
    names = {parameter.key, parameter.name.casefold(), *map(str.casefold, parameter.aliases)}
    return said in names or said.startswith(("at ", "dissolved", "total"))


@lru_cache(maxsize=256)
def molar_mass(form: str) -> Decimal:
    """Molar mass of a form such as `CaCO3`, in g/mol.

    Raises:
        KeyError: An atom is not in the table.
    """
    parts = re.findall(r"([A-Z][a-z]?)(\d*)", form)
    return sum((_ATOMS[atom] * int(count or 1) for atom, count in parts), Decimal(0))


def equivalent_mass(form: str, parameter: Parameter) -> Decimal:
    """Mass that carries one mole of charge, in mg/meq.

    Raises:
        NoConversion: The form carries no charge that we know.
    """
    charge = _CHARGES.get(form) or abs(parameter.charge)
    if not charge:
        raise NoConversion(Obstacle.NO_CHARGE, parameter=parameter.name)
    return mole_mass(form, parameter) / charge


def mole_mass(form: str, parameter: Parameter) -> Decimal:
    """Molar mass of a parameter in a form, in g/mol.

    Raises:
        NoConversion: There is no form, and the parameter has no molar mass on file.
    """
    mass = molar_mass(form) if form else parameter.molar_mass
    if not mass:
        raise NoConversion(Obstacle.NO_MOLAR_MASS, parameter=parameter.name)
    return mass


def factor(form: str, to_form: str, parameter: Parameter) -> Decimal:
    """By how much a mass counted in one form is multiplied to count it in another.

    Raises:
        NoConversion: The forms have nothing in common.
    """
    if form == to_form or not (form and to_form):
        return Decimal(1)
    atom = _FAMILY_OF.get(form)
    if atom and atom == _FAMILY_OF.get(to_form) and {form, to_form} != {"HCO3", "CO3"}:
        return _mass_per(atom, to_form) / _mass_per(atom, form)
    if form in _CHARGES and to_form in _CHARGES and _by_equivalents(form, to_form, parameter):
        return equivalent_mass(to_form, parameter) / equivalent_mass(form, parameter)
    raise NoConversion(Obstacle.OTHER_FORM, parameter=parameter.name, form=form, other=to_form)


def _by_equivalents(form: str, to_form: str, parameter: Parameter) -> bool:
    carbonates = {"CaCO3", "CaO", "HCO3", "CO3"}
    both = {form, to_form}
    # A cation or an anion becomes CaCO3 only for a parameter that is that ion itself.
    return both <= carbonates or bool(both & {"CaCO3", "CaO"} and own_form(parameter) in both)


def _mass_per(atom: str, form: str) -> Decimal:
    count = re.search(rf"{atom}(?![a-z])(\d*)", form)
    atoms = int((count.group(1) if count else "") or 1)
    return molar_mass(form) / atoms


def _form(text: str) -> str:
    text = text.strip()
    return _WORDS.get(text) or _KNOWN_FORMS.get(text, "")
