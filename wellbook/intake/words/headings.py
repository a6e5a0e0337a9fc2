"""What the words over a column, or before a colon, say about what stands there."""

import re
from functools import lru_cache

from wellbook.intake.words.asides import aside
from wellbook.intake.words.headings_abroad import role_abroad
from wellbook.intake.words.roles import Role
from wellbook.intake.words.standards import STANDARD
from wellbook.water.values.signs import folded

# Words are tried in this order; the first that fits decides. Common practice, no source.
_WORDS: tuple[tuple[Role, str], ...] = (
    (
        Role.NOTHING,
        (
            r"\b(s?mclg?|maximum contaminant|standards?|guidelines?|criteri\w+|action level"
            r"|advisory|exceed\w*|pass(ed)?|fail(ed)?|meets|safe|rating|verdict|price|cost|fee"
            r"|account|invoice|e ?mail|phone|telephone|fax|county|city|state|zip|street"
            r"|address|page|dil(ution|n)?|df|uncertainty|recovery|rpd|batch|prep\w*|extract\w*"
            r"|digest\w*|due|turnaround"
            r"|allow(ed|able)|parametric|prescribed|accred\w*|ukas|objectives?|spec(s"
            r"|ification\w*)?)\b"
        ),
    ),
    (
        Role.NOTHING,
        (
            r"^((epa|federal|regulatory|legal|drinking water|dw|max\w*|allow\w*|recommended"
            r"|safe|water|control|upper|lower|warning)\b.* )?limits?$"
        ),
    ),
    (
        Role.TEMPERATURE,
        r"\b(temp\w*)\b.*\b(recei\w+|recd|arriv\w+|cooler)\b|\b(recei\w+|cooler)\b.*\btemp",
    ),
    (Role.LIMIT_UNIT, r"\b(rl|mrl|pql|loq|mdl|lod|limit|level|dl)\b.*\bunits?\b"),
    (Role.LIMIT_TYPE, r"\b(limit|level)\b.*\btype\b"),
    (
        Role.REPORTING_LIMIT,
        (
            r"\b(m?rls?|pqls?|loqs?|lrl|rdl|crdl|eql|report\w* (detection )?(limit|level)s?"
            r"|(reportable|quantita\w+|quantifica\w+) (limit|level)s?|limit of quanti\w+"
            r"|(minimum|lowest) report\w* (limit|level)s?)\b"
        ),
    ),
    (
        Role.DETECTION_LIMIT,
        (
            r"\b(i?mdls?|lods?|dls?|mdcs?|mdas?|detect(ion|able)? (limit|level)s?"
            r"|limit of detect\w+"
            r"|minimum detectable (activity|concentration|amount))\b"
        ),
    ),
    (Role.DETECTED, r"^(detect(ed|ion)?( flag)?|hit|nd flag)( y n)?$"),
    (Role.CONDITION, r"\bdetection condition\b"),
    (Role.NOTHING, r"\b(received|analy[sz]ed|approved|reviewed|reported|released|tested) by\b"),
    (Role.NOTHING, r"\banalyst\b|\bconditions?\b"),
    (
        Role.SAMPLER,
        r"\b(collect\w+|sampled|drawn|taken) by\b|^(sample )?(collector|sampler)( name)?$",
    ),
    (Role.ZONE, r"\btime ?zone\b|^tz$"),
    (Role.RECEIVED_TIME, r"^(?!.*\bdate).*\b(recei\w+|recd|rec d|arriv\w+)\b.*\btime\b"),
    (Role.RECEIVED_TIME, r"^(?!.*\bdate).*\btime\b.*\b(recei\w+|recd|rec d|arriv\w+)\b"),
    (Role.RECEIVED, r"\b(received|receipt|receiving|recd|rec d|rcvd|arriv\w+|registered on)\b"),
    (
        Role.ANALYSED_TIME,
        (
            r"^(?!.*\bdate).*\b(analy[sz]\w+|test\w*|run)\b.*\btime\b"
            r"|^time.*\b(analy[sz]\w+|tested|run)\b"
        ),
    ),
    (
        Role.ANALYSED,
        (
            r"\b(analy[sz]\w+|test(ed|ing)?|run|result) (start )?(date|dt|on|day|started)\b"
            r"|\b(date|dt|day)( time)?( of)? (analy[sz]\w+|test(ed|ing)?|run|started)\b"
            r"|^(analy[sz]ed|tested)$|^(start|end) of (the )?(analysis|test\w*)$"
            r"|^(analysis|testing) (started|completed|begun|ended)$"
        ),
    ),
    (Role.REPORTED, r"\b(report\w*|issued?|print\w*|approv\w*|complet\w*)\b.*\b(date|on|dt)\b"),
    (Role.REPORTED, r"\b(date|dt)( time)?( of)? (report\w*|issued?|print\w*|complet\w*)\b"),
    (Role.REPORTED, r"^(reported|issued)$"),
    (
        Role.TIME,
        r"^(?!.*\b(date|end)).*\b(collect\w*|sampl\w+|drawn|taken|activity start)\b.*\b(time|tm)\b",
    ),
    (Role.TIME, r"^(time|hour)( of)?( (collect\w*|sampl\w+|drawn|taken|day))?$"),
    (
        Role.DATE,
        (
            r"\b(coll(ect\w*)?|sampl\w+|samp|smp|drawn|taken|draw)\b.*\b(date|dt|day|on"
            r"|datetime)\b"
            r"|\b(date|dt|day|datetime)\b.*\b(coll(ect\w*)?|sampl\w+|samp|smp|drawn|taken|draw)\b"
            r"|^((water|sample) )?(was )?(collected|sampled|drawn|taken|collection)( on)?$"
            r"|^when( (sampled|drawn|collected|taken|tested))?$"
        ),
    ),
    (Role.SOME_DATE, r"^(date|dates|dt|date( and)? time|datetime|day|year|years|month)$"),
    (Role.NOTHING, r"\b(date|time)\b"),
    (Role.NOTHING, r"^((result|record|row|entry|line) (id|no|nr|number)|id|index|seq(uence)?)$"),
    (Role.QUALIFIER, r"\b(qualifiers?|quals?|flags?|lab quals?|q|remark codes?|result codes?)\b"),
    (
        Role.SIGN,
        (
            r"^(comp|comparator|operator|sign|mod|modifier|prefix|less than( ind\w*| flag)?"
            r"|lt gt|symbol|inequality)$"
        ),
    ),
    (Role.BASIS, r"\b(speciation|expressed as|reported as)\b|^(basis|result basis|as)$"),
    (Role.FRACTION, r"\b(fractions?|filtered|total or dissolved|total dissolved flag)\b"),
    (
        Role.UNIT,
        r"^(?!(before|after|pre|post)\b).*\b(units?|uom|unit of measure(ment)?)\b|^measured in$",
    ),
    (Role.CAS, r"\bcas( ?rn)?\b"),
    # Both in one column, one below the other in each cell.
    (Role.NAME, r"^(analytes?|parameters?|tests?|determinands?|constituents?)( and)? methods?$"),
    (Role.METHOD, r"\bmethods?\b|^(procedure|analysis reference|sop)$"),
    (Role.CODE, r"\b(p ?code|usgs ?p ?code|parm cd|parameter code|param code|parm code)\b"),
    (
        Role.KIND,
        (
            r"\b(samp(le)?|activity|qc|result) ?(type|kind|class)\b"
            r"|^(qc( sample)?|type|bottle|bottle type)$|^(type|kind|class|category) of sample$"
            r"|^sample category$"
        ),
    ),
    (Role.MEDIUM, r"\b(matrix|medium|media)\b"),
    (Role.STATUS, r"\b(result )?status\b"),
    (Role.PURPOSE, r"\b(purpose|reason)\b"),
    (Role.DRAW, r"\b(draw|draw type|flush\w*|sample draw)\b"),
    (Role.CLIENT_NUMBER, r"\b(client|customer|field|your)\b.*\b(sample|id|name|number|no)\b"),
    (
        Role.CLIENT_NUMBER,
        r"^sample (name|description|desc|label)$|^sample$|^description of sample$",
    ),
    (
        Role.REPORT_NUMBER,
        (
            r"\b(report|work ?order|order|submission|project|job|log ?in|sdg|group) ?"
            r"(id|no|num|number|nr|code)\b"
        ),
    ),
    (
        Role.NUMBER,
        (
            r"\b(lab|laboratory|sample|log|accession|specimen|activity)( sample)?( log)?"
            r"( id| no| num| number| nr| identifier| code)+\b"
        ),
    ),
    (
        Role.LAB,
        (
            r"^(performing |testing |analy[sz]ing |analytical |sub ?contract(ed)? )?"
            r"lab(orator(y|ies))?( name)?$"
        ),
    ),
    (
        Role.POINT,
        (
            r"\b(location|point|site|station|sampling place|place)\b|^(sampling )?spot$"
            r"|^((sample|sampling) )?(tap|faucet|outlet)( (sampled|used|name))?$"
            r"|^(spigot|hydrant)( (sampled|used|name))?$|^whose (well|water|tap)$"
            r"|^((collected|sampled|drawn|taken) (at|from))$"
            r"|^where( (it was )?(sampled|drawn|collected|taken))?$"
        ),
    ),
    (
        Role.WELL,
        r"^(well|well (id|name|no|number|tag)|source well|(sample |water )?source)$",
    ),
    (Role.NOTE, r"\b(comments?|(foot ?)?notes?|remarks?|memo)\b"),
    (
        Role.RESULT,
        (
            r"^((final|reported|test|lab|analytical|numeric|text|analysis|sample|your|water"
            r"|measured"
            r"|raw|this|new|latest|present|our|my|current|qualitative|quantitative|avg|average"
            r"|observed"
            r"|detected|obtained|determined|actual) )*"
            r"(results?|res|rslt"
            r"|values?|vals?|conc|concentrations?|found|findings?|amounts?|measured|levels?"
            r"|readings?|measurements?"
            r"|count|outcomes?|figures?|activity|activity concentrations?)"
            r"( values?| text| reported| measured?| found| detected)?$|^(quantity|how (much"
            r"|many))$"
        ),
    ),
    (
        Role.NAME,
        (
            r"^((test|lab|chemical|water|analytical) )*(analytes?|parameters?|params?"
            r"|compounds?|constituents?"
            r"|contaminants?|characteristics?|determinands?|components?|substances?|tests?"
            r"|elements?|metals?|minerals?|chemicals?|(radio)?nuclides?|radioisotopes?"
            r"|isotopes?|analys[ie]s|items?|variables?|indicators?|determinations?"
            r"|measures?|assays?|properties|property|(micro)?organisms?|measurands?)"
            r"( (names?|descriptions?|desc|long name|performed|tested))?$"
        ),
    ),
    (
        Role.NAME,
        r"^(name|description|tested for|what( (we|was|is) (tested|measured|checked)( for)?)?)$",
    ),
    (Role.RESULT, r"^what (we|was) (found|measured)$"),
)
_PATTERNS = tuple((role, re.compile(pattern)) for role, pattern in _WORDS)

