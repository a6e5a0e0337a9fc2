"""Columns of figures that are no results of the household's water, by the words over them."""

import re

from wellbook.intake.files.sheets import Cells, alone
from wellbook.support.translation import N_
from wellbook.water.values.signs import folded

LIMIT = N_("a limit or a goal, not a result of your water")
EARLIER = N_("an earlier result, not one of this sample")
UPKEEP = N_("of the well or its care, not of the water itself")
STATISTIC = N_("a statistic, not a single result")
NEIGHBOUR = N_("of another household’s water")
CHECK = N_("a check of the lab’s own, not your water")

_NEIGHBOURS = re.compile(r"\b(neighbou?rs?|next door|vecin[oa]s?|voisine?s?|nachbarn?s?)\b")
# Common practice on lab sheets, no source.
_ASIDES = tuple(
    (what, re.compile(pattern))
    for what, pattern in (
        (
            EARLIER,
            (
                r"\b(previous|prior|earlier|last (test|year|result|sample|time)|historic\w*"
                r"|before(?! (the )?(filter|softener|treatment|system|unit|uv|ro)\b)"
                r"|anterior(?:es)?|previ[ao]s?(?! a)|ultim[ao]s? (?:analisis|resultados?"
                r"|muestra|valor|vez)"
                r"|precedent\w*|dernier\w* (?:analyse|resultat|valeur|mesure|fois)\w*"
                r"|vorherig\w*|letzte\w*"
                r"|vor(?:befund|wert|messung|ergebnis|probe|jahr)\w*)\b"
            ),
        ),
        (
            LIMIT,
            (
                r"\b(epa|who|oms|health|aesthetic|taste|goal|target|ideal|optimal|optimum|desired"
                r"|reference|ref|normal|range|acceptable|recommended|allow\w*|permitted|legal"
                r"|federal"
                r"|state|national|mclg?|smcl|mac|pcv|ao|og|hbv|hal|benchmark|threshold|max\w*"
                r"|min\w*"
                r"|limits?|limite|standards?|guideline\w*|criteri\w+|action|advisory|trigger"
                r"|sans 241\S*|is 10500|nom[ -]127\S*|nch ?409\S*|adwg|odwqs|gcdwq"
                r"|valor parametrico|valeur limite|tvo|trinkwv|tbdv|lmp|cma|permisible\w*"
                r"|permitid\w*|admis\w*"
                r"|parametric|prescribed|objectives?|specifications?|seuils?|exigences?"
                r"|(?:grenz|richt|hochst|leit|ziel|soll|toleranz|schwellen|orientierungs"
                r"|massnahmen?"
                r"|vorsorge|(?:indikator)?parameter|indikator|referenz|anforderungs)wert\w*"
                r"|anforderung\w*)\b"
            ),
        ),
        (
            STATISTIC,
            (
                r"\b(average|avg|mean|median|std|sd|stdev|rsd|cv|error|uncertainty|deviation"
                r"|incertitude|incertidumbre|(?:mess)?unsicherheit"
                r"|count|percentile|rank|change|difference|diff|trend|of limit|media|moyenne"
                r"|mittelwert|score|status|rating)\b|%"
            ),
        ),
        (
            UPKEEP,
            (
                r"\b(psi|gpm|miles?|kilomet\w+|pressure(?! tank)|static|drawdown|yield|pumped"
                r"|pumping|hours?|gallons?|invoice\w*|costs?|paid|price|receipt"
                r"|salt (?:bags?|added|used)|stagnation\w*|standing time|stagnationszeit"
                r"|rain(?:fall)?|depth|odometer|quoted?|bill(?:ed)?|fees?|eur|euros?|usd"
                r"|dollars?|chf|francs?"
                r"|costes?|costos?|precios?|importe|facturas?|factures?|pagad[ao]s?|pesos|mxn"
                r"|prix|couts?"
                r"|montant|payee?s?|reglee?s?|kosten|preise?|betrag|rechnung\w*|bezahlt"
                r"|gebuhr\w*)\b|[$€£]"
            ),
        ),
        (NEIGHBOUR, _NEIGHBOURS.pattern),
        (
            CHECK,
            (
                r"\b(blank|spike|spiked|lcsd?|msd?|mb|dup|duplicate|rpd|recovery|surrogate"
                r"|control"
                r"|assigned|proficiency|blanco|blanc|blindwert)\b"
            ),
        ),
    )
)
_CHECKS = re.compile(
    r"\b(quality (control|assurance)|qa ?/? ?qc|qc|blanks?|control sample|lab\w* control|spikes?"
    r"|matrix spike\w*|lab\w* duplicates?|surrogates?|recovery|recoveries|blindwerte?"
    r"|proficiency (?:tests?|testing|samples?)|assigned values?"
    r"|qualitatskontrolle|control de calidad|controle qualite)\b"
)
# Words of a line that only mentions such checks.
_MENTIONS = re.compile(
    r"\b(batch(?! (?:qc|quality)\b)|meet\w*|met|require\w*|accept\w*|criteria|by|perform\w*"
    r"|approv\w*|review\w*|were|was|is|are|code|level|manager|officer|lab no)\b|:\s*\S"
)
_ASSIGNED = re.compile(r"\bassigned (?:value|conc\w*|result)s?\b")
_RESULTS = re.compile(r"\b(sample|client|analytical|your) (results?|data)\b")
_MOST_WORDS = 8  # of a title
_WORDS = re.compile(r"[^\W_]+")
_PLACES = re.compile(
    r"\b(tap|taps|faucet|spigot|hydrant|well ?head|wellhead|well|tank|kitchen|house|barn|bath\w*"
    r"|basement|cellar|garage|spring|raw|treated|untreated|softened|filtered water|inlet|outlet"
    r"|influent|effluent|before (the )?(softener|filter|treatment|unit|system)"
    r"|after (the )?(softener|filter|treatment|unit|ro|uv|reverse osmosis|carbon|system)"
    r"|sink|garden|cistern|pump"
    r"|grifo|pozo|cocina|deposito|patio|bano|jardin|bodega|establo|lavadero|fuente"
    r"|robinet|puits|cuisine|grange|cave|etable|buanderie|salle de bains?|evier|source"
    r"|cisterna|tanque|cabezal|llave|manantial|aljibe|reservoir|citerne|forage|tete de puits"
    r"|brunnenkopf|zapfhahn|aussenhahn|zisterne|druckkessel|druckbehalter|behalter|speicher"
    r"|hahn|wasserhahn|brunnen|kuche|keller|garten|bad|stall|scheune|waschkuche|quelle)\b"
)
_NUMBERS = re.compile(
    r"^([a-z]{1,4}[-_ ]?\d{1,6}|\d{2,}[-/]\d+[-/\d]*|(sample|well|test|tap|lab|no)\.? ?#?\d+"
    r"|#\d+|[a-z]{1,3}\d*[-_]\d{1,6}[a-z]?|(first|second|third) (test|sample))$"
)


