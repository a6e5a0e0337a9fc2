"""Words and letters that labs print in place of a number or beside one.

Common practice across lab sheets, no source; the detection conditions of WQX, the open exchange
format for water quality in the United States, are among them. A sheet's own legend outranks the
meanings given here.
"""

import re

from wellbook.water.units.spellings import COUNT, PRESENCE
from wellbook.water.values.readings import Flag, Kind

_NOT_DETECTED = """
nd, n d, n.d, n/d, u, not detected, not detect, nondetect, non detect, non-detect, nondetected,
non-detected, none detected, nil detected, not found, none found, bdl, brl, bql, bmql, bmdl, bld,
blq, bloq, blod, below detection, below detection limit, below the detection limit,
below limit of detection, below reporting limit, below the reporting limit,
below quantitation limit, below method detection limit, below mdl, below rl, below pql, below dl,
less than detection limit, less than reporting limit, less than mdl, less than rl,
<mdl, <rl, <dl, <loq, <lod, <pql, <mrl, <lrl, <crdl, <rdl, <lloq,
not detected at detection limit, not detected at reporting limit, below daily detection limit,
below long-term blank-basd dt limit, below sample-specific detect limit,
below system detection limit
"""
_NOT_ANALYSED = """
n/a, na, n.a, not analyzed, not analysed, not tested, nt, n/t, not run, not requested, pending,
in progress, to follow, tbd, not reported, nr, no result, no test, not sampled, not applicable,
not received, not measured, not determined, not performed, not done, cancelled, canceled,
lab accident, laboratory accident, lab error, bottle broken, broken bottle, broken, sample broken,
lost, insufficient sample, insufficient volume, not enough sample, unable to measure,
not available, unavailable, reported in raw data (attached), no data
"""
_PRESENT = "present, positive, pos, detected, presence, growth, present in 100 ml"
_ABSENT = "absent, negative, neg, not present, absence, no growth, none present, absent in 100 ml"
_TRACE = """
trace, tr, traces, detected not quantified, dnq, present below quantification limit,
between inst detect and quant limit, detected below quantitation limit
"""
_OFF_SCALE = "off scale, offscale, present above quantification limit"
_OVER_RANGE = "above operating range, over range, overrange"

# Single letters and signs are words only in a column that holds presence or absence.
_PRESENT_IN_COLUMN = "p, +, yes, y, unsafe, unsatisfactory, not potable, bacteria present"
_ABSENT_IN_COLUMN = "a, -, no, nd, not detected, none detected, none, none found, not found"

_NO_FLAGS: frozenset[Flag] = frozenset()
_Meaning = tuple[Kind, frozenset[Flag]]


def _phrases(text: str) -> list[str]:
    return [phrase.strip() for phrase in text.replace("\n", " ").split(",") if phrase.strip()]


_ANYWHERE: dict[str, _Meaning] = {
    **dict.fromkeys(_phrases(_NOT_DETECTED), (Kind.BELOW, _NO_FLAGS)),
    "uj": (Kind.BELOW, frozenset({Flag.ESTIMATED})),
    **dict.fromkeys(_phrases(_NOT_ANALYSED), (Kind.NONE, _NO_FLAGS)),
    **dict.fromkeys(_phrases(_PRESENT), (Kind.PRESENT, _NO_FLAGS)),
    **dict.fromkeys(_phrases(_ABSENT), (Kind.ABSENT, _NO_FLAGS)),
    **dict.fromkeys(_phrases(_TRACE), (Kind.PRESENT, frozenset({Flag.ESTIMATED}))),
    **dict.fromkeys(_phrases(_OFF_SCALE), (Kind.ABOVE, _NO_FLAGS)),
    **dict.fromkeys(_phrases(_OVER_RANGE), (Kind.ABOVE, frozenset({Flag.OVER_RANGE}))),
    "rejected": (Kind.NONE, frozenset({Flag.REJECTED})),
}
_IN_COLUMN: dict[str, _Meaning] = {
    **dict.fromkeys(_phrases(_PRESENT_IN_COLUMN), (Kind.PRESENT, _NO_FLAGS)),
    **dict.fromkeys(_phrases(_ABSENT_IN_COLUMN), (Kind.ABSENT, _NO_FLAGS)),
}

_OVERGROWN = re.compile(
    r"\btntc\b|too numerous to count|too many to count|confluent|overgrow|\bcg\b|heavy background"
)
_NO_COLIFORM = re.compile(
    r"(?:without|w/o|no|non|absence of|not) (?:any )?(?:total )?coliform"
    r"|coliforms? (?:bacteria )?(?:is |are )?(?:absent|negative|not|not detected)|background"
)
_COLIFORM = re.compile(
    r"(?:with|w/|contains|incl\.?|including) (?:total )?coliform"
    r"|coliforms? (?:bacteria )?(?:is |are |was |were )?(?:present|positive|detected|seen|found)"
    r"|\bpresent\b|\bpositive\b"
)

