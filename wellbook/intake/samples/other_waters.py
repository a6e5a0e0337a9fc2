"""Samples that are none of the household's water, by the name of the sample or of its sheet."""

import re
from collections.abc import Mapping
from functools import lru_cache

from wellbook.intake.words.asides import LIMIT, STATISTIC, names_neighbour, section
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.values.findings import Severity
from wellbook.water.values.signs import folded

_OF_A_PLACE = (
    r"roads?|rd|streets?|st|lanes?|ln|avenue|ave|drive|way|court|creek|hills?|farm|ranch|wells?"
    r"|taps?"
    r"|house|kitchen|barn|spring"
)
# In the name or number of a sample: more letters, because places have names such as Spike Road.
_CHECK_SAMPLE = re.compile(
    r"\b(?:method|trip|field|lab\w*|equipment|rinse|rinsate|reagent|instrument|filter"
    r"|calibration)"
    r"[\s_-]+(?:blank|blk)\b|\bblank$|matrix spike|\bspiked?$"
    rf"|^(?:blanks?|spikes?)\b(?!.*\b(?:{_OF_A_PLACE})\b)|control sample|lab\w* control"
    r"|\b(?:control|check|calibration|reference) (?:std|standard|check)\b"
    r"|^std\.? [\d.,]+ ?pp[bm]$"
    r"|^(?:lab\w* )?q[ac](?: ?/ ?qc)?$|reference material|surrogate"
    r"|\b(?:lab\w*|matrix)[\s_-]+(?:dup\w*|replicates?)|[\s_-](?:dup|duplicate"
    r"|replicate)$"
    r"|^(?:dup|duplicate|replicate) (?:of|sample)\b"
    r"|^(?:lcsd?|msd?|mb|lrb|lfb|lfmd?|crm|qcs?|ccv|icv|ccb|icb|eb|tb|fb)(?:[\s_-]?\d*)$"
    r"|^[a-z]{0,2}bl(?:an)?k[\s_-]?\d+$|[\s_-](?:lcsd?|msd?|mb)$"
    r"|[\s_-](?:m?blk|lcsd?|msd?|lfmd?|dup|ccb|icb|ccv|icv)\d*$|[\s_-]bsd?\d+$|\d(?:msd?"
    r"|dup)\d*$",
    re.IGNORECASE,
)
# The same in Spanish, French and German, without accents.
_CHECK_ABROAD = re.compile(
    r"^blancos?(?: \d+| (?:de|del) (?:metodo|campo|viaje|transporte|lab|laboratorio|equipos?"
    r"|reactivos?"
    r"|procedimiento|muestreo|matriz|filtracion|enjuague|digestion|calibracion|trazabilidad))?$"
    r"|^blancs?(?: \d+| (?:de |du |d )(?:terrain|methode|transport|voyage|labo|laboratoire"
    r"|reactifs?"
    r"|equipement|materiel|rincage|filtration|prelevement|site|procedure|analyse|etalonnage))?$"
    r"|^(?:\w*(?:blind|leer|null)(?:wert|probe)\w*|\w*kontrollprobe|kontrollstandard|temoin"
    r"|controle?)"
    r"(?: \d+)?$"
    r"|^(?:muestra|echantillon) (?:de )?(?:control|temoin|fortificada|dope)$"
    r"|^control de (?:la )?calidad$|^controle (?:de (?:la )?)?qualite$|^qualitatskontrolle$"
    r"|^(?:patron(?:es)?|etalons?)(?: \d+| de \w+)?$|^materia(?:l|u) de referenc(?:ia|e)$"
    r"|^referenz(?:material|probe)$|^aufstockung$|^aufgestockte probe$|^laborduplikat$"
    r"|^ringversuch\w*$|^(?:standard|kalibrier|eich)(?:losung|standard)$|^blancs? reactifs?$"
    r"|^ajouts? doses?\b|^dopage\b|\b(?:duplicad[oa]|doublon|replicat?|\w*(?:doppel"
    r"|parallel)probe"
    r"|(?:doppel|mehrfach|zweit)bestimmung)$"
    r"|^(?:duplicad[oa]|doublon|replicat?|doppelprobe|doppelbestimmung|parallelprobe)"
    r"(?: (?:de|del|du|von|zu|der|muestra|d)\b|[\s:#_-]*[a-z]{0,2}[_-]?\d{0,4}$)"
)
OTHER_WATER = N_("of other water, named for comparison")
_PLAIN = re.compile(r"[^\W_]+")
_MOST_WORDS = 10  # of such a name; some words can stand for either part of the pattern below

