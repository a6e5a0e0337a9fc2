"""Text that people write, such as a mail: columns parted by blanks, and `name: figure` lines."""

import re

from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.water.units.basis import SPELLED_OUT

OTHER_WATER = re.compile(
    r"\b(last|previous|earlier|averages?|usual(?:ly)?|typical(?:ly)?|county|blank"
    r"|(?<!dear )(?<!hello )neighbou?r\w*|(?<!estimad[oa] )(?<!estimad[oa]s )vecin[oa]s?"
    r"|(?<!cher )(?<!chers )voisine?s?|(?<!lieber )(?<!liebe )nachbar\w*"
    r"|spiked?|duplicate|letzte[snr]?|vorige[snr]?|anterior|pr[ée]c[ée]dent\w*|media|moyenne)\b",
    re.IGNORECASE,
)
"""What is told of other water, another time or a rule: none of the household's readings."""
_OF_LIMITS = re.compile(
    r"\b(?:limits?|standards?|guidelines?|l[ií]mites?|(?:grenz|richt)werte?|norme?s?)\b",
    re.IGNORECASE,
)
DEGREES = (
    r"[°º˚]\s?(?:[df]H|[def](?![\w/])|eH|Clark|[dGT]H|H)|dH|fH|[Gg]rad (?:dH|deutscher? H[äa]rte"
    r"|franz[öo]sischer H[äa]rte)|(?:German|French|English|Clark) degrees"
    r"|degrees (?:German|French|English|Clark)|degr[ée]s? (?:fran[çc]ais|allemands?|anglais)"
    r"|grados (?:franceses|alemanes|ingleses)|gpg|grains(?: per (?:U\.?S\.? )?gallon)?"
)
"""Units of hardness in words."""
_GAP = re.compile(r"\s{2,}|\t+|\s\|\s")
_PAIR = re.compile(r"^(?P<name>[^:]{1,60}?)\s*(?::|\.{3,}|\s\.\.|…)\s*(?P<rest>\S.*)$")
_UNIT = (
    rf"(?:[^\s\d/]{{1,4}}/[^\s/]+(?: \(?{SPELLED_OUT}\)?| as \w+)?|[mµμun]?g [A-Z]\w{{0,5}}/[lL]"
    r"|[µμu]?mhos?/cm|[NF][TNF]U|UN[TF]|pp[mbt]|S\.?U\.?"
    rf"|{DEGREES}"
    r"|(?:std\.?|standard|pH) units?"
    r"|(?:[^\W\d]{1,8} ?/|(?:[^\W\d]{1,8} )?(?:per|in|en|pro|pour)) ?100 ?m[lL])"
)
_FLAG = r"(?:UJ|[JUBHE])[+-]?"  # a lab's usual letters
# `Iron = 0.3 mg/L`, `Lead 2 J ug/L`: without a colon a unit must follow the figure.
_FIGURE = re.compile(
    r"^[-*•\s]*(?P<name>[^\W\d][^:<>=]{1,50}?)\s+(?:[-–=]\s+)?"
    rf"(?P<rest>[<>≤]?\s*(?:\d[\d.,]*|\.\d+)\s*(?:{_FLAG}\s+)?{_UNIT}(?:\s+U?J[+-]?)?"
    r"|(?:(?<=pH )|(?<=pH-Wert )|(?<=pH [=–-] )|(?<=pH-Wert [=–-] ))\d[\d.,]*)\.?$"
)
# `Iron - ND (2) mg/L`: the limit of detection stands in the bracket; `Sodium = ND mg/L` has none.
_UNDETECTED = re.compile(
    r"^[-*•\s]*(?P<name>[^\W\d][^:<>=]{1,50}?)\s+(?:[-–=]\s+)?"
    r"(?P<rest>(?:n\. ?[dn]\.?|n/?d|nn|b[dr]l|bql|non-?detect(?:ed)?|(?:not|none) detected"
    r"|<\s?(?:[lb][qdcg]|ng|m?rl|mdl|pql|lo[dq])|no (?:detectad|se detect)\w+"
    r"|non (?:d[ée]tect|quantif)\w+|nicht nach\w+)"
    rf"(?:\s*\(\s*<?\s*\d[\d.,]*[^()]{{0,20}}\)\s*(?:{_UNIT})?|\s+{_UNIT}))\.?$",
    re.IGNORECASE,
)
# `E. coli 0`: a count of bacteria may lack its unit.
_COUNT = re.compile(
    r"^[-*•\s]*(?P<name>(?:(?:total|fecal|totale?s?)\s+)?(?:coliform\w*|e\. ?coli|escherichia coli"
    r"|enterococ\w+|enterokokken|ent[ée]rocoques|legionell\w*|pseudomonas(?: aeruginosa)?)"
    r"(?:[\s,]+(?:bacteria|count|total\w*|totaux|gesamt|f[eé]\w+))*)"
    r"\s+(?:[-–=]\s+)?(?P<rest>[<>≤]?\s?\d[\d.,]*)$",
    re.IGNORECASE,
)
_WORD = re.compile(
    r"^[-*•\s]*(?P<name>(?:(?!(?:nicht|not|non|no|pas)\b)[^\W\d][\w.]*\s+){1,3})(?:[-–=]\s+"
    r"|was\s+|were\s+)?"
    r"(?P<rest>absent|present|not (?:detected|found)|none(?: detected| found| seen)?|neg(?:ative)?"
    r"|pos(?:itive)?|found|ok|clean|nd|absen(?:ce|te?s?)|pr[ée]sen(?:ce|te?s?)"
    r"|ausen(?:tes?|cia)|presencia|no hay"
    r"|(?:non|nicht|no) (?:d[ée]tect[ée]e?|detectad[oa]|nachweisbar|nachgewiesen)|keine|aucune?"
    r"|ningun[oa]|negativ[oa]?|positiv[oa]?|n[ée]gatif|positif|nachgewiesen|nachweisbar"
    r"|<\s?\d[\d.,]*)[.!]*$",
    re.IGNORECASE,
)
# `Bario = n.d.`: words for a result in other languages, and their short forms.
_PARTED = re.compile(
    r"^[-*•\s]*(?P<name>[^\W\d][^:=]{0,50}?)\s+[-–=]\s+(?P<rest>n\. ?[dn]\.?|n/?d|b[dr]l"
    r"|<\s?(?:[lb][qdcg]|ng|m?rl|mdl|pql|lo[dq])|aus(?:ente|encia)|presen\w+|abs\w+|non détect\w+"
    r"|no detectad\w+|nicht nach\w+|below (?:detection|reporting) limit)\.?$",
    re.IGNORECASE,
)
_KINDS = (_PAIR, _FIGURE, _COUNT, _WORD, _PARTED, _UNDETECTED)
# What a line adds on the limit of what it tells.
_LIMIT = re.compile(
    r"(?<![\s,;.…/-])[\s,;.…/-]*\b(?:limit|mcl|max(?:imum)?|standard|guideline)\b[\s:=]*"
    r"[<≤]?\s*\d[^()]*$"
    r"|\s*[(\[][^()\[\]]*\b(?:limits?|max\w*|mcl|standard|guideline|allow\w*|recommended|goal|target"
    r"|(?:action|health|legal|advisory) level|objective|parametric|m[aá]x\w*|permisible|permitido"
    r"|param[eé]trico|norme|seuil|r[eé]f[eé]rence|(?:grenz|richt|h[oö]chst|leit|parameter)wert"
    r"|límite|limite)\b[^()\[\]]*[)\]]\s*\.?$",
    re.IGNORECASE,
)
# A name such as `The federal limit for nitrate is`.
_OF_A_LIMIT = re.compile(
    r"\b(?:limits?|standard|guideline|grenzwert|richtwert|l[ií]mites?|valeur limite)\b.*"
    r"\b(?:for|of|on|is|f[üu]r|von|para|de|pour|du|des)\b",
    re.IGNORECASE,
)
# Words before a day on which the water was drawn or tested, in a diary or a list of results.
_OF_A_TEST = (
    r"(?:(?:water |wasser|lab )?(?:samples?|sampled|tests?|tested|probe|probenahme|analyse"
    r"|taken|drawn"
    r"|collected|pr[ée]l[èe]vements?|[ée]chantillon|pr[ée]lev[ée]e?|analys[ée]e?|an[aá]lisis"
    r"|muestra"
    r"|muestreo|toma|tomada|analizad[ao])\s(?:(?:of|from|on|the|du|de|le|la|del|el|vom|am"
    r"|von)\s){0,2})?"
)
_VISIT = re.compile(
    rf"^[-*•\s]*{_OF_A_TEST}"
    r"(?P<day>(?:[^\W\d_]{3,10}\.? )?(?:19|20)\d\d|\d{4}-\d\d(?:-\d\d)?"
    r"|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}|[^\W\d_]{3,10} \d{1,2},? \d{4}"
    r"|\d{1,2}(?:er|\.)?[ -](?:de )?[^\W\d_]{3,10}[ -](?:de )?\d{4})"
    r"(?:\s*[:–—-])?\s+(?P<rest>\S.*)$",
    re.IGNORECASE,
)
# Behind a day a figure may lack its unit, as in `nitrate 4, pH 7`.
_BARE = re.compile(
    r"^(?P<name>[^\W\d][^\d:<>=,;]{0,40}?)\s+(?P<rest>[<>≤]?\s?(?:\d[\d.,]*|\.\d+))$"
)
_ANSWER = re.compile(
    r"^(?P<name>[^\W\d][\w. ]{0,40}?)\s+(?P<rest>yes|no|ja|nein|oui|non|s[ií])\.?$", re.IGNORECASE
)
# A word between a day and what was found on it; one such as `blank` or `neighbor` is none of these.
_TESTED = re.compile(
    r"^(?:(?:re-?|water |lab )?(?:tests?|tested|results?|sampled?)|an[aá]lisis|resultados?|prueba"
    r"|analyses?|r[ée]sultats?|ergebnisse?|nachtest|nachprobe)\s*[:.–—-]\s+",
    re.IGNORECASE,
)
# A sentence without figures, such as `Tested the kitchen tap with the kit.`
_SAID = re.compile(r"[^.:;=<>\d]{3,80}(?<=[^\W\d_]{3})\.\s+(?=[^\W\d_])")
_PARTS = re.compile(
    r"[,;]\s+|[,;](?=[^\W\d_])|\s/\s|(?<=\d)/(?=[^\W\d_]{3})|\s{2,}"
    r"|(?<=[\dlLmM])\.\s+(?=[A-ZÀ-Þ])"
)
_STOP = re.compile(r"(?<!\.[^\W\d_])\.\s*$")  # of a sentence, not of `n.n.`
# Words behind a name that belong to its figure, as in `nitrate: less than 0.4`.
_COMPARED = re.compile(
    r"(?:less|more|greater|under|over|below|above|about|ca|approx|none|not|no|menos|menor|m[aá]s"
    r"|inferior|moins|plus|unter|[üu]ber|kleiner|weniger|mehr|keine|nicht|aucune?|ningun[oa])\b",
    re.IGNORECASE,
)
_FULL_STOP = re.compile(r"(?<=[\dLl])\.$")
_YEAR = re.compile(r"(?:19|20)\d\d$")
# The first colon is of a time, as in `Well tap, sampled on 3 May at 9:50`.
_TIME_FIRST = re.compile(r"[^:]*(?<![^\W_])\d{1,2}:\d\d(?!\d)")
_DOTS = "...."  # that lead from a name to its figure
_WIDE = re.compile(r"\S\s{2,}\S")
_CELL = re.compile(r"\S+(?: \S+)*")
_FEWEST = 3  # lines that make columns
_LONGEST = 2_000  # characters of a line that can be one of a table


