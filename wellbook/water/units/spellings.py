"""How labs spell units. A lab's text is only ever looked up here, never handed to a parser."""

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from wellbook.water.units.basis import AS, understand_basis
from wellbook.water.values.signs import plain

MASS = "mass concentration"
FRACTION = "mass fraction"
AMOUNT = "amount concentration"
CHARGE = "equivalent concentration"
ACTIVITY = "radioactivity"
CONDUCTIVITY = "conductivity"
TURBIDITY = "turbidity"
COUNT = "bacteria count"
PRESENCE = "presence"
DOUBTFUL = "doubtful"

# What a dissolved substance can be given in, and so can have a basis.
SOLUTE = frozenset({MASS, FRACTION, AMOUNT, CHARGE})


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a lab's spelling stands for.

    Attributes:
        label: Our spelling, e.g. `mg/L`, `µg/L`, `per 100 mL`, `pH units`, `µS/cm`.
        quantity: What kind of quantity it measures, e.g. `mass concentration`: a key, and a word
            to be said.
        basis: The basis that the spelling carries (`gpg` is as CaCO3), or empty.
    """

    label: str
    quantity: str
    basis: str = ""


# Label, quantity, basis it carries, and spellings: without spaces, in lower case, µ as u,
# `per` as /, litre as l. The label itself is always understood.
_TABLE = (
    ("g/L", MASS, "", "kg/m3 mg/ml"),
    ("mg/L", MASS, "", "g/m3 ug/ml mgl mg/dm3 mgm/l mgs/l milligrams/l milligram/l"),
    ("µg/L", MASS, "", "mcg/l mg/m3 ng/ml ugl ug/dm3 micrograms/l microgram/l"),
    ("ng/L", MASS, "", "ug/m3 ngl nanograms/l nanogram/l"),
    ("pg/L", MASS, "", "picograms/l"),
    ("ppm", FRACTION, "", "mg/kg ug/g parts/million partspermillion"),
    ("ppb", FRACTION, "", "ug/kg ng/g parts/billion partsperbillion"),
    ("ng/kg", FRACTION, "", "parts/trillion partspertrillion pptr"),
    ("ppt", DOUBTFUL, "", ""),
    ("mol/L", AMOUNT, "", "mole/l moles/l molar"),
    ("mmol/L", AMOUNT, "", "mmole/l mmoles/l millimolar"),
    ("µmol/L", AMOUNT, "", "umole/l umoles/l micromolar"),
    ("nmol/L", AMOUNT, "", ""),
    ("eq/L", CHARGE, "", ""),
    ("meq/L", CHARGE, "", "epm me/l mval/l meql milliequivalents/l"),
    ("µeq/L", CHARGE, "", ""),
    (
        "gpg",
        MASS,
        "as CaCO3",
        (
            "gr/gal gr./gal grain/gal grains/gal grain/gallon grains/gallon grains grain "
            "grains/usgal grains/usgallon gr/usgal"
        ),
    ),
    (
        "°e",
        MASS,
        "as CaCO3",
        (
            "°clark degclark clark °eh grains/impgal gr/impgal clarkdegrees degreesclark"
            " englishdegrees degreesenglish degrésanglais gradosingleses"
        ),
    ),
    (
        "°dH",
        MASS,
        "as CaCO3",
        (
            "dh °d degdh dgh °gh °dgh graddh graddeutscherhärte graddeutschehärte germandegrees"
            " degreesgerman degrésallemands gradosalemanes"
        ),
    ),
    (
        "°fH",
        MASS,
        "as CaCO3",
        (
            "fh degfh °th frenchdegrees degreesfrench degrésfrançais degréfrançais"
            " gradosfranceses gradfranzösischerhärte"
        ),
    ),
    ("tons/acre-ft", MASS, "", "tons/acft tons/ac-ft tons/acre-foot tons/acreft tons/acrefoot"),
    ("pCi/L", ACTIVITY, "", "picocuries/l picocurie/l pcil"),
    ("nCi/L", ACTIVITY, "", ""),
    ("Bq/L", ACTIVITY, "", "becquerel/l becquerels/l"),
    ("mBq/L", ACTIVITY, "", ""),
    ("Bq/m³", ACTIVITY, "", "bq/m3"),
    (
        "µS/cm",
        CONDUCTIVITY,
        "",
        "umho/cm umhos/cm umho umhos us microsiemens/cm micromho/cm micromhos/cm umhos/cm2",
    ),
    ("mS/cm", CONDUCTIVITY, "", "mmho/cm mmhos/cm millisiemens/cm"),
    ("mS/m", CONDUCTIVITY, "", "millisiemens/m"),
    ("dS/m", CONDUCTIVITY, "", ""),
    ("S/m", CONDUCTIVITY, "", ""),
    ("µS/m", CONDUCTIVITY, "", ""),
    ("S/cm", CONDUCTIVITY, "", "mho/cm mhos/cm"),
    (
        "NTU",
        TURBIDITY,
        "",
        "ntus unt utn unf n.t.u. u.t.n. u.n.t. nephelometricturbidityunits ntru",
    ),
    ("FNU", TURBIDITY, "", "ftu fnmu nfu unf u.n.f. n.f.u. te/f fte"),
    ("JTU", "turbidity by candle", "", "jcu"),
    (
        "per 100 mL",
        COUNT,
        "",
        (
            "/100ml #/100ml #col/100ml col/100ml col./100ml colonies/100ml colony/100ml org/100ml "
            "organisms/100ml count/100ml counts/100ml "
            "number/100ml no./100ml no/100ml bacteria/100ml "
            "n/100ml n/(100ml) in100ml coliform/100ml coliforms/100ml "
            "1/100ml colonias/100ml anzahl/100ml numero/100ml número/100ml nombre/100ml "
            "keime/100ml germes/100ml"
        ),
    ),
    (
        "CFU per 100 mL",
        COUNT,
        "",
        "cfus/100ml cfu/100mls cfu/0.1l colonyformingunits/100ml kbe/100ml ufc/100ml",
    ),
    ("MPN per 100 mL", COUNT, "", "mpn/100mls mpnindex/100ml mpn/0.1l nmp/100ml npp/100ml"),
    (
        "per mL",
        COUNT,
        "",
        (
            "/ml 1/ml n/ml nombre/ml numero/ml número/ml anzahl/ml colonias/ml germes/ml keime/ml "
            "#/ml col/ml colonies/ml count/ml platecnt #/cm3"
        ),
    ),
    ("CFU per mL", COUNT, "", "cfu/1ml cfus/ml kbe/ml kbe/1ml ufc/ml ufc/1ml"),
    ("MPN per mL", COUNT, "", "mpn/1ml"),
    ("per 10 mL", COUNT, "", "#/10ml cfu/10ml mpn/10ml"),
    ("per 250 mL", COUNT, "", "#/250ml cfu/250ml mpn/250ml"),
    ("per 500 mL", COUNT, "", "#/500ml cfu/500ml"),
    ("per L", COUNT, "", "#/l cfu/l mpn/l"),
    ("CFU", COUNT, "", "cfus colonies col"),
    ("MPN", COUNT, "", "mpnindex"),
    (
        "present or absent",
        PRESENCE,
        "",
        (
            "p/a a/p p-a p/a100ml p/a/100ml presence/absence presence-absence present/absent "
            "absent/present presence/absence/100ml presence/absence100ml present/absent/100ml "
            "present/absent100ml pos/neg positive/negative +/-"
        ),
    ),
    (
        "pH units",
        "pH",
        "",
        (
            "su s.u. s.u ph phunit stdunits "
            "std.units stdunit standardunits standardunit std standard "
            "ph-units units(ph) none(ph) phs.u. phsu unitsph "
            "unidaddeph unidadph unidadesdeph unidadesph uph "
            "unitéph unitédeph uniteph unitedeph unitésph unitésdeph "
            "unitesph unitesdeph ph-einheiten pheinheiten einheitenph unités.ph "
            "ud.ph uds.ph u.ph ud.deph uds.deph u.deph udph udsph uddeph udsdeph unid.ph unid.deph"
        ),
    ),
    ("°C", "temperature", "", "c degc deg.c degreesc celsius degreescelsius cel"),
    ("°F", "temperature", "", "f degf deg.f degreesf fahrenheit degreesfahrenheit"),
    ("K", "temperature", "", "degk kelvin"),
    (
        "color units",
        "color",
        "",
        (
            "pcu cu c.u. tcu acu ptco pt-co pt/co ptcounits pt-counits pt-cocolorunits hu "
            "color colorunit colourunits apha hazen "
            "hazenunits apparentcolorunits truecolorunits mg/lpt-co mg/lpt "
            "mg/lptco mg/lpt/co mgpt/l mgpt-co/l mgptco/l upc uc ucv u.pt-co upt-co upt/co uptco "
            "unidadespt-co unidadesptco unidadesdecolor unitéspt-co unitespt-co unitésptco "
            "unitésdecouleur unitesdecouleur °hazen hazen-einheiten"
        ),
    ),
    ("TON", "odor", "", "t.o.n. t.o.n thresholdodornumber odorunits"),
    ("MFL", "fibers", "", "millionfibers/l"),
    ("mrem/yr", "dose", "", "mrem/year millirem/year"),
    ("mSv/yr", "dose", "", "msv/year msv/a msv/año msv/ano msv/an msv/jahr"),
    ("%", "percent", "", "percent pct"),
    (
        "1",
        "ratio",
        "",
        (
            "none unitless dimensionless index ratio units unit n/a - "
            "unidad unidades ud. uds. unité unités unite unites einheit einheiten"
        ),
    ),
    ("mV", "potential", "", "millivolt millivolts"),
)

_WORDS = (
    (re.compile(r"\blit(?:er|re)s?\b"), "l"),
    (re.compile(r"\bmillilit(?:er|re)s?\b|\bmls\b"), "ml"),
    (re.compile(r"\b(l|ml|cm|m)\s?\^?-1\b"), r"/\1"),
    (re.compile(r"\.?\s*/"), "/"),
    (re.compile(r"\b(?:per|pro|por|par|pour)\b"), "/"),
    (re.compile(r"(?<=\w)\s+(?:in|en|je|auf)\s+(?=100\s?ml)"), "/"),
    (re.compile(r"[\s^]+"), ""),
)
_LONGEST = 100  # characters of a unit; what is longer is none
_AT = re.compile(
    r"\s*[(@,]*\s*(?:at|@|ref\.?|a|à|bei|zu)?\s*(20|25)\s*(?:[°º]|deg\.?|grad)?\s*c\.?\)?$"
)
# Where a basis may stand: after the unit, after a dash, or between the mass and the litre.
_WITH_BASIS = (
    re.compile(rf"^(?P<unit>.+?)[\s(,-]+{AS}[\s-]+(?P<basis>[\w -]+?[+-]?)\)?$"),
    re.compile(r"^(?P<unit>.+?)[\s(-]+(?P<basis>[a-z0-9]+(?:-[a-z0-9])?)[+-]?\)?$"),
    re.compile(r"^(?P<unit>[mun]?g)[\s-]*(?P<basis>[a-z0-9]+(?:-[a-z0-9])?)(?P<rest>\s*/\s*l)$"),
    re.compile(r"^(?P<unit>.+/l)(?P<basis>caco3|no3-n|no2-n|nh3-n)$"),
)


def _squeeze(text: str) -> str:
    for pattern, instead in _WORDS:
        text = pattern.sub(instead, text)
    return text


def _plain_label(label: str) -> str:
    return _squeeze(plain(label).casefold())


_UNITS = {
    spelling: Unit(label, quantity, basis)
    for label, quantity, basis, spellings in _TABLE
    for spelling in (_plain_label(label), *spellings.split())
}


@lru_cache(maxsize=2048)
def understand(text: str) -> Unit | None:
    """The unit that a printed text means, with the basis it carries; None if we don't know it."""
    lowered = _lowered(text)
    # The French degree of hardness is written with a small letter, Fahrenheit with a capital one.
    is_french = plain(text).replace(" ", "") in {"°f", "ºf"}
    unit = _UNITS["°fh"] if is_french else _look_up(lowered)
    if unit:
        return unit
    for pattern in _WITH_BASIS:
        match = pattern.match(lowered)
        basis = understand_basis(match["basis"]) if match else ""
        if match and basis:
            unit = _look_up(match["unit"] + match.groupdict().get("rest", ""))
            if unit and unit.quantity in SOLUTE:
                return replace(unit, basis=basis)
    return None


@lru_cache(maxsize=2048)
def basis_in(text: str) -> str:
    """The basis that a printed unit spells out: `mg/L as N` is `as N`, `gpg` is empty."""
    unit = understand(text)
    return unit.basis if unit and _squeeze(_lowered(text)) not in _UNITS else ""


def carries_basis(text: str) -> bool:
    """Whether a printed unit leaves no doubt of the basis: it spells one out, or counts ions."""
    unit = understand(text)
    return unit is not None and (bool(unit.basis) or unit.label in {"mmol/L", "meq/L"})


def _lowered(text: str) -> str:
    # WQX puts stars and carets behind some of its units.
    return plain(text).casefold().rstrip("*^ ")


def _look_up(lowered: str) -> Unit | None:
    unit = _UNITS.get(_squeeze(lowered))
    if unit or len(lowered) > _LONGEST:
        return unit
    at = _AT.search(lowered)
    unit = _UNITS.get(_squeeze(lowered[: at.start()])) if at else None
    if at and unit and unit.quantity == CONDUCTIVITY:
        return replace(unit, basis=f"at {at[1]} °C")
    return None
