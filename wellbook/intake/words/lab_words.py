"""Words that labs print in place of a figure, in Spanish, French and German, and signs for none.

Words of the drinking-water trade, from memory. Each stands for an English one that the record
knows; the printed text is kept.
"""

import re
from functools import lru_cache

from wellbook.water.parsing.printed import read_reading
from wellbook.water.units.conversion import understand
from wellbook.water.values.readings import Kind
from wellbook.water.values.signs import folded

_WORDS = {
    "not detected": (
        "no detectado", "no detectada", "no se detecta", "no detectable", "n.d", "<lc", "<ld", "<lq",  # noqa: E501
        "inferior al limite de deteccion", "inferior al limite de cuantificacion",
        "non detecte", "non detectee", "non detectes", "non detectable", "non quantifie",
        "n.d.", "nd", "<loq", "nicht nachweisbar", "nicht nachgewiesen", "n.n", "n.n.", "nn",
        "unter nachweisgrenze", "unter bestimmungsgrenze", "n. n.", "<bg", "<ng",
        "kleiner nachweisgrenze", "kleiner bestimmungsgrenze", "no se detecto", "no cuantificable",
        "no cuantificado", "non quantifiable", "nicht quantifizierbar",
    ),
    "absent": (
        "ausente", "ausentes", "ausencia", "negativo", "negativa", "absence", "absents", "absente",
        "negatif", "negative", "absent", "abwesend", "negativ", "nicht enthalten", "ohne befund",
        "aucun", "aucune", "keine", "ninguno", "ninguna", "none", "none found",
        "-ve", "not found", "clean", "no coliform", "no coliforms", "no e. coli", "zero",
        "neg", "none seen", "none detected", "nothing found", "no hay", "no se detectan", "nada",
        "no se detectaron", "no se han detectado", "no se encontraron", "pas detecte",
        "no presencia", "no se observan", "no crecimiento", "sin crecimiento", "sin desarrollo",
        "no desarrollo", "pas de croissance", "kein wachstum", "kein nachweis",
        "nicht gefunden", "pas de", "sin", "rien", "neant", "nichts", "nichts gefunden", "ohne",
    ),
    "present": (
        "presente", "presentes", "presencia", "positivo", "positiva", "presence", "presents",
        "positif", "positive", "nachweisbar", "nachgewiesen", "anwesend", "positiv", "vorhanden",
        "detectado", "detecte", "present", "detected", "pos", "hay", "gefunden", "trouve",
        "not absent", "not negative", "not free", "no absence", "nicht abwesend", "nicht negativ",
        "se detecta", "se detectan", "se detecto", "se observan", "crecimiento", "croissance",
        "wachstum", "no ausente", "no negativo", "no negativa", "non absent", "pas absent",
        "pas negatif",
    ),
    "not analysed": (
        "no analizado", "no analizada", "no determinado", "no medido", "non analyse", "non mesure",
        "non determine", "nicht untersucht", "nicht bestimmt", "nicht gemessen", "n.b", "-", "--",
        "---", "—", "–", "n.a.", "/", "not analyzed", "not analysed", "na", "n/a", "not tested",
        "not done", "not run", "n/t", "nt",
    ),
    "too numerous to count": (
        "incontable", "incontables", "innumerable", "innumerables", "mnpc",
        "muy numeroso para contar", "demasiado numerosas para contar", "innombrable",
        "innombrables", "indenombrable", "indenombrables", "non denombrable",
        "trop nombreux pour etre comptes", "nicht auszahlbar", "nicht zahlbar", "unzahlbar",
        "uberwachsen", "massenhaft", "rasenwachstum",
    ),
}  # fmt: skip
_FINE = {"ok", "okay", "o.k", "passed", "pass", "clear", "safe"}
_BAD = {"+ve", "bad", "fail", "failed", "not ok", "found", "some", "some found", "yes, found"}
_YES, _NO = {"yes", "ja", "si", "oui", "y"}, {"no", "nein", "non", "n"}
_MEANT = {word: meant for meant, words in _WORDS.items() for word in words}


# As in `< L.C.`, `inferior al LD` and `unter BG`; a bare `límite` may be one of the law.
_BELOW_A_LIMIT = re.compile(
    r"(?:<|por debajo del?|menor (?:que|al?|del?)(?: el)?|inferior al?|inf\."
    r"|inferieure? (?:a la|au?)|sous la|unter(?:halb)?(?: der)?|kleiner(?: als)?)\s*"
    r"(?:(?:limite|seuil) de (?:deteccion|cuantificacion|detection|quantification)|l\.?[cdq]\.?"
    r"|b\.?g\.?|n\.?g\.?|(?:nachweis|bestimmungs|quantifizierungs)grenze)"
)
_IN_VOLUME = re.compile(r"\s*(?:/|in|en|pro|per|dans)\s?\d{1,4}\s?ml$")


_SIGN = re.compile(r"^<\s+(?=[a-z])")  # as in `< BG`
# As in `present (12 MPN/100mL)` and `pos, 4`.
_COUNTED = re.compile(
    r"(?:\s*\([^()]*\d[^()]*\)|(?<=[a-z.])[,:;]\s*\d+(?:\s*(?:cfu|mpn|kbe|ufc)\S*)?)$"
)
_SOME = re.compile(r"(?<![<\d.,])\s?0*[1-9]\d*(?![\d.]|\s*ml)")  # a count above none