def uncut(text: str) -> Sheet:
    """A text as a sheet with a cell for each line."""
    return Sheet("", [[line] for line in text.split("\n")])


def sheet_of(text: str) -> Sheet:
    """Cells of each line: parted by runs of blanks, or before and after the first colon.

    A line such as `2014: nitrate 3 mg/L, coliform negative` becomes a row for its day and one for
    each of its parts; beside such a line also one that tells a single figure after its day.
    """
    rows: list[Cells] = []
    lines: list[Line] = []
    written = text.splitlines()
    aligned = _aligned(written)
    visits = _visits(written)
    for number, line in enumerate(written, 1):
        several = visits.get(number) or [aligned.get(number) or cells_of(line)]
        rows += several
        lines += [Line(number)] * len(several)
    return Sheet("", rows, lines=tuple(lines), text=text)


def _aligned(lines: list[str]) -> dict[int, Cells]:
    """Cells of lines that stand in columns of blanks, with those left empty, by line from 1."""
    found: dict[int, Cells] = {}
    block: list[int] = []
    for number, line in enumerate([*lines, ""], 1):
        if (
            line.strip()
            and _WIDE.search(line.strip())
            and "\t" not in line
            and len(line) < _LONGEST
        ):
            block.append(number)
            continue
        if len(block) >= _FEWEST:
            found |= _in_columns({n: lines[n - 1].lstrip(">") for n in block})
        block = []
    return found


