"""Lines of a letterhead or a footer: numbers of pages and telephones, addresses. From memory."""

import re
from collections.abc import Sequence

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