def meant_by(text: str) -> str:
    """The English word that a lab's word stands for; empty if it is none of these."""
    whole = _SIGN.sub("<", folded(text).strip(" *!"))
    counted = _COUNTED.search(whole)
    if _BELOW_A_LIMIT.fullmatch(whole):
        return "not detected"
    meant = _MEANT.get(_IN_VOLUME.sub("", _COUNTED.sub("", whole)), "")
    # `negative, 12` says two things: it is asked about.
    return "" if meant == "absent" and counted and _SOME.search(counted[0]) else meant


def is_result_word(text: str) -> bool:
    """Whether a cell says something in place of a figure."""
    return meant_by(text) != "" or is_fine(text) or is_bad(text)


def is_fine(text: str) -> bool:
    """Whether a household noted only that a test was in order, which is asked about."""
    return folded(text).strip(" .!*") in _FINE


def is_bad(text: str) -> bool:
    """Whether a household noted only that a test for bacteria was not in order."""
    return folded(text).strip(" .!*") in _BAD


def says_some(text: str) -> bool | None:
    """Whether an answer such as `ja` says that some were found; None if it is no such answer."""
    word = folded(text).strip(" .!*")
    return word in _YES if word in _YES | _NO else None


SIGNS_APART = frozenset({"<", ">", "<=", ">=", "≤", "≥"})
"""Signs of a figure that stand in a column of their own."""

SIGNS = "+/-"  # stands for the unit of a column of such signs


_SIGN_WORDS = {
    "<": ("lt", "less than", "menor que", "inferior a", "inferieur a", "kleiner"),
    ">": ("gt", "greater than", "more than", "mayor que", "superior a", "superieur a"),
    "≤": ("le", "less than or equal to", "lte"),
    "≥": ("ge", "greater than or equal to", "gte"),
}
_OF_WORDS_FOR_SIGNS = {word: sign for sign, words in _SIGN_WORDS.items() for word in words}
_OF_WORDS_FOR_SIGNS |= {"kleiner als": "<", "grosser": ">", "grosser als": ">"}


def sign_in_words(text: str) -> str:
    """The sign that a cell holds, or words such as `LT` and `greater than`; empty for others."""
    if not text or text in SIGNS_APART:
        return text
    return _OF_WORDS_FOR_SIGNS.get(folded(text).strip(" ."), "")


def of_sign(text: str) -> bool | None:
    """Whether `+` or `-` says that something was found; None if it is neither."""
    sign = text.strip(" ()").replace("−", "-").replace("–", "-")
    return sign == "+" if sign in {"+", "-"} else None


def is_nothing(text: str) -> bool:
    """Whether a cell says that nothing was analysed."""
    return meant_by(text) == "not analysed"


_LESS = re.compile(
    r"^(?:less than|under|below|menos de|menor (?:de|que)|inferior a|moins de"
    r"|inferieure? a|kleiner(?: als)?|unter|weniger als)\s*(?=[\d.,])"
)
_MORE = re.compile(
    r"^(?:greater than|more than|over|above|mas de|mayor (?:de|que)|superior a|plus de"
    r"|superieure? a|grosser(?: als)?|uber|mehr als)\s*(?=[\d.,])"
)
_POWER = re.compile(r"\s*[x*·×]\s*10\s*\^?\s*([-−+]?\d{1,2})\b")
_BLANKS = re.compile(r"(?<![\d.,])(\d{1,3})((?: \d{3})+)(?![\d])")
# A single small letter, or a number in brackets, behind a figure is a footnote; g and l are units.
_FOOTNOTE = re.compile(r"^([<>]?\s*\d[\d.,]*)\s*(?:[abdehknprs]|\([\da-z]\)|\[\d\])$")
# What a household, or a lab, notes behind a figure; the text stays as printed.
_NOTED = re.compile(
    r"^([<>~]?\s*\d[\d.,]*(?:\s*[^\s\d()]{1,5}/\S+|\s*pp[mbt])?)\s*"
    r"(?:[(\[][^()\[\]]*\b(?:limit|max|mcl|standard|guideline|allow\w*|grenzwert|limite)\b[^()\[\]]*[)\]]"
    r"|[(\[]?(?:very )?(?:high|low|ok|okay|good|fine|elevated|normal|pass(?:ed)?|hoch"
    r"|i\.?o\.?|alto|bajo|within (?:limits?|range)"
    r"|above (?:limit|standard)|below (?:limit|standard))!?[)\]]?|!+)$"
)
_IN_BRACKETS = re.compile(r"^\(([<>]?\s*\d[\d.,]*)\)$")


def respelled_figure(text: str, *, decimal_comma: bool) -> str:
    """A figure such as `less than 0.4`, `2 350`, `3.4x10-3` or `0.3 a` as usual; empty if none."""
    found = _MORE.sub(">", _LESS.sub("<", folded(text)))
    found = _POWER.sub(r"E\1", found).replace("−", "-")
    found = _BLANKS.sub(lambda group: group[0].replace(" ", ""), found)
    found = _NOTED.sub(r"\1", found)
    found = _IN_BRACKETS.sub(r"\1", _FOOTNOTE.sub(r"\1", found))
    if decimal_comma and "E" in found:
        return ""
    return found if found != folded(text) else ""


_OF_WORDS = {Kind.BELOW, Kind.ABSENT, Kind.PRESENT}


@lru_cache(maxsize=2048)
def with_unit(text: str) -> tuple[str, str]:
    """A word and the unit behind it, as in `ND mg/L`; the text alone if there is none."""
    words = text.split()
    for n in range(1, len(words)):
        unit = " ".join(words[n:])
        word = " ".join(words[:n])
        is_word = len(unit) > 1 and read_reading(word).kind in _OF_WORDS
        if ("/" in unit or is_word) and understand(unit):
            return word, unit
    return text, ""
