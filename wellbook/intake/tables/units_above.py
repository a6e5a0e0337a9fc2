"""Units that lines above a table, or titles within it, say of its results."""

import re
from collections.abc import Iterable

from wellbook.intake.files.sheets import Cells, alone
from wellbook.intake.words.asides import aside
from wellbook.intake.words.headings import role_of
from wellbook.intake.words.names import read_name
from wellbook.intake.words.roles import Role
from wellbook.water.units.basis import SPELLED_OUT
from wellbook.water.units.conversion import understand
from wellbook.water.units.spellings import ACTIVITY, COUNT, SOLUTE
from wellbook.water.values.catalogue import Catalogue

# Words of the trade, from memory.
_OF_ALL = re.compile(
    r"\b(?:all|units?|results?|values?|concentrations?|todos|unidades|resultados|valores"
    r"|concentraciones|tous|toutes|unit[ée]s|r[ée]sultats|valeurs|concentrations|teneurs|alle"
    r"|einheit(?:en)?|ergebnisse|(?:mess)?werte|angaben|konzentrationen)\b[^:]*?"
    rf"(?:\b(?:in|are|en|sont)\b|:|=)\s*(?P<unit>[^\s,;()]+(?: {SPELLED_OUT}| as \w+)?)\.?"
    r"(?P<unless>[\s,;(]+(?:unless|except|if not|where not|salvo|excepto|a menos|si no|sauf|hormis"
    r"|sofern|soweit|wenn|falls|au(?:ß|ss)er|bis auf)\b.*)?$",
    re.IGNORECASE,
)
# `Trace metals, µg/L`, `Metals (µg/L)`, `Metals in µg/L`.
_TITLE = re.compile(
    r"^(?P<what>[^\W\d][^\d:;=<>()\[\]]{1,40}?)(?:,\s*|\s+(?:in|en)\s+|\s+[-–—]\s+|\s*[(\[])"
    r"(?P<unit>[^,()\[\]]{2,30}?)[)\]]?$"
)
_UNITS = SOLUTE | {ACTIVITY, COUNT}
_MOST_WORDS = 5  # of a title


def of_all(rows: Iterable[Cells]) -> tuple[str, bool]:
    """The unit that a line says of all results, and whether it says `unless noted`; or empty."""
    for row in rows:
        for cell in row:
            found = _OF_ALL.search(cell)
            unit = found["unit"].strip(" .") if found else ""
            if found and understand(unit):
                return unit, bool(found["unless"])
    return "", False


def of_title(row: Cells, catalogue: Catalogue) -> str | None:
    """The unit in a title such as `Trace metals, µg/L`; empty in one without; None in no title."""
    text = alone(row)
    if not text or ":" in text or len(text.split()) > _MOST_WORDS or any(map(str.isdigit, text)):
        return _unit_behind(text, catalogue) or None
    return _unit_behind(text, catalogue)


def _unit_behind(text: str, catalogue: Catalogue) -> str:
    found = _TITLE.match(text)
    unit = understand(found["unit"]) if found else None
    if not found or not unit or unit.quantity not in _UNITS:
        return ""
    what = found["what"]
    is_other = aside(what) or role_of(what) not in {None, Role.NAME}  # `Metals` is a word for both
    return "" if is_other or read_name(what, catalogue).parameter else found["unit"]