# The whole name has to be of such words: a well can stand at Limit Road, and a lab be a state's.
# Common practice, no source.
_BESIDE = (
    r"epa|who|eu|us|state|federal|national|county|regional|region|local|area|city|town|district"
    r"|legal"
    r"|primary|secondary|drinking|water|health|regulatory|quality|aesthetic|maximum|max|minimum"
    r"|min"
    r"|recommended|allowed|allowable|permitted|acceptable|normal|typical|comparison|lab|method"
    r"|annual|yearly|monthly|year|five|ten|\d+|all|wells?|samples?|tests?|results?|values?|data"
    r"|levels?"
    r"|the|of|for|in|and|to|a|is|de|del|la|el|du|des|der|anual|annuelle?|mensual|legal|maximo?"
    r"|sanitari[ao]|trinkwv|jahr|guide|y|et|und"
)
_NAMED = tuple(
    (what, re.compile(rf"(?:(?:{_BESIDE}) )*(?:{words})(?: (?:{_BESIDE}|{words}))*"))
    for what, words in (
        (
            LIMIT,
            (
                r"s?mclg?s?|maximum contaminant|contaminant|goals?|limits?|standards?|guidelines?"
                r"|criteri(?:a|on)|action level|advisor(?:y|ies)|thresholds?|benchmarks?"
                r"|reference"
                r"|targets?|range|ideal|mdl|m?rl|pql|lo[qd]|(?:detection|reporting) limits?"
                r"|limites?|valor(?:es)? (?:limite|parametrico|guia)|valeurs? (?:limites?|guide)"
                r"|grenzwerte?|richtwerte?|parametrico"
            ),
        ),
        (
            STATISTIC,
            (
                r"averages?|avg|mean|median|std|stdev|deviation|percentiles?|totals?|sum"
                r"|statistics?"
                r"|media|promedio|mediana|moyennes?|mittelwerte?|jahresmittel|durchschnitt"
                r"|estadisticas?|statistiques?|statistik"
            ),
        ),
        (
            OTHER_WATER,
            (
                r"typical (?:well|water|values?|for|in|levels?|results?|ground ?water)"
                r"|(?:bottled|city|town|municipal|public|distilled|store|supermarket) water"
                r"|agua (?:embotellada|de la red|municipal)|eau (?:en bouteille|de ville"
                r"|du reseau)"
                r"|(?:mineral|stadt|flaschen)wasser"
            ),
        ),
        (STATISTIC, r"maximum|max|minimum|min|maximo|minimo|minimum"),
    )
)
_EARLIER = re.compile(
    r"(?:the |our )?(?:previous|prior|earlier|historic\w*|anterior|precedente?|vorherig\w*"
    r"|(?:last|letzte\w*) (?:test|year|results?|sample|time|probe|messung))\b"
)
_FORM = re.compile(r"\b(?:form|log|sheet|template|page|copy)\b", re.IGNORECASE)


@lru_cache(maxsize=4096)
def _names_check(name: str) -> bool:
    return bool(_CHECK_SAMPLE.search(name) or _CHECK_ABROAD.search(folded(name).strip()))


@lru_cache(maxsize=4096)
def other_water(name: str) -> str:
    """Whose figures a name promises that is only of a limit, a statistic or other water.

    Empty for any other name, such as that of a place.
    """
    words = _PLAIN.findall(folded(name))
    if len(words) > _MOST_WORDS:
        return ""
    said = " ".join(words)
    return next((what for what, pattern in _NAMED if pattern.fullmatch(said)), "")


def other_sample(cells: Mapping[Role, str]) -> Trouble | None:
    """That a sample is a check of the lab's own, a limit or other water, by its name or number."""
    for role in (Role.POINT, Role.CLIENT_NUMBER, Role.NUMBER, Role.WELL):
        text = cells.get(role, "")
        if _names_check(text):
            return _check(text)
        if text and (what := other_water(text)):
            return _left(text, what)
    return None


def other_sheet(name: str) -> Trouble | None:
    """The same of all that stands in a sheet, by the name of the sheet."""
    if not name:
        return None
    if (_names_check(name) or section([name])) and not _FORM.search(name):
        return _check(name)
    what = other_water(name)
    return _left(name, what) if what else None


def open_sample(cells: Mapping[Role, str]) -> Trouble | None:
    """That a name leaves open whether a sample is of the household's water, or of its own day."""
    for role in (Role.POINT, Role.CLIENT_NUMBER, Role.WELL):
        name = cells.get(role, "")
        if name and (names_neighbour(name) or _EARLIER.match(folded(name))):
            return _asked(name)
    return None


def open_sheet(name: str) -> Trouble | None:
    """That the name of a sheet leaves open whether its samples are of the household's water."""
    return _asked(name) if names_neighbour(name) else None


def _asked(name: str) -> Trouble:
    said = _("“{name}” is the name of the sample or of its sheet: is it your water?")
    return Trouble("open_kind", said.format(name=name))


def _check(text: str) -> Trouble:
    said = _("Left out as the lab’s own check: {text}.").format(text=text)
    return Trouble("quality_control", said, Severity.NOTE)


def _left(text: str, what: str) -> Trouble:
    said = _("“{heading}”: {other}").format(heading=text, other=_(what))
    return Trouble("other_water", said, Severity.NOTE)
