"""Lines of a letterhead or a footer: a lab's name, numbers of pages and telephones, addresses.

From memory.
"""

import re
from collections.abc import Sequence

from wellbook.intake.files.sheets import Cells, alone
from wellbook.intake.words.headings import role_of
from wellbook.water.values.signs import folded

_HEAD = 3  # lines
_LONGEST_NAME = 60
_LAB = re.compile(
    r"\b(labs?|laborator(y|ies|ios?)|laboratoires?|labore?|analytical)\b"
    r"|\S (environmental|testing|analytics|microbiology)( (inc|llc|ltd|services?))?$"
)
# Words of a title, of a field or of a sentence rather than of a name.
_NO_LAB = re.compile(
    r"\b(reports?|results?|analys[ei]s|analisis|samples?|certificates?|tests?|data|sheet|number"
    r"|informes?|resultados?|muestras?|rapports?|resultats?|bericht|befund|ergebnisse|probe[n]?"
    r"|no|nr|id|from|the|your|our|by|accredited|certified|akkreditiert\w*|acreditad[oa])\b|\d"
    # `Private Well Water Testing` is what was done
    r"|^((private|drinking|well|home|water|household|annual|routine|quality|radon|lead|metals?"
    r"|bacteria\w*|coliforms?) )+\w+( services?)?$"
)
_OF_A_PLACE = re.compile(r"\b(county|city|state) (?=\S)")
_PARTS = re.compile(r"\s+[-–—|·]\s+")
_FRAME = " #*=_~"  # around a line of a text
_FIRM = re.compile(
    r"\b(environmental|testing|analytics|microbiology|services?|drilling|drillers|plumbing"
    r"|conditioning|consult\w+|engineer\w+|inc|llc|ltd|gmbh|company|associates|department)\b"
)
_PAGE = re.compile(
    r"\b(?:page|pg|seite|blatt|p[áa]gina|p[áa]g|hoja|feuillet?)\b[.:]?\s*\d{1,3}"
    r"(?:\s*(?:/|of|von|de|sur)\s*\d{1,3})?(?![\d.,])",
    re.IGNORECASE,
)
_REACHED = re.compile(
    r"\b(?:tel|t[ée]l[ée]phone|telefon|tel[ée]fono|phone|fax|fon|mobile|hotline)\b[.:]*\s*[+(\d]"
    r"|(?<![\d.,/<>-])(?:\+\d{1,3}[ -])?(?:\(\d{3,5}\) ?|\d{3,5}[ -])?\d{3}-\d{4}(?![\d-])"
    r"|\S@\S+\.\w|\bwww\.\w|\bhttps?:",
    re.IGNORECASE,
)
_POSTCODE = re.compile(r"^\d{5}(?:-\d{4})?$")
_TOWN = re.compile(r"(?<![\d.,])\d{5}\s+[A-ZÄÖÜÉ][^\W\d]{2,}|\b[A-Z]{2}\s+\d{5}(?:-\d{4})?\b")


def is_letterhead(row: Sequence[str]) -> bool:
    """Whether a row of cells, none of which names a parameter or a unit, is such a line."""
    cells = [cell.strip() for cell in row if cell.strip()]
    text = " ".join(cells)
    if _PAGE.search(text) or _REACHED.search(text) or _TOWN.search(text):
        return True
    return len(cells) == 2 and bool(_POSTCODE.match(cells[1]))  # noqa: PLR2004  a town


def lab_in_head(rows: Sequence[Cells]) -> str:
    """The name of a lab that stands alone in one of the first lines, as in the head of a letter."""
    for row in rows[:_HEAD]:
        line = alone(row).strip(_FRAME)
        if ":" in line or len(line) > 3 * _LONGEST_NAME:
            continue
        for name in _PARTS.split(line):
            if len(name) <= _LONGEST_NAME and _is_lab(folded(name)):
                return name
    return ""


def _is_lab(words: str) -> bool:
    is_named = " " in words and _LAB.search(words) and not _NO_LAB.search(words)
    return bool(is_named) and not role_of(_OF_A_PLACE.sub("", words))


def without_page(text: str) -> str:
    """A text without the number of its page, such as `Page 1 of 2`."""
    return _PAGE.sub(" ", text)


def is_firm(text: str) -> bool:
    """Whether a line alone names a firm or a lab, such as `Cold Spring Environmental`."""
    words = folded(text)
    return bool(_FIRM.search(words) or _LAB.search(words))
