"""A printed name taken apart: what was measured, its basis, fraction, draw and unit."""

import re
from dataclasses import dataclass

from wellbook.intake.words import lab_names
from wellbook.water.units import basis as bases
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Fraction
from wellbook.water.values.results import Draw
from wellbook.water.values.signs import folded

TOTAL, DISSOLVED = Fraction.TOTAL, Fraction.DISSOLVED

FRACTIONS = {
    "total": TOTAL,
    "tot": TOTAL,
    "t": TOTAL,
    "totals": TOTAL,
    "total recoverable": TOTAL,
    "recoverable": TOTAL,
    "unfiltered": TOTAL,
    "unfiltered field": TOTAL,
    "unfiltered lab": TOTAL,
    "whole water": TOTAL,
    "n": TOTAL,  # in a column headed `filtered`
    "no": TOTAL,
    "dissolved": DISSOLVED,
    "diss": DISSOLVED,
    "dis": DISSOLVED,
    "d": DISSOLVED,
    "filtered": DISSOLVED,
    "filtered field": DISSOLVED,
    "filtered lab": DISSOLVED,
    "filtered field and or lab": DISSOLVED,
    "filterable": DISSOLVED,
    "soluble": DISSOLVED,
    "y": DISSOLVED,
    "yes": DISSOLVED,
    "gelost": DISSOLVED,
    "geloest": DISSOLVED,
    "disuelto": DISSOLVED,
    "dissous": DISSOLVED,
    "gesamt": TOTAL,
}
_QUESTION = re.compile(r"^any\s+(?=\S)|\s*\?+$", re.IGNORECASE)  # as in `Any E. coli?`
_LONGEST = 200  # characters of a name; what is longer is no name
# What may part a word from a name; sought from where it begins, so that a long run takes no longer.
_BREAK = r"(?<![\s,;(\[-])[\s,;(\[-]"
_FRACTION_WORD = (
    r"(total recoverable|total|tot\.?|dissolved|diss\.?|unfiltered|filtered|soluble"
    r"|gelöst|geloest|gesamt|disuelto|dissous)"
)
_FRACTION_END = re.compile(rf"{_BREAK}+{_FRACTION_WORD}[)\]]?\s*$", re.IGNORECASE)
_FRACTION_START = re.compile(rf"^{_FRACTION_WORD}\s+", re.IGNORECASE)
_FIRST = re.compile(
    rf"{_BREAK}*\b(first|1st|initial)[\s-]*(draw|flush|liter|litre)n?\b[)\]]?", re.IGNORECASE
)
_FLUSHED = re.compile(
    rf"{_BREAK}*\b((second|2nd)[\s-]*draw|flush(ed)?|purged|running)\b( sample)?[)\]]?",
    re.IGNORECASE,
)
_BASIS = re.compile(
    r"[\s,;-]*[(\[]?\b(expressed as|reported as|as)[\s-]+"
    r"(?P<form>[A-Za-z]+\d*[A-Za-z]*\d*)\b[)\]]?",
    re.IGNORECASE,
)
# `como N`, `en N`, `als N`: before the symbol of an element.
_ABROAD = re.compile(
    r"\b(?:expresado como|como|exprim[ée]e? en|en|berechnet als|als)\s+(?=[A-Z][A-Za-z]?)"
)
# A valence in brackets, as of `Chromium (III)`, names a part of what the word alone names.
_BRACKETED = re.compile(
    r"\s*[(\[](?!(?:VII|VI|IV|(?<!anadium[ ][(])(?<!anadium[(])V|I{2,3}|\d[+]|[+-]\d)[)\]])"
    r"([^()\[\]]*)[)\]]"
)
# Words beside a name that say where, how or at what warmth it was measured.
_DEGREE = r"[°º]|deg(?:rees|\.)?|Grad"
_AROUND = re.compile(
    r"^(?:lab(?:oratory)?|field)[\s:-]+|(?<![\s,])[\s,]+(?:by|per|via)\s+\S+(?:\s\S+)?$"
    r"|(?<![\s,-])[\s,-]+ICP(?:[-/](?:MS|OES|AES))?$"
    rf"|(?:(?<![\s,(])[\s,(]+\d{{1,3}} ?(?:days?|d|hours?|hrs?|h|Tage?|jours?|d[ií]as?))?"
    rf"(?:\s*[,(]?\s*(?:@|at|bei|à|a)\s*\d{{2,3}}\s?(?:{_DEGREE})?\s?C?"
    rf"|(?<![\s,(])[\s,(]+\d\d\s?(?:{_DEGREE})\s?C?"
    r"|(?<![\s,(])[\s,(]+\d\dC)(?:\s?[,/–-]?\s?\d\d\s?h)?\)?$"
    r"|(?<![\s,(])[\s,(]+(?:in situ|on[ -]?site|vor ort|sur site|terrain|feld|field"
    r"|lab(?:or\w*)?|labo"
    r"|(?:de |en |au )?(?:campo|labo\w*)|(?:test )?strips?|teststreifen|bandelettes?|tiras?)\)?$"
    r"|(?<![\s,(-])[\s,(-]+\d\d\s?[°º]?\s?C(?:[\s/,]+\d{2,3}\s?h(?:ours|rs)?)?\)?$"
    r"|(?<![\s,-])[\s,-]+(?:turbidimetric|colou?rimetric|gravimetric|titrimetric|nephelometric)$"
    r"|,\s*(?:(?:calculated|computed)(?: (?:from|by) [a-z ]{3,30})?|field (?:test|kit|test kit)"
    r"|field|on site)$"
    # A norm by which it was measured.
    r"|(?<!\s)\s+(?:(?:US)?EPA|SM|ASTM|APHA|(?:DIN )?(?:EN )?ISO) ?[A-Z]?\d{2,5}[\w.:-]*"
    r"(?: [A-Z]|[ -][A-Z]\w{1,3} [A-Z])?$"
    r"|(?<![\s,])[\s,]+(?:units|count|tests?|analysis|level|reading|result)$",
    re.IGNORECASE,
)
_MARKS = " *†‡§¹²³⁴⁵"  # of footnotes
# Symbols of elements (Cu, F, K, C) are also short for units: only what can't be one is a unit here.
_UNIT = (
    r"[^\s()\[\],]*/[^()\[\],]+|pp[mbt](?:\s+as\s+\w+)?|[nf]tu|fnu|nfu|un[tf]|utn|gpg"
    r"|grains[^()\[\]]*|°\s?(?:[CF]|d?H|f)"
    r"|deg[. ]*[CF]|s\.?u\.?|ph units|standard units|colou?r units|pcu|mfl|%|(?:mpn|cfu)[^()\[\]]*"
)
_UNIT_BRACKETED = re.compile(rf"\s*[(\[]({_UNIT})[)\]]", re.IGNORECASE)
_UNIT_END = re.compile(rf"(?<!\d)[\s,]+(?:in\s+)?({_UNIT})\s*$", re.IGNORECASE)
# One of several words, as in `NO3-N, mg N/L` and `E. coli (per 100 mL)`.
_UNIT_OF_WORDS = re.compile(
    r"\s*(?:,\s|[(\[])((?:per |pro |[^()\[\],/]+/)[^()\[\],]+)[)\]]?\s*$", re.IGNORECASE
)


