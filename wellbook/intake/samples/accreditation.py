"""What a lab's file prints of the lab's accreditation, such as `NATA accredited laboratory 1234`.

The bodies are those that `resources/places.csv` names per country, and the words of state
certificates in the United States; how each of them is printed is common practice, no source.
"""

import re
from collections.abc import Iterable

from wellbook.intake.files.sheets import Place, Sheet

_LONGEST = 120  # characters kept; what a lab prints behind that is about its scope
_BODY = (
    r"NATA|DAkkS|COFRAC|UKAS|IANZ|ENAC|ema|entidad mexicana de acreditaci[oó]n|SCC|CALA"
    r"|Standards Council of Canada|N?ELAP|NELAC|TNI|A2LA"
)
# A2LA numbers certificates as `1234.01`; another point or comma makes it a figure.
_NUMBER = r"(?<![\w.])[A-Z]{0,4}[-/ ]?\d(?:\d{3}\.\d\d(?![\w.])|[\w/-]*+(?![.,]\d))"
_BY_BODY = re.compile(rf"(?<![\w@.])(?:{_BODY})(?![\w@])[^;|]{{0,80}}?{_NUMBER}")
_NORM = re.compile(r"\b17025\b(?::\d{4})?")
_DAKKS = re.compile(r"\bD-PL-\d{5}-\d\d(?:-\d\d)?\b")
# A certificate of a state names the lab, unlike a certificate of analysis, which has a number too.
_BY_STATE = re.compile(
    r"\b(?:certified|accredited|licensed) (?:drinking[ -]water )?lab(?:oratory)?\b[^;|\d]{0,40}"
    rf"{_NUMBER}"
    r"|\blab(?:oratory)? (?:certifi(?:cate|cation)|accreditation|licen[cs]e)\b[^;|\d]{0,40}"
    rf"{_NUMBER}",
    re.IGNORECASE,
)
# What stands before the body and belongs to it; without such a word, or one for a number, the
# letters may be anything: nitrogen, a method, a name.
_SAYS = r"accredit\w*|accr[eé]dit\w*|akkredit\w*|acredit\w*|certifi\w+|licen[cs]\w+|testing"
_LEAD = re.compile(
    rf"(?:\b(?:{_SAYS}|ISO(?:/IEC)?|17025|EN|DIN|by|durch|die|par|le|por|la|state(?: of [A-Z]\w+)?"
    r"|[A-Z]{2})\b[\s,:/-]*)+$",
    re.IGNORECASE,
)
_SAID = re.compile(rf"\b(?:{_SAYS})\b|\bn(?:o|um|[uú]mero|ummer)?[.°º]|#|\bnumber\b", re.IGNORECASE)
_DENIED = re.compile(r"\b(?:not|nicht|non|pas|no (?:est[aá]|es|acredit\w+))\b", re.IGNORECASE)
# None of the above fits a line without one of these.
_MENTIONED = re.compile("D-PL-|(?i:lab)|" + re.sub(r" [^|]*", "", _BODY))
_BEFORE = 25  # characters before it in which it may be denied


def accreditation_in(sheets: Iterable[Sheet]) -> tuple[str, list[tuple[Place, str]]]:
    """The lab's accreditation as the file prints it, with the body's name and number; or empty.

    Beside it what of the file is told by that, and where it stands.
    """
    for sheet in sheets:
        for index in sheet.rows_with(lambda cell: bool(_MENTIONED.search(cell))):
            line = "  ".join(filter(None, sheet.rows[index]))
            found = accreditation(line)
            if found:
                told = [found, *_NORM.findall(line.replace(found, ""))]
                return found, [(sheet.place(index, 0), text) for text in told]
    return "", []


def accreditation(line: str) -> str:
    """The accreditation that a line prints; empty where it names none, no number, or denies it."""
    text = " ".join(line.split())
    own = _DAKKS.search(text)
    if own and not _DENIED.search(text[: own.end()]):
        return f"DAkkS {own[0]}" if "dakks" in text.casefold() else own[0]
    body = _BY_BODY.search(text)
    found = body or _BY_STATE.search(text)
    if found is None:
        return ""
    lead = _LEAD.search(text[: found.start()])
    says_itself = body is not None and _SAID.search(body[0])
    start = lead.start() if lead and not says_itself else found.start()
    said = text[start : found.end()].strip(" ,:;-")
    if _DENIED.search(text[max(0, start - _BEFORE) : found.end()]):
        return ""
    return said[:_LONGEST] if _SAID.search(said) else ""
