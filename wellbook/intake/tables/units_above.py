"""Units that lines above a table, or titles within it, say of its results."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from wellbook.intake.files.sheets import Cells, alone
from wellbook.intake.words.asides import aside
from wellbook.intake.words.headings import role_of
from wellbook.intake.words.names import read_name
from wellbook.intake.words.roles import Role
from wellbook.water.units.basis import SPELLED_OUT
from wellbook.water.units.conversion import understand
from wellbook.water.units.spellings import ACTIVITY, COUNT, SOLUTE
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded

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
# What a line of the unit of all results says besides; any other word may say of which.
_PLAIN = re.compile(
    r"all|the|of|for|in|are|is|as|en|son|sont|sind|notes?|notas?|hinweis|remarque|expressed|given"
    r"|reported|shown|expresad[oa]s|se|expresan|los|las|tod[oa]s|les|tous|toutes|exprimee?s|alle"
    r"|die|angegeben|units?|unidad(?:es)?|unites?|einheit(?:en)?|results?|resultados|resultats"
    r"|ergebnisse|values?|valores|valeurs|(?:mess)?werte|concentrations?|concentraciones|teneurs"
    r"|konzentrationen|angaben|analysis|analytical|test|lab"
)
_WORDS = re.compile(r"[^\W\d_]+")
_UNITS = SOLUTE | {ACTIVITY, COUNT}
_MOST_WORDS = 5  # of a title


@dataclass(slots=True)
class UnitsAbove:
    """The unit that lines above a table, and titles within it, say of results that name none.

    Attributes:
        catalogue: To tell a parameter from a title.
        stated: What lines above say of all results.
        titled: What the title right above some results says.
    """

    catalogue: Catalogue
    stated: str = ""
    titled: str = ""
    _asked: set[str] = field(default_factory=set)  # that may not be of every result

    @property
    def unit(self) -> str:
        """The unit of results that name none; empty if nothing says one."""
        return self.titled or self.stated

    def is_asked(self, unit: str) -> bool:
        """Whether a unit is one that may not be of every result, so that each is asked about."""
        return unit in self._asked

    def take_above(self, rows: Iterable[Cells]) -> None:
        """Take in the lines above a table."""
        filled = [row for row in rows if any(map(str.strip, row))]
        told = [one for row in filled for one in _of_all(row)]
        bare = [unit for row in filled if (unit := _bare(row))]
        told = told or [(unit, True) for unit in bare]
        labels = {one.label for unit, _is_asked in told if (one := understand(unit))}
        if len(labels) == 1:  # of several nothing tells which is of which result
            self.stated = told[0][0]
            self._asked.update(unit for unit, is_asked in told if is_asked)
        self.titled = (self.of_title(filled[-1]) or "") if filled else ""

    def take_below(self, rows: Iterable[Cells]) -> None:
        """Ask about all where a title among the results themselves says another unit."""
        if any(alone(row) and self.of_title(row) for row in rows):
            self._asked.add(self.unit)

    def of_title(self, row: Cells) -> str | None:
        """The unit in a title such as `Trace metals, µg/L`; empty in one without; None in none."""
        if unit := _bare(row):
            self._asked.add(unit)
        return unit or of_title(row, self.catalogue)


def _of_all(row: Cells) -> Iterator[tuple[str, bool]]:
    """The units that a line says of all results, and whether some may have another one.

    So it is where it says `unless noted`, or what the results are of.
    """
    cells = [cell.strip() for cell in row if cell.strip()]
    is_pair = len(cells) == 2 and role_of(cells[0]) is Role.UNIT  # noqa: PLR2004
    for cell in [": ".join(cells)] if is_pair else cells:
        found = _OF_ALL.search(cell)
        unit = found["unit"].strip(" .") if found else ""
        if found and understand(unit):
            words = _WORDS.findall(folded(cell[: found.start("unit")]))
            yield unit, bool(found["unless"]) or not all(map(_PLAIN.fullmatch, words))


def _bare(row: Cells) -> str:
    """The unit that stands alone in a line, such as `(mg/L)`."""
    text = alone(row).strip(" ()[]:.")
    unit = understand(text) if text else None
    return text if unit and unit.quantity in _UNITS else ""


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