# Parts of a well and its treatment, and what households note of them; common practice, no source.
_CARE_OF = (
    r"pumps?|filters?|pre-?filters?|cartridges?|softener|salt|lamp|bulb|uv|tank|(?:water )?meter"
    r"|backwash\w*|regen\w*|resin|chlorinator|membrane|battery|fuse|breaker|gauge|well cap|leaks?"
    r"|bombas?|filtros?|cartuchos?|descalcificador|sal|lampara|contador"
    r"|pompes?|filtres?|cartouches?|adoucisseur|sel|lampe|compteur"
    r"|pumpen?|filterpatronen?|kartuschen?|enthartung\w*|salz|wasserzahler|zahler"
)
_CARE_DONE = (
    r"changed?|replaced?|replacement|cleaned|service|serviced|checked|check|added|add|used|bought"
    r"|bags?|level|refill(?:ed)?|ok|okay|status|condition|works|working|running|runs|reading|lbs?"
    r"|pounds|cambi\w+|anadid[ao]|sacos?|changee?s?|remplacee?s?|ajoutee?|sacs?|gewechselt"
    r"|gereinigt|nachgefullt|sacke?"
)
_CARE_OWN = (
    r"the|my|our|new|well|water|booster|submersible|sump|pressure|uv|ro|sediment|carbon|house"
    r"|whole"
    r"|main|softener|de|del|du|la|le|l|der|die|das|des"
)
_CARE = re.compile(
    rf"^(?:(?:{_CARE_DONE}|{_CARE_OWN}) )*(?:{_CARE_OF})(?: (?:{_CARE_OF}|{_CARE_DONE}))*$"
)


def is_care(name: str) -> bool:
    """Whether a name is only of a part of the well or its care, as `Pump` or `Filter changed`."""
    return bool(_CARE.match(" ".join(_WORDS.findall(folded(name)))))


def aside(heading: str) -> str:
    """What kind of other figures a heading promises; empty if none."""
    words = folded(heading).replace("_", " ")
    return next((what for what, pattern in _ASIDES if pattern.search(words)), "")


def names_neighbour(text: str) -> bool:
    """Whether words name another household's water, whatever else they say."""
    return bool(_NEIGHBOURS.search(folded(text)))


def is_check(heading: str) -> bool:
    """Whether a heading promises checks of the lab's own, such as `Method blank`."""
    return aside(heading) == CHECK


def heads_checks(row: Cells) -> bool:
    """Whether a heading is over checks of the lab's own, such as its blanks and recoveries."""
    others = [aside(cell) for cell in row]
    return CHECK in others and sum(one in {CHECK, STATISTIC} for one in others) > 1


def compares_checks(row: Cells) -> bool:
    """Whether a heading sets results of the lab's beside values that a check assigns."""
    return any(_ASSIGNED.search(folded(cell)) for cell in row)


def section(row: Cells) -> str | None:
    """What a title between tables says of those below it.

    Returns:
        The title of checks of the lab's own, such as `Quality control`; empty for that of results
        of the household's water; None for what is no such title.
    """
    title = alone(row)
    if not title or len(title.split()) > _MOST_WORDS:
        return None
    words = folded(title)
    if _CHECKS.search(words) and not _MENTIONS.search(words):
        return title
    return "" if _RESULTS.search(words) else None


def is_place(heading: str) -> bool:
    """Whether a heading names a place in a house at which water is drawn, and nothing else."""
    return bool(_PLACES.search(folded(heading))) and not aside(heading)


def is_number(heading: str) -> bool:
    """Whether a heading looks like the number of a sample, and like nothing else."""
    return bool(_NUMBERS.match(folded(heading).strip())) and not aside(heading)