def _in_columns(lines: dict[int, str]) -> dict[int, Cells]:
    """The cells of some lines, cut where all are blank; none if no line lacks a cell."""
    width = max(map(len, lines.values()))
    used = bytearray(width + 1)
    for line in lines.values():
        for word in _CELL.finditer(line):
            used[word.start() : word.end()] = b"\1" * (word.end() - word.start())
    spans = [found.span() for found in re.finditer(rb"\x01+", bytes(used))]
    counts = {len(_CELL.findall(line)) for line in lines.values()}
    if len(counts) < 2 or len(spans) != max(counts):  # noqa: PLR2004
        return {}
    return {n: [line[a:b].strip() for a, b in spans] for n, line in lines.items()}


def _visits(lines: list[str]) -> dict[int, list[Cells]]:
    """Rows of the lines that tell what was found on a day, by line from 1."""
    told = {n: found for n, line in enumerate(lines, 1) if (found := _VISIT.match(line.strip()))}
    told = {n: found for n, found in told.items() if len(found[0]) < _LONGEST}
    pairs = {n: _pairs(_STOP.sub("", found["rest"])) for n, found in told.items()}
    several = {n for n, some in pairs.items() if _are_several(some)}
    if not several:
        return {}
    one = {n for n, some in pairs.items() if len(some) == 1 and _is_figure_alone(some[0])}
    days = {n: [told[n]["day"]] for n in several | one}
    if len(days) == 1:  # among others of its kind a day alone tells what it is
        days = {n: ["Date", *day] for n, day in days.items()}
    no_pairs = (n for n, some in pairs.items() if all(len(pair) < 2 for pair in some))  # noqa: PLR2004
    whole = {n: [[told[n][0]]] for n in no_pairs}
    return whole | {n: [days[n], *pairs[n]] for n in days}