_ENOUGH_OF_A_STANDARD = 4

_HUMPS = re.compile(r"(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")
_BRACKETS = re.compile(r"[(\[{][^)\]}]*[)\]}]")


def roles_of(row: list[str]) -> list[Role | None]:
    """What each cell of a heading row says about its column; None where it says nothing."""
    cells = [cell.strip() for cell in row]
    if is_standard(cells):
        return [STANDARD.get(cell) for cell in cells]
    return [role_of(cell) for cell in cells]


def is_standard(cells: list[str]) -> bool:
    """Whether a heading row is one of an open exchange format, of which only its words count."""
    return sum(cell.strip() in STANDARD for cell in cells) >= _ENOUGH_OF_A_STANDARD


# No figure, day or number alone is a heading, such as each sample's own in a long table.
_TELLS = re.compile(r"[^\W\d_]{2}|^[^\W\d_](?: [^\W\d_])*$")


# Such a number, of a sample or a day, is no heading either; told before the words are looked at.
_NUMBER = re.compile(r"[A-Za-z]?[-_. ]?[0-9][0-9./:-]*")


@lru_cache(maxsize=4096)
def role_of(text: str) -> Role | None:
    """What a heading, or the word before a colon, says; None if it is not one we know."""
    if text.strip() in {"<", "</>", "<>", "< / >", "+/-"}:
        return Role.SIGN
    if len(text) > 60 or _NUMBER.fullmatch(text):  # noqa: PLR2004
        return None
    words = _words(text)
    if not _TELLS.search(words):
        return None
    abroad = role_abroad(words)
    if abroad:
        return abroad
    return next((role for role, pattern in _PATTERNS if pattern.search(words)), None)