# Where along a treatment the water was drawn: `Iron before softener`, `Iron (raw)`.
_STAGE = re.compile(
    rf"{_BREAK}+(?P<stage>(?:before|after|pre|post|raw|untreated|treated|soft(?:ened)?|unsoftened"
    r"|crud[ao]|bland[ao]|ablandad[ao]|tratad[ao]|brute?|douce?|adoucie?|trait[ée]e?|roh|weich"
    r"|in(?:let)?|out(?:let)?|vor|nach|avant|apr[eè]s|antes|despu[eé]s)"
    r"(?:[\s-]+(?:(?:the|de|le|la|el|dem|der) )?(?:filter|softener|treatment|system|uv|ro|filtre"
    r"|filtro|enth[äa]rter|descalcificador|adoucisseur))?)[)\]]?\s*(?=[(\[,]|$)",
    re.IGNORECASE,
)


# A key of a program, such as `nitrate_mg_l`, `Fe_mg/L` or `ecoli_p_a`.
_KEY = re.compile(
    r"^(?P<name>[^\s_]+(?:_[^\s_]+)*?)(?:_(?P<mass>[mµun]?g)_?/?(?P<per>l|kg)|_(?P<pa>p_?/?a)"
    r"|_(?P<other>ppm|ppb|ntu|us_?/?cm|cfu|mpn)(?:_?/?100_?ml)?)?$",
    re.IGNORECASE,
)


def _spelled_out(key: re.Match[str]) -> str:
    name = key["name"].replace("_", " ")
    if key["mass"]:
        return f"{name} ({key['mass'].lower()}/{key['per'].upper()})"
    return f"{name} ({key['other']})" if key["other"] else name