def _pairs(rest: str) -> list[Cells]:
    """The pairs of a line; none where other words, such as `neighbor:`, say whose they are."""
    said = _SAID.match(rest)  # a sentence before the first figure
    if said:
        if OTHER_WATER.search(said[0]) or _OF_LIMITS.search(said[0]):
            return []
        rest = rest[said.end() :]
    pairs = [_pair_in(part) for part in _PARTS.split(_TESTED.sub("", rest))]
    first = pairs[0][-1] if len(pairs[0]) > 1 else ""
    is_of_other = len(_pair_in(first)) > 1 and not _COMPARED.match(first)
    return [] if is_of_other else pairs


def _are_several(pairs: list[Cells]) -> bool:
    told = sum(len(pair) > 1 for pair in pairs)
    return told > 1 and told * 2 >= len(pairs)


def _is_figure_alone(pair: Cells) -> bool:
    """Whether a name of one word stands before a figure, and no year, as in `nitrate 3.4`."""
    return len(pair) > 1 and " " not in pair[0] and not _YEAR.match(pair[1])


def _pair_in(part: str) -> Cells:
    part = _FULL_STOP.sub("", part)
    pair = pair_of(part)
    bare = (_BARE.match(part) or _ANSWER.match(part)) if len(pair) == 1 else None
    return [bare["name"], bare["rest"]] if bare else pair


def cells_of(line: str) -> Cells:
    """The cells of one line."""
    line = line.strip().lstrip(">").strip()[:_LONGEST]
    if not line:
        return []
    line = _LIMIT.sub("", line) if _DOTS in line else line
    cells = [cell.strip() for cell in _GAP.split(line) if cell.strip()]
    if len(cells) > 1:
        return [cells[0], *(cell.lstrip(": ") or cell for cell in cells[1:])]
    return pair_of(line)


def pair_of(text: str) -> Cells:
    """What stands before and after the colon of a text; the text alone if it has none."""
    text = _LIMIT.sub("", text.strip())
    kinds = _KINDS[1:] if _TIME_FIRST.match(text) else _KINDS
    found = next(filter(None, (kind.match(text) for kind in kinds)), None)
    if not found or "//" in found["rest"][:2] or _OF_A_LIMIT.search(found["name"]):
        return [text]
    return [found["name"].strip(" -*•"), found["rest"].strip()]
