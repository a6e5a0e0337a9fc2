"""Readings within sentences, such as `Your nitrate was 3.2 mg/L`; each of them is asked about."""

import re
from collections.abc import Iterator

from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding

PROSE = "prose"  # doubt of every figure that was read from a sentence
_LESS = r"(?:below |less than |under |< ?)?"
_FIGURE = rf"(?P<figure>{_LESS}\d[\d.,]*\d|{_LESS}\d)"
_UNIT = r"(?: ?(?P<unit>[^\s\d/,.;]{1,4}/[^\s\d/,.;]+(?: as \w+)?|NTU|ppm|ppb)\b)?"
_AFTER = re.compile(
    r"(?P<name>(?:[A-Za-z.-]+ ){1,4})(?:was|were|is|are|at|of|came out at|came to|measured|reads?) "
    rf"(?:only |about )?{_FIGURE}{_UNIT}"
)
_BEFORE = re.compile(rf"\b{_FIGURE}{_UNIT} (?:of |for )(?P<name>(?:[A-Za-z.-]+ ?){{1,3}})")
# What a sentence says of other water, another time or a rule is none of the household's readings.
_OTHER = re.compile(
    r"\b(limits?|guidelines?|standards?|maximum|allow(?:s|ed)|should|must|last|previous|earlier"
    r"|averages?|usual(?:ly)?|typical(?:ly)?|recommend\w*|exceeds?|above|county|neighbou?r\w*|EPA"
    r"|blank|spiked?|duplicate)\b",
    re.IGNORECASE,
)
_LINE = r"[^.!?\n]+(?:[.!?](?=\d)[^.!?\n]*)*"
_SENTENCE = re.compile(rf"{_LINE}(?:\n(?!\n){_LINE})*")
_MEASURED = re.compile(rf"(?<![\w.,]){_FIGURE} ?[^\s\d/,.;]{{1,4}}/[^\s\d/,.;]+")
_FILLERS = frozenset({"came", "out", "level", "levels", "content", "reading", "concentration"})
_MOST = 100_000  # characters of a letter; our own bound, as the next
_LONGEST = 1_000  # characters of a sentence


def sheet_of(text: str, catalogue: Catalogue) -> Sheet | None:
    """The lines of a letter, and below them the readings of its sentences; None without any."""
    found = _readings(text, catalogue) if len(text) <= _MOST else {}
    if not found:
        return None
    rows: list[Cells] = [[line.strip()] for line in text.splitlines()]
    lines = [Line(number) for number in range(1, len(rows) + 1)]
    rows.append(["Parameter", "Result", "Unit"])
    lines.append(Line(len(rows) - 1))
    for at in sorted(found):
        rows.append(found[at])
        lines.append(Line(_line(text, at)))
    said = _("Read from sentences: compare each figure with the letter before you keep it.")
    return Sheet("", rows, findings=(Finding(PROSE, said),), lines=tuple(lines), text=text)


def left_in(text: str, catalogue: Catalogue) -> Iterator[tuple[str, int]]:
    """Figures with a unit of which no reading was made, each with its line."""
    taken = _readings(text, catalogue)
    for found in _MEASURED.finditer(text):
        at = found.start("figure")
        if at not in taken:
            yield found["figure"], _line(text, at)


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _readings(text: str, catalogue: Catalogue) -> dict[int, Cells]:
    """Name, figure and unit of each reading, by where its figure stands in the text."""
    made: dict[int, Cells] = {}
    for sentence in _SENTENCE.finditer(text):
        words = sentence[0][:_LONGEST].replace("\n", " ")
        if _OTHER.search(words):
            continue
        for pattern, is_last in ((_AFTER, True), (_BEFORE, False)):
            for found in pattern.finditer(words):
                name = _name(found["name"].split(), catalogue, is_last=is_last)
                if name and (found["unit"] or name.casefold() == "ph"):
                    cells = [name, found["figure"], found["unit"] or ""]
                    made.setdefault(sentence.start() + found.start("figure"), cells)
    return made


def _name(words: list[str], catalogue: Catalogue, *, is_last: bool) -> str:
    """The longest run of words, at the end or the beginning, that names a parameter."""
    words = [word for word in words if word not in _FILLERS]
    for n in range(len(words), 0, -1):
        name = " ".join(words[-n:] if is_last else words[:n])
        if catalogue.find(name):
            return name
    return ""