def role_of_column(text: str) -> Role | None:
    """The same for the heading of a column; a limit in whatever words is nothing here."""
    return role_of(text) or (Role.NOTHING if aside(text) and len(text) <= 60 else None)  # noqa: PLR2004


def is_abroad(text: str) -> bool:
    """Whether a heading is one in Spanish, French or German and not in English."""
    words = _words(text) if len(text) <= 60 else ""  # noqa: PLR2004
    told = bool(words) and role_abroad(words) is not None
    return told and not any(pattern.search(words) for _, pattern in _PATTERNS)


def _words(text: str) -> str:
    text = folded(_HUMPS.sub(" ", _BRACKETS.sub(" ", text)))
    text = text.replace("#", " no ")
    return " ".join(re.findall(r"[^\W_]+", text))


# Over names of parameters as well as over those of samples.
_CALLED = re.compile(
    r"(sample )?(name|description|designation)|descripcion|denominacion|nombre|designation"
    r"|denomination|libelle|intitule|nom|bezeichnung|beschreibung"
)


def says_what_it_is_called(text: str) -> bool:
    """Whether a heading is one such as `Description`, which a sample can have too."""
    return bool(_CALLED.fullmatch(_words(text)))


def unit_in(heading: str) -> str:
    """The unit that a heading carries, e.g. `mg/L` in `Result (mg/L)` or `Result, mg/L`."""
    found = re.search(r"[(\[{]([^)\]}]*)[)\]}]\s*$", heading) or re.search(
        r"[,:]\s*([^,:]+)$", heading
    )
    return found[1].strip() if found else ""
