"""What lines beside a table say of its flags and marks, and of figures that were amended.

A legend of a lab outranks what a letter usually means. Words of the trade, from memory.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from wellbook.book.rows import NewResult
from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.water.parsing import lab_phrases
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.signs import folded, plain

_MARKS = "*†‡§#¹²³"
_LONGEST = 400  # characters of such a line
_MOST = 500  # sentences that tell of corrections; our own bound
_OF_A_SENTENCE = 2  # cells
_PAIR = 2  # cells of a mark and what it means
_ENTRY = re.compile(
    r"(?:^|[;,.|(]\s*|\s{2,}|\s/\s)(?P<mark>[A-Za-z]{1,5}|\d{1,2}|[*†‡§#+-]{1,3})\s*=\s*"
    r"(?P<words>[^=;|]+?)(?=\s*(?:[;|]|[,.]\s+\S{1,5}\s*=|\s{2,}\S{1,5}\s*=|\s/\s\S{1,5}\s*=|$))"
)
# The same with a colon, `U: not detected`; what begins with a figure is a reading, or a number.
_AFTER_COLON = re.compile(
    rf"(?:^|[;:,.|(]\s*|\s{{2,}}|\s/\s)(?P<mark>[A-Za-z]{{1,3}}|\d{{1,2}}|[{_MARKS}]{{1,3}})\s*:\s*"
    r"(?P<words>[^\s\d<>≤≥@:;|=+-][^:;|=@]*?)"
    r"(?=\s*(?:[;|]|[,.]\s+\S{1,5}\s*:|\s{2,}\S{1,5}\s*:|\s/\s\S{1,5}\s*:|$))"
)
_MARK = re.compile(rf"(?:[A-Za-z]{{1,3}}|\d{{1,2}}|[{_MARKS}]{{1,3}}):?$")
_FOOT = re.compile(rf"^(?P<mark>[{_MARKS}]{{1,3}})\s*(?![=\s{_MARKS}])(?P<words>.+)$")
_MARKED = re.compile(rf"[{_MARKS}]+$")
_BETWEEN = re.compile(r"[\s,;/()\[\]]+")
_UNIT = re.compile(r"(?<![^\W\d])(?:[mµμun]g\s?/\s?[lL]|pp[mbt])\b", re.IGNORECASE)
# What a letter is taken for by default, where the words of a legend say the same.
_USUAL = {
    "U": r"not detect|undetect|non-?detect|less than|below",
    "J": r"estimat|approximat|between|below",
    "H": r"hold",
    "B": r"blank",
    "D": r"dilut",
    "R": r"reject|unusable",
    "E": r"range|calibrat|estimat",
}
_BELOW = re.compile(
    r"not detect|non-?detect|undetect|none detect|no detection|less than|\bbelow\b|nicht nachw"
    r"|no detectad|non detecte|unter (?:der )?(?:bestimm|nachweis)"
)
_ABOVE = re.compile(
    r"greater|more than|higher than|too numerous|tntc|confluent"
    r"|(?:above|exceed\w*|over) (?:the )?(?:upper|calib|quant|range|instrument)"
)
_FOUND = re.compile(
    r"not acceptable|unacceptable|unsatisf|unsafe|alarm|action needed|\bfail|positiv|nachgewiesen"
    r"|(?<!none )(?<!not )(?<!nothing )(?<!never )\bfound|(?<!not )(?<!none )\bpresent"
)
_NONE_FOUND = re.compile(
    r"none found|not found|\babsen|negativ|\bpass|acceptable|satisf|no bacteria|\bsafe\b"
)
_WEIGHTY = re.compile(r"\b(?:actual|reject\w*|invalid|correct\w*|revis\w*|hold\w*|blank)\b")
_AMENDED = re.compile(
    r"\b(?:revis(?:ed|ion)|correct(?:ed|ion)\b(?! (?:to|for|factor))|amend(?:ed|ment)|errat(?:um|a)"
    r"|korrektur|korrigiert|berichtig(?:t|ung)|correcci[oó]n|corregid[oa]s?|rectificad[oa]s?"
    r"|corrig[ée]e?s?|rectifi[ée]e?s?)\b",
    re.IGNORECASE,
)
_CORRECTED = re.compile(
    r"\b(?:revised|corrected|amended|korrigiert\w*|berichtigt\w*|corregid\w+|rectificad\w+"
    r"|corrig[ée]\w*|rectifi[ée]\w*)\b",
    re.IGNORECASE,
)
_NO_FIGURE = re.compile(
    r"\b(?:on|by|date|day|no|number|report|reason|am|von|por|par)\b", re.IGNORECASE
)
_PLAIN_NAME = re.compile(r"[(\[].*|,.*|\b(?:total|dissolved|as n|als no3)\b")


def amended_columns(heading: Cells) -> list[int]:
    """Columns under words such as `Revised result`, which hold figures that replace others."""
    found = (i for i, words in enumerate(heading) if _CORRECTED.search(words))
    return [i for i in found if not _NO_FIGURE.search(heading[i])]


@dataclass(slots=True)
class Legends:
    """The lines of a file that say what its marks mean, and which figures were amended.

    Attributes:
        catalogue: To know a parameter by its other names.
        meant: The words for each mark.
        amended: Sentences that tell of corrections.
    """

    catalogue: Catalogue
    meant: dict[str, str] = field(default_factory=dict)
    amended: list[str] = field(default_factory=list)
    _after_colon: dict[str, str] = field(default_factory=dict)  # less certain to be of a mark
    _corrected: dict[tuple[str, str], str] = field(default_factory=dict)  # by printed name and key

    @classmethod
    def of(cls, sheets: Iterable[Sheet], catalogue: Catalogue) -> "Legends":
        """What the lines of all sheets say."""
        found = cls(catalogue)
        for sheet in sheets:
            for index in sheet.rows_with(_may_tell):
                found._take(sheet.rows[index])
            for row in sheet.rows:
                if len(row) == _PAIR and _MARK.match(row[0].strip()):
                    found._take([f"{row[0].strip(' :')}: {row[1].strip()}"])
        found.meant = {**found._after_colon, **found.meant}
        return found

    def _take(self, row: Cells) -> None:
        cells = [cell.strip() for cell in row if cell.strip()]
        line = "  ".join(cells)[:_LONGEST]
        for entry in _ENTRY.finditer(line):
            self.meant.setdefault(entry["mark"], entry["words"].strip())
        for entry in _AFTER_COLON.finditer(line) if ":" in line else ():
            self._after_colon.setdefault(entry["mark"], entry["words"].strip())
        foot = _FOOT.match(line)
        if foot:
            self.meant.setdefault(foot["mark"], foot["words"].strip())
        # What a row of results says of itself is asked about there.
        if len(cells) <= _OF_A_SENTENCE and len(self.amended) < _MOST and _AMENDED.search(line):
            self.amended.append(line)

    def against(self, results: Sequence[NewResult]) -> Iterator[tuple[int, str]]:
        """Places of results of which a line says something else than was read, and that line."""
        if not (self.meant or self.amended):
            return
        for place, result in enumerate(results):
            words = self._of_marks(result) if self.meant else ""
            if self.amended and not words:
                key = result.name, result.parameter
                if key not in self._corrected:
                    self._corrected[key] = self._of_corrections(result)
                words = self._corrected[key]
            if words:
                yield place, words

    def _of_marks(self, result: NewResult) -> str:
        for mark in self._marks_of(result):
            words = self.meant.get(mark, "")
            if words and _differs(mark, words, result.reading):
                return f"{mark} = {words}"
        return ""

    def _marks_of(self, result: NewResult) -> list[str]:
        text, name = result.reading.text.strip(), result.name.strip()
        if not result.qualifier and text[-1:].isdigit() and name[-1:].isalnum():
            return []  # at once: a file may have 100,000 rows
        found = [part for part in _BETWEEN.split(result.qualifier) if part]
        parts = [part for part in _BETWEEN.split(text) if part]
        signs = (_MARKED.search(one) for one in (name, *parts, *found))
        found += [part for part in parts if not part[0].isdigit()]  # a figure is no mark
        return [*found, *(sign[0] for sign in signs if sign)]

    def _of_corrections(self, result: NewResult) -> str:
        known = self.catalogue.parameters.get(result.parameter)
        names = {_PLAIN_NAME.sub("", folded(name)).strip(" *") for name in
                 (result.name, known.name if known else "")} - {""}  # fmt: skip
        for line in self.amended:
            words = folded(line)
            if any(re.search(rf"\b{re.escape(name)}\b", words) for name in names):
                return line
        return ""


def _may_tell(cell: str) -> bool:
    if "=" in cell or cell.lstrip()[:1] in _MARKS:
        return bool(cell)
    if ":" in cell and _AFTER_COLON.search(cell):
        return True
    return not cell[:1].isdigit() and bool(_AMENDED.search(cell))


def _differs(mark: str, words: str, reading: Reading) -> bool:
    """Whether a legend says something else of a mark than its reading does."""
    said = folded(plain(words))
    unit = _UNIT.search(words)
    if unit and not _is_unit(unit[0], reading.unit):
        return True
    if mark in _USUAL and mark != reading.text.strip():
        return not re.search(_USUAL[mark], said)
    kinds = _kinds_of(said)
    if kinds:
        is_full = reading.flags & {Flag.OVERGROWN, Flag.OVER_RANGE} and Kind.ABOVE in kinds
        return reading.kind not in {*kinds, Kind.NONE} and not is_full
    if not lab_phrases.flags(said)[0] <= reading.flags:
        return True
    is_answer = mark == reading.text.strip() and reading.kind in {Kind.PRESENT, Kind.ABSENT}
    return is_answer or (bool(_WEIGHTY.search(said)) and not reading.flags)


def _kinds_of(said: str) -> set[Kind]:
    """The kinds of readings that words of a legend allow; none if they say nothing of it."""
    if _BELOW.search(said):
        return {Kind.BELOW, Kind.ABSENT}
    if _ABOVE.search(said):
        return {Kind.ABOVE}
    if _FOUND.search(said):
        return {Kind.PRESENT, Kind.NUMBER, Kind.ABOVE}
    return {Kind.ABSENT, Kind.BELOW} if _NONE_FOUND.search(said) else set()


def _is_unit(said: str, unit: str) -> bool:
    one, other = understand(said), understand(unit)
    return one is not None and other is not None and one.label == other.label