_FLAG_WORDS = tuple(
    (re.compile(rf"(?<![a-z])(?:{words})(?![a-z])"), flag)
    for words, flag in (
        ("est|estimated?|approx", Flag.ESTIMATED),
        (
            "ht|held too long|hold(?:ing)? time exceeded|exceeded hold(?:ing)? time|out of hold",
            Flag.HELD_TOO_LONG,
        ),
        ("in blank|blank contamination", Flag.IN_BLANK),
        ("dup|duplicate", Flag.DUPLICATE),
        ("df|diluted|dilution", Flag.DILUTED),
        ("rejected|unusable", Flag.REJECTED),
        ("over range|above calibration(?: range)?", Flag.OVER_RANGE),
        ("tntc|cg|overgrown|confluent", Flag.OVERGROWN),
    )
)
_FLAG_LETTERS = {
    "J": Flag.ESTIMATED,
    "H": Flag.HELD_TOO_LONG,
    "B": Flag.IN_BLANK,
    "D": Flag.DILUTED,
    "R": Flag.REJECTED,
    "E": Flag.OVER_RANGE,
}
# Letters run together are read only where J or U is among them: DE, RE, BE mean other things.
_MAYBE_FLAG = re.compile(r"^[(\[]?(?:[A-Z]{1,3}\d?[+-]?|[*#†‡^]+)[)\]]?[,;.]?$")
_UNDETECTED = re.compile(
    r"(?<![a-z])(?:nd|bdl|brl|bmdl|bql|(?:not|non)[ -]?detect(?:ed)?)(?![a-z])"
)
_RUN_OF_LETTERS = re.compile(r"^(?=.*[JU])[UJHBDER]{2,4}$")

LETTERS = {flag: letter for letter, flag in _FLAG_LETTERS.items()} | {
    Flag.DUPLICATE: "DUP",
    Flag.OVERGROWN: "TNTC",
}


def meaning(phrase: str, quantity: str = "") -> _Meaning | None:
    """What a phrase says in place of a number; None if we don't know it.

    Args:
        phrase: A printed phrase with plain signs and single spaces.
        quantity: What the column holds: `PRESENCE`, `COUNT`, or anything else. Where it counts,
            `not detected` has a reporting limit; where it only says present or absent, it has none.
    """
    phrase = re.sub(r"([<>]) ", r"\1", phrase.casefold()).strip(" .*;:,")
    if quantity == PRESENCE and phrase in _IN_COLUMN:
        return _IN_COLUMN[phrase]
    found = _ANYWHERE.get(phrase)
    return found or (_IN_COLUMN.get(phrase) if quantity == COUNT else None)


def is_phrase(text: str, quantity: str = "") -> bool:
    """Whether a text says something in place of a number."""
    return meaning(text, quantity) is not None or overgrown(text) is not None


def overgrown(phrase: str) -> _Meaning | None:
    """What a phrase about an overgrown plate says; None if it is about something else.

    Such a plate counts as present only if the lab says that coliform was seen on it.
    """
    phrase = phrase.casefold()
    if not _OVERGROWN.search(phrase):
        return None
    seen = _COLIFORM.search(phrase) and not _NO_COLIFORM.search(phrase)
    return (Kind.PRESENT if seen else Kind.ABOVE, frozenset({Flag.OVERGROWN}))


def flags(text: str) -> tuple[frozenset[Flag], bool]:
    """The usual meaning of flag letters, and whether they say `not detected`.

    Letters that we don't know mean nothing here; the text that was printed keeps them.
    """
    lowered = text.casefold()
    found = {flag for words, flag in _FLAG_WORDS if words.search(lowered)}
    letters = [letter for token in _tokens(text) for letter in _letters(token)]
    found |= {_FLAG_LETTERS[letter] for letter in letters if letter in _FLAG_LETTERS}
    return frozenset(found), "U" in letters or bool(_UNDETECTED.search(lowered))


def is_flag(token: str) -> bool:
    """Whether a token after a number may be a flag: short capitals, stars, or a word we know."""
    return bool(_MAYBE_FLAG.match(token)) or is_known_flag(token)


def is_known_flag(token: str) -> bool:
    """Whether a token is a flag whose usual meaning we know."""
    found, undetected = flags(token)
    return bool(found) or undetected


def _tokens(text: str) -> list[str]:
    return re.split(r"[\s,;/|()\[\]*]+", text)


def _letters(token: str) -> tuple[str, ...]:
    bare = token.rstrip("+-.")
    if len(bare) == 1:
        return (bare.upper(),)
    return tuple(bare) if _RUN_OF_LETTERS.match(bare) else ()