# Words around a name that only say that germs were counted or looked for, and in how much water.
_COUNTED = re.compile(
    r"^(?:recuento|conteo|numeraci[oó]n|investigaci[oó]n|determinaci[oó]n|presencia)"
    r" (?:total )?de (?:la |los |las )?(?:bacterias? (?=colif))?"
    r"|^(?:d[ée]nombrement|num[ée]ration|recherche) (?:des? |d['’])(?:la |l['’])?"
    r"|^(?:anzahl|nachweis|z[äa]hlung)(?: (?:der|von))? "
    r"|[ ,]*(?:\(|\bin|\bpro|\bpor|\ben|\bdans|\bper|/) ?\d{2,3} ?ml\)?(?: ?[-–] ?[A-Z]{2,3})?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Name:
    """What a printed name says.

    Attributes:
        parameter: Of the catalogue; None if it is not known.
        basis: `as N` and so on, or empty.
        fraction: `total`, `dissolved`, or empty.
        draw: `first draw`, `flushed`, or empty.
        unit: A unit that stands in the name, as printed, or empty.
    """

    parameter: Parameter | None
    basis: str = ""
    fraction: str = ""
    draw: str = ""
    unit: str = ""


def read_fraction(text: str) -> str | None:
    """`total` or `dissolved` as a column says it; None if it says something else."""
    words = " ".join(re.findall(r"[a-z]+", folded(text)))
    return FRACTIONS.get(words, None if words and words != "none" else "")


def apart_from_stage(text: str) -> tuple[str, str]:
    """A name, and where along a treatment the water was drawn; empty if it doesn't say."""
    found = _STAGE.search(text)
    if not found or not found.start():
        return text, ""
    return " ".join((text[: found.start()] + " " + text[found.end() :]).split()), found["stage"]


def read_draw(text: str) -> str:
    """`first draw` or `flushed` as printed in a text; empty if neither."""
    if _FIRST.search(text):
        return Draw.FIRST
    return Draw.FLUSHED if _FLUSHED.search(text) else ""


def read_name(printed: str, catalogue: Catalogue, cas: str = "") -> Name:
    """Take a printed name apart and look it up; the whole name is tried before its parts."""
    printed = _QUESTION.sub("", printed.strip()[:_LONGEST])
    printed = " ".join(_KEY.sub(_spelled_out, printed).split())
    rest, unit = _without_unit(_ABROAD.sub("as ", printed))
    basis = bases.printed_in(rest)
    draw = read_draw(rest)
    rest = _FLUSHED.sub("", _FIRST.sub("", rest)).strip() if draw else rest
    plain = _BASIS.sub("", rest).strip() if _basis_is_said(rest) else rest
    short = _BRACKETED.sub("", plain).strip()
    base, fraction = _without_fraction(plain)
    if not fraction:
        base, fraction = _without_fraction(short)
    bare = _BRACKETED.sub("", base).strip()
    around = _AROUND.sub("", bare.rstrip(_MARKS)).strip()
    counted = _COUNTED.sub("", _COUNTED.sub("", printed.rstrip(_MARKS))).strip()
    around_it = _AROUND.sub("", around).strip()
    tried = (printed, rest, plain, short, base, bare, around, around_it, counted)
    found = next(filter(None, (catalogue.find(name, cas) for name in tried if name)), None)
    if found is None:
        found, implied = lab_names.find(tried, catalogue)
        basis = basis or implied
    is_fraction = found is None or (
        _has_fractions(found) and found in {catalogue.find(base), catalogue.find(bare)}
    )
    return Name(found, basis, fraction if is_fraction else "", draw, unit)


def _has_fractions(parameter: Parameter) -> bool:
    """Whether `total` and `dissolved` are fractions of a parameter, and not part of its name.

    They are fractions of an element or ion. Total hardness, total alkalinity and total coliform
    are sums, and dissolved oxygen is no fraction of oxygen.
    """
    is_element = parameter.family in {"metals", "radioactivity"} or bool(parameter.charge)
    return is_element and parameter.basis != "as CaCO3"


def _without_unit(text: str) -> tuple[str, str]:
    for pattern in (_UNIT_BRACKETED, _UNIT_END, _UNIT_OF_WORDS):
        found = pattern.search(text)
        if found and understand(found[1]):
            return (text[: found.start()] + text[found.end() :]).strip(" ,"), found[1].strip()
    return text, ""


def _basis_is_said(text: str) -> bool:
    found = _BASIS.search(text)
    return bool(found and bases.understand_basis(found["form"]))


def _without_fraction(text: str) -> tuple[str, str]:
    for pattern in (_FRACTION_END, _FRACTION_START):
        found = pattern.search(text)
        if found:
            word = read_fraction(found[1]) or ""
            return (text[: found.start()] + text[found.end() :]).strip(" ,;-"), word
    return text, ""
