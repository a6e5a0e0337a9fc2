"""Readings within sentences, such as `Your nitrate was 3.2 mg/L`; each of them is asked about."""

import re
from collections.abc import Collection, Iterator

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
_WORDS = r"(?P<figure>absent|present|not detected|not found|negative|positive|detected|found)"
_STATED = re.compile(
    rf"(?P<name>(?:[A-Za-z.-]+ ){{1,4}})(?:was|were|is|are) {_WORDS}\b(?P<unit>)", re.IGNORECASE
)
_NONE = re.compile(
    r"\b(?P<figure>no) (?P<name>(?:[A-Za-z.-]+ ){1,4})(?:was|were|is|are) "
    r"(?:found|detected|present|seen)\b(?P<unit>)",
    re.IGNORECASE,
)
_PLAIN = re.compile(
    rf"(?P<name>(?:[A-Za-z.-]+ ){{1,3}}){_FIGURE} ?"
    r"(?P<unit>[^\s\d/,.;]{1,4}/[^\s\d/,.;]+(?: as \w+)?|NTU|ppm|ppb)(?![\w/])"
)
_NO = re.compile(
    r"\b(?P<figure>no) (?P<name>(?:[A-Za-z.-]+ ?){1,2})(?=[,.;]|$)(?P<unit>)", re.IGNORECASE
)
_BEFORE = re.compile(rf"\b{_FIGURE}{_UNIT} (?:of |for )(?P<name>(?:[A-Za-z.-]+ ?){{1,3}})")
# What a sentence says of other water, another time or a rule is none of the household's readings.
_OTHER = re.compile(
    r"\b(limits?|guidelines?|standards?|maximum|allow(?:s|ed)|should|must|last|previous|earlier"
    r"|averages?|usual(?:ly)?|typical(?:ly)?|recommend\w*|exceeds?|above|county|neighbou?r\w*|EPA"
    r"|blank|spiked?|duplicate)\b",
    re.IGNORECASE,
)
_LINE = r"[^.!?\n]+(?:[.!?](?=\d| ?coli\b)[^.!?\n]*)*"
_SENTENCE = re.compile(rf"{_LINE}(?:\n(?!\n){_LINE})*")
_MEASURED = re.compile(rf"(?<![\w.,]){_FIGURE} ?[^\s\d/,.;]{{1,4}}/[^\s\d/,.;]+")
_PATTERNS = (
    *((_AFTER, True), (_BEFORE, False), (_STATED, True)),
    *((_NONE, True), (_PLAIN, True), (_NO, False)),
)
_FILLERS = frozenset({"came", "out", "level", "levels", "content", "reading", "concentration"})
MOST_LINES = 3_000  # of a letter; our own bounds
_MOST = 100_000  # characters of a letter; our own bound, as the next
_MOST_WORDS = 12  # of a line among which a name is looked for
_LONGEST = 1_000  # characters of a sentence


def text_of(sheet: Sheet) -> str:
    """What the rows of a page say, a line for each."""
    return "\n".join(" ".join(filter(None, row)) for row in sheet.rows)


def sheet_of(text: str, catalogue: Catalogue, source: tuple[Line, ...] = ()) -> Sheet | None:
    """The lines of a letter, and below them the readings of its sentences; None without any.

    Args:
        text: The letter.
        catalogue: To know a parameter's name.
        source: Where each line stands, if not in the row of its own number.
    """
    found = _readings(text, catalogue) if len(text) <= _MOST else {}
    if not found:
        return None
    rows: list[Cells] = [[line.strip()] for line in text.split("\n")]
    lines = list(source or map(Line, range(1, len(rows) + 1)))
    rows.append(["Parameter", "Result", "Unit"])
    lines.append(lines[-1])
    for at in sorted(found):
        rows.append(found[at])
        lines.append(lines[_line(text, at) - 1])
    said = _("Read from sentences: compare each figure with the letter before you keep it.")
    return Sheet("", rows, findings=(Finding(PROSE, said),), lines=tuple(lines), text=text)


def left_in(text: str, catalogue: Catalogue) -> Iterator[tuple[str, int]]:
    """Figures with a unit of which no reading was made, each with its line."""
    taken = _readings(text, catalogue)
    for found in _MEASURED.finditer(text):
        at = found.start("figure")
        if at not in taken:
            yield found["figure"], _line(text, at)


def told_beside(
    text: str, catalogue: Catalogue, known: Collection[int]
) -> Iterator[tuple[str, int]]:
    """Results that sentences tell beside a table, and figures in lines that name a parameter.

    Args:
        text: The letter.
        catalogue: To know a parameter's name.
        known: Numbers of the lines of which results were made, or of which it is said why not.
    """
    if len(text) > _MOST:
        return
    told = {at: cells[1] for at, cells in _readings(text, catalogue).items()}
    for found in _MEASURED.finditer(text):
        words = re.findall(r"[^\W\d_][\w.-]*", _line_at(text, found.start()))[:_MOST_WORDS]
        if any(_name(words[i : i + 3], catalogue, is_last=False) for i in range(len(words))):
            told.setdefault(found.start("figure"), found["figure"])
    for at in sorted(told):
        if _line(text, at) not in known:
            yield told[at], _line(text, at)


def _line_at(text: str, at: int) -> str:
    end = text.find("\n", at)
    return text[text.rfind("\n", 0, at) + 1 : end if end >= 0 else len(text)]


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _readings(text: str, catalogue: Catalogue) -> dict[int, Cells]:
    """Name, figure and unit of each reading, by where its figure stands in the text."""
    made: dict[int, Cells] = {}
    for sentence in _SENTENCE.finditer(text):
        words = sentence[0][:_LONGEST].replace("\n", " ")
        if _OTHER.search(words):
            continue
        for pattern, is_last in _PATTERNS:
            for found in pattern.finditer(words):
                said = found["name"].split()
                if pattern is not _NONE and {"no", "not", "never"} & set(map(str.lower, said)):
                    continue  # `No coliform was found` says the opposite of `was found`
                name = _name(said, catalogue, is_last=is_last)
                if name and (
                    found["unit"] or name.casefold() == "ph" or found["figure"][0].isalpha()
                ):
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
