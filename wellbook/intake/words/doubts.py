"""What is read and yet doubtful: a name nearly like one we know, a figure that can hardly be."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from wellbook.intake.words.log import Trouble
from wellbook.support.translation import _
from wellbook.water.units.conversion import NoConversion, convert
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import folded, normal_name

_ALIKE = 85.0  # of 100: of names of five letters and more one may be wrong; our own choice
_CLEARLY = 4.0  # and no other parameter comes nearer than this
_SHORTEST = 4  # letters; shorter names are too alike (ND, Na)

_BRACKETED = re.compile(r"[(\[][^()\[\]]*[)\]]")
# What households call bacteria, without saying which; what is meant is asked.
_GERMS = frozenset(
    {
        *(
            "germs",
            "germ",
            "bugs",
            "bacteria",
            "bacteria test",
            "bacti",
            "bact",
            "coli",
            "bacterias",
        ),
        *(
            "bacterias",
            "germenes",
            "germes",
            "bacteries",
            "keime",
            "bakterien",
            "keimzahl",
            "microbes",
        ),
        *("coliform bugs", "coli germs", "coli bacteria"),
    }
)

# What households shorten; what is meant is asked.
_SHORT = {
    "n": "nitrate", "no3": "nitrate", "hard": "hardness", "cond": "conductivity",
    "turb": "turbidity", "alk": "alkalinity", "mang": "manganese", "tc": "total_coliform",
}  # fmt: skip

# Above these nobody finds a household's well; common practice, no source. In the usual unit.
_MOST_BY_UNIT = {"µg/L": Decimal(20_000), "ng/L": Decimal(100_000), "mg/L": Decimal(50_000)}
_MOST = {
    "ph": Decimal(14),
    "conductivity": Decimal(100_000),
    "temperature": Decimal(60),
    "turbidity": Decimal(10_000),
    "nitrate": Decimal(1_000),
    "nitrite": Decimal(200),
    "fluoride": Decimal(200),
    "iron": Decimal(5_000),
    "manganese": Decimal(500),
    "copper": Decimal(200),
    "zinc": Decimal(500),
    "aluminum": Decimal(500),
    "barium": Decimal(500),
    "dissolved_oxygen": Decimal(40),
    "hardness": Decimal(20_000),
    "alkalinity": Decimal(20_000),
}


@dataclass(frozen=True, slots=True)
class Near:
    """A parameter whose name is nearly the printed one, and the question about it."""

    parameter: Parameter
    trouble: Trouble


def near_name(printed: str, catalogue: Catalogue) -> Near | None:
    """The one parameter that a misspelt name can mean; None if there is none, or several."""
    from rapidfuzz import fuzz, process

    name = normal_name(folded(printed))
    short = _SHORT.get(normal_name(folded(_BRACKETED.sub("", printed))).strip(" ."))
    if short:
        return _near(printed, catalogue.parameters[short])
    if means_germs(printed):
        return _near(printed, catalogue.parameters["total_coliform"])
    if len(name) < _SHORTEST or not name.replace(" ", "").isalpha():
        return None
    known = _names(tuple(catalogue.parameters.values()))
    found = process.extract(name, known.keys(), scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=8)
    if not found:
        return None
    key, best = known[found[0][0]], found[0][1]
    others = [score for match, score, _unused in found if known[match] != key]
    if others and best - others[0] < _CLEARLY:
        return None
    return _near(printed, catalogue.parameters[key])


def germ_names() -> Iterable[str]:
    """Every such word, in lower case."""
    return _GERMS


def means_germs(printed: str) -> bool:
    """Whether a name means bacteria, without saying which."""
    return normal_name(folded(_BRACKETED.sub("", printed)).strip(" ?")) in _GERMS


def _near(printed: str, parameter: Parameter) -> Near:
    text = _("“{printed}” is printed: {name}?").format(printed=printed, name=parameter.name)
    return Near(parameter, Trouble("near_name", text))


@lru_cache(maxsize=2)
def _names(parameters: tuple[Parameter, ...]) -> dict[str, str]:
    return {
        normal_name(folded(name)): parameter.key
        for parameter in parameters
        for name in (parameter.name, *parameter.aliases)
        if len(name) >= _SHORTEST
    }


def largest(parameter: Parameter | None, unit: str, basis: str) -> Decimal | None:
    """The figure, in a printed unit, above which a reading can hardly be; None if not known."""
    if parameter is None:
        return None
    most = _MOST.get(parameter.key) or _MOST_BY_UNIT.get(parameter.unit)
    if most is None:
        return None
    try:
        number = convert(
            most, parameter.unit, parameter.basis, unit, basis or parameter.basis, parameter
        ).number
    except NoConversion:
        return None
    return number


def beyond(name: str, text: str, unit: str) -> Trouble:
    """That a figure can hardly be one of a household's well."""
    return Trouble(
        "beyond",
        _(
            "{name}: {figure} is more than water of a well can hold: look at the figure, its comma "
            "and its unit on the report."
        ).format(name=name, figure=f"{text} {unit}".strip()),
    )
