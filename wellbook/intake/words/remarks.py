"""What a remark beside a result says of it: a lab's marks, or words for one of its flags.

Common practice on lab sheets, no source.
"""

import re

_MARK = r"[(\[]?(?:[A-Z]{1,3}\d?[+-]?|[*†‡#^]{1,3})[)\]]?"
_MARKS = re.compile(rf"{_MARK}(?:[ ,;/&]{{1,2}}{_MARK}){{0,5}}")
_NUMBERS = re.compile(r"[(\[]?(?:[a-z]|\d{1,2})[)\]]?(?:[ ,;]{1,2}(?:[a-z]|\d{1,2}))*[)\]]?")
_NO_MARKS = {"OK", "NO", "YES", "NA", "NONE"}
_LONGEST = 200  # characters of a remark
_WORDS = tuple(
    (told, re.compile(words, re.IGNORECASE))
    for told, words in (
        (
            "held too long",
            (
                r"hold\w*[- ]time\w* (?:was |were |has been )?exceed"
                r"|exceed\w* (?:the )?(?:\S+ )?hold"
                r"|(?:past|beyond|out of|outside) (?:the )?(?:\S+ )?hold|held too long"
            ),
        ),
        (
            "in blank",
            r"\b(?:in|of) (?:the |its |a )?(?:\S+ ){0,2}blanks?\b|\bblank contaminat",
        ),
        ("above calibration", r"\b(?:above|exceed\w*|over) (?:the )?calibration"),
        ("estimated", r"\bestimated (?:value|result|concentration)|\bvalue is estimated"),
    )
)
_DENIED = re.compile(r"\b(?:not?|none|never|without)\b", re.IGNORECASE)


def flag_in(note: str) -> str:
    """The marks that a remark is, or the words for the flag that it tells; empty for others."""
    if not note or len(note) > _LONGEST:
        return ""
    if _MARKS.fullmatch(note):
        return "" if note in _NO_MARKS else note
    found = (told for told, words in _WORDS if words.search(note))
    told = " ".join(found)
    return "" if told and told != "held too long" and _DENIED.search(note) else told


def is_kept(note: str) -> bool:
    """Whether a remark is kept beside its result: it tells a flag, or points to a footnote."""
    return bool(flag_in(note) or _NUMBERS.fullmatch(note))
